"""The same question has the same answer, byte for byte: at any number of threads, whatever seeds the hashes."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor

import pytest
from conftest import DEMO, swap_files

import levelswap as ls


def answer(catalog: ls.Catalog, name: str) -> str:
    swap = ls.Swap.load(str(DEMO / "swaps" / name))
    site = ls.Site.load(swap.site_path, catalog)
    repairs = ls.alternatives(catalog, site, put=swap.put, old_may_return=swap.old_may_return, max_changes=1)
    return ls.check(catalog, site, put=swap.put).to_json(repairs)


NAMES = [path.name for path in swap_files()][::2]  # half of them keeps this quick


@pytest.fixture(scope="module")
def one_after_the_other(catalog: ls.Catalog) -> list[str]:
    return [answer(catalog, name) for name in NAMES]


@pytest.mark.parametrize("threads", [1, 2, 8])
def test_any_number_of_threads_gives_the_same_bytes(catalog: ls.Catalog, one_after_the_other: list[str], threads: int) -> None:
    """All threads share one catalogue; each of them reads its own site."""
    with ThreadPoolExecutor(threads) as pool:
        assert list(pool.map(lambda name: answer(catalog, name), NAMES)) == one_after_the_other


def test_many_threads_on_one_site_give_the_same_bytes(catalog: ls.Catalog, swap: ls.Swap, site: ls.Site) -> None:
    alone = ls.check(catalog, site, put=swap.put).to_json()
    with ThreadPoolExecutor(8) as pool:
        together = list(pool.map(lambda _: ls.check(catalog, site, put=swap.put).to_json(), range(24)))
    assert set(together) == {alone}


SCRIPT = """
import hashlib, sys
import levelswap as ls
catalog = ls.Catalog.load(sys.argv[1])
swap = ls.Swap.load(sys.argv[2])
site = ls.Site.load(swap.site_path, catalog)
text = ls.check(catalog, site, put=swap.put).to_json(ls.alternatives(catalog, site, put=swap.put, max_changes=1))
print(hashlib.sha256(text.encode()).hexdigest())
"""


@pytest.mark.parametrize("name", ["thin_column.yaml", "rough_casting.yaml"])
def test_another_process_with_other_hashes_and_another_locale_gives_the_same_bytes(catalog: ls.Catalog, name: str) -> None:
    here = hashlib.sha256(answer(catalog, name).encode()).hexdigest()
    for seed, locale in (("0", "C"), ("1", "C.UTF-8"), ("4711", "de_DE.UTF-8")):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "LC_ALL": locale}
        command = [sys.executable, "-c", SCRIPT, str(DEMO), str(DEMO / "swaps" / name)]
        there = subprocess.run(command, env=environment, capture_output=True, text=True, check=True).stdout.strip()
        assert there == here, (seed, locale)
