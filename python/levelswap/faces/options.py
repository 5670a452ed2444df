"""Options that several commands share, and how errors become exit codes."""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar

import click
from click.shell_completion import CompletionItem

import levelswap as ls

from .output import write_error
from .places import catalog_above, demo_catalog

FITS, DOES_NOT_FIT, USAGE, CANNOT_TELL, BAD_DATA = 0, 1, 2, 3, 4

Command = TypeVar("Command", bound=Callable[..., Any])


if TYPE_CHECKING:  # older releases of click do not say what a type converts to
    PositionAndPart = click.ParamType[tuple[str, str]]
else:
    PositionAndPart = click.ParamType


class Put(PositionAndPart):
    """``POSITION=PART``; completes positions of the site and part ids."""

    name = "position=part"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> tuple[str, str]:
        if isinstance(value, tuple):
            return value
        position, equals, part = value.partition("=")
        if not equals or not position.strip() or not part.strip():
            self.fail(f"'{value}' is not POSITION=PART, for example 'primary.head=quay head'", param, ctx)
        return position.strip(), part.strip()

    def shell_complete(
        self, ctx: click.Context, param: click.Parameter, incomplete: str
    ) -> list[CompletionItem]:
        catalog = _quietly_loaded(ctx)
        position, equals, part = incomplete.partition("=")
        if catalog is None:
            return []
        if equals:
            return [CompletionItem(f"{position}={id_}") for id_ in catalog.parts if id_.startswith(part)]
        return [
            CompletionItem(f"{name}=") for name in _positions(ctx, catalog) if name.startswith(incomplete)
        ]


def complete_part(ctx: click.Context, param: click.Parameter, incomplete: str) -> list[str]:
    """Part ids that begin with what is typed."""
    catalog = _quietly_loaded(ctx)
    return [] if catalog is None else [id_ for id_ in catalog.parts if id_.startswith(incomplete)]


def complete_rule(ctx: click.Context, param: click.Parameter, incomplete: str) -> list[str]:
    """Rule ids that begin with what is typed."""
    return [rule.id for rule in ls.rules() if rule.id.startswith(incomplete)]


def _quietly_loaded(ctx: click.Context) -> ls.Catalog | None:
    # Completion must not disturb the line that is being typed: no catalogue, no words.
    site, given = ctx.params.get("site"), ctx.params.get("catalog")
    folder = given or catalog_above(site or ".") or (None if site else demo_catalog())
    try:
        return ls.Catalog.load(str(folder)) if folder else None
    except ls.Error:
        return None


def _positions(ctx: click.Context, catalog: ls.Catalog) -> tuple[str, ...]:
    site = ctx.params.get("site")
    try:
        return ls.Site.load(site, catalog).positions if site else ()
    except ls.Error:
        return ()


json_option = click.option("--json", "as_json", is_flag=True, help="Write one JSON document to stdout.")
catalog_option = click.option(
    "--catalog",
    metavar="DIR",
    type=click.Path(file_okay=False),
    help="Folder of the catalogue; without it the nearest one above the file.",
)
units_option = click.option(
    "--units",
    type=click.Choice(["us", "si"]),
    default="us",
    show_default=True,
    help="Inch and psi, or mm and bar.",
)


def case_options(command: Command) -> Command:
    """A swap file, or ``--site`` with ``--put``."""
    for option in (
        units_option,
        catalog_option,
        json_option,
        click.option("--put", multiple=True, type=Put(), help="What is proposed; repeatable."),
        click.option("--site", metavar="SITE", type=click.Path(dir_okay=False), help="The site file."),
        click.argument("swap", required=False, type=click.Path(dir_okay=False)),
    ):
        command = option(command)
    return command


def require_case(swap: str | None, site: str | None, put: tuple[tuple[str, str], ...]) -> dict[str, str]:
    """Check that a swap file or its options were given; return what is put in, by position."""
    if swap is not None and (site is not None or put):
        raise click.UsageError("give either a swap file or --site with --put, not both")
    if swap is None and (site is None or not put):
        raise click.UsageError("give a swap file, or --site SITE with --put POSITION=PART")
    proposed = dict(put)
    if len(proposed) != len(put):
        raise click.UsageError("--put names a position twice; give each position once")
    return proposed


def reports_errors(command: Command) -> Command:
    """Turn errors into exit codes: 2 for a wrong call, 4 for a bad data file."""

    @functools.wraps(command)
    def run(*arguments: Any, as_json: bool, **options: Any) -> Any:
        try:
            return command(*arguments, as_json=as_json, **options)
        except ls.DataError as error:
            write_error(str(error), type_="data", as_json=as_json, diagnostics=error.diagnostics)
            raise SystemExit(BAD_DATA) from None
        except ls.UsageError as error:
            write_error(str(error), type_="usage", as_json=as_json)
            raise SystemExit(USAGE) from None

    return run  # type: ignore[return-value]
