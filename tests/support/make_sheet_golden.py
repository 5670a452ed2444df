"""Writes tests/golden/sheet_*: ``python tests/support/make_sheet_golden.py [FOLDER]``. Read what changed like prose."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import levelswap as ls

ROOT = Path(__file__).resolve().parents[2]
# A usual one, one that moves a level, one that is refused; a transmitter, a tank, a boiler without a glass.
SHOWN = (
    "like_for_like",
    "same_head_in_deep_column",
    "slide_wire_in_low_column",
    "calibrated_on_a_cold_boiler",
    "float_valve_to_two_probes",
    "lockout_in_the_hostel",
)


def make_golden(folder: Path) -> list[Path]:
    """Write text, page and document of the sheets shown, and return their paths."""
    catalog = ls.Catalog.load(str(ROOT / "demo_catalog"))
    made = []
    for name in SHOWN:
        swap = ls.Swap.load(str(ROOT / "demo_catalog" / "swaps" / f"{name}.yaml"))
        sheet = ls.sheet(catalog, ls.Site.load(swap.site_path, catalog), put=swap.put)
        document = json.dumps(json.loads(sheet.json), indent=1, ensure_ascii=False) + "\n"
        for kind, text in (("txt", sheet.text()), ("html", sheet.html()), ("json", document)):
            path = folder / f"sheet_{name}.{kind}"
            path.write_text(text, encoding="utf-8")
            made.append(path)
    return made


if __name__ == "__main__":
    make_golden(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "tests" / "golden")
