"""Random small models for the oracle of tanks and feed lines: a site of the cases, one part anew, a few facts moved.

The sites, parts and figures of tests/cases/base are the ground: all of them fit. A knob is one fact and how far it is
moved; the far values miss their limit by amounts that one line of arithmetic shows. An open fact has its lattice: both
ends, and values between. Seeds whose outcome hangs on a few thousandths are left out: the engine rounds outward.
"""

from __future__ import annotations

import copy
import math
import random
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from tank_and_feed import NOTHING, Fact, Key, Model, firm_outcome, number

BASE = Path(__file__).resolve().parents[1] / "cases" / "base"
NEW = "new "  # what the id of the proposed part begins with
LATTICE = 5
REDUCING = "make up.reducing_valve"
MOST_WORLDS = 300  # with rods that may be cut anew a tenth of it


# ---- knobs


@dataclass(frozen=True)
class Knob:
    """One fact of an owner. `draw` gives it a text and a lattice."""

    owner: str
    name: str
    draw: Callable[[random.Random], Fact]

    @property
    def key(self) -> Key:
        return self.owner, self.name


def text_of(value: float, unit: str) -> str:
    return f"{round(value, 6):g} {unit}".strip()


def amount(owner: str, name: str, low: float, high: float, step: float, unit: str,
           domain: tuple[str, str] | None = None, every: bool = False) -> Knob:  # fmt: skip
    """A figure between low and high, in steps; open as a range, as one end or as the whole domain of keys.md.

    `every`: one rule wants more of it and another less, so that the lattice must have every step.
    """

    def between(a: float, b: float, unit: str) -> tuple[str, ...]:
        parts = [a + (b - a) * i / (LATTICE - 1) for i in range(LATTICE)]
        if every:
            parts = [a + step * i for i in range(round((b - a) / step) + 1)]
        return tuple(dict.fromkeys(text_of(v, unit) for v in parts))

    def draw(r: random.Random) -> Fact:
        a, b = sorted(round(low + step * r.randint(0, round((high - low) / step)), 6) for _ in range(2))
        way = r.random()
        if way < 0.5 or (a == b and way < 0.85):
            return Fact(text_of(a, unit), (text_of(a, unit),))
        if way < 0.85 or domain is None:
            return Fact(f"{text_of(a, unit)} .. {text_of(b, unit)}", between(a, b, unit))
        if way < 0.9:
            return Fact(f"at least {text_of(a, unit)}", (*between(a, high, unit), domain[1]))
        if way < 0.95:
            return Fact(f"at most {text_of(b, unit)}", (domain[0], *between(low, b, unit)))
        return Fact("unknown", (domain[0], *between(low, high, unit), domain[1]))

    return Knob(owner, name, draw)


def span(owner: str, name: str, low: float, high: float, step: float, unit: str) -> Knob:
    """All values of a range occur: one known range."""

    def draw(r: random.Random) -> Fact:
        a, b = sorted(round(low + step * r.randint(0, round((high - low) / step)), 6) for _ in range(2))
        text = f"~ {text_of(a, unit)} .. {text_of(b, unit)}"
        return Fact(text, (text,))

    return Knob(owner, name, draw)


def choice(owner: str, name: str, *words: str) -> Knob:
    """One of the words of keys.md, some of them, or unknown; the first is right."""

    def draw(r: random.Random) -> Fact:
        way = r.random()
        if way < 0.4:
            word = words[0] if way < 0.15 else r.choice(words[1:])
            return Fact(word, (word,))
        if way < 0.8 and len(words) > 2:
            some = (words[0], r.choice(words[1:])) if r.random() < 0.7 else words[1:]
            return Fact(list(some), some)
        return Fact("unknown", words)

    return Knob(owner, name, draw)


def known(owner: str, name: str, *values: object) -> Knob:
    """One of a few values, never open."""

    def draw(r: random.Random) -> Fact:
        value = r.choice(values)
        return Fact(value, (value,))

    return Knob(owner, name, draw)


# ---- the systems


@dataclass(frozen=True)
class System:
    """A site of the cases, the positions whose parts are put anew, and what may be moved."""

    site: str
    anew: tuple[str, ...]
    knobs: tuple[Knob, ...]
    free: tuple[tuple[str, str, int, int], ...] = ()  # station, rod, and the tips it may have in millimetres


def feed_line(line: str) -> tuple[Knob, ...]:
    return (
        amount(line, "water_temperature", 5, 30, 1, "degC"),
        amount(line, "lift", 0, 12, 0.5, "m"),
        amount(line, "losses", 0, 160, 5, "kPa", ("0 kPa", "5000 kPa")),
        amount(line, "demand", 800, 1300, 20, "kg/h", ("0 kg/h", "1800000 kg/h")),
    )


REDUCING_VALVE = (
    amount("make up", "lift_after", 0, 8, 0.5, "m"),
    amount("make up", "losses_after", 0, 60, 5, "kPa", ("0 kPa", "5000 kPa")),
    amount("make up.reducing_valve", "droop", 0, 120, 5, "kPa", ("0 kPa", "1000 kPa")),
    amount("make up.reducing_valve", "lock_up", 0, 120, 5, "kPa", ("0 kPa", "1000 kPa")),
    amount("make up.reducing_valve", "set.low", 50, 400, 10, "kPa(g)"),
    amount("make up.reducing_valve", "set.high", 80, 500, 10, "kPa(g)"),
    amount("make up.reducing_valve", "most_inlet", 250, 900, 25, "kPa(g)", ("0 kPa(g)", "5000 kPa(g)")),
    amount("make up.reducing_valve", "flow_coefficient", 0.5, 4, 0.1, "Kv"),
    choice("make up.reducing_valve", "connection.standard", "npt", "bspt"),
)
TANK = (
    amount("vessel", "coldest_make_up", 3, 18, 1, "degC"),
    amount("vessel", "least_temperature", 50, 68, 1, "degC", ("1 degC", "98 degC")),
    amount("vessel", "preheat", 5, 60, 1, "kW", ("0 kW", "10000 kW")),
    amount("vessel", "returns.flow", 400, 1400, 50, "kg/h", ("0 kg/h", "720000 kg/h")),
    amount("vessel", "returns.temperature", 70, 97, 1, "degC"),
)
FLOAT_VALVE = (
    span("make up", "supply_pressure", 100, 900, 10, "kPa(g)"),
    amount("tank.float_valve", "seat.diameter", 10, 26, 0.5, "mm", ("1 mm", "100 mm")),
    amount("tank.float_valve", "seat.lever", 15, 70, 1, "mm", ("1 mm", "500 mm")),
    amount("tank.float_valve", "float.lever", 120, 450, 10, "mm"),
    amount("tank.float_valve", "float.diameter", 105, 180, 1, "mm", ("20 mm", "1000 mm")),
    amount("tank.float_valve", "float.mass", 100, 1300, 20, "g", ("5 g", "20000 g")),
    amount("tank.float_valve", "float.share", 30, 100, 5, "%", ("5 %", "100 %")),
    amount("tank.float_valve", "lever_moment", 0, 3000, 50, "N*mm", ("0 N*mm", "10000 N*mm")),
    amount("tank.float_valve", "most_inlet", 150, 700, 10, "kPa(g)", ("0 kPa(g)", "5000 kPa(g)")),
    amount("tank.float_valve", "flow_coefficient", 0.4, 2, 0.05, "Kv", ("0 Kv", "2000 Kv")),
    amount("tank.float_valve", "recovery", 60, 95, 1, "%"),
    amount("vessel", "water_temperature", 60, 95, 1, "degC"),
    known(
        "tank.float_valve", "service", ["feed_water", "cold_make_up"], ["cold_make_up", "feed_water"], ["feed_water"]
    ),
    choice("tank.float_valve", "connection.standard", "npt", "bspp", "bspt"),
)
PROBES = (
    amount("tank.probe_relay", "threshold", 0.4, 3, 0.1, "kohm", ("0.001 kohm", "10000 kohm")),
    amount("tank.probe_holder", "cell_constant", 5, 60, 1, "1/m", ("0.1 1/m", "10000 1/m")),
    amount("vessel", "conductivity", 5, 60, 1, "mS/m"),
    amount("tank", "film", 20, 80, 1, "kohm", ("0.001 kohm", "1000000 kohm")),
    amount("tank", "rods.room", 30, 45, 1, "mm", ("0 mm", "5000 mm")),
    amount("tank.probe_holder", "rods_within", 20, 42, 1, "mm"),
    amount("tank.probe_holder", "rod_gap", 10, 22, 1, "mm", ("1 mm", "500 mm")),
    amount("tank.probe_holder", "longest_rod", 180, 230, 2, "mm", ("20 mm", "5000 mm")),
    amount("tank", "room.out", 180, 230, 2, "mm", ("0 mm", "20000 mm")),
    amount("tank", "wire.rating", 50, 90, 5, "degC"),
    amount("tank", "wire.temperature", 30, 80, 5, "degC"),
    choice("tank", "conductive_wall", "yes", "no"),
    choice("tank.probe_holder", "reference_rod", "yes", "no"),
    choice("tank.probe_relay.fill", "wire_open", "open", "closed"),
    known("tank.probe_holder", "rods", "3", "4", "2"),
    known("tank.probe_relay", "coil.voltage", "120 V", "115 V", "130 V", "100 V", "24 V"),
)
TWO_PROBE = (
    span("make up", "supply_pressure", 80, 1100, 10, "kPa(g)"),
    amount("make up.solenoid_valve", "flow_coefficient", 0.4, 2, 0.05, "Kv", ("0 Kv", "2000 Kv")),
    amount("make up.solenoid_valve", "most_differential", 200, 1000, 20, "kPa", ("0 kPa", "5000 kPa")),
    amount("make up.solenoid_valve", "least_differential", 0, 300, 10, "kPa", ("0 kPa", "1000 kPa")),
    choice("make up.solenoid_valve", "acts_by", "direct", "pilot"),
    known("make up.solenoid_valve", "coil.voltage", "120 V", "110 V", "140 V", "100 V"),
    amount("tank", "rods.low", 380, 500, 1, "mm", ("-5000 mm", "5000 mm"), every=True),
    amount("tank", "rods.middle", 400, 600, 1, "mm", every=True),
    amount("vessel", "water_temperature", 72, 95, 1, "degC"),
    amount("vessel", "bottom", -100, 200, 10, "mm", every=True),
    known("tank.probe_relay.fill", "repeatability", "~ -5 mm .. 5 mm", "~ -1.5 mm .. 1.5 mm"),
)


def of_station(knobs: tuple[Knob, ...], station: str, output: str) -> tuple[Knob, ...]:
    """The knobs of one station for another one, but for those of lengths and of the number of rods."""
    kept = [
        k
        for k in knobs
        if k.owner.startswith("tank") and not k.name.startswith(("longest", "room.out")) and k.name != "rods"
    ]
    return tuple(Knob(k.owner.replace("tank", station, 1).replace("fill", output), k.name, k.draw) for k in kept)


def lock_out(output: str) -> tuple[Knob, ...]:
    return (
        choice(output, "reset_type", "manual", "automatic"),
        choice(output, "after_power_loss", "holds", "clears", "trips"),
        choice(output, "trip_free", "yes", "no"),
        choice(output, "unpowered", "open", "closed", "as_level"),
        known(output, "listed_for", ["cut_off", "feed"], ["alarm"]),
    )


BOILER_PROBES = (
    *of_station(PROBES, "primary", "lower"),
    *of_station(PROBES, "secondary", "lock"),
    amount("vessel", "cold_water", 5, 25, 5, "degC"),
    amount("vessel", "mawp", 300, 1350, 50, "kPa(g)"),
    amount("vessel", "lpwl", -15, 10, 1, "mm", ("-5000 mm", "5000 mm")),
    amount("primary.glass", "visible.low", 45, 75, 1, "mm", every=True),
    amount("primary", "rods.low", 78, 150, 1, "mm", ("-5000 mm", "5000 mm"), every=True),
    amount("primary", "rods.middle", 100, 200, 1, "mm", every=True),
    amount("primary", "rods.high", 140, 210, 1, "mm", every=True),
    amount("secondary", "rods.low", 52, 100, 1, "mm", ("-5000 mm", "5000 mm"), every=True),
    amount("secondary.probe_relay.lock", "delay", 0, 200, 10, "s", ("0 s", "600 s")),
    amount("vessel", "surface", 1, 4, 0.2, "m2"),
    amount("secondary.probe_holder", "longest_rod", 500, 540, 2, "mm", ("20 mm", "5000 mm")),
    amount("primary", "room.out", 480, 520, 2, "mm", ("0 mm", "20000 mm")),
    amount("primary.probe_holder", "insertion", 40, 120, 5, "mm"),
    known("primary.probe_relay.lower", "repeatability", "~ -3 mm .. 3 mm", "~ -8 mm .. 8 mm", "~ -6 mm .. 6 mm"),
    choice("primary.probe_relay.lower", "reset_type", "automatic", "manual"),
    choice("primary.probe_relay.lower", "wire_shorted", "open", "closed", "as_level"),
    *lock_out("secondary.probe_relay.lock"),
    choice("secondary", "water_connection", "own", "one"),
)
TRANSMITTER = (
    amount("level.transmitter", "range.low", -8, -4, 0.1, "kPa", ("-1000 kPa", "1000 kPa")),
    amount("level.transmitter", "range.high", -6, -2, 0.1, "kPa", ("-1000 kPa", "10000 kPa")),
    amount("level.transmitter", "least_span", 0.4, 1.6, 0.05, "kPa", ("0.001 kPa", "1000 kPa")),
    amount("level", "tappings.spacing", 400, 900, 10, "mm"),
    amount("level", "leg.temperature", 10, 95, 5, "degC"),
    amount("level", "below_tap", -500, 2000, 100, "mm", ("-5000 mm", "10000 mm")),
    amount("level", "calibrated.low", 85, 220, 1, "mm", every=True),
    amount("level", "mounting", -30, 10, 1, "mm", every=True),
    amount("level", "calibrated.high", 225, 400, 5, "mm", every=True),
    amount("level", "calibrated.pressure", 100, 1500, 50, "kPa(g)"),
    span("vessel", "working_pressure", 300, 900, 50, "kPa(g)"),
    choice("level", "low_leg", "wet", "dry"),
    amount("level.transmitter", "loop.least_voltage", 9, 22, 0.5, "V", ("1 V", "60 V")),
    amount("valve", "loop.resistance", 100, 800, 10, "ohm", ("0 ohm", "5000 ohm")),
    span("valve", "supply", 14, 30, 1, "V"),
    known(
        "level.transmitter",
        "rating",
        [["20 degC", "1000 kPa(g)"], ["200 degC", "700 kPa(g)"]],
        [["20 degC", "940 kPa(g)"], ["200 degC", "500 kPa(g)"]],
        [["20 degC", "1600 kPa(g)"], ["70 degC", "1600 kPa(g)"]],
    ),
    amount("level.transmitter", "most_ambient", 40, 70, 2, "degC", ("-50 degC", "300 degC")),
    known("level.transmitter", "places", ["damp", "dry"], ["wet", "outdoor"]),
    choice("level.transmitter.level", "direction", "falling", "rising"),
    choice("level.transmitter.level", "broken_wire", "holds_valve", "closes_valve", "opens_valve"),
    choice("level.transmitter", "connection.standard", "npt", "bspp"),
)
PUMP = (
    amount("feed.pump", "delivers.flow", 1500, 2400, 25, "kg/h", ("0 kg/h", "1800000 kg/h")),
    amount("feed.pump", "delivers.pressure", 850, 1250, 10, "kPa", ("0 kPa", "30000 kPa")),
    amount("feed.pump", "npsh", 4, 10, 0.25, "m", ("0 m", "50 m")),
    amount("feed", "water_temperature", 80, 99, 1, "degC"),
    amount("feed", "suction.head", -3, 4, 0.25, "m", ("-10 m", "50 m")),
    amount("feed", "suction.losses", 0, 50, 1, "kPa", ("0 kPa", "1000 kPa")),
    span("feed", "supply_pressure", 0, 40, 2, "kPa(g)"),
    amount("feed", "losses", 50, 400, 10, "kPa", ("0 kPa", "5000 kPa")),
    amount("feed", "lift", 0, 20, 1, "m"),
    amount("vessel", "evaporation", 1200, 2300, 50, "kg/h"),
    amount("vessel", "blowdown", 0, 20, 1, "%", ("0 %", "50 %")),
    amount("vessel", "safety_valve", 900, 1250, 10, "kPa(g)"),
)
FEED_VALVE = (
    *PUMP,
    span("vessel", "working_pressure", 500, 850, 10, "kPa(g)"),
    amount("feed.feed_valve", "flow_coefficient", 0.6, 5, 0.1, "Kv", ("0 Kv", "2000 Kv")),
    amount("feed.feed_valve", "recovery", 50, 95, 5, "%"),
    choice("feed.feed_valve", "characteristic", "linear", "equal_percentage"),
    amount("feed.feed_valve", "rangeability", 20, 100, 5, ""),
    amount("feed.feed_valve", "most_differential", 400, 1400, 25, "kPa", ("0 kPa", "5000 kPa")),
    amount("feed.actuator", "most_differential", 400, 1400, 25, "kPa", ("0 kPa", "5000 kPa")),
    amount("feed.pump", "shut_off", 1250, 2400, 50, "kPa", ("0 kPa", "40000 kPa")),
    choice("feed", "bypass", "yes", "no"),
    choice("feed.actuator", "on_failure", "closes", "opens", "holds"),
    choice("feed.actuator", "takes", "slide_wire", "current_loop", "on_off"),
    known("feed.actuator", "takes_resistance", "135 ohm", "1 kohm"),
    choice("feed.actuator", "opens_with", "falling", "rising"),
    known("feed.actuator", "coil.voltage", "24 V", "22 V", "28 V", "29 V", "120 V"),
    choice("feed.feed_valve", "connection.standard", "npt", "bspp"),
)
PUMPED = (
    *PUMP,
    amount("feed.pump", "most_starts", 2, 8, 0.5, "1/h", ("1 1/h", "1000 1/h")),
    amount("vessel", "surface", 1, 4, 0.1, "m2"),
    amount("vessel", "least_evaporation", 100, 1000, 50, "kg/h"),
    known("feed.pump", "rating", [["10 degC", "2000 kPa(g)"], ["90 degC", "1600 kPa(g)"]],
          [["10 degC", "1600 kPa(g)"], ["120 degC", "1400 kPa(g)"]]),
)  # fmt: skip
# A drum on its side in place of straight sides, its water anywhere between shallow and nearly full.
DRUM = (
    known("vessel", "drum.diameter", "1600 mm", "1200 mm"),
    known("vessel", "drum.length", "2 m", "3 m"),
    known("vessel", "bottom", "-950 mm", "-700 mm", "-300 mm", "-50 mm"),
)
INSERTION = (
    *(
        k
        for s in ("primary", "secondary")
        for k in (
            amount(f"{s}.float_control", "insertion", 180, 260, 1, "mm", ("5 mm", "2000 mm")),
            amount(f"{s}.float_control", "swing.up", 60, 95, 1, "mm", ("1 mm", "1000 mm")),
            amount(f"{s}.float_control", "swing.down", 60, 95, 1, "mm", ("1 mm", "1000 mm")),
            amount(s, "room.in", 170, 250, 1, "mm", ("0 mm", "10000 mm")),
            amount(s, "room.up", 50, 90, 1, "mm", ("0 mm", "10000 mm")),
            amount(s, "room.down", 50, 90, 1, "mm", ("0 mm", "10000 mm")),
            amount(s, "room.out", 150, 400, 5, "mm", ("0 mm", "20000 mm")),
            choice(f"{s}.float_control", "shroud_needed", "no", "yes"),
            choice(f"{s}.float_control", "connection.gender", "male", "female"),
            choice(s, "isolating_valves", "none", "locked_open", "free"),
            choice(s, "drain.at_low_point", "yes", "no"),
        )
    ),
    known("secondary.float_control", "shroud", "integral", "none"),
    choice("primary", "feeds_through", "no", "yes"),
    amount("primary", "mounting", 90, 150, 1, "mm", every=True),
    amount("secondary", "mounting", 60, 110, 1, "mm", every=True),
    amount("primary.float_control.lower", "trip_at_mark", -60, 0, 1, "mm", every=True),
    amount("primary.float_control.feeder", "trip_at_mark", -20, 40, 1, "mm", every=True),
    amount("primary.glass", "visible.low", 40, 80, 1, "mm", every=True),
    amount("vessel", "mawp", 60, 130, 1, "kPa(g)"),
    amount("primary.float_control", "most_ambient", 40, 70, 2, "degC", ("-50 degC", "300 degC")),
    *lock_out("secondary.float_control.lock"),
)

SYSTEMS = {
    "float_valve": System(
        "float_valve_site", ("tank.float_valve", "make up.reducing_valve"), (*feed_line("make up"), *TANK, *FLOAT_VALVE)
    ),
    "two_probe": System(
        "two_probe_site",
        ("tank.probe_holder", "tank.probe_relay", "make up.solenoid_valve", "make up.reducing_valve"),
        (*feed_line("make up"), *TANK, *PROBES, *TWO_PROBE),
        (("tank", "rods.low", 390, 450), ("tank", "rods.middle", 480, 560)),
    ),
    "boiler_probes": System(
        "probe_site",
        ("primary.probe_holder", "primary.probe_relay", "secondary.probe_holder", "secondary.probe_relay"),
        BOILER_PROBES,
        (("primary", "rods.low", 70, 130), ("primary", "rods.middle", 100, 180), ("secondary", "rods.low", 50, 90)),
    ),
    "transmitter": System("transmitter_site", ("level.transmitter",), TRANSMITTER),
    "feed_valve": System("feed_valve_site", ("feed.feed_valve", "feed.actuator", "feed.pump"), FEED_VALVE),
    "pumped": System("pumped_site", ("feed.pump",), PUMPED),
    "insertion": System("screw_in_site", ("primary.float_control", "secondary.float_control"), INSERTION),
}


# ---- the ground


Tree = dict[str, Any]


@cache
def read(path: Path) -> Tree:
    """As texts: no reader of numbers, booleans or dates gets at them."""
    return dict(yaml.load(path.read_text(), Loader=yaml.BaseLoader))


@cache
def parts_of_base() -> dict[str, tuple[str, Tree]]:
    found: dict[str, tuple[str, Tree]] = {}
    for path in sorted((BASE / "parts").glob("*.yaml")):
        tree = read(path)
        found |= {name: (str(tree["kind"]), facts) for name, facts in tree["parts"].items()}
    return found


@cache
def figures_of_base() -> dict[str, float]:
    rows = read(BASE / "packs" / "figures.yaml")["rows"]
    words = {"yes": 1.0, "no": 0.0}
    return {row["figure"]: words[row["value"]] if row["value"] in words else number(row["value"]) for row in rows}


def flat(owner: str, tree: Tree, prefix: str = "") -> dict[Key, Any]:
    """The facts of one owner by dotted name; outputs are owners of their own."""
    found: dict[Key, Any] = {}
    for name, value in tree.items():
        if name == "outputs":
            for output, facts in value.items():
                found |= flat(f"{owner}.{output}", facts)
        elif name != "positions":
            found |= (
                flat(owner, value, f"{prefix}{name}.") if isinstance(value, dict) else {(owner, prefix + name): value}
            )
    return found


def places(site: Tree) -> dict[str, Tree]:
    return {name: tree for group in ("lines", "stations", "circuits") for name, tree in site.get(group, {}).items()}


def held(site: Tree) -> dict[str, str]:
    return {f"{place}.{role}": entry["holds"] for place, tree in places(site).items()
            for role, entry in tree.get("positions", {}).items()}  # fmt: skip


def model_of(system: str, moved: dict[Key, Fact], *, reducing: bool = False, free: tuple[Key, ...] = ()) -> Model:
    site = read(BASE / f"{SYSTEMS[system].site}.yaml")
    holds = held(site)
    put = {}
    for position in SYSTEMS[system].anew:
        old = holds[position]
        if position == REDUCING:
            old = "plain reducing valve" if reducing else NOTHING
        if old != NOTHING:
            put[position] = NEW + old
    known_facts = flat("vessel", site["vessel"])
    for place, tree in places(site).items():
        known_facts |= flat(place, tree)
    for position, part in {**holds, **put}.items():
        if part != NOTHING:
            known_facts |= flat(position, parts_of_base()[part.removeprefix(NEW)][1])
    return Model(system, known_facts, moved, {**holds, **put}, figures_of_base(), free, put)


# Limits that the wide knobs seldom come near, each with the place where it turns.
SHARP = {
    # 210 kPa less (1 / Kv)^2 bar and 30 kPa of droop feed enough above 44.5 kPa: Kv .78
    "float_valve": (amount(REDUCING, "flow_coefficient", 0.65, 0.95, 0.01, "Kv"),),
    "two_probe": (amount("tank", "rods.middle", 404, 416, 1, "mm", every=True),),  # 400 mm and 2 + 6 + 2 mm
    "boiler_probes": (
        amount("primary", "rods.low", 78, 90, 1, "mm", every=True),  # 75 mm and 1 + 6 + 1 mm
        amount("primary", "rods.high", 152, 164, 1, "mm", every=True),  # 150 mm and 1 + 6 + 1 mm
    ),
    "transmitter": (known("level", "calibrated.pressure", "1300 kPa(g)", "1500 kPa(g)"),),
    # 20 % of the travel of a linear valve at .2 + .8 / rangeability of its coefficient; .81 Kv is needed
    "feed_valve": (
        amount("feed.feed_valve", "flow_coefficient", 3.2, 4.4, 0.02, "Kv"),
        known("feed.feed_valve", "rangeability", "20", "30"),
    ),
    "pumped": (amount("feed.pump", "most_starts", 3, 6, 0.1, "1/h"),),
    "insertion": (amount("vessel", "mawp", 98, 109, 0.2, "kPa(g)"),),  # 15 psi are 103.42 kPa
}


# ---- drawing


@cache
def random_model(system: str, seed: int) -> tuple[Model, str]:
    """The first model of a seed whose outcome does not hang on rounding, and that outcome."""
    attempt = 0
    while True:
        model = drawn(system, random.Random(f"{system} {seed} {attempt}"))
        most = MOST_WORLDS // 10 if model.free else MOST_WORLDS
        few = math.prod(len(fact.values) for fact in model.moved.values()) <= most
        if few and (outcome := firm_outcome(model)) is not None:
            return model, outcome
        attempt += 1


def drawn(system: str, r: random.Random) -> Model:
    """One to three facts moved, now and then with a reducing valve put in, a rod that may be cut anew or a drum."""
    what = SYSTEMS[system]
    reducing = REDUCING in what.anew and r.random() < 0.5
    knobs = list(what.knobs) + (list(REDUCING_VALVE) * 2 if reducing else [])
    moved: dict[Key, Fact] = {}
    free: list[Key] = []
    if what.free and r.random() < 0.4:
        station, rod, low, high = r.choice(what.free)
        a, b = sorted(r.sample(range(low, high + 1), 2))
        text = f"{a} mm .. {b} mm"
        moved[station, f"{rod}_may_be"] = Fact(text, (text,))
        free.append((station, rod))
    if system == "pumped" and r.random() < 0.4:
        for knob in DRUM:
            moved[knob.key] = knob.draw(r)
    chosen = r.sample(knobs, r.randint(1, 3))
    if r.random() < 0.4:
        near = [knob for knob in SHARP[system] if reducing or not knob.owner.startswith(REDUCING)]
        chosen = near + chosen[: 3 - len(near)]
    for knob in chosen:
        if knob.key not in free:
            moved.setdefault(knob.key, knob.draw(r))
    return model_of(system, moved, reducing=reducing, free=tuple(free))


# ---- writing


def set_fact(tree: Tree, name: str, value: object) -> None:
    *groups, leaf = name.split(".")
    for group in groups:
        place = tree.get(group)
        if not isinstance(place, dict):
            place = tree[group] = {}
        tree = place
    tree[leaf] = value


def write(path: Path, body: Tree) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(yaml.dump(body, Dumper=yaml.CSafeDumper, sort_keys=False, width=1000).replace("'", ""))


def write_model(folder: Path, model: Model) -> tuple[Path, Path]:
    """Write the catalogue folder and the site; return both."""
    site = copy.deepcopy(read(BASE / f"{SYSTEMS[model.system].site}.yaml"))
    owners: dict[str, Tree] = {"vessel": site["vessel"], **places(site)}
    parts: dict[str, tuple[str, Tree]] = {}
    for part in {*held(site).values(), *model.put.values()} - {NOTHING}:
        kind, facts = parts_of_base()[part.removeprefix(NEW)]
        parts[part] = kind, copy.deepcopy(facts)
    for position, part in model.holds.items():
        if part != NOTHING:
            owners[position] = parts[part][1]
            owners |= {f"{position}.{name}": facts for name, facts in parts[part][1].get("outputs", {}).items()}
    for (owner, name), fact in model.moved.items():
        set_fact(owners[owner], name, list(fact.text) if isinstance(fact.text, (list, tuple)) else fact.text)
    for kind in sorted({kind for kind, _ in parts.values()}):
        entries = {name: facts for name, (k, facts) in sorted(parts.items()) if k == kind}
        write(folder / "parts" / f"{kind}.yaml", {"levelswap": "parts/1", "kind": kind, "parts": entries})
    packs = folder / "packs"
    packs.mkdir(parents=True, exist_ok=True)
    (packs / "figures.yaml").write_text((BASE / "packs" / "figures.yaml").read_text())
    write(folder / "sites" / "site.yaml", site)
    return folder, folder / "sites" / "site.yaml"
