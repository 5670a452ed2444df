"""A brute-force oracle for small assemblies: every wiring, every setting, every world.

It knows nothing of the engine. A fact is a list of the values that it may have (a lattice); a
world takes one value of each. A rule is a predicate at one point (parts, wiring, settings, world).

* fits: some wiring and settings satisfy every rule in all worlds;
* does not fit: no wiring, settings and world satisfy every rule;
* cannot tell: everything else.

Lengths are whole millimetres, other quantities are in the unit that the fact's text states. The
float's swing and its buoyancy are left out: models must make them hold.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations, permutations, product

FITS, DOES_NOT_FIT, CANNOT_TELL = "fits", "does_not_fit", "cannot_tell"
NOTHING = "nothing"


@dataclass(frozen=True)
class Varying:
    """All values between two ends occur: a rule must hold for each of them."""

    least: float
    most: float


@dataclass(frozen=True)
class Fact:
    """The text of the file, and the values the fact may have."""

    text: object
    values: tuple


@dataclass
class Part:
    kind: str
    facts: dict[str, Fact]
    outputs: dict[str, dict[str, Fact]] = field(default_factory=dict)


@dataclass
class Model:
    """A catalogue and one site. `duties` maps a duty to the output that does it now and its circuit."""

    parts: dict[str, Part]
    vessel: dict[str, Fact]
    stations: dict[str, dict[str, Fact]]
    circuits: dict[str, dict[str, Fact]]
    holds: dict[str, str]
    duties: dict[str, tuple[str, str]]
    figures: dict[str, object]


Facts = dict[str, Fact]
World = dict[tuple[str, str], object]  # the facts that are open, each with one value
Wiring = dict[str, str]

CUT_OFFS = ("primary_cut_off", "secondary_cut_off")
FORMS = {
    "primary_cut_off": "opens_on_fall",
    "secondary_cut_off": "opens_on_fall",
    "pump": "closes_on_fall",
    "low_alarm": "closes_on_fall",
}
# NEC 2023 Table 430.250 (hp, V, phases): amperes; rows MOT049 and MOT051 of tests/reference/motor_flc.csv
FULL_LOAD = {(0.5, 200, 3): 2.5, (0.5, 230, 3): 2.2}
# NEMA ICS 5 / UL 508 pilot duty: thermal current (A), make and break (VA); tests/reference/contact_ratings.csv
PILOT_DUTY = {"A": (10, 7200, 720), "B": (5, 3600, 360), "C": (2.5, 1800, 180), "D": (1, 432, 72)}


def saturation_kelvin(megapascal: float) -> float:
    """IAPWS-IF97 equation 31 (coefficients from memory; checked against SAT001..SAT003)."""
    n = (1167.0521452767, -724213.16703206, -17.073846940092, 12020.824702470, -3232555.0322333,
         14.915108613530, -4823.2657361591, 405113.40542057, -0.23855557567849, 650.17534844798)  # fmt: skip
    b = megapascal**0.25
    e = b * b + n[2] * b + n[5]
    f = n[0] * b * b + n[3] * b + n[6]
    g = n[1] * b * b + n[4] * b + n[7]
    d = 2 * g / (-f - (f * f - 4 * e * g) ** 0.5)
    return (n[9] + d - ((n[9] + d) ** 2 - 4 * (n[8] + n[9] * d)) ** 0.5) / 2


def lightest_water(megapascal: float) -> float:
    """Saturated liquid, kg/m3: the auxiliary equation of IAPWS SR1-86 (coefficients from memory; checked in the test)."""
    tau = 1 - saturation_kelvin(megapascal) / 647.096
    terms = ((1.99274064, 1), (1.09965342, 2), (-0.510839303, 5), (-1.75493479, 16), (-45.5170352, 43), (-674694.45, 110))
    return 322 * (1 + sum(b * tau ** (power / 3) for b, power in terms))


def on_curve(curve: tuple, degrees: float) -> float | None:
    """The pressure of a rating curve at a temperature; None above its last point."""
    if degrees <= curve[0][0]:
        return curve[0][1]
    for (t0, p0), (t1, p1) in zip(curve, curve[1:]):
        if degrees <= t1:
            return p0 + (p1 - p0) * (degrees - t0) / (t1 - t0)
    return None


class Point:
    """What the rules may read: who is where, what they are like, what is wired and set."""

    def __init__(self, model: Model, holds: Mapping[str, str], owners: Mapping[str, Facts], world: World) -> None:
        self.model, self.holds, self.owners, self.world = model, holds, owners, world

    def __call__(self, owner: str, name: str) -> object:
        key = (owner, name)
        return self.world[key] if key in self.world else self.owners[owner][name].values[0]

    def ends(self, owner: str, name: str) -> tuple[float, float]:
        value = self(owner, name)
        return (value.least, value.most) if isinstance(value, Varying) else (value, value)

    def at(self, place: str, role: str) -> str | None:
        """The position, if it holds a part."""
        position = f"{place}.{role}"
        return position if self.holds.get(position, NOTHING) != NOTHING else None

    def kind(self, position: str) -> str:
        return self.model.parts[self.holds[position]].kind


# ---- interfaces (trade 5.1): a joint with one side missing fails, with both missing it passes


def missing_one(a: str | None, b: str | None) -> bool:
    return (a is None) != (b is None)


def agree(p: Point, a: str, b: str, *names: str) -> bool:
    return all(p(a, name) == p(b, name) for name in names)


def joints_hold(p: Point, station: str) -> bool:
    head, column = p.at(station, "head"), p.at(station, "column")
    float_, half, set_ = p.at(station, "float"), p.at(station, "switch_half"), p.at(station, "switch_set")
    if missing_one(head, column) or missing_one(head, float_):
        return False
    if head and column:
        if not agree(p, head, column, "flange.circle", "flange.bolts", "flange.bolt_size", "flange.hole", "flange.up"):
            return False
        faces = {p(head, "flange.face"), p(column, "flange.face")}
        if faces != {"spigot", "socket"}:
            return False
    if head and p(head, "withdrawal") > p(station, "clearance"):
        return False
    if head and float_:
        if not agree(p, head, float_, "stem.standard", "stem.size"):
            return False
        if p(head, "stem.gender") == p(float_, "stem.gender"):
            return False
    two_part = head is not None and p.kind(head) == "float_half"
    if two_part != (half is not None):
        return False
    if half and not agree(p, head, half, "tube.diameter"):
        return False
    bay = half if two_part else head
    if missing_one(bay, set_):
        return False
    return bay is None or agree(p, bay, set_, "bay.form", "bay.spacing", "bay.stroke")


def connections_hold(p: Point, station: str) -> bool:
    column = p.at(station, "column")
    if column is None:
        return False
    names = ("tappings.standard", "tappings.size", "tappings.spacing")
    return agree(p, column, station, *names) and p(column, "tappings.gender") != p(station, "tappings.gender")


# ---- piping (trade 5.14)


def piping_holds(p: Point, station: str) -> bool:
    """No size is asked of the drain: no pack of a model has such a row."""
    if p(station, "feeds_through") != "no" or p(station, "drain.size") is None:
        return False
    return p(station, "drain.at_low_point") == "yes"


# ---- ratings (trade 5.4)


def ratings_hold(p: Point, position: str) -> bool:
    mawp = p("vessel", "mawp")
    degrees_f = saturation_kelvin((mawp + 14.7) * 0.006894757293168) * 1.8 - 459.67
    allowed = on_curve(p(position, "rating"), degrees_f)
    if allowed is None or allowed < mawp:
        return False
    if p(position, "low_pressure_only") == "yes" and mawp > 15:
        return False
    return p("vessel", "service") in p(position, "service")


# ---- surroundings (trade 5.13)


def surroundings_hold(p: Point, place: str, position: str) -> bool:
    least, most = p.ends(place, "ambient")
    if p(position, "least_ambient") > least or p(position, "most_ambient") < most:
        return False
    return mercury_allowed(p, position) and p(place, "place") in p(position, "places")


def mercury_allowed(p: Point, position: str) -> bool:
    forbidden = p.model.figures.get("mercury_allowed") == "no" and "mercury" in p.owners[position]
    return not forbidden or p(position, "mercury") != "yes"


def set_suits_its_place(p: Point, station: str, set_: str) -> bool:
    return p(set_, "needs_plumb") == "no" or p(station, "plumb") == "yes"


# ---- contacts (trade 5.5)


def contactor_holds(p: Point, circuit: str, contactor: str) -> bool:
    least, most = p.ends(circuit, "supply")
    under, over = (p.model.figures.get(f"supply_{side}", 0) / 100 for side in ("under", "over"))
    coil = p(contactor, "coil.voltage")
    if least < coil * (1 - under) or most > coil * (1 + over):
        return False
    if p(contactor, "coil.current") != p(circuit, "current"):
        return False
    if p(circuit, "frequency") not in p(contactor, "coil.frequency"):
        return False
    return carries_motor(p, circuit, contactor)


def motor_currents(p: Point, circuit: str) -> tuple[float, float]:
    """The larger of plate and NEC table 430.250; locked, no less than six times that. Models have one motor."""
    table = FULL_LOAD[p(circuit, "motor.power"), p(circuit, "motor.voltage"), p(circuit, "motor.phases")]
    running = max(p(circuit, "motor.running"), table)
    return running, max(p(circuit, "motor.locked_rotor"), 6 * running)


def carries_motor(p: Point, circuit: str, contact: str) -> bool:
    """Models keep phases equal to the poles that are needed."""
    if p(circuit, "motor.phases") is None:
        return True
    if p(contact, "motor.voltage") is None or p(contact, "motor.voltage") < p(circuit, "motor.voltage"):
        return False
    if p(contact, "poles") < p(circuit, "motor.phases"):
        return False
    running, locked = motor_currents(p, circuit)
    return p(contact, "motor.running") >= running and p(contact, "motor.locked_rotor") >= locked


def motor_suits_supply(p: Point, circuit: str) -> bool:
    """Within 10 % of the plate (NEMA MG 1, from memory), on alternating current."""
    if p(circuit, "motor.phases") is None:
        return True
    least, most = p.ends(circuit, "supply")
    plate = p(circuit, "motor.voltage")
    return 0.9 * plate <= least and most <= 1.1 * plate and p(circuit, "current") == "ac"


def contact_holds(p: Point, output: str, circuit: str) -> bool:
    if p(circuit, "breaks") != "ungrounded":
        return False
    contactor = p.at(circuit, "contactor")
    if contactor is None and not (carries_motor(p, circuit, output) and motor_suits_supply(p, circuit)):
        return False
    least, most = p.ends(circuit, "supply")
    code = p(output, "pilot_duty")
    if code[0] not in PILOT_DUTY or most > p(output, "most_voltage") or most > int(code[1:]):
        return False  # a code for direct current, or a voltage too high
    margin = p.model.figures.get("coil_margin", 1)
    sources = [circuit] + ([contactor] if contactor else [])
    inrush = margin * sum(p(s, "coil.inrush") for s in sources)
    holding = margin * 1.21 * sum(p(s, "coil.holding") for s in sources)  # at 10 % over the voltage
    share = min(1, least / 120)  # below 120 V the 120 V amperes stand
    thermal, make, break_ = PILOT_DUTY[code[0]]
    # A coil is an impedance. The circuit's own are rated somewhere in the band of the supply: both ends must do, and
    # models keep clear of loads that one end allows and the other does not.
    own, on_contactor = p(circuit, "coil.holding"), p(contactor, "coil.holding") if contactor else 0
    rated = p(contactor, "coil.voltage") if contactor else 1
    held = own / least + on_contactor / rated
    if inrush > make * share or holding > break_ * share or margin * 1.1 * held > thermal:
        return False
    motor_on_contact = contactor is None and p(circuit, "motor.phases") is not None
    return motor_on_contact or least * (own / most**2 + on_contactor / rated**2) >= p(output, "least_current")


# ---- roles (trade 5.6)


def role_holds(p: Point, duty: str, output: str) -> bool:
    manual = p(output, "reset_type") == "manual"
    if p(output, "form") != FORMS[duty] or (duty == "pump" and manual):
        return False
    if duty == "primary_cut_off" and manual and p.model.figures.get("primary_automatic_reset") == "yes":
        return False
    if duty == "secondary_cut_off" and not manual and p.model.figures.get("secondary_manual_reset") != "no":
        return False
    if duty not in CUT_OFFS:
        return True
    if manual and (p(output, "after_power_loss") == "clears" or p(output, "trip_free") == "no"):
        return False
    if p(output, "float_sunk") != "open" or "closed" in [p(output, n) for n in ("unpowered", "wire_open", "wire_shorted")]:
        return False
    return "cut_off" in p(output, "listed_for")


def wiring_holds(p: Point, wiring: Wiring) -> bool:
    duties = p.model.duties
    if sum(d in CUT_OFFS for d in duties) < p.model.figures.get("cut_offs", 0):
        return False
    if any(p(duties[d][1], "in_series") != "yes" for d in duties if d in CUT_OFFS):
        return False  # something may be wired round the cut-off
    for a, b in combinations(wiring, 2):
        (set_a, _), (set_b, _) = (wiring[d].rsplit(".", 1) for d in (a, b))
        if set_a == set_b and "own" not in (common := {p(wiring[a], "common"), p(wiring[b], "common")}):
            sources = [p(duties[d][1], "source") for d in (a, b)]
            same_circuit = duties[a][1] == duties[b][1]
            if len(common) == 1 and not same_circuit and ("own" in sources or sources[0] != sources[1]):
                return False
    stations = [wiring[d].split(".")[0] for d in CUT_OFFS if d in wiring]
    if len(stations) == 2:
        water = [p(s, "water_connection") for s in stations]
        if stations[0] == stations[1] or ("own" not in water and water[0] == water[1]):
            return False
    if any(p(s, "isolating_valves") != "none" for s in stations):
        return False  # no model has a pack that permits locked ones
    return all(role_holds(p, d, o) and contact_holds(p, o, duties[d][1]) for d, o in wiring.items())


# ---- levels (trade 5.7), in millimetres above the vessel's datum


def levels_hold(p: Point, wiring: Wiring, mounting: Mapping[str, int]) -> bool:
    figures = p.model.figures

    def level(duty: str, which: str) -> tuple[int, int]:
        output = wiring[duty]
        station = output.split(".")[0]
        middle = mounting[station] + p(f"{station}.head", "mark") + p(output, which)
        least, most = p.ends(output, "repeatability")
        return middle + least, middle + most

    def fall(duty: str) -> float:
        """How far the water falls at full fire until the cut-off has acted: E t / (rho A), in mm."""
        seconds = p(wiring[duty], "delay") or 0
        kilograms = p("vessel", "evaporation") * 0.45359237 / 3600 * seconds
        return 1000 * kilograms / (lightest_water((p("vessel", "mawp") + 14.7) * 0.006894757293168) * p("vessel", "surface") * 0.3048**2)

    glasses = [s for s in p.model.stations if p.at(s, "glass")]
    if not glasses:
        return False
    for s in glasses:
        datum = mounting[s] if p(s, "glass_on") == "column" else 0
        low, high = (datum + p(f"{s}.glass", f"visible.{end}") for end in ("low", "high"))
        if low < p("vessel", "lpwl") + figures["glass_over_lpwl"]:
            return False
        for duty in CUT_OFFS:
            if duty in wiring and level(duty, "trip_at_mark")[0] < low + figures["cut_off_above_visible"]:
                return False
            if duty in wiring and level(duty, "trip_at_mark")[0] < low + figures.get("delay_margin", 0) + fall(duty):
                return False
            if duty in wiring and level(duty, "trip_at_mark")[1] > high:
                return False
    duties = [d for d in ("secondary_cut_off", "primary_cut_off", "low_alarm", "pump") if d in wiring]
    order = [level(d, "trip_at_mark") for d in duties]
    late = [fall(d) for d in duties] + [0]  # what has a delay acts before the water has fallen to the next level
    if "pump" in wiring:
        order.append(level("pump", "reset_at_mark"))
        for duty in CUT_OFFS:
            if duty in wiring and level(duty, "reset_at_mark")[1] >= order[-1][0]:
                return False
    return all(a[1] + figures["separation"] <= b[0] - f for a, b, f in zip(order, order[1:], late[1:]))


def parts_hold(p: Point) -> bool:
    """Every rule that reads neither the wiring nor a setting."""
    for station in p.model.stations:
        if not (joints_hold(p, station) and connections_hold(p, station) and piping_holds(p, station)):
            return False
        for role in ("head", "column", "float", "glass"):
            if (position := p.at(station, role)) and not ratings_hold(p, position):
                return False
        for role in ("switch_set", "switch_half"):
            if (position := p.at(station, role)) and not surroundings_hold(p, station, position):
                return False
        if (set_ := p.at(station, "switch_set")) and not set_suits_its_place(p, station, set_):
            return False
    for circuit in p.model.circuits:
        contactor = p.at(circuit, "contactor")
        if contactor and not (contactor_holds(p, circuit, contactor) and surroundings_hold(p, circuit, contactor)):
            return False
    return True


def owners_of(model: Model, holds: Mapping[str, str]) -> dict[str, Facts]:
    """Every owner of facts: a part's facts belong to its position, so two like parts differ."""
    owners = {"vessel": model.vessel, **model.stations, **model.circuits}
    for position, part_id in holds.items():
        if part_id != NOTHING:
            owners[position] = model.parts[part_id].facts
            owners |= {f"{position}.{o}": facts for o, facts in model.parts[part_id].outputs.items()}
    return owners


def worlds(owners: Mapping[str, Facts], open_names: dict[int, list[str]]) -> list[World]:
    """Every choice of one value for each open fact; `open_names` remembers which facts are open."""
    keys = []
    for owner, facts in owners.items():
        if (names := open_names.get(id(facts))) is None:
            names = open_names[id(facts)] = [n for n, fact in facts.items() if len(fact.values) > 1]
        keys += [(owner, name) for name in names]
    return [dict(zip(keys, values)) for values in product(*(owners[o][n].values for o, n in keys))]


def wirings(model: Model, holds: Mapping[str, str], changed: Iterable[str]) -> Iterator[Wiring]:
    """A duty whose output is at no changed position keeps it; the others take any free output."""
    changed = set(changed)
    frozen = {d: o for d, (o, _) in model.duties.items() if o.rsplit(".", 1)[0] not in changed}
    free = [d for d in model.duties if d not in frozen]
    outputs = [f"{position}.{o}" for position, part in holds.items() if part != NOTHING
               for o in model.parts[part].outputs]  # fmt: skip
    if not set(frozen.values()) <= set(outputs):
        return
    for taken in permutations([o for o in outputs if o not in frozen.values()], len(free)):
        yield frozen | dict(zip(free, taken))


def sheets(model: Model, step: int = 5) -> Iterator[dict[str, int]]:
    """Every setting sheet: an elevation for each station whose piping allows a move."""
    movable = {s: f["mounting_may_be"].values[0] for s, f in model.stations.items() if "mounting_may_be" in f}
    for values in product(*(range(free.least, free.most + 1, step) for free in movable.values())):
        yield dict(zip(movable, values))


def judge(model: Model, put: Mapping[str, str], changed: Iterable[str] | None = None,
          open_names: dict[int, list[str]] | None = None) -> str:  # fmt: skip
    """The outcome with `put` in place; the wires at the `changed` positions are free."""
    holds = {**model.holds, **put}
    changed = [q for q in holds if holds[q] != model.holds[q]] if changed is None else changed
    owners = owners_of(model, holds)
    points = [Point(model, holds, owners, world) for world in worlds(owners, {} if open_names is None else open_names)]
    good = [p for p in points if parts_hold(p)]
    possible = False
    for wiring in wirings(model, holds, changed) if good else ():
        wired = [p for p in good if wiring_holds(p, wiring)]
        for sheet in sheets(model) if wired else ():
            right = sum(levels_hold(p, wiring, mounted(p, sheet)) for p in wired)
            possible = possible or right > 0
            if right == len(points):
                return FITS
    return CANNOT_TELL if possible else DOES_NOT_FIT


def mounted(p: Point, sheet: Mapping[str, int]) -> dict[str, int]:
    """The elevation of the sheet, or this world's where it cannot be set."""
    return {s: sheet[s] if s in sheet else p(s, "mounting") for s in p.model.stations}
