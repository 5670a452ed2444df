"""The model that the engine and its peers are asked about: written as files for the engine.

Its parts are those of the repair oracle (tests/oracles), all of them known exactly, so that one world decides.
Its sites differ in facts of the vessel, the stations and the circuits. The questions are all assemblies that one
changed position makes of a site.
"""

from __future__ import annotations

import copy
import random
from collections.abc import Iterator
from pathlib import Path

from brute_force import NOTHING, Model
from brute_force_repairs import KINDS
from model_files import write, write_model
from repairable_models import spare_parts
from small_models import PLACE_FACTS, amount, base

SEED = 20  # any other serves as well


def known_parts() -> Model:
    """The base with every spare part whose facts are all known."""
    model = base()
    for name, part in spare_parts().items():
        if all(len(f.values) == 1 for facts in (part.facts, *part.outputs.values()) for f in facts.values()):
            model.parts[name] = part
    return model


def site_models(count: int) -> list[Model]:
    """Models that share their parts. The first site is the base, the others differ from it in up to two facts."""
    first, r = known_parts(), random.Random(SEED)
    models = [first]
    while len(models) < count:
        model = Model(first.parts, *copy.deepcopy((first.vessel, first.stations, first.circuits, first.holds, first.duties, first.figures)))
        places = [model.vessel, *model.stations.values(), *model.circuits.values()]
        known = {n: [f for f in facts if len(f.values) == 1] for n, facts in PLACE_FACTS.items()}
        for _ in range(r.choice((0, 1, 1, 2))):
            facts = r.choice(places)
            names = [n for n in facts if known.get(n) or n == "mounting"]
            if (name := r.choice(names or [""])) == "mounting":
                facts[name] = amount(facts[name].values[0] + r.choice((-10, -5, 5, 10)), "mm")
            elif name:
                facts[name] = r.choice(known[name])
        models.append(model)
    return models


def candidates(model: Model, position: str) -> list[str]:
    kinds = KINDS[position.split(".")[1]]
    return [NOTHING, *(name for name, part in model.parts.items() if part.kind in kinds)]


def questions(model: Model) -> Iterator[tuple[str, str]]:
    """Each position with each part that it accepts."""
    return ((q, part) for q in model.holds for part in candidates(model, q))


def site_name(number: int) -> str:
    return f"site {number:04}"


def write_files(folder: Path, models: list[Model], swaps: list[tuple[str, str]]) -> None:
    """The catalogue with one site for each model, and the swaps at the first site."""
    for number, model in enumerate(models):
        once = model if number == 0 else Model({}, *(getattr(model, n) for n in list(vars(model))[1:]))
        _, site = write_model(folder, once)
        site.rename(site.with_name(site_name(number) + ".yaml"))
    for number, (position, part) in enumerate(swaps):
        body = {"about": "a peer's question", "site": f"../sites/{site_name(0)}.yaml", "put": {position: part}, "old_may_return": "no"}
        write(folder / "swaps" / f"{number:03}.yaml", "swap", body)
