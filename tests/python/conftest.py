"""Where the tests find the demo catalogue and the published schema."""

from __future__ import annotations

from pathlib import Path

import pytest

import levelswap as ls

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "demo_catalog"


def swap_files() -> list[Path]:
    """Every demo swap, found by its place: a new one is tested without being listed."""
    return sorted((DEMO / "swaps").glob("*.yaml"))


@pytest.fixture(scope="session")
def demo() -> Path:
    return DEMO


@pytest.fixture(scope="session")
def catalog() -> ls.Catalog:
    return ls.Catalog.load(str(DEMO))


@pytest.fixture(scope="session")
def swap() -> ls.Swap:
    """One that does not fit, and has alternatives."""
    return ls.Swap.load(str(DEMO / "swaps" / "thin_column.yaml"))


@pytest.fixture(scope="session")
def site(catalog: ls.Catalog, swap: ls.Swap) -> ls.Site:
    return ls.Site.load(swap.site_path, catalog)
