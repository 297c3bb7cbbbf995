"""Printed worked examples against the strength formulas: each within the last digit that its source prints.

Rows of kind ``agrees`` count as published checks. ``error`` rows are known slips of a source: our figure must miss the
printed one and hit the right one; ``differs`` rows rest on another basis, named in the note, and are held the same way.
``remembered`` rows (answer not seen in print) and ``rule`` rows (a published rule on figures of ours) do not count.
"""

import csv
import json
import math
from collections import Counter
from collections.abc import Callable, Mapping
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from reference import materials, threads, workshop
from reference.quantities import Limits
from service.strength import (
    belts,
    chance,
    engagement,
    keys_and_rings,
    measuring,
    position,
    press_fit,
    screws,
    seals,
    thermal,
)
from service.strength.stacks import Link, Stack, stack

TOPICS = ("screw_strength", "press_fits", "chance_and_stacks", "belts", "measuring", "position", "thermal")
HERE = Path(__file__).parent
MOST_FROM_ONE_TABLE = 40


def _rows() -> list[Mapping[str, str]]:
    rows: list[Mapping[str, str]] = []
    for topic in TOPICS:
        with (HERE / f"{topic}.csv").open(encoding="utf-8", newline="") as file:
            rows += csv.DictReader(file)
    return rows


ROWS = _rows()


def _section(thread: str) -> screws.Section:
    size = threads.parse(thread)
    assert size is not None
    assert size.pitch is not None
    return screws.Section(float(size.diameter), float(size.pitch))


def _limits(thread: str) -> engagement.ThreadLimits:
    size = threads.parse(thread)
    assert size is not None
    return engagement.thread_limits(size)[0]


def _preload(thread: str, property_class: str, friction: float) -> float:
    section = _section(thread)
    strengths = materials.property_class(property_class, section.diameter)
    return screws.assembly_preload(section, strengths.yield_strength, friction)


def _torque(thread: str, property_class: str, friction: float, head: str) -> float:
    section = _section(thread)
    form = workshop.head(head, section.diameter)
    lever = screws.torque_lever(section, friction, friction, form.bearing_diameter, form.hole_diameter)
    return screws.tightening_torque(_preload(thread, property_class, friction), lever)


def _breaking_load(thread: str, property_class: str) -> float:
    """Return As,nom x Rm,min as ISO 898-1 tabulates it: with the stress area rounded to three figures."""
    section = _section(thread)
    return (
        float(f"{section.stress_area:.3g}")
        * materials.property_class(property_class, section.diameter).tensile_strength
    )


def _key_torque_inch(strength_psi: float, across_flats_in: float) -> float:
    # The formula has no unit of its own: pounds and inches go in, and the division by 1000 is undone.
    return screws.key_torque(across_flats_in, strength_psi) * 1000


def _length_for_load(load: float, shear_strength: float, pitch: float, major_min: float, nut_pitch_max: float) -> float:
    limits = engagement.ThreadLimits(10, pitch, major_min, 0, 0, nut_pitch_max)
    return engagement.length_for_load(load, shear_strength, engagement.internal_strip_area(limits, 1))


def _interface_pressure(hub: list[float], shaft: list[float], **sizes: float) -> float:
    return press_fit.interface_pressure(hub=(hub[0], hub[1]), shaft=(shaft[0], shaft[1]), **sizes)


def _interference(hub: list[float], shaft: list[float], **sizes: float) -> float:
    return press_fit.interference_for_pressure(hub=(hub[0], hub[1]), shaft=(shaft[0], shaft[1]), **sizes)


def _force_from_growth(
    strain: float, diameter: float, hub_outer: float, length: float, youngs_modulus: float, friction: float
) -> float:
    pressure = strain * hub_outer / press_fit.hub_growth(1.0, diameter, hub_outer, youngs_modulus)
    return press_fit.press_force(pressure, diameter, length, friction) / 1000


def _jacket_interference(inner: float, interface: float, outer: float, youngs_modulus: float, limit: float) -> float:
    """Return the interference at which neither the jacket's bore nor the tube's bore exceeds the stress limit."""
    jacket = limit / press_fit.hub_factor(interface, outer)
    tube = limit / (1 + press_fit.hub_factor(inner, interface))
    steel = (youngs_modulus, 0.3)
    return press_fit.interference_for_pressure(min(jacket, tube), interface, outer, steel, steel, inner)


def _at_most_bad(pieces: int, rate: float, bad: int) -> float:
    return chance.enough_good(pieces, pieces - bad, rate)


def _stack(parts: list[list[float]]) -> Stack:
    links = []
    for nominal, tolerance, sign in parts:
        size, width = Decimal(str(nominal)), Decimal(str(tolerance))
        links.append(Link(Limits(size, size - width, size + width), int(sign)))
    return stack(links)


def _decide_upper(upper: str, measured: str, uncertainty: str) -> str:
    return measuring.decide(None, Decimal(upper), [Decimal(measured)], Decimal(uncertainty)).decision


FUNCTIONS: dict[str, Callable[..., Any]] = {
    "stress_area": lambda thread: _section(thread).stress_area,
    "external_strip_area": lambda thread: engagement.external_strip_area(_limits(thread), _section(thread).diameter),
    "internal_strip_area": lambda thread: engagement.internal_strip_area(_limits(thread), _section(thread).diameter),
    "assembly_preload_kn": lambda **given: _preload(**given) / 1000,
    "tightening_torque": _torque,
    "breaking_load": _breaking_load,
    "key_torque_inch": _key_torque_inch,
    "length_for_load": _length_for_load,
    "tap_drill_depth": engagement.tap_drill_depth,
    "interface_pressure": _interface_pressure,
    "interference_for_pressure": _interference,
    "hoop_pressure": lambda hoop, diameter, hub_outer: hoop / press_fit.hub_factor(diameter, hub_outer),
    "force_from_growth": _force_from_growth,
    "jacket_interference": _jacket_interference,
    "key_length": keys_and_rings.key_length,
    "key_force": keys_and_rings.key_force,
    "key_shear": keys_and_rings.key_shear,
    "key_pressure": keys_and_rings.key_pressure,
    "key_torque_kn_m": lambda **given: keys_and_rings.key_torque(**given) / 1000,
    "stretch": seals.stretch,
    "squeeze": seals.squeeze,
    "gland_fill": seals.gland_fill,
    "at_most_bad": _at_most_bad,
    "at_least_bad": lambda pieces, rate, bad: 1 - _at_most_bad(pieces, rate, bad - 1),
    "exactly_bad": lambda pieces, rate, bad: _at_most_bad(pieces, rate, bad) - _at_most_bad(pieces, rate, bad - 1),
    "from_to_bad": lambda pieces, rate, low, high: (
        _at_most_bad(pieces, rate, high) - _at_most_bad(pieces, rate, low - 1)
    ),
    "enough_good": chance.enough_good,
    "poisson_at_most": lambda expected, count: chance.poisson_at_most(count, expected),
    "exactly_failures": lambda expected, count: (
        chance.poisson_at_most(count, expected) - chance.poisson_at_most(count - 1, expected)
    ),
    "at_least_one_failure": lambda expected: 1 - chance.poisson_at_most(0, expected),
    "spares_for": chance.spares_for,
    "all_arrived": chance.all_arrived,
    "normal_share": chance.normal_share,
    "normal_value": chance.normal_value,
    "mean_for_risk": chance.mean_for_risk,
    "pert_mean": lambda **given: chance.pert(**given).mean,
    "done_by_moments": lambda mean, variance, time: chance.done_by(time, chance.Duration(mean, math.sqrt(variance))),
    "done_by_series": lambda means, deviations, time: chance.done_by(
        time, chance.in_series(chance.Duration(m, s) for m, s in zip(means, deviations, strict=True))
    ),
    "stack_middle": lambda parts: _stack(parts).middle,
    "stack_tolerance": lambda parts: _stack(parts).worst_tolerance,
    "stack_lower": lambda parts: _stack(parts).worst[0],
    "stack_upper": lambda parts: _stack(parts).worst[1],
    "open_belt_length": belts.open_belt_length,
    "open_belt_length_approximate": belts.open_belt_length_approximate,
    "crossed_belt_length": belts.crossed_belt_length,
    "crossed_belt_length_approximate": belts.crossed_belt_length_approximate,
    "crossed_less_open_approximate": lambda **given: (
        belts.crossed_belt_length_approximate(**given) - belts.open_belt_length_approximate(**given)
    ),
    "wrap_large": lambda **given: belts.wrap_angles(**given)[0],
    "wrap_small": lambda **given: belts.wrap_angles(**given)[1],
    "conformance_probability": measuring.conformance_probability,
    "decide_upper": _decide_upper,
    "floating_tolerance": position.floating_tolerance,
    "fixed_tolerance": position.fixed_tolerance,
    "fixed_hole": position.fixed_hole,
    "virtual_condition": position.virtual_condition,
    "slip_on_rise": thermal.slip_on_rise,
    "heated_to": lambda start, **given: start + thermal.slip_on_rise(**given),
    "cooled_to": lambda start, **given: start - thermal.slip_on_rise(**given),
    "rise_for_change": lambda change, **given: change / thermal.fit_change(rise=1, **given),
}
"""What each row's function stands for: a formula of the package, or two of them put together as the example does."""


def _value(row: Mapping[str, str]) -> Any:
    return FUNCTIONS[row["function"]](**json.loads(row["inputs"]))


def _kind(*kinds: str) -> list[Any]:
    return [pytest.param(row, id=row["id"]) for row in ROWS if row["kind"] in kinds]


def _last_digit(printed: str) -> float:
    """Return the unit of the last digit that the printed figure gives, trailing zeros of whole numbers not counted."""
    number = Decimal(printed)
    if "." in printed or number == 0:
        return float(Decimal(1).scaleb(number.as_tuple().exponent))  # type: ignore[arg-type]
    return float(Decimal(1).scaleb(number.normalize().as_tuple().exponent))  # type: ignore[arg-type]


@pytest.mark.parametrize("row", _kind("agrees", "remembered"))
def test_worked_example(row: Mapping[str, str]) -> None:
    """The formula gives the printed answer to its last digit."""
    assert float(_value(row)) == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]) * (1 + 1e-9))


@pytest.mark.parametrize("row", _kind("error", "differs"))
def test_known_slip_of_a_source(row: Mapping[str, str]) -> None:
    """The formula misses the printed figure and gives the right one."""
    value = float(_value(row))
    # Figures of a source on another basis may lie only just outside its last digit: half of it is enough to tell.
    assert abs(value - float(row["expected"])) > float(row["tolerance"]) / 2
    assert value == pytest.approx(float(row["right"]), abs=_last_digit(row["right"]))


@pytest.mark.parametrize("row", _kind("rule"))
def test_published_rule(row: Mapping[str, str]) -> None:
    """The decision is the one that the published rule gives for our figures."""
    assert _value(row) == row["expected"]


def test_enough_rows_and_not_too_many_of_one_table() -> None:
    """At least 120 rows count, at most 40 of them from any one table, each with a source."""
    counted = [row for row in ROWS if row["kind"] == "agrees"]
    assert len(counted) >= 120
    table, most = Counter(row["table"] for row in counted).most_common(1)[0]
    assert most <= MOST_FROM_ONE_TABLE, table
    assert all(row["source"] for row in ROWS)


def test_tolerance_is_the_last_printed_digit() -> None:
    """No row that counts is held more loosely than the last digit that its source prints."""
    loose = [
        row["id"]
        for row in ROWS
        if row["kind"] == "agrees" and float(row["tolerance"]) > _last_digit(row["expected"]) * (1 + 1e-9)
    ]
    assert loose == []


def test_every_slip_names_what_is_right_and_why() -> None:
    """A row that contradicts its source gives the right figure and a reason."""
    assert all(row["right"] and row["note"] for row in ROWS if row["kind"] in ("error", "differs"))


def test_every_slip_stands_in_the_documents() -> None:
    """docs/differences.md lists each row that contradicts its source, with the printed figure and ours."""
    lines = (HERE.parents[1] / "docs" / "differences.md").read_text(encoding="utf-8").splitlines()
    listed = {cells[1].strip(): (cells[3], cells[4]) for line in lines if len(cells := line.split("|")) == 9}
    for row in ROWS:
        if row["kind"] in ("error", "differs"):
            printed, ours = listed[row["id"]]
            assert printed.split()[0] == row["expected"], row["id"]
            assert ours.split()[0] == row["right"], row["id"]
