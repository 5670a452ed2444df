"""The documentation: generated pages are up to date, every snippet runs, every link leads somewhere."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import levelswap as ls
import pytest
from conftest import DEMO, ROOT

DOCS = ROOT / "docs"
PAGES = sorted(DOCS.rglob("*.md"))
COMMAND = Path(sys.executable).parent / "levelswap"


def name_of(page: Path) -> str:
    return str(page.relative_to(DOCS))


def blocks(page: Path, language: str) -> list[str]:
    return re.findall(
        rf"^```{language}\n(.*?)^```$", page.read_text(encoding="utf-8"), re.MULTILINE | re.DOTALL
    )


def pages_with(language: str) -> list[Path]:
    return [page for page in PAGES if blocks(page, language)]


@pytest.mark.parametrize(
    ("maker", "page"), [("make_rule_page", "rules.md"), ("make_diagnostics_page", "diagnostics.md")]
)
def test_generated_page_is_up_to_date(maker: str, page: str, tmp_path: Path) -> None:
    script = ROOT / "tests" / "support" / f"{maker}.py"
    subprocess.run([sys.executable, str(script), str(tmp_path / page)], check=True)
    made = (tmp_path / page).read_text(encoding="utf-8")
    assert made == (DOCS / page).read_text(encoding="utf-8"), f"run: python tests/support/{maker}.py"


def test_rule_page_has_every_rule() -> None:
    headings = re.findall(r"^### (\S+)$", (DOCS / "rules.md").read_text(encoding="utf-8"), re.MULTILINE)
    assert headings == [rule.id for rule in ls.rules()]


def test_diagnostics_page_has_every_code_of_the_table() -> None:
    """Counted in the source by another pattern than the maker's."""
    source = (ROOT / "cpp" / "src" / "base" / "diagnostic_codes.cpp").read_text(encoding="utf-8")
    headings = re.findall(r"^### (\S+)$", (DOCS / "diagnostics.md").read_text(encoding="utf-8"), re.MULTILINE)
    assert sorted(headings) == sorted(re.findall(r"LS-[A-Z]\d{3}", source))


@pytest.mark.parametrize("page", pages_with("python"), ids=name_of)
def test_python_snippets_of_a_page_run_from_top_to_bottom(
    page: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(ROOT)
    names: dict[str, Any] = {}
    for block in blocks(page, "python"):
        exec(compile(block, name_of(page), "exec"), names)


@pytest.mark.parametrize("page", pages_with("sh"), ids=name_of)
def test_command_of_a_page_is_understood(page: Path) -> None:
    for line in "".join(blocks(page, "sh")).splitlines():
        ran = subprocess.run(
            ["sh", "-c", line.replace("levelswap ", f"'{COMMAND}' ", 1)],
            cwd=ROOT,
            capture_output=True,
            text=True,
        )
        assert ran.returncode in (0, 1, 3), f"{line}\n{ran.stderr}"
        assert ran.stdout, line


FILES = [
    (page, folder)
    for page in PAGES
    for folder in ("parts", "packs", "sites", "swaps")
    if blocks(page, f"yaml {folder}")
]


@pytest.mark.parametrize(("page", "folder"), FILES, ids=lambda x: name_of(x) if isinstance(x, Path) else x)
def test_file_of_a_page_is_sound(page: Path, folder: str, catalog: ls.Catalog, tmp_path: Path) -> None:
    for name in ("parts", "packs", "sites", "swaps"):
        (tmp_path / name).mkdir()
        for demo_file in (DEMO / name).glob("*.yaml"):
            (tmp_path / name / demo_file.name).write_bytes(demo_file.read_bytes())
    for number, block in enumerate(blocks(page, f"yaml {folder}")):
        (tmp_path / folder / f"snippet_{number}.yaml").write_text(block, encoding="utf-8")
    assert [str(diagnostic) for diagnostic in ls.validate(str(tmp_path))] == []


@pytest.mark.parametrize("page", PAGES, ids=name_of)
def test_link_of_a_page_leads_to_a_file(page: Path) -> None:
    for target in re.findall(r"\]\(([^)#]+)[^)]*\)", page.read_text(encoding="utf-8")):
        assert (page.parent / target).is_file(), target


def test_reasons_are_numbered_without_gaps() -> None:
    numbers = [int(path.name[:4]) for path in sorted((DOCS / "reasons").glob("*.md"))]
    assert numbers == list(range(1, len(numbers) + 1))
    for path in sorted((DOCS / "reasons").glob("*.md")):
        assert path.read_text(encoding="utf-8").startswith(f"# {int(path.name[:4])}. "), path.name
