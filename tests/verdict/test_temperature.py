"""Fits at another temperature: what the unlike growth of hole and part does to them."""

from decimal import Decimal

import pytest

from reference import materials
from service.strength import cautions
from service.verdict.mates import parse_check
from service.verdict.model import CheckError, Finding, Verdict
from service.verdict.temperature import temperatures

PIN = {"outer_diameter": "5 m6", "length": "20"}


def warm(found: Verdict) -> Finding:
    """Return the finding on the temperature."""
    return found.readings[0].findings[-1]


@pytest.mark.parametrize(
    ("given", "lower", "upper"),
    [
        ("60", "60", "60"),
        (60, "60", "60"),
        ("-10..60", "-10", "60"),
        ("60 to -10 degC", "-10", "60"),
        ("−5 °C", "-5", "-5"),
        ("140 °F", "60", "60"),
        ("14 F", "-10", "-10"),
        ("293,15 K", "20", "20"),
        ("37.5", "37.5", "37.5"),
    ],
)
def test_temperatures_as_they_are_written(given: object, lower: str, upper: str) -> None:
    """One or a range, in three units."""
    found = temperatures(given, "temperature")
    assert (found.lower, found.upper) == (Decimal(lower), Decimal(upper))


@pytest.mark.parametrize("given", ["warm", "", "60 mm", "700", "-300", True, None, [60], "60..", "1e2"])
def test_what_is_no_temperature(given: object) -> None:
    """Is refused with an example."""
    with pytest.raises(CheckError, match="temperature"):
        temperatures(given, "temperature")


def test_press_fit_in_aluminium_slackens(reading, verdict) -> None:
    """A steel pin in aluminium loses (23.6 - 11.9) e-6 x 5 mm a kelvin: 0.0035 mm at 80 degC."""
    pin = reading("parallel pin", **PIN)
    found = verdict(pin, bore="4.990..5.000 in aluminium", fit="-0.030..0", temperature="80")
    finding = warm(found)
    assert (found.verdict, finding.code) == ("fits", "fit-holds-at-temperature")
    assert finding.numbers["clearance_lower"] == Decimal("-0.0185")
    assert finding.numbers["clearance_upper"] == Decimal("-0.0005")
    assert finding.numbers["limit_temperature"] == Decimal(88)
    assert "lets go above 88 degC" in finding.text
    assert cautions.HEAT in found.cautions


def test_press_fit_that_lets_go_is_no_fit(reading, verdict) -> None:
    """Some pairs at 110 degC, all of them at 400."""
    pin = reading("parallel pin", **PIN)
    some = verdict(pin, bore="4.990..5.000 in aluminium", fit="-0.030..0", temperature="110")
    assert (some.verdict, warm(some).code) == ("marginal", "some-loosen-at-temperature")
    assert some.share == warm(some).numbers["share"] < 1
    all_of_them = verdict(pin, bore="4.990..5.000 in aluminium", fit="-0.030..0", temperature="400")
    assert (all_of_them.verdict, warm(all_of_them).code) == ("wrong", "loosens-at-temperature")
    assert all_of_them.share is None


def test_bearing_seizes_on_a_shaft_that_grows_faster(reading, verdict) -> None:
    """A steel ring on an aluminium shaft loses its clearance when warm, and gains some when cold."""
    bearing = reading("ball bearing", bore="7.992..8.000")
    hot = verdict(bearing, shaft="7.980..7.990 in aluminium", fit="0.001..0.03", temperature="20..120")
    assert (hot.verdict, warm(hot).code) == ("marginal", "some-seize-at-temperature")
    cold = verdict(bearing, shaft="7.980..7.990 in aluminium", fit="0.001..0.03", temperature="-20")
    assert (cold.verdict, warm(cold).code) == ("fits", "fit-holds-at-temperature")
    assert "seizes above 41 degC" in warm(cold).text
    melted = verdict(bearing, shaft="7.980..7.990 in aluminium", fit="0.001..0.03", temperature="300")
    assert (melted.verdict, warm(melted).code) == ("wrong", "seizes-at-temperature")


def test_transition_fit_is_told_without_weight(reading, verdict) -> None:
    """It may be either at 20 degC already; so is a pair without a fit."""
    pin = reading("parallel pin", **PIN)
    found = verdict(pin, bore="5 H7 in aluminium", fit="location", temperature="-10..60")
    assert (found.verdict, warm(found).weight) == ("fits", "note")
    assert warm(found).numbers["clearance_upper"] == Decimal("0.0103")
    bush = reading("plain bush", outer_diameter="8 s6", bore="5 F7")
    bare = verdict(bush, bore="8 H7 in steel", temperature="60", part_material="bronze")
    assert (bare.verdict, warm(bare).code, warm(bare).weight) == ("fits", "fit-at-temperature", "note")


def test_disagreeing_expansions_are_both_reckoned_with(reading, verdict) -> None:
    """POM grows by 80 to 95 e-6/K: the window opens to both sides."""
    pin = reading("parallel pin", **PIN)
    found = verdict(pin, bore="5.02..5.03 in POM", fit="0..0.1", temperature="60")
    numbers = warm(found).numbers
    width = Decimal(numbers["clearance_upper"]) - Decimal(numbers["clearance_lower"])
    cold = found.readings[0].clearance
    assert width > cold.upper - cold.lower
    assert materials.material("POM").expansion_band == (8e-05, 9.5e-05)


def test_what_has_to_be_known(reading, verdict) -> None:
    """The materials of both; the question asks for the one that is missing."""
    pin = reading("parallel pin", **PIN)
    found = verdict(pin, bore="5 H7", fit="location", temperature="60")
    assert (found.verdict, warm(found).code) == ("ask", "material-missing")
    assert "the bore is made of" in warm(found).text
    coupling = reading("shaft coupling", bore="8 H7")
    asked = verdict(coupling, shaft="8 g6 in steel", fit="0..0.05", temperature="60")
    assert (asked.verdict, warm(asked).code) == ("ask", "material-missing")
    told = verdict(coupling, shaft="8 g6 in steel", fit="0..0.05", temperature="60", part_material="aluminium")
    assert (told.verdict, warm(told).code) == ("fits", "fit-holds-at-temperature")


def test_parts_that_it_does_not_concern(reading, verdict) -> None:
    """A spring pin holds by its spring; a part that is wrong on the bench needs no heat to be so."""
    spring = reading("slotted spring pin", hole_diameter="5 H12", outer_diameter="5.1..5.3")
    found = verdict(spring, bore="5 H12 in aluminium", temperature="60")
    assert (found.verdict, warm(found).code) == ("fits", "temperature-not-judged")
    thick = verdict(reading("parallel pin", outer_diameter="8 m6"), bore="5 H7 in aluminium", temperature="60")
    assert [one.code for one in thick.readings[0].findings] == ["does-not-enter"]


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"tapped": "M3", "temperature": "60"}, "temperature"),
        ({"bore": "5 H7", "part_material": "steel"}, "part_material"),
        ({"bore": "5 H7", "temperature": "60", "part_material": "cheese"}, "part_material"),
        ({"bore": "5 H7", "temperature": "hot"}, "temperature"),
    ],
)
def test_what_means_nothing_is_named(given: dict[str, str], field: str) -> None:
    """Never passed over."""
    with pytest.raises(CheckError) as caught:
        parse_check({"line": "M5 dowel pin", **given})
    assert caught.value.field == field
