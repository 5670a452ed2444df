"""Parts and rules as text and as members of a JSON document."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import levelswap as ls

from .output import WIDTH, labelled, wrap


def part_members(part: ls.Part) -> dict[str, Any]:
    """A part as members of a JSON document."""
    return {
        "id": part.id,
        "kind": part.kind,
        "about": part.about,
        "facts": _facts(part.facts, part.origins),
        "outputs": [
            {"name": name, "facts": _facts(facts, part.output_origins[name])}
            for name, facts in part.outputs.items()
        ],
    }


def _facts(facts: dict[str, str], origins: dict[str, str]) -> list[dict[str, str]]:
    return [{"name": name, "text": text, "origin": origins[name]} for name, text in facts.items()]


def parts_text(parts: Sequence[ls.Part], words: Sequence[str]) -> str:
    """One paragraph for each part: id, kind, about."""
    if not parts:
        return wrap(f"no part has every word of: {' '.join(words)}")
    return "\n".join(
        f"{part.id} ({part.kind})" + (f"\n{wrap(part.about, '    ')}" if part.about else "")
        for part in parts
    )


def part_text(part: ls.Part, folder: str) -> str:
    """One part with its facts and where each comes from, in files below the catalogue's folder."""
    lines = [f"{part.id} ({part.kind})"]
    if part.about:
        lines.append(wrap(part.about))
    lines += _fact_lines(part.facts, _below(folder, part.origins), "  ")
    for name, facts in part.outputs.items():
        origins = _below(folder, part.output_origins[name])
        lines += [f"  output {name}", *_fact_lines(facts, origins, "    ")]
    return "\n".join(lines)


def _below(folder: str, origins: dict[str, str]) -> dict[str, str]:
    prefix = folder.rstrip("/") + "/"
    return {name: origin.replace(prefix, "") for name, origin in origins.items()}


def _fact_lines(facts: dict[str, str], origins: dict[str, str], indent: str) -> list[str]:
    lines = []
    for name, text in facts.items():
        whole = f"{indent}{name}: {text}  [{origins[name]}]"
        if len(whole) <= WIDTH and "\n" not in whole:
            lines.append(whole)
        else:
            lines.append(wrap(f"{name}: {text}", indent, indent + "    "))
            lines.append(wrap(f"[{origins[name]}]", indent + "    "))
    return lines


def rule_members(rule: ls.Rule) -> dict[str, Any]:
    """A rule as members of a JSON document."""
    return {
        "id": rule.id,
        "family": rule.family,
        "title": rule.title,
        "level": rule.level,
        "source": rule.source,
        "protects": rule.protects,
        "figure": rule.figure,
        "reads": list(rule.reads),
    }


def rules_text(rules: Sequence[ls.Rule]) -> str:
    """Every rule in brief: id, level, title."""
    return "\n".join(f"{rule.id} ({rule.level})\n{wrap(rule.title, '    ')}" for rule in rules)


def rule_text(rule: ls.Rule) -> str:
    """One rule in full."""
    rows = [
        ("level", rule.level),
        ("family", rule.family),
        ("protects", rule.protects),
        ("source", rule.source),
        ("figure", rule.figure),
        ("reads", "; ".join(rule.reads)),
    ]
    lines = [wrap(f"{rule.id}: {rule.title}")]
    lines += [labelled(label, text) for label, text in rows if text]
    return "\n".join(lines)
