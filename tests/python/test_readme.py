"""What the README shows is what the program prints."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import levelswap as ls

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_refusal_in_the_readme_is_the_real_output() -> None:
    command = re.search(r"\$ levelswap (check \S+)", README)
    block = re.search(r"```\n(DOES NOT FIT.*?)\n\.\.\.\n```", README, re.DOTALL)
    assert command and block
    run = subprocess.run(
        [str(Path(sys.executable).with_name("levelswap")), *command.group(1).split()],
        cwd=ROOT, capture_output=True, text=True, check=False,
    )
    assert run.returncode == 1
    assert run.stdout.startswith(block.group(1))


def test_the_python_example_in_the_readme_runs(monkeypatch, capsys) -> None:
    example = re.search(r"```python\n(.*?)```", README, re.DOTALL)
    assert example
    monkeypatch.chdir(ROOT)
    names: dict[str, object] = {}
    exec(compile(example.group(1), "README.md", "exec"), names)
    assert isinstance(names["verdict"], ls.Verdict)
    assert "Outcome." in capsys.readouterr().out


def test_the_command_line_example_without_a_file_answers() -> None:
    run = subprocess.run(
        [str(Path(sys.executable).with_name("levelswap")), "check", "--site", "demo_catalog/sites/north_quay.yaml",
         "--put", "primary.switch_set=mate set"],
        cwd=ROOT, capture_output=True, text=True, check=False,
    )
    assert run.returncode in (0, 1, 3)
    assert run.stdout.split(":")[0] in {"FITS", "DOES NOT FIT", "CANNOT TELL"}
