"""Engaged thread: shear areas, the rule of thumb, and what is wrong in any case."""

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from reference.materials import material
from reference.threads import parse
from service.verdict.combine import worst
from service.verdict.holding import judge_engagement, property_class

M4 = parse("M4")
SCREW = "socket head cap screw"


def test_every_unit_of_the_finding_is_there() -> None:
    """The finding gives engagement, rule, strip load, preload and what would be needed, in mm and N."""
    assert M4 is not None
    held = judge_engagement(M4, Decimal(6), material("6061-T6"), "12.9", SCREW)
    numbers = held.findings[0].numbers
    assert (numbers["engagement"], numbers["diameters"], numbers["rule"]) == (Decimal(6), Decimal("1.5"), Decimal(8))
    assert Decimal(numbers["strip_load"]) < Decimal(numbers["breaking_load"])
    assert Decimal(numbers["needed"]) > 6
    assert held.findings[1].code == "tightening"
    assert Decimal(held.findings[1].numbers["recommended"]) < Decimal(held.findings[1].numbers["never_exceed"])
    assert any("12.9 is brittle" in caution for caution in held.cautions)


def test_unknown_property_class_falls_back_to_the_rule() -> None:
    """A class that no table holds leaves the rule of thumb to decide."""
    assert M4 is not None
    assert judge_engagement(M4, Decimal(8), material("aluminium"), "14.9", SCREW).findings[0].code == "enough-thread"


def test_stainless_grade_counts_as_property_class(reading) -> None:
    """A2-70 is the class of a stainless screw; a bare A2 says nothing about its strength."""
    assert property_class(reading(SCREW, grade="A2-70")) == "A2-70"
    assert property_class(reading(SCREW, grade="A2")) is None
    assert property_class(reading(SCREW, property_class="8.8")) == "8.8"


@given(st.integers(1, 200), st.integers(1, 100), st.sampled_from(["steel", "aluminium", "plastic", "GG-25"]),
       st.sampled_from(["8.8", "12.9", "A2-70", None]))  # fmt: skip
def test_more_engagement_never_judges_worse(tenths: int, more: int, kind: str, strength: str | None) -> None:
    """A longer engagement holds at least as well."""
    ranks = {"wrong": 0, "open": 1, "marginal": 2, "fits": 3}
    assert M4 is not None
    one = judge_engagement(M4, Decimal(tenths) / 10, material(kind), strength, SCREW)
    other = judge_engagement(M4, Decimal(tenths + more) / 10, material(kind), strength, SCREW)
    assert ranks[worst(one.findings)] <= ranks[worst(other.findings)]
