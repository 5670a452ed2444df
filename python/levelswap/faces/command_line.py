"""The command line ``levelswap``."""

from __future__ import annotations

import sys
from typing import Any

import click

import levelswap as ls

from . import output
from .options import (
    BAD_DATA,
    CANNOT_TELL,
    DOES_NOT_FIT,
    FITS,
    case_options,
    catalog_option,
    complete_part,
    complete_rule,
    json_option,
    reports_errors,
    require_case,
)
from .places import catalog_to_look_into, load_case
from .sheets import sheet
from .tables import part_members, part_text, parts_text, rule_members, rule_text, rules_text

SETTINGS = {"help_option_names": ["-h", "--help"], "max_content_width": output.WIDTH}
EXIT_CODE = {
    ls.Outcome.FITS: FITS,
    ls.Outcome.DOES_NOT_FIT: DOES_NOT_FIT,
    ls.Outcome.CANNOT_TELL: CANNOT_TELL,
}


@click.group(context_settings=SETTINGS)
@click.version_option(ls.__version__, prog_name="levelswap")
def cli() -> None:
    """May this part replace that one here, why not, and what instead?

    \b
    Example:
      levelswap check --site north_quay.yaml --put "primary.head=quay head"

    For boiler water-level controls. Low-water cut-offs are safety devices: an
    answer is advice from the data given, and the installed result must be
    proved by a test that lowers the water.
    """


@cli.command(short_help="Judge a swap: the answer and the reason.")
@case_options
@reports_errors
def check(
    swap: str | None,
    site: str | None,
    put: tuple[tuple[str, str], ...],
    as_json: bool,
    catalog: str | None,
    units: str,
) -> None:
    """Judge a swap: the answer, the reason, and what works instead.

    \b
    Example:
      levelswap check swaps/new_switches.yaml
      levelswap check --site north_quay.yaml --put "primary.head=quay head"

    Exit code: 0 fits, 1 does not fit, 3 cannot tell, 2 wrong call, 4 bad
    data file.
    """
    case = load_case(swap, site, require_case(swap, site, put), catalog)
    verdict = ls.check(case.catalog, case.site, put=case.put, units=units)
    instead = None
    if verdict.outcome is not ls.Outcome.FITS:
        instead = ls.alternatives(
            case.catalog, case.site, put=case.put, old_may_return=case.old_may_return, units=units
        )
    if as_json:
        output.write_text(verdict.to_json(instead))
    else:
        output.write_answer(verdict.to_text(instead), verdict.outcome)
    sys.exit(EXIT_CODE[verdict.outcome])


@cli.command(short_help="Find what works instead.")
@case_options
@click.option(
    "--max-changes",
    type=click.IntRange(1, 64),
    default=3,
    show_default=True,
    help="At most so many positions change in one repair; with as many as the site has, what bars every "
    "repair is listed too.",
)
@click.option("--keep", is_flag=True, help="Look only for repairs that keep the proposed parts.")
@click.option("--release", is_flag=True, help="Look only for repairs that give up one of the proposed parts.")
@click.option("--old-may-return", is_flag=True, help="Parts taken out may be used again.")
@reports_errors
def alternatives(
    swap: str | None,
    site: str | None,
    put: tuple[tuple[str, str], ...],
    as_json: bool,
    catalog: str | None,
    units: str,
    max_changes: int,
    keep: bool,
    release: bool,
    old_may_return: bool,
) -> None:
    """Find all minimal repairs of a swap, ranked, with what each shuts down.

    \b
    Example:
      levelswap alternatives swaps/new_switches.yaml

    Exit code: 0 some, or none needed, 1 none, 3 only undecided ones, 2 wrong
    call, 4 bad data file.
    """
    if keep and release:
        raise ls.UsageError("--keep and --release each leave out what the other asks for; without either, both are shown")
    case = load_case(swap, site, require_case(swap, site, put), catalog)
    found = ls.alternatives(
        case.catalog,
        case.site,
        put=case.put,
        max_changes=max_changes,
        old_may_return=case.old_may_return or old_may_return,
        units=units,
        which="keep" if keep else "release" if release else "both",
    )
    output.write_text(found.to_json() if as_json else found.to_text())
    if found.keep or found.release or not found.needed:
        sys.exit(FITS)
    sys.exit(CANNOT_TELL if found.undecided else DOES_NOT_FIT)


@cli.command(short_help="Show the rules, their sources and levels.")
@click.argument("rule", required=False, metavar="[ID]", shell_complete=complete_rule)
@json_option
@reports_errors
def rules(rule: str | None, as_json: bool) -> None:
    """Show the rules, their sources and levels; or one of them in full.

    \b
    Example:
      levelswap rules
      levelswap rules travel.slide_wire
    """
    table = ls.rules()
    if rule is not None:
        table = tuple(row for row in table if row.id == rule)
        if not table:
            raise ls.UsageError(f"there is no rule '{rule}'; 'levelswap rules' lists all of them")
    if as_json:
        output.write_json("rules", rules=[rule_members(row) for row in table])
    else:
        output.write_text(rules_text(table) if rule is None else rule_text(table[0]))


@cli.command(short_help="Look into the catalogue.")
@click.argument("words", nargs=-1, metavar="[FILTER]...", shell_complete=complete_part)
@catalog_option
@json_option
@reports_errors
def parts(words: tuple[str, ...], catalog: str | None, as_json: bool) -> None:
    """Look into the catalogue: parts whose id, kind or line has every word.

    \b
    Example:
      levelswap parts switch_set
      levelswap parts "quay head"

    A whole id shows the facts of that part, with where each comes from.
    Without --catalog: the catalogue of the current folder, or the demo.
    """
    read = ls.Catalog.load(str(catalog_to_look_into(catalog)))
    whole = " ".join(words)
    if whole in read:
        found, text = [read.part(whole)], part_text(read.part(whole), read.directory)
    else:
        every = [read.part(id_) for id_ in read.parts]
        found = [part for part in every if _matches(part, words)]
        text = parts_text(found, words)
    if as_json:
        output.write_json("parts", parts=[part_members(part) for part in found])
    else:
        output.write_text(text)


def _matches(part: ls.Part, words: tuple[str, ...]) -> bool:
    text = f"{part.id} {part.kind} {part.about}".lower()
    return all(word.lower() in text for word in words)


@cli.command(short_help="List every problem of data files.")
@click.argument("paths", nargs=-1, required=True, metavar="PATH...", type=click.Path())
@catalog_option
@json_option
@reports_errors
def validate(paths: tuple[str, ...], catalog: str | None, as_json: bool) -> None:
    """List every problem of catalogue, site, swap, pack and parts files.

    \b
    Example:
      levelswap validate demo_catalog

    Exit code: 0 sound, 4 a problem was found, 2 wrong call.
    """
    problems = [problem for path in paths for problem in _problems(path, catalog)]
    unusable = any(problem.severity == "error" for problem in problems)
    if as_json:
        shown = [output.diagnostic_members(problem) for problem in problems]
        output.write_json("validation", sound=not unusable, diagnostics=shown)
    else:
        for problem in problems:
            output.write_text(str(problem))
        output.write_text(counted(len(problems)))
    sys.exit(BAD_DATA if unusable else 0)


def counted(problems: int) -> str:
    """How many problems there are, in words."""
    return "no problem found" if problems == 0 else "1 problem" if problems == 1 else f"{problems} problems"


def _problems(path: str, catalog: str | None) -> tuple[ls.Diagnostic, ...]:
    """The problems below one path; a site or swap needs the catalogue that it belongs to."""
    if catalog is None:
        return ls.validate(path)
    return ls.validate(path, ls.Catalog.load(catalog))


cli.add_command(sheet)


def main(arguments: list[str] | None = None) -> None:
    """Run the command line and leave with its exit code."""
    given = sys.argv[1:] if arguments is None else arguments
    try:
        code: Any = cli.main(args=given, prog_name="levelswap", standalone_mode=False)
        sys.exit(code or 0)
    except click.ClickException as error:
        if "--json" in given:
            output.write_error(error.format_message(), type_="usage", as_json=True)
        else:
            error.show()
        sys.exit(error.exit_code)
    except click.Abort:
        sys.exit(130)


if __name__ == "__main__":
    main()
