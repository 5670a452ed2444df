"""The peer in clingo: all minimal repairs of a swap by answer set programming, over tables made beforehand.

The tables say which parts a position may hold, which pairs of parts clash, which output suits which function and
which two functions clash on their outputs. They are made with the rules of tests/oracles/brute_force.py and are not
part of what is timed; grounding and solving are. Levels enter as clashes of two outputs, for which every head must
carry its mark at the same height and every mounting must be known, as in the model of peers_model.py.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product

import brute_force as rules
import clingo
from brute_force import CUT_OFFS, NOTHING, Model, Part, Point
from peers_model import candidates
from peers_plain import PlainJudge
from small_models import amount

Repairs = set[tuple[tuple[str, ...], frozenset[tuple[str, ...]]]]

PROGRAM = """
{ holds(P,C) : may_hold(P,C) } = 1 :- position(P).
changed(P) :- holds(P,C), proposed(P,D), C != D.
:- stands(P), changed(P).
:- #count { P : changed(P) } > 3.
:- holds(P,C), holds(Q,D), parts_clash(P,C,Q,D).

moved(P) :- holds(P,C), held(P,D), C != D.
there(P,O) :- holds(P,C), output(P,C,O).
{ wire(D,P,O) : output(P,_,O) } = 1 :- duty(D).
:- wire(D,P,O), not there(P,O).
:- wire(D,P,O), wire(E,P,O), D < E.
:- now(D,P,O), not moved(P), not wire(D,P,O).
:- wire(D,P,O), holds(P,C), not suits(D,P,C,O), not on_contactor(D).
:- wire(D,P,O), holds(P,C), on_contactor(D), contactor(D,K), holds(K,W), not suits(D,P,C,O,W).
:- wire(D,P,O), wire(E,Q,R), holds(P,C), holds(Q,B), duties_clash(D,P,C,O,E,Q,B,R).
:- wire(D,P,O), holds(P,C), glass(G), holds(G,B), glass_clash(D,P,C,O,B).
#show changed/1.
#project holds/2.
"""


def with_endless_glass(model: Model, position: str) -> PlainJudge:
    """A view in which the glass never decides, for what two functions have to do with one another."""
    endless = {"visible.low": amount(-100_000, "mm"), "visible.high": amount(100_000, "mm")}
    parts = model.parts | {"endless glass": Part("gauge_glass", model.parts[model.holds[position]].facts | endless)}
    figures = model.figures | {"glass_over_lpwl": -200_000}
    holds = model.holds | {position: "endless glass"}
    return PlainJudge(Model(parts, model.vessel, model.stations, model.circuits, holds, model.duties, figures))


class Tables:
    """What the solver is told about a model: facts in its language."""

    def __init__(self, model: Model) -> None:
        self.model, self.judge = model, PlainJudge(model)
        assert len({part.facts["mark"].values[0] for part in model.parts.values() if "mark" in part.facts}) == 1
        assert not any("mounting_may_be" in facts for facts in model.stations.values())
        self.facts: list[str] = []
        self.allowed = {q: [c for c in candidates(model, q) if self.holds_alone(q, c)] for q in model.holds}
        self.say_positions()
        self.say_clashing_parts()
        self.outputs = [(q, c, o) for q in model.holds for c in self.allowed[q] if c != NOTHING for o in model.parts[c].outputs]
        self.say_wiring()
        self.say_levels()
        self.text = "\n".join(self.facts)

    def say(self, name: str, *terms: str) -> None:
        quoted = ",".join(f'"{t}"' for t in terms)
        self.facts.append(f"{name}({quoted}).")

    def at(self, *held: tuple[str, str]) -> Point:
        return self.judge.point({**self.model.holds, **dict(held)})

    def holds_alone(self, position: str, part: str) -> bool:
        place, role = position.split(".")
        p = self.at((position, part))
        if part == NOTHING:
            return role not in ("column", "glass")
        if role == "column" and not rules.connections_hold(p, place):
            return False
        if role in ("head", "column", "float", "glass"):
            return rules.ratings_hold(p, position)
        if role == "contactor" and not rules.contactor_holds(p, place, position):
            return False
        if role == "switch_set" and not rules.set_suits_its_place(p, place, position):
            return False
        return rules.surroundings_hold(p, place, position)

    def say_positions(self) -> None:
        for q, part in self.model.holds.items():
            self.say("position", q)
            self.say("held", q, part)
            for c in self.allowed[q]:
                self.say("may_hold", q, c)

    def joint_holds(self, p: Point, station: str, a: str, b: str) -> bool:
        """The joint of two roles, as `joints_hold` of the oracle has it."""
        x, y = p.at(station, a), p.at(station, b)
        two_part = a == "head" and x is not None and p.kind(x) == "float_half"
        if (a, b) == ("head", "switch_half"):
            return two_part == (y is not None) and (y is None or rules.agree(p, x, y, "tube.diameter"))
        if b == "switch_set":
            if two_part or (a == "switch_half" and x is None):
                return True  # the set hangs on the other of the two
            if a == "head" and x is None and p.at(station, "switch_half") is not None:
                return True
        if rules.missing_one(x, y):
            return False
        if x is None or y is None:
            return True
        if b == "column":
            faces = {p(x, "flange.face"), p(y, "flange.face")}
            names = ("flange.circle", "flange.bolts", "flange.bolt_size", "flange.hole", "flange.up")
            return faces == {"spigot", "socket"} and rules.agree(p, x, y, *names)
        if b == "float":
            return rules.agree(p, x, y, "stem.standard", "stem.size") and p(x, "stem.gender") != p(y, "stem.gender")
        return rules.agree(p, x, y, "bay.form", "bay.spacing", "bay.stroke")

    def say_clashing_parts(self) -> None:
        joints = (("head", "column"), ("head", "float"), ("head", "switch_half"), ("switch_half", "switch_set"), ("head", "switch_set"))
        for station, (a, b) in product(self.model.stations, joints):
            x, y = f"{station}.{a}", f"{station}.{b}"
            for c, d in product(self.allowed[x], self.allowed[y]):
                if not self.joint_holds(self.at((x, c), (y, d)), station, a, b):
                    self.say("parts_clash", x, c, y, d)

    def say_wiring(self) -> None:
        for q, c, o in self.outputs:
            self.say("output", q, c, o)
        for duty, (output, circuit) in self.model.duties.items():
            contactor = f"{circuit}.contactor"
            self.say("duty", duty)
            self.say("now", duty, *output.rsplit(".", 1))
            if contactor in self.allowed:
                self.say("on_contactor", duty)
                self.say("contactor", duty, contactor)
            for (q, c, o), w in product(self.outputs, self.allowed.get(contactor, [None])):
                p = self.at((q, c)) if w is None else self.at((q, c), (contactor, w))
                if rules.role_holds(p, duty, f"{q}.{o}") and rules.contact_holds(p, f"{q}.{o}", circuit):
                    self.say("suits", duty, q, c, o, *([] if w is None else [w]))

    def two_outputs(self) -> Iterator[tuple[tuple[str, str, str], tuple[str, str, str]]]:
        return ((a, b) for a, b in product(self.outputs, repeat=2) if a != b and (a[0] != b[0] or a[1] == b[1]))

    def say_levels(self) -> None:
        """Two functions on two outputs: the rules on a wiring and its levels, judged with nothing else wired."""
        glasses = [q for q in self.model.holds if q.endswith(".glass")]
        assert len(glasses) == 1
        self.say("glass", glasses[0])
        open_view = with_endless_glass(self.model, glasses[0])
        for (d, e), (a, b) in product(combinations(self.model.duties, 2), list(self.two_outputs())):
            p = open_view.point({**open_view.model.holds, a[0]: a[1], b[0]: b[1]})
            wiring = {d: f"{a[0]}.{a[2]}", e: f"{b[0]}.{b[2]}"}
            if not (self.levels_hold(p, wiring) and self.whole_holds(p, wiring)):
                self.say("duties_clash", d, *a, e, *b)
        for d, (q, c, o), g in product(self.model.duties, self.outputs, self.allowed[glasses[0]]):
            if not self.levels_hold(self.at((q, c), (glasses[0], g)), {d: f"{q}.{o}"}):
                self.say("glass_clash", d, q, c, o, g)

    def levels_hold(self, p: Point, wiring: dict[str, str]) -> bool:
        """The levels of the functions given: of two, their order; of one, its own and where the glass shows water."""
        return rules.levels_hold(p, wiring, {s: p(s, "mounting") for s in self.model.stations})

    def whole_holds(self, p: Point, wiring: dict[str, str]) -> bool:
        """The rules on the wiring as a whole: with every function's own rules and the count of cut-offs set aside."""
        (d, x), (e, y) = wiring.items()
        commons = {p(x, "common"), p(y, "common")}
        if x.rsplit(".", 1)[0] == y.rsplit(".", 1)[0] and "own" not in commons and len(commons) == 1:
            (_, one), (_, two) = (self.model.duties[f] for f in (d, e))
            sources = [p(one, "source"), p(two, "source")]
            if one != two and ("own" in sources or sources[0] != sources[1]):
                return False
        if {d, e} != set(CUT_OFFS):
            return True
        stations = [o.split(".")[0] for o in (x, y)]
        water = [p(s, "water_connection") for s in stations]
        return stations[0] != stations[1] and ("own" in water or water[0] != water[1])


class Repairer:
    """Answers one swap whose parts stand."""

    def __init__(self, tables: Tables, put: dict[str, str]) -> None:
        proposed = {**tables.model.holds, **put}
        own = [f'proposed("{q}","{c}").' for q, c in proposed.items()] + [f'stands("{q}").' for q in put]
        self.text = "\n".join([PROGRAM, tables.text, *own])

    def solver(self, *options: str) -> clingo.Control:
        control = clingo.Control(["0", "--warn=none", *options])
        control.add("base", [], self.text)
        control.ground([("base", [])])
        return control

    def grounded(self) -> clingo.Control:
        """Asks for the sets of changed positions of which no smaller one is an answer."""
        return self.solver("--heuristic=Domain", "--enum-mode=domRec", "--dom-mod=5,16")

    @staticmethod
    def minimal_sets(control: clingo.Control) -> list[tuple[str, ...]]:
        found = []
        with control.solve(yield_=True) as models:
            for m in models:
                found.append(tuple(sorted(s.arguments[0].string for s in m.symbols(shown=True))))
        return sorted(found)

    def repairs(self) -> Repairs:
        """All minimal sets, each with every choice of parts; nothing when nothing needs repair."""
        minimal = self.minimal_sets(self.grounded())
        if minimal in ([], [()]):
            return set()
        control = self.solver("--project=project")
        positions = [a.symbol.arguments[0].string for a in control.symbolic_atoms.by_signature("position", 1)]
        result: Repairs = set()
        for group in minimal:
            assumed = [(clingo.Function("changed", [clingo.String(q)]), q in group) for q in positions]
            tuples = set()
            with control.solve(assumptions=assumed, yield_=True) as models:
                for m in models:
                    held = {s.arguments[0].string: s.arguments[1].string for s in m.symbols(atoms=True) if s.name == "holds"}
                    tuples.add(tuple(held[q] for q in group))
            result.add((group, frozenset(tuples)))
        return result
