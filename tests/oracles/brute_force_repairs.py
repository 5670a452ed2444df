"""All minimal repairs by trying every set of up to three positions with the brute-force oracle.

A set of positions fits if some parts there make the verdict "fits", all other positions kept; each
position of the set may also stay as it is. A repair is a minimal set that fits.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations, product

from brute_force import FITS, NOTHING, Model, judge

KINDS = {
    "head": ("float_head", "float_half"),
    "switch_half": ("switch_half",),
    "column": ("column",),
    "float": ("float",),
    "switch_set": ("switch_set",),
    "glass": ("gauge_glass",),
    "contactor": ("contactor",),
}


def candidates(model: Model, position: str, barred: set[str]) -> list[str]:
    kinds = KINDS[position.split(".")[1]]
    """Parts of the kinds that the position accepts, and `nothing` (which is a part without any facts)."""
    return [i for i in (NOTHING, *model.parts) if i not in barred and (i == NOTHING or model.parts[i].kind in kinds)]


def minimal_repairs(
    model: Model, put: Mapping[str, str], *, release: bool, most_changes: int = 3
) -> set[tuple[tuple[str, ...], frozenset[tuple[str, ...]]]]:
    """Minimal sets of positions with the part tuples that fit; none when nothing needs repair.

    Keeping, the put positions stand and the others may change. Releasing, every position may
    change, what the swap takes out may not return, and a set counts only if it gives up a
    proposed part.
    """
    proposed = {**model.holds, **put}
    barred = {model.holds[q] for q in put} if release else set()
    free = sorted(q for q in proposed if release or q not in put)
    open_names: dict[int, list[str]] = {}
    if judge(model, put, open_names=open_names) == FITS:
        return set()
    minimal: dict[tuple[str, ...], frozenset] = {}
    for size in range(1, most_changes + 1):
        for positions in combinations(free, size):
            if (release and not set(positions) & set(put)) or any(set(m) <= set(positions) for m in minimal):
                continue
            options = [[c for c in candidates(model, q, barred) if c != proposed[q]] for q in positions]
            fitting = [c for c in product(*options)
                       if judge(model, {**put, **dict(zip(positions, c))}, open_names=open_names) == FITS]  # fmt: skip
            if fitting:
                minimal[positions] = frozenset(fitting)
    return set(minimal.items())
