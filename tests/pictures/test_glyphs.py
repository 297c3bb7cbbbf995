"""Signs beside words."""

from xml.etree import ElementTree

import pytest

from service.pictures.glyphs import glyph

WORDS = ("fits", "marginal", "ask", "wrong", "unread")


def test_verdicts_differ_by_shape() -> None:
    """In one colour, that of the text."""
    assert len({glyph(word) for word in WORDS}) == len(WORDS)
    for word in WORDS:
        assert "currentColor" in glyph(word)
        assert "#" not in glyph(word)


@pytest.mark.parametrize(
    "word", [*WORDS, "open", "short", "missing", "open gate", "closed gate", "note", "never heard"]
)
def test_a_sign_is_well_formed_and_hidden_from_screen_readers(word: str) -> None:
    """The word beside it says the same."""
    root = ElementTree.fromstring(glyph(word, 20))  # noqa: S314 - our own
    assert root.get("aria-hidden") == "true"
    assert (root.get("width"), root.get("height")) == ("20", "20")
