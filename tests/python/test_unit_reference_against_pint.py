"""tests/reference/units.csv, which the C++ unit table is held against, agrees with pint."""

import csv
import math
from pathlib import Path

import pytest

pint = pytest.importorskip("pint")

REFERENCE = Path(__file__).parent.parent / "reference" / "units.csv"

SI_UNIT = {
    "length": "m",
    "angle": "rad",
    "gauge pressure": "Pa",
    "absolute pressure": "Pa",
    "pressure difference": "Pa",
    "temperature": "kelvin",
    "temperature difference": "delta_degC",
    "mass": "kg",
    "moment": "N*m",
    "force": "N",
    "current": "A",
    "voltage": "V",
    "apparent power": "volt*ampere",
    "power": "W",
    "heat flow": "W",
    "frequency": "Hz",
    "resistance": "ohm",
    "time": "s",
    "mass flow": "kg/s",
    "area": "m**2",
    "density": "kg/m**3",
    "lift per angle": "m/rad",
    "volume": "m**3",
    "volume flow": "m**3/s",
    "conductivity": "S/m",
    "cell constant": "1/m",
    "flow coefficient": "m**3/hour/bar**0.5",
    "starts per hour": "1/hour",
    "ratio": "dimensionless",
}

# Where pint spells a unit differently. Its "hp" is 550 ft*lbf/s, as ours.
PINT_WORD = {
    "in": "inch",
    "Btu/h": "Btu_it/hour",
    "in2": "inch**2",
    "ft2": "ft**2",
    "mm2": "mm**2",
    "cm2": "cm**2",
    "m2": "m**2",
    "lbf*in": "lbf*inch",
    "ozf*in": "lbf*inch/16",
    "lb/ft3": "lb/ft**3",
    "kg/m3": "kg/m**3",
    "in/deg": "inch/degree",
    "mm/deg": "mm/degree",
    "deg": "degree",
    "gal": "US_liquid_gallon",
    "gal/min": "US_liquid_gallon/minute",
    "gal/h": "US_liquid_gallon/hour",
    "ft3": "ft**3",
    "m3": "m**3",
    "m3/h": "m**3/hour",
    "l/h": "liter/hour",
    "uS/cm": "microsiemens/centimeter",
    "mS/cm": "millisiemens/centimeter",
    "mS/m": "millisiemens/meter",
    "Cv": "US_liquid_gallon/minute/psi**0.5",
    "Kv": "m**3/hour/bar**0.5",
    "1/h": "1/hour",
    "1/min": "1/minute",
    "inH2O": "2.54*centimeter_H2O",
    "VA": "volt*ampere",
    "kVA": "kilovolt*ampere",
    "%": "percent",
    "1": "dimensionless",
}


def rows():
    with REFERENCE.open(newline="") as file:
        return [row for row in csv.DictReader(file) if row["dimension"] in SI_UNIT]


@pytest.fixture(scope="module")
def registry():
    return pint.UnitRegistry()


def pint_word(row):
    word = row["word"].removesuffix("(g)").removesuffix("(a)")
    if row["dimension"] == "temperature difference":
        return {"K": "kelvin", "degC": "delta_degC", "degF": "delta_degF"}[word]
    if row["dimension"] == "temperature":
        return {"K": "kelvin", "degC": "degC", "degF": "degF"}[word]
    return PINT_WORD.get(word, word)


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row['word']}-{row['dimension']}")
@pytest.mark.parametrize("number", [1.0, 7.5, 150.0])
def test_pint_converts_to_the_same_si_value(registry, row, number):
    ours = number * float(row["scale"]) + float(row["offset"])
    if row["dimension"] == "temperature":
        theirs = registry.Quantity(number, pint_word(row)).to("kelvin").magnitude
    else:
        theirs = (number * registry.parse_expression(pint_word(row))).to(SI_UNIT[row["dimension"]]).magnitude
    assert math.isclose(ours, theirs, rel_tol=1e-12), (ours, theirs)


def test_only_plain_numbers_are_left_out():
    with REFERENCE.open(newline="") as file:
        left_out = {(row["word"], row["dimension"]) for row in csv.DictReader(file)} - {
            (row["word"], row["dimension"]) for row in rows()
        }
    assert left_out == {("1", "count"), ("1", "money")}
