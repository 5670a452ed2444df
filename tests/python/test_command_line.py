"""The command line as installed: exit codes, one JSON document, plain text that fits 80 columns."""

from __future__ import annotations

import functools
import json
import os
import pty
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from conftest import DEMO, ROOT, swap_files

import levelswap as ls

PROGRAM = shutil.which("levelswap", path=str(Path(sys.executable).parent)) or "levelswap"
SCHEMA = json.loads((ROOT / "catalog_schema/v1/answer.schema.json").read_text(encoding="utf-8"))
EXIT_CODE = {"fits": 0, "does_not_fit": 1, "cannot_tell": 3}
COMMANDS = ["check", "alternatives", "rules", "parts", "validate"]
ONE_SWAP = DEMO / "swaps" / "thin_column.yaml"
EVERY_SWAP = pytest.mark.parametrize("file", swap_files(), ids=lambda file: file.stem)


@functools.cache  # the same call gives the same bytes, which a test of its own checks
def run(*arguments: str | Path, cwd: Path = ROOT, **environment: str) -> subprocess.CompletedProcess[str]:
    kept = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "COLUMNS")}
    return subprocess.run(
        [PROGRAM, *map(str, arguments)],
        capture_output=True,
        text=True,
        cwd=cwd,
        env={**kept, "TERM": "xterm-256color", **environment},
    )


def document(done: subprocess.CompletedProcess[str]) -> dict[str, Any]:
    """The one JSON document on stdout, valid against the published schema."""
    shown: dict[str, Any] = json.loads(done.stdout)
    jsonschema.Draft7Validator(SCHEMA).validate(shown)
    return shown


def on_a_terminal(*arguments: str | Path, **environment: str) -> str:
    """What the program writes when stdout is a terminal."""
    leader, follower = pty.openpty()
    kept = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "COLUMNS")}
    with subprocess.Popen(
        [PROGRAM, *map(str, arguments)],
        stdin=subprocess.DEVNULL,
        stdout=follower,
        stderr=subprocess.DEVNULL,
        env={**kept, "TERM": "xterm-256color", **environment},
    ):
        os.close(follower)
        written = b""
        while chunk := _read(leader):
            written += chunk
    os.close(leader)
    return written.decode()


def _read(leader: int) -> bytes:
    try:
        return os.read(leader, 4096)
    except OSError:  # Linux reports the end of a terminal as an error
        return b""


@pytest.fixture(scope="module")
def bad_swap(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("bad") / "bad.yaml"
    file.write_text("levelswap: swap/1\nsyte: x.yaml\n", encoding="utf-8")
    return file


def test_published_schema_is_a_draft_07_schema() -> None:
    jsonschema.Draft7Validator.check_schema(SCHEMA)


@EVERY_SWAP
def test_check_gives_the_exit_code_of_its_outcome_and_valid_json(file: Path) -> None:
    done = run("check", file, "--json")
    shown = document(done)
    assert shown["kind"] == "verdict"
    assert done.returncode == EXIT_CODE[shown["outcome"]]
    assert (shown["alternatives"] is None) == (shown["outcome"] == "fits")


@EVERY_SWAP
def test_check_answers_in_its_first_line_within_80_plain_columns(file: Path) -> None:
    done = run("check", file)
    swap = ls.Swap.load(str(file))
    catalog = ls.Catalog.load(str(DEMO))
    verdict = ls.check(catalog, ls.Site.load(swap.site_path, catalog), put=swap.put)
    assert done.returncode == EXIT_CODE[verdict.outcome.name.lower()]
    lines = done.stdout.splitlines()
    fault_of_its_own = verdict.once_site_work_is_done == ls.Outcome.FITS
    assert lines[0].startswith("FITS ONCE" if fault_of_its_own else verdict.outcome.name.replace("_", " "))
    assert max(map(len, lines)) <= 80
    assert "\x1b" not in done.stdout


@EVERY_SWAP
def test_alternatives_exit_code_says_some_none_or_only_undecided(file: Path) -> None:
    done = run("alternatives", file, "--json")
    shown = document(done)
    assert shown["kind"] == "alternatives"
    found = shown["keep"] or shown["release"]
    expected = 0 if found or not shown["needed"] else 3 if shown["undecided"] else 1
    assert done.returncode == expected
    assert shown["needed"] or not found


def test_demo_swaps_show_all_three_outcomes() -> None:
    assert {run("check", file, "--json").returncode for file in swap_files()} == {0, 1, 3}


def test_keep_and_release_leave_out_the_other_repairs() -> None:
    for file in swap_files()[:3]:
        kept = document(run("alternatives", file, "--json", "--keep"))
        released = document(run("alternatives", file, "--json", "--release"))
        both = document(run("alternatives", file, "--json"))
        assert (kept["keep"], kept["release"]) == (both["keep"], [])
        assert (released["keep"], released["release"]) == ([], both["release"])


def test_the_package_runs_as_a_module() -> None:
    done = subprocess.run([sys.executable, "-m", "levelswap", "--version"], capture_output=True, text=True, check=True)
    assert done.stdout == run("--version").stdout


def test_keep_and_release_together_are_a_wrong_call() -> None:
    done = run("alternatives", swap_files()[0], "--keep", "--release")
    assert done.returncode == 2
    assert done.stdout == ""
    assert "--keep and --release" in done.stderr


def test_site_and_put_give_the_same_answer_as_the_swap_file() -> None:
    for file in swap_files()[::4]:
        swap = ls.Swap.load(str(file))
        puts = [f"--put={position}={part}" for position, part in swap.put.items()]
        by_options = run("check", "--catalog", DEMO, "--site", swap.site_path, *puts, "--json")
        by_file = run("check", file, "--json")
        assert by_options.returncode == by_file.returncode
        if not swap.old_may_return:
            assert by_options.stdout == by_file.stdout


def test_units_change_the_numbers_and_not_the_outcome() -> None:
    texts = {}
    for units in ("us", "si"):
        shown = [document(run("check", file, "--units", units, "--json")) for file in swap_files()[:6]]
        texts[units] = json.dumps([answer["findings"] for answer in shown])
        texts[units + " outcome"] = json.dumps([answer["outcome"] for answer in shown])
    assert texts["us outcome"] == texts["si outcome"]
    assert texts["us"] != texts["si"]


def test_answer_does_not_depend_on_the_hash_seed() -> None:
    file = ONE_SWAP
    assert len({run("check", file, "--json", PYTHONHASHSEED=seed).stdout for seed in ("1", "2", "3")}) == 1


@pytest.mark.parametrize(
    "arguments",
    [
        ["check"],
        ["check", "--put", "primary.head=x"],
        ["check", "--site", "x.yaml"],
        ["check", str(ONE_SWAP), "--put", "primary.head=x"],
        ["check", "--site", "x.yaml", "--put", "no equals sign"],
        ["check", "--site", "x.yaml", "--put", "a.head=x", "--put", "a.head=y"],
        ["check", str(ONE_SWAP), "--units", "metric"],
        ["check", str(ONE_SWAP), "--no-such-option"],
        ["alternatives", str(ONE_SWAP), "--max-changes", "0"],
        ["rules", "no.such_rule"],
        ["validate"],
        ["no such command"],
    ],
    ids=" ".join,
)
def test_wrong_call_ends_with_2_and_is_one_json_document(arguments: list[str]) -> None:
    plain = run(*arguments)
    assert plain.returncode == 2
    assert plain.stdout == "" and plain.stderr != ""
    with_json = run(*arguments, "--json")
    assert with_json.returncode == 2
    assert document(with_json)["error"]["type"] == "usage"
    assert with_json.stderr != ""


def test_unknown_part_ends_with_2_and_the_nearest_name() -> None:
    swap = ls.Swap.load(str(ONE_SWAP))
    catalog = ls.Catalog.load(str(DEMO))
    position = next(iter(swap.put))
    right = max((part for part in catalog.parts), key=len)
    put = f"{position}={right[:-1]}#"
    done = run("check", "--catalog", DEMO, "--site", swap.site_path, "--put", put, "--json")
    assert done.returncode == 2
    assert right in document(done)["error"]["message"]


def test_bad_data_file_ends_with_4_and_says_where(bad_swap: Path) -> None:
    for command in ("check", "alternatives"):
        done = run(command, bad_swap, "--catalog", DEMO, "--json")
        assert done.returncode == 4
        problems = document(done)["error"]["diagnostics"]
        assert (str(bad_swap), 2) in [(problem["file"], problem["line"]) for problem in problems]
        assert f"{bad_swap}:2:" in done.stderr
        assert run(command, bad_swap, "--catalog", DEMO).stdout == ""


def test_missing_files_and_folders_end_with_4(tmp_path: Path) -> None:
    for arguments in (["check", tmp_path / "none.yaml"], ["parts", "--catalog", tmp_path / "none"]):
        done = run(*arguments, "--json")
        assert done.returncode == 4
        assert document(done)["error"]["type"] == "data"


def test_validate_passes_the_demo_catalogue_and_lists_a_problem(bad_swap: Path) -> None:
    sound = run("validate", DEMO, "--json")
    assert (sound.returncode, document(sound)["sound"]) == (0, True)
    bad = run("validate", bad_swap, "--json")
    assert (bad.returncode, document(bad)["sound"]) == (4, False)
    assert f"{bad_swap}:2:" in run("validate", bad_swap).stdout


def test_rules_lists_every_rule_and_shows_one_in_full() -> None:
    every = document(run("rules", "--json"))["rules"]
    assert [row["id"] for row in every] == [rule.id for rule in ls.rules()]
    text = run("rules").stdout
    assert all(row["id"] in text for row in every)
    one = run("rules", every[0]["id"])
    assert one.returncode == 0
    assert " ".join(every[0]["protects"].split()) in " ".join(one.stdout.split())


def test_parts_filters_by_id_kind_and_line() -> None:
    every = document(run("parts", "--catalog", DEMO, "--json"))["parts"]
    sets = document(run("parts", "switch_set", "--catalog", DEMO, "--json"))["parts"]
    assert 0 < len(sets) < len(every)
    assert all("switch_set" in " ".join((part["id"], part["kind"], part["about"])) for part in sets)
    assert "no part has" in run("parts", "zzzzz", "--catalog", DEMO).stdout


def test_parts_shows_one_part_with_its_facts_and_their_origin() -> None:
    catalog = ls.Catalog.load(str(DEMO))
    for id_ in catalog.parts[:5]:
        done = run("parts", id_, "--catalog", DEMO, "--json")
        (shown,) = document(done)["parts"]
        assert {fact["name"]: fact["text"] for fact in shown["facts"]} == catalog.part(id_).facts
        text = run("parts", id_, "--catalog", DEMO).stdout
        assert all(f"{name}: " in text for name in catalog.part(id_).facts)
        assert ".yaml:" in text


def test_default_catalogue_is_the_demo_one_and_stderr_says_so(tmp_path: Path) -> None:
    done = run("parts", "--json", cwd=tmp_path)
    assert done.returncode == 0
    assert "demo catalogue" in done.stderr
    assert len(document(done)["parts"]) == len(ls.Catalog.load(str(DEMO)))
    assert "demo catalogue" not in run("parts", "--catalog", DEMO, cwd=tmp_path).stderr


def test_swap_file_is_read_with_the_catalogue_it_lies_in(tmp_path: Path) -> None:
    shutil.copytree(DEMO, tmp_path / "own")
    done = run("check", tmp_path / "own" / "swaps" / ONE_SWAP.name, cwd=tmp_path)
    assert done.returncode in (0, 1, 3)
    assert "demo catalogue" not in done.stderr


def copied_demo(folder: Path) -> Path:
    """The demo as a catalogue of one's own, with a part that the demo does not know."""
    shutil.copytree(DEMO, folder)
    file = folder / "parts" / "float.yaml"
    file.write_text(file.read_text(encoding="utf-8") + "  borrowed float: {form: sphere}\n", encoding="utf-8")
    return folder


@pytest.mark.parametrize(
    "arguments",
    [
        ["swaps", ONE_SWAP.name],
        ["swaps", f"./{ONE_SWAP.name}"],
        ["swaps", f"../swaps/{ONE_SWAP.name}"],
        ["sites", f"../swaps/{ONE_SWAP.name}"],
        ["sites", "--site=north_quay.yaml", "--put=primary.float=borrowed float"],
        ["swaps", "--site=../sites/north_quay.yaml", "--put=primary.float=borrowed float"],
    ],
    ids=" ".join,
)
def test_the_catalogue_above_a_file_is_used_wherever_one_stands(tmp_path: Path, arguments: list[str]) -> None:
    own = copied_demo(tmp_path / "own")
    (own / "parts" / "column.yaml").rename(own / "parts" / "own_columns.yaml")
    done = run("check", *arguments[1:], cwd=own / arguments[0])
    assert done.returncode in (0, 1, 3), done.stderr
    assert "demo" not in done.stderr
    if arguments[1].endswith(ONE_SWAP.name):
        assert "own_columns.yaml" in done.stdout


def test_a_file_in_no_catalogue_is_not_judged_with_another_one(tmp_path: Path) -> None:
    site = shutil.copy(DEMO / "sites" / "north_quay.yaml", tmp_path)
    swap = tmp_path / "swap.yaml"
    swap.write_text("levelswap: swap/1\nsite: north_quay.yaml\nput: {primary.glass: nothing}\n", encoding="utf-8")
    for arguments in (["check", swap], ["check", "--site", site, "--put", "primary.glass=nothing"], ["sheet", swap]):
        done = run(*arguments)
        assert done.returncode == 2
        assert done.stdout == ""
        assert "--catalog DIR" in done.stderr
    assert run("validate", swap).returncode == run("validate", site).returncode == 2
    assert run("check", swap, "--catalog", DEMO).returncode in (0, 1, 3)


def test_a_swap_and_its_site_in_two_catalogues_are_not_mixed(tmp_path: Path) -> None:
    one, two = copied_demo(tmp_path / "one"), copied_demo(tmp_path / "two")
    swap = one / "swaps" / "mixed.yaml"
    swap.write_text(
        "levelswap: swap/1\nsite: ../../two/sites/north_quay.yaml\nput: {primary.glass: nothing}\n", encoding="utf-8"
    )
    done = run("check", swap)
    assert done.returncode == 2
    assert "one" in done.stderr and "two" in done.stderr
    assert run("check", swap, "--catalog", two).returncode in (0, 1, 3)


@pytest.mark.parametrize(
    ("put", "code", "column"),
    [
        ("primary.switch_st: stage set", "LS-S006", 7),
        ("primary.switch_set: no such set", "LS-S001", 27),
        ("primary.switch_set: quay head", "LS-S002", 27),
        ("primary.switch_set: none", "LS-S001", 27),
    ],
)
def test_a_swap_of_what_is_not_there_ends_with_4_and_says_where(
    tmp_path: Path, put: str, code: str, column: int
) -> None:
    own = copied_demo(tmp_path / "own")
    swap = own / "swaps" / "bad.yaml"
    swap.write_text(f"levelswap: swap/1\nsite: ../sites/north_quay.yaml\nput: {{{put}}}\n", encoding="utf-8")
    for command in ("check", "alternatives", "sheet"):
        done = run(command, swap, "--json")
        assert done.returncode == 4, done.stderr
        (problem,) = json.loads(done.stdout)["error"]["diagnostics"]
        assert (problem["code"], problem["file"], problem["line"]) == (code, str(swap), 3)
        assert problem["column"] == column
    alone = run("validate", swap)
    assert alone.returncode == 4
    assert f"{swap}:3:{column}: error {code}" in alone.stdout
    assert alone.stdout.splitlines()[-1] == "1 problem"
    assert code in run("validate", own).stdout


@pytest.mark.parametrize("command", COMMANDS)
def test_help_shows_an_example_before_the_options_within_80_columns(command: str) -> None:
    for flag in ("-h", "--help"):
        done = run(command, flag)
        assert done.returncode == 0
        assert 0 < done.stdout.index("Example:") < done.stdout.index("Options:")
        assert max(map(len, done.stdout.splitlines())) <= 80


@pytest.mark.parametrize("arguments", [[], ["rules"], ["parts"], ["validate", str(DEMO)]], ids=" ".join)
def test_text_fits_80_columns(arguments: list[str]) -> None:
    done = run(*arguments)
    assert max(map(len, (done.stdout + done.stderr).splitlines())) <= 80


def test_version_is_that_of_the_package() -> None:
    done = run("--version")
    assert done.returncode == 0
    assert ls.__version__ in done.stdout


def test_outcome_alone_is_coloured_on_a_terminal() -> None:
    first, _, rest = on_a_terminal("check", ONE_SWAP).partition("\n")
    assert first.count("\x1b[") == 2  # on, off
    assert "\x1b" not in rest


# Sources: no-color.org (a variable that is set and not empty); clig.dev, "Output".
@pytest.mark.parametrize("environment", [{"NO_COLOR": "1"}, {"TERM": "dumb"}], ids=str)
def test_no_colour_when_the_terminal_or_its_owner_refuses_it(environment: dict[str, str]) -> None:
    assert "\x1b" not in on_a_terminal("check", ONE_SWAP, **environment)


def test_empty_no_color_refuses_nothing() -> None:
    assert "\x1b" in on_a_terminal("check", ONE_SWAP, NO_COLOR="")


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_script_is_offered_for_each_shell(shell: str) -> None:
    done = run(_LEVELSWAP_COMPLETE=f"{shell}_source")
    assert done.returncode == 0
    assert "_LEVELSWAP_COMPLETE" in done.stdout


def completed(words: str, position: int) -> str:
    done = run(_LEVELSWAP_COMPLETE="bash_complete", COMP_WORDS=words, COMP_CWORD=str(position))
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_completion_knows_commands_parts_rules_and_positions() -> None:
    catalog = ls.Catalog.load(str(DEMO))
    site = ls.Swap.load(str(ONE_SWAP)).site_path
    positions = ls.Site.load(site, catalog).positions
    assert all(command in completed("levelswap ", 1) for command in COMMANDS)
    assert all(id_ in completed("levelswap parts ", 2) for id_ in catalog.parts)
    assert all(rule.id in completed("levelswap rules ", 2) for rule in ls.rules())
    begun = f"levelswap check --catalog {DEMO} --site {site} --put "
    assert all(f"{position}=" in completed(begun, 7) for position in positions)
    assert all(f"x={id_}" in completed(begun + "x=", 7) for id_ in catalog.parts)
