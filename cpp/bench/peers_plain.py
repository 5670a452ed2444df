"""The peer in plain Python: the rules as tests/oracles/brute_force.py states them, at the one world there is.

To be a fair peer it is quicker than the oracle: what a part is like at a position is looked up once, the saturation
temperature of a pressure is remembered, and a wiring is tried only if each of its pairs holds.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator
from itertools import product

import brute_force as rules
from brute_force import NOTHING, Facts, Model, Point, Wiring

rules.saturation_kelvin = functools.cache(rules.saturation_kelvin)


class PlainJudge:
    """Judges assemblies of one site."""

    def __init__(self, model: Model) -> None:
        self.model = model
        self.owners_at: dict[tuple[str, str], dict[str, Facts]] = {}
        self.shared = {"vessel": model.vessel, **model.stations, **model.circuits}
        self.now = {d: o.rsplit(".", 1)[0] for d, (o, _) in model.duties.items()}

    def facts_at(self, position: str, part: str) -> dict[str, Facts]:
        if (known := self.owners_at.get((position, part))) is None:
            outputs = self.model.parts[part].outputs
            known = {position: self.model.parts[part].facts} | {f"{position}.{o}": facts for o, facts in outputs.items()}
            self.owners_at[position, part] = known
        return known

    def point(self, holds: dict[str, str]) -> Point:
        owners = dict(self.shared)
        for position, part in holds.items():
            if part != NOTHING:
                owners.update(self.facts_at(position, part))
        return Point(self.model, holds, owners, {})

    def wirings(self, p: Point) -> Iterator[Wiring]:
        """Duties at unchanged positions keep their outputs; the others take any that suit them alone."""
        duties = self.model.duties
        frozen = {d: o for d, (o, _) in duties.items() if p.holds[self.now[d]] == self.model.holds[self.now[d]]}
        if len(frozen) == len(duties):
            yield frozen
            return
        taken = set(frozen.values())
        outputs = [o for q, part in p.holds.items() if part != NOTHING for o in self.facts_at(q, part) if o != q and o not in taken]
        free = [d for d in duties if d not in frozen]
        suits = [[o for o in outputs if rules.role_holds(p, d, o) and rules.contact_holds(p, o, duties[d][1])] for d in free]
        for chosen in product(*suits):
            if len(set(chosen)) == len(chosen):
                yield frozen | dict(zip(free, chosen))

    def fits(self, holds: dict[str, str]) -> bool:
        p = self.point(holds)
        if not rules.parts_hold(p):
            return False
        mounting = {s: p(s, "mounting") for s in self.model.stations}
        return any(rules.wiring_holds(p, w) and rules.levels_hold(p, w, mounting) for w in self.wirings(p))
