"""Models made to be repaired: a fitting site, a few spare parts, and one of them proposed."""

from __future__ import annotations

import copy
import random

from brute_force import NOTHING, Fact, Model, Part, Varying
from brute_force_repairs import KINDS
from small_models import amount, ball, base, column, contactor, curve, glass, head, lock_set, one
from small_models import stage_set, switch_half, switch_set, unknown, varying, word


def raised(part: Part, by: int) -> Part:
    part = copy.deepcopy(part)
    for facts in part.outputs.values():
        for name in ("trip_at_mark", "reset_at_mark"):
            facts[name] = amount(facts[name].values[0] + by, "mm")
    return part


def with_facts(part: Part, output_name: str = "", **facts: Fact) -> Part:
    """A copy with other facts, of one output if it is named; `__` stands for the dot."""
    part = copy.deepcopy(part)
    (part.outputs[output_name] if output_name else part.facts).update({n.replace("__", "."): f for n, f in facts.items()})
    return part


def spare_parts() -> dict[str, Part]:
    """Parts beside those that the base holds: each right for some assembly, wrong for another."""
    small = {"flange__circle": amount(150, "mm"), "flange__bolts": one(4, 4)}
    motor = {"motor__running": amount(9, "A"), "motor__locked_rotor": amount(60, "A"), "motor__voltage": amount(600, "V")}
    magnet = {"bay__form": word("magnet")}
    return {
        "small head": with_facts(head(), **small), "small column": with_facts(column(), **small),
        "half": head("float_half"), "small half": with_facts(head("float_half"), **small),
        "clamp": switch_half(), "wide clamp": with_facts(switch_half(), tube__diameter=amount(32, "mm")),
        "thin column": with_facts(column(), rating=curve((100, 170), (450, 100))),
        "magnet stage": with_facts(stage_set(), **magnet), "magnet lock": with_facts(lock_set(), **magnet),
        "high stage": raised(stage_set(), 30), "low stage": raised(stage_set(), -30),
        "weak stage": with_facts(stage_set(), "upper", pilot_duty=word("D300")),
        "motor stage": with_facts(stage_set(), "upper", poles=one(3, 3), **motor),
        "lone stage": switch_set(lower=stage_set().outputs["lower"]),
        "doubtful stage": with_facts(stage_set(), "lower", listed_for=unknown(frozenset(), frozenset({"cut_off"}))),
        "latch stage": with_facts(stage_set(), "upper", reset_type=word("manual")),
        "easy lock": with_facts(lock_set(), "lock", reset_type=word("automatic")),
        "high lock": raised(lock_set(), 30),
        "high glass": glass(90), "low glass": glass(30),
        "foreign winch": with_facts(contactor(), coil__voltage=amount(120, "V")),
        "weak winch": with_facts(contactor(), motor__running=amount(1, "A")),
        "heavy winch": with_facts(contactor(), coil__inrush=amount(900, "VA")),
        "metric ball": with_facts(ball(), stem__standard=word("metric")),
    }  # fmt: skip


def repairable_model(seed: int) -> tuple[Model, dict[str, str]]:
    """A fitting site, a few spare parts, and one of them proposed at a position."""
    r = random.Random(seed)
    model = base(r.random() < 0.3)
    extra = spare_parts()
    model.parts |= {name: extra[name] for name in r.sample(sorted(extra), 9)}
    if r.random() < 0.3:
        model.parts |= {name: extra[name] for name in ("half", "clamp", "magnet stage")}
    if r.random() < 0.2:  # a supply for the contactor's coil, and not for a motor straight on a contact
        model.circuits["pump"]["supply"] = varying(110, 127, "V")
        model.parts["winch"] = with_facts(contactor(), coil__voltage=amount(120, "V"))
    movable = r.choice(("", "", "primary", "secondary"))
    if movable in model.stations:
        model.stations[movable]["mounting_may_be"] = one("110 mm .. 170 mm", Varying(110, 170))
    choices = [(q, name) for q in model.holds for name, part in sorted(model.parts.items())
               if part.kind in KINDS[q.split(".")[1]] and name != model.holds[q]]  # fmt: skip
    position, name = r.choice(choices + [("pump.contactor", NOTHING)])
    return model, {position: name}
