"""The value that a question names is where the rule turns, to the last digit printed; the turn is one quantum wide.

Each question of an undecided demo swap that names a value is answered with that value, in a copy of the catalogue, and
the rule judged again. No outside source: the turn is looked for here, by halving, without the engine's own search.
"""

from __future__ import annotations

import math
import re
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import yaml
from conftest import DEMO, ROOT

import levelswap as ls

UNDECIDED = ("rough_casting", "painted_over_motor_plate", "chamber_nobody_opened")
THRESHOLD = re.compile(r"(-?[\d.]+) (\S+) or (more|less) (holds|fails)")
# What one quantum is (cpp/include/levelswap/base/dimension.hpp): a value is a whole number of them.
# Of lengths the quantum is a nanometre.
QUANTA = {"mm": 1e-6, "A": 1e-6, "bar(g)": 1e-5, "VA": 1e-3, "V": 1e-3}
ATTRIBUTE = re.compile(r'LEVELSWAP_ATTRIBUTE\(\w+, "([\w.]+)", (.+?), (?:quantity), .*?"([^"]+)", "[^"]*"\)')


def attribute_of() -> dict[str, str]:
    """What an attribute means, and its key in the files."""
    table = (ROOT / "cpp" / "include" / "levelswap" / "catalog" / "attribute_list.inc").read_text()
    return {hit[3]: hit[1] for hit in ATTRIBUTE.finditer(table)}


@dataclass
class Asked:
    """One question, the file and keys of its fact, and one value where its rule turns."""

    swap: str
    rule: str
    fact: str
    number: str
    unit: str
    side: str
    state: str

    def __str__(self) -> str:
        return f"{self.swap}: {self.fact}: {self.number} {self.unit} or {self.side} {self.state}"


def load(folder: Path, swap_name: str) -> tuple[ls.Catalog, ls.Site, ls.Swap]:
    catalog = ls.Catalog.load(str(folder))
    swap = ls.Swap.load(str(folder / "swaps" / f"{swap_name}.yaml"))
    return catalog, ls.Site.load(swap.site_path, catalog), swap


def all_asked() -> list[Asked]:
    found = []
    for name in UNDECIDED:
        catalog, site, swap = load(DEMO, name)
        for q in ls.check(catalog, site, put=swap.put, units="si").questions:
            found += [Asked(name, q.rule, q.fact, *hit.groups()) for hit in THRESHOLD.finditer(q.threshold)]
    return found


def set_fact(tree: Any, keys: list[str], value: str) -> None:
    for key in keys[:-1]:
        tree = tree.setdefault(key, {})
    tree[keys[-1]] = value


def pinned(folder: Path, asked: Asked, value: str) -> list[tuple[str, str, str]]:
    """What the rule says, place by place, with the fact at one value."""
    meaning, owner = re.fullmatch(r"(.*) \((.*)\)", asked.fact).groups()  # type: ignore[union-attr]
    keys = attribute_of()[meaning].split(".")
    swap = ls.Swap.load(str(folder / "swaps" / f"{asked.swap}.yaml"))
    part, _, position = owner.partition(" at ")
    part, _, output = part.partition(", output ")
    site_path = Path(swap.site_path)
    if part == "vessel":
        path, place = site_path, ["vessel"]
    elif not position and not output:
        path, place = site_path, ["circuits" if part in yaml.safe_load(site_path.read_text())["circuits"] else "stations", part]
    else:
        catalog = ls.Catalog.load(str(DEMO))
        path, place = folder / "parts" / f"{catalog.part(part).kind}.yaml", ["parts", part, *(["outputs", output] if output else [])]
    original = path.read_text()
    tree = yaml.load(original, Loader=yaml.BaseLoader)
    set_fact(tree, place + keys, value)
    path.write_text(yaml.dump(tree, sort_keys=False, width=1000).replace("'", ""))
    try:
        catalog, site, swap = load(folder, asked.swap)
        verdict = ls.check(catalog, site, put=swap.put)
    finally:
        path.write_text(original)
    return [(f.subject, f.quantity, f.state) for f in verdict.findings if f.rule == asked.rule]


def text_of(quanta: int, unit: str) -> str:
    return f"{quanta * QUANTA[unit]:.9f}".rstrip("0").rstrip(".") + f" {unit}"


def turn(is_so: Callable[[int], bool], inside: int, outside: int) -> int:
    """The last quantum, from inside, at which it is so."""
    while abs(outside - inside) > 1:
        middle = (inside + outside) // 2
        inside, outside = (middle, outside) if is_so(middle) else (inside, middle)
    return inside


def test_the_undecided_demo_swaps_ask_for_values() -> None:
    asked = all_asked()
    assert len(asked) >= 4
    assert {a.unit for a in asked} >= {"mm", "A"}
    assert {a.swap for a in asked} == set(UNDECIDED)


@pytest.mark.parametrize("asked", all_asked(), ids=str)
def test_the_rule_turns_where_its_question_says(tmp_path: Path, asked: Asked) -> None:
    folder = shutil.copytree(DEMO, tmp_path / "demo")
    quantum = QUANTA[asked.unit]
    last_digit = max(1, math.ceil(10.0 ** -len(asked.number.partition(".")[2]) / quantum))
    printed = round(float(asked.number) / quantum)
    side = 1 if asked.side == "more" else -1

    def said(quanta: int) -> list[tuple[str, str, str]]:
        return pinned(folder, asked, text_of(quanta, asked.unit))

    inside = said(printed + side * last_digit)
    assert inside != said(printed - side * last_digit)
    last = turn(lambda quanta: said(quanta) == inside, printed + side * last_digit, printed - side * last_digit)
    assert said(last) == inside != said(last - side)
    assert abs(last - printed) <= last_digit
