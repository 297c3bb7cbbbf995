"""What users see of ISO 286: limits of every class, fits in words, and which classes are refused by name."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference import fits
from reference.fits import UndefinedClass
from reference.quantities import Limits

SIZES = st.decimals(min_value="1.001", max_value=500, places=3)
CLASSES_TO_EVERY_SIZE = tuple(
    letter + grade
    for letter in ("c", "d", "e", "f", "g", "h", "js", "m", "n", "p", "r", "s", "u", "x", "z", "za", "zb", "zc")
    for grade in ("4", "5", "6", "7", "8", "9", "10", "11")
)
CLASSES = st.sampled_from(CLASSES_TO_EVERY_SIZE).flatmap(lambda name: st.sampled_from((name, name.upper())))


def limits(size: str, tolerance_class: str) -> tuple[str, str]:
    """Return lower and upper limit as text."""
    found = fits.limits(Decimal(size), tolerance_class)
    return str(found.lower), str(found.upper)


def test_running_fit_at_25_gives_its_limits_and_clearance() -> None:
    """25 H8/f7 is 25.000..25.033 with 24.959..24.980, clearance 0.020..0.074."""
    hole, shaft = fits.limits(Decimal(25), "H8"), fits.limits(Decimal(25), "f7")
    assert (hole.lower, hole.upper) == (Decimal(25), Decimal("25.033"))
    assert (shaft.lower, shaft.upper) == (Decimal("24.959"), Decimal("24.980"))
    lower, upper = fits.clearance(hole, shaft)
    assert (lower, upper) == (Decimal("0.020"), Decimal("0.074"))
    assert fits.kind(lower, upper) == "clearance"


@pytest.mark.parametrize(
    ("word", "size", "lower", "upper", "loosest", "text"),
    [
        ("location", "5", "-0.016", "0.011", None, "H7/k6 to H7/n6 at 5 mm"),
        ("slip", "5", "0", "0.024", "0.09", "H7/g6 to H7/h6 at 5 mm, marginal up to H9/d9"),
        ("press", "5", "-0.027", "0", None, "H7/p6 to H7/s6 at 5 mm"),
        (" Press ", "8", "-0.032", "0", None, "H7/p6 to H7/s6 at 8 mm"),
        ("H7/m6", "5.0", "-0.012", "0.008", None, "H7/m6 at 5 mm"),
    ],
)
def test_fit_in_words_is_a_window(word: str, size: str, lower: str, upper: str, loosest: str | None, text: str) -> None:
    """A fit word or class pair gives the clearance it allows, and says from which classes."""
    found = fits.window(word, Decimal(size))
    assert (found.lower, found.upper) == (Decimal(lower), Decimal(upper))
    assert found.loosest_upper == (None if loosest is None else Decimal(loosest))
    assert found.text == text


@pytest.mark.parametrize("text", ["tight", "", "H7", "m6/H7", "H7/m6/k6", "H7/x99"])
def test_unknown_fit_is_refused_with_an_example(text: str) -> None:
    """A fit that is neither a word nor a class pair is refused, with an accepted example."""
    with pytest.raises(UndefinedClass, match=r"for example H7"):
        fits.window(text, Decimal(5))


@pytest.mark.parametrize(
    ("size", "tolerance_class", "lower", "upper"),
    [
        ("3", "H7", "3", "3.01"),
        ("6", "H7", "6", "6.012"),
        ("10", "H7", "10", "10.015"),
        ("18", "H7", "18", "18.018"),
        ("30", "H7", "30", "30.021"),
        ("50", "H7", "50", "50.025"),
        ("80", "H7", "80", "80.03"),
        ("120", "H7", "120", "120.035"),
        ("3.001", "H7", "3.001", "3.013"),
        ("24", "u6", "24.041", "24.054"),
        ("24.1", "u6", "24.148", "24.161"),
    ],
)
def test_boundary_size_is_in_the_range_below_it(size: str, tolerance_class: str, lower: str, upper: str) -> None:
    """A range runs over its lower bound up to and including its upper one."""
    assert limits(size, tolerance_class) == (lower, upper)


@pytest.mark.parametrize(
    ("size", "tolerance_class", "lower", "upper"),
    [
        ("280", "M6", "279.959", "279.991"),
        ("250", "M6", "249.963", "249.992"),
        ("3", "N9", "2.971", "2.996"),
        ("3.01", "N9", "2.98", "3.01"),
        ("25", "P7", "24.965", "24.986"),
        ("25", "P8", "24.945", "24.978"),
        ("4", "j6", "3.998", "4.006"),
        ("3", "j8", "2.994", "3.008"),
        ("75", "j7", "74.988", "75.018"),
        ("25", "J7", "24.991", "25.012"),
        ("25", "k6", "25.002", "25.015"),
        ("25", "k8", "25", "25.033"),
        ("25", "k3", "25", "25.004"),
        ("25", "K8", "24.977", "25.01"),
        ("3", "K9", "2.975", "3"),
        ("25", "M9", "24.94", "24.992"),
        ("5", "js5", "4.9975", "5.0025"),
        ("5", "JS7", "4.994", "5.006"),
        ("5", "Js7", "4.994", "5.006"),
        ("210", "u6", "210.258", "210.287"),
        ("8", "ef6", "7.973", "7.982"),
        ("8", "FG7", "8.008", "8.023"),
        ("25", "h01", "24.9994", "25"),
        ("500", "zc11", "502.6", "503"),
    ],
)
def test_rules_and_exceptions_of_the_standard(size: str, tolerance_class: str, lower: str, upper: str) -> None:
    """Delta rule, the M6 exception, N above IT8, k and K, j and J, and half a micrometre come out as in ISO 286-1."""
    assert limits(size, tolerance_class) == (lower, upper)


@pytest.mark.parametrize(
    ("size", "tolerance_class", "said"),
    [
        ("10", "K9", "K3 to K8"),
        ("20", "t6", "over 24 mm"),
        ("14", "v6", "over 14 mm"),
        ("18", "y7", "over 18 mm"),
        ("10.1", "cd7", "up to 10 mm"),
        ("25", "ef5", "up to 10 mm"),
        ("25", "j8", "up to 3 mm"),
        ("25", "j9", "j5 to j8"),
        ("25", "J5", "J6 to J8"),
        ("1", "a9", "over 1 mm"),
        ("1", "B9", "over 1 mm"),
        ("1", "N9", "over 1 mm"),
        ("1", "H14", "over 1 mm"),
        ("25", "P2", "P3"),
        ("501", "H7", "500 mm"),
        ("0", "H7", "over 0"),
        ("-5", "H7", "over 0"),
        ("NaN", "H7", "over 0"),
        ("Infinity", "H7", "over 0"),
    ],
)
def test_undefined_class_is_refused_by_name(size: str, tolerance_class: str, said: str) -> None:
    """A class that the standard does not define at a size is refused, naming the size and what is defined."""
    with pytest.raises(UndefinedClass) as refused:
        fits.limits(Decimal(size), tolerance_class)
    assert said in str(refused.value)
    assert size in str(refused.value)


@pytest.mark.parametrize(
    "text", ["", "H", "7", "H7x", "hH7", "I7", "l6", "O7", "w6", "H19", "H00", "H-7", "H7/m6", "Jx7"]
)
def test_what_is_no_class_is_refused_with_an_example(text: str) -> None:
    """Text that is no tolerance class is refused with what is accepted."""
    with pytest.raises(UndefinedClass, match=r"for example H7 or m6"):
        fits.parse_class(text)


@pytest.mark.parametrize(
    ("text", "letter", "grade", "kind"),
    [("H7", "H", "7", "hole"), ("js6", "js", "6", "shaft"), ("ZC 11", "ZC", "11", "hole"), ("h01", "h", "01", "shaft")],
)
def test_class_is_told_as_hole_or_shaft(text: str, letter: str, grade: str, kind: str) -> None:
    """Capitals are holes, small letters are shafts."""
    found = fits.parse_class(text)
    assert (found.letter, found.grade, found.kind) == (letter, grade, kind)
    assert fits.is_hole_class(text) == (kind == "hole")


def test_kind_of_fit_at_the_borders() -> None:
    """Zero least clearance is still a clearance fit, zero greatest clearance an interference fit."""
    assert fits.kind(Decimal(0), Decimal("0.02")) == "clearance"
    assert fits.kind(Decimal("-0.02"), Decimal(0)) == "interference"
    assert fits.kind(Decimal("-0.01"), Decimal("0.01")) == "transition"


def test_source_says_where_the_figures_come_from() -> None:
    """The source names the standard and the works; a disagreement between works stands in it."""
    assert fits.source(Decimal(25), "H7").startswith("ISO 286-1 Table 1")
    assert "u 258 from an EN ISO 286-1 table page" in fits.source(Decimal(210), "u6")
    assert "rules of ISO 286-1" in fits.source(Decimal(25), "P7")
    assert "Table 2" in fits.source(Decimal(280), "M6")
    assert fits.source(Decimal(25), "J7") != fits.source(Decimal(25), "j7")


@given(SIZES, CLASSES)
def test_limits_are_ordered_and_as_wide_as_the_grade(size: Decimal, tolerance_class: str) -> None:
    """The lower limit lies under the upper one by exactly the tolerance of the grade."""
    found = fits.limits(size, tolerance_class)
    assert found.low < found.high
    assert found.width == fits.tolerance(fits.parse_class(tolerance_class).grade, size)


@given(SIZES, st.integers(0, len(fits.GRADES) - 2))
def test_tolerance_grows_with_the_grade(size: Decimal, index: int) -> None:
    """Each grade is wider than the finer one before it."""
    assert fits.tolerance(fits.GRADES[index], size) < fits.tolerance(fits.GRADES[index + 1], size)


@given(SIZES, SIZES, st.sampled_from(fits.GRADES))
def test_tolerance_never_shrinks_with_the_size(one: Decimal, other: Decimal, grade: str) -> None:
    """A larger size never has the smaller tolerance."""
    small, large = sorted((one, other))
    assert fits.tolerance(grade, small) <= fits.tolerance(grade, large)


@given(SIZES, st.sampled_from(("c", "d", "e", "f", "g", "h")), st.sampled_from(("5", "6", "7", "8", "9")))
def test_clearance_holes_mirror_the_shafts(size: Decimal, letter: str, grade: str) -> None:
    """Holes A to H lie above the nominal size by as much as the shafts a to h lie below it."""
    hole, shaft = fits.limits(size, letter.upper() + grade), fits.limits(size, letter + grade)
    assert hole.low - hole.nominal == shaft.nominal - shaft.high


@given(SIZES, st.sampled_from(("p", "r", "s", "u", "x", "z")), st.integers(5, 6))
def test_delta_gives_hole_and_shaft_basis_the_same_interference(size: Decimal, letter: str, grade: int) -> None:
    """H7/p6 and P7/h6 have the same greatest interference: that is what delta is for, over 3 mm."""
    if size <= 3:
        return
    shaft_basis = fits.window(f"{letter.upper()}{grade + 1}/h{grade}", size)
    assert fits.window(f"H{grade + 1}/{letter}{grade}", size).lower == shaft_basis.lower


@given(SIZES, st.sampled_from(tuple(fits.WORDS)))
def test_window_of_a_word_spans_its_pairs(size: Decimal, word: str) -> None:
    """The window of a word holds the window of both pairs that it names."""
    whole = fits.window(word, size)
    for pair in (fits.WORDS[word].tightest, fits.WORDS[word].loosest):
        one = fits.window(pair, size)
        assert whole.lower <= one.lower < one.upper <= whole.upper


@pytest.mark.parametrize("grade", ["19", "IT", "7a", "-1", "", "IT00"])
def test_unknown_grade_is_refused(grade: str) -> None:
    """A grade outside IT01 to IT18 is refused by name."""
    with pytest.raises(UndefinedClass, match="IT01, IT0 or IT1 to IT18"):
        fits.tolerance(grade, Decimal(25))


def limits_or_refusal(size: str, tolerance_class: str) -> Limits | UndefinedClass:
    """Return the limits, or the refusal that came instead."""
    try:
        return fits.limits(Decimal(size), tolerance_class)
    except UndefinedClass as refusal:
        return refusal


def test_every_class_of_every_size_gives_limits_or_a_named_refusal() -> None:
    """No letter, grade and size of the standard ends in any other error than a refusal by name."""
    refused = 0
    for size in ("0.5", "2", "4", "8", "12", "16", "20", "28", "110", "260", "450"):
        for letter in (*fits.LETTERS, *(letter.upper() for letter in fits.LETTERS)):
            for grade in fits.GRADES:
                found = limits_or_refusal(size, letter + grade)
                if isinstance(found, UndefinedClass):
                    refused += 1
                    assert size in str(found)
                else:
                    assert found.low < found.high
    assert 0 < refused < 3000
