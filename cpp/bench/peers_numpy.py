"""The peer in numpy: the rules of peers_plain.py over all assemblies of all sites at once.

Facts are tables by part, assemblies are index arrays, words are codes, sets of words are bits, "nothing" is a row of
nan that no comparison accepts. Every rule is judged for every row: there is no stopping at the first failure. The
wirings of a changed switch set are gone through one by one, each for all rows.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import numpy as np
from brute_force import CUT_OFFS, FORMS, FULL_LOAD, NOTHING, PILOT_DUTY, Model, Varying, saturation_kelvin
from peers_model import candidates

Column = np.ndarray
Slot = tuple[str, int]  # a position and the number of an output there


class Codes:
    """One number for each word; one bit for each member of a set."""

    def __init__(self) -> None:
        self.words: dict[str, int] = {}

    def __call__(self, word: str) -> int:
        return self.words.setdefault(word, len(self.words))

    def numbers(self, name: str, value: object) -> dict[str, float]:
        """The columns that one value takes."""
        if value is None:
            return {}
        if name == "pilot_duty":
            thermal, make, break_ = PILOT_DUTY.get(value[0], (np.nan,) * 3)
            return {"thermal": thermal, "make": make, "break": break_, "code_voltage": float(value[1:])}
        if isinstance(value, Varying):
            return {f"{name}<": value.least, f"{name}>": value.most}
        if isinstance(value, frozenset):
            return {name: float(sum(1 << self(word) for word in value))}
        if isinstance(value, tuple):  # a rating curve of two points
            (t0, p0), (t1, p1) = value
            return {"t0": t0, "p0": p0, "t1": t1, "p1": p1}
        return {name: float(self(value)) if isinstance(value, str) else float(value)}


def table(rows: list[dict[str, float]]) -> dict[str, Column]:
    names = sorted({name for row in rows for name in row})
    return {n: np.array([row.get(n, np.nan) for row in rows]) for n in names}


class NumpyJudge:
    """Judges, for many sites of the same parts, every assembly that one changed position makes."""

    def __init__(self, models: list[Model]) -> None:
        self.code = Codes()
        self.first = first = models[0]
        self.index = {name: i for i, name in enumerate([*first.parts, NOTHING])}
        self.places = {o: table([self.row(self.owners(m)[o]) for m in models]) for o in self.owners(first)}
        parts = list(first.parts.values())
        self.parts = table([self.row(p.facts) | {"kind": self.code(p.kind)} for p in parts] + [{}])
        most = max(len(p.outputs) for p in parts)
        self.outputs = [table([self.row(dict(enumerate(p.outputs.values())).get(k, {})) for p in parts] + [{}]) for k in range(most)]
        self.slot_now = {d: self.slot_of(o) for d, (o, _) in first.duties.items()}
        pressures = [m.vessel["mawp"].values[0] for m in models]
        self.saturation = np.array([saturation_kelvin((p + 14.7) * 0.006894757293168) * 1.8 - 459.67 for p in pressures])
        self.sites = len(models)

    @staticmethod
    def owners(model: Model) -> dict[str, dict]:
        return {"vessel": model.vessel, **model.stations, **model.circuits}

    def row(self, facts: dict) -> dict[str, float]:
        return {k: v for name, fact in facts.items() for k, v in self.code.numbers(name, fact.values[0]).items()}

    def slot_of(self, output: str) -> Slot:
        position, name = output.rsplit(".", 1)
        return position, list(self.first.parts[self.first.holds[position]].outputs).index(name)

    def rows(self, position: str) -> NumpyRows:
        """All sites times all parts at this position."""
        options = np.array([self.index[c] for c in candidates(self.first, position)])
        holds = {q: self.index[part] for q, part in self.first.holds.items()}
        held = {q: np.full(self.sites * len(options), i) for q, i in holds.items()}
        held[position] = np.tile(options, self.sites)
        return NumpyRows(self, held, np.repeat(np.arange(self.sites), len(options)), position)


class NumpyRows:
    """Assemblies as index arrays, and the rules over them."""

    def __init__(self, judge: NumpyJudge, held: dict[str, Column], site: Column, changed: str) -> None:
        self.judge, self.held, self.site, self.changed = judge, held, site, changed
        self.moved = held[changed] != judge.index[judge.first.holds[changed]]
        self.figures = judge.first.figures

    def has(self, position: str) -> Column:
        held = self.held.get(position)
        return np.zeros(len(self.site), bool) if held is None else held != self.judge.index[NOTHING]

    def part(self, position: str, name: str) -> Column:
        return self.judge.parts[name][self.held[position]]

    def output(self, slot: Slot, name: str) -> Column:
        position, number = slot
        facts = self.judge.outputs[number]
        return facts[name][self.held[position]] if name in facts else np.full(len(self.site), np.nan)

    def place(self, owner: str, name: str) -> Column:
        facts = self.judge.places[owner]
        return facts[name][self.site] if name in facts else np.full(len(self.site), np.nan)

    def word(self, word: str) -> int:
        return self.judge.code(word)

    def agree(self, a: str, b: str, *names: str) -> Column:
        return np.logical_and.reduce([self.part(a, n) == self.part(b, n) for n in names])

    @staticmethod
    def member(word: Column, of: Column) -> Column:
        bits = np.nan_to_num(of).astype(np.int64)
        return ~np.isnan(word) & (bits >> np.nan_to_num(word).astype(np.int64) & 1 == 1)

    def joints(self, s: str) -> Column:
        head, column, float_, half, set_ = (f"{s}.{r}" for r in ("head", "column", "float", "switch_half", "switch_set"))
        has = {q: self.has(q) for q in (head, column, float_, half, set_)}
        faces = [self.part(q, "flange.face") for q in (head, column)]
        spigot, socket = self.word("spigot"), self.word("socket")
        flange = self.agree(head, column, "flange.circle", "flange.bolts", "flange.bolt_size", "flange.hole", "flange.up")
        flange &= ((faces[0] == spigot) & (faces[1] == socket)) | ((faces[0] == socket) & (faces[1] == spigot))
        stem = self.agree(head, float_, "stem.standard", "stem.size") & (self.part(head, "stem.gender") != self.part(float_, "stem.gender"))
        two_part = self.part(head, "kind") == self.word("float_half")
        bay = np.where(two_part, has[half], has[head])
        names = ("bay.form", "bay.spacing", "bay.stroke")
        drives = np.where(two_part, self.agree(half, set_, *names), self.agree(head, set_, *names))
        ok = (has[head] == has[column]) & (has[head] == has[float_]) & (two_part == has[half]) & (bay == has[set_])
        ok &= (~has[head] | (flange & stem)) & (~has[half] | self.agree(head, half, "tube.diameter"))
        room = self.part(head, "withdrawal") <= self.place(s, "clearance")
        return ok & (~has[set_] | drives) & (~has[head] | room) & self.piping(s)

    def piping(self, s: str) -> Column:
        ok = (self.place(s, "isolating_valves") == self.word("none")) & (self.place(s, "feeds_through") == self.word("no"))
        return ok & ~np.isnan(self.place(s, "drain.size")) & (self.place(s, "drain.at_low_point") == self.word("yes"))

    def connections(self, s: str) -> Column:
        names = ("tappings.standard", "tappings.size", "tappings.spacing")
        same = np.logical_and.reduce([self.part(f"{s}.column", n) == self.place(s, n) for n in names])
        return self.has(f"{s}.column") & same & (self.part(f"{s}.column", "tappings.gender") != self.place(s, "tappings.gender"))

    def ratings(self, q: str, mawp: Column, degrees_f: Column) -> Column:
        t0, p0, t1, p1 = (self.part(q, n) for n in ("t0", "p0", "t1", "p1"))
        allowed = np.where(degrees_f <= t0, p0, np.where(degrees_f <= t1, p0 + (p1 - p0) * (degrees_f - t0) / (t1 - t0), np.nan))
        low = (self.part(q, "low_pressure_only") == self.word("yes")) & (mawp > 15)
        return ~self.has(q) | ((allowed >= mawp) & ~low & self.member(self.place("vessel", "service"), self.part(q, "service")))

    def surroundings(self, place: str, q: str) -> Column:
        ok = (self.part(q, "least_ambient") <= self.place(place, "ambient<")) & (self.part(q, "most_ambient") >= self.place(place, "ambient>"))
        if self.figures.get("mercury_allowed") == "no":
            ok &= self.part(q, "mercury") != self.word("yes")
        return ~self.has(q) | (ok & self.member(self.place(place, "place"), self.part(q, "places")))

    def motor(self, circuit: str, voltage: Column, poles: Column, running: Column, locked: Column) -> Column:
        plate = {n: self.place(circuit, f"motor.{n}") for n in ("phases", "voltage", "running", "locked_rotor")}
        # The larger of plate and table counts; the models have one motor.
        needs = np.maximum(plate["running"], next(iter(FULL_LOAD.values())))
        starts = np.maximum(plate["locked_rotor"], 6 * needs)
        carries = (voltage >= plate["voltage"]) & (poles >= plate["phases"]) & (running >= needs) & (locked >= starts)
        return np.isnan(plate["phases"]) | carries

    def contactors(self, c: str) -> Column:
        q = f"{c}.contactor"
        if q not in self.held:
            return np.ones(len(self.site), bool)
        coil = self.part(q, "coil.voltage")
        under, over = (self.figures[name] / 100 for name in ("supply_under", "supply_over"))
        ok = (self.place(c, "supply<") >= coil * (1 - under)) & (self.place(c, "supply>") <= coil * (1 + over))
        ok &= (self.part(q, "coil.current") == self.place(c, "current")) & self.member(self.place(c, "frequency"), self.part(q, "coil.frequency"))
        ok &= self.motor(c, *(self.part(q, n) for n in ("motor.voltage", "poles", "motor.running", "motor.locked_rotor")))
        return (~self.has(q) | ok) & self.surroundings(c, q)

    def contact(self, slot: Slot, c: str) -> Column:
        relay = self.has(f"{c}.contactor")
        coils = [np.where(relay, self.part(f"{c}.contactor", n), 0) if f"{c}.contactor" in self.held else 0 for n in ("coil.inrush", "coil.holding")]
        margin = self.figures.get("coil_margin", 1)
        own, on_contactor = self.place(c, "coil.holding"), coils[1]
        inrush, holding = margin * (self.place(c, "coil.inrush") + coils[0]), margin * 1.21 * (own + on_contactor)
        rated = np.where(relay, self.part(f"{c}.contactor", "coil.voltage"), 1) if f"{c}.contactor" in self.held else 1
        least, most = self.place(c, "supply<"), self.place(c, "supply>")
        share = np.minimum(1, least / 120)
        ok = self.place(c, "breaks") == self.word("ungrounded")
        ok &= (most <= self.output(slot, "most_voltage")) & (most <= self.output(slot, "code_voltage"))
        ok &= (inrush <= self.output(slot, "make") * share) & (holding <= self.output(slot, "break") * share)
        ok &= margin * 1.1 * (own / least + on_contactor / rated) <= self.output(slot, "thermal")
        direct = ~relay & ~np.isnan(self.place(c, "motor.phases"))
        ok &= direct | (least * (own / most**2 + on_contactor / rated**2) >= self.output(slot, "least_current"))
        names = ("motor.voltage", "poles", "motor.running", "motor.locked_rotor")
        return ok & (relay | self.motor(c, *(self.output(slot, n) for n in names)))

    def role(self, slot: Slot, duty: str) -> Column:
        manual = self.output(slot, "reset_type") == self.word("manual")
        ok = self.output(slot, "form") == self.word(FORMS[duty])
        if duty == "pump" or (duty == "primary_cut_off" and self.figures.get("primary_automatic_reset") == "yes"):
            ok &= ~manual
        if duty == "secondary_cut_off" and self.figures.get("secondary_manual_reset") != "no":
            ok &= manual
        if duty in CUT_OFFS:
            forgets = (self.output(slot, "after_power_loss") == self.word("clears")) | (self.output(slot, "trip_free") == self.word("no"))
            ok &= ~(manual & forgets) & (self.output(slot, "float_sunk") == self.word("open"))
            for state in ("unpowered", "wire_open", "wire_shorted"):
                ok &= self.output(slot, state) != self.word("closed")
            ok &= self.place(self.judge.first.duties[duty][1], "in_series") == self.word("yes")
            ok &= self.member(np.full(len(self.site), float(self.word("cut_off"))), self.output(slot, "listed_for"))
        return ok

    def level(self, slot: Slot, which: str) -> tuple[Column, Column]:
        station = slot[0].split(".")[0]
        middle = self.place(station, "mounting") + self.part(f"{station}.head", "mark") + self.output(slot, which)
        return middle + self.output(slot, "repeatability<"), middle + self.output(slot, "repeatability>")

    def glass(self) -> tuple[Column, Column, Column]:
        """Whether the glass stands high enough; where it begins and ends to show water."""
        on_column = self.place("primary", "glass_on") == self.word("column")
        datum = np.where(on_column, self.place("primary", "mounting"), 0)
        low, high = (datum + self.part("primary.glass", f"visible.{end}") for end in ("low", "high"))
        return low >= self.place("vessel", "lpwl") + self.figures["glass_over_lpwl"], low, high

    def levels(self, wiring: dict[str, Slot], glass: tuple[Column, Column, Column]) -> Column:
        ok, low, high = glass
        trip = {d: self.level(slot, "trip_at_mark") for d, slot in wiring.items()}
        reset = {d: self.level(wiring[d], "reset_at_mark") for d in ("primary_cut_off", "pump")}
        for duty in CUT_OFFS:
            ok = ok & (trip[duty][0] >= low + self.figures["cut_off_above_visible"]) & (trip[duty][1] <= high)
        order = [trip[d] for d in ("secondary_cut_off", "primary_cut_off", "low_alarm", "pump")] + [reset["pump"]]
        for a, b in zip(order, order[1:]):
            ok = ok & (a[1] + self.figures["separation"] <= b[0])
        return ok & (reset["primary_cut_off"][1] < reset["pump"][0])

    def whole(self, wiring: dict[str, Slot]) -> Column:
        """Outputs on one common have one supply; the cut-offs have water connections of their own."""
        own, ok, duties = self.word("own"), np.ones(len(self.site), bool), list(wiring)
        circuit = {d: c for d, (_, c) in self.judge.first.duties.items()}
        for i, a in enumerate(duties):
            for b in duties[i + 1 :]:
                if wiring[a][0] == wiring[b][0] and circuit[a] != circuit[b]:
                    common = [self.output(wiring[d], "common") for d in (a, b)]
                    source = [self.place(circuit[d], "source") for d in (a, b)]
                    ok &= (common[0] != common[1]) | (common[0] == own) | ((source[0] == source[1]) & (source[0] != own))
        stations = [wiring[d][0].split(".")[0] for d in CUT_OFFS]
        water = [self.place(s, "water_connection") for s in stations]
        return ok & (stations[0] != stations[1]) & ((water[0] != water[1]) | (water[0] == own))

    def wirings(self) -> Iterator[tuple[dict[str, Slot], Column]]:
        """Every wiring with the rows in which it may be made."""
        now = self.judge.slot_now
        free = [d for d, (q, _) in now.items() if q == self.changed]
        frozen = {d: slot for d, slot in now.items() if d not in free}
        slots = [(self.changed, k) for k in range(len(self.judge.outputs))]
        for chosen in product(slots, repeat=len(free)):
            if len(set(chosen)) == len(chosen):
                wiring = frozen | dict(zip(free, chosen))
                yield wiring, self.moved if wiring != now else np.ones(len(self.site), bool)

    def fits(self) -> Column:
        model = self.judge.first
        mawp, degrees_f = self.place("vessel", "mawp"), self.judge.saturation[self.site]
        ok = np.logical_and.reduce([self.joints(s) & self.connections(s) for s in model.stations])
        for q in model.holds:
            place, role = q.split(".")
            if role in ("head", "column", "float", "glass"):
                ok &= self.ratings(q, mawp, degrees_f)
            elif role in ("switch_set", "switch_half"):
                ok &= self.surroundings(place, q)
            if role == "switch_set":
                ok &= ~self.has(q) | (self.part(q, "needs_plumb") == self.word("no")) | (self.place(place, "plumb") == self.word("yes"))
        for c in model.circuits:
            ok &= self.contactors(c)
        glass, wired = self.glass(), np.zeros(len(self.site), bool)
        pairs: dict[tuple[str, Slot], Column] = {}
        for wiring, may in self.wirings():
            for d, slot in wiring.items():
                if (d, slot) not in pairs:
                    pairs[d, slot] = self.role(slot, d) & self.contact(slot, model.duties[d][1])
            suits = np.logical_and.reduce([pairs[pair] for pair in wiring.items()])
            wired |= may & suits & self.whole(wiring) & self.levels(wiring, glass)
        return ok & wired
