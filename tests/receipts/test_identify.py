"""Identification: from measured values to the standard parts that they can be."""

from decimal import Decimal
from typing import Any

import pytest

from reference.families import by_name
from reference.quantities import Limits
from service.receipts.identify import Identification, bounds, identify
from service.verdict.model import CheckError

U = Decimal("0.03")


def found(**measured: Any) -> Identification:
    """Identify with a calliper's uncertainty."""
    return identify(measured, U)


def families(result: Identification) -> list[str]:
    """The families found, best first."""
    return [one.reading.family for one in result.candidates]


class TestCandidates:
    """What the values can be, best first."""

    def test_a_pin_with_a_thread_inside(self) -> None:
        """One part is left, with the names that other standards give it."""
        result = found(outer_diameter=8.01, length=30.1, internal_thread="M5")
        assert [one.reading.order_text for one in result.candidates] == ["Parallel pin ISO 8735 - 8 x 30 - A - St"]
        assert result.candidates[0].reading.standards[:2] == ("ISO 8735", "ISO 8733")
        assert result.candidates[0].reading.dimensions["outer_diameter"] == Limits(
            Decimal(8), Decimal("8.006"), Decimal("8.015"), "m6"
        )
        assert result.tell_apart is None

    def test_without_the_thread_it_is_asked_for(self) -> None:
        """A plain pin and one with a thread are told apart by looking into it."""
        result = found(outer_diameter=8.01, length=30.1)
        assert {"parallel pin", "parallel pin with internal thread"} <= set(families(result))
        assert result.tell_apart is not None
        assert result.decider is not None
        assert result.decider.dimension == "internal_thread"
        assert "M5 is Parallel pin ISO 8735" in result.tell_apart

    def test_a_screw_reads_smaller_than_its_thread(self) -> None:
        """A thread's outside lies under its nominal size: 4.9 mm is M5, with its head ISO 4762."""
        result = found(outer_diameter=4.9, length=16.1, head_diameter=8.4)
        texts = [one.reading.order_text for one in result.candidates]
        assert any(text.startswith("Hexagon socket head cap screw ISO 4762 - M5 x 16") for text in texts)
        assert all("M5" in one.reading.order_text for one in result.candidates)

    def test_a_bearing_by_its_three_sizes(self) -> None:
        """The flange tells the other one apart."""
        result = found(outer_diameter=22, bore=8, width=7)
        assert families(result)[0] == "ball bearing"
        assert "608" in result.candidates[0].reading.order_text
        assert result.decider is not None
        assert result.decider.dimension == "flange_diameter"

    def test_a_nut_is_recognised_by_its_bore(self) -> None:
        """The bore of a thread is its minor diameter: 4.2 mm is M5."""
        result = found(bore=4.2, across_flats=7.95, height=4.6)
        assert "hex nut" in families(result)
        assert all("M5" in one.reading.order_text for one in result.candidates)

    def test_nothing_fits_what_no_table_holds(self) -> None:
        """An answer, and no guess."""
        result = found(outer_diameter=333.3)
        assert (result.candidates, result.tell_apart, result.decider) == ((), None, None)
        assert result.searched > 2000

    def test_every_candidate_holds_every_value_within_the_uncertainty(self) -> None:
        """And says by how much; the order is by agreement."""
        result = found(outer_diameter=7.98, length=24)
        assert result.candidates
        for one in result.candidates:
            assert len(one.agreement) == 2
            for each in one.agreement:
                assert each.outside <= U
                assert each.lower is not None
                assert each.upper is not None
                assert each.lower - U <= Decimal(str(each.measured)) <= each.upper + U
        assert [one.distance for one in result.candidates] == sorted(one.distance for one in result.candidates)

    def test_less_uncertainty_leaves_fewer_candidates(self) -> None:
        """A micrometer tells m6 from h8."""
        values = {"outer_diameter": "7.99", "length": 30}
        rough, fine = identify(values, U).candidates, identify(values, Decimal("0.002")).candidates
        assert any("ISO 8734" in one.reading.standards for one in rough)
        assert not any("ISO 8734" in one.reading.standards for one in fine)

    @pytest.mark.parametrize(
        "family", ["parallel pin", "socket head cap screw", "ball bearing", "plain washer", "hex nut"]
    )
    def test_every_size_of_a_table_is_found_from_its_own_dimensions(self, family: str) -> None:
        """Measured exactly, each row names itself."""
        sizes = by_name()[family].sizes
        assert sizes is not None
        for row in sizes.rows[:: max(1, len(sizes.rows) // 12)]:
            measured = {
                name: str(one.nominal if one.lower is None else (one.low + one.high) / 2)
                for name, one in row.dimensions.items()
                if isinstance(one, Limits) and name in ("outer_diameter", "bore", "width", "head_diameter", "thickness")
            } or {
                name: one.designation  # type: ignore[union-attr]
                for name, one in row.dimensions.items()
                if name in ("thread", "internal_thread")
            }
            result = identify(measured, Decimal("0.01"))
            near = [one.reading.family for one in result.candidates]
            assert family in near, (row.standard, row.size, measured, near)


class TestRefused:
    """What is no measurement."""

    @pytest.mark.parametrize(
        ("measured", "field"),
        [
            ({}, "measured"),
            ({"outer_diameter": None}, "measured"),
            ({"weight": 3}, "measured.weight"),
            ({"outer_diameter": "wide"}, "measured.outer_diameter"),
            ({"outer_diameter": -1}, "measured.outer_diameter"),
            ({"internal_thread": "Q9"}, "measured.internal_thread"),
            ({"internal_thread": 5}, "measured.internal_thread"),
        ],
    )
    def test_the_field_is_named(self, measured: dict[str, Any], field: str) -> None:
        """With what is accepted."""
        with pytest.raises(CheckError) as caught:
            identify(measured, U)
        assert caught.value.field == field


def test_a_dimension_without_limits_has_those_of_the_free_grade() -> None:
    """IT15 at 30 mm is 0.84 mm; a count has none."""
    assert bounds("length", Limits(Decimal(30))) == (Decimal("29.58"), Decimal("30.42"))
    assert bounds("teeth", Limits(Decimal(20))) == (20, 20)
    assert bounds("length", Limits(Decimal(30), Decimal(29), Decimal(31))) == (29, 31)
