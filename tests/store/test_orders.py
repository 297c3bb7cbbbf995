"""Orders: revisions without a gap or an overwrite, a log that only grows, verdicts with what they rest on."""

import threading
from typing import Any

import pytest

from service.store import orders
from service.store.orders import Basis, Changed, Stale
from service.store.store import Store

ID = "0" * 31 + "1"
PLAN: dict[str, Any] = {"name": "sampler", "needs": [{"id": "N1"}]}
BASIS = Basis("f1", "0.1", [])


@pytest.fixture
def made(store: Store) -> Store:
    """A store with one order of the club."""
    with store.write() as session:
        orders.create(session, "club", ID, PLAN, "token 1")
    return store


def test_an_order_is_found_as_it_was_stored(made: Store) -> None:
    """Its plan value by value, its log empty, its first revision."""
    with made.read() as session:
        found = orders.find(session, "club", ID)
    assert found is not None
    assert (found.id, found.revision, found.latest, found.plan, found.log) == (ID, 1, 1, PLAN, ())
    assert found.made_at == found.changed_at
    assert found.made_at.utcoffset() is not None


def test_nobody_finds_the_order_of_someone_else(made: Store) -> None:
    """Not to read, not to list, not to change, not to delete."""
    with made.read() as session:
        assert orders.find(session, "rival", ID) is None
        assert orders.revision_of(session, "rival", ID) is None
        assert list(orders.listing(session, "rival", 10, None)) == []
        assert list(orders.listing(session, "rival", 10, ID)) == []
    with pytest.raises(Stale), made.write() as session:
        orders.change(session, "rival", ID, 1, "replaced", "", plan=PLAN)
    with pytest.raises(Stale), made.write() as session:
        orders.remove(session, "rival", ID, 1)
    with made.read() as session:
        assert orders.revision_of(session, "club", ID) == 1


def test_every_revision_stays_readable(made: Store) -> None:
    """A new plan does not touch the log, an entry does not touch the plan."""
    other = {"name": "sampler 2", "needs": []}
    with made.write() as session:
        assert (
            orders.change(session, "club", ID, 1, "logged", "", entries=[("event", {"a": 1}), ("event", {"a": 2})]) == 2
        )
        assert orders.change(session, "club", ID, 2, "replaced", "token 2", plan=other) == 3
        assert orders.change(session, "club", ID, 3, "logged", "", entries=[("receipt", {"b": 1})]) == 4
    with made.read() as session:
        states = [orders.find(session, "club", ID, revision) for revision in (1, 2, 3, 4)]
        assert [state and state.plan for state in states] == [PLAN, PLAN, other, other]
        assert [state and [entry.number for entry in state.log] for state in states] == [[], [1, 2], [1, 2], [1, 2, 3]]
        assert states[3] is not None
        assert states[3].log[2] == (3, 4, "receipt", {"b": 1})
        assert orders.find(session, "club", ID, 5) is None
        assert orders.find(session, "club", ID, 0) is None
        done = orders.revisions(session, ID, 10, None)
        assert [(one.number, one.change, one.made_by) for one in done] == [
            (4, "logged", ""),
            (3, "replaced", "token 2"),
            (2, "logged", ""),
            (1, "made", "token 1"),
        ]
        assert [one.number for one in orders.revisions(session, ID, 2, 4)] == [3, 2]
        assert [order.name for order in orders.listing(session, "club", 10, None)] == ["sampler 2"]


def test_a_stale_change_is_refused_and_leaves_nothing(made: Store) -> None:
    """Neither a revision nor an entry."""
    with made.write() as session:
        orders.change(session, "club", ID, 1, "logged", "", entries=[("event", {})])
    for expected in (1, 3):
        with pytest.raises(Stale), made.write() as session:
            orders.change(session, "club", ID, expected, "logged", "", entries=[("event", {})])
    with made.read() as session:
        found = orders.find(session, "club", ID)
    assert found is not None
    assert (found.revision, len(found.log)) == (2, 1)


def test_of_many_writers_one_wins(made: Store) -> None:
    """All expect the same revision at the same time; the others are told."""
    start, outcomes = threading.Barrier(6), []

    def change(number: int) -> None:
        start.wait(10)
        try:
            with made.write() as session:
                orders.change(session, "club", ID, 1, "replaced", f"{number}", plan={"name": str(number)})
            outcomes.append(number)
        except Stale:
            outcomes.append(None)

    writers = [threading.Thread(target=change, args=(number,)) for number in range(6)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join(20)
    winners = [outcome for outcome in outcomes if outcome is not None]
    assert (len(outcomes), len(winners)) == (6, 1)
    with made.read() as session:
        found = orders.find(session, "club", ID)
    assert found is not None
    assert (found.revision, found.plan) == (2, {"name": str(winners[0])})


def test_a_deleted_order_is_gone_whole(made: Store) -> None:
    """With its log and its verdicts; only at the revision that was meant."""
    with made.write() as session:
        orders.record(session, ID, 1, BASIS, [Changed("line", "L1", "", "fits", "")])
        with pytest.raises(Stale):
            orders.remove(session, "club", ID, 2)
        orders.remove(session, "club", ID, 1)
    with made.read() as session:
        assert orders.find(session, "club", ID) is None
        assert orders.last_check(session, ID) is None
        assert orders.verdicts(session, ID) == {}
    with made.write() as session:
        orders.create(session, "club", ID, PLAN, "")


def test_orders_are_listed_page_by_page(store: Store) -> None:
    """Each once, the newest first, whatever is added in between."""
    ids = [f"{number:032x}" for number in range(7)]
    for order_id in ids:
        with store.write() as session:
            orders.create(session, "club", order_id, PLAN, "")
    with store.read() as session:
        seen: list[str] = []
        while page := orders.listing(session, "club", 3, seen[-1] if seen else None):
            seen += [order.id for order in page]
        assert seen == ids[::-1]
        assert orders.count(session, "club") == 7
        assert orders.everyones(session) == [("club", order_id) for order_id in ids]


def test_verdicts_are_the_latest_of_each_subject(made: Store) -> None:
    """A check holds what changed, with the reason; a subject that is gone has none."""
    with made.write() as session:
        assert orders.last_check(session, ID) is None
        first = [Changed("line", "L1", "", "ask", "first"), Changed("need", "N1", "", "in doubt", "first")]
        assert orders.record(session, ID, 1, BASIS, first) == 1
        later = Basis("f2", "0.1", [{"sign": "M"}])
        assert orders.record(session, ID, 1, later, [Changed("line", "L1", "ask", "fits", "habits")]) == 2
        assert orders.record(session, ID, 1, later, []) == 3
        assert orders.record(session, ID, 1, later, [Changed("need", "N1", "in doubt", "", "revision")]) == 4
    with made.read() as session:
        assert orders.verdicts(session, ID) == {("line", "L1"): "fits"}
        last = orders.last_check(session, ID)
        assert last is not None
        assert (last.number, last.reference, last.habits) == (4, "f2", [{"sign": "M"}])
        history = orders.checks(session, ID, 10, None)
        assert [(check.number, check.reference, changes) for check, changes in history] == [
            (4, "f2", [Changed("need", "N1", "in doubt", "", "revision")]),
            (3, "f2", []),
            (2, "f2", [Changed("line", "L1", "ask", "fits", "habits")]),
            (1, "f1", first),
        ]
        assert [check.number for check, _ in orders.checks(session, ID, 2, 3)] == [2, 1]
