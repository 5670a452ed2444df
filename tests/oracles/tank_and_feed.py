"""A second oracle: tanks, probes, transmitters, feed lines and screw-in controls, one world at a time.

It knows nothing of the engine. A fact is the texts that it may be (a lattice that holds both ends); a world takes one
of each. A rule is a plain function of one world and yields checks. Settings (the tips of rods that may be cut anew, the
set pressure of a reducing valve) are chosen: one choice must do in all worlds.

* fits: some setting satisfies every check in all worlds;
* does not fit: no setting and world satisfy every check;
* cannot tell: everything else.

All figures are SI (gauge pressure in Pa). Water is IAPWS-IF97 of CoolProp, liquid sizing IEC 60534-2-1 of fluids.
Where a rule has no other source it is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from itertools import product
from typing import Any

from CoolProp.CoolProp import PropsSI
from fluids.control_valve import size_control_valve_l

FITS, DOES_NOT_FIT, CANNOT_TELL = "fits", "does_not_fit", "cannot_tell"
NOTHING = "nothing"
G = 9.80665
CRITICAL = 22.064e6  # IAPWS R7-97(2012)
PSI = 6894.757293168
MADE_OF = {
    "kPa(g)": 1e3, "kPa(a)": 1e3, "kPa": 1e3, "psi(g)": PSI, "psi(a)": PSI, "psi": PSI,
    "mm": 1e-3, "m": 1.0, "in": 0.0254, "m2": 1.0, "kg": 1.0, "g": 1e-3, "kg/h": 1 / 3600, "kW": 1e3, "V": 1.0,
    "kohm": 1e3, "ohm": 1.0, "1/m": 1.0, "1/cm": 100.0, "mS/m": 1e-3, "uS/cm": 1e-4, "%": 0.01, "Kv": 1.0,
    "N*mm": 1e-3, "N*m": 1.0, "s": 1.0, "1/h": 1 / 3600, "A": 1.0, "mA": 1e-3, "VA": 1.0, "K": 1.0,
    "deg": math.pi / 180,
}  # fmt: skip


@cache
def number(text: str) -> float:
    """One quantity of a file, in SI."""
    value, _, unit = text.partition(" ")
    if unit == "degC":
        return float(value) + 273.15
    if unit == "degF":
        return (float(value) + 459.67) / 1.8
    return float(value) * (MADE_OF[unit] if unit else 1.0)


@cache
def both_ends(text: str) -> tuple[float, float]:
    """The ends of a range of which all values occur; twice the same where there is one."""
    least, _, most = text.removeprefix("~ ").partition(" .. ")
    return number(least), number(most or least)


@dataclass(frozen=True)
class Fact:
    """The text of the file, and the texts that the fact may be in some world."""

    text: Any
    values: tuple[Any, ...]


Key = tuple[str, str]  # owner (vessel, a line, a station, a circuit, a position, an output) and name of the fact


@dataclass
class Model:
    """One site, its parts by position, and the facts that are open. `free` names rods that may be cut anew."""

    system: str
    known: dict[Key, Any]
    moved: dict[Key, Fact]
    holds: dict[str, str]
    figures: dict[str, float]
    free: tuple[Key, ...] = ()
    put: dict[str, str] = field(default_factory=dict)


class World:
    """What the rules may read. `slack` loosens the checks that are not exact by a share of their figures."""

    def __init__(self, model: Model, chosen: Mapping[Key, Any], slack: float = 0.0, per_kelvin: float = 0.0187) -> None:
        self.model, self.chosen, self.slack, self.per_kelvin = model, chosen, slack, per_kelvin
        self.figure = model.figures

    def raw(self, owner: str, name: str) -> Any:
        key = (owner, name)
        return self.chosen[key] if key in self.chosen else self.model.known[key]

    def has(self, owner: str, name: str) -> bool:
        return (owner, name) in self.chosen or (owner, name) in self.model.known

    def ends(self, owner: str, name: str) -> tuple[float, float]:
        return both_ends(str(self.raw(owner, name)))

    def __call__(self, owner: str, name: str) -> float:
        return number(str(self.raw(owner, name)))

    def is_(self, owner: str, name: str, *words: str) -> bool:
        return self.raw(owner, name) in words

    def among(self, owner: str, name: str, word: str) -> bool:
        listed = self.raw(owner, name)
        return isinstance(listed, (list, tuple)) and word in listed

    def at(self, position: str) -> bool:
        return self.model.holds.get(position, NOTHING) != NOTHING


Sheet = Mapping[Key, float]  # tips of rods that are cut anew


@dataclass(frozen=True)
class Check:
    """One comparison or one choice of a rule; figures are None where there are none."""

    rule: str
    holds: bool
    required: float | None = None
    available: float | None = None


Checks = Iterator[Check]


def slack_of(w: World, *figures: float) -> float:
    return w.slack * max(map(abs, figures)) if all(map(math.isfinite, figures)) else 0.0


def at_least(w: World, rule: str, available: float, required: float, exact: bool = False) -> Check:
    slack = 1e-12 if exact else slack_of(w, available, required)
    return Check(rule, available + slack >= required, required, available)


def at_most(w: World, rule: str, available: float, allowed: float, exact: bool = False) -> Check:
    slack = 1e-12 if exact else slack_of(w, available, allowed)
    return Check(rule, available - slack <= allowed, allowed, available)


# ---- water (IAPWS-IF97)


@cache
def density(kelvin: float, pascal: float = 101325.0) -> float:
    return float(PropsSI("D", "T", kelvin, "P", max(pascal, 1.001 * vapour_pressure(kelvin)), "IF97::Water"))


@cache
def enthalpy(kelvin: float) -> float:
    """Of liquid water at 1 bar, or at its saturation pressure where that is more."""
    return float(PropsSI("H", "T", kelvin, "P", max(1e5, 1.001 * vapour_pressure(kelvin)), "IF97::Water"))


@cache
def vapour_pressure(kelvin: float) -> float:
    return float(PropsSI("P", "T", kelvin, "Q", 0, "IF97::Water"))


@cache
def boiling(pascal: float) -> float:
    return float(PropsSI("T", "P", pascal, "Q", 0, "IF97::Water"))


@cache
def saturated(pascal: float, share_of_steam: int) -> float:
    return float(PropsSI("D", "P", pascal, "Q", share_of_steam, "IF97::Water"))


# ---- interfaces, ratings, surroundings


def threads_agree(w: World, rule: str, a: str, b: str) -> Checks:
    """Trade 5.1: standard and size are the same, one goes into the other."""
    same = all(w.raw(a, f"connection.{n}") == w.raw(b, f"connection.{n}") for n in ("standard", "size"))
    genders = {w.raw(a, "connection.gender"), w.raw(b, "connection.gender")}
    yield Check(rule, same and genders == {"male", "female"})


def coil_suits(w: World, rules: tuple[str, str], part: str, place: str) -> Checks:
    """-15 %/+10 % of the rated voltage (common practice, no source)."""
    least, most = w.ends(place, "supply")
    rated = w(part, "coil.voltage")
    yield at_least(w, rules[0], least, rated * (1 - w.figure["supply_under"]))
    yield at_most(w, rules[1], most, rated * (1 + w.figure["supply_over"]))
    yield Check(rules[0], w.raw(part, "coil.current") == w.raw(place, "current"))
    if w.is_(place, "current", "ac"):
        yield Check(rules[0], w.among(part, "coil.frequency", str(w.raw(place, "frequency"))))


def rating_at(curve: Any, kelvin: float) -> float | None:
    """Straight between the points; the first pressure below the first point; none above the last."""
    points = [(number(t), number(p)) for t, p in curve]
    if kelvin <= points[0][0]:
        return points[0][1]
    for (t0, p0), (t1, p1) in zip(points, points[1:]):
        if kelvin <= t1:
            return p0 + (p1 - p0) * (kelvin - t0) / (t1 - t0)
    return None


def wetted_part_holds(w: World, part: str, kelvin: float) -> Checks:
    """Trade 5.4: against MAWP, at the temperature that the part sees."""
    last = number(w.raw(part, "rating")[-1][0])
    yield at_most(w, "ratings.temperature", kelvin, last)
    if (allowed := rating_at(w.raw(part, "rating"), kelvin)) is not None:
        yield at_least(w, "ratings.pressure", allowed, w("vessel", "mawp"))
    if w.is_(part, "low_pressure_only", "yes"):
        yield at_most(w, "ratings.low_pressure", w("vessel", "mawp"), number("15 psi(g)"))
    yield Check("ratings.service", w.among(part, "service", str(w.raw("vessel", "service"))))


def stands_its_place(w: World, part: str, place: str, family: str = "surroundings.") -> Checks:
    least, most = w.ends(place, "ambient")
    yield at_least(w, f"{family}ambient", w(part, "most_ambient"), most, exact=True)
    yield at_most(w, f"{family}ambient", w(part, "least_ambient"), least, exact=True)
    yield Check(f"{family}enclosure", w.among(part, "places", str(w.raw(place, "place"))))


def feed_part_holds(w: World, part: str, line: str) -> Checks:
    """Trade 5.4, feed side, and 46 CFR 56.50-30(a)(3): 1.25 MAWP or MAWP + 225 psi; what supply and pump can give."""
    given = w.ends(line, "supply_pressure")[1] + (w(f"{line}.pump", "shut_off") if w.at(f"{line}.pump") else 0.0)
    into_boiler = w.is_(line, "into", "boiler")
    mawp = w("vessel", "mawp")
    required = max(given, min(1.25 * mawp, mawp + number("225 psi"))) if into_boiler else given
    kelvin = w(line, "water_temperature")
    yield at_most(w, "ratings.feed_temperature", kelvin, number(w.raw(part, "rating")[-1][0]))
    if (allowed := rating_at(w.raw(part, "rating"), kelvin)) is not None:
        yield at_least(w, "ratings.feed_pressure", allowed, required)
    wanted = "feed_water" if into_boiler else "cold_make_up"
    yield Check("ratings.feed_service", w.among(part, "service", wanted))


# ---- a feed line: pressures at the valve (docs/signs.md, keys.md)


@dataclass(frozen=True)
class Line:
    """The pressures of a line, gauge, at the height of the vessel; `set_to` is the set pressure."""

    w: World
    name: str
    set_to: float | None = None

    def __call__(self, fact: str) -> float:
        return self.w(self.name, fact)

    def part(self, role: str) -> str | None:
        position = f"{self.name}.{role}"
        return position if self.w.at(position) else None

    @property
    def rho(self) -> float:
        return density(self("water_temperature"))

    @property
    def has_place_of_reducing_valve(self) -> bool:
        return f"{self.name}.reducing_valve" in self.w.model.holds

    @property
    def demand(self) -> float:
        """kg/s; blowdown is a share of the feed, so the feed is evaporation / (1 - share)."""
        if self.w.has(self.name, "demand"):
            return self("demand")
        return self.w("vessel", "evaporation") / (1 - self.w("vessel", "blowdown"))

    def height(self, metres: float) -> float:
        return self.rho * G * metres

    def adds(self, fact: str) -> float:
        pump = self.part("pump")
        return self.w(pump, fact) if pump else 0.0

    def wide_open(self, role_position: str) -> float:
        """Drop of a valve that stands open at full demand (IEC 60534-2-1)."""
        cubic = 3600 * self.demand / self.rho
        return 1e5 * (cubic / self.w(role_position, "flow_coefficient")) ** 2 * self.rho / 999.1

    def flowing(self) -> float:
        """Lowest pressure at the vessel's height while the full demand flows."""
        start = self.w.ends(self.name, "supply_pressure")[0] + self.adds("delivers.pressure") - self("losses")
        if not self.has_place_of_reducing_valve:
            return start - self.height(self("lift"))
        before = start - self.height(self("lift") - self("lift_after"))
        valve = self.part("reducing_valve")
        if valve:
            assert self.set_to is not None
            before = min(self.set_to - self.w(valve, "droop"), before - self.wide_open(valve))
        return before - self("losses_after") - self.height(self("lift_after"))

    def before_reducing_valve(self) -> float:
        """Highest pressure at the inlet of the reducing valve."""
        start = self.w.ends(self.name, "supply_pressure")[1] + self.adds("shut_off")
        return start - self.height(self("lift") - self("lift_after"))

    def static(self) -> float:
        """Highest pressure at the vessel's height while nothing flows."""
        if not self.has_place_of_reducing_valve:
            return self.w.ends(self.name, "supply_pressure")[1] + self.adds("shut_off") - self.height(self("lift"))
        before, valve = self.before_reducing_valve(), self.part("reducing_valve")
        if valve:
            assert self.set_to is not None
            before = min(before, self.set_to + self.w(valve, "lock_up"))
        return before - self.height(self("lift_after"))

    def coefficient_needed(self, upstream: float, vessel: float, recovery: float) -> float:
        """Kv for the full demand, IEC 60534-2-1 with choking, by `fluids`; infinite where nothing pushes."""
        if upstream <= vessel or self.demand <= 0:
            return math.inf if upstream <= vessel else 1e-9
        air = self.w("vessel", "atmosphere")
        kelvin = self("water_temperature")
        return float(size_control_valve_l(
            rho=self.rho, Psat=vapour_pressure(kelvin), Pc=CRITICAL, mu=1e-3, P1=upstream + air, P2=vessel + air,
            Q=self.demand / self.rho, FL=recovery, allow_laminar=False))  # fmt: skip


def reducing_valve_holds(w: World, line: Line) -> Checks:
    if valve := line.part("reducing_valve"):
        yield at_most(w, "feed.regulator_inlet", line.before_reducing_valve(), w(valve, "most_inlet"))
        yield from threads_agree(w, "interfaces.feed_thread", valve, line.name)
        yield from feed_part_holds(w, valve, line.name)


# ---- tank heat (trade 5.11)


def tank_stays_warm_in_the_balance(w: World, line: str) -> Checks:
    """Returns and preheat against what the coldest make-up takes, at the least temperature of the tank."""
    least, cold = w("vessel", "least_temperature"), w("vessel", "coldest_make_up")
    needed = Line(w, line).demand * max(0.0, enthalpy(least) - enthalpy(cold))
    given = w("vessel", "preheat") + w("vessel", "returns.flow") * (
        enthalpy(w("vessel", "returns.temperature")) - enthalpy(least)
    )
    yield at_least(w, "tank_heat.balance", w("vessel", "water_temperature"), least, exact=True)
    yield at_least(w, "tank_heat.balance", given, needed)


def tank_stays_warm_after_a_fill(w: World, start: float, stop: float) -> Checks:
    """Mixing by mass: how much of the coldest make-up what stands there takes. The level is that of the mixture."""
    warm, cold = w("vessel", "water_temperature"), w("vessel", "coldest_make_up")
    least = w("vessel", "least_temperature")
    if least <= cold:
        return
    share = (enthalpy(warm) - enthalpy(least)) / (enthalpy(least) - enthalpy(cold))
    deep = start - w("vessel", "bottom")
    allowed = deep * ((1 + share) * density(warm) / density(least) - 1)
    yield at_most(w, "tank_heat.fill", stop - start, max(0.0, allowed))


# ---- probes (trade 5.8)

# Conductivity of natural waters, a share of that at 25 degC per kelvin; nobody knows which one this water has:
# Hayashi 2004, row CND057 of tests/reference/conductivity.csv.
PER_KELVIN = (0.0175, 0.0198)


def probes_hold(w: World, station: str) -> Checks:
    holder, relay = f"{station}.probe_holder", f"{station}.probe_relay"
    kelvin = w("vessel", "cold_water")
    sigma = w("vessel", "conductivity") * (1 + w.per_kelvin * (kelvin - 298.15))
    margin = w.figure["probe_margin"]
    yield at_least(w, "probes.sensitivity", w(relay, "threshold"), margin * w(holder, "cell_constant") / sigma)
    yield at_least(w, "probes.film", w(station, "film"), margin * w(relay, "threshold"))
    yield Check("probes.reference", w.is_(station, "conductive_wall", "yes") or w.is_(holder, "reference_rod", "yes"))
    for name in outputs_of(w, relay):
        yield Check("probes.open_wire", w.is_(f"{relay}.{name}", "wire_open", "open"))
    yield at_least(w, "probes.wire", w(station, "wire.rating"), w(station, "wire.temperature"), exact=True)
    yield from coil_suits(w, ("probes.supply", "probes.supply"), relay, station)
    yield from rods_stand_clear(w, station)
    yield from threads_agree(w, "insertion.thread", holder, station)
    yield at_least(
        w, "insertion.room", w(station, "room.in"), w(holder, "insertion") + w.figure["side_clearance"], exact=True
    )
    yield from stands_its_place(w, relay, station)


def tip(w: World, station: str, rod: str, sheet: Sheet) -> float | None:
    """Elevation of a tip: as it is cut anew, or as it is."""
    if (cut := sheet.get((station, f"rods.{rod}"))) is not None:
        return cut
    return None if w.is_(station, f"rods.{rod}", "none") else w(station, f"rods.{rod}")


def outputs_of(w: World, part: str) -> list[str]:
    prefix = f"{part}."
    return sorted({o.removeprefix(prefix) for o, _ in w.model.known if o.startswith(prefix)})


def rods_hold(w: World, station: str, sheet: Sheet) -> Checks:
    holder, relay = f"{station}.probe_holder", f"{station}.probe_relay"
    yield at_least(w, "probes.rods", w(holder, "rods"), w(relay, "rods"), exact=True)
    lengths = []
    for name in outputs_of(w, relay):
        for which in ("trip_rod", "reset_rod"):
            at = tip(w, station, str(w.raw(f"{relay}.{name}", which)), sheet)
            yield Check("probes.rods", at is not None)
            if at is not None:
                lengths.append(w(station, "mounting") - at)
    for length in lengths:
        yield at_least(w, "probes.rods", w(holder, "longest_rod"), length, exact=True)
    if all(w.has(station, f"rods.{rod}") for rod in ("low", "middle", "high")):
        tips = [tip(w, station, rod, sheet) for rod in ("low", "middle", "high")]
        lowest = min(t for t in tips if t is not None)
        longest = max(w(holder, "insertion"), w(station, "mounting") - lowest)
        yield at_least(w, "insertion.withdrawal", w(station, "room.out"), longest, exact=True)


def rods_stand_clear(w: World, station: str) -> Checks:
    holder, clearance = f"{station}.probe_holder", w.figure["rod_clearance"]
    yield at_least(w, "probes.clearance", w(station, "rods.room") - w(holder, "rods_within"), clearance, exact=True)
    if w(holder, "rods") > 1:
        yield at_least(w, "probes.clearance", w(holder, "rod_gap"), clearance, exact=True)


# ---- the six systems


def float_valve(w: World) -> Checks:
    """A float valve in a feed tank: what no set pressure changes."""
    valve, line = "tank.float_valve", Line(w, "make up")
    yield from threads_agree(w, "insertion.thread", valve, "tank")
    yield from wetted_part_holds(w, valve, w("vessel", "water_temperature"))
    if (allowed := rating_at(w.raw(valve, "rating"), w("make up", "water_temperature"))) is not None:
        # What the supply gives stands before it, whether or not a reducing valve works (trade 5.4, feed side).
        yield at_least(w, "ratings.feed_pressure", allowed, w.ends("make up", "supply_pressure")[1])
    yield from float_valve_has_room(w, valve)
    yield from reducing_valve_holds(w, line)
    yield from tank_stays_warm_in_the_balance(w, "make up")


def float_valve_has_room(w: World, valve: str) -> Checks:
    ball, gap = w(valve, "float.diameter") / 2, w.figure["side_clearance"]
    yield at_least(w, "insertion.room", w("tank", "room.in"), w(valve, "float.lever") + ball + gap, exact=True)
    for way in ("up", "down"):
        yield at_least(w, "insertion.room", w("tank", f"room.{way}"), ball + gap, exact=True)


def float_valve_flows(w: World, set_to: float | None) -> Checks:
    line, valve = Line(w, "make up", set_to), "tank.float_valve"
    needed = line.coefficient_needed(line.flowing(), w.ends("vessel", "working_pressure")[1], w(valve, "recovery"))
    yield at_least(w, "feed.float_valve_capacity", line.demand * w(valve, "flow_coefficient") / needed, line.demand)


def float_valve_shuts(w: World, set_to: float | None) -> Checks:
    """Trade 5.10: (rho V - m) g b - moment >= k dp A a, arms level, seat not balanced."""
    line, valve = Line(w, "make up", set_to), "tank.float_valve"
    volume = w(valve, "float.share") * math.pi / 6 * w(valve, "float.diameter") ** 3
    lifted = density(w("vessel", "water_temperature")) * volume - w(valve, "float.mass")
    moment = lifted * G * w(valve, "float.lever") - w(valve, "lever_moment")
    area = math.pi / 4 * w(valve, "seat.diameter") ** 2
    against = max(0.0, moment) / (w.figure["float_valve_factor"] * area * w(valve, "seat.lever"))
    yield at_most(w, "feed.float_valve_shutoff", line.static() - w.ends("vessel", "working_pressure")[0], against)
    yield at_most(w, "feed.float_valve_shutoff", line.static(), w(valve, "most_inlet"))


def two_probe(w: World) -> Checks:
    """Two probes and a solenoid valve fill a tank in steps."""
    yield from probes_hold(w, "tank")
    yield from wetted_part_holds(w, "tank.probe_holder", w("vessel", "water_temperature"))
    yield from solenoid_joins(w, "make up", "fill")
    yield from reducing_valve_holds(w, Line(w, "make up"))
    yield from tank_stays_warm_in_the_balance(w, "make up")


def two_probe_levels(w: World, sheet: Sheet) -> Checks:
    yield from rods_hold(w, "tank", sheet)
    start, stop = levels_of_rods(w, "tank", "fill", sheet)
    if start is None or stop is None:
        return
    least, most = w.ends("tank.probe_relay.fill", "repeatability")
    yield at_least(w, "levels.order", stop + least, start + most + w.figure["separation"], exact=True)
    if stop + most > start + least:
        yield from tank_stays_warm_after_a_fill(w, start + least, stop + most)


def levels_of_rods(w: World, station: str, output: str, sheet: Sheet) -> tuple[float | None, float | None]:
    owner = f"{station}.probe_relay.{output}"
    trip, reset = (tip(w, station, str(w.raw(owner, which)), sheet) for which in ("trip_rod", "reset_rod"))
    return trip, reset


def solenoid_joins(w: World, line: str, circuit: str) -> Checks:
    valve = f"{line}.solenoid_valve"
    yield from threads_agree(w, "interfaces.feed_thread", valve, line)
    yield from feed_part_holds(w, valve, line)
    yield from coil_suits(w, ("interfaces.supply", "interfaces.overvoltage"), valve, circuit)
    yield from stands_its_place(w, valve, circuit, "surroundings.circuit_")


def solenoid_flows(w: World, set_to: float | None) -> Checks:
    """Enough goes through it, and a pilot valve has what it needs to open, after droop and losses."""
    line, valve = Line(w, "make up", set_to), "make up.solenoid_valve"
    flowing, tank = line.flowing(), w.ends("vessel", "working_pressure")[1]
    needed = line.coefficient_needed(flowing, tank, w(valve, "recovery"))
    yield at_least(w, "feed.valve_capacity", line.demand * w(valve, "flow_coefficient") / needed, line.demand)
    if w.is_(valve, "acts_by", "pilot"):
        yield at_least(w, "feed.solenoid", flowing - tank, w(valve, "least_differential"))


def solenoid_shuts(w: World, set_to: float | None) -> Checks:
    line, valve = Line(w, "make up", set_to), "make up.solenoid_valve"
    difference = line.static() - w.ends("vessel", "working_pressure")[0]
    yield at_most(w, "feed.solenoid", difference, w(valve, "most_differential"))


def boiler_probes(w: World) -> Checks:
    """Probes as primary and secondary cut-off and pump control of a boiler."""
    steam = boiling(w("vessel", "mawp") + w("vessel", "atmosphere"))
    for station in ("primary", "secondary"):
        yield from probes_hold(w, station)
        yield from wetted_part_holds(w, f"{station}.probe_holder", steam)
    lower, upper, lock = "primary.probe_relay.lower", "primary.probe_relay.upper", "secondary.probe_relay.lock"
    yield from cut_off_holds(w, lower, "primary")
    yield from cut_off_holds(w, lock, "secondary")
    yield Check("roles.reset", w.is_(upper, "reset_type", "automatic"))
    yield from water_connections_are_apart(w)


def boiler_probe_levels(w: World, sheet: Sheet) -> Checks:
    lower, upper, lock = "primary.probe_relay.lower", "primary.probe_relay.upper", "secondary.probe_relay.lock"
    for station in ("primary", "secondary"):
        yield from rods_hold(w, station, sheet)
    low, high = levels_of_rods(w, "primary", "lower", sheet), levels_of_rods(w, "primary", "upper", sheet)
    second = levels_of_rods(w, "secondary", "lock", sheet)
    if None in (*low, *high, *second):
        return

    def spread(level: float | None, output: str) -> tuple[float, float]:
        least, most = w.ends(output, "repeatability")
        return (level or 0.0) + least, (level or 0.0) + most

    yield at_least(w, "levels.order", spread(high[1], upper)[0], spread(second[1], lock)[1] + 1e-9, exact=True)
    steps = [spread(second[0], lock), spread(low[0], lower), spread(high[0], upper), spread(high[1], upper)]
    yield from levels_hold(w, steps, spread(low[1], lower), (lock, lower))


def cut_off_holds(w: World, output: str, which: str) -> Checks:
    """Trade 5.6: reset, lockout, listing, and open in every state that is not proven wet."""
    manual = w.is_(output, "reset_type", "manual")
    if which == "primary":
        yield Check("roles.primary_reset", not manual)
    else:
        yield Check("roles.reset", manual)
    if manual:
        yield Check(
            "roles.lockout", w.is_(output, "after_power_loss", "holds", "trips") and w.is_(output, "trip_free", "yes")
        )
    yield Check("roles.listed", w.among(output, "listed_for", "cut_off"))
    for state in ("unpowered", "float_sunk", "wire_open", "wire_shorted"):
        yield Check("roles.state_table", not w.is_(output, state, "closed"))


def water_connections_are_apart(w: World) -> Checks:
    water = [w.raw(s, "water_connection") for s in ("primary", "secondary")]
    yield Check("roles.independent", "own" in water or water[0] != water[1])


Span = tuple[float, float]


def levels_hold(w: World, steps: list[Span], reset: Span, delayed: tuple[str, str]) -> Checks:
    """Trade 5.7. `steps`: secondary and primary trip, feed on, feed off; each lowest and highest."""
    figure = w.figure
    low, high = (w("primary.glass", f"visible.{end}") for end in ("low", "high"))
    yield at_least(w, "levels.glass_over_lpwl", low, w("vessel", "lpwl") + figure["glass_over_lpwl"], exact=True)
    for (below, above), output in zip(steps, delayed):
        yield at_least(w, "levels.cut_off_visible", below, low + figure["cut_off_above_visible"], exact=True)
        yield at_most(w, "levels.cut_off_visible", above, high, exact=True)
        seconds = 0.0 if w.is_(output, "delay", "none") else w(output, "delay")
        light = saturated(w("vessel", "mawp") + w("vessel", "atmosphere"), 0)
        fall = w("vessel", "evaporation") * seconds / (light * w("vessel", "surface"))
        yield at_least(w, "levels.delay", below - fall, low + figure["delay_margin"])
    for (_, above), (below, _) in zip(steps, steps[1:]):
        yield at_least(w, "levels.order", below, above + figure["separation"], exact=True)
    yield at_least(w, "levels.order", steps[-1][0], reset[1] + 1e-9, exact=True)


def transmitter(w: World) -> Checks:
    """Trade 5.9: dp = g (rho_f h + rho_g (H - h) - rho_r H) + g y (rho_HP - rho_LP).

    Below the tapping both legs of a wet one are equally full.
    """
    part, station = "level.transmitter", "level"
    wet = w.is_(station, "low_leg", "wet")
    yield Check("transmitter.dry_leg", wet)
    pressure = w(station, "calibrated.pressure") + w("vessel", "atmosphere")
    water, steam = saturated(pressure, 0), saturated(pressure, 1)
    cool = density(w(station, "leg.temperature"), pressure)
    leg = cool if wet else steam
    between, low, high = w(station, "tappings.spacing"), w(station, "calibrated.low"), w(station, "calibrated.high")

    def difference(level: float) -> float:
        return G * (water * level + steam * (between - level) - leg * between + (cool - leg) * w(station, "below_tap"))

    yield at_least(w, "transmitter.range", difference(low), w(part, "range.low"))
    yield at_most(w, "transmitter.range", difference(high), w(part, "range.high"))
    yield at_least(w, "transmitter.span", difference(high) - difference(low), w(part, "least_span"))
    yield from loop_holds(w, part, "valve")
    yield from threads_agree(w, "insertion.thread", part, station)
    if wet:
        yield from wetted_part_holds(w, part, w(station, "leg.temperature"))
    yield from stands_its_place(w, part, station)
    yield from low_end_is_above_the_cut_off(w, station)
    output = f"{part}.level"
    yield Check("interfaces.signal", w.raw(output, "direction") == w.raw("valve", "opens_with"))
    if w.figure["feed_may_open"] == 0:
        yield Check("feed.lost_signal", not w.is_(output, "broken_wire", "opens_valve"))


def true_level(w: World, station: str, shown: float, pressure: float) -> float:
    """The level h of a vessel at `pressure` at which the transmitter measures what it was calibrated to show as `shown`:
    rho_f h + rho_g (H - h) - rho_r H is the same in both states. Below the lower tapping a wet leg changes nothing."""
    between, wet = w(station, "tappings.spacing"), w.is_(station, "low_leg", "wet")

    def weights(p: float) -> tuple[float, float, float]:
        water, steam = saturated(p, 0), saturated(p, 1)
        return water, steam, density(w(station, "leg.temperature"), p) if wet else steam

    atmosphere = w("vessel", "atmosphere")
    water, steam, leg = weights(w(station, "calibrated.pressure") + atmosphere)
    head = water * shown + steam * (between - shown) - leg * between
    water, steam, leg = weights(pressure + atmosphere)
    return (head - steam * between + leg * between) / (water - steam)


def low_end_is_above_the_cut_off(w: World, station: str) -> Checks:
    """Trade 5.7: the level at which a feed valve stands wide open is above that at which the primary cut-off trips.

    The working pressure takes every value between its ends.
    """
    cut_off = "primary.switch_set.lower"
    lowest, highest = w.ends("vessel", "working_pressure")
    pressures = [lowest + (highest - lowest) * i / 8 for i in range(9)]
    end = (
        w(station, "mounting")
        + min(true_level(w, station, w(station, "calibrated.low"), p) for p in pressures)
        + w.ends(f"{station}.transmitter.level", "repeatability")[0]
    )
    trip = (
        w("primary", "mounting")
        + w("primary.head", "mark")
        + w(cut_off, "trip_at_mark")
        + w.ends(cut_off, "repeatability")[1]
    )
    yield at_least(w, "levels.order", end, trip + w.figure["separation"])


def loop_holds(w: World, part: str, circuit: str) -> Checks:
    """22.5 mA flow when the transmitter signals its own failure (trade 5.9)."""
    left = w.ends(circuit, "supply")[0] - 0.0225 * w(circuit, "loop.resistance")
    yield at_least(w, "transmitter.loop", left, w(part, "loop.least_voltage"))


def pump_holds(w: World, line: Line) -> Checks:
    """Trade 5.10: flow, pressure against the safety valve, suction head."""
    pump = f"{line.name}.pump"
    yield from feed_part_holds(w, pump, line.name)
    yield at_least(w, "feed.pump", w(pump, "delivers.flow"), w.figure["pump_flow_factor"] * line.demand)
    least = w.ends(line.name, "supply_pressure")[0]
    against = (
        w.figure["pump_pressure_factor"] * w("vessel", "safety_valve") + line("losses") + line.height(line("lift"))
    )
    yield at_least(w, "feed.pump_pressure", least + w(pump, "delivers.pressure"), against)
    kelvin = line("water_temperature")
    pressed = least + w("vessel", "atmosphere") - vapour_pressure(kelvin) - line("suction.losses")
    head = pressed / (line.rho * G) + line("suction.head")
    yield at_least(w, "feed.npsh", head, w(pump, "npsh") + w.figure["npsh_margin"])


def feed_valve(w: World) -> Checks:
    """Pump, modulating feed valve and its actuator, worked by a slide-wire."""
    line, valve, actuator = Line(w, "feed"), "feed.feed_valve", "feed.actuator"
    yield from pump_holds(w, line)
    yield Check("feed.dead_head", w.is_("feed", "bypass", "yes"))
    yield from feed_part_holds(w, valve, "feed")
    yield from threads_agree(w, "interfaces.feed_thread", valve, "feed")
    yield from coil_suits(w, ("interfaces.supply", "interfaces.overvoltage"), actuator, "valve")
    yield from stands_its_place(w, actuator, "valve", "surroundings.circuit_")
    lowest, highest = w.ends("vessel", "working_pressure")
    coefficient, recovery = w(valve, "flow_coefficient"), w(valve, "recovery")
    most = line.coefficient_needed(line.flowing(), highest, recovery)
    yield at_least(w, "feed.valve_capacity", line.demand * coefficient / most, line.demand)
    spread = w.ends("feed", "supply_pressure")
    least = line.coefficient_needed(line.flowing() + spread[1] - spread[0], lowest, recovery)
    yield at_most(w, "feed.valve_opening", opening(w, valve, most / coefficient), w.figure["opening_most"])
    yield at_least(w, "feed.valve_nearly_shut", opening(w, valve, least / coefficient), w.figure["opening_least"])
    shut = line.static() - lowest
    for part in (valve, actuator):
        yield at_least(w, "feed.actuator", w(part, "most_differential"), shut)
    slide = "primary.switch_set.slide"
    yield Check("feed.actuator", w.is_(actuator, "takes", "slide_wire"))
    taken = w(actuator, "takes_resistance")  # within 10 %: common practice, no source
    yield at_most(w, "feed.actuator", abs(taken - w(slide, "resistance")), 0.1 * taken)
    yield Check("feed.actuator", w.raw(slide, "direction") == w.raw(actuator, "opens_with"))
    if w.figure["feed_may_open"] == 0:
        yield Check("feed.lost_signal", not w.is_(actuator, "on_failure", "opens"))


def opening(w: World, valve: str, share: float) -> float:
    """Travel at a share of the full coefficient: the inherent characteristics of IEC 60534-2-4."""
    ratio = w(valve, "rangeability")
    if w.is_(valve, "characteristic", "linear"):
        return (share - 1 / ratio) / (1 - 1 / ratio)
    return 1 + math.log(share) / math.log(ratio)


def pumped(w: World) -> Checks:
    """A pump that a contact starts and stops."""
    line = Line(w, "feed")
    yield from pump_holds(w, line)
    output = "primary.switch_set.upper"
    least, most = w.ends(output, "repeatability")
    start, stop = (
        w("primary", "mounting") + w("primary.head", "mark") + w(output, f"{end}_at_mark") for end in ("trip", "reset")
    )
    # The lightest water, at MAWP, gives most starts (trade 5.3).
    water = saturated(w("vessel", "mawp") + w("vessel", "atmosphere"), 0)
    given = w("feed.pump", "delivers.flow")
    drawn = [e / (1 - w("vessel", "blowdown")) for e in (w("vessel", "least_evaporation"), w("vessel", "evaporation"))]
    worst = min(max(given / 2, drawn[0]), drawn[1])
    yield Check("feed.cycling", given > drawn[1])
    if given > drawn[1] and worst > 0:
        # 3600 / (V / (Q - E) + V / E) starts in an hour, in kilograms; no fewer millimetres than for the most starts
        mass = 1 / (w("feed.pump", "most_starts") * (1 / (given - worst) + 1 / worst))
        yield at_least(w, "feed.cycling", stop + least - start - most, rise_of(w, start + most, mass / water))


def rise_of(w: World, level: float, volume: float) -> float:
    """How far the water rises from a level when so much comes in: straight sides, or a drum on its side."""
    if not w.has("vessel", "drum.diameter"):
        return volume / w("vessel", "surface")
    radius, length = w("vessel", "drum.diameter") / 2, w("vessel", "drum.length")

    def below(height: float) -> float:
        """Length times the segment of a circle that is under water."""
        x = min(max(height - w("vessel", "bottom"), 0.0), 2 * radius) - radius
        return length * (
            radius * radius * (math.pi / 2 + math.asin(x / radius)) + x * math.sqrt(radius * radius - x * x)
        )

    low, high = 0.0, 2 * radius
    if below(level + high) - below(level) < volume:
        return math.inf
    while high - low > 1e-7:
        middle = (low + high) / 2
        low, high = (middle, high) if below(level + middle) - below(level) < volume else (low, middle)
    return high


def insertion(w: World) -> Checks:
    """Screw-in float controls of a low-pressure boiler; one of them feeds."""
    steam = boiling(w("vessel", "mawp") + w("vessel", "atmosphere"))
    gap = w.figure["side_clearance"]
    for station in ("primary", "secondary"):
        part = f"{station}.float_control"
        yield from wetted_part_holds(w, part, steam)
        yield from threads_agree(w, "insertion.thread", part, station)
        yield from stands_its_place(w, part, station)
        yield at_least(w, "insertion.room", w(station, "room.in"), w(part, "insertion") + gap, exact=True)
        for way in ("up", "down"):
            yield at_least(w, "insertion.room", w(station, f"room.{way}"), w(part, f"swing.{way}") + gap, exact=True)
        yield at_least(w, "insertion.withdrawal", w(station, "room.out"), w(part, "insertion"), exact=True)
        yield Check("insertion.shroud", w.is_(part, "shroud_needed", "no") or w.is_(part, "shroud", "integral"))
        yield Check("piping.isolating_valves", w.is_(station, "isolating_valves", "none"))
        yield Check("piping.feed_path", w.is_(station, "feeds_through", "no") and w.is_(part, "feeds_through", "no"))
        yield Check("piping.drain", w.is_(station, "drain.at_low_point", "yes"))
    lower, feeder, lock = "primary.float_control.lower", "primary.float_control.feeder", "secondary.float_control.lock"
    yield from cut_off_holds(w, lower, "primary")
    yield from cut_off_holds(w, lock, "secondary")
    yield from water_connections_are_apart(w)

    def spread(output: str, which: str) -> Span:
        least, most = w.ends(output, "repeatability")
        level = w(output.split(".")[0], "mounting") + w(output, which)
        return level + least, level + most

    steps = [spread(o, "trip_at_mark") for o in (lock, lower, feeder)] + [spread(feeder, "reset_at_mark")]
    yield from levels_hold(w, steps, spread(lower, "reset_at_mark"), (lock, lower))


Rules = Callable[[World], Checks]
Pressed = Callable[[World, "float | None"], Checks]
SYSTEMS: dict[str, Rules] = {
    "float_valve": float_valve, "two_probe": two_probe, "boiler_probes": boiler_probes, "transmitter": transmitter,
    "feed_valve": feed_valve, "pumped": pumped, "insertion": insertion,
}  # fmt: skip
LEVELS: dict[str, Callable[[World, Sheet], Checks]] = {
    "two_probe": two_probe_levels,
    "boiler_probes": boiler_probe_levels,
}
FLOWS: dict[str, Pressed] = {"float_valve": float_valve_flows, "two_probe": solenoid_flows}
SHUTS: dict[str, Pressed] = {"float_valve": float_valve_shuts, "two_probe": solenoid_shuts}


# ---- judging


def worlds(model: Model, slack: float = 0.0) -> list[World]:
    keys = [key for key, fact in model.moved.items() if len(fact.values) > 1]
    sure = {key: fact.values[0] for key, fact in model.moved.items() if len(fact.values) == 1}
    coefficients = PER_KELVIN if "probe" in model.system else PER_KELVIN[:1]
    return [
        World(model, sure | dict(zip(keys, v)), slack, c)
        for v in product(*(model.moved[k].values for k in keys))
        for c in coefficients
    ]


def sheets(model: Model) -> list[Sheet]:
    """Every way to cut the rods that may be cut anew, in steps of 1 mm: all weights of levels are whole millimetres."""
    ranges = []
    for station, rod in model.free:
        fact = model.moved.get((station, f"{rod}_may_be"))
        assert fact is not None
        least, most = both_ends(str(fact.values[0]))
        ranges.append([round(least + mm / 1000, 6) for mm in range(round((most - least) * 1000) + 1)])
    return [dict(zip(model.free, tips)) for tips in product(*ranges)]


def all_hold(checks: Checks) -> bool:
    return all(check.holds for check in checks)


def set_window(w: World) -> tuple[float, float]:
    """The lowest set pressure that feeds enough, and the highest at which everything shuts.

    There is none where the first is more.
    """
    flows, shuts = FLOWS[w.model.system], SHUTS[w.model.system]
    least, most = (w("make up.reducing_valve", f"set.{end}") for end in ("low", "high"))
    enough = last_that_holds(lambda s: all_hold(flows(w, s)), SETTABLE[1], SETTABLE[0])
    shut = last_that_holds(lambda s: all_hold(shuts(w, s)), SETTABLE[0], SETTABLE[1])
    return (math.inf if enough is None else max(enough, least)), (-math.inf if shut is None else min(shut, most))


SETTABLE = (-1e6, 6e6)  # beyond what any reducing valve can be set to


def last_that_holds(holds: Callable[[float], bool], sure: float, far: float) -> float | None:
    """From the end where it holds best towards the other, by halving to a pascal. More pressure only helps the flow."""
    if not holds(sure):
        return None
    if holds(far):
        return far
    while abs(far - sure) > 1:
        middle = (sure + far) / 2
        sure, far = (middle, far) if holds(middle) else (sure, middle)
    return sure


def checks_of(w: World) -> Checks:
    """Every check that no setting changes."""
    yield from SYSTEMS[w.model.system](w)
    if w.model.system in FLOWS and not w.at("make up.reducing_valve"):
        yield from FLOWS[w.model.system](w, None)
        yield from SHUTS[w.model.system](w, None)


def levels_of(w: World, sheet: Sheet) -> Checks:
    """Every check that the tips of rods change."""
    if w.model.system in LEVELS:
        yield from LEVELS[w.model.system](w, sheet)


def has_reducing_valve(model: Model) -> bool:
    return model.system in FLOWS and model.holds.get("make up.reducing_valve", NOTHING) != NOTHING


def judge(model: Model, slack: float = 0.0) -> str:
    every = worlds(model, slack)
    windows = [set_window(w) if has_reducing_valve(model) else (0.0, 0.0) for w in every]
    met_in_all = max(low for low, _ in windows) <= min(high for _, high in windows)
    left = [w for w, (low, high) in zip(every, windows) if low <= high and all_hold(checks_of(w))]
    possible = False
    for sheet in sheets(model) if left else ():
        held = [all_hold(levels_of(w, sheet)) for w in left]
        possible = possible or any(held)
        if all(held) and len(left) == len(every) and met_in_all:
            return FITS
    return CANNOT_TELL if possible else DOES_NOT_FIT


def firm_outcome(model: Model, share: float = 0.003) -> str | None:
    """The outcome, unless a few thousandths more or less of a figure change it: there rounding outward may decide.

    What fits when every check is tightened fits; what does not fit when every one is loosened does not.
    """
    tight = judge(model, -share)
    if tight == FITS or tight == judge(model, share):
        return tight
    return None
