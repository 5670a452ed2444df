"""The published schemas: generated from the attribute table, true to every demo file, strict about keys."""

from __future__ import annotations

import json
import subprocess
import sys
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
import yaml
from conftest import DEMO, ROOT
from jsonschema import Draft7Validator

FOLDER = ROOT / "catalog_schema" / "v1"
FORMATS = {"parts": "parts", "packs": "pack", "sites": "site", "swaps": "swap"}


def demo_files() -> list[tuple[str, Path]]:
    """Every demo file with the name of its format."""
    return [
        (name, path) for folder, name in FORMATS.items() for path in sorted((DEMO / folder).glob("*.yaml"))
    ]


def as_text(path: Path) -> Any:
    """The file with every scalar as it is written: no loader turns `no` into false or `.5` into a half."""
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


def validator(name: str) -> Draft7Validator:
    return Draft7Validator(json.loads((FOLDER / f"{name}.schema.json").read_text(encoding="utf-8")))


def problems(name: str, value: Any) -> list[str]:
    return [f"{'/'.join(map(str, e.absolute_path))}: {e.message}" for e in validator(name).iter_errors(value)]


def test_generated_files_are_up_to_date(tmp_path: Path) -> None:
    maker = ROOT / "tests" / "support" / "make_schema.py"
    subprocess.run([sys.executable, str(maker), str(tmp_path)], check=True)
    made = sorted(path.name for path in tmp_path.iterdir())
    assert made == [
        "keys.md",
        "pack.schema.json",
        "parts.schema.json",
        "site.schema.json",
        "swap.schema.json",
    ]
    for name in made:
        committed = (FOLDER / name).read_text(encoding="utf-8")
        assert committed == (tmp_path / name).read_text(encoding="utf-8"), (
            "run: python tests/support/make_schema.py"
        )


@pytest.mark.parametrize("name", FORMATS.values())
def test_schema_is_a_draft_7_schema(name: str) -> None:
    Draft7Validator.check_schema(json.loads((FOLDER / f"{name}.schema.json").read_text(encoding="utf-8")))


@pytest.mark.parametrize(("name", "path"), demo_files(), ids=lambda x: x.stem if isinstance(x, Path) else x)
def test_demo_file_satisfies_its_schema(name: str, path: Path) -> None:
    assert problems(name, as_text(path)) == []


@pytest.mark.parametrize(("name", "path"), demo_files(), ids=lambda x: x.stem if isinstance(x, Path) else x)
def test_demo_file_satisfies_its_schema_as_an_editor_reads_it(name: str, path: Path) -> None:
    """Editors follow YAML 1.2: plain numbers become numbers, and `no` stays a word."""
    assert problems(name, as_an_editor(as_text(path))) == []


def as_an_editor(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: as_an_editor(item) for key, item in value.items()}
    if isinstance(value, list):
        return [as_an_editor(item) for item in value]
    for number in (int, float):
        try:
            return number(value)
        except ValueError:
            continue
    return value


def every_map(value: Any) -> list[dict[str, Any]]:
    inner = list(value.values()) if isinstance(value, dict) else value if isinstance(value, list) else []
    return ([value] if isinstance(value, dict) else []) + [m for item in inner for m in every_map(item)]


@pytest.mark.parametrize("name", FORMATS.values())
def test_mistyped_key_is_refused_in_every_map_of_a_file(name: str) -> None:
    """Where keys are the user's own names, the form of the name or of the entry refuses it."""
    path = next(path for format_name, path in demo_files() if format_name == name)
    whole = as_text(path)
    for at in range(len(every_map(whole))):
        broken = deepcopy(whole)
        every_map(broken)[at]["Mistyped-Key"] = "1"
        assert problems(name, broken) != [], f"map {at} of {path.name} takes any key"


@pytest.mark.parametrize(
    ("key", "written"),
    [
        ("arm", "230"),  # no unit
        ("arm", "230 psi(g)"),  # the unit of another quantity
        ("arm", "230 mm +/- -1 mm"),  # a negative tolerance
        ("arm", "~ unknown"),
        ("low_pressure_only", "perhaps"),
        ("service", "steam"),  # a set is a list
        ("service", ["steem"]),
        ("rating", [["100 degF"]]),
        ("flange", "some"),
        ("mark", ""),
    ],
)
def test_value_in_the_wrong_form_is_refused(key: str, written: Any) -> None:
    whole = as_text(DEMO / "parts" / "float_head.yaml")
    whole["parts"]["quay head"][key] = written
    assert problems("parts", whole)[0].startswith(f"parts/quay head/{key}")


@pytest.mark.parametrize(
    ("key", "written"),
    [
        ("arm", "9 1/16 in"),
        ("arm", "9-1/16 in +/- 1/32 in"),
        ("arm", "230mm±.5mm"),
        ("arm", "at most 231 mm"),
        ("arm", "~ 229 mm .. 231 mm"),
        ("dead_moment", "+/- .01 N*m"),
        ("low_pressure_only", "no or yes"),
        ("service", "unknown"),
        ("flange", "none"),
        ("cost", "none"),
    ],
)
def test_every_form_of_the_value_grammar_is_accepted(key: str, written: str) -> None:
    whole = as_text(DEMO / "parts" / "float_head.yaml")
    whole["parts"]["quay head"][key] = written
    assert problems("parts", whole) == []


def test_figure_of_a_pack_is_checked_in_its_own_dimension() -> None:
    row = {"figure": "cut_offs", "value": "2 in", "clause": "x"}
    pack = {"levelswap": "pack/1", "name": "trial", "rows": [row]}
    assert any("rows/0/value" in problem for problem in problems("pack", pack))
    row["value"] = "2"
    assert problems("pack", pack) == []


def test_house_rule_needs_exactly_one_comparison() -> None:
    rule = {"kind": "switch_set", "attribute": "mercury", "is": "no", "because": "x"}
    pack = {"levelswap": "pack/1", "name": "trial", "house": [rule]}
    assert problems("pack", pack) == []
    rule["is_not"] = "yes"
    assert problems("pack", pack) != []


def test_page_of_keys_names_every_key_that_the_parts_schema_completes() -> None:
    page = (FOLDER / "keys.md").read_text(encoding="utf-8")
    schema = json.loads((FOLDER / "parts.schema.json").read_text(encoding="utf-8"))
    own = {"about", "source", "known", "outputs"}
    for kind in schema["properties"]["kind"]["enum"]:
        section = page.split(f"\n## {kind}\n")[1].split("\n## ")[0]
        for key in set(schema["definitions"][kind]["properties"]) - own:
            assert f"| `{key}`" in section or f"| `{key}." in section, f"{kind}: {key}"
