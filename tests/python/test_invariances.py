"""What must not change an answer does not, and what may only change it one way does only that.

Properties that hold for every installation, checked on drawn models (tests/oracles/small_models.py, no engine in them)
and on the demo catalogue. No outside source: each property follows from the definitions of the three values.
"""

from __future__ import annotations

import copy
import json
import random
import re
import shutil
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from conftest import DEMO, swap_files

import levelswap as ls

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "oracles"))

from brute_force import CANNOT_TELL, DOES_NOT_FIT, FITS, Fact, Model, Varying  # noqa: E402
from model_files import write_model  # noqa: E402
from repairable_models import repairable_model, spare_parts  # noqa: E402
from small_models import amount, base, curve, members, random_model, switch_set, word  # noqa: E402

RANK = {DOES_NOT_FIT: 0, CANNOT_TELL: 1, FITS: 2}


def load(folder: Path, model: Model) -> tuple[ls.Catalog, ls.Site]:
    catalog_folder, site = write_model(folder, model)
    catalog = ls.Catalog.load(str(catalog_folder))
    return catalog, ls.Site.load(str(site), catalog)


def verdict_of(folder: Path, model: Model, put: dict[str, str], units: str = "si") -> ls.Verdict:
    catalog, site = load(folder, model)
    return ls.check(catalog, site, put=put, units=units)


def outcome_of(folder: Path, model: Model, put: dict[str, str]) -> str:
    return str(verdict_of(folder, model, put).outcome.name.lower())


# ---- better ratings


def better(model: Model, r: random.Random) -> None:
    """Raise one rating of one part, wherever it stands."""
    part = model.parts[r.choice(sorted(model.parts))]
    outputs = list(part.outputs.values())
    choices: dict[str, tuple[dict[str, Fact], Fact]] = {}
    for facts in (part.facts, *outputs):
        for name, best in (("rating", curve((100, 900), (700, 900))), ("low_pressure_only", word("no")),
                           ("service", members("steam", "hot_water")), ("most_ambient", amount(250, "degC")),
                           ("least_ambient", amount(-45, "degC")), ("mercury", word("no")), ("needs_plumb", word("no")),
                           ("places", members("dry", "damp", "wet", "outdoor")), ("pilot_duty", word("A600")),
                           ("most_voltage", amount(600, "V")), ("motor.running", amount(900, "A")),
                           ("motor.locked_rotor", amount(7000, "A")), ("crush", amount(900, "psi(g)")),
                           ("listed_for", members("cut_off", "feed", "alarm")), ("trip_free", word("yes")),
                           ("after_power_loss", word("holds"))):  # fmt: skip
            # A circuit's motor is a load, a part's is what it can carry; a pump set may not be rated for a motor at all.
            if name in facts and facts[name].values != (None,):
                choices[f"{id(facts)} {name}"] = (facts, best)
    if choices:
        key = r.choice(list(choices))
        facts, best = choices[key]
        facts[key.split(" ", 1)[1]] = best
        if key.endswith("motor.running"):  # no motor runs at more than it starts with
            facts["motor.locked_rotor"] = amount(7000, "A")


def test_a_better_rating_never_refuses_what_was_possible(tmp_path: Path) -> None:
    worse, moved = [], 0
    for seed in range(80):
        model, put = random_model(seed)
        before = outcome_of(tmp_path / f"{seed}", model, put)
        r = random.Random(seed)
        for _ in range(8):
            better(model, r)
        after = outcome_of(tmp_path / f"{seed}-better", model, put)
        moved += after != before
        if RANK[after] < RANK[before]:
            worse.append((seed, before, after))
    assert worse == []
    assert moved > 1


# ---- outputs


def test_one_output_for_two_functions_refuses(tmp_path: Path) -> None:
    for seed in range(20):
        model, put = random_model(seed)
        # Three duties are wired to the set that it replaces.
        model.parts["lone"] = switch_set(lower=base().parts["stage"].outputs["lower"])
        verdict = verdict_of(tmp_path / str(seed), model, put | {"primary.switch_set": "lone"})
        assert verdict.outcome == ls.Outcome.DOES_NOT_FIT, seed


# ---- the same part twice


def test_two_of_the_same_part_are_two_parts_with_tolerances_of_their_own(tmp_path: Path) -> None:
    """A copy under another name at the second place changes nothing."""
    disagree = []
    for seed in range(60):
        model, put = random_model(seed)
        model.holds = {**model.holds, **put}
        if "secondary" not in model.stations:
            continue
        role = random.Random(seed).choice(("head", "column", "float"))
        shared = model.holds[f"primary.{role}"]
        same, twins = copy.deepcopy(model), copy.deepcopy(model)
        same.holds[f"secondary.{role}"] = shared
        twins.parts["twin"] = copy.deepcopy(twins.parts[shared])
        twins.holds[f"secondary.{role}"] = "twin"
        proposed = {f"secondary.{role}": same.holds[f"secondary.{role}"]}
        a = verdict_of(tmp_path / f"{seed}a", same, proposed)
        b = verdict_of(tmp_path / f"{seed}b", twins, {f"secondary.{role}": "twin"})
        if (a.outcome, [f.rule for f in a.findings]) != (b.outcome, [f.rule for f in b.findings]):
            disagree.append((seed, role, a.outcome, b.outcome))
    assert disagree == []


# ---- the datum of the vessel

SHIFT = 35


def shifted(fact: Fact, by: int) -> Fact:
    """An elevation, or a range of them, in whole millimetres."""
    text = re.sub(r"-?\d+(?= mm)", lambda hit: str(int(hit[0]) + by), str(fact.text))
    return Fact(text, tuple(Varying(v.least + by, v.most + by) if isinstance(v, Varying) else v + by for v in fact.values))


def with_datum_lowered(model: Model, by: int) -> Model:
    """Every elevation above the vessel's datum grows by the same length."""
    model = copy.deepcopy(model)
    owners = [(model.vessel, ("lpwl", "nwl")), *((s, ("mounting", "mounting_may_be")) for s in model.stations.values())]
    on_vessel = model.stations["primary"]["glass_on"].values == ("vessel",)
    owners += [(p.facts, ("visible.low", "visible.high")) for p in model.parts.values() if p.kind == "gauge_glass" and on_vessel]
    for facts, names in owners:
        for name in names:
            if name in facts:
                facts[name] = shifted(facts[name], by)
    return model


def numbers_of(verdict: ls.Verdict) -> list[tuple[str, ...]]:
    return [(f.rule, f.state, f.subject, f.quantity, f.required, f.available, f.margin) for f in verdict.findings]


def moved_by(settings: tuple[tuple[str, str], ...], by: int) -> list[tuple[str, str]]:
    return [(name, re.sub(r"-?\d+(\.\d+)?(?= mm)", lambda hit: f"{float(hit[0]) + by:.4g}", window)) for name, window in settings]


@pytest.mark.parametrize("by", [SHIFT, -SHIFT])
def test_another_datum_of_the_vessel_changes_nothing_but_the_elevations(tmp_path: Path, by: int) -> None:
    disagree, settable = [], 0
    for seed in range(70):
        model, put = random_model(seed)
        a = verdict_of(tmp_path / f"{seed}a", model, put)
        b = verdict_of(tmp_path / f"{seed}b", with_datum_lowered(model, by), put)
        settable += bool(a.settings)
        same = (a.outcome, a.wiring, numbers_of(a)) == (b.outcome, b.wiring, numbers_of(b))
        if not same or moved_by(a.settings, by) != moved_by(b.settings, 0):
            disagree.append((seed, a.outcome, b.outcome, a.settings, b.settings))
    assert disagree == []
    assert settable > 0


# ---- the demo catalogue, rewritten

ORIGIN = re.compile(r"[\w.-]+\.yaml(:\d+)*")
LENGTH = re.compile(r"(?<![\w/.])(?:(-?\d+) )?(-?\d*\.?\d+)(?:/(\d+))? (in|ft)(?![\w/(\d])")


def in_millimetres(text: str) -> str:
    """Lengths in inches and feet, exactly as many millimetres (1 in = 25.4 mm, by definition since 1959)."""

    def metric(hit: re.Match[str]) -> str:
        whole, number, under, unit = hit.groups()
        tenths = 254 * (12 if unit == "ft" else 1)
        value = float(number) / float(under or 1)
        value = (float(whole) + (value if float(whole) >= 0 else -value)) if whole else value
        return f"{round(value * tenths / 10, 9):.9f}".rstrip("0").rstrip(".") + " mm"

    return LENGTH.sub(metric, text)


def demo_copy(folder: Path, rewrite: Callable[[Path, str], str]) -> Path:
    shutil.copytree(DEMO, folder)
    for path in sorted(folder.rglob("*.yaml")):
        path.write_text(rewrite(path, path.read_text()))
    return folder


def answers(folder: Path, names: list[str]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Each answer without where the facts stand and how their files word them."""
    catalog = ls.Catalog.load(str(folder))
    for name in names:
        swap = ls.Swap.load(str(folder / "swaps" / name))
        site = ls.Site.load(swap.site_path, catalog)
        repairs = ls.alternatives(catalog, site, put=swap.put, old_may_return=swap.old_may_return, max_changes=1)
        answer = json.loads(ORIGIN.sub("", ls.check(catalog, site, put=swap.put, units="si").to_json(repairs)))
        for finding in answer["findings"] + answer["site_work"]:
            finding.pop("facts")  # as the file words them
            finding.pop("used")
            finding["notes"] = [n for n in finding["notes"] if not n.startswith("asked by the pack ")]
        for work in [*answer["work"], *(w for kind in ("keep", "release") for r in answer["alternatives"][kind] for w in r["work"])]:
            work.pop("consumables")  # bolts are named as the file words their size
        yield name, answer


SWAPS = [path.name for path in swap_files()][::3]  # a third of them keeps this quick


def test_lengths_in_millimetres_instead_of_inches_change_no_answer(tmp_path: Path) -> None:
    metric = demo_copy(tmp_path / "metric", lambda path, text: in_millimetres(text))
    assert (metric / "sites" / "north_quay.yaml").read_text() != (DEMO / "sites" / "north_quay.yaml").read_text()
    assert dict(answers(metric, SWAPS)) == dict(answers(DEMO, SWAPS))


def reversed_keys(tree: Any) -> Any:
    if isinstance(tree, dict):
        return {key: reversed_keys(tree[key]) for key in reversed(tree)}
    return tree


def written(tree: Any) -> str:
    """Numbers and yes or no without the quotes that keep them text for other readers."""
    return re.sub(r"(?m)(?<=[:-] )'([^':#]*)'$", r"\1", yaml.dump(tree, sort_keys=False, width=1000))


def in_other_order(path: Path, text: str) -> str:
    """The same file with every mapping backwards; what names the file's kind stays first."""
    tree = yaml.load(text, Loader=yaml.BaseLoader)
    first = {"levelswap": tree.pop("levelswap")}
    return written(first | reversed_keys(tree))


def test_files_with_their_keys_backwards_give_the_same_answers(tmp_path: Path) -> None:
    backwards = demo_copy(tmp_path / "backwards", in_other_order)
    assert dict(answers(backwards, SWAPS)) == dict(answers(DEMO, SWAPS))


def test_the_datum_of_every_demo_site_may_be_another(tmp_path: Path) -> None:
    """All elevations 4 in higher; the glass too where it is dimensioned from the vessel."""
    by = 4.0

    def higher(text: str, unit_length: float, unit: str) -> str:
        """Each value of a line, and no tolerance."""
        number = rf"(?<!/- )(?<![\w.])-?\d*\.?\d+(?= {unit}\b)"
        return re.sub(number, lambda hit: f"{float(hit[0]) + by * unit_length:.6g}", text)

    def on_vessel(site: str) -> bool:
        return re.search(r"glass_on: (\w+)", site)[1] == "vessel"  # type: ignore[index]

    moved = 0
    for name in SWAPS:
        swap = ls.Swap.load(str(DEMO / "swaps" / name))
        site_name = Path(swap.site_path).name
        text = Path(swap.site_path).read_text()
        if "mounting:" not in text or "glass_on:" not in text or "rods:" in text:  # other elevations are not moved here
            continue
        vessel = on_vessel((DEMO / "sites" / site_name).read_text())

        def rewrite(path: Path, text: str) -> str:
            if path.name == site_name:
                return re.sub(r"(?m)^ +(lpwl|nwl|mounting|mounting_may_be): .*$", lambda hit: higher(hit[0], 1, "in"), text)
            if path.name == "gauge_glass.yaml" and vessel:
                return re.sub(r"visible: .*", lambda hit: higher(hit[0], 25.4, "mm"), text)
            return text

        folder = demo_copy(tmp_path / name, rewrite)
        for side in (False, True):
            catalog = ls.Catalog.load(str(folder if side else DEMO))
            site = ls.Site.load(str((folder if side else DEMO) / "sites" / site_name), catalog)
            verdict = ls.check(catalog, site, put=swap.put, units="us")
            if not side:
                before = verdict
        assert (verdict.outcome, verdict.wiring) == (before.outcome, before.wiring), name
        assert numbers_of(verdict) == numbers_of(before), name
        moved += vessel
    assert moved > 0


# ---- facts of the demo catalogue


def leaves(tree: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    for key, value in tree.items():
        if isinstance(value, dict):
            yield from leaves(value, (*path, key))
        else:
            yield (*path, key)


NO_FACTS = {"about", "source", "known", "holds", "now", "circuit", "complete", "glass_on", "line", "mounting_may_be", "coils"}


def facts_of(path: Path) -> list[tuple[str, ...]]:
    tree = yaml.load(path.read_text(), Loader=yaml.BaseLoader)
    kept = {k: v for k, v in tree.items() if k in ("vessel", "stations", "circuits", "parts")}
    # A whole group (`motor: none`) is left as it stands: this loses one fact at a time.
    return [leaf for leaf in leaves(kept) if not NO_FACTS & set(leaf) and leaf[-1] not in ("motor", "coil", "flange")]


def without(text: str, leaf: tuple[str, ...]) -> str:
    tree = yaml.load(text, Loader=yaml.BaseLoader)
    place = tree
    for key in leaf[:-1]:
        place = place[key]
    place[leaf[-1]] = "unknown"
    return written(tree)


def test_a_fact_of_the_demo_that_nobody_knows_any_more_makes_nothing_fit_and_refuses_nothing(tmp_path: Path) -> None:
    r, disagree, lost = random.Random(11), [], 0
    plain = demo_copy(tmp_path / "demo", lambda path, text: text)
    catalog = ls.Catalog.load(str(plain))
    for site_path in sorted((plain / "sites").glob("*.yaml")):
        site = ls.Site.load(str(site_path), catalog)
        as_it_is = {site.positions[0]: site[site.positions[0]]}
        before = ls.check(catalog, site, put=as_it_is).outcome
        original = site_path.read_text()
        for leaf in r.sample(facts_of(site_path), 8):
            site_path.write_text(without(original, leaf))
            after = ls.check(catalog, ls.Site.load(str(site_path), catalog), put=as_it_is).outcome
            lost += after != before
            if after not in (before, ls.Outcome.CANNOT_TELL):
                disagree.append((site_path.name, leaf, before, after))
        site_path.write_text(original)
    assert disagree == []
    assert lost > 10


# ---- other parts in the catalogue


def why(verdict: ls.Verdict) -> str:
    answer = json.loads(ORIGIN.sub("", verdict.to_json()))
    return json.dumps({name: answer[name] for name in ("outcome", "reason", "findings", "questions", "works", "certificate")})


def test_parts_that_nobody_asked_about_change_no_why(tmp_path: Path) -> None:
    for seed in range(25):
        model, put = repairable_model(seed)
        a = verdict_of(tmp_path / f"{seed}a", model, put)
        crowded = copy.deepcopy(model)
        crowded.parts = {f"other {name}": part for name, part in spare_parts().items()} | crowded.parts
        assert why(a) == why(verdict_of(tmp_path / f"{seed}b", crowded, put)), seed


def test_a_new_part_removes_no_repair(tmp_path: Path) -> None:
    """Each repair of before is still listed, or something smaller now does."""
    lost, found = [], 0
    for seed in range(16):
        model, put = repairable_model(seed)
        catalog, site = load(tmp_path / f"{seed}a", model)
        before = ls.alternatives(catalog, site, put=put)
        name, part = random.Random(seed).choice(sorted(spare_parts().items()))
        model.parts[f"new {name}"] = part
        catalog, site = load(tmp_path / f"{seed}b", model)
        after = ls.alternatives(catalog, site, put=put)
        for kind in ("keep", "release"):
            now = {frozenset(r.positions): {frozenset(zip(r.positions, t)) for t in r.tuples} for r in getattr(after, kind)}
            for repair in getattr(before, kind):
                found += 1
                positions = frozenset(repair.positions)
                same = {frozenset(zip(repair.positions, t)) for t in repair.tuples} <= now.get(positions, set())
                if not same and not any(smaller < positions for smaller in now):
                    lost.append((seed, kind, repair.positions))
    assert lost == []
    assert found > 5



# ---- a tank's line, named by its station or by the circuit of the make-up


@pytest.mark.parametrize("named_by", ("station", "circuit"))
@pytest.mark.parametrize("swap_name", ("float_valve_that_will_not_close", "regulator_before_the_float_valve"))
def test_a_tank_is_filled_through_one_line_whichever_names_it(tmp_path: Path, swap_name: str, named_by: str) -> None:
    folder = shutil.copytree(DEMO, tmp_path / "demo")
    swap = ls.Swap.load(str(folder / "swaps" / f"{swap_name}.yaml"))
    site = Path(swap.site_path)
    before, stations, after = site.read_text().partition("stations:\n")
    halves = after.split("circuits:\n")
    assert all("    line: town main\n" in half for half in halves)
    other = 0 if named_by == "circuit" else 1
    halves[other] = halves[other].replace("    line: town main\n", "")
    catalog = ls.Catalog.load(str(folder))
    whole = ls.check(catalog, ls.Site.load(str(site), catalog), put=swap.put)
    site.write_text(before + stations + "circuits:\n".join(halves))
    half = ls.check(catalog, ls.Site.load(str(site), catalog), put=swap.put)
    assert (half.outcome, [f.rule for f in half.findings]) == (whole.outcome, [f.rule for f in whole.findings])
