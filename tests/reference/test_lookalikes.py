"""What users see of inch and metric near misses: how far apart, how soon they bind, what tells them apart."""

from decimal import Decimal

import pytest

from reference import tables
from reference.lookalikes import LookAlike, lookalikes, plain_lookalikes
from reference.threads import parse
from reference.units import length


def near(designation: str, other: str) -> LookAlike:
    """Return what is said of one thread that is taken for another."""
    thread = parse(designation)
    assert thread is not None
    (found,) = (one for one in lookalikes(thread) if one.name == other)
    return found


def test_m5_and_10_32_are_told_by_neither_calliper_nor_pitch_gauge() -> None:
    """10-32 is 0.174 mm thinner than M5 with nearly its pitch: it turns in, and only a micrometer tells."""
    found = near("M5", "10-32 UNF")
    assert found.difference == Decimal("-0.174")
    assert found.pitch_difference == Decimal("-0.008")
    assert found.turns_until_binding == Decimal("63.5")
    assert found.told_apart_by == ("micrometer",)


@pytest.mark.parametrize(
    ("designation", "other", "told_apart_by"),
    [
        ("M3", "4-40 UNC", ("calliper", "pitch gauge")),
        ("M4", "8-32 UNC", ("micrometer", "pitch gauge")),
        ("M6", "1/4-20 UNC", ("calliper", "pitch gauge")),
        ("M2.5", "3-48 UNC", ("pitch gauge",)),
        ("M3.5", "6-32 UNC", ("pitch gauge",)),
        ("M8", "5/16-18 UNC", ("pitch gauge",)),
        ("G 1/8", "1/8-27 NPT", ("pitch gauge",)),
        ("G 1/2", "1/2-14 NPT", ()),
    ],
)
def test_instruments_that_tell_them_apart(designation: str, other: str, told_apart_by: tuple[str, ...]) -> None:
    """An instrument is named only where its error is smaller than the difference that it has to show."""
    assert near(designation, other).told_apart_by == told_apart_by


def test_equal_pitches_never_bind() -> None:
    """G 1/2 and 1/2 NPT have both 14 threads per inch, so no turn count is given."""
    assert near("G 1/2", "1/2-14 NPT").turns_until_binding is None


def test_lookalikes_go_both_ways() -> None:
    """Whatever is taken for a thread has that thread among its own, as far apart the other way."""
    for row in tables.load("inch_metric_lookalikes"):
        if row.text("kind") == "thread":
            one, other = parse(row.text("metric")), parse(row.text("other"))
            assert one is not None
            assert other is not None
            there, back = near(one.designation, other.designation), near(other.designation, one.designation)
            assert there.difference == -back.difference
            assert there.turns_until_binding == back.turns_until_binding
            assert there.told_apart_by == back.told_apart_by


@pytest.mark.parametrize(
    ("size", "name", "difference"),
    [("3", "1/8 in", "0.175"), ("6", "1/4 in", "0.35"), ("5", "3/16 in", "-0.2375"), ("8", "5/16 in", "-0.0625")],
)
def test_plain_sizes_have_near_misses_too(size: str, name: str, difference: str) -> None:
    """A pin of 3 mm is taken for one of 1/8 in, and the other way round."""
    (found,) = plain_lookalikes(Decimal(size))
    assert (found.name, found.difference) == (name, Decimal(difference))
    (back,) = plain_lookalikes(length(name))
    assert (back.name, back.difference) == (f"{size} mm", -Decimal(difference))


def test_size_without_near_miss_has_none() -> None:
    """A size that nothing is taken for has an empty answer."""
    thread = parse("M20")
    assert thread is not None
    assert lookalikes(thread) == ()
    assert plain_lookalikes(Decimal(7)) == ()
