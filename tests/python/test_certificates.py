"""Every verdict carries something by which it can be checked without the engine; here it is.

The checker (tests/oracles/certificates.py) is written from the definitions and asks every rule at points only. Models
are drawn with fixed seeds, beside those of test_against_brute_force.py.
"""

from __future__ import annotations

import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

import levelswap as ls

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "oracles"))

from brute_force import CANNOT_TELL, DOES_NOT_FIT, FITS  # noqa: E402
from certificates import complaint  # noqa: E402
from model_files import write_model  # noqa: E402
from small_models import random_model  # noqa: E402

FIRST, CHUNKS, CHUNK = 1000, 8, 50


def verdict_of(folder: Path, seed: int) -> ls.Verdict:
    model, put = random_model(seed)
    catalog_folder, site = write_model(folder, model)
    catalog = ls.Catalog.load(str(catalog_folder))
    return ls.check(catalog, ls.Site.load(str(site), catalog), put=put)


@pytest.mark.parametrize("first", range(FIRST, FIRST + CHUNKS * CHUNK, CHUNK))
def test_a_small_checker_accepts_the_certificate_of_every_proved_verdict(tmp_path: Path, first: int) -> None:
    wrong, unproved = [], 0
    for seed in range(first, first + CHUNK):
        verdict = verdict_of(tmp_path / str(seed), seed)
        outcome = verdict.outcome.name.lower()
        if not verdict.proved:
            assert (outcome, verdict.certificate.kind) == (CANNOT_TELL, "none")
            unproved += 1
            continue
        model, put = random_model(seed)
        if what := complaint(model, put, outcome, verdict.certificate):
            wrong.append((seed, outcome, what))
    assert wrong == []
    assert unproved <= CHUNK // 20  # the engine may leave a verdict without proof; here it seldom does
