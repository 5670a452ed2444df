"""Where the catalogue and the site of a command are."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

import levelswap as ls

from .output import say


def demo_catalog() -> Path:
    """The demo catalogue: the shipped one, or in a source checkout the one there."""
    shipped = Path(ls.__file__).parent / "demo_catalog"
    return shipped if (shipped / "parts").is_dir() else Path("demo_catalog")


def catalog_above(place: str | Path) -> Path | None:
    """The nearest folder above a file, or a folder itself or above it, that has part files; none when there is none."""
    start = Path(os.path.abspath(place))
    for folder in (start, *start.parents) if start.is_dir() else start.parents:
        if any((folder / "parts").glob("*.yaml")):
            return shortest(folder)
    return None


def shortest(folder: Path) -> Path:
    """The folder from here or from the root, whichever is shorter to read."""
    from_here = os.path.relpath(folder)
    return Path(from_here if len(from_here) < len(str(folder)) else folder)


def catalog_of_file(file: str | Path) -> Path:
    """The catalogue that a file lies in. Another one must be named: no file is read with parts that are not its own."""
    found = catalog_above(file)
    if found is None and not Path(file).exists():
        raise ls.UsageError(f"there is no file '{file}'")
    if found is None:
        raise ls.UsageError(
            f"'{file}' lies in no catalogue: no folder above it has part files (parts/*.yaml); "
            "say which one to use with --catalog DIR"
        )
    return found


def catalog_to_look_into(given: str | None) -> Path:
    """The catalogue given, or that of the current folder, or the demo catalogue: which is said."""
    if given is not None:
        return Path(given)
    here = catalog_above(".")
    if here is None:
        say("using the demo catalogue; its parts are invented. --catalog DIR takes another one.")
    return here or demo_catalog()


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
        swap = ls.Swap.load(swap_file)
        read = ls.Catalog.load(str(catalog or catalog_of_swap(swap)))
        return Case(read, swap.load_site(read), swap.put, swap.old_may_return)
    assert site_file is not None
    read = ls.Catalog.load(str(catalog or catalog_of_file(site_file)))
    return Case(read, ls.Site.load(site_file, read), put)


def catalog_of_swap(swap: ls.Swap) -> Path:
    """The catalogue that a swap lies in, or else its site. When they lie in two, neither is taken for the other."""
    own, of_site = catalog_above(swap.file), catalog_above(swap.site_path)
    if own and of_site and not own.samefile(of_site):
        raise ls.UsageError(
            f"'{swap.file}' lies in the catalogue '{own}', but its site '{swap.site_path}' in '{of_site}'; "
            "say which one to use with --catalog DIR"
        )
    return own or of_site or catalog_of_file(swap.file)
