"""Intake: every field of an order, what is refused by name, and what an order says about packs, days and suppliers."""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from service.orders.intake import LINE_FIELDS, LOSS_FIELDS, NEED_FIELDS, STEP_FIELDS, STOCK_FIELDS, parse_order
from service.orders.model import Amount, Order
from service.verdict.model import CheckError

TODAY = date(2027, 1, 15)
NEED = {"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}
LINE = {"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 6}


def order(**fields: Any) -> Order:
    """Parse an order with one need unless others are given."""
    return parse_order({"needs": [NEED], **fields}, TODAY)


class TestPacks:
    """How many pieces a line brings."""

    @pytest.mark.parametrize(
        ("fields", "pieces", "pack", "said"),
        [
            ({"quantity": 6}, 6, 1, "6"),
            ({"quantity": 2, "pack": 50}, 100, 50, "2 packs of 50 = 100"),
            ({"quantity": 1, "pack": 50}, 50, 50, "1 pack of 50 = 50"),
            ({"quantity": 100, "unit": "pcs", "pack": 50}, 100, 50, "100 in packs of 50"),
            ({"quantity": "2 VE", "pack": 50}, 100, 50, "2 packs of 50 = 100"),
            ({"quantity": 2, "line": "M3x10 SHCS box 50"}, 100, 50, "2 packs of 50 = 100"),
            ({"quantity": None, "line": "10 pcs M3x10 SHCS"}, 10, 1, "10 as the line says"),
            ({"quantity": 3, "unit": "pairs"}, 6, 1, "6"),
            ({"quantity": "2 m", "line": "M8 threaded rod"}, 2_000_000, 1, "2000 mm"),
        ],
    )
    def test_packs_are_multiplied_out(self, fields: dict[str, Any], pieces: int, pack: int, said: str) -> None:
        """Unless the unit says pieces; the line itself may name the pack and the quantity."""
        supply = order(lines=[{**LINE, **fields}]).supplies[0]
        assert (supply.amount.number, supply.pack, supply.said) == (pieces, pack, said)

    def test_a_line_that_says_another_number_is_noted(self) -> None:
        """The quantity counts."""
        supply = order(lines=[{**LINE, "line": "10 pcs M3x10 SHCS", "quantity": 5}]).supplies[0]
        assert supply.amount == Amount(5)
        assert supply.notes == ("the line says 10, the quantity 5: taken is 5",)

    def test_packs_without_a_size_are_refused(self) -> None:
        """They say nothing about pieces."""
        with pytest.raises(CheckError) as caught:
            order(lines=[{**LINE, "quantity": "2 boxes"}])
        assert caught.value.field == "lines.L1.pack"


class TestReceived:
    """What is here."""

    def test_a_day_of_receipt_means_all_of_it(self) -> None:
        """Unless less is said; stock is always here."""
        lines = [
            {**LINE, "id": "L1", "received_on": "2027-01-12"},
            {**LINE, "id": "L2", "received": 4},
            {**LINE, "id": "L3"},
        ]
        stock = [{"id": "S1", "line": LINE["line"], "quantity": 3}]
        assert [supply.received for supply in order(lines=lines, stock=stock).supplies] == [6, 4, 0, 3]

    def test_today_moves_on_to_what_has_happened(self) -> None:
        """A day that is given may not lie before it."""
        line = {**LINE, "received_on": "2027-03-01"}
        found = order(lines=[line])
        assert found.today == date(2027, 3, 1)
        assert "2027-03-01" in found.assumed[0]
        with pytest.raises(CheckError, match="up to today"):
            order(lines=[line], today="2027-02-01")


class TestSuppliers:
    """Their record, and how it changes what they quote."""

    def test_a_record_is_what_is_given_and_what_this_order_shows(self) -> None:
        """Days, and their ratio to the quote."""
        lines = [
            {**LINE, "supplier": "A", "lead_time": 10, "ordered_on": "2027-01-01", "received_on": "2027-01-15"},
            {**LINE, "id": "L2", "supplier": "B"},
        ]
        found = order(lines=lines, suppliers=[{"id": "A", "record": [12, {"quoted": 20, "actual": 30}]}]).suppliers
        assert found["A"].record == (12, 30, 14)
        assert found["A"].ratios == (Decimal("1.5"), Decimal("1.4"))
        assert "B" not in found

    def test_one_comparison_alone_corrects_no_quote(self) -> None:
        """It may have been bad luck."""
        record = [{"quoted": 10, "actual": 20}]
        line = {**LINE, "supplier": "A", "lead_time": 10}
        once = order(lines=[line], suppliers=[{"id": "A", "record": record}]).supplies[0]
        twice = order(lines=[line], suppliers=[{"id": "A", "record": record * 2}]).supplies[0]
        assert once.lead_time is not None
        assert twice.lead_time is not None
        assert (once.lead_time.mean, twice.lead_time.mean) == (10, 20)

    def test_a_range_is_not_corrected(self) -> None:
        """It says itself how long it may take."""
        line = {**LINE, "supplier": "A", "lead_time": "10-20 days"}
        found = order(lines=[line], suppliers=[{"id": "A", "record": [{"quoted": 1, "actual": 9}] * 3}]).supplies[0]
        assert found.lead_time is not None
        assert found.lead_time.mean == 15


class TestNeeds:
    """Mates, steps and what belongs together."""

    def test_a_mate_may_be_an_object_a_short_form_or_text(self) -> None:
        """The same bore three times."""
        forms: list[dict[str, Any]] = [
            {"mate": {"kind": "bore", "diameter": "5 H7"}},
            {"bore": "5 H7"},
            {"mate": "bore=5 H7"},
        ]
        needs = [{"id": f"N{n}", "quantity": 1, **form} for n, form in enumerate(forms)]
        assert len({need.mate.text for need in order(needs=needs).needs if need.mate}) == 1

    def test_presence_takes_interface_and_version_in_its_mate(self) -> None:
        """Or beside it."""
        mate = {"kind": "presence", "interface": "USB-C", "version": "2"}
        need = order(needs=[{"id": "N1", "quantity": 1, "mate": mate}]).needs[0]
        assert (need.interface, need.version) == ("USB-C", "2")
        assert order(needs=[{"id": "N1", "quantity": 1, "presence": "x"}]).needs[0].mate is not None

    def test_steps_that_only_needs_name_are_taken_as_they_come(self) -> None:
        """An order without a plan."""
        needs = [{**NEED, "step": "plate"}, {**NEED, "id": "N2", "step": "arm"}]
        assert [step.id for step in order(needs=needs).steps] == ["plate", "arm"]

    def test_steps_stand_in_an_order_in_which_they_can_be_done(self) -> None:
        """Whatever the order of the list."""
        steps = [{"id": "c", "after": ["b"]}, {"id": "b", "after": "a"}, {"id": "a"}]
        assert [step.id for step in order(steps=steps).steps] == ["a", "b", "c"]

    def test_ids_are_given_by_place_where_there_are_none(self) -> None:
        """As a sheet without such a column has it."""
        found = parse_order({"needs": "Menge;Bohrung\n6;5 H7\n", "lines": "Menge;Bezeichnung\n6;x\n7;y\n"}, TODAY)
        assert [need.id for need in found.needs] == ["N1"]
        assert [supply.id for supply in found.supplies] == ["L1", "L2"]

    def test_how_often_a_need_is_wanted(self) -> None:
        """Copies, variants, or once for the order."""
        needs = [
            {**NEED, "id": "all"},
            {**NEED, "id": "short", "variants": ["short"]},
            {**NEED, "id": "tool", "per": "order"},
        ]
        found = order(needs=needs, variants={"short": 2, "long": 1})
        assert [found.built(need) for need in found.needs] == [3, 2, 1]
        assert [order(needs=needs[:1], copies=4).built(need) for need in found.needs[:1]] == [4]


class TestSheetsAsOrders:
    """The same order as JSON and as sheets."""

    def test_both_give_the_same_needs_lines_and_steps(self) -> None:
        """Cell by cell."""
        sheets = {
            "needs": "Pos;Menge;Bohrung;Passung;Schritt\nN1;6;5 H7;location;plate\n",
            "lines": "Pos;Menge;Bezeichnung;VPE;Lieferant;Lieferzeit [Wochen];Preis\nL1;2;Stift 5x20;10;A;2;0,40 €\n",
            "stock": "Pos;Menge;Bezeichnung;gemessen;Messmittel\nS1;2;ISO 8734 - 5 x 20 - A - St;5,008;Mikrometer\n",
            "steps": "Schritt;nach;Tage;unumkehrbar\nstrip;;;x\nplate;strip;2;\n",
        }
        plain = {
            "needs": [{**NEED, "step": "plate"}],
            "lines": [
                {
                    "id": "L1",
                    "quantity": 2,
                    "line": "Stift 5x20",
                    "pack": 10,
                    "supplier": "A",
                    "lead_time": 14,
                    "price": 0.4,
                }
            ],
            "stock": [
                {
                    "id": "S1",
                    "quantity": 2,
                    "line": "ISO 8734 - 5 x 20 - A - St",
                    "receipt": {"measured": [5.008], "instrument": "micrometer"},
                }
            ],
            "steps": [{"id": "strip", "irreversible": True}, {"id": "plate", "after": ["strip"], "days": 2}],
        }
        assert parse_order(sheets, TODAY) == parse_order(plain, TODAY)

    def test_columns_that_are_not_understood_are_named(self) -> None:
        """And stop nothing."""
        found = parse_order({"needs": "Menge;Bohrung;Farbe\n6;5 H7;rot\n", "lines": "Menge;Bezeichnung\n6;x\n"}, TODAY)
        assert [(one.sheet, one.column, one.cells) for one in found.not_read] == [("needs", "Farbe", 1)]


BAD: list[tuple[dict[str, Any], str]] = [
    ({"needs": []}, "needs"),
    ({"needs": None}, "needs"),
    ({"needs": ""}, "needs"),
    ({"needs": 7}, "needs"),
    ({"needs": [7]}, "needs[0]"),
    ({"needs": [{**NEED, "quantity": None}]}, "needs.N1.quantity"),
    ({"needs": [{**NEED, "quantity": 0}]}, "needs.N1.quantity"),
    ({"needs": [{**NEED, "quantity": "1.5"}]}, "needs.N1.quantity"),
    ({"needs": [{**NEED, "colour": "red"}]}, "needs.N1.colour"),
    ({"needs": [{**NEED, "shaft": "5 h6"}]}, "needs.N1.shaft"),
    ({"needs": [{**NEED, "bore": "5 Q7"}]}, "needs.N1.bore"),
    ({"needs": [{**NEED, "fit": "snug"}]}, "needs.N1.fit"),
    ({"needs": [{"id": "N1", "quantity": 1, "fit": "slip"}]}, "needs.N1.fit"),
    ({"needs": [{"id": "N1", "quantity": 1, "mate": {"kind": "hug"}}]}, "needs.N1.mate.kind"),
    ({"needs": [{"id": "N1", "quantity": 1, "mate": "5 H7"}]}, "needs.N1.mate"),
    ({"needs": [NEED, NEED]}, "needs[1].id"),
    ({"needs": [{**NEED, "per": "moon"}]}, "needs.N1.per"),
    ({"needs": [{**NEED, "breaks": 2}]}, "needs.N1.breaks"),
    ({"needs": [{**NEED, "must_match": ["N9"]}]}, "needs.N1.must_match"),
    ({"needs": [{**NEED, "neighbours": ["N1"]}]}, "needs.N1.neighbours"),
    ({"needs": [{**NEED, "variants": ["short"]}]}, "needs.N1.variants"),
    ({"needs": [{**NEED, "step": "q"}], "steps": [{"id": "a"}]}, "needs.N1.step"),
    ({"lines": [{**LINE, "line": ""}]}, "lines.L1.line"),
    ({"lines": [{**LINE, "line": "x" * 501}]}, "lines.L1.line"),
    ({"lines": [{**LINE, "quantity": None}]}, "lines.L1.quantity"),
    ({"lines": [{**LINE, "for": ["N9"]}]}, "lines.L1.for"),
    ({"lines": [{**LINE, "pack": 0}]}, "lines.L1.pack"),
    ({"lines": [{**LINE, "received": 7}]}, "lines.L1.received"),
    ({"lines": [{**LINE, "ordered_on": "2027-01-12", "received_on": "2027-01-11"}]}, "lines.L1.received_on"),
    ({"lines": [{**LINE, "lead_time": "soon"}]}, "lines.L1.lead_time"),
    ({"lines": [{**LINE, "available": "perhaps"}]}, "lines.L1.available"),
    ({"lines": [{**LINE, "receipt": 5}]}, "lines.L1.receipt"),
    ({"lines": [{**LINE, "receipt": {"measured": [5]}}]}, "lines.L1.receipt.uncertainty"),
    ({"lines": [{**LINE, "second_source_for": "L1"}]}, "lines.L1.second_source_for"),
    ({"lines": [{**LINE, "substitute_for": "L9"}]}, "lines.L1.substitute_for"),
    ({"lines": [LINE], "stock": [{**LINE}]}, "stock.L1.id"),
    ({"stock": [{**LINE, "supplier": "A"}]}, "stock.L1.supplier"),
    ({"lines": [LINE] * 1001}, "lines"),
    ({"steps": [{"id": "a", "after": ["b"]}]}, "steps.a.after"),
    ({"steps": [{"id": "a", "needs": ["N9"]}]}, "steps.a.needs"),
    ({"steps": [{"id": "a", "days": -1}]}, "steps.a.days"),
    ({"steps": [{"id": "a", "irreversible": "perhaps"}]}, "steps.a.irreversible"),
    ({"steps": [{"id": "a", "after": ["a"]}]}, "steps"),
    ({"suppliers": [{"record": [1]}]}, "suppliers[0].id"),
    ({"suppliers": [{"id": "A", "record": [{"quoted": 1}]}]}, "suppliers[0].record[0].actual"),
    ({"suppliers": [{"id": "A", "record": ["x"]}]}, "suppliers[0].record[0][0]"),
    ({"losses": [{"quantity": 1}]}, "losses[0]"),
    ({"losses": [{"need": "N9"}]}, "losses[0].need"),
    ({"losses": [{"need": "N1", "why": "eaten"}]}, "losses[0].why"),
    ({"copies": 0.5}, "copies"),
    ({"copies": 1001}, "copies"),
    ({"variants": [1]}, "variants"),
    ({"variants": {"a": -1}}, "variants.a"),
    ({"today": "now"}, "today"),
    ({"confidence": 1}, "confidence"),
    ({"country": "XX"}, "country"),
    ({"country": "DE", "subdivision": "QQ"}, "subdivision"),
    ({"closed_on": "2027-02-15"}, "closed_on"),
    ({"colour": "red"}, "colour"),
]


@pytest.mark.parametrize(("fields", "field"), BAD, ids=[f"{n}-{field}" for n, (_, field) in enumerate(BAD)])
def test_the_field_at_fault_is_named(fields: dict[str, Any], field: str) -> None:
    """By its path, with what is accepted."""
    with pytest.raises(CheckError) as caught:
        order(**fields)
    assert caught.value.field == field
    assert caught.value.accepted


def test_every_field_of_an_entry_is_known() -> None:
    """Those that a line has and a stock entry has not are about its supply."""
    assert set(STOCK_FIELDS) < set(LINE_FIELDS)
    assert len(set(NEED_FIELDS)) == len(NEED_FIELDS)
    assert {"id", "after", "days", "irreversible"} <= set(STEP_FIELDS)
    assert set(LOSS_FIELDS) == {"need", "line", "quantity", "why", "on"}
