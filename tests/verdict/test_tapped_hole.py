"""Parts with an external thread into a tapped hole."""

import pytest


@pytest.mark.parametrize(
    ("screw", "hole", "code"),
    [
        ("M5", "M5", "thread-matches"),
        ("M5", "M6", "thread-diameter"),
        ("M8", "M8x1", "thread-pitch"),
        ("M5", "10-32", "thread-system"),
        ("1/4-20", "M6", "thread-system"),
        ("M8 LH", "M8", "thread-hand"),
    ],
)
def test_thread_goes_with_its_own_kind(reading, verdict, screw: str, hole: str, code: str) -> None:
    """System, diameter, pitch and hand must all agree."""
    found = verdict(reading("socket head cap screw", thread=screw, length="10"), tapped=f"{hole} depth 10")
    assert found.readings[0].findings[0].code == code
    assert found.verdict == ("fits" if code == "thread-matches" else "wrong")


def test_look_alike_is_named(reading, verdict) -> None:
    """M5 into 10-32 starts by hand: the finding says how the two are told apart."""
    found = verdict(reading("socket head cap screw", thread="M5", length="10"), tapped="10-32")
    text = found.readings[0].findings[0].text
    assert "0.174 mm apart" in text
    assert "63.5 turns" in text


def test_long_screw_is_noted(reading, verdict) -> None:
    """A screw longer than the thread needs something under its head; a set screw stands out."""
    for family, words in {
        "socket head cap screw": "at least 10 mm under the head",
        "set screw": "stands out by 10 mm",
    }.items():
        found = verdict(reading(family, thread="M5", length="20"), tapped="M5 depth 10")
        assert found.verdict == "fits"
        assert found.readings[0].findings[1].text.endswith(words)


def test_parts_without_external_thread(reading, verdict) -> None:
    """A plain pin is wrong, a screw without a stated thread is open, the thread of a pull-out pin takes a nut."""
    assert verdict(reading("parallel pin", outer_diameter="5 m6"), tapped="M5").verdict == "wrong"
    assert verdict(reading("socket head cap screw", missing=("thread",)), tapped="M5").verdict == "ask"
    assert verdict(reading("parallel pin with external thread", thread="M5"), tapped="M5").verdict == "wrong"
