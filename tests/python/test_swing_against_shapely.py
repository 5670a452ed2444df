"""The swing of the float, decided a second time by plane geometry.

Compared, on generated heads, columns and sphere floats with exact facts and no rule pack:

* ``travel.contact``: the float gets from rest past the trip and the reset of a contact. Outside check: the
  circle of the float, moved along the arc, stays inside the chamber's outline in the vertical plane, and the
  arm, a line with a width, does not touch the edges of the throat.
* ``travel.binding``: over the whole arc between the head's stops nothing touches at the sides. Outside check:
  the same, with a chamber that has neither ceiling nor floor.

Outside source: distances of Shapely (GEOS), sampled along the arc. A case in which the answer changes when
float and arm grow or shrink by 0.05 mm is left out, and so is one where the float enters the opening: what
the near wall looks like there is a convention and no geometry.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from math import cos, radians, sin
from pathlib import Path

import levelswap as ls
import numpy as np
import pytest
import shapely

BORDER = 0.05  # mm
GEOMETRIES = 240
COMPARED_AT_LEAST = 100


@dataclass(frozen=True)
class Gear:
    """A float gear in mm and degrees, as the files state it."""

    along: float
    across: float
    arm: float
    arm_width: float
    rest: float
    stop_low: float
    stop_high: float
    tilt: float
    bore: float
    axis: float
    ceiling: float
    floor: float
    throat_at: float
    throat_half: float
    diameter: float
    trip: float
    reset: float

    def arc(self, low: float, high: float) -> np.ndarray:
        """Arm angles with both ends, in radians.

        Each gap is smooth, so that between two angles 0.05 deg apart it dips below both by less than arm / 8
        times the square of their distance: 0.00003 mm.
        """
        return np.radians(np.linspace(low, high, max(2, int((high - low) / 0.05) + 2)))

    def centres(self, angles: np.ndarray) -> np.ndarray:
        """The float in the vertical plane: face centre at the origin, x into the chamber, z up."""
        t = radians(self.tilt)
        x = self.along * cos(t) - self.across * sin(t) + self.arm * np.cos(angles + t)
        z = self.along * sin(t) + self.across * cos(t) + self.arm * np.sin(angles + t)
        return np.column_stack([x, z])

    def pivot(self) -> tuple[float, float]:
        t = radians(self.tilt)
        return (self.along * cos(t) - self.across * sin(t), self.along * sin(t) + self.across * cos(t))

    def chamber(self, has_ends: bool) -> shapely.Polygon:
        low, high = (self.floor, self.ceiling) if has_ends else (-5000.0, 5000.0)
        return shapely.box(self.axis - self.bore / 2, low, self.axis + self.bore / 2, high)

    def throat(self) -> shapely.MultiLineString:
        """The upper and the lower edge of the opening; they lean with the mounting face."""
        x, t = self.throat_at, radians(self.tilt)
        edges = [[(x, side * z) for z in (self.throat_half, 1000)] for side in (1, -1)]
        return shapely.MultiLineString(
            [[(x * cos(t) - z * sin(t), x * sin(t) + z * cos(t)) for x, z in edge] for edge in edges]
        )

    def is_free(self, angles: np.ndarray, has_ends: bool, grown: float) -> bool:
        chamber, centres = self.chamber(has_ends), self.centres(angles)
        points = shapely.points(centres)
        inside = shapely.contains(chamber, points)
        room = shapely.distance(points, chamber.exterior) - self.diameter / 2
        arms = shapely.linestrings([[self.pivot(), tuple(centre)] for centre in centres])
        beside = shapely.distance(arms, self.throat()) - self.arm_width / 2
        return bool(np.all(inside) and np.all(room >= grown) and np.all(beside >= grown))

    def is_plain(self) -> bool:
        """Does the arm reach through the throat, and does the float keep out of the opening?"""
        angles = self.arc(self.stop_low, self.stop_high)
        throat_in_plane = self.throat_at * cos(radians(self.tilt)) + self.throat_half * abs(
            sin(radians(self.tilt))
        )
        return bool(
            self.along + self.arm * np.cos(angles).min() > self.throat_at + self.arm_width
            and self.centres(angles)[:, 0].min() - self.diameter / 2
            > max(self.throat_at, throat_in_plane) + BORDER
        )

    def reaches_the_contact(self, grown: float) -> bool:
        low, high = min(self.trip, self.reset), max(self.trip, self.reset)
        slack = np.degrees(grown / self.arm)
        within = self.stop_low <= low - slack and high + slack <= self.stop_high
        swept = self.arc(min(low, self.rest), max(high, self.rest))
        return bool(within and self.is_free(swept, has_ends=True, grown=grown))

    def clears_the_sides(self, grown: float) -> bool:
        return self.is_free(self.arc(self.stop_low, self.stop_high), has_ends=False, grown=grown)


def random_gear(dice: random.Random) -> Gear:
    def any_of(low: float, high: float) -> float:
        return round(dice.uniform(low, high), 3)

    arm, along, swing = any_of(140, 260), any_of(-15, 5), any_of(10, 30)
    bore = any_of(115, 190)
    trip = any_of(-swing * 1.05, swing * 0.6)
    return Gear(
        along=along,
        across=any_of(-6, 6),
        arm=arm,
        arm_width=any_of(5, 12),
        rest=any_of(-swing * 0.6, -2),
        stop_low=-swing,
        stop_high=any_of(10, 30),
        tilt=any_of(-5, 5),
        bore=bore,
        axis=round(arm + along - any_of(0, 14), 3),
        ceiling=any_of(75, 190),
        floor=-any_of(75, 190),
        throat_at=any_of(15, 45),
        throat_half=any_of(16, 50),
        diameter=any_of(70, 105),
        trip=trip,
        reset=round(trip + any_of(2, 12), 3),
    )


def write_catalogue(folder: Path, gears: list[Gear]) -> None:
    heads, columns, floats, sets = (["levelswap: parts/1", f"kind: {kind}", "parts:"] for kind in KINDS)
    for n, g in enumerate(gears):
        pivot = f"{{along: {g.along} mm, across: {g.across} mm}}"
        stops = f"{{low: {g.stop_low} deg, high: {g.stop_high} deg}}"
        throat = f"{{at: {g.throat_at} mm, half: {g.throat_half} mm}}"
        heads.append(
            f"  head {n}: {{pivot: {pivot}, arm: {g.arm} mm, arm_width: {g.arm_width} mm,"
            f" rest: {g.rest} deg, stops: {stops}, bay: {{gain: 1, zero: 0 deg}}}}"
        )
        columns.append(
            f"  column {n}: {{tilt: {g.tilt} deg, bore: {g.bore} mm, axis: {g.axis} mm,"
            f" ceiling: {g.ceiling} mm, floor: {g.floor} mm, throat: {throat}}}"
        )
        floats.append(f"  float {n}: {{form: sphere, diameter: {g.diameter} mm, height: none}}")
        contact = f"{{form: opens_on_fall, trip: {g.trip} deg, reset: {g.reset} deg}}"
        sets.append(f"  set {n}: {{outputs: {{only: {contact}}}}}")
    for kind, lines in zip(KINDS, (heads, columns, floats, sets), strict=True):
        (folder / "parts" / f"{kind}.yaml").write_text("\n".join(lines) + "\n", encoding="utf-8")


KINDS = ("float_head", "column", "float", "switch_set")
SITE = """levelswap: site/1
name: trial {n}
vessel: {{service: steam}}
stations:
  trial:
    positions:
      head: {{holds: head {n}}}
      column: {{holds: column {n}}}
      float: {{holds: float {n}}}
      switch_set: {{holds: set {n}}}
circuits: {{burner: {{current: ac}}}}
functions:
  complete: yes
  primary_cut_off: {{now: trial.switch_set.only, circuit: burner}}
"""


@dataclass(frozen=True)
class Judged:
    gear: Gear
    states: dict[str, str]  # of the rules that do not hold

    def holds(self, rule: str) -> bool:
        assert self.states.get(rule) in (None, "fails"), f"exact facts leave {rule} open: {self.gear}"
        return rule not in self.states


@pytest.fixture(scope="module")
def judged(tmp_path_factory: pytest.TempPathFactory) -> list[Judged]:
    folder = tmp_path_factory.mktemp("swing")
    for name in ("parts", "sites"):
        (folder / name).mkdir()
    dice = random.Random(1901)
    gears: list[Gear] = []
    while len(gears) < GEOMETRIES:
        gear = random_gear(dice)
        if gear.is_plain():
            gears.append(gear)
    write_catalogue(folder, gears)
    catalog = ls.Catalog.load(str(folder))
    out = []
    for n, gear in enumerate(gears):
        path = folder / "sites" / f"trial_{n}.yaml"
        path.write_text(SITE.format(n=n), encoding="utf-8")
        verdict = ls.check(catalog, ls.Site.load(str(path), catalog), put={}, units="si")
        # Nothing is changed, so what fails is listed as work on the site.
        out.append(Judged(gear, {f.rule: f.state for f in (*verdict.findings, *verdict.site_work)}))
    return out


def compare(judged: list[Judged], rule: str, outside: str) -> None:
    answers = {True: 0, False: 0}
    for case in judged:
        question = getattr(case.gear, outside)
        tight, loose = question(BORDER), question(-BORDER)
        if tight != loose:
            continue
        assert case.holds(rule) == tight, f"{rule}: geometry says {tight} for {case.gear}"
        answers[tight] += 1
    assert sum(answers.values()) >= COMPARED_AT_LEAST, answers
    assert min(answers.values()) >= COMPARED_AT_LEAST // 4, f"one answer is hardly ever asked for: {answers}"


def test_float_reaches_its_contact_exactly_when_the_swept_circle_stays_in_the_chamber(
    judged: list[Judged],
) -> None:
    compare(judged, "travel.contact", "reaches_the_contact")


def test_float_clears_the_sides_exactly_when_the_swept_circle_does(judged: list[Judged]) -> None:
    compare(judged, "travel.binding", "clears_the_sides")
