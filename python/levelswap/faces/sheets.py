"""The command ``levelswap sheet``: how a swap that fits is set up and proved."""

from __future__ import annotations

import sys
from pathlib import Path

import click

import levelswap as ls

from . import output
from .options import CANNOT_TELL, DOES_NOT_FIT, FITS, case_options, reports_errors, require_case
from .places import load_case

EXIT_CODE = {
    ls.Outcome.FITS: FITS,
    ls.Outcome.DOES_NOT_FIT: DOES_NOT_FIT,
    ls.Outcome.CANNOT_TELL: CANNOT_TELL,
}


@click.command(short_help="Write the setting and the proving sheet.")
@case_options
@click.option(
    "--html",
    metavar="FILE",
    type=click.Path(dir_okay=False, allow_dash=True),
    help="Write one printable page to FILE; '-' is stdout.",
)
@reports_errors
def sheet(
    swap: str | None,
    site: str | None,
    put: tuple[tuple[str, str], ...],
    as_json: bool,
    catalog: str | None,
    units: str,
    html: str | None,
) -> None:
    """Write the setting sheet and the proving sheet of a swap that fits.

    \b
    Example:
      levelswap sheet swaps/new_switches.yaml
      levelswap sheet swaps/new_switches.yaml --html sheet.html

    Levels, mountings, wiring, states, and the steps that prove the result by
    lowering the water. For a swap that does not fit: what is wrong, and what
    the water would do to it.

    Exit code: 0 fits, 1 does not fit, 3 cannot tell, 2 wrong call, 4 bad
    data file.
    """
    proposed = require_case(swap, site, put)
    if as_json and html == "-":
        raise click.UsageError("stdout takes one document: give --html a file, or leave --json out")
    case = load_case(swap, site, proposed, catalog)
    made = ls.sheet(case.catalog, case.site, put=case.put, units=units)
    if html is not None and html != "-":
        _write_page(html, made)
    if as_json:
        output.write_text(made.json)
    elif html == "-":
        output.write_text(made.html())
    elif html is None:
        output.write_answer(made.text(), made.outcome)
    else:
        output.write_answer(made.answer, made.outcome)
    sys.exit(EXIT_CODE[made.outcome])


def _write_page(file: str, made: ls.Sheet) -> None:
    try:
        Path(file).write_text(made.html(), encoding="utf-8")
    except OSError as error:
        raise click.UsageError(f"cannot write '{file}': {error.strerror}") from error
    output.say(f"the page is in {file}; it prints on A4 or Letter")
