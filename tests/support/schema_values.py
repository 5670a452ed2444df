"""The schema of one value, and of the facts of one owner: the grammar of values as patterns."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from source_tables import Attribute, Dimension

Schema = dict[str, Any]

NAME = r"^(?!(?:nothing|none|unknown)$)[a-z0-9_]+(?: [a-z0-9_]+)*$"
WORDS_FOR_NO_VALUE = ["unknown", "none"]
UNSIGNED = r"(?:\d+[ -]\d+/\d+|\d+/\d+|\d*\.\d+|\d+)"
NUMBER = rf"[-+]?{UNSIGNED}"
TOLERANCE_OF = {
    "pressure_gauge": "pressure_difference",
    "pressure_absolute": "pressure_difference",
    "temperature": "temperature_difference",
}
YES_OR_NO = ["no", "yes"]


def escaped(word: str) -> str:
    return "".join(f"\\{char}" if char in r"()*.+|^$" else char for char in word)


def unit_pattern(dimension: Dimension) -> str:
    units = sorted((u for u in dimension.units if u != "1"), key=len, reverse=True)
    listed = " *(?:" + "|".join(escaped(u) for u in units) + ")" if units else ""
    if not dimension.takes_plain_numbers:
        return listed
    return f"(?:{listed}| *1)?" if listed else "(?: +1)?"


def quantity_pattern(key: str, dimensions: dict[str, Dimension]) -> str:
    """The grammar of a value: one number, a range, a tolerance, one end, each with its unit."""
    one = NUMBER + unit_pattern(dimensions[key])
    tolerance_key = TOLERANCE_OF.get(key, key)
    tolerance = rf"[+]?{UNSIGNED}{unit_pattern(dimensions[tolerance_key])}"
    middle = one if key in TOLERANCE_OF else f"(?:{one})?"
    two_sided = rf"{one}|{one} *\.\. *{one}|{middle} *(?:\+/-|±) *{tolerance}"
    return rf"^ *(?:unknown|none|~? *(?:{two_sided})|at (?:least|most) {one}) *$"


def units_in_words(dimension: Dimension) -> str:
    return ", ".join("a plain number" if unit == "1" else unit for unit in dimension.units)


def quantity(key: str, dimensions: dict[str, Dimension]) -> Schema:
    dimension = dimensions[key]
    plain = ["string", "integer" if key == "count" else "number"]
    return {
        "description": f"{dimension.name}: {units_in_words(dimension)}",
        "type": plain if dimension.takes_plain_numbers else "string",
        "pattern": quantity_pattern(key, dimensions),
    }


def exact_number(key: str, dimensions: dict[str, Dimension]) -> Schema:
    """A figure of a pack: one number of 0 or more."""
    dimension = dimensions[key]
    schema: Schema = {
        "description": f"{dimension.name}: {units_in_words(dimension)}",
        "type": "string",
        "pattern": rf"^ *[+]?{UNSIGNED}{unit_pattern(dimension)} *$",
    }
    if dimension.takes_plain_numbers:
        schema |= {"type": ["string", "integer" if key == "count" else "number"], "minimum": 0}
    return schema


def choice(words: Iterable[str]) -> Schema:
    listed = list(words)
    either = "|".join(escaped(word) for word in listed)
    return {
        "anyOf": [
            {"enum": [*listed, *(word for word in WORDS_FOR_NO_VALUE if word not in listed)]},
            {"type": "string", "pattern": rf"^(?:{either})(?: or (?:{either}))+$"},
            {"type": "array", "items": {"enum": listed}, "minItems": 1, "uniqueItems": True},
        ]
    }


def set_of(words: Iterable[str]) -> Schema:
    return {
        "anyOf": [
            {"enum": WORDS_FOR_NO_VALUE},
            {"type": "array", "items": {"enum": list(words)}, "uniqueItems": True},
        ]
    }


def curve(dimension: str, tables: Iterable[str]) -> Schema:
    point = [{"$ref": "#/definitions/temperature"}, {"$ref": f"#/definitions/{dimension}"}]
    pair = {"type": "array", "items": point, "minItems": 2, "maxItems": 2}
    return {"anyOf": [{"enum": [*WORDS_FOR_NO_VALUE, *tables]}, {"type": "array", "items": pair, "minItems": 1}]}


def value_of(row: Attribute) -> Schema:
    described = {"description": f"{row.meaning} ({row.measured})"}
    if row.kind == "quantity":
        return described | {"allOf": [{"$ref": f"#/definitions/{row.dimension}"}]}
    if row.kind == "choice":
        return described | choice(row.choices)
    if row.kind == "set":
        return described | set_of(row.choices)
    if row.kind == "curve":
        return described | curve(row.dimension, row.choices)
    if row.kind == "reference":
        return described | {"anyOf": [{"enum": WORDS_FOR_NO_VALUE}, {"type": "string", "pattern": NAME}]}
    raise ValueError(f"a value of kind {row.kind} has no schema")


def closed(properties: Schema, required: Iterable[str] = (), **more: Any) -> Schema:
    schema: Schema = {"type": "object", "properties": properties, "additionalProperties": False}
    if wanted := list(required):
        schema["required"] = wanted
    return schema | more


def named_entries(entry: Schema, **more: Any) -> Schema:
    """A map from plain words to entries."""
    return {
        "type": "object",
        "propertyNames": {"pattern": NAME, "maxLength": 80},
        "additionalProperties": entry,
    } | more


def facts_of(owner: str, rows: tuple[Attribute, ...]) -> Schema:
    """The properties of one owner, groups as nested maps."""
    properties: Schema = {}
    groups: dict[str, Schema] = {}
    for row in rows:
        if owner not in row.owners:
            continue
        group, _, inner = row.name.partition(".")
        if not inner:
            properties[group] = value_of(row)
        else:
            groups.setdefault(group, {})[inner] = value_of(row)
            properties.setdefault(group, {})
    for group, inner_properties in groups.items():
        listed = ", ".join(inner_properties)
        properties[group] = {
            "description": f"{group}: {listed}; or none, or unknown, for all of them",
            "anyOf": [{"enum": WORDS_FOR_NO_VALUE}, closed(inner_properties)],
        }
    return properties
