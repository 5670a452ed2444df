"""The committed stub says what the built module has."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def test_committed_stub_equals_the_one_generated_from_the_build(tmp_path: Path) -> None:
    maker = ROOT / "tests" / "support" / "make_stub.py"
    subprocess.run([sys.executable, str(maker), str(tmp_path)], check=True, cwd=tmp_path)
    generated = (tmp_path / "levelswap" / "_core.pyi").read_text(encoding="utf-8")
    committed = (ROOT / "python" / "levelswap" / "_core.pyi").read_text(encoding="utf-8")
    assert committed == generated, "run: python tests/support/make_stub.py"


def test_package_passes_the_type_checker(tmp_path: Path) -> None:
    checked = subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--cache-dir", str(tmp_path), "python/levelswap"],
        capture_output=True,
        text=True,
        cwd=ROOT,
    )
    assert checked.returncode == 0, checked.stdout + checked.stderr


def test_use_of_the_package_passes_the_type_checker(tmp_path: Path) -> None:
    use = tmp_path / "use.py"
    use.write_text(
        "import levelswap as ls\n"
        "catalog = ls.Catalog.load('demo_catalog')\n"
        "site = ls.Site.load('site.yaml', catalog)\n"
        "verdict: ls.Verdict = ls.check(catalog, site, put={'primary.head': 'quay head'}, units='si')\n"
        "margin: str = verdict.findings[0].margin\n"
        "fits: bool = verdict.outcome is ls.Outcome.FITS\n"
        "best: tuple[str, ...] = ls.alternatives(catalog, site, put={}).keep[0].tuples[0]\n",
        encoding="utf-8",
    )
    checked = subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--cache-dir", str(tmp_path / "cache"), str(use)],
        capture_output=True,
        text=True,
        cwd=tmp_path,
    )
    assert checked.returncode == 0, checked.stdout + checked.stderr
