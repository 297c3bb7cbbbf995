"""Kept replies: one for each key of an owner, together with what the request changed."""

import threading
from datetime import timedelta

import pytest

from service.store import orders, replies
from service.store.model import KeptReply, now
from service.store.replies import Taken
from service.store.store import Store


def keep(store: Store, owner: str, key: str, order_id: str) -> None:
    """Make an order under a key."""
    with store.write() as session:
        place = replies.take(session, owner, key, "digest")
        orders.create(session, owner, order_id, {}, "")
        place.status, place.headers, place.reply = 201, [["ETag", '"1"']], {"id": order_id}


def test_a_reply_is_kept_for_its_owner(store: Store) -> None:
    """Another owner may use the same key."""
    keep(store, "club", "k", "a" * 32)
    keep(store, "rival", "k", "b" * 32)
    with store.read() as session:
        assert replies.find(session, "club", "k") == ("digest", 201, (("ETag", '"1"'),), {"id": "a" * 32})
        assert replies.find(session, "club", "other") is None


def test_the_same_key_again_changes_nothing(store: Store) -> None:
    """The second request finds the place taken before it has done anything."""
    keep(store, "club", "k", "a" * 32)
    with pytest.raises(Taken):
        keep(store, "club", "k", "b" * 32)
    with store.read() as session:
        assert orders.count(session, "club") == 1


def test_of_two_at_the_same_time_one_is_carried_out(store: Store) -> None:
    """The other waits for it and then finds its reply."""
    start, outcomes = threading.Barrier(4), []

    def send(number: int) -> None:
        start.wait(10)
        try:
            keep(store, "club", "k", f"{number:032x}")
            outcomes.append("done")
        except Taken:
            with store.read() as session:
                found = replies.find(session, "club", "k")
            outcomes.append("kept" if found and found.status == 201 else "lost")

    senders = [threading.Thread(target=send, args=(number,)) for number in range(4)]
    for sender in senders:
        sender.start()
    for sender in senders:
        sender.join(20)
    assert sorted(outcomes) == ["done", "kept", "kept", "kept"]
    with store.read() as session:
        assert orders.count(session, "club") == 1


def test_an_old_reply_is_forgotten(store: Store) -> None:
    """Its key is then as good as new."""
    keep(store, "club", "k", "a" * 32)
    with store.write() as session:
        row = session.get_one(KeptReply, ("club", "k"))
        row.made_at = now() - replies.KEPT_FOR - timedelta(seconds=1)
    with store.read() as session:
        assert replies.find(session, "club", "k") is None
    keep(store, "club", "k", "b" * 32)
