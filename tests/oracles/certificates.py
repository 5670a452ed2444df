"""Checks the certificate of a verdict with the point semantics of the brute-force oracle alone.

A certificate is the engine's, the check is not: every rule is asked at points, by `brute_force`.
`complaint` returns what is wrong with a certificate, or nothing.

* a setting sheet: every world satisfies every rule with its wiring and at its settings;
* a conflict: no wiring, settings and world satisfy even the families of rules that it names, and each named family is
  really broken: in all worlds under one wiring, or, where rules only exclude one another, in some world;
* a world: with its wiring and settings it satisfies every rule, whatever the facts are that it leaves out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from brute_force import CANNOT_TELL, DOES_NOT_FIT, FITS, Model, Point, Wiring, connections_hold, contactor_holds
from brute_force import joints_hold, levels_hold, mounted, owners_of, parts_hold, ratings_hold, set_suits_its_place
from brute_force import sheets, surroundings_hold, wiring_holds, wirings, worlds

KINDS = {FITS: "setting sheet", DOES_NOT_FIT: "conflict", CANNOT_TELL: "world"}
BAR_IN_PSI = 0.0689475729316836  # 1 psi in bar: 4.4482216152605 N / (0.0254 m)², the exact definitions
# Lengths that need only agree within the play of a bolt in its hole (18 mm and 16 mm in the models): the oracle
# compares them as they stand, so a value within that play is taken for the one on the lattice.
PLAY = {"flange.circle": 2.0, "stem.size": 0.5, "bay.spacing": 0.5, "tappings.size": 0.5}


def value_of(text: str, values: tuple[Any, ...], name: str) -> object:
    """A value as the certificate writes it, in the units of the models."""
    if text.startswith("["):
        return frozenset(text.strip("[]").split(", ")) - {""}
    if not text[0].isdigit() and text[0] != "-":
        return text
    number, _, unit = text.partition(" ")
    value = float(number) / (BAR_IN_PSI if unit == "bar(g)" else 1)
    near = [v for v in values if isinstance(v, (int, float)) and abs(v - value) <= PLAY.get(name, 1e-9)]
    return near[0] if near else value


# ---- families of rules, each at a point


def interfaces(p: Point, wiring: Wiring, sheet: Mapping[str, float]) -> bool:
    stations, circuits = p.model.stations, p.model.circuits
    return all(joints_hold(p, s) and connections_hold(p, s) for s in stations) and contactors_hold(p, circuits)


def contactors_hold(p: Point, circuits: Iterable[str]) -> bool:
    return all(contactor_holds(p, c, k) for c in circuits if (k := p.at(c, "contactor")))


def ratings(p: Point, wiring: Wiring, sheet: Mapping[str, float]) -> bool:
    wetted = [q for s in p.model.stations for r in ("head", "column", "float", "glass") if (q := p.at(s, r))]
    return all(ratings_hold(p, q) for q in wetted)


def surroundings(p: Point, wiring: Wiring, sheet: Mapping[str, float]) -> bool:
    stood = [(s, q) for s in p.model.stations for r in ("switch_set", "switch_half") if (q := p.at(s, r))]
    stood += [(c, q) for c in p.model.circuits if (q := p.at(c, "contactor"))]
    sets = [(s, q) for s in p.model.stations if (q := p.at(s, "switch_set"))]
    return all(surroundings_hold(p, s, q) for s, q in stood) and all(set_suits_its_place(p, s, q) for s, q in sets)


def wired(p: Point, wiring: Wiring, sheet: Mapping[str, float]) -> bool:
    """What `contacts` and `roles` ask; the oracle does not tell them apart."""
    return contactors_hold(p, p.model.circuits) and wiring_holds(p, wiring)


def levels(p: Point, wiring: Wiring, sheet: Mapping[str, float]) -> bool:
    return levels_hold(p, wiring, mounted(p, sheet))


def parts(p: Point, wiring: Wiring, sheet: Mapping[str, float]) -> bool:
    """Any other family: all that the oracle asks except the levels."""
    return parts_hold(p) and wiring_holds(p, wiring)


FAMILIES = {"interfaces": interfaces, "ratings": ratings, "surroundings": surroundings, "contacts": wired, "roles": wired,
            "levels": levels}  # fmt: skip


def all_hold(p: Point, wiring: Wiring, sheet: Mapping[str, float]) -> bool:
    return parts_hold(p) and wiring_holds(p, wiring) and levels(p, wiring, sheet)


# ---- certificates


class Certified:
    """A model with its swap and what the engine says of it."""

    def __init__(self, model: Model, put: Mapping[str, str], certificate: Any) -> None:
        self.model, self.put, self.certificate = model, put, certificate
        self.holds = {**model.holds, **put}
        self.owners = owners_of(model, self.holds)
        self.worlds = worlds(self.owners, {})

    def points(self, given: Mapping[tuple[str, str], object] | None = None) -> list[Point]:
        """All worlds, or those that are left when some facts are given."""
        left = {tuple((k, v) for k, v in w.items() if k not in given) for w in self.worlds} if given else None
        chosen = self.worlds if left is None else [{**given, **dict(rest)} for rest in left]
        return [Point(self.model, self.holds, self.owners, w) for w in chosen]

    def wirings(self) -> Iterator[Wiring]:
        return wirings(self.model, self.holds, self.put)

    def sheet(self) -> dict[str, float]:
        named = {name.removeprefix("mounting of "): float(value.removesuffix(" mm")) for name, value in self.certificate.settings}
        return {s: named[s] for s in named if s in self.model.stations}

    def wrong_sheet(self) -> str:
        wiring, sheet = dict(self.certificate.wiring), self.sheet()
        if wiring not in list(self.wirings()):
            return f"no wiring of this site: {wiring}"
        if len(sheet) != len(self.certificate.settings):
            return f"settings of nothing: {self.certificate.settings}"
        for s, value in sheet.items():
            free = self.model.stations[s].get("mounting_may_be")
            if free is None or not free.values[0].least <= value <= free.values[0].most:
                return f"{s} cannot be set to {value} mm"
        return ""

    def wrong_at(self, points: list[Point]) -> str:
        wiring, sheet = dict(self.certificate.wiring), self.sheet()
        broken = [p for p in points if not all_hold(p, wiring, sheet)]
        return f"rules are broken in the world {broken[0].world}" if broken else ""

    def wrong_fit(self) -> str:
        return self.wrong_sheet() or self.wrong_at(self.points())

    def wrong_world(self) -> str:
        given = {}
        for fact, text in self.certificate.facts:
            owner, name = fact.split(" / ")
            if name not in self.owners[owner]:
                continue  # open because no model states it, and nothing that the oracle reads
            values = self.owners[owner][name].values
            if len(values) < 2:
                return f"{fact} is not open"
            given[owner, name] = value_of(text, values, name)
        return self.wrong_sheet() or self.wrong_at(self.points(given))

    def wrong_conflict(self) -> str:
        named = list(dict.fromkeys(FAMILIES.get(rule.split(".")[0], parts) for rule in self.certificate.rules))
        if not named:
            return "no rule is named"
        points, wired = self.points(), list(self.wirings())
        at = [(w, s) for w in wired for s in sheets(self.model)]
        if any(all(f(p, w, s) for f in named) for p in points for w, s in at):
            return "the rules that it names do not refuse"
        for f in named:
            # By wiring: at how many of its points the family is broken.
            broken = [[not f(p, w, s) for p in points for s in sheets(self.model)] for w in wired]
            really = any(map(any, broken)) if self.certificate.facts else any(map(all, broken))
            if wired and not really:
                return f"{f.__name__} is named and not broken"
        return ""


def complaint(model: Model, put: Mapping[str, str], outcome: str, certificate: Any) -> str:
    """What is wrong with a certificate; empty when it shows what it must."""
    if certificate.kind != KINDS[outcome]:
        return f"{outcome} with the certificate {certificate.kind}"
    case = Certified(model, put, certificate)
    return {FITS: case.wrong_fit, DOES_NOT_FIT: case.wrong_conflict, CANNOT_TELL: case.wrong_world}[outcome]()
