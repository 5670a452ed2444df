"""Reads the tables that the C++ sources hold: the one place where keys, units, figures and codes are written.

Only the form that those tables have today is understood; anything else raises, so that a table that
changes its form cannot slip through as half a table.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
CPP = ROOT / "cpp"

STRING = r'"((?:[^"\\]|\\.)*)"'
PARTS_KINDS = 21  # the enumeration of owners lists the kinds of part first


@dataclass(frozen=True)
class Attribute:
    """One row of the attribute table."""

    id: str
    name: str
    owners: tuple[str, ...]
    kind: str
    dimension: str
    least: float
    most: float
    choices: tuple[str, ...]
    meaning: str
    measured: str


@dataclass(frozen=True)
class Dimension:
    name: str
    si_unit: str
    units: tuple[str, ...]

    @property
    def takes_plain_numbers(self) -> bool:
        return "1" in self.units


@dataclass(frozen=True)
class Figure:
    name: str
    dimension: str
    neutral: float
    meaning: str
    asks: str  # at_least, at_most, allowance or yes_or_no

    @property
    def is_yes_or_no(self) -> bool:
        return self.asks == "yes_or_no"


def read(relative: str) -> str:
    return (CPP / relative).read_text(encoding="utf-8")


def between(text: str, start: str, end: str) -> str:
    """What stands between two marks that must be there."""
    first = text.index(start) + len(start)
    return text[first : text.index(end, first)]


def strings_of(text: str) -> tuple[str, ...]:
    return tuple(match.replace('\\"', '"') for match in re.findall(STRING, text))


def owners() -> tuple[str, ...]:
    """Every owner in the order of the enumeration, as files write it."""
    return strings_of(between(read("src/catalog/attribute.cpp"), "owner_names[owner_count] = {", "};"))


def kinds() -> tuple[str, ...]:
    """The kinds of part."""
    return owners()[:PARTS_KINDS]


def split_arguments(text: str) -> list[str]:
    """Splits at commas that stand outside quotes and parentheses."""
    parts, depth, quoted, start = [], 0, False, 0
    for at, char in enumerate(text):
        if char == '"':
            quoted = not quoted
        elif not quoted and char in "()":
            depth += 1 if char == "(" else -1
        elif not quoted and depth == 0 and char == ",":
            parts.append(text[start:at].strip())
            start = at + 1
    return [*parts, text[start:].strip()]


def owner_names(expression: str) -> tuple[str, ...]:
    """`owners(column, float_) | ...` or the mask of all kinds of part."""
    if expression == "0x1FFFFFu":
        return kinds()
    words: set[str] = set()
    for term in expression.split("|"):
        listed = re.fullmatch(r"owners\(([a-z_, ]+)\)", term.strip())
        if listed is None:
            raise ValueError(f"the owners {expression!r} are written in a new way")
        words.update(word.strip().rstrip("_") for word in listed[1].split(","))
    unknown = words - set(owners())
    if unknown:
        raise ValueError(f"no such owners: {sorted(unknown)}")
    return tuple(owner for owner in owners() if owner in words)


def attributes() -> tuple[Attribute, ...]:
    """The attribute table with its macros put in."""
    macros: dict[str, str] = {}
    rows = []
    for line in read("include/levelswap/catalog/attribute_list.inc").splitlines():
        if defined := re.fullmatch(r"#define (LS_\w+) (.+)", line):
            macros[defined[1]] = defined[2]
        elif line.startswith("LEVELSWAP_ATTRIBUTE("):
            rows.append(one_attribute(line, macros))
        elif line and not line.startswith(("//", "#undef")):
            raise ValueError(f"a line of the attribute table is written in a new way: {line}")
    return tuple(rows)


def one_attribute(line: str, macros: dict[str, str]) -> Attribute:
    for name, text in macros.items():
        line = re.sub(rf"\b{name}\b", lambda _, text=text: text, line)
    fields = split_arguments(line.removeprefix("LEVELSWAP_ATTRIBUTE(").removesuffix(")"))
    if len(fields) != 10:
        raise ValueError(f"an attribute has ten fields, here are {len(fields)}: {line}")
    identifier, name, owned, kind, dimension, least, most, choices, meaning, measured = fields

    def text(field: str) -> str:
        return field.removeprefix('"').removesuffix('"')

    return Attribute(
        identifier,
        text(name),
        owner_names(owned),
        kind,
        dimension.removeprefix("Dimension::"),
        float(least),
        float(most),
        tuple(word for word in text(choices).split("|") if word),
        text(meaning),
        text(measured),
    )


def dimensions() -> dict[str, Dimension]:
    """Each dimension with the units that files may use, in the order in which messages list them."""
    units: dict[str, list[str]] = {}
    for word, dimension in re.findall(r'ExactUnit\{"([^"]+)", D::(\w+),', read("src/document/units.cpp")):
        units.setdefault(dimension, []).append(word)
    rows = re.findall(
        r'\{Dimension::(\w+), "([^"]+)", [\d.e-]+, "([^"]+)", "[^"]+"\}', read("src/base/dimension.cpp")
    )
    return {key: Dimension(name, si, tuple(units.get(key, ()))) for key, name, si in rows}


def figures() -> tuple[Figure, ...]:
    """The figures of a pack; the row without a name is no figure."""
    table = between(read("src/catalog/part.cpp"), "figure_kinds[] = {", "\n};")
    rows = re.findall(r'\{"(\w+)", D::(\w+), ([\d.]+), "([^"]+)", A::(\w+)\}', table)
    if len(rows) != len(re.findall(r'\{"\w+"', table)):
        raise ValueError("a row of the table of figures is written in a new way")
    return tuple(Figure(n, d, float(v), m, asks) for n, d, v, m, asks in rows)


def kinds_with_outputs() -> tuple[str, ...]:
    """The kinds of part that has_outputs names."""
    body = between(read("include/levelswap/catalog/attribute.hpp"), "constexpr bool has_outputs", "}")
    return tuple(re.findall(r"kind == (\w+)", body))


def sources() -> tuple[str, ...]:
    """Where a fact of a part can come from."""
    return strings_of(between(read("src/catalog/read_parts.cpp"), "source_kinds() { return {", "};"))


def roles() -> tuple[str, ...]:
    return strings_of(between(read("src/assembly/site.cpp"), "role_names[role_count] = {", "};"))


def duties() -> tuple[str, ...]:
    return strings_of(between(read("src/assembly/site.cpp"), "duty_names[duty_count] = {", "};"))


def accepted_kinds() -> dict[str, tuple[str, ...]]:
    """The kinds of part that each role accepts."""
    rows = re.findall(r"case Role::(\w+): return \{([^}]+)\};", read("src/assembly/site.cpp"))
    table = {
        role.rstrip("_"): tuple(kind.rstrip("_") for kind in re.findall(r"Owner::(\w+)", listed))
        for role, listed in rows
    }
    if set(table) != set(roles()):
        raise ValueError("not every role says which kinds it accepts")
    return table


def diagnostic_codes() -> tuple[tuple[str, str, str], ...]:
    """Code, what is wrong, and what to do."""
    rows = re.findall(rf"\{{{STRING}, {STRING}, {STRING}\}}", read("src/base/diagnostic_codes.cpp"))
    return tuple((code, wrong.replace('\\"', '"'), cure.replace('\\"', '"')) for code, wrong, cure in rows)
