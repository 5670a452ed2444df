"""docs/failures.md names, for each of the forty-eight ways, what catches it and a file that shows it."""

from __future__ import annotations

import re
from pathlib import Path

import levelswap as ls

ROOT = Path(__file__).resolve().parents[2]
RULES = {rule.id: rule for rule in ls.rules()}
ANSWER_PARTS = {"shifts", "differences", "ask_always"}


def rows() -> list[list[str]]:
    text = (ROOT / "docs" / "failures.md").read_text(encoding="utf-8")
    return [
        [cell.strip() for cell in line.strip("|").split("|")]
        for line in text.splitlines()
        if re.match(r"\| \d+ \|", line)
    ]


def named_in(row: list[str]) -> list[str]:
    return re.findall(r"`([a-z_.]+)`", row[3])


def shown_by(row: list[str]) -> list[Path]:
    return [(ROOT / "docs" / link).resolve() for link in re.findall(r"\]\(([^)]+)\)", row[4])]


def test_there_are_forty_eight_rows_in_order() -> None:
    assert [int(row[0]) for row in rows()] == list(range(1, 49))


def test_every_row_names_a_rule_or_a_part_of_the_answer_that_exists() -> None:
    for row in rows():
        names = named_in(row)
        assert names, row
        for name in names:
            assert name in RULES or (name in ANSWER_PARTS and hasattr(ls.Verdict, name)), (row[0], name)


def test_every_rule_of_a_row_has_a_case_that_does_not_hold() -> None:
    for row in rows():
        rules = [name for name in named_in(row) if name in RULES]
        cases = [path for path in shown_by(row) if "cases" in path.parts]
        for rule in rules:
            mine = [
                path
                for path in cases
                if re.search(rf"^rule: {re.escape(rule)}$", path.read_text(encoding="utf-8"), re.M)
            ]
            assert mine, (row[0], rule)
            for path in mine:
                assert re.search(r"^expect: (fails|undecided)$", path.read_text(encoding="utf-8"), re.M), path


def test_every_part_of_the_answer_is_shown_by_a_test_that_speaks_of_it() -> None:
    for row in rows():
        for name in set(named_in(row)) & ANSWER_PARTS:
            texts = [path.read_text(encoding="utf-8") for path in shown_by(row)]
            assert any(name in text for text in texts), (row[0], name)


def test_rows_of_judgement_say_so_to_the_user() -> None:
    for row in rows():
        if "[J]" not in row[2]:
            continue
        sources = [RULES[name].source for name in named_in(row) if name in RULES]
        assert any("common practice" in source for source in sources), (row[0], sources)
