"""Pictures read back as XML."""

from collections.abc import Callable
from xml.etree import ElementTree

import pytest

SVG = "{http://www.w3.org/2000/svg}"


class Picture:
    """An SVG document with its shapes by class."""

    def __init__(self, text: str) -> None:
        """Read the text; it has to be well-formed."""
        self.text = text
        self.root = ElementTree.fromstring(text)  # noqa: S314 - our own

    def all(self, name: str) -> list[dict[str, float]]:
        """Return the numbers of every shape of a class, in their order."""
        return [_numbers(one) for one in self.root.iter() if one.get("class") == name]

    def one(self, name: str) -> dict[str, float]:
        """Return the numbers of the only shape of a class."""
        (found,) = self.all(name)
        return found

    @property
    def words(self) -> list[str]:
        """Every text that is written."""
        return [one.text or "" for one in self.root.iter(f"{SVG}text")]


def _numbers(element: ElementTree.Element) -> dict[str, float]:
    found = {}
    for name, value in element.attrib.items():
        try:
            found[name] = float(value)
        except ValueError:
            continue
    return found


@pytest.fixture
def picture() -> Callable[[str], Picture]:
    """Read a picture, and hold it against what every picture has to be."""

    def check(text: str) -> Picture:
        read = Picture(text)
        assert read.root.get("role") == "img"
        title, description = (read.root.find(f"{SVG}{name}") for name in ("title", "desc"))
        assert title is not None
        assert description is not None
        assert title.text
        assert description.text
        labels = str(read.root.get("aria-labelledby")).split()
        assert labels == [title.get("id"), description.get("id")]
        assert " style=" not in text, "a strict content security policy drops it"
        assert "<style" not in text
        assert "<script" not in text
        width, height = float(str(read.root.get("width"))), float(str(read.root.get("height")))
        for one in read.root.iter(f"{SVG}text"):
            assert 0 <= float(str(one.get("x"))) <= width
            assert 0 <= float(str(one.get("y"))) <= height
        return read

    return check
