"""Writes the type stub of the extension module: ``python tests/support/make_stub.py [FOLDER]``.

The stub comes from the built module. Only the members of the enum are put into the form
that type checkers know as enum members.
"""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import levelswap


def make_stub(folder: Path) -> Path:
    """Write ``levelswap/_core.pyi`` below a folder and return its path."""
    subprocess.run(
        [sys.executable, "-m", "pybind11_stubgen", "levelswap._core", "-o", str(folder), "--exit-code"],
        check=True,
    )
    stub = folder / "levelswap" / "_core.pyi"
    text = stub.read_text(encoding="utf-8")
    text = re.sub(r"    @classmethod\n    def __new__\(cls, value\):\n        \.\.\.\n", "", text)
    for member in levelswap.Outcome:
        declared = f"    {member.name}: typing.ClassVar[Outcome]\n"
        text = text.replace(declared, f"    {member.name} = {member.value}\n")
    stub.write_text(text, encoding="utf-8")
    return stub


if __name__ == "__main__":
    make_stub(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parents[2] / "python")
