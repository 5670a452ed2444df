"""The setting and proving sheet: for every demo swap, in text, page and document, and on the command line."""

from __future__ import annotations

import copy
import html
import json
import pickle
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import levelswap as ls
import pytest
from conftest import DEMO, ROOT, swap_files
from jsonschema import Draft7Validator

SCHEMA = json.loads((ROOT / "catalog_schema/v1/sheet.schema.json").read_text(encoding="utf-8"))
ANSWER_SCHEMA = json.loads((ROOT / "catalog_schema/v1/answer.schema.json").read_text(encoding="utf-8"))
PROGRAM = Path(sys.executable).parent / "levelswap"
EXIT_CODE = {ls.Outcome.FITS: 0, ls.Outcome.DOES_NOT_FIT: 1, ls.Outcome.CANNOT_TELL: 3}
EVERY_SWAP = pytest.mark.parametrize("file", swap_files(), ids=lambda file: file.stem)
FIT = DEMO / "swaps" / "like_for_like.yaml"
REFUSAL = DEMO / "swaps" / "slide_wire_in_low_column.yaml"


def sheet_of(file: Path, catalog: ls.Catalog, units: str = "us") -> ls.Sheet:
    swap = ls.Swap.load(str(file))
    return ls.sheet(catalog, ls.Site.load(swap.site_path, catalog), put=swap.put, units=units)


def run(*arguments: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run([str(PROGRAM), *map(str, arguments)], capture_output=True, text=True, cwd=ROOT)


class Page(HTMLParser):
    """What a page is made of; complains about what does not nest."""

    VOID = ("meta", "br", "hr")

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self.open and self.open[-1] != "style":
            self.words += data.split()

    def count(self, tag: str) -> int:
        return sum(name == tag for name, _ in self.elements)


def test_published_schema_is_a_draft_07_schema() -> None:
    Draft7Validator.check_schema(SCHEMA)


@EVERY_SWAP
@pytest.mark.parametrize("units", ["us", "si"])
def test_document_of_every_sheet_satisfies_the_schema(file: Path, units: str, catalog: ls.Catalog) -> None:
    Draft7Validator(SCHEMA).validate(json.loads(sheet_of(file, catalog, units).json))


@EVERY_SWAP
def test_only_a_swap_that_fits_has_settings_and_steps(file: Path, catalog: ls.Catalog) -> None:
    sheet = sheet_of(file, catalog)
    fits = sheet.outcome is ls.Outcome.FITS
    assert bool(sheet.steps) == bool(sheet.levels) == bool(sheet.wiring) == bool(sheet.states) == fits
    assert bool(sheet.wrong) == bool(sheet.reason) == (not fits)
    if fits:
        assert sheet.walk.faults == ()


@EVERY_SWAP
def test_outcome_of_a_sheet_is_that_of_the_check(file: Path, catalog: ls.Catalog) -> None:
    swap = ls.Swap.load(str(file))
    verdict = ls.check(catalog, ls.Site.load(swap.site_path, catalog), put=swap.put)
    sheet = sheet_of(file, catalog)
    assert (sheet.outcome, sheet.answer, sheet.reason) == (verdict.outcome, verdict.answer, verdict.reason)
    assert sheet.questions == verdict.questions


@EVERY_SWAP
def test_abort_rule_stands_on_every_sheet_in_every_form(file: Path, catalog: ls.Catalog) -> None:
    sheet = sheet_of(file, catalog)
    tank = "kind: tank" in Path(ls.Swap.load(str(file)).site_path).read_text()
    rule = "loses its level from sight: burner off, never feed" if tank else "If the level goes out of sight: burner off, never feed"
    assert rule in sheet.abort_rule
    assert rule in " ".join(sheet.text().split())
    assert rule in " ".join(Page(sheet.html()).words)


@EVERY_SWAP
@pytest.mark.parametrize("units", ["us", "si"])
def test_text_fits_80_columns_and_begins_with_the_answer(
    file: Path, units: str, catalog: ls.Catalog
) -> None:
    sheet = sheet_of(file, catalog, units)
    lines = sheet.text().splitlines()
    assert max(map(len, lines)) <= 80
    assert sheet.answer.startswith(lines[0].rstrip())


@EVERY_SWAP
def test_page_stands_alone_and_names_its_rows_and_columns(file: Path, catalog: ls.Catalog) -> None:
    text = sheet_of(file, catalog).html()
    page = Page(text)
    assert dict(page.elements)["html"] == {"lang": "en"}
    assert page.count("h1") == 1 and page.count("title") == 1 and page.count("h2") >= 3
    assert all(attributes.get("scope") in ("row", "col") for tag, attributes in page.elements if tag == "th")
    assert page.count("table") == page.count("thead") == page.count("tbody")
    for tag, attributes in page.elements:
        assert tag not in ("script", "link", "img", "iframe", "object", "form")
        assert not set(attributes) & {"src", "href", "style", "onclick", "onload"}
    assert not re.search(r"https?:|//|@import|url\(", text.replace("<!DOCTYPE html>", ""))
    assert "default-src 'none'" in text


def test_page_prints_in_black_and_white_with_no_step_broken_across_pages(catalog: ls.Catalog) -> None:
    """CSS Fragmentation 3: break-inside and break-before; @page without a size prints on A4 and on Letter."""
    text = sheet_of(FIT, catalog).html()
    style = re.search(r"<style>(.*?)</style>", text, re.DOTALL)
    assert style is not None
    colours = set(re.findall(r"#[0-9a-f]{3,6}", style[1]))
    assert colours == {"#fff", "#000"}
    printed = style[1].split("@media print")[1]
    assert re.search(r"section\.step[^{]*\{ break-inside: avoid", printed)
    assert ".proving { break-before: page" in printed
    assert re.search(r"@page \{ margin: \d+mm; \}", style[1])
    assert Page(text).elements.count(("section", {"class": "step"})) == len(sheet_of(FIT, catalog).steps)


@EVERY_SWAP
def test_each_value_of_a_document_is_in_the_text_and_in_the_page(file: Path, catalog: ls.Catalog) -> None:
    sheet = sheet_of(file, catalog)
    shown = {"text": " ".join(sheet.text().split()), "page": " ".join(Page(sheet.html()).words)}
    texts = [level for row in sheet.levels for level in (row.falling, row.rising, row.old_falling, row.old_rising)]
    texts += [check.text for step in sheet.steps for check in step.checks]
    texts += [check.expected for step in sheet.steps for check in step.checks]
    texts += [text for row in sheet.wiring for text in (row.contact, row.terminals, row.supply, row.load, row.rating)]
    texts += [row.protection for row in sheet.wiring]
    texts += [text for row in sheet.states for text in (row.float_stuck, row.wire_open, row.wire_shorted)]
    texts += [*sheet.fixed, *sheet.adjustments, *sheet.consumables, *sheet.packs, *sheet.wrong, *sheet.walk.faults, *sheet.differences, sheet.datum]
    texts += [caution.text for caution in sheet.cautions]
    for name, whole in shown.items():
        for text in texts:
            assert text in whole, f"{text!r} is not in the {name}"


def test_markup_in_a_name_stays_text_in_the_page(tmp_path: Path, catalog: ls.Catalog) -> None:
    name = "<img src=x onerror=alert(1)> & \"quay\" 'boiler'"
    text = (DEMO / "sites" / "north_quay.yaml").read_text(encoding="utf-8")
    file = tmp_path / "site.yaml"
    file.write_text(text.replace("name: north quay boiler", f"name: {json.dumps(name)}"), encoding="utf-8")
    site = ls.Site.load(str(file), catalog)
    sheet = ls.sheet(catalog, site, put={"primary.switch_set": "twin stage set"})
    assert sheet.site == name
    assert name not in sheet.html() and html.unescape(sheet.html()).count(name) == 2  # title and heading
    assert Page(sheet.html()).count("img") == 0
    assert json.loads(sheet.json)["site"] == name


def test_a_step_is_there_only_when_the_assembly_has_what_it_proves(catalog: ls.Catalog) -> None:
    with_alarms = sheet_of(FIT, catalog)
    with_slide_wire = sheet_of(DEMO / "swaps" / "same_head_in_deep_column.yaml", catalog)
    assert [step.number for step in with_alarms.steps] == list(range(9))
    assert [step.number for step in with_slide_wire.steps] == list(range(8))  # no alarm: no high water, and no gap
    checks = " ".join(check.text for step in with_slide_wire.steps for check in step.checks)
    assert "alarm" not in checks and "pump" not in checks and "feed valve is seen shut" in checks


def test_levels_of_the_steps_are_those_of_the_setting_sheet(catalog: ls.Catalog) -> None:
    sheet = sheet_of(FIT, catalog)
    known = {level for row in sheet.levels for level in (row.falling, row.rising)}
    asked = [check.expected for step in sheet.steps for check in step.checks if check.blank == "level"]
    assert len(asked) >= 10
    assert all(any(level in expected for level in known) for expected in asked)


def test_cautions_are_those_of_the_work_and_no_others(catalog: ls.Catalog) -> None:
    def work(name: str) -> set[str]:
        return {caution.work for caution in sheet_of(DEMO / "swaps" / f"{name}.yaml", catalog).cautions}

    assert work("like_for_like") == {"any work", "switch"}
    assert work("same_head_in_deep_column") == {"any work", "switch", "pressure part"}
    assert work("thin_column") == {"any work", "switch", "pressure part"}  # the head comes away with its set
    assert work("glass_shows_too_low") == {"any work", "pressure part"}
    assert work("mercury_set") == {"any work", "switch", "mercury"}


def test_sheet_is_an_immutable_value_that_pickles(catalog: ls.Catalog) -> None:
    sheet = sheet_of(FIT, catalog)
    values: list[Any] = [sheet, sheet.walk, *sheet.walk.events, *sheet.levels, *sheet.wiring, *sheet.states]
    values += [*sheet.mountings, *sheet.steps, *sheet.steps[0].checks, *sheet.cautions]
    for value in values:
        assert pickle.loads(pickle.dumps(value)) == value == copy.deepcopy(value)
        assert hash(copy.deepcopy(value)) == hash(value)
        assert "\n" not in repr(value) and repr(value).isascii()
        with pytest.raises(AttributeError):
            value.text = None
    assert sheet != sheet_of(REFUSAL, catalog)


def test_walk_of_a_refused_slide_wire_says_where_the_valve_sticks(catalog: ls.Catalog) -> None:
    walk = sheet_of(REFUSAL, catalog).walk
    assert walk.faults == (
        "The feed valve sticks at 37 % to 57 % open, since the float's reach ends at the ceiling of the "
        "chamber: it cannot close and the boiler overfills.",
    )
    assert walk.valve[-1].level == "the float does not reach it"
    assert "valve shut" not in " ".join(event.effect for event in walk.events)


def test_events_of_a_fit_happen_in_the_order_of_falling_and_rising_water(catalog: ls.Catalog) -> None:
    events = sheet_of(FIT, catalog).walk.events
    falling = [event.nominal for event in events if event.phase == "falling"]
    rising = [event.nominal for event in events if event.phase == "rising"]
    assert falling == sorted(falling, reverse=True) and rising == sorted(rising)
    assert [event.effect for event in events if event.phase == "falling"][:3] == [
        "pump on",
        "low alarm sounds",
        "burner off",
    ]
    assert all(event.lowest <= event.nominal <= event.highest for event in events)


def test_golden_sheets_are_up_to_date(tmp_path: Path) -> None:
    maker = ROOT / "tests" / "support" / "make_sheet_golden.py"
    subprocess.run([sys.executable, str(maker), str(tmp_path)], check=True)
    names = sorted(path.name for path in tmp_path.iterdir())
    assert names == sorted(path.name for path in (ROOT / "tests" / "golden").glob("sheet_*"))
    for name in names:
        committed = (ROOT / "tests" / "golden" / name).read_text(encoding="utf-8")
        made = (tmp_path / name).read_text(encoding="utf-8")
        assert committed == made, f"{name}: run python tests/support/make_sheet_golden.py and read the change"


@EVERY_SWAP
def test_command_gives_the_exit_code_of_the_outcome_and_one_document(file: Path, catalog: ls.Catalog) -> None:
    done = run("sheet", file, "--json")
    sheet = sheet_of(file, catalog)
    assert done.returncode == EXIT_CODE[sheet.outcome]
    assert json.loads(done.stdout) == json.loads(sheet.json)


def test_command_writes_the_text_and_the_page(tmp_path: Path, catalog: ls.Catalog) -> None:
    sheet = sheet_of(FIT, catalog)
    assert run("sheet", FIT).stdout == sheet.text()
    assert run("sheet", FIT, "--html", "-").stdout == sheet.html()
    page = tmp_path / "sheet.html"
    done = run("sheet", FIT, "--html", page)
    assert (done.returncode, done.stdout) == (0, sheet.answer + "\n")
    assert page.read_text(encoding="utf-8") == sheet.html()
    assert run("sheet", FIT, "--units", "si").stdout == sheet_of(FIT, catalog, "si").text()


def test_command_takes_a_site_and_what_is_put_in(catalog: ls.Catalog) -> None:
    swap = ls.Swap.load(str(FIT))
    puts = [f"--put={position}={part}" for position, part in swap.put.items()]
    done = run("sheet", "--catalog", DEMO, "--site", swap.site_path, *puts)
    assert (done.returncode, done.stdout) == (0, sheet_of(FIT, catalog).text())


def test_wrong_call_of_the_command_ends_with_2_and_a_bad_file_with_4(tmp_path: Path) -> None:
    folder = tmp_path / "no such folder" / "sheet.html"
    for arguments in (["sheet"], ["sheet", FIT, "--html", folder], ["sheet", FIT, "--json", "--html", "-"]):
        assert run(*arguments).returncode == 2
        done = run(*arguments, "--json")
        assert done.returncode == 2
        Draft7Validator(ANSWER_SCHEMA).validate(json.loads(done.stdout))
    assert run("sheet", tmp_path / "none.yaml").returncode == 4


def test_help_of_the_command_shows_an_example_within_80_columns() -> None:
    done = run("sheet", "--help")
    assert done.returncode == 0
    assert 0 < done.stdout.index("Example:") < done.stdout.index("Options:")
    assert max(map(len, done.stdout.splitlines())) <= 80


def test_sheet_is_the_same_in_two_processes() -> None:
    assert run("sheet", REFUSAL, "--json").stdout == run("sheet", REFUSAL, "--json").stdout
