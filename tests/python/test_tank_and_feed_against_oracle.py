"""The engine against a second oracle: tanks, probes, transmitters, feed lines and screw-in controls.

The oracle (tests/oracles/tank_and_feed.py) is written from the definitions alone: the rules of one world, every world
of a lattice, every setting. The models are drawn with fixed seeds; those that hang on a few thousandths are left out.
"""

from __future__ import annotations

import math
import re
import sys
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

import levelswap as ls

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "oracles"))

from tank_and_feed import CANNOT_TELL, DOES_NOT_FIT, FITS, Check, Fact, Model, boiling, checks_of, density  # noqa: E402
from tank_and_feed import has_reducing_valve, judge, levels_of, saturated, set_window, sheets, vapour_pressure, worlds  # noqa: E402
from tank_and_feed_models import REDUCING, SYSTEMS, model_of, random_model, write_model  # noqa: E402

MODELS = 60
CHUNK = 20


def drawn(system: str, seed: int) -> Model:
    return random_model(system, seed)[0]


def expected(system: str, seed: int) -> str:
    return random_model(system, seed)[1]


@pytest.fixture(scope="module")
def verdict(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str, int], ls.Verdict]:
    """What the engine says of a drawn model, asked once."""

    @cache
    def ask(system: str, seed: int) -> ls.Verdict:
        return verdict_of(tmp_path_factory.mktemp(f"{system}{seed}"), drawn(system, seed))

    return ask


def verdict_of(folder: Path, model: Model) -> ls.Verdict:
    catalog_folder, site = write_model(folder, model)
    catalog = ls.Catalog.load(str(catalog_folder))
    return ls.check(catalog, ls.Site.load(str(site), catalog), put=model.put, units="si")


def name_of(verdict: ls.Verdict) -> str:
    return str(verdict.outcome.name.lower())


def moved_texts(model: Model) -> dict[str, object]:
    return {f"{owner} / {name}": fact.text for (owner, name), fact in model.moved.items()}


def test_the_oracle_knows_water() -> None:
    """Rows of tests/reference/saturation_if97.csv and dp_level.csv, and 0.1 MPa of IAPWS R7-97(2012) table 36."""
    assert boiling(1e5) == pytest.approx(372.755919, abs=1e-4)
    assert vapour_pressure(372.755919) == pytest.approx(1e5, rel=1e-6)
    gauge_125_psi = (125 + 14.696) * 6894.757293168
    assert saturated(gauge_125_psi, 0) == pytest.approx(888.855, rel=1e-4)
    assert saturated(gauge_125_psi, 1) == pytest.approx(4.9645, rel=1e-3)
    assert density((100 + 459.67) / 1.8, gauge_125_psi) == pytest.approx(993.432, rel=1e-5)


@pytest.mark.parametrize("system", SYSTEMS)
def test_what_nobody_moved_fits(tmp_path: Path, system: str) -> None:
    for reducing in (False, True) if system in ("float_valve", "two_probe") else (False,):
        model = model_of(system, {} if not reducing else ROOM_FOR_A_REDUCING_VALVE, reducing=reducing)
        assert judge(model) == FITS
        assert name_of(verdict_of(tmp_path / str(reducing), model)) == FITS


def known(text: str) -> Fact:
    return Fact(text, (text,))


ROOM_FOR_A_REDUCING_VALVE = {("make up", "supply_pressure"): known("~ 500 kPa(g) .. 700 kPa(g)")}


@pytest.mark.parametrize("first", range(0, MODELS, CHUNK))
@pytest.mark.parametrize("system", SYSTEMS)
def test_three_values_agree_with_every_world_and_setting(
    verdict: Callable[[str, int], ls.Verdict], system: str, first: int
) -> None:
    disagree = []
    for seed in range(first, first + CHUNK):
        model, wanted = drawn(system, seed), expected(system, seed)
        found = verdict(system, seed)
        if name_of(found) != wanted and not left_undecided(found, wanted):
            disagree.append((seed, moved_texts(model), wanted, name_of(found)))
    assert disagree == []


def left_undecided(found: ls.Verdict, wanted: str) -> bool:
    """Each rule excludes some values of one fact, and only together they exclude all: that may be left open.

    The answer must then say that it is not proved. No fit may be left open.
    """
    return wanted == DOES_NOT_FIT and name_of(found) == CANNOT_TELL and not found.proved


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_drawn_models_hold_all_three_values(system: str) -> None:
    outcomes = [expected(system, seed) for seed in range(MODELS)]
    for value in (FITS, DOES_NOT_FIT, CANNOT_TELL):
        assert outcomes.count(value) >= MODELS // 8, (value, outcomes.count(value))
    open_facts = [sum(len(f.values) > 1 for f in drawn(system, seed).moved.values()) for seed in range(MODELS)]
    assert max(open_facts) <= 3
    assert sum(n >= 2 for n in open_facts) >= MODELS // 10


def test_the_drawn_models_choose_settings() -> None:
    every = [(drawn(s, seed), expected(s, seed)) for s in SYSTEMS for seed in range(MODELS)]
    for chosen in (has_reducing_valve, lambda model: bool(model.free)):
        outcomes = [outcome for model, outcome in every if chosen(model)]
        assert all(outcomes.count(value) >= 5 for value in (FITS, DOES_NOT_FIT, CANNOT_TELL)), outcomes


# ---- figures

# Of these the engine may put a tolerance on either side of the comparison: only what is left over is compared.
LEFT_OVER_ONLY = ("levels.", "tank_heat.fill", "feed.cycling", "feed.npsh")
# With a rod that may be cut anew these speak of the setting that suits them best.
OF_A_SETTING = ("levels.", "tank_heat.fill", "probes.rods", "insertion.withdrawal")
# Behind a reducing valve these speak of one end of what it can be set to; feed.regulator_window has both bounds.
AT_A_SET_PRESSURE = ("feed.float_valve_capacity", "feed.float_valve_shutoff", "feed.valve_capacity", "feed.solenoid")
SI = {"mm": 1e-3, "bar(g)": 1e5, "bar": 1e5, "kg/h": 1 / 3600, "kW": 1e3, "%": 0.01}
SI |= {"V": 1.0, "ohm": 1.0, "K": 1.0, "degC": 1.0, "": 1.0}
RANGE = re.compile(
    r"(?:at least |at most )?(-?[\d.]+(?:e[+-]?\d+)?) ?([^ ]*?)(?: to (-?[\d.]+(?:e[+-]?\d+)?) ?([^ ]*))?"
)


def figures(text: str) -> tuple[float, float] | None:
    """Both ends of a figure of an answer in SI; None where it is not known or no figure."""
    hit = RANGE.fullmatch(text)
    if hit is None:
        return None
    low, unit, high, other = hit.groups()
    shift = 273.15 if unit == "degC" else 0.0
    return float(low) * SI[unit] + shift, float(high or low) * SI[other or unit] + shift


def all_checks(model: Model) -> dict[tuple[str, int], list[Check]]:
    """The checks with figures, world by world: the comparisons of a rule are told apart by their order."""
    found: dict[tuple[str, int], list[Check]] = {}
    for w in worlds(model):
        count: dict[str, int] = {}
        more = []
        if has_reducing_valve(model):
            low, high = set_window(w)
            more = [Check("feed.regulator_window", low <= high, low, high)]
        for check in (*checks_of(w), *levels_of(w, sheets(model)[0]), *more):
            count[check.rule] = count.get(check.rule, 0) + 1
            if check.required is not None and check.available is not None:
                found.setdefault((check.rule, count[check.rule]), []).append(check)
    return found


def is_like(finding: ls.Finding, checks: list[Check]) -> bool:
    """Whether the figures of a finding are those of one comparison, over all worlds, to 0.5 %."""
    required, available, margin = (figures(t) for t in (finding.required, finding.available, finding.margin))
    assert required is not None and available is not None and margin is not None
    scale = 0.005 * max(map(abs, (*required, *available)))
    worst = min(c.available - c.required if more_is_better(c) else c.required - c.available for c in checks)
    if abs(worst - margin[0]) > scale:
        return False
    if finding.rule.startswith(LEFT_OVER_ONLY):
        return True
    sides = ([c.required for c in checks], [c.available for c in checks])
    return any(within(a, required, scale) and within(b, available, scale) for a, b in (sides, sides[::-1]))


def finite(checks: list[Check]) -> bool:
    return all(math.isfinite(c.required or 0.0) and math.isfinite(c.available or 0.0) for c in checks)


def more_is_better(check: Check) -> bool:
    assert check.required is not None and check.available is not None
    return check.holds == (check.available >= check.required)


def within(values: list[float | None], ends: tuple[float, float], scale: float) -> bool:
    return all(v is not None and ends[0] - scale <= v <= ends[1] + scale for v in values)


def with_figures(finding: ls.Finding, model: Model) -> bool:
    if model.free and finding.rule.startswith(OF_A_SETTING):
        return False
    if finding.rule == "roles.output" or (has_reducing_valve(model) and finding.rule in AT_A_SET_PRESSURE):
        return False
    return all(figures(text) is not None for text in (finding.required, finding.available, finding.margin))


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_figures_of_what_decides_agree(verdict: Callable[[str, int], ls.Verdict], system: str) -> None:
    compared, disagree = 0, []
    for seed in range(MODELS):
        model = drawn(system, seed)
        if not (findings := [f for f in verdict(system, seed).findings if with_figures(f, model)]):
            continue
        checks = all_checks(model)
        for f in findings:
            if any(not finite(c) for (rule, _), c in checks.items() if rule == f.rule):
                continue  # nothing pushes the water, or no set pressure feeds enough: no figure says how far
            compared += 1
            if not any(is_like(f, c) for (rule, _), c in checks.items() if rule == f.rule):
                mine = [
                    (c.required, c.available)
                    for (rule, _), cs in checks.items()
                    if rule == f.rule
                    for c in (cs[0], cs[-1])
                ]
                disagree.append((seed, f.rule, f.subject, f.required, f.available, f.margin, mine))
    assert disagree == []
    assert compared >= MODELS // 4


# ---- single cases, each found by a model drawn at random


def whole_millimetres(low: int, high: int) -> Fact:
    return Fact(f"{low} mm .. {high} mm", tuple(f"{mm} mm" for mm in range(low, high + 1)))


def test_a_float_between_two_that_shut_shuts(tmp_path: Path) -> None:
    """A larger ball lifts more: (971.8 * .75 * pi/6 * .118^3 - .3) * 9.807 * .3 - .2 = .762 N*m shuts against 125 kPa.

    Less 20 kPa of lock-up, 105 kPa are the most that may be set, and 74.5 kPa the least that feeds enough.
    """
    model = model_of(
        "float_valve", {("tank.float_valve", "float.diameter"): whole_millimetres(118, 129)}, reducing=True
    )
    assert judge(model) == FITS
    assert name_of(verdict_of(tmp_path, model)) == FITS


def test_where_a_wide_open_reducing_valve_stands_changes_no_flow(tmp_path: Path) -> None:
    """What it gains by standing lower it loses on the way up: 250 - 20 - 19.6 - (1 / .83)^2 * 100 = 65 kPa are left.

    44.5 kPa are enough: 1000 kg/h through 1.5 Kv.
    """
    height = Fact("1.5 m .. 5 m", tuple(f"{decimetres / 10} m" for decimetres in range(15, 51, 5)))
    moved = {(REDUCING, "flow_coefficient"): known("0.83 Kv"), (REDUCING, "set.high"): known("210 kPa(g)")}
    model = model_of("float_valve", {**moved, ("make up", "lift_after"): height}, reducing=True)
    assert judge(model) == FITS
    assert name_of(verdict_of(tmp_path, model)) == FITS


def test_water_of_any_temperature_between_two_that_do_stays_warm(tmp_path: Path) -> None:
    """At 74 degC the fill may be 107.5 mm, at 80 degC 153 mm; from 398 mm to 504 mm it is 106 mm."""
    temperature = Fact("74 degC .. 80 degC", tuple(f"{t} degC" for t in range(74, 81)))
    model = model_of(
        "two_probe", {("vessel", "water_temperature"): temperature, ("tank", "rods.middle"): known("502 mm")}
    )
    assert judge(model) == FITS
    assert name_of(verdict_of(tmp_path, model)) == FITS


@pytest.mark.parametrize(("tips", "room", "wanted"), [((300, 350), 210, DOES_NOT_FIT), ((407, 446), 180, FITS)])
def test_a_rod_that_is_cut_anew_has_its_new_length(
    tmp_path: Path, tips: tuple[int, int], room: int, wanted: str
) -> None:
    """The holder is at 600 mm: tips at 300 mm to 350 mm ask for 250 mm outside at least, tips at 420 mm for 180 mm."""
    text = f"{tips[0]} mm .. {tips[1]} mm"
    moved = {("tank", "rods.low_may_be"): known(text), ("tank", "room.out"): known(f"{room} mm")}
    if wanted == DOES_NOT_FIT:
        moved["tank", "rods.middle"] = known("450 mm")
    model = model_of("two_probe", moved, free=(("tank", "rods.low"),))
    assert judge(model) == wanted
    assert name_of(verdict_of(tmp_path, model)) == wanted


def test_a_level_that_strays_to_one_side_only_is_refused(tmp_path: Path) -> None:
    """A lopsided band would be judged as its wider half to both sides: the reader asks for the middle instead."""
    model = model_of("boiler_probes", {("primary.probe_relay.lower", "repeatability"): known("~ 0 mm .. 12 mm")})
    with pytest.raises(ls.DataError, match="not the same to both sides"):
        verdict_of(tmp_path, model)


def test_a_float_valve_stands_the_pressure_of_its_supply(tmp_path: Path) -> None:
    """350 kPa(g) less 2 m of water, 330 kPa(g), stand before a valve that is rated for 200 kPa(g).

    Its plate allows 600 kPa(g) at the inlet: where two sources differ, the lower one counts.
    """
    rating = [["20 degC", "200 kPa(g)"], ["120 degC", "200 kPa(g)"]]
    model = model_of("float_valve", {("tank.float_valve", "rating"): Fact(rating, (rating,))})
    assert judge(model) == DOES_NOT_FIT
    assert name_of(verdict_of(tmp_path, model)) == DOES_NOT_FIT
