"""tests/reference/physics_peers.csv, which the C++ physics is held against, is what fluids, CoolProp and scipy say."""

import csv
import sys
from pathlib import Path

import pytest

TESTS = Path(__file__).parents[1]
sys.path.insert(0, str(TESTS / "support"))

import physics_peers  # noqa: E402


def rows():
    with (TESTS / "reference" / "physics_peers.csv").open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row['function']}-{row['inputs']}")
def test_the_row_is_what_the_other_library_computes(row):
    inputs = [float(x) for x in row["inputs"].split(";")]
    assert physics_peers.compute(row["function"], inputs) == pytest.approx(float(row["value"]), rel=1e-7)


def test_every_function_has_its_rows():
    counted = [row["function"] for row in rows()]
    for function in physics_peers.FUNCTIONS:
        assert counted.count(function.__name__) == physics_peers.ROWS_OF_EACH
    assert len(counted) == physics_peers.ROWS_OF_EACH * len(physics_peers.FUNCTIONS)


def test_stepping_a_fill_through_time_ends_where_mixing_does():
    inputs = [400.0, 355.0, 60.0, 283.0, 1.02e5]
    assert physics_peers.filled_temperature(*inputs) == pytest.approx(physics_peers.mixed_temperature(*inputs), abs=1e-4)
