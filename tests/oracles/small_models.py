"""Random small assemblies for the brute-force oracle.

Every fact is known unless a model draws it as uncertain or unknown (at most six of them). The
geometry is the same everywhere and leaves the float all the room and force it needs, so that the
rules which the oracle knows decide. All lengths that enter a level are multiples of 5 mm.
"""

from __future__ import annotations

import copy
import random

from brute_force import NOTHING, Fact, Model, Part, Varying

UNKNOWN = "unknown"


def one(text: object, value: object) -> Fact:
    return Fact(text, (value,))


def word(value: str) -> Fact:
    return one(value, value)


def among(*words: str) -> Fact:
    return Fact(list(words), words)


def amount(value: float, unit: str) -> Fact:
    return one(f"{value} {unit}", value)


def between(unit: str, *values: float) -> Fact:
    return Fact(f"{values[0]} {unit} .. {values[-1]} {unit}", values)


def unknown(*values: object) -> Fact:
    """Unknown; the lattice holds the values that could matter."""
    return Fact(UNKNOWN, values)


def varying(least: float, most: float, unit: str) -> Fact:
    return one(f"~ {least} {unit} .. {most} {unit}", Varying(least, most))


def members(*words: str) -> Fact:
    return one(list(words), frozenset(words))


ABSENT = one("none", None)
FAMILY_CURVE = ((100, 400), (450, 250))


def curve(*points: tuple[int, int]) -> Fact:
    return one([[f"{t} degF", f"{p} psi(g)"] for t, p in points], points)


def flange(face: str) -> dict[str, Fact]:
    return {
        "flange.circle": amount(190, "mm"), "flange.bolts": one(8, 8), "flange.bolt_size": amount(16, "mm"),
        "flange.hole": amount(18, "mm"), "flange.face": word(face), "flange.up": amount(0, "deg"),
        "flange.spigot": amount(170, "mm"),
    }  # fmt: skip


def wetted() -> dict[str, Fact]:
    return {"rating": curve(*FAMILY_CURVE), "service": members("steam", "hot_water"), "low_pressure_only": word("no")}


def indoors() -> dict[str, Fact]:
    return {
        "most_ambient": amount(80, "degC"), "least_ambient": amount(-10, "degC"), "places": members("dry", "damp"),
        "hazardous_rated": word("no"),
    }  # fmt: skip


def bay() -> dict[str, Fact]:
    return {"bay.form": word("linkage"), "bay.spacing": amount(100, "mm"), "bay.stroke": amount(60, "deg")}


def head(kind: str = "float_head") -> Part:
    """Arm, stops and pivot with room all round in the column below (own figures, chosen generous)."""
    facts = flange("spigot") | wetted() | {
        "mark": amount(0, "mm"), "rest": amount(-10, "deg"), "stops.low": amount(-25, "deg"),
        "stops.high": amount(25, "deg"), "pivot.along": amount(-12, "mm"), "pivot.across": amount(0, "mm"),
        "design_tilt": amount(0, "deg"), "arm": amount(230, "mm"), "arm_width": amount(8, "mm"),
        "dead_moment": amount(0.05, "N*m"), "seal_torque": one("~ 0 N*m .. .02 N*m", None),
        "stem.standard": word("un"), "stem.size": amount(10, "mm"), "stem.gender": word("male"),
        "swing_as": one("head", "head"), "bay.gain": one(1, 1), "bay.zero": amount(0, "deg"), "withdrawal": amount(350, "mm"), "hand": word("either"),
    }  # fmt: skip
    if kind == "float_half":
        return Part(kind, facts | {"tube.diameter": amount(26, "mm"), "tube.lift": amount(40, "mm")})
    return Part(kind, facts | bay())


def switch_half() -> Part:
    return Part("switch_half", bay() | indoors() | {
        "bay.form": word("magnet"), "bay.gain": one(1, 1), "tube.diameter": amount(26, "mm"), "tube.lift": amount(36, "mm"),
    })  # fmt: skip


def column() -> Part:
    return Part("column", flange("socket") | wetted() | {
        "feeds_through": word("no"),
        "tilt": amount(0, "deg"), "opening": amount(112, "mm"), "bore": amount(150, "mm"), "axis": amount(207, "mm"),
        "ceiling": amount(190, "mm"), "floor": amount(-190, "mm"), "throat.at": amount(40, "mm"),
        "throat.half": amount(50, "mm"), "tappings.spacing": amount(360, "mm"), "tappings.water": amount(-180, "mm"),
        "tappings.steam": amount(180, "mm"), "tappings.glass": amount(-100, "mm"), "tappings.standard": word("npt"),
        "tappings.size": amount(25, "mm"), "tappings.gender": word("female"),
    })  # fmt: skip


def ball() -> Part:
    return Part("float", wetted() | {
        "form": word("sphere"), "diameter": amount(100, "mm"), "height": ABSENT, "mass": amount(260, "g"),
        "crush": amount(500, "psi(g)"), "stem.standard": word("un"), "stem.size": amount(10, "mm"),
        "stem.gender": word("female"),
    })  # fmt: skip


def glass(low: int) -> Part:
    return Part("gauge_glass", wetted() | {"visible.low": amount(low, "mm"), "visible.high": amount(300, "mm")})


def output(form: str, angles: tuple[float, float], levels: tuple[int, int], reset: str = "automatic") -> dict[str, Fact]:
    return {
        "form": word(form), "trip": amount(angles[0], "deg"), "reset": amount(angles[1], "deg"),
        "trip_at_mark": amount(levels[0], "mm"), "reset_at_mark": amount(levels[1], "mm"),
        "repeatability": varying(0, 0, "mm"), "moment": amount(0.03, "N*m"), "ends.low": ABSENT, "ends.high": ABSENT,
        "resistance": ABSENT, "broken_wire": ABSENT, "poles": one(1, 1), "common": word("own"), "pilot_duty": word("A300"),
        "motor.running": amount(0, "A"), "motor.locked_rotor": amount(0, "A"), "motor.voltage": ABSENT,
        "motor.power": ABSENT, "most_voltage": amount(300, "V"), "least_current": amount(0.05, "A"), "reset_type": word(reset),
        "after_power_loss": word("holds"), "trip_free": word("yes"),
        "float_sunk": word("open" if form == "opens_on_fall" else "closed"), "unpowered": word("as_level"),
        "delay": ABSENT, "wire_open": ABSENT, "wire_shorted": ABSENT, "senses_by": word("float"),
        "listed_for": members("cut_off", "feed", "alarm"),
    }  # fmt: skip


def switch_set(**outputs: dict[str, Fact]) -> Part:
    return Part("switch_set", bay() | indoors() | {
        "stated_float": one("ball", "ball"), "stated_head": one("head", "head"), "mercury": word("no"),
        "needs_plumb": word("no"),
    }, outputs)  # fmt: skip


def stage_set() -> Part:
    return switch_set(
        lower=output("opens_on_fall", (-14, -10), (-50, -35)),
        bell=output("closes_on_fall", (-7.5, -4), (-25, -10)),
        upper=output("closes_on_fall", (-1, 9), (10, 35)),
    )


def lock_set() -> Part:
    return switch_set(lock=output("opens_on_fall", (-14, -10), (-50, -35), "manual"))


def contactor() -> Part:
    return Part("contactor", indoors() | {
        "coil.voltage": amount(240, "V"), "coil.current": word("ac"), "coil.frequency": members("60_hz"),
        "coil.inrush": amount(80, "VA"), "coil.holding": amount(20, "VA"), "poles": one(3, 3),
        "motor.running": amount(9, "A"), "motor.locked_rotor": amount(60, "A"), "motor.voltage": amount(600, "V"),
        "motor.power": ABSENT, "motor.phases": members("three"),
        "overload": word("yes"), "mercury": word("no"),
    })  # fmt: skip


def circuit(source: str, inrush: int, holding: int, motor: bool = False) -> dict[str, Fact]:
    facts = {
        "supply": varying(210, 250, "V") if motor else varying(110, 127, "V"), "current": word("ac"), "frequency": word("60_hz"), "breaks": word("ungrounded"),
        "in_series": word("yes"),
        "source": word(source), "ambient": varying(10, 45, "degC"), "place": word("dry"), "logic": ABSENT,
        "resistive": ABSENT, "fuse": amount(5, "A"),
        "takes": word("on_off"), "takes_resistance": ABSENT, "resistance": ABSENT,
        "coil.inrush": amount(inrush, "VA"), "coil.holding": amount(holding, "VA"),
    }  # fmt: skip
    plate = {"power": (0.5, "hp"), "voltage": (230, "V"), "running": (3, "A"), "locked_rotor": (20, "A")}
    facts |= {f"motor.{n}": amount(*v) if motor else ABSENT for n, v in plate.items()}
    return facts | {"motor.phases": one(3, 3) if motor else ABSENT, "motor.protected": word("yes") if motor else ABSENT}


def station(mounting: int, water: str) -> dict[str, Fact]:
    return {
        "mounting": amount(mounting, "mm"), "water_connection": word(water), "piping": word("close"),
        "tappings.spacing": amount(360, "mm"), "tappings.standard": word("npt"), "tappings.size": amount(25, "mm"),
        "tappings.gender": word("male"), "ambient": varying(10, 50, "degC"), "place": word("dry"), "plumb": word("yes"),
        "glass_on": word("vessel"), "clearance": amount(600, "mm"), "hand": word("right"),
        "isolating_valves": word("none"), "feeds_through": word("no"), "drain.size": amount(20, "mm"),
        "drain.at_low_point": word("yes"), "cross_tees": word("yes"),
    }  # fmt: skip


def base(two_cut_offs: bool = True) -> Model:
    """A complete assembly in which everything is known and fits."""
    parts = {"head": head(), "column": column(), "ball": ball(), "glass": glass(60), "stage": stage_set(),
             "lock": lock_set(), "winch": contactor()}  # fmt: skip
    holds = {"primary.head": "head", "primary.switch_half": NOTHING, "primary.column": "column", "primary.float": "ball",
             "primary.switch_set": "stage", "primary.glass": "glass", "pump.contactor": "winch"}  # fmt: skip
    stations = {"primary": station(150, "one")}
    duties = {"primary_cut_off": ("primary.switch_set.lower", "burner"), "low_alarm": ("primary.switch_set.bell", "bell"),
              "pump": ("primary.switch_set.upper", "pump")}  # fmt: skip
    if two_cut_offs:
        stations["secondary"] = station(125, "two")
        holds |= {"secondary.head": "head", "secondary.switch_half": NOTHING, "secondary.column": "column",
                  "secondary.float": "ball", "secondary.switch_set": "lock"}  # fmt: skip
        duties["secondary_cut_off"] = ("secondary.switch_set.lock", "burner")
    vessel = {
        "mawp": amount(150, "psi(g)"), "hydrotest": amount(300, "psi(g)"), "float_out_for_test": word("no"),
        "hazardous_area": word("no"), "drum.diameter": ABSENT, "drum.length": ABSENT,
        "atmosphere": amount(14.7, "psi(a)"), "cold_water": one("~ 10 degC .. 30 degC", None), "lpwl": amount(0, "mm"),
        "nwl": amount(180, "mm"), "evaporation": amount(3450, "lb/h"), "surface": amount(40, "ft2"),
        "service": word("steam"), "code": word("power"), "kind": word("firetube"), "firing": word("automatic"),
    }  # fmt: skip
    circuits = {"burner": circuit("one", 90, 20), "pump": circuit("two", 0, 0, True), "bell": circuit("one", 15, 10)}
    figures = {"glass_over_lpwl": 50, "cut_off_above_visible": 5, "separation": 5, "supply_under": 15,
               "supply_over": 10, "coil_margin": 1.25, "mercury_allowed": "no", "cut_offs": 2 if two_cut_offs else 1, "secondary_manual_reset": "yes",
               "primary_automatic_reset": "yes"}  # fmt: skip
    return Model(parts, vessel, stations, circuits, holds, duties, figures)


# ---- one change at a time: (what it touches, how)

LEVEL_STEPS = (-15, -10, -5, 5, 10, 15)


def vary_level(r: random.Random, fact: Fact) -> Fact:
    """Move a level, or leave it uncertain on the lattice."""
    value = fact.values[0] + r.choice(LEVEL_STEPS) * r.choice((0, 1))
    return r.choice((amount(value, "mm"), between("mm", value - 5, value, value + 5), between("mm", value, value + 5)))


OUTPUT_FACTS = {
    "pilot_duty": (word("D300"), word("C150"), among("A300", "D300"), among("A300", "B300"), unknown("A300", "D300", "R300")),
    "listed_for": (members("feed"), unknown(frozenset(), frozenset({"cut_off", "feed"}))),
    "reset_type": (word("manual"), word("automatic"), among("automatic", "manual"), unknown("automatic", "manual")),
    "trip_free": (word("no"), unknown("no", "yes")),
    "after_power_loss": (word("clears"), among("holds", "clears"), unknown("holds", "clears")),
    "float_sunk": (word("closed"), word("open"), unknown("open", "closed")),
    "unpowered": (word("closed"), word("open"), unknown("as_level", "open", "closed")),
    "wire_open": (word("closed"), word("open"), unknown("as_level", "open", "closed")),
    "wire_shorted": (word("closed"), word("as_level"), unknown("as_level", "open", "closed")),
    "common": (word("a"), word("b"), among("a", "own"), unknown("own", "a", "b")),
    "form": (word("opens_on_fall"), word("closes_on_fall"), among("opens_on_fall", "closes_on_fall")),
    "most_voltage": (amount(100, "V"), between("V", 100, 150), unknown(0, 300)),
    "repeatability": (varying(-5, 5, "mm"), varying(-10, 10, "mm")),
    # Falls of some 8, 32, 48 and 80 mm: off the lattice of 5 mm, so that no comparison hangs on a density.
    "delay": (amount(60, "s"), amount(240, "s"), between("s", 0, 240), between("s", 60, 360), unknown(0, 600)),
}
PART_FACTS = {
    "flange.circle": (amount(230, "mm"), between("mm", 190, 210, 230), unknown(20, 190, 1000)),
    "flange.bolts": (one(4, 4), Fact("4 .. 8", (4, 6, 8)), unknown(2, 8, 32)),
    "flange.face": (word("flat"), among("spigot", "flat"), among("socket", "flat"), unknown("flat", "raised", "spigot", "socket")),
    "stem.standard": (word("metric"), among("un", "metric")),
    "stem.size": (amount(12, "mm"), between("mm", 10, 12), unknown(2, 10, 60)),
    "stem.gender": (word("male"), word("female"), unknown("male", "female")),
    "bay.form": (word("magnet"), among("linkage", "magnet"), unknown("linkage", "magnet")),
    "bay.spacing": (amount(130, "mm"), between("mm", 100, 130), unknown(10, 100, 500)),
    "tappings.size": (amount(32, "mm"), between("mm", 25, 32)),
    "tappings.standard": (word("bspt"), among("npt", "bspt"), unknown("npt", "bspt", "bspp", "flanged")),
    "rating": (curve((100, 170), (450, 100)), curve((100, 200), (450, 150)), curve((100, 260), (300, 200))),
    "low_pressure_only": (word("yes"), unknown("no", "yes")),
    "service": (members("hot_water"), unknown(frozenset(), frozenset({"steam"}))),
    "most_ambient": (amount(40, "degC"), between("degC", 40, 60), unknown(-50, 300)),
    "places": (members("damp"), unknown(frozenset(), frozenset({"dry"}))),
    "mercury": (word("yes"), unknown("no", "yes")),
    "needs_plumb": (word("yes"), unknown("no", "yes")),
    "coil.voltage": (amount(120, "V"), between("V", 120, 240), unknown(1, 240, 700)),
    "coil.inrush": (amount(900, "VA"), between("VA", 80, 900), unknown(0, 100000)),
    "poles": (one(1, 1), Fact("1 .. 3", (1, 2, 3)), unknown(0, 3, 8)),
    "motor.running": (amount(1, "A"), between("A", 1, 9), unknown(0, 1000)),
}
PLACE_FACTS = {
    "mawp": (amount(200, "psi(g)"), between("psi(g)", 150, 200), amount(15, "psi(g)")),
    "water_connection": (word("one"), word("own"), among("one", "two"), unknown("own", "one", "two", "three")),
    "source": (word("two"), word("own"), among("one", "two"), unknown("own", "one", "two", "three")),
    "breaks": (word("grounded"), unknown("ungrounded", "grounded")),
    "in_series": (word("no"), unknown("no", "yes")),
    "plumb": (word("no"), unknown("no", "yes")),
    "place": (word("wet"), among("dry", "wet"), unknown("dry", "damp", "wet", "outdoor")),
    "frequency": (word("50_hz"), unknown("50_hz", "60_hz")),
    "glass_on": (word("column"),),
    "isolating_valves": (word("free"), word("locked_open"), unknown("none", "locked_open", "free")),
    "feeds_through": (word("yes"), unknown("no", "yes")),
    "drain.size": (ABSENT, amount(15, "mm"), unknown(0, 20, 200)),
    "drain.at_low_point": (word("no"), unknown("no", "yes")),
    "clearance": (amount(300, "mm"), between("mm", 300, 400), unknown(0, 350, 50000)),
    "motor.voltage": (amount(200, "V"),),
    "motor.running": (amount(1, "A"), amount(10, "A"), between("A", 1, 9, 10), unknown(0, 1000)),
    "motor.locked_rotor": (amount(10, "A"), amount(70, "A"), between("A", 10, 60, 70), unknown(0, 8000)),
    "mounting_may_be": (),
}


def private_copy(model: Model, position: str) -> Part:
    """Give a position a part of its own, so that a change stays local."""
    part_id = position.replace(".", " ").replace("_", " ") + " part"
    if model.holds[position] not in (NOTHING, part_id):
        model.parts[part_id] = copy.deepcopy(model.parts[model.holds[position]])
        model.holds[position] = part_id
    return model.parts[part_id]


def change_output(r: random.Random, model: Model) -> None:
    position = r.choice([q for q in model.holds if q.endswith("switch_set")])
    facts = r.choice(list(private_copy(model, position).outputs.values()))
    name = r.choice([*OUTPUT_FACTS, "trip_at_mark", "trip_at_mark", "reset_at_mark"])
    facts[name] = vary_level(r, facts[name]) if name.endswith("mark") else r.choice(OUTPUT_FACTS[name])


def change_part(r: random.Random, model: Model) -> None:
    position = r.choice([q for q, part in model.holds.items() if part != NOTHING and not q.endswith("float")])
    part = private_copy(model, position)
    if name := r.choice([n for n in PART_FACTS if n in part.facts] or [None]):
        part.facts[name] = r.choice(PART_FACTS[name])


def change_place(r: random.Random, model: Model) -> None:
    name = r.choice([*PLACE_FACTS, "mounting", "mounting", "visible.low", "visible.low", "mounting_may_be", "mounting_may_be"])
    places = [model.vessel, *model.stations.values(), *model.circuits.values()]
    if name == "visible.low":
        facts = private_copy(model, "primary.glass").facts
        facts[name] = vary_level(r, facts[name])
    elif name == "mounting":
        facts = r.choice(list(model.stations.values()))
        facts[name] = vary_level(r, facts[name])
    elif name == "mounting_may_be":
        facts = r.choice(list(model.stations.values()))
        middle = facts["mounting"].values[0]
        least, most = middle - r.choice((0, 5, 15)), middle + r.choice((5, 20))
        facts[name] = one(f"{least} mm .. {most} mm", Varying(least, most))
    else:
        facts = r.choice([p for p in places if name in p])
        facts[name] = r.choice(PLACE_FACTS[name])


def add_output(r: random.Random, model: Model) -> None:
    """A spare output makes several wirings possible."""
    outputs = private_copy(model, "primary.switch_set").outputs
    model_of = r.choice(list(outputs))
    outputs["spare"] = copy.deepcopy(outputs[model_of])
    outputs["spare"]["trip_at_mark"] = vary_level(r, outputs["spare"]["trip_at_mark"])


def random_model(seed: int) -> tuple[Model, dict[str, str]]:
    """A model and the swap that is judged: the position's part against itself or a changed one."""
    r = random.Random(seed)
    model = base(r.random() < 0.6)
    before = dict(model.holds)
    for _ in range(r.choice((1, 1, 2, 2, 3, 4))):
        r.choices((change_output, change_part, change_place, add_output), (5, 4, 4, 1))[0](r, model)
    changed = {q: part for q, part in model.holds.items() if part != before[q]}
    model.holds = before
    put = changed or {"primary.switch_set": "stage"}
    if r.random() < 0.15:
        put = put | {"pump.contactor": NOTHING}
    return model, put
