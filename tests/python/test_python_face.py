"""The Python face: values that cannot change, errors that say where, nothing hidden in truth values."""

from __future__ import annotations

import copy
import json
import logging
import pickle
import shutil
import subprocess
import sys
import threading
from pathlib import Path
from typing import Any

import pytest
from conftest import swap_files

import levelswap as ls

CASES = Path(__file__).parents[1] / "cases" / "base"
OTHER_PROCESS = """
import pickle, sys
import levelswap as ls
catalog, site, put = pickle.load(sys.stdin.buffer)
sys.stdout.write(ls.check(catalog, site, put=put).to_json())
"""


@pytest.fixture(scope="module")
def verdict(catalog: ls.Catalog, site: ls.Site, swap: ls.Swap) -> ls.Verdict:
    return ls.check(catalog, site, put=swap.put)


@pytest.fixture(scope="module")
def instead(catalog: ls.Catalog, site: ls.Site, swap: ls.Swap) -> ls.Alternatives:
    return ls.alternatives(catalog, site, put=swap.put)


@pytest.fixture(scope="module")
def values(
    catalog: ls.Catalog, site: ls.Site, swap: ls.Swap, verdict: ls.Verdict, instead: ls.Alternatives
) -> list[Any]:
    nested = [*verdict.findings, *verdict.questions, *instead.keep, *instead.blocked, *instead.ruled_out]
    part = catalog.part(catalog.parts[0])
    return [catalog, part, site, swap, verdict, instead, ls.rules()[0], *nested]


def test_members_cannot_be_changed(values: list[Any]) -> None:
    for value in values:
        shown = [name for name in dir(value) if not name.startswith("_")]
        names = [name for name in shown if not callable(getattr(value, name))]
        assert names, f"{value!r} shows nothing"
        for name in names:
            with pytest.raises(AttributeError):
                setattr(value, name, None)


def test_lists_of_a_verdict_are_tuples(verdict: ls.Verdict) -> None:
    for name in ("findings", "questions", "cautions", "changes", "wiring", "settings", "packs"):
        assert isinstance(getattr(verdict, name), tuple)


def test_pickle_and_deep_copy_give_an_equal_value_with_the_same_hash(values: list[Any]) -> None:
    for value in values:
        for twin in (pickle.loads(pickle.dumps(value)), copy.deepcopy(value)):
            assert twin == value and twin is not value
            assert hash(twin) == hash(value)


def test_a_pickled_house_rule_still_compares_with_what_the_vessel_has(tmp_path: Path) -> None:
    base = shutil.copytree(CASES, tmp_path / "base")
    floats, site_file = base / "parts" / "floats.yaml", base / "site.yaml"
    floats.write_text(floats.read_text().replace("crush: 2000 kPa(g)", "crush: 1300 kPa(g)"))
    site_file.write_text(site_file.read_text().replace("packs: [figures]", "packs: [figures, house]"))
    catalog = ls.Catalog.load(str(base))
    site = ls.Site.load(str(site_file), catalog)
    told = ls.check(catalog, site, put={}).to_json()
    assert "house.comparison" in told
    twin, place = pickle.loads(pickle.dumps((catalog, site)))
    assert ls.check(twin, place, put={}).to_json() == told


def test_values_of_different_content_differ(catalog: ls.Catalog) -> None:
    first, second = catalog.part(catalog.parts[0]), catalog.part(catalog.parts[1])
    assert first != second
    assert first != first.id


def test_catalog_and_site_reach_another_process_and_give_the_same_bytes(
    catalog: ls.Catalog, site: ls.Site, swap: ls.Swap, verdict: ls.Verdict, tmp_path: Path
) -> None:
    # The other process stands elsewhere: what was pickled must not need the files.
    done = subprocess.run(
        [sys.executable, "-c", OTHER_PROCESS],
        input=pickle.dumps((catalog, site, swap.put)),
        capture_output=True,
        cwd=tmp_path,
        check=True,
    )
    assert done.stdout.decode() == verdict.to_json()


def test_repr_is_one_line_of_ascii(values: list[Any]) -> None:
    for value in values:
        assert repr(value).isascii() and "\n" not in repr(value)
        assert repr(value).startswith(type(value).__name__ + "(")


def test_truth_of_a_verdict_raises_and_names_the_outcome(verdict: ls.Verdict) -> None:
    with pytest.raises(TypeError, match=r"verdict\.outcome"):
        bool(verdict)


def test_outcome_is_a_python_enum_with_three_members() -> None:
    import enum

    assert issubclass(ls.Outcome, enum.Enum)
    assert [member.name for member in ls.Outcome] == ["FITS", "DOES_NOT_FIT", "CANNOT_TELL"]
    assert pickle.loads(pickle.dumps(ls.Outcome.FITS)) is ls.Outcome.FITS


def test_options_are_keyword_only(catalog: ls.Catalog, site: ls.Site, swap: ls.Swap) -> None:
    with pytest.raises(TypeError):
        ls.check(catalog, site, swap.put)  # type: ignore[misc]


def test_exceptions_have_one_base_and_are_value_errors() -> None:
    for error in (ls.DataError, ls.UsageError):
        assert issubclass(error, ls.Error) and issubclass(error, ValueError)


def test_bad_file_is_reported_with_file_line_and_column(catalog: ls.Catalog, tmp_path: Path) -> None:
    bad = tmp_path / "bad.yaml"
    bad.write_text("levelswap: site/1\nname: quay\nvesel: {}\n", encoding="utf-8")
    with pytest.raises(ls.DataError) as caught:
        ls.Site.load(str(bad), catalog)
    placed = [problem for problem in caught.value.diagnostics if problem.line == 3]
    assert placed, str(caught.value)
    assert placed[0].file == str(bad)
    assert placed[0].column >= 1
    assert placed[0].code.startswith("LS-")
    assert f"{bad}:3:" in str(caught.value)
    again = pickle.loads(pickle.dumps(caught.value))
    assert again.diagnostics == caught.value.diagnostics


def test_missing_file_is_a_data_error_that_names_it(catalog: ls.Catalog, tmp_path: Path) -> None:
    missing = tmp_path / "none.yaml"
    with pytest.raises(ls.DataError) as caught:
        ls.Site.load(str(missing), catalog)
    assert caught.value.diagnostics[0].file == str(missing)


def test_mistyped_part_is_a_usage_error_that_names_the_nearest(catalog: ls.Catalog) -> None:
    right = max(catalog.parts, key=len)
    with pytest.raises(ls.UsageError) as caught:
        catalog.part(right[:-1] + "#")
    assert "did you mean" in str(caught.value)


def test_unknown_position_and_unknown_units_are_usage_errors(
    catalog: ls.Catalog, site: ls.Site, swap: ls.Swap
) -> None:
    with pytest.raises(ls.UsageError):
        ls.check(catalog, site, put={"nowhere.head": catalog.parts[0]})
    with pytest.raises(ls.UsageError, match="'us'"):
        ls.check(catalog, site, put=swap.put, units="metric")


def test_site_read_against_another_catalogue_is_refused(
    catalog: ls.Catalog, site: ls.Site, swap: ls.Swap, tmp_path: Path
) -> None:
    (tmp_path / "parts").mkdir()
    (tmp_path / "packs").mkdir()
    source = sorted((Path(catalog.directory) / "parts").glob("float.yaml"))[0]
    (tmp_path / "parts" / source.name).write_bytes(source.read_bytes())
    with pytest.raises(ls.UsageError, match="another catalogue|with other parts"):
        ls.check(ls.Catalog.load(str(tmp_path)), site, put=swap.put)


def test_html_shows_the_text_and_nothing_in_it_is_markup(
    catalog: ls.Catalog, site: ls.Site, swap: ls.Swap, verdict: ls.Verdict
) -> None:
    import html

    page = verdict._repr_html_()
    inside = page.partition(">")[2].rpartition("</pre>")[0]
    assert "<" not in inside and ">" not in inside
    assert html.unescape(inside) == verdict.to_text()


def test_markup_in_a_name_is_escaped_in_html(verdict: ls.Verdict) -> None:
    hostile = "<script>alert('x')</script>"
    state = list(verdict.__getstate__())
    state[state.index(verdict.answer)] = hostile
    forged = ls.Verdict.__new__(ls.Verdict)
    forged.__setstate__(tuple(state))
    assert forged.answer == hostile
    assert "<script" not in forged._repr_html_()


def test_json_equals_the_members_of_the_verdict(verdict: ls.Verdict, instead: ls.Alternatives) -> None:
    shown = json.loads(verdict.to_json(instead))
    assert shown["outcome"] == verdict.outcome.name.lower()
    assert [finding["margin"] for finding in shown["findings"]] == [f.margin for f in verdict.findings]
    assert [tuple(repair["positions"]) for repair in shown["alternatives"]["keep"]] == [
        repair.positions for repair in instead.keep
    ]
    assert json.loads(verdict.to_json())["alternatives"] is None


def test_json_escapes_quotes_backslashes_and_control_characters(verdict: ls.Verdict) -> None:
    # RFC 8259, section 7: quotation mark, reverse solidus and U+0000 to U+001F must be escaped.
    awkward = 'a "quoted" \\ word\n\t\r' + "".join(map(chr, range(32))) + " 1/2 in \u00b1 \u0394"
    state = list(verdict.__getstate__())
    state[state.index(verdict.answer)] = awkward
    forged = ls.Verdict.__new__(ls.Verdict)
    forged.__setstate__(tuple(state))
    assert json.loads(forged.to_json())["answer"] == awkward


def test_same_question_gives_the_same_bytes_in_every_thread(
    catalog: ls.Catalog, site: ls.Site, swap: ls.Swap, verdict: ls.Verdict
) -> None:
    answers: list[str] = []
    threads = [
        threading.Thread(target=lambda: answers.append(ls.check(catalog, site, put=swap.put).to_json()))
        for _ in range(4)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert answers == [verdict.to_json()] * 4


def test_catalog_lists_and_completes_its_part_ids(catalog: ls.Catalog) -> None:
    assert list(catalog.parts) == catalog._ipython_key_completions_()
    assert len(catalog) == len(catalog.parts) > 0
    assert catalog.parts[0] in catalog and "no such part" not in catalog
    assert catalog[catalog.parts[0]] == catalog.part(catalog.parts[0])


def test_part_gives_its_facts_as_written_with_their_origin(catalog: ls.Catalog) -> None:
    for id_ in catalog.parts:
        part = catalog.part(id_)
        assert part.id == id_
        assert part.facts.keys() == part.origins.keys()
        assert all(isinstance(text, str) for text in part.facts.values())
        assert any(".yaml:" in origin for origin in part.origins.values())


def test_demo_catalogue_is_sound(demo: Path) -> None:
    assert ls.validate(str(demo)) == ()


@pytest.mark.parametrize("file", swap_files(), ids=lambda file: file.stem)
def test_each_demo_swap_can_be_judged_in_both_units(file: Path, catalog: ls.Catalog) -> None:
    swap = ls.Swap.load(str(file))
    site = ls.Site.load(swap.site_path, catalog)
    us = ls.check(catalog, site, put=swap.put, units="us")
    si = ls.check(catalog, site, put=swap.put, units="si")
    assert us.outcome is si.outcome
    assert [finding.rule for finding in us.findings] == [finding.rule for finding in si.findings]
    assert us.answer
    assert bool(us.reason) == (us.outcome is not ls.Outcome.FITS)


def test_library_prints_and_logs_nothing(
    catalog: ls.Catalog,
    site: ls.Site,
    swap: ls.Swap,
    capfd: pytest.CaptureFixture[str],
    caplog: pytest.LogCaptureFixture,
) -> None:
    with caplog.at_level(logging.DEBUG):
        ls.check(catalog, site, put=swap.put)
    assert capfd.readouterr() == ("", "")
    assert not caplog.records


def test_every_public_name_has_a_docstring() -> None:
    for name in ls.__all__:
        if name != "__version__":
            assert getattr(ls, name).__doc__, name


def test_import_does_not_load_the_command_line_libraries() -> None:
    code = "import sys, levelswap; print(sorted({'click', 'rich'} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
