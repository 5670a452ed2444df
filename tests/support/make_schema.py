"""Writes the schemas of the four file formats and the page of keys from the tables of the C++ sources.

Run: ``python tests/support/make_schema.py [FOLDER]``; without a folder the committed files are written anew.
Scalars may reach a schema as text or, read by an editor, as numbers: plain numbers are allowed as both.
A schema cannot say everything: that the header comes first, that a name exists elsewhere, that a
value lies in its physical domain. ``levelswap validate`` does.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable
from pathlib import Path

import source_tables as tables
from keys_page import keys_page
from schema_values import (
    NAME,
    WORDS_FOR_NO_VALUE,
    YES_OR_NO,
    Schema,
    closed,
    exact_number,
    facts_of,
    named_entries,
    quantity,
)
from source_tables import Attribute, Dimension, Figure

FOLDER = tables.ROOT / "catalog_schema" / "v1"


def definitions_for(keys: Iterable[str], dimensions: dict[str, Dimension]) -> Schema:
    return {key: quantity(key, dimensions) for key in sorted(set(keys))}


def head(file: str, title: str) -> Schema:
    return {
        "$schema": "http://json-schema.org/draft-07/schema#",
        "title": title,
        "description": f"The first key of the file is the header, levelswap: {file}.",
    }


def header(file: str) -> Schema:
    return {"description": "kind and version of the file; stands first", "const": file}


def used_dimensions(owners: Iterable[str], rows: tuple[Attribute, ...]) -> set[str]:
    wanted = set(owners)
    mine = [row for row in rows if wanted & set(row.owners)]
    used = {row.dimension for row in mine if row.kind in ("quantity", "curve")}
    return used | ({"temperature"} if any(row.kind == "curve" for row in mine) else set())


def parts_schema() -> Schema:
    rows, dimensions = tables.attributes(), tables.dimensions()
    known = {
        "about": {"description": "one line on the part", "type": "string", "minLength": 1},
        "source": {
            "description": "where its facts come from; catalogue when left out",
            "enum": list(tables.sources()),
        },
        "known": {
            "description": "read, or remembered without a paper; read when left out",
            "enum": ["read", "remembered"],
        },
    }
    output = closed(facts_of("output", rows))
    definitions = definitions_for(used_dimensions([*tables.kinds(), "output"], rows), dimensions)
    for kind in tables.kinds():
        properties = known | facts_of(kind, rows)
        required = []
        if kind in tables.kinds_with_outputs():
            required = ["outputs"]
            properties["outputs"] = {"description": "acting elements by name"} | named_entries(
                output, minProperties=1
            )
        definitions[kind] = closed(properties, required)
    cases = [
        {
            "if": {"properties": {"kind": {"const": kind}}, "required": ["kind"]},
            "then": {"properties": {"parts": {"additionalProperties": {"$ref": f"#/definitions/{kind}"}}}},
        }
        for kind in tables.kinds()
    ]
    return head("parts/1", "levelswap parts, version 1") | closed(
        {
            "levelswap": header("parts/1"),
            "kind": {"description": "what all parts of this file are", "enum": list(tables.kinds())},
            "parts": {"description": "the parts by id: plain lower-case words"}
            | named_entries({"type": "object"}),
        },
        ["levelswap", "kind", "parts"],
        allOf=cases,
        definitions=definitions,
    )


def figure_case(figure: Figure, dimensions: dict[str, Dimension]) -> Schema:
    value = {"enum": YES_OR_NO} if figure.is_yes_or_no else exact_number(figure.dimension, dimensions)
    if "minimum" in value and figure.asks in ("at_least", "at_most"):
        value["minimum" if figure.asks == "at_least" else "maximum"] = figure.neutral
    return {
        "if": {"properties": {"figure": {"const": figure.name}}, "required": ["figure"]},
        "then": {"properties": {"value": value}},
    }


def pack_row() -> Schema:
    dimensions, figures = tables.dimensions(), tables.figures()
    vessel = {row.name: row for row in tables.attributes() if row.owners == ("vessel",)}
    conditions = {
        key: {
            "description": f"only where the vessel's {key} is one of these",
            "type": "array",
            "items": {"enum": list(vessel[key].choices)},
            "minItems": 1,
        }
        for key in ("service", "code", "kind", "firing")
    }
    for key in ("mawp", "heat_input"):
        number = exact_number(vessel[key].dimension, dimensions)
        conditions[f"{key}_over"] = number | {"description": f"only where the vessel's {key} is above this"}
        conditions[f"{key}_at_most"] = number | {"description": f"only where the vessel's {key} is this or less"}
    conditions["jurisdiction"] = {
        "description": "only at sites of this jurisdiction",
        "type": "string",
        "pattern": NAME,
        "maxLength": 80,
    }
    meanings = "; ".join(f"{figure.name}: {figure.meaning}" for figure in figures)
    return closed(
        {
            "figure": {"description": meanings, "enum": [figure.name for figure in figures]},
            "value": {"description": "one number in the dimension of the figure, or yes or no"},
            "clause": {"description": "the clause the figure comes from", "type": "string", "minLength": 1},
            "known": {"description": "read from the clause, or remembered", "enum": ["read", "remembered"]},
            "because": {"description": "why the figure is asked for", "type": "string", "minLength": 1},
            "applies_to": {"description": "everywhere when left out"} | closed(conditions),
        },
        ["figure", "value"],
        anyOf=[{"required": ["clause"]}, {"required": ["because"]}],
        allOf=[figure_case(figure, dimensions) for figure in figures],
    )


def house_rule() -> Schema:
    rows = tables.attributes()
    comparisons = ["at_least", "at_most", "is", "is_not"]
    other = closed(
        {
            "attribute": {"description": "dotted name of the attribute to compare with", "type": "string"},
            "of": {"description": "whose: of the part itself, if left out", "enum": ["part", "vessel"]},
        },
        ["attribute"],
    )
    number: Schema = {"anyOf": [{"type": ["string", "number"]}, other]}
    word: Schema = {"anyOf": [{"type": ["string", "number", "array"]}, other]}
    cases = [
        {
            "if": {"properties": {"kind": {"const": kind}}, "required": ["kind"]},
            "then": {"properties": {"attribute": {"enum": [row.name for row in rows if kind in row.owners]}}},
        }
        for kind in tables.kinds()
    ]
    return closed(
        {
            "kind": {"description": "the kind of part it is about", "enum": list(tables.kinds())},
            "attribute": {"description": "dotted name of one of its attributes", "type": "string"},
            "at_least": {"description": "a quantity that the attribute must reach"} | number,
            "at_most": {"description": "a quantity that the attribute must not exceed"} | number,
            "is": {"description": "a value that the attribute must have"} | word,
            "is_not": {"description": "a value that the attribute must not have"} | word,
            "because": {"description": "why the firm decided so", "type": "string", "minLength": 1},
        },
        ["kind", "attribute", "because"],
        oneOf=[{"required": [comparison]} for comparison in comparisons],
        allOf=cases,
    )


def pack_schema() -> Schema:
    text = {"type": "string", "minLength": 1}
    return head("pack/1", "levelswap rule pack, version 1") | closed(
        {
            "levelswap": header("pack/1"),
            "name": {"description": "what sites call it", "type": "string", "pattern": NAME, "maxLength": 80},
            "title": {"description": "one line on the pack"} | text,
            "edition": {"description": "edition of the text that was read"} | text,
            "rows": {"description": "figures with their clauses", "type": "array", "items": pack_row()},
            "house": {"description": "rules of the firm", "type": "array", "items": house_rule()},
        },
        ["levelswap", "name"],
    )


def position(kinds: tuple[str, ...], rows: tuple[Attribute, ...]) -> Schema:
    facts: Schema = {}
    for kind in kinds:
        facts |= facts_of(kind, rows)
    if set(kinds) & set(tables.kinds_with_outputs()):
        output = closed(facts_of("output", rows))
        facts["outputs"] = {"description": "facts measured on its outputs, by name"} | named_entries(output)
    said = " or a ".join(kinds)
    return closed(
        {
            "holds": {
                "description": f"id of a {said}, or nothing",
                "type": "string",
                "pattern": NAME.replace("nothing|", ""),
            },
            "measured": {"description": "facts measured on the part that is there now"} | closed(facts),
        },
        ["holds"],
    )


def positions(roles: Iterable[str], rows: tuple[Attribute, ...]) -> Schema:
    kinds = tables.accepted_kinds()
    listed = {role: position(kinds[role], rows) for role in roles}
    return {"description": "what can be swapped here; a position not listed does not exist"} | closed(listed)


FEED_LINE: Schema = {
    "description": "name of the feed line that is worked from here",
    "type": "string",
    "pattern": NAME,
}


def station(rows: tuple[Attribute, ...]) -> Schema:
    roles = tables.roles()
    own = {
        "glass_on": {
            "description": "datum of the glass: the column's face centre, or the vessel datum",
            "enum": ["column", "vessel"],
        },
        "line": FEED_LINE,
        "positions": positions(roles[: roles.index("contactor")], rows),
    }
    glass = {"properties": {"positions": {"required": ["glass"]}}, "required": ["positions"]}
    return closed(facts_of("station", rows) | own, **{"if": glass, "then": {"required": ["glass_on"]}})


def feed_line(rows: tuple[Attribute, ...]) -> Schema:
    roles = tables.roles()
    own = {"positions": positions(roles[roles.index("solenoid_valve") :], rows)}
    return closed(facts_of("line", rows) | own)


def circuit(rows: tuple[Attribute, ...]) -> Schema:
    roles = tables.roles()
    load = {"allOf": [{"$ref": "#/definitions/apparent_power"}]}
    coil = closed(
        {
            "inrush": {"description": "inrush of this coil"} | load,
            "holding": {"description": "holding load of this coil"} | load,
        }
    )
    own = {
        "coils": {
            "description": "the coils on this circuit by name; their loads are added up",
            "anyOf": [{"enum": WORDS_FOR_NO_VALUE}, {"type": "object", "additionalProperties": coil}],
        },
        "line": FEED_LINE,
        "positions": positions(roles[roles.index("contactor") : roles.index("solenoid_valve")], rows),
    }
    return closed(facts_of("circuit", rows) | own, **{"not": {"required": ["coil", "coils"]}})


def functions() -> Schema:
    duty = closed(
        {
            "now": {
                "description": "the output that does it now, such as primary.switch_set.lower, or nothing",
                "type": "string",
                "pattern": r"^(?:nothing|[a-z0-9_ ]+\.[a-z_]+\.[a-z0-9_ ]+)$",
            },
            "circuit": {"description": "name of the circuit it switches; none for a mechanical feed", "type": "string", "pattern": NAME},
        },
        ["now"],
    )
    complete = {"complete": {"description": "yes: the boiler has no functions but these", "enum": YES_OR_NO}}
    return closed(
        complete | {name: {"description": name.replace("_", " ")} | duty for name in tables.duties()}
    )


def site_schema() -> Schema:
    rows, dimensions = tables.attributes(), tables.dimensions()
    names = {"type": "array", "items": {"type": "string", "pattern": NAME}, "uniqueItems": True}
    return head("site/1", "levelswap site, version 1") | closed(
        {
            "levelswap": header("site/1"),
            "name": {"description": "name of the boiler", "type": "string", "minLength": 1},
            "about": {"description": "one line on it", "type": "string"},
            "jurisdiction": {
                "description": "whose code is in force, in the words that the packs use; unknown when left out",
                "type": "string",
                "pattern": NAME.replace("|unknown", ""),
                "maxLength": 80,
            },
            "vessel": {"description": "facts of the boiler itself"} | closed(facts_of("vessel", rows)),
            "lines": {"description": "feed lines, by name"} | named_entries(feed_line(rows)),
            "stations": {"description": "places where the level is sensed, by name"} | named_entries(station(rows)),
            "circuits": {"description": "circuits that outputs switch, by name"}
            | named_entries(circuit(rows)),
            "functions": {"description": "what the outputs are there for"} | functions(),
            "packs": {"description": "rule packs in force"} | names,
        },
        ["levelswap", "name", "vessel", "stations"],
        definitions=definitions_for(used_dimensions(tables.owners(), rows), dimensions),
    )


def swap_schema() -> Schema:
    put = {
        "description": "part id, or nothing, by position",
        "type": "object",
        "propertyNames": {"pattern": rf"^[a-z0-9_ ]+\.(?:{'|'.join(tables.roles())})$"},
        "additionalProperties": {"type": "string", "pattern": NAME.replace("nothing|", "")},
        "minProperties": 1,
    }
    return head("swap/1", "levelswap swap, version 1") | closed(
        {
            "levelswap": header("swap/1"),
            "about": {"description": "one line on what it shows", "type": "string", "minLength": 1},
            "site": {
                "description": "the site file, from the folder of this file",
                "type": "string",
                "minLength": 1,
            },
            "put": put,
            "old_may_return": {
                "description": "may parts that come out be used again in a repair?",
                "enum": YES_OR_NO,
            },
        },
        ["levelswap", "site", "put"],
    )


def make_schemas(folder: Path) -> tuple[Path, ...]:
    """Write the four schemas and the page of keys into a folder and return their paths."""
    schemas = {"parts": parts_schema(), "pack": pack_schema(), "site": site_schema(), "swap": swap_schema()}
    written = []
    for name, schema in schemas.items():
        path = folder / f"{name}.schema.json"
        path.write_text(json.dumps(schema, indent=2, ensure_ascii=False) + "\n", encoding="utf-8")
        written.append(path)
    keys = folder / "keys.md"
    keys.write_text(keys_page(), encoding="utf-8")
    return (*written, keys)


if __name__ == "__main__":
    make_schemas(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
