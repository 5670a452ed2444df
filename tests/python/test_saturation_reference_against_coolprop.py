"""The copied IF97 rows agree with CoolProp, twice: with its own IF97 to the
digits printed, and with IAPWS-95, a different formulation, to 0.03 percent.
"""

import csv
import re
from pathlib import Path

import pytest

coolprop = pytest.importorskip("CoolProp.CoolProp")

REFERENCE = Path(__file__).parents[1] / "reference" / "saturation_if97.csv"

# Last digit printed, in the unit of the row.
PRINTED = {"T_sat": 1e-4, "rho_liquid": 1e-3, "rho_vapour": 1e-5}


def rows(item):
    with REFERENCE.open(newline="", encoding="utf-8") as file:
        return [row for row in csv.DictReader(file) if row["item"] == item]


def number_before(unit, text):
    return float(re.search(rf"([\d.]+) {unit}\b", text).group(1))


def saturated(row, fluid):
    pressure = number_before("MPa", row["conditions"]) * 1e6
    output, quality = {"T_sat": ("T", 0), "rho_liquid": ("D", 0), "rho_vapour": ("D", 1)}[row["quantity"]]
    return coolprop.PropsSI(output, "P", pressure, "Q", quality, fluid)


@pytest.mark.parametrize("row", rows("saturation table"), ids=lambda row: row["id"])
def test_saturation_row_agrees_with_another_if97(row):
    # The pressure is printed to 1 Pa in 1e5: allow two of the last digit.
    assert saturated(row, "IF97::Water") == pytest.approx(float(row["value"]), abs=2 * PRINTED[row["quantity"]])


@pytest.mark.parametrize("row", rows("saturation table"), ids=lambda row: row["id"])
def test_saturation_row_agrees_with_iapws_95(row):
    assert saturated(row, "HEOS::Water") == pytest.approx(float(row["value"]), rel=3e-4)


@pytest.mark.parametrize("row", rows("region 4"), ids=lambda row: row["id"])
def test_check_value_of_region_4_agrees(row):
    if row["quantity"] == "T_sat":
        pressure = number_before("MPa", row["conditions"]) * 1e6
        found = coolprop.PropsSI("T", "P", pressure, "Q", 0, "IF97::Water")
    else:
        temperature = number_before("K", row["conditions"])
        found = coolprop.PropsSI("P", "T", temperature, "Q", 0, "IF97::Water") / 1e6
    assert found == pytest.approx(float(row["value"]), rel=1e-8)


@pytest.mark.parametrize("row", rows("region 1") + rows("region 2"), ids=lambda row: row["id"])
def test_check_value_of_specific_volume_agrees(row):
    temperature = number_before("K", row["conditions"])
    pressure = number_before("MPa", row["conditions"]) * 1e6
    found = 1 / coolprop.PropsSI("D", "T", temperature, "P", pressure, "IF97::Water")
    assert found == pytest.approx(float(row["value"]), rel=1e-8)
