"""What a command writes: one JSON document or text on stdout, talk on stderr."""

from __future__ import annotations

import json
import os
import sys
import textwrap
from typing import Any

import levelswap as ls

WIDTH = 80
SCHEMA_VERSION = "1"

_STYLE = {
    ls.Outcome.FITS: "bold green",
    ls.Outcome.DOES_NOT_FIT: "bold red",
    ls.Outcome.CANNOT_TELL: "bold yellow",
}
_WORDS = {
    ls.Outcome.FITS: "fits",
    ls.Outcome.DOES_NOT_FIT: "does not fit",
    ls.Outcome.CANNOT_TELL: "cannot tell",
}


def write_text(text: str) -> None:
    """Write text to stdout, with one line end at its end."""
    sys.stdout.write(text.rstrip("\n") + "\n")


def write_json(kind: str, **members: Any) -> None:
    """Write one JSON document to stdout."""
    document = {"schema_version": SCHEMA_VERSION, "kind": kind, **members}
    write_text(json.dumps(document, ensure_ascii=False, indent=2))


def say(text: str) -> None:
    """Say something on stderr, beside the answer."""
    sys.stderr.write(wrap(text) + "\n")


def wrap(text: str, indent: str = "", hanging: str | None = None) -> str:
    """Break text into lines of at most 80 columns."""
    return textwrap.fill(
        text,
        WIDTH,
        initial_indent=indent,
        subsequent_indent=indent if hanging is None else hanging,
        break_long_words=False,
        break_on_hyphens=False,
    )


def labelled(label: str, text: str, width: int = 10) -> str:
    """One line "label: text", wrapped so that the text hangs under itself."""
    return wrap(f"{label + ':':<{width}} {text}", "  ", " " * (width + 3))


def wants_colour() -> bool:
    """Colour only on a terminal that can show it, and when nobody refuses it."""
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def write_answer(text: str, outcome: ls.Outcome) -> None:
    """Write an answer; on a terminal the outcome's word in the first line has a colour."""
    first, _, rest = text.partition("\n")
    start = first.lower().find(_WORDS[outcome])
    if not wants_colour() or start < 0:
        write_text(text)
        return
    from rich.console import Console
    from rich.text import Text

    line = Text(first)
    line.stylize(_STYLE[outcome], start, start + len(_WORDS[outcome]))
    Console(soft_wrap=True, highlight=False).print(line)
    if rest:
        write_text(rest)


def diagnostic_members(diagnostic: ls.Diagnostic) -> dict[str, Any]:
    """A diagnostic as members of a JSON document."""
    also = diagnostic.also
    return {
        "code": diagnostic.code,
        "severity": diagnostic.severity,
        "file": diagnostic.file,
        "line": diagnostic.line,
        "column": diagnostic.column,
        "length": diagnostic.length,
        "also": None if also is None else dict(zip(("file", "line", "column"), also, strict=True)),
        "message": diagnostic.message,
        "expected": diagnostic.expected,
        "hint": diagnostic.hint,
        "excerpt": diagnostic.excerpt,
    }


def write_error(
    message: str, *, type_: str, as_json: bool, diagnostics: tuple[ls.Diagnostic, ...] = ()
) -> None:
    """Report an error: text on stderr, and with ``--json`` one document on stdout."""
    if as_json:
        shown = [diagnostic_members(diagnostic) for diagnostic in diagnostics]
        document = {
            "schema_version": SCHEMA_VERSION,
            "error": {"type": type_, "message": message.rstrip(), "diagnostics": shown},
        }
        write_text(json.dumps(document, ensure_ascii=False, indent=2))
    if diagnostics:
        sys.stderr.write("\n".join(str(diagnostic).rstrip() for diagnostic in diagnostics) + "\n")
    else:
        say(f"error: {message.rstrip()}")
