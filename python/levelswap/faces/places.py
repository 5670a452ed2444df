"""Where the catalogue and the site of a command are."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import levelswap as ls

from .output import say


def demo_catalog() -> Path:
    """The demo catalogue: the shipped one, or in a source checkout the one there."""
    shipped = Path(ls.__file__).parent / "demo_catalog"
    return shipped if (shipped / "parts").is_dir() else Path("demo_catalog")


def catalog_folder(given: str | None, swap_file: str | None = None) -> Path:
    """The folder given, else the one above ``swaps/``, else the demo catalogue."""
    if given is not None:
        return Path(given)
    if swap_file is not None:
        above = Path(swap_file).parent.parent
        if (above / "parts").is_dir():
            return above
    return demo_catalog()


def load_catalog(given: str | None, swap_file: str | None = None) -> ls.Catalog:
    """Read the catalogue of a command, and say so when it is the demo catalogue."""
    folder = catalog_folder(given, swap_file)
    if given is None and folder == demo_catalog():
        say("using the demo catalogue; its parts are invented. --catalog DIR takes another one.")
    return ls.Catalog.load(str(folder))


@dataclass(frozen=True)
class Case:
    """What a command judges: a catalogue, a site and what is put in."""

    catalog: ls.Catalog
    site: ls.Site
    put: dict[str, str]
    old_may_return: bool = False


def load_case(
    swap_file: str | None, site_file: str | None, put: dict[str, str], catalog: str | None
) -> Case:
    """Read what a command judges, from a swap file or from its options."""
    if swap_file is not None:
        read = load_catalog(catalog, swap_file)
        swap = ls.Swap.load(swap_file)
        return Case(read, ls.Site.load(swap.site_path, read), swap.put, swap.old_may_return)
    assert site_file is not None
    read = load_catalog(catalog, site_file)
    return Case(read, ls.Site.load(site_file, read), put)
