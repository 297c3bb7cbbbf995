"""Stored orders: proved when they change, and again when data, software, habits or the day do, with the reason."""

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

import pytest

from service.store import habits, orders
from service.store.orders import Changed
from service.store.store import Store
from service.stored import orders as stored
from service.stored.orders import Moved, NoOrder, Prepared
from service.verdict.model import CheckError

PLAN: dict[str, Any] = {
    "name": "sampler",
    "needs": [{"quantity": 6, "bore": "5 H7", "fit": "location"}],
    "lines": [{"line": "M5 dowel pin, 20 long", "quantity": 10, "supplier": "A", "ordered_on": "2026-01-05"}],
    "steps": [{"id": "plate", "irreversible": True}],
}
HABIT = {"sign": "M", "part": "pin", "means": "outer diameter", "noted_on": "2027-01-11", "note": ""}


def keep(store: Store, change: Prepared) -> tuple[int, int]:
    """Carry out a change."""
    with store.write() as session:
        return stored.carry_out(session, change, "")


@pytest.fixture
def order(store: Store) -> str:
    """The id of a stored order."""
    change = stored.prepare_new(store, "club", PLAN)
    assert keep(store, change) == (1, 1)
    return change.order_id


def changes(change: Prepared) -> set[tuple[str, str, str, str]]:
    """Return the changed verdicts without those of the order and its gates."""
    return {
        (one.id, one.before, one.verdict, one.because)
        for one in change.proof.changes
        if one.subject in ("line", "need")
    }


def test_a_new_order_gets_ids_and_its_first_verdicts(store: Store, order: str) -> None:
    """All of them are recorded, with what they rest on."""
    found = stored.find(store, "club", order)
    assert [found.plan[name][0]["id"] for name in ("needs", "lines", "steps")] == ["N1", "L1", "plate"]
    with store.read() as session:
        assert orders.verdicts(session, order) == {
            ("order", ""): "not ready",
            ("line", "L1"): "ask",
            ("need", "N1"): "in doubt",
            ("gate", "plate"): "closed",
        }
        check = orders.last_check(session, order)
    assert check is not None
    assert (check.reference, check.version, check.habits) == (stored.tables.fingerprint(), stored.service_version(), [])


def test_a_plan_that_is_not_understood_is_refused(store: Store) -> None:
    """A list has to be one of objects, and the check has to take it."""
    for plan, field in (
        ({**PLAN, "lines": "a;b"}, "lines"),
        ({**PLAN, "needs": []}, "needs"),
        ({**PLAN, "steps": [1]}, "steps"),
    ):
        with pytest.raises(CheckError) as refused:
            stored.prepare_new(store, "club", plan)
        assert refused.value.field == field


def test_a_plan_with_another_line_moves_its_verdicts(store: Store, order: str) -> None:
    """A patch that replaces the lines does the same as the whole plan."""
    lines = [{"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 10}]
    moved = {("L1", "ask", "fits", "plan"), ("N1", "in doubt", "covered", "plan")}
    whole = stored.prepare_plan(store, "club", order, frozenset({1}), {**PLAN, "lines": lines}, "replaced")
    part = stored.prepare_plan(store, "club", order, None, {"lines": lines}, "patched")
    assert (changes(whole), changes(part)) == (moved, moved)
    assert keep(store, part) == (2, 2)
    assert stored.find(store, "club", order).plan["name"] == "sampler"


def test_what_happens_moves_needs_and_gates(store: Store, order: str) -> None:
    """What is measured and proved opens the gate; what breaks closes it again."""
    line = {"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 6}
    keep(store, stored.prepare_plan(store, "club", order, None, {"lines": [line]}, "patched"))
    came = [{"event": "received", "line": "L1"}]
    change = stored.prepare_entries(store, "club", order, frozenset({2}), "event", came)
    assert Changed("gate", "plate", "closed", "open", "log") in change.proof.changes
    keep(store, change)
    measured = [{"line": "L1", "receipt": {"measured": [4.9], "uncertainty": 0.01}}]
    change = stored.prepare_entries(store, "club", order, None, "receipt", measured)
    assert changes(change) == {("N1", "covered", "missing", "log")}
    assert Changed("gate", "plate", "open", "closed", "log") in change.proof.changes
    broken = [{"event": "broken", "need": "N1", "quantity": 2}]
    change = stored.prepare_entries(store, "club", order, None, "event", broken)
    assert ("N1", "covered", "short", "log") in changes(change)
    assert Changed("gate", "plate", "open", "closed", "log") in change.proof.changes


def test_entries_are_kept_all_or_none(store: Store, order: str) -> None:
    """One that is refused stops those before it."""
    given = [{"event": "received", "line": "L1", "quantity": 1}, {"event": "received", "line": "L7"}]
    with pytest.raises(CheckError) as refused:
        stored.prepare_entries(store, "club", order, None, "event", given)
    assert refused.value.field == "events[1].line"
    too_many = [{"event": "received", "line": "L1", "quantity": 11}]
    with pytest.raises(CheckError) as refused:
        stored.prepare_entries(store, "club", order, None, "event", too_many)
    assert "at most the 10 ordered" in refused.value.accepted
    assert stored.find(store, "club", order).log == ()


def test_an_entry_can_withdraw_one_of_the_same_request(store: Store, order: str) -> None:
    """Entries are numbered as they come."""
    given = [{"event": "received", "line": "L1", "quantity": 1}, {"event": "withdrawn", "entry": 1}]
    keep(store, stored.prepare_entries(store, "club", order, None, "event", given))
    assert len(stored.find(store, "club", order).log) == 2


def test_who_expects_another_revision_is_told(store: Store, order: str) -> None:
    """Before anything is done; and once more where it moved in between."""
    with pytest.raises(orders.Stale, match="1"):
        stored.prepare_plan(store, "club", order, frozenset({2, 3}), PLAN, "replaced")
    first = stored.prepare_plan(store, "club", order, frozenset({1}), PLAN, "replaced")
    second = stored.prepare_entries(store, "club", order, None, "event", [{"event": "in stock", "line": "L1"}])
    check = stored.prepare_check(store, "club", order)
    keep(store, first)
    for late in (second, check):
        with pytest.raises(Moved):
            keep(store, late)
    assert stored.find(store, "club", order).revision == 2


def test_a_proof_that_was_recorded_in_between_is_noticed(store: Store, order: str, elsewhere: None) -> None:
    """Else a change could be told twice, or from the wrong verdict."""
    one, other = stored.prepare_check(store, "club", order), stored.prepare_check(store, "club", order)
    assert keep(store, one) == (1, 2)
    with pytest.raises(Moved):
        keep(store, other)


def test_orders_of_others_are_not_there(store: Store, order: str) -> None:
    """For none of the functions."""
    with pytest.raises(NoOrder):
        stored.find(store, "rival", order)
    with pytest.raises(NoOrder):
        stored.prepare_check(store, "rival", order)
    with pytest.raises(NoOrder):
        stored.prepare_plan(store, "rival", order, None, PLAN, "replaced")
    with pytest.raises(NoOrder):
        stored.prepare_entries(store, "rival", order, None, "event", [])


# --- proving again ---------------------------------------------------------------------------------------------------


@pytest.fixture
def elsewhere(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The service with other reference data, by its fingerprint."""
    with monkeypatch.context() as patch:
        patch.setattr(stored.tables, "fingerprint", lambda: "0123456789abcdef")
        yield


def test_proving_again_without_a_change_records_nothing(store: Store, order: str) -> None:
    """The same data, software, habits, day and revision give the same verdicts."""
    change = stored.prepare_check(store, "club", order)
    assert (change.proof.changes, change.proof.new) == ((), False)
    assert keep(store, change) == (1, 1)


def test_other_data_is_recorded_even_where_every_verdict_holds(store: Store, order: str, elsewhere: None) -> None:
    """The history tells on which data a verdict rests."""
    change = stored.prepare_check(store, "club", order)
    assert change.proof.changes == ()
    assert keep(store, change) == (1, 2)
    with store.read() as session:
        assert next(check.reference for check, _ in orders.checks(session, order, 10, None)) == "0123456789abcdef"


def test_what_other_data_changes_is_put_down_to_it(
    store: Store, order: str, elsewhere: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Apart from what a new plan changes at the same time."""
    wrong = {"L1": "wrong"}
    judged = stored.verdicts
    monkeypatch.setattr(stored, "verdicts", lambda result: {**judged(result), ("line", "L1"): wrong["L1"]})
    assert ("L1", "ask", "wrong", "data") in changes(stored.prepare_check(store, "club", order))
    plan = {**PLAN, "needs": [{"quantity": 12, "bore": "5 H7", "fit": "location"}]}
    change = stored.prepare_plan(store, "club", order, None, plan, "replaced")
    assert changes(change) == {("L1", "ask", "wrong", "data"), ("N1", "in doubt", "short", "plan")}


def test_a_habit_is_used_cited_and_put_down_to(store: Store, order: str) -> None:
    """Its source stands among the findings of the line."""
    with store.write() as session:
        habits.add(session, "club", "A", orders.new_id(), HABIT)
        habits.add(session, "rival", "A", orders.new_id(), {**HABIT, "means": "internal thread"})
        habits.add(session, "club", "B", orders.new_id(), {**HABIT, "means": "internal thread"})
    change = stored.prepare_check(store, "club", order)
    assert changes(change) == {("L1", "ask", "fits", "habits"), ("N1", "in doubt", "covered", "habits")}
    (line,) = change.proof.result.lines
    sources = {finding.source for _, judgement in line.judgements for finding in judgement.findings}
    assert "habit of supplier A, noted 2027-01-11" in sources
    assert keep(store, change) == (1, 2)
    with store.read() as session:
        check = orders.last_check(session, order)
    assert check is not None
    assert [one["means"] for one in check.habits] == ["outer diameter"]


def test_the_software_and_the_day_are_causes_of_their_own(
    store: Store, order: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each only where it is another one."""
    judged = stored.verdicts
    monkeypatch.setattr(stored, "verdicts", lambda result: {**judged(result), ("line", "L1"): "wrong"})
    tomorrow = stored.today() + timedelta(days=1)
    with monkeypatch.context() as patch:
        patch.setattr(stored, "today", lambda: tomorrow)
        assert ("L1", "ask", "wrong", "date") in changes(stored.prepare_check(store, "club", order))
    monkeypatch.setattr(stored, "service_version", lambda: "9.9")
    assert ("L1", "ask", "wrong", "software") in changes(stored.prepare_check(store, "club", order))


def test_a_plan_that_newer_software_refuses_can_be_put_right(
    store: Store, order: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The old one counts as unread; the new one is stored."""
    parse = stored.parse_order

    def stricter(fields: Any, day: date) -> Any:
        if any("dowel" in line["line"] for line in fields["lines"]):
            raise CheckError("lines.L1.line", "", "no dowels any more", "")
        return parse(fields, day)

    monkeypatch.setattr(stored, "parse_order", stricter)
    monkeypatch.setattr(stored, "service_version", lambda: "9.9")
    with pytest.raises(CheckError):
        stored.prepare_check(store, "club", order)
    lines = [{"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 10}]
    change = stored.prepare_plan(store, "club", order, None, {"lines": lines}, "patched")
    assert ("L1", "ask", "fits", "software, plan") in changes(change)
    assert keep(store, change) == (2, 2)


@pytest.mark.parametrize(
    ("original", "patch", "result"),
    [
        ({"a": "b"}, {"a": "c"}, {"a": "c"}),
        ({"a": "b"}, {"b": "c"}, {"a": "b", "b": "c"}),
        ({"a": "b"}, {"a": None}, {}),
        ({"a": "b", "b": "c"}, {"a": None}, {"b": "c"}),
        ({"a": ["b"]}, {"a": "c"}, {"a": "c"}),
        ({"a": "c"}, {"a": ["b"]}, {"a": ["b"]}),
        ({"a": {"b": "c"}}, {"a": {"b": "d", "c": None}}, {"a": {"b": "d"}}),
        ({"a": [{"b": "c"}]}, {"a": [1]}, {"a": [1]}),
        (["a", "b"], ["c", "d"], ["c", "d"]),
        ({"a": "b"}, ["c"], ["c"]),
        ({"a": "foo"}, None, None),
        ({"a": "foo"}, "bar", "bar"),
        ({"e": None}, {"a": 1}, {"e": None, "a": 1}),
        ([1, 2], {"a": "b", "c": None}, {"a": "b"}),
        ({}, {"a": {"bb": {"ccc": None}}}, {"a": {"bb": {}}}),
    ],
)
def test_merge_patches_do_what_their_standard_says(original: Any, patch: Any, result: Any) -> None:
    """Source: the test cases of RFC 7396 appendix A."""
    assert stored.merged(original, patch) == result
