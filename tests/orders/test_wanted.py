"""How a line goes with a need: mate, neighbours, the part wanted, interface, and what only has to be there."""

from datetime import date
from typing import Any

import pytest

from service.orders.intake import parse_order
from service.orders.model import Judgement
from service.orders.wanted import judge_for, worse

TODAY = date(2027, 1, 15)
PIN = "ISO 8734 - 5 x 20 - A - St"


def judged(line: dict[str, Any], *needs: dict[str, Any], named: bool = True) -> Judgement | None:
    """Judge a line for the first need."""
    order = parse_order(
        {
            "needs": [{"id": f"N{place}", "quantity": 1, **need} for place, need in enumerate(needs, start=1)],
            "lines": [{"id": "L1", "quantity": 1, **line}],
        },
        TODAY,
    )
    return judge_for(order.supplies[0], order.needs[0], {need.id: need for need in order.needs}, named)


def word(line: str | dict[str, Any], *needs: dict[str, Any], named: bool = True) -> str | None:
    """Return the verdict of a line for the first need, None where nothing connects them."""
    fields = {"line": line} if isinstance(line, str) else line
    found = judged(fields, *needs, named=named)
    return None if found is None else found.word


class TestMates:
    """The mate of the need, and those of its neighbours."""

    BORE = {"bore": "5 H7", "fit": "location"}  # noqa: RUF012

    def test_the_verdict_is_that_of_the_mate(self) -> None:
        """With its findings and its order text."""
        found = judged({"line": "ISO 8734 - 6 x 20 - A - St"}, self.BORE)
        assert found is not None
        assert (found.word, found.order_text) == ("wrong", f"Parallel pin {PIN}")
        assert found.findings[0].code == "does-not-enter"
        assert word(PIN, self.BORE) == "fits"
        assert word("M5 dowel pin", self.BORE) == "ask"

    def test_the_same_part_must_go_with_its_neighbours(self) -> None:
        """A pin that fits its plate and not the arm above is wrong, and the neighbour is named."""
        near = {**self.BORE, "neighbours": ["N2"]}
        assert word(PIN, near, {"bore": "4.9 H7", "fit": "slip"}) == "wrong"
        found = judged({"line": PIN}, near, {"bore": "6 H7", "fit": "slip"})
        assert found is not None
        assert any(one.text.startswith("N2: ") for one in found.findings)
        assert word(PIN, near, {"bore": "5.000..5.010", "fit": "location"}) == "fits"

    def test_a_mate_and_a_part_must_both_go(self) -> None:
        """The worse of the two counts."""
        assert word(PIN, {**self.BORE, "part": "ISO 8734 - 5 x 20 - A - St"}) == "fits"
        assert word(PIN, {**self.BORE, "part": "ISO 8734 - 5 x 24 - A - St"}) == "wrong"


class TestPartWanted:
    """A designation instead of a mate."""

    @pytest.mark.parametrize(
        ("line", "part", "expected"),
        [
            ("ISO 4762 - M3 x 10 - A2-70", "M3x10 SHCS A2-70", "fits"),
            ("DIN 912 M3x10 A2-70", "ISO 4762 - M3 x 10 - A2-70", "fits"),
            ("M3x10 SHCS", "ISO 4762 - M3 x 10 - 8.8", "fits"),
            ("M3x10 SHCS", "ISO 4762 - M3 x 10 - A2-70", "ask"),
            ("M3x12 SHCS A2-70", "ISO 4762 - M3 x 10 - A2-70", "wrong"),
            ("M4x10 SHCS A2-70", "ISO 4762 - M3 x 10 - A2-70", "wrong"),
            ("M3x10 SHCS 12.9", "ISO 4762 - M3 x 10 - 8.8", "wrong"),
            ("M3 SHCS", "ISO 4762 - M3 x 10 - 8.8", "ask"),
            ("ISO 7380-1 - M3 x 10 - 08.8", "ISO 4762 - M3 x 10 - 8.8", "wrong"),
            ("M5 dowel pin", "ISO 8734 - 5 x 20 - A - St", "ask"),
            ("ISO 2338 - 5 h8 x 20 - St", "ISO 8734 - 5 x 20 - A - St", "wrong"),
            ("qqqq zzzz", "ISO 8734 - 5 x 20 - A - St", "unread"),
            ("ISO 8734 - 5 x 20 - A - St", "M5 dowel pin", "ask"),
        ],
    )
    def test_what_both_say_is_compared(self, line: str, part: str, expected: str) -> None:
        """What the trade takes for granted needs not be said; what the design states has to be."""
        assert word(line, {"part": part}) == expected

    def test_the_text_that_puts_it_right_is_the_part(self) -> None:
        """By its own designation."""
        found = judged({"line": "M3x12 SHCS A2-70"}, {"part": "M3x10 SHCS A2-70"})
        assert found is not None
        assert found.order_text == "Hexagon socket head cap screw ISO 4762 - M3 x 10 - A2-70"
        assert any("length 12, wanted is 10" in one.text for one in found.findings)

    def test_a_part_that_nobody_reads_is_compared_word_by_word(self) -> None:
        """A tool is taken by the order's own word, or by the same words."""
        tool = {"part": "hex key 2.5 mm"}
        assert word("anything", tool, named=True) == "fits"
        assert word("Hex key 2.5 MM", tool, named=False) == "fits"
        assert word("long hex key 2.5 mm", tool, named=False) == "ask"
        assert word("hex key 3 mm", tool, named=False) is None


class TestPresence:
    """What only has to be there."""

    NEED = {"presence": "yes", "description": "USB-C cable"}  # noqa: RUF012

    def test_it_is_taken_by_the_orders_own_word(self) -> None:
        """Whatever the line says."""
        assert word("cable, 1 m", self.NEED, named=True) == "fits"

    def test_without_that_a_part_is_never_taken_for_it(self) -> None:
        """A screw that is left over is no cable."""
        assert word("M3x10 SHCS", self.NEED, named=False) is None
        assert word("USB-C cable", self.NEED, named=False) == "fits"
        assert word("USB-C cable with ferrite, 1 m", self.NEED, named=False) == "ask"
        assert word("M3x10 SHCS", {"presence": "yes"}, named=False) is None

    @pytest.mark.parametrize(
        ("line", "expected"),
        [
            ({"line": "cable", "interface": "USB-C"}, "fits"),
            ({"line": "cable", "interface": "usb-c"}, "fits"),
            ({"line": "cable", "interface": "USB-B"}, "wrong"),
            ({"line": "USB-C cable"}, "fits"),
            ({"line": "cable"}, "ask"),
        ],
    )
    def test_an_interface_that_is_needed_has_to_be_there(self, line: dict[str, Any], expected: str) -> None:
        """In its field or in the line; where neither says it, it is asked about."""
        need = {"mate": {"kind": "presence", "interface": "USB-C"}}
        assert word(line, need) == expected

    def test_a_version_is_held_alike(self) -> None:
        """With the question to send."""
        found = judged({"line": "firmware image"}, {"presence": "yes", "version": "2.1"})
        assert found is not None
        assert (found.word, found.question) == ("ask", "Which version has 'firmware image'? We need 2.1.")


def test_the_worst_verdict_of_several_counts() -> None:
    """From fits to unread."""
    assert worse("fits", "ask", "marginal") == "ask"
    assert worse("wrong", "unread") == "unread"
