"""What to order instead."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference import threads
from service.verdict import clamp
from service.verdict.mates import parse_mate
from service.verdict.model import ClampMate
from service.verdict.order_text import length_for, preferred_lengths


def test_pin_of_the_bores_size_is_proposed(reading, verdict) -> None:
    """A pin that is too large is put right to the bore's size, in the length of the line."""
    found = verdict(reading("parallel pin", outer_diameter="8 m6", length="20"), bore="5 H7", fit="location")
    assert found.order_text == "Parallel pin ISO 8734 - 5 x 20 - A - St"


def test_length_that_is_not_listed_becomes_the_next(reading, verdict) -> None:
    """A length that the standard does not list for the size is rounded up, and that is noted."""
    found = verdict(reading("parallel pin", outer_diameter="8 m6", length="21"), bore="5 H7", fit="location")
    assert found.order_text == "Parallel pin ISO 8734 - 5 x 22 - A - St"
    assert found.findings[0].code == "length-not-listed"


def test_unknown_length_stays_open(reading, verdict) -> None:
    """Without a length the designation keeps its place."""
    found = verdict(reading("parallel pin", outer_diameter="8 m6"), bore="5 H7", fit="location")
    assert found.order_text == "Parallel pin ISO 8734 - 5 x <length> - A - St"


def test_class_follows_the_fit(reading, verdict) -> None:
    """For a slip fit the pin nearest to it is h8 of ISO 2338, since no standard pin is h6."""
    found = verdict(reading("parallel pin", outer_diameter="8 m6", length="20"), bore="5 H7", fit="slip")
    assert found.order_text.startswith("Parallel pin ISO 2338 - 5 h8 x 20")


def test_no_standard_pin_no_order_text(reading, verdict) -> None:
    """A size that no standard lists gets no order text rather than an invented one."""
    found = verdict(reading("parallel pin", outer_diameter="8 m6", length="20"), bore="5.3 H7", fit="location")
    assert (found.verdict, found.order_text) == ("wrong", "")


def test_pin_with_thread_stays_one_where_its_standard_lists_the_size(reading, verdict) -> None:
    """ISO 8735 starts at 6 mm: a pin for 6 mm keeps its thread, one for 5 mm becomes a plain one."""
    part = reading("parallel pin with internal thread", outer_diameter="8 m6", internal_thread="M5", length="20")
    assert verdict(part, bore="6 H7", fit="location").order_text == "Parallel pin ISO 8735 - 6 x 20 - A - St"
    assert verdict(part, bore="5 H7", fit="location").order_text == "Parallel pin ISO 8734 - 5 x 20 - A - St"


def screw(reading, length: str, thread: str = "M4", strength: str = "8.8"):
    """Return a socket head cap screw as the reader gives it."""
    return reading(
        "socket head cap screw", thread=thread, length=length, property_class=strength,
        order_text=f"Hexagon socket head cap screw ISO 4762 - {thread} x {length} - {strength}",
    )  # fmt: skip


def test_rare_length_is_marked(reading, verdict) -> None:
    """45 and 50 mm lie beyond what ISO 4762 lists for M4 (to 40): 50 is proposed and called hard to find."""
    found = verdict(screw(reading, "45"), clamp="42 into M4 depth 10 in aluminium")
    assert found.verdict == "wrong"
    assert found.order_text == "Hexagon socket head cap screw ISO 4762 - M4 x 50 - 8.8"
    note = found.findings[0]
    assert note.code == "rare-length"
    assert note.text.startswith("45 and 50 lie beyond the lengths that ISO 4762 lists for M4")
    assert note.numbers["listed_to"] == Decimal(40)


@pytest.mark.parametrize(
    ("clamp", "expected"),
    [
        ("10 into M4 depth 20 in aluminium", "M4 x 16"),
        ("10 into nut M4", "M4 x 16"),
        ("10 into M5 depth 20 in steel", "M5 x 16"),
        ("10 into M4 depth 2 in steel", ""),
    ],
)
def test_listed_length_comes_first(reading, verdict, clamp: str, expected: str) -> None:
    """The shortest listed length that clamps is proposed, with the thread of the hole; none where none clamps."""
    found = verdict(screw(reading, "8"), clamp=clamp)
    assert found.verdict == "wrong"
    assert expected in found.order_text
    assert bool(found.order_text) == bool(expected)
    assert not found.findings


def test_length_is_not_confused_with_other_numbers(reading, verdict) -> None:
    """Only the length changes, not a number that happens to be the same."""
    found = verdict(screw(reading, "8", thread="M8"), clamp="20 into M8 depth 30 in steel")
    assert found.order_text == "Hexagon socket head cap screw ISO 4762 - M8 x 30 - 8.8"


def test_nominal_lengths_are_in_order() -> None:
    """The lengths of ISO 888 grow."""
    lengths = preferred_lengths()
    assert lengths == tuple(sorted(set(lengths)))
    assert Decimal(45) in lengths


STACKS = st.builds(
    lambda layers, into: f"{' + '.join(layers)} into {into}",
    st.lists(st.sampled_from(["2", "3.5", "10", "12 ±0.1", "20", "washer", "33"]), min_size=1, max_size=3),
    st.one_of(
        st.sampled_from(["nut M4", "lock nut M4", "M4 in aluminium", "M4"]),
        st.builds(
            lambda depth, end, made: f"M4 depth {depth}{end}{made}",
            st.sampled_from(["2", "4", "5.5", "8", "10", "16", "40"]),
            st.sampled_from(["", " through", " blind"]),
            st.sampled_from(["", " in aluminium", " in brass", " in steel"]),
        ),
    ),
)
LISTED = tuple(Decimal(length) for length in (5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40))


@given(STACKS, st.sampled_from([None, "8.8", "12.9", "A2-70"]), st.sampled_from([None, Decimal(20)]))
def test_the_length_proposed_is_the_best_of_all(text: str, strength: str | None, threaded: Decimal | None) -> None:
    """Looking only where a length can do, and only as long as needed, finds what judging every length finds."""
    mate, thread = parse_mate("clamp", text), threads.metric(Decimal(4))
    assert isinstance(mate, ClampMate)
    assert thread is not None
    sought = clamp.Screw("socket head cap screw", thread, threaded, strength)
    rare = tuple(length for length in preferred_lengths() if length not in LISTED)
    most = 2 * mate.grip + 10 * thread.diameter
    judged = [
        (length, clamp.assess(sought, length, mate).verdict)
        for length in (*LISTED, *rare)
        if mate.grip < length <= most
    ]
    best = next((one for want in ("fits", "marginal") for one in judged if one[1] == want), None)
    assert length_for(sought, LISTED, mate) == best
