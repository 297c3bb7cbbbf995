"""What happened to an order: checked when told, put into the plan, withdrawn, passed over when its subject is gone."""

from datetime import date
from typing import Any

import pytest

from service.orders.model import Amount
from service.stored.log import EVENTS, document, event, receipt, require_known
from service.verdict.model import CheckError

TODAY = date(2027, 2, 1)
PLAN: dict[str, Any] = {
    "name": "sampler",
    "needs": [{"id": "N1", "quantity": 6}],
    "lines": [{"id": "L1", "line": "M5 dowel pin", "quantity": 10}, {"id": "L2", "line": "608", "quantity": 1}],
    "stock": [{"id": "S1", "line": "608", "quantity": 1}],
    "steps": [{"id": "plate"}],
}
ORDERED = {"L1": Amount(10), "L2": Amount(1), "S1": Amount(1)}
SUBJECTS = {"line": "L1", "need": "N1", "step": "plate", "entry": 1, "lead_time": "6 weeks"}


def told(*entries: dict[str, Any]) -> list[tuple[int, str, dict[str, Any]]]:
    """Return entries as they are stored, numbered from 1."""
    return [
        (number, "receipt" if "receipt" in entry else "event", {"on": "2027-02-01", **entry})
        for number, entry in enumerate(entries, start=1)
    ]


def line(*entries: dict[str, Any], of: str = "L1", plan: dict[str, Any] = PLAN) -> dict[str, Any]:
    """Return a line or piece of stock after some entries."""
    fields = document(plan, told(*entries), ORDERED).fields
    found: dict[str, Any] = next(one for one in (*fields["lines"], *fields["stock"]) if one["id"] == of)
    return found


# --- telling ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", EVENTS)
def test_every_event_is_taken_with_its_fields_and_gets_its_day(name: str) -> None:
    """And refused with a field that belongs to another one."""
    known = EVENTS[name]
    given = {"event": name, known.about[0]: SUBJECTS[known.about[0]], **{f: SUBJECTS[f] for f in known.required}}
    assert event(given, "events[0]", TODAY) == {**given, "on": "2027-02-01"}
    with pytest.raises(CheckError) as refused:
        event({**given, "colour": "red"}, "events[0]", TODAY)
    assert refused.value.field == "events[0].colour"
    without = {field: value for field, value in given.items() if field != known.about[0]}
    with pytest.raises(CheckError) as refused:
        event(without, "events[0]", TODAY)
    assert refused.value.field == f"events[0].{known.about[0]}"


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"event": "exploded", "line": "L1"}, "event"),
        ({"line": "L1"}, "event"),
        ({"event": ["received"], "line": "L1"}, "event"),
        ({"event": "received", "line": "L1", "on": "soon"}, "on"),
        ({"event": "delayed", "line": "L1"}, "lead_time"),
        ({"event": "out of stock", "line": "L1", "back_on": "later"}, "back_on"),
        ({"event": "withdrawn", "entry": "first"}, "entry"),
        ({"event": "received", "line": {"id": "L1"}}, "line"),
    ],
)
def test_an_event_that_is_not_understood_is_refused(given: dict[str, Any], field: str) -> None:
    """With the field at fault."""
    with pytest.raises(CheckError) as refused:
        event(given, "events[3]", TODAY)
    assert refused.value.field == f"events[3].{field}"
    assert refused.value.accepted


def test_a_receipt_is_taken_as_it_is() -> None:
    """What was measured is read with the order, where the limits are."""
    given = {"line": "L1", "receipt": {"measured": [5.01]}}
    assert receipt(given, "receipts[0]", TODAY) == {**given, "on": "2027-02-01"}
    for bad, field in (({"line": "L1"}, "receipt"), ({"receipt": {}}, "line"), ({**given, "limits": 1}, "limits")):
        with pytest.raises(CheckError) as refused:
            receipt(bad, "receipts[0]", TODAY)
        assert refused.value.field == f"receipts[0].{field}"


@pytest.mark.parametrize(
    ("entry", "field"),
    [({"line": "L9"}, "line"), ({"need": "L1"}, "need"), ({"step": "x"}, "step"), ({"entry": 2}, "entry")],
)
def test_an_entry_about_nothing_that_is_there_is_refused(entry: dict[str, Any], field: str) -> None:
    """Ids of one kind do not stand for another; entries that are still to come cannot be withdrawn."""
    with pytest.raises(CheckError) as refused:
        require_known(PLAN, told({"event": "in stock", "line": "L1"}), entry, "events[0]")
    assert refused.value.field == f"events[0].{field}"
    require_known(
        PLAN, told({"event": "in stock", "line": "L1"}), {"line": "S1", "need": "N1", "entry": 1}, "events[0]"
    )


# --- what becomes of the plan ----------------------------------------------------------------------------------------


def test_the_plan_itself_is_never_changed() -> None:
    """It is shared by all revisions that do not replace it; the name is no field of a check."""
    before = repr(PLAN)
    found = document(PLAN, told({"event": "received", "line": "L1"}, {"event": "lost", "need": "N1"}), ORDERED)
    assert repr(PLAN) == before
    assert "name" not in found.fields
    assert found.passed_over == ()
    assert document(PLAN, [], ORDERED).fields == {name: value for name, value in PLAN.items() if name != "name"}


def test_what_is_received_adds_up() -> None:
    """Only what is here whole has a day of arrival."""
    part = {"event": "received", "line": "L1", "quantity": 4, "on": "2027-02-03"}
    assert line(part)["received"] == 4
    assert "received_on" not in line(part)
    assert line(part, {**part, "quantity": 5})["received"] == 9
    whole = line(part, {**part, "quantity": 6, "on": "2027-02-09"})
    assert (whole.get("received"), whole["received_on"]) == (None, "2027-02-09")
    everything = line(part, {"event": "received", "line": "L1"})
    assert (everything.get("received"), everything["received_on"]) == (None, "2027-02-01")


def test_more_than_was_ordered_is_left_to_the_check_to_refuse() -> None:
    """It says what is accepted there."""
    assert line({"event": "received", "line": "L1", "quantity": 11})["received"] == 11
    again = line({"event": "received", "line": "L1"}, {"event": "received", "line": "L1", "quantity": 1})
    assert again["received"] == 11


@pytest.mark.parametrize(
    ("given", "quantity", "shown"),
    [
        ({"quantity": "5 m"}, "2 m", "2000 mm"),
        ({"quantity": 5, "unit": "m"}, 2, "2"),
        ({"quantity": 5, "unit": "m"}, 0.5, "0.5"),
    ],
)
def test_lengths_add_up_in_the_unit_of_their_line(given: dict[str, Any], quantity: object, shown: str) -> None:
    """Belt and tube come by the metre."""
    plan = {"lines": [{"id": "L1", "line": "GT2 belt", **given}], "stock": []}
    entry = {"event": "received", "line": "L1", "quantity": quantity}
    found = document(plan, told(entry), {"L1": Amount(5_000_000, "length")}).fields["lines"][0]
    assert found["received"] == shown


def test_the_rest_of_a_line_follows_what_happened() -> None:
    """Ordered, quoted, delayed, out of stock, back again, the quote lapsed."""
    assert line({"event": "ordered", "line": "L1", "lead_time": 14}) | {"id": ""} == {
        **PLAN["lines"][0],
        "id": "",
        "ordered_on": "2027-02-01",
        "lead_time": 14,
    }
    assert line({"event": "delayed", "line": "L1", "lead_time": "8 weeks"})["lead_time"] == "8 weeks"
    out = {"event": "out of stock", "line": "L1", "back_on": "2027-03-01"}
    assert (line(out)["available"], line(out)["back_on"]) == ("out of stock", "2027-03-01")
    assert line(out, {"event": "in stock", "line": "L1"})["available"] == "in stock"
    assert "back_on" not in line(out, {"event": "in stock", "line": "L1"})
    lapsed = {"event": "quote lapsed", "line": "L1", "on": "2027-02-10"}
    assert line(lapsed)["quote_until"] == "2027-02-09"
    assert "quote_until" not in line(lapsed, {"event": "quoted", "line": "L1"})
    quoted = line({"event": "quoted", "line": "L1", "until": "2027-04-01", "price": "1.20", "lead_time": 20})
    assert (quoted["quote_until"], quoted["price"], quoted["lead_time"]) == ("2027-04-01", "1.20", 20)


def test_losses_and_steps_that_are_done_are_told_to_the_check() -> None:
    """Beside those that the plan had."""
    plan = {**PLAN, "losses": [{"need": "N1", "quantity": 1}]}
    entries = told(
        {"event": "broken", "need": "N1", "quantity": 2},
        {"event": "used", "line": "S1"},
        {"event": "done", "step": "plate"},
    )
    fields = document(plan, entries, ORDERED).fields
    assert fields["losses"] == [
        {"need": "N1", "quantity": 1},
        {"need": "N1", "quantity": 2, "why": "broken", "on": "2027-02-01"},
        {"line": "S1", "why": "used", "on": "2027-02-01"},
    ]
    assert fields["steps"] == [{"id": "plate", "done_on": "2027-02-01"}]


def test_of_several_receipts_the_last_one_counts() -> None:
    """Also for a piece of stock."""
    first, second = ({"line": "S1", "receipt": {"measured": [value]}} for value in (5.0, 5.1))
    assert line(first, second, of="S1")["receipt"] == {"measured": [5.1]}


def test_an_entry_can_be_withdrawn_and_that_too() -> None:
    """Nothing is ever taken out of the log."""
    came = {"event": "received", "line": "L1", "quantity": 4}
    assert "received" not in line(came, {"event": "withdrawn", "entry": 1})
    assert line(came, {"event": "withdrawn", "entry": 1}, {"event": "withdrawn", "entry": 2})["received"] == 4
    assert line(came, came, {"event": "withdrawn", "entry": 1})["received"] == 4


def test_an_entry_about_what_a_later_plan_lacks_is_passed_over_and_named() -> None:
    """It comes back with a plan that has it again."""
    later = {**PLAN, "lines": PLAN["lines"][1:]}
    found = document(later, told({"event": "received", "line": "L1"}, {"event": "lost", "line": "L2"}), ORDERED)
    assert found.passed_over == ("entry 1 is about line L1, which the plan does not have any more",)
    assert [loss["line"] for loss in found.fields["losses"]] == ["L2"]
