"""Values of the physics functions computed by other libraries, for tests/reference/physics_peers.csv.

Run: ``python tests/support/physics_peers.py`` writes the file anew. A C++ test reads it and compares; a
Python test computes every row again. Everything is in SI units but Kv (m3/h at 1 bar) and starts an hour.
fluids sizes valves, CoolProp gives water and steam (IAPWS-95, but for one function), scipy steps pumps and tanks
through time and integrates floats and drums numerically.
"""

from __future__ import annotations

import csv
import math
import random
from collections.abc import Callable
from pathlib import Path

from CoolProp.CoolProp import PropsSI
from fluids.control_valve import size_control_valve_l
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

FILE = Path(__file__).parents[1] / "reference" / "physics_peers.csv"
GRAVITY = 9.80665
CRITICAL = 22.064e6


def valve_kv(inlet: float, outlet: float, vapour: float, density: float, flow: float, recovery: float) -> float:
    """Required Kv of a valve in a pipe of its own size."""
    return size_control_valve_l(
        rho=density, Psat=vapour, Pc=CRITICAL, mu=3e-4, P1=inlet, P2=outlet, Q=flow, D1=0.05, D2=0.05, d=0.05, FL=recovery, Fd=0.46
    )


def reduced_valve_kv(
    inlet: float, outlet: float, vapour: float, density: float, flow: float, recovery: float, valve: float, pipe: float
) -> float:
    """Required Kv of a valve between reducers; fluids iterates, the C++ test puts the answer back in."""
    return size_control_valve_l(
        rho=density, Psat=vapour, Pc=CRITICAL, mu=3e-4, P1=inlet, P2=outlet, Q=flow, D1=pipe, D2=pipe, d=valve, FL=recovery, Fd=0.46
    )


def saturated(pressure: float) -> tuple[float, float]:
    return PropsSI("D", "P", pressure, "Q", 0, "Water"), PropsSI("D", "P", pressure, "Q", 1, "Water")


def liquid(name: str, temperature: float, pressure: float) -> float:
    return PropsSI(name, "T", temperature, "P", pressure, "Water")


def wet_leg_pressure(pressure: float, leg_temperature: float, taps: float, level: float) -> float:
    """Both legs integrated from the upper tap down, with the densities of a boiler at an absolute pressure."""
    water, steam = saturated(pressure)
    leg = liquid("D", leg_temperature, pressure)
    boiler, _ = quad(lambda z: GRAVITY * (water if z < level else steam), 0, taps, points=[level])
    return boiler - GRAVITY * leg * taps


def compression(temperature: float, low: float, high: float) -> float:
    return liquid("D", temperature, high) - liquid("D", temperature, low)


def true_level(ranged_at: float, pressure: float, leg_temperature: float, taps: float, shown: float) -> float:
    """The level at which a boiler at `pressure` weighs what the transmitter was ranged to show as `shown`."""
    wanted = wet_leg_pressure(ranged_at, leg_temperature, taps, shown)
    return brentq(lambda level: wet_leg_pressure(pressure, leg_temperature, taps, level) - wanted, -taps, 2 * taps, xtol=1e-12)


def column_level(pressure: float, column_temperature: float, taps: float, level: float) -> float:
    """The height at which the column weighs as much as the boiler between the taps."""
    water, steam = saturated(pressure)
    cool = liquid("D", column_temperature, pressure)
    return brentq(lambda h: cool * h + steam * (taps - h) - water * level - steam * (taps - level), 0, taps, xtol=1e-14)


def mixed_temperature(tank: float, hot: float, make_up: float, cold: float, pressure: float) -> float:
    heat = tank * liquid("H", hot, pressure) + make_up * liquid("H", cold, pressure)
    return PropsSI("T", "H", heat / (tank + make_up), "P", pressure, "Water")


def filled_temperature(tank: float, hot: float, make_up: float, cold: float, pressure: float) -> float:
    """The same by stepping a filling through time: cp·m·dT/dt = flow·(h_cold - h)."""
    entering = liquid("H", cold, pressure)

    def slope(time: float, state: list[float]) -> list[float]:
        heat, capacity = liquid("H", state[0], pressure), liquid("C", state[0], pressure)
        return [make_up * (entering - heat) / ((tank + make_up * time) * capacity)]

    return float(solve_ivp(slope, (0, 1), [hot], rtol=1e-9, atol=1e-9).y[0, -1])


def heating_power(flow: float, cold: float, hold: float, pressure: float) -> float:
    """The specific heat integrated over the rise."""
    return flow * quad(lambda t: liquid("C", t, pressure), cold, hold)[0]


def starts_per_hour(volume: float, pump: float, take_off: float) -> float:
    """A volume stepped through whole cycles; starts counted from one to the last."""
    time, level, running, starts = 0.0, 0.0, True, [0.0]
    while len(starts) < 6:
        rate = (pump if running else 0.0) - take_off

        def end(_: float, state: list[float], aim: float = volume if running else 0.0) -> float:
            return state[0] - aim

        end.terminal = True  # type: ignore[attr-defined]
        end.direction = 1 if running else -1  # type: ignore[attr-defined]
        step = solve_ivp(lambda _, state, rate=rate: [rate], (0, 1e7), [level], events=end, rtol=1e-10, atol=1e-12)
        time, level, running = time + float(step.t[-1]), float(step.y[0, -1]), not running
        if running:
            starts.append(time)
    return 3600 * (len(starts) - 1) / starts[-1]


def ball_volume(diameter: float, draught: float) -> float:
    return quad(lambda z: math.pi * z * (diameter - z), 0, draught)[0]


def float_valve_pressure(diameter: float, mass: float, arm: float, lever: float, seat: float, seat_arm: float, draught: float) -> float:
    lift = 985.0 * ball_volume(diameter, draught) - mass
    return (lift * GRAVITY * arm - lever) / (1.15 * seat * seat_arm)


def float_valve_draught(diameter: float, mass: float, arm: float, lever: float, seat: float, seat_arm: float, pressure: float) -> float:
    return brentq(
        lambda depth: float_valve_pressure(diameter, mass, arm, lever, seat, seat_arm, depth) - pressure, 0, diameter, xtol=1e-13
    )


def drum_volume(diameter: float, length: float, low: float, high: float) -> float:
    return length * quad(lambda z: 2 * math.sqrt(z * (diameter - z)), low, high, epsabs=1e-12)[0]


def coaxial_resistance(rod: float, bore: float, wetted: float, conductivity: float) -> float:
    """Shells of water from rod to bore, one after the other."""
    return quad(lambda r: 1 / (conductivity * 2 * math.pi * r * wetted), rod / 2, bore / 2)[0]


def suction_head(surface: float, temperature: float, losses: float, height: float) -> float:
    vapour = PropsSI("P", "T", temperature, "Q", 0, "Water")
    return (surface - vapour - losses) / (liquid("D", temperature, surface) * GRAVITY) + height


def liquid_enthalpy(temperature: float, pressure: float) -> float:
    """CoolProp's own IF97: the formulation that ours is."""
    return PropsSI("H", "T", temperature, "P", pressure, "IF97::Water")


# Each function with the ranges that its rows are drawn from.
FUNCTIONS: dict[Callable[..., float], list[tuple[float, float]]] = {
    valve_kv: [(4e5, 2e6), (1.2e5, 3.5e5), (1e3, 1e5), (940, 1000), (5e-4, 1e-2), (0.5, 0.95)],
    reduced_valve_kv: [(4e5, 2e6), (1.2e5, 3.5e5), (1e3, 1e5), (940, 1000), (1e-3, 5e-3), (0.5, 0.95), (0.04, 0.05), (0.05, 0.08)],
    wet_leg_pressure: [(1.2e5, 2e6), (290, 350), (0.7, 1.2), (0, 0.7)],
    column_level: [(1.2e5, 2e6), (290, 370), (0.7, 1.2), (0, 0.65)],
    mixed_temperature: [(100, 800), (330, 370), (5, 400), (275, 300), (1.0e5, 1.1e5)],
    filled_temperature: [(100, 800), (330, 370), (5, 400), (275, 300), (1.0e5, 1.1e5)],
    heating_power: [(0.01, 2), (275, 300), (330, 370), (1.0e5, 1.1e5)],
    starts_per_hour: [(0.02, 0.5), (2e-3, 3e-3), (2e-4, 1.9e-3)],
    float_valve_pressure: [(0.1, 0.2), (0.1, 0.25), (0.2, 0.5), (0, 0.1), (5e-5, 3e-4), (0.02, 0.08), (0.08, 0.1)],
    float_valve_draught: [(0.14, 0.2), (0.2, 0.6), (0.3, 0.5), (0, 0.1), (5e-5, 1.2e-4), (0.02, 0.05), (1e4, 3e5)],
    drum_volume: [(1, 2), (1, 5), (0.05, 0.4), (0.45, 0.95)],
    coaxial_resistance: [(0.005, 0.02), (0.03, 0.2), (0.01, 0.5), (1e-4, 1)],
    suction_head: [(1.0e5, 2e5), (280, 370), (0, 2e4), (-2, 5)],
    liquid_enthalpy: [(275, 500), (2.7e6, 9e6)],
    compression: [(290, 420), (5e5, 1e6), (1.2e6, 8e6)],
    true_level: [(1.2e5, 2e6), (1.2e5, 2e6), (290, 350), (0.7, 1.2), (0.2, 0.6)],
}
ROWS_OF_EACH = 8


def compute(name: str, inputs: list[float]) -> float:
    return {function.__name__: function for function in FUNCTIONS}[name](*inputs)


def rows() -> list[list[str]]:
    draw = random.Random(11)
    out = []
    for function, ranges in FUNCTIONS.items():
        for _ in range(ROWS_OF_EACH):
            inputs = [float(f"{draw.uniform(*of):.6g}") for of in ranges]
            out.append([function.__name__, ";".join(f"{x:.6g}" for x in inputs), f"{function(*inputs):.10g}"])
    return out


def main() -> None:
    with FILE.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file, lineterminator="\n").writerows([["function", "inputs", "value"], *rows()])


if __name__ == "__main__":
    main()
