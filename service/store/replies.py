"""Replies kept for repeated requests: one for each Idempotency-Key of an owner, stored with what the request changed.

Whoever sends the same key again gets the same reply and changes nothing. The place is taken first in the transaction
that makes the change: of two requests with one key at the same time, the second waits there and then finds the reply.
"""

from datetime import timedelta
from typing import Any, NamedTuple

from sqlalchemy import delete
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from service.store.model import KeptReply, now

KEPT_FOR = timedelta(hours=24)
"""How long a key is remembered."""


class Taken(Exception):  # noqa: N818 - it is what became of the key
    """Another request with the same key was first."""


class Kept(NamedTuple):
    """A kept reply; ``request`` is the digest of the request that it belongs to."""

    request: str
    status: int
    headers: tuple[tuple[str, str], ...]
    reply: dict[str, Any]


def find(session: Session, owner: str, key: str) -> Kept | None:
    """Return the reply that is kept under a key."""
    row = session.get(KeptReply, (owner, key))
    if row is None or row.made_at < now() - KEPT_FOR:
        return None
    return Kept(row.request, row.status, tuple([(name, value) for name, value in row.headers]), row.reply)


def take(session: Session, owner: str, key: str, request: str) -> KeptReply:
    """Take the place of a key, to be filled before the transaction ends; old replies are forgotten.

    Raises:
        Taken: the key is in use; the transaction is over.
    """
    session.execute(delete(KeptReply).where(KeptReply.made_at < now() - KEPT_FOR))
    row = KeptReply(owner=owner, key=key, request=request, status=0, headers=[], reply={})
    session.add(row)
    try:
        session.flush()
    except IntegrityError as error:
        raise Taken from error
    return row
