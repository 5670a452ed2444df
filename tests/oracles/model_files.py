"""Writes a model of the brute-force oracle as a catalogue folder with one site."""

from __future__ import annotations

from pathlib import Path

import yaml
from brute_force import Fact, Model


def nested(facts: dict[str, Fact]) -> dict:
    tree: dict = {}
    for name, fact in facts.items():
        *groups, leaf = name.split(".")
        place = tree
        for group in groups:
            place = place.setdefault(group, {})
        place[leaf] = fact.text
    return tree


def write(path: Path, header: str, body: dict) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    text = yaml.dump(body, Dumper=yaml.CSafeDumper, sort_keys=False, width=200).replace("'yes'", "yes").replace("'no'", "no")
    path.write_text(f"levelswap: {header}/1\n" + text)


def write_model(folder: Path, model: Model) -> tuple[Path, Path]:
    """Write the catalogue folder and the site; return both."""
    by_kind: dict[str, dict] = {}
    for part_id, part in model.parts.items():
        entry = nested(part.facts)
        if part.outputs:
            entry["outputs"] = {name: nested(facts) for name, facts in part.outputs.items()}
        by_kind.setdefault(part.kind, {})[part_id] = entry
    for kind, entries in by_kind.items():
        write(folder / "parts" / f"{kind}.yaml", "parts", {"kind": kind, "parts": entries})
    units = {"separation": "mm", "glass_over_lpwl": "mm", "cut_off_above_visible": "mm", "supply_under": "%",
             "supply_over": "%"}
    rows = [{"figure": f, "value": f"{v} {units[f]}" if f in units else v, "clause": "own", "known": "read", "because": "test"}
            for f, v in model.figures.items()]  # fmt: skip
    write(folder / "packs" / "test.yaml", "pack", {"name": "test", "title": "test", "edition": "own", "rows": rows})

    def positions(place: str) -> dict:
        return {q.split(".")[1]: {"holds": part} for q, part in model.holds.items() if q.split(".")[0] == place}

    site = {
        "name": "test", "vessel": nested(model.vessel),
        "stations": {s: nested(f) | {"positions": positions(s)} for s, f in model.stations.items()},
        "circuits": {c: nested(f) | {"positions": positions(c)} for c, f in model.circuits.items()},
        "functions": {"complete": "yes"} | {d: {"now": o, "circuit": c} for d, (o, c) in model.duties.items()},
        "packs": ["test"],
    }  # fmt: skip
    write(folder / "sites" / "site.yaml", "site", site)
    return folder, folder / "sites" / "site.yaml"
