"""The engine against a brute-force oracle in another language.

The oracle (tests/oracles) is written from the definitions alone: every wiring, setting and world
of a small assembly, on a lattice that holds all weights. The models are drawn with fixed seeds.
"""

from __future__ import annotations

import copy
import random
import sys
from pathlib import Path

import pytest

import levelswap as ls

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "oracles"))

from brute_force import CANNOT_TELL, DOES_NOT_FIT, FITS, Fact, Model, Varying, judge, owners_of  # noqa: E402
from brute_force import lightest_water, saturation_kelvin, worlds  # noqa: E402
from brute_force_repairs import minimal_repairs  # noqa: E402
from model_files import write_model  # noqa: E402
from repairable_models import repairable_model  # noqa: E402
from small_models import among, base, private_copy, random_model, unknown, word  # noqa: E402

CHUNK = 40


def load(folder: Path, model: Model) -> tuple[ls.Catalog, ls.Site]:
    catalog_folder, site = write_model(folder, model)
    catalog = ls.Catalog.load(str(catalog_folder))
    return catalog, ls.Site.load(str(site), catalog)


def engine_outcome(folder: Path, model: Model, put: dict[str, str]) -> str:
    catalog, site = load(folder, model)
    return str(ls.check(catalog, site, put=put).outcome.name.lower())


def oracle_outcome(model: Model, put: dict[str, str]) -> str:
    return judge(model, put, put)


def open_facts(model: Model, put: dict[str, str]) -> list[tuple[dict[str, Fact], str]]:
    owners = owners_of(model, {**model.holds, **put})
    return [(facts, name) for facts in owners.values() for name, fact in facts.items() if len(fact.values) > 1]


def test_the_oracle_knows_the_saturation_line() -> None:
    """IAPWS R7-97(2012) Table 36: rows SAT001 to SAT003 of tests/reference/saturation_if97.csv."""
    for megapascal, kelvin in ((0.1, 372.755919), (1, 453.035632), (10, 584.149488)):
        assert saturation_kelvin(megapascal) == pytest.approx(kelvin, abs=1e-6)


def test_the_oracle_knows_the_lightest_water() -> None:
    """IAPWS SR1-86(1992) table 2: 958.365 kg/m3 at 373.1243 K; at 1 MPa 1/0.00112723 (IAPWS-IF97 steam tables)."""
    assert lightest_water(0.101325) == pytest.approx(958.365, abs=0.02)
    assert lightest_water(1) == pytest.approx(1 / 0.00112723, rel=1e-4)


@pytest.mark.parametrize("first", range(0, 12 * CHUNK, CHUNK))
def test_three_values_agree_with_every_wiring_setting_and_world(tmp_path: Path, first: int) -> None:
    disagree = []
    for seed in range(first, first + CHUNK):
        model, put = random_model(seed)
        expected = oracle_outcome(model, put)
        found = engine_outcome(tmp_path / str(seed), model, put)
        if found != expected:
            disagree.append((seed, put, expected, found))
    assert disagree == []


def test_the_drawn_models_hold_all_three_values_and_at_most_six_open_facts() -> None:
    drawn = [random_model(seed) for seed in range(12 * CHUNK)]
    outcomes = [oracle_outcome(model, put) for model, put in drawn]
    for value in (FITS, DOES_NOT_FIT, CANNOT_TELL):
        assert outcomes.count(value) > len(drawn) // 8
    assert max(len(open_facts(model, put)) for model, put in drawn) <= 6
    assert sum(len(worlds(owners_of(m, {**m.holds, **put}), {})) > 4 for m, put in drawn) > 50


def test_rules_that_exclude_one_another_on_one_choice_refuse_together(tmp_path: Path) -> None:
    """A secondary must be manual; a manual one that a power failure clears is no lockout.

    No world satisfies both, though each rule alone is open.
    """
    model = base()
    lock = private_copy(model, "secondary.switch_set").outputs["lock"]
    lock["reset_type"] = among("automatic", "manual")
    lock["after_power_loss"] = word("clears")
    put = {"secondary.switch_set": model.holds["secondary.switch_set"]}
    assert oracle_outcome(model, put) == DOES_NOT_FIT
    catalog, site = load(tmp_path, model)
    verdict = ls.check(catalog, site, put=put)
    assert verdict.outcome == ls.Outcome.DOES_NOT_FIT
    assert verdict.proved
    assert verdict.certificate.kind == "conflict"
    assert set(verdict.certificate.rules) == {"roles.reset", "roles.lockout"}
    assert [fact for fact, _ in verdict.certificate.facts] == ["secondary.switch_set.lock / reset_type"]


def as_sets(repairs: tuple[ls.Repair, ...]) -> set[tuple[tuple[str, ...], frozenset[tuple[str, ...]]]]:
    """Positions in order, with the tuples in the same order."""
    found = set()
    for repair in repairs:
        assert repair.more == 0
        order = sorted(range(len(repair.positions)), key=lambda i: repair.positions[i])
        tuples = frozenset(tuple(t[i] for i in order) for t in repair.tuples)
        found.add((tuple(repair.positions[i] for i in order), tuples))
    return found


@pytest.mark.parametrize("first", range(0, 50, 10))
def test_minimal_repairs_agree_as_sets_kept_and_released(tmp_path: Path, first: int) -> None:
    disagree = []
    for seed in range(first, first + 10):
        model, put = repairable_model(seed)
        catalog, site = load(tmp_path / str(seed), model)
        found = ls.alternatives(catalog, site, put=put)
        assert found.complete_up_to == 3
        for name, repairs, release in (("keep", found.keep, False), ("release", found.release, True)):
            expected = minimal_repairs(model, put, release=release)
            if as_sets(repairs) != expected:
                disagree.append((seed, put, name, expected ^ as_sets(repairs)))
    assert disagree == []


def test_a_head_whose_bay_vanishes_is_repaired_with_a_switch_half_and_its_set(tmp_path: Path) -> None:
    model, _ = repairable_model(44)
    put = {"primary.head": "half"}
    catalog, site = load(tmp_path, model)
    found = as_sets(ls.alternatives(catalog, site, put=put).keep)
    assert found == minimal_repairs(model, put, release=False)
    assert (("primary.switch_half", "primary.switch_set"), frozenset({("clamp", "magnet stage")})) in found


def answer_bytes(folder: Path, model: Model, put: dict[str, str]) -> str:
    catalog, site = load(folder, model)
    text = ls.check(catalog, site, put=put).to_json(ls.alternatives(catalog, site, put=put))
    return text.replace(str(folder), "FOLDER")


def shuffled(r: random.Random, entries: dict[str, object]) -> dict[str, object]:
    keys = list(entries)
    r.shuffle(keys)
    return {key: entries[key] for key in keys}


def answer_without_lines(folder: Path, model: Model, put: dict[str, str]) -> dict[str, object]:
    """What is answered, in its order; origins are left out, since their lines move with the order."""
    catalog, site = load(folder, model)
    verdict, repairs = ls.check(catalog, site, put=put), ls.alternatives(catalog, site, put=put)
    answer = {name: getattr(verdict, name) for name in ("outcome", "reason", "wiring", "settings", "works", "cautions")}
    answer["findings"] = [(f.rule, f.subject, f.margin) for f in verdict.findings]
    answer["questions"] = [(q.rule, q.fact) for q in verdict.questions]
    answer |= {name: [(q.positions, q.tuples) for q in getattr(repairs, name)] for name in ("keep", "release", "undecided")}
    answer["blocked"] = [(b.position, b.part, b.reason) for b in repairs.blocked]
    answer["ruled_out"] = [(q.position, q.removed_by, q.nearest_miss) for q in repairs.ruled_out]
    return answer


@pytest.mark.parametrize("entries", ["parts", "holds", "stations", "circuits", "duties"])
def test_the_order_of_entries_changes_nothing(tmp_path: Path, entries: str) -> None:
    disagree = []
    for seed in range(12):
        model, put = repairable_model(seed)
        other = copy.deepcopy(model)
        setattr(other, entries, shuffled(random.Random(seed), getattr(model, entries)))
        one = answer_without_lines(tmp_path / f"{seed}a", model, put)
        two = answer_without_lines(tmp_path / f"{seed}b", other, put)
        disagree += [(seed, name) for name in one if one[name] != two[name]]
    assert disagree == []


@pytest.mark.parametrize("seed", range(6))
def test_the_names_of_the_files_do_not_change_a_byte(tmp_path: Path, seed: int) -> None:
    model, put = repairable_model(seed)
    names = {}
    for which, prefix in (("first", "a"), ("second", "z")):
        folder, _ = write_model(tmp_path / which, model)
        for i, path in enumerate(sorted((folder / "parts").glob("*.yaml"), reverse=which == "second")):
            names[f"{prefix}{i}.yaml"] = path.name
            path.rename(path.with_name(f"{prefix}{i}.yaml"))
    texts = []
    for which in ("first", "second"):
        catalog = ls.Catalog.load(str(tmp_path / which))
        site = ls.Site.load(str(tmp_path / which / "sites" / "site.yaml"), catalog)
        text = ls.check(catalog, site, put=put).to_json(ls.alternatives(catalog, site, put=put))
        text = text.replace(str(tmp_path / which), "FOLDER")
        for new, old in names.items():
            text = text.replace(new, old)
        texts.append(text)
    assert texts[0] == texts[1]


def test_the_same_files_give_the_same_bytes(tmp_path: Path) -> None:
    for seed in range(8):
        model, put = repairable_model(seed)
        assert answer_bytes(tmp_path / f"{seed}a", model, put) == answer_bytes(tmp_path / f"{seed}b", model, put)


def known_as(fact: Fact, value: object) -> Fact | None:
    """The fact narrowed to one of its values, in the words of the file."""
    if isinstance(value, str):
        return Fact(value, (value,))
    if isinstance(value, frozenset):
        return Fact(sorted(value), (value,))
    if isinstance(fact.text, str) and ".." in fact.text:
        unit = fact.text.split("..")[0].strip().split(" ", 1)[1:]
        return Fact(" ".join([str(value), *unit]), (value,))
    return None


def test_narrowing_a_fact_only_ever_leaves_cannot_tell(tmp_path: Path) -> None:
    narrowed = 0
    for seed in range(90):
        model, put = random_model(seed)
        for facts, name in open_facts(model, put)[:2]:
            before, wide = engine_outcome(tmp_path / f"{seed}-{name}", model, put), facts[name]
            for i, value in enumerate(wide.values):
                if (narrow := known_as(wide, value)) is None:
                    continue
                facts[name] = narrow
                after = engine_outcome(tmp_path / f"{seed}-{name}-{i}", model, put)
                assert before in (CANNOT_TELL, after), (seed, name, value)
                narrowed += 1
            facts[name] = wide
    assert narrowed > 100


def test_deleting_a_fact_never_creates_fits_and_never_refuses_what_was_possible(tmp_path: Path) -> None:
    r, disagree = random.Random(7), []
    for seed in range(80):
        model, put = random_model(seed)
        before = engine_outcome(tmp_path / f"{seed}", model, put)
        owners = owners_of(model, {**model.holds, **put})
        owner = r.choice(sorted(owners))
        name = r.choice(sorted(set(owners[owner]) - {"mounting_may_be", "glass_on"}))  # a glass must say its datum
        del owners[owner][name]
        after = engine_outcome(tmp_path / f"{seed}-less", model, put)
        if after not in (before, CANNOT_TELL):
            disagree.append((seed, owner, name, before, after))
    assert disagree == []


def test_an_unknown_supply_is_a_question_and_no_refusal(tmp_path: Path) -> None:
    model = base(False)
    model.circuits["bell"]["supply"] = unknown(1, 120, 700)
    assert oracle_outcome(model, {"primary.switch_set": "stage"}) == CANNOT_TELL
    assert engine_outcome(tmp_path, model, {"primary.switch_set": "stage"}) == CANNOT_TELL


def test_an_unknown_repeatability_is_a_question_and_no_refusal(tmp_path: Path) -> None:
    model = base(False)
    model.parts["stage"].outputs["lower"]["repeatability"] = unknown(0, Varying(-50, 50))
    assert oracle_outcome(model, {"primary.switch_set": "stage"}) == CANNOT_TELL
    assert engine_outcome(tmp_path, model, {"primary.switch_set": "stage"}) == CANNOT_TELL


def test_a_part_for_itself_changes_nothing(tmp_path: Path) -> None:
    for seed in range(40):
        model, put = random_model(seed)
        model.holds = {**model.holds, **put}
        catalog, site = load(tmp_path / str(seed), model)
        for position, part in put.items():
            verdict = ls.check(catalog, site, put={position: part})
            assert verdict.outcome == verdict.before, (seed, position)


def test_a_spare_output_never_loses_a_fit(tmp_path: Path) -> None:
    for seed in range(50):
        model, put = random_model(seed)
        if engine_outcome(tmp_path / f"{seed}", model, put) != FITS:
            continue
        set_ = model.parts[put.get("primary.switch_set", model.holds["primary.switch_set"])]
        donor = random.Random(seed).choice(list(set_.outputs.values()))
        set_.outputs["more"] = copy.deepcopy(donor)
        set_.outputs["more"]["common"] = word("own")
        assert engine_outcome(tmp_path / f"{seed}-more", model, put) == FITS, seed
