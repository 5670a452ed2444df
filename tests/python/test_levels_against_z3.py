"""The level network, decided a second time by a solver for linear arithmetic.

Compared, on generated boilers with two columns whose switch sets state their levels above the casting mark:

* the levels hold: there are mountings within the windows such that, whatever the uncertain facts are, all
  requirements on levels are met;
* the levels are possible: there are mountings and values of the uncertain facts that meet all of them.

What is compared with it: of ``levelswap.check``, the findings whose rule belongs to the family ``levels``,
and the windows of the mountings. A failing finding says that the levels are not possible. No finding, and a
window for every mounting that may move, says that they hold. Everything else is undecided: each requirement
alone may be met by some mounting while no mounting meets all of them for certain. Every other fact is
unknown on purpose. All figures are whole millimetres, so that ties occur and are decided exactly: a level
that is just far enough away passes.

Outside source: z3 on the requirements as the rules state them, written down here once more.
"""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

import levelswap as ls
import pytest
import z3

NETWORKS = 240
Range = tuple[int, int]

# Who must be above whom, from low to high: duty, and whether its rising level counts.
ORDER = (
    ("secondary_cut_off", False),
    ("primary_cut_off", False),
    ("low_alarm", False),
    ("pump", False),
    ("pump", True),
    ("high_alarm", True),
)


@dataclass(frozen=True)
class Output:
    """The levels of one duty above the casting mark of a station's head, in mm."""

    station: str
    trip: Range
    reset: Range
    repeatability: int


@dataclass(frozen=True)
class Station:
    mounting: Range
    may_move: bool
    mark: Range
    water: Range
    steam: Range


@dataclass(frozen=True)
class Network:
    stations: dict[str, Station]
    outputs: dict[str, Output]
    visible: Range
    glass_on: str  # "vessel", or the column of the first station
    lpwl: Range
    separation: int
    above_visible: int
    over_lpwl: int


@dataclass
class Model:
    """Requirements `upper - lower >= gap` over one variable for each fact."""

    network: Network
    boxes: dict[str, tuple[z3.ArithRef, Range]] = field(default_factory=dict)
    settings: set[str] = field(default_factory=set)

    def fact(self, name: str, within: Range) -> z3.ArithRef:
        return self.boxes.setdefault(name, (z3.Real(name), within))[0]

    def face(self, station: str) -> z3.ArithRef:
        stands = self.network.stations[station]
        if stands.may_move:
            self.settings.add(f"{station} mounting")
        return self.fact(f"{station} mounting", stands.mounting)

    def level(self, duty: str, rising: bool) -> z3.ArithRef:
        output = self.network.outputs[duty]
        mark = self.fact(f"{output.station} mark", self.network.stations[output.station].mark)
        own = self.fact(f"{duty} {'reset' if rising else 'trip'}", output.reset if rising else output.trip)
        return self.face(output.station) + mark + own

    def glass(self) -> z3.ArithRef:
        low = self.fact("glass", self.network.visible)
        return low if self.network.glass_on == "vessel" else low + self.face("first")

    def requirements(self) -> list[z3.BoolRef]:
        network, outputs = self.network, self.network.outputs
        out = [self.glass() - self.fact("lpwl", network.lpwl) >= network.over_lpwl]

        def above(upper: tuple[str, bool], lower: tuple[str, bool]) -> None:
            both = outputs[upper[0]].repeatability + outputs[lower[0]].repeatability
            out.append(self.level(*upper) - self.level(*lower) >= network.separation + both)

        chain = [step for step in ORDER if step[0] in outputs]
        for lower, upper in zip(chain, chain[1:], strict=False):
            above(upper, lower)
        if "pump" in outputs:
            above(("pump", True), ("primary_cut_off", True))
            above(("pump", True), ("secondary_cut_off", True))
        for duty in ("primary_cut_off", "secondary_cut_off"):
            need = network.above_visible + outputs[duty].repeatability
            out.append(self.level(duty, False) - self.glass() >= need)
        for duty, output in outputs.items():
            column = network.stations[output.station]
            water = self.face(output.station) + self.fact(f"{output.station} water", column.water)
            steam = self.face(output.station) + self.fact(f"{output.station} steam", column.steam)
            out.append(self.level(duty, False) - water >= output.repeatability)
            out.append(steam - self.level(duty, True) >= output.repeatability)
        return out

    def within(self, wanted: bool) -> z3.BoolRef:
        """Every setting (or every other fact) lies in its range."""
        chosen = [box for name, box in self.boxes.items() if (name in self.settings) == wanted]
        return z3.And([z3.And(variable >= low, variable <= high) for variable, (low, high) in chosen])


def truth_of(network: Network) -> str:
    model = Model(network)
    requirements = model.requirements()
    possible = z3.Solver()
    possible.add(model.within(True), model.within(False), *requirements)
    if possible.check() == z3.unsat:
        return "fails"
    facts = [variable for name, (variable, _) in model.boxes.items() if name not in model.settings]
    certain = z3.SolverFor("LRA")
    certain.add(model.within(True), z3.ForAll(facts, z3.Implies(model.within(False), z3.And(requirements))))
    answer = certain.check()
    assert answer != z3.unknown, certain.reason_unknown()
    return "holds" if answer == z3.sat else "undecided"


def random_network(dice: random.Random) -> Network:
    blur = dice.choice((0, 2, 6, 12))  # how uncertain this boiler's facts are

    def about(middle: int) -> Range:
        low, high = dice.randint(0, blur), dice.randint(0, blur)
        return (middle - low, middle + high)

    def station(middle: int) -> Station:
        may_move = dice.random() < 0.5
        half = dice.randint(0, 25)
        mounting = (middle - half, middle + half) if may_move else about(middle)
        return Station(
            mounting, may_move, about(dice.randint(-2, 2)), about(-120), about(dice.randint(62, 130))
        )

    middles = {
        "secondary_cut_off": ("second", -30, 0),
        "primary_cut_off": ("first", -30, -10),
        "low_alarm": (dice.choice(("first", "second")), 0, 12),
        "pump": ("first", 18, 42),
        "high_alarm": (dice.choice(("first", "second")), 40, 64),
    }
    left_out = {duty for duty in ("low_alarm", "pump", "high_alarm") if dice.random() < 0.3}

    def output(where: str, trip: int, reset: int) -> Output:
        lift = 30 if where == "second" and trip >= -10 else 0  # the second column hangs lower
        shift = dice.randint(-3, 3)
        return Output(
            where, about(trip + lift + shift), about(reset + lift + shift), dice.choice((0, 0, 1, 2))
        )

    return Network(
        stations={"first": station(150), "second": station(dice.randint(115, 135))},
        outputs={duty: output(*levels) for duty, levels in middles.items() if duty not in left_out},
        visible=about(dice.randint(50, 80))
        if (glass_on := dice.choice(("vessel", "column"))) == "vessel"
        else about(dice.randint(-95, -70)),
        glass_on=glass_on,
        lpwl=about(0),
        separation=dice.choice((0, 2, 5, 8)),
        above_visible=dice.choice((0, 3, 6)),
        over_lpwl=dice.choice((0, 25, 50)),
    )


def in_mm(within: Range) -> str:
    return f"{within[0]} mm .. {within[1]} mm"


def write_parts(folder: Path, networks: list[Network]) -> None:
    files = {
        kind: ["levelswap: parts/1", f"kind: {kind}", "parts:"]
        for kind in ("float_head", "column", "float", "switch_set", "gauge_glass")
    }
    files["float"].append("  ball: {form: sphere}")
    for n, network in enumerate(networks):
        files["gauge_glass"].append(f"  glass {n}: {{visible: {{low: {in_mm(network.visible)}}}}}")
        for name, station in network.stations.items():
            files["float_head"].append(f"  head {n} {name}: {{mark: {in_mm(station.mark)}, design_tilt: 0 deg}}")
            tappings = f"{{water: {in_mm(station.water)}, steam: {in_mm(station.steam)}}}"
            files["column"].append(f"  column {n} {name}: {{tilt: 0 deg, tappings: {tappings}}}")
            files["switch_set"] += [
                f"  set {n} {name}:",
                "    stated_float: ball",
                f"    stated_head: head {n} {name}",
                "    outputs:",
                "      spare: {poles: 1}",
            ]
            files["switch_set"] += [
                f"      {duty}: {{trip_at_mark: {in_mm(o.trip)}, reset_at_mark: {in_mm(o.reset)},"
                f" repeatability: ~ +/- {o.repeatability} mm, delay: none}}"
                for duty, o in network.outputs.items()
                if o.station == name
            ]
        rows = {
            "separation": network.separation,
            "cut_off_above_visible": network.above_visible,
            "glass_over_lpwl": network.over_lpwl,
        }
        pack = ["levelswap: pack/1", f"name: pack {n}", "rows:"]
        pack += [
            f"  - {{figure: {figure}, value: {value} mm, because: trial}}" for figure, value in rows.items()
        ]
        (folder / "packs" / f"pack_{n}.yaml").write_text("\n".join(pack) + "\n", encoding="utf-8")
    for kind, lines in files.items():
        (folder / "parts" / f"{kind}.yaml").write_text("\n".join(lines) + "\n", encoding="utf-8")


def site_text(n: int, network: Network) -> str:
    lines = [
        "levelswap: site/1",
        f"name: trial {n}",
        f"vessel: {{service: steam, lpwl: {in_mm(network.lpwl)}}}",
        "stations:",
    ]
    for name, station in network.stations.items():
        key = "mounting_may_be" if station.may_move else "mounting"
        lines += [
            f"  {name}:",
            f"    {key}: {in_mm(station.mounting)}",
            f"    glass_on: {network.glass_on}",
            "    positions:",
        ]
        held = {
            "head": f"head {n} {name}",
            "column": f"column {n} {name}",
            "float": "ball",
            "switch_set": f"set {n} {name}",
        }
        if name == "first":
            held["glass"] = f"glass {n}"
        lines += [f"      {role}: {{holds: {part}}}" for role, part in held.items()]
    lines += ["circuits: {only: {current: ac}}", "functions:", "  complete: yes"]
    lines += [
        f"  {duty}: {{now: {o.station}.switch_set.{duty}, circuit: only}}"
        for duty, o in network.outputs.items()
    ]
    return "\n".join([*lines, f"packs: [pack {n}]"]) + "\n"


def truth_in(verdict: ls.Verdict, network: Network) -> str:
    found = (*verdict.findings, *verdict.site_work)
    states = {f.state for f in found if f.rule.startswith("levels.")}
    if "fails" in states:
        return "fails"
    movable = {f"mounting of {name}" for name, station in network.stations.items() if station.may_move}
    has_windows = {name for name, _ in verdict.settings} == movable
    return "holds" if has_windows and not states else "undecided"


def test_levels_hold_and_are_possible_exactly_when_the_solver_says_so(tmp_path: Path) -> None:
    dice = random.Random(1905)
    networks = [random_network(dice) for _ in range(NETWORKS)]
    for name in ("parts", "packs", "sites"):
        (tmp_path / name).mkdir()
    write_parts(tmp_path, networks)
    catalog = ls.Catalog.load(str(tmp_path))
    seen: Counter[tuple[str, bool]] = Counter()
    for n, network in enumerate(networks):
        path = tmp_path / "sites" / f"trial_{n}.yaml"
        path.write_text(site_text(n, network), encoding="utf-8")
        truth = truth_of(network)
        judged = truth_in(ls.check(catalog, ls.Site.load(str(path), catalog), put={}, units="si"), network)
        assert judged == truth, f"the solver says {truth}, the engine {judged}: {network}"
        seen[truth, any(station.may_move for station in network.stations.values())] += 1
    fewest = min(seen[truth, moves] for truth in ("holds", "undecided", "fails") for moves in (True, False))
    assert fewest >= 8, f"one kind of answer is hardly ever asked for: {seen}"


@pytest.mark.parametrize(
    ("mounting", "truth"), [((99, 99), "fails"), ((100, 100), "holds"), ((99, 100), "undecided")]
)
def test_level_that_is_just_far_enough_away_passes(mounting: Range, truth: str, tmp_path: Path) -> None:
    """Secondary trip at 70 mm, primary trip 30 mm below its mounting: nothing is to spare at 100 mm."""
    fixed = Station(mounting, False, (0, 0), (-200, -200), (200, 200))
    second = Station((100, 100), False, (0, 0), (-200, -200), (200, 200))
    outputs = {
        "primary_cut_off": Output("first", (-30, -30), (0, 0), 0),
        "secondary_cut_off": Output("second", (-30, -30), (0, 0), 0),
    }
    network = Network({"first": fixed, "second": second}, outputs, (0, 0), "vessel", (0, 0), 0, 0, 0)
    for name in ("parts", "packs"):
        (tmp_path / name).mkdir()
    write_parts(tmp_path, [network])
    catalog = ls.Catalog.load(str(tmp_path))
    path = tmp_path / "trial.yaml"
    path.write_text(site_text(0, network), encoding="utf-8")
    assert truth_of(network) == truth
    assert truth_in(ls.check(catalog, ls.Site.load(str(path), catalog), put={}), network) == truth
