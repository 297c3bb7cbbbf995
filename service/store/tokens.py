"""Tokens: made once, shown once, kept as a digest, revoked at any time.

A token is ``kp_<id>_<secret>``: 256 random bits behind an id by which it is found. Because nobody can guess the secret,
a plain SHA-256 of it is enough, and it is compared in constant time.
"""

import hashlib
import hmac
import re
import secrets
from collections.abc import Sequence
from typing import NamedTuple

from sqlalchemy import exists, select
from sqlalchemy.orm import Session

from service.store.model import Token, now

SCOPES = ("read", "write")
"""What a token lets its bearer do; ``write`` includes reading."""

LOCAL = "local"
"""The owner of what is stored by a caller on this machine who needs no token."""

_FORM = re.compile(r"kp_([0-9a-f]{16})_([0-9a-f]{64})")
_NOBODYS = "0" * 64


class Bearer(NamedTuple):
    """Who a request comes from."""

    owner: str
    scope: str
    token_id: str


def make(session: Session, owner: str, scope: str, note: str = "") -> str:
    """Store a new token and return it; it cannot be shown again."""
    token_id, secret = secrets.token_hex(8), secrets.token_hex(32)
    session.add(Token(id=token_id, owner=owner, scope=scope, digest=_digest(secret), note=note))
    session.flush()
    return f"kp_{token_id}_{secret}"


def find(session: Session, given: str) -> Bearer | None:
    """Return who bears a token, None where it is no token, not known, or revoked."""
    form = _FORM.fullmatch(given)
    if form is None:
        return None
    token = session.get(Token, form[1])
    known = token is not None and token.revoked_at is None
    # Compared in any case, so that an id that is known takes no longer than one that is not.
    same = hmac.compare_digest(token.digest if token is not None else _NOBODYS, _digest(form[2]))
    return Bearer(token.owner, token.scope, token.id) if token is not None and known and same else None


def revoke(session: Session, token_id: str) -> bool:
    """Revoke a token by its id; whether there was one that was not revoked yet."""
    token = session.get(Token, token_id)
    if token is None or token.revoked_at is not None:
        return False
    token.revoked_at = now()
    session.flush()
    return True


def listing(session: Session) -> Sequence[Token]:
    """Return every token, by owner and age."""
    return session.execute(select(Token).order_by(Token.owner, Token.made_at)).scalars().all()


def any_valid(session: Session) -> bool:
    """Return whether there is a token that is not revoked."""
    return bool(session.execute(select(exists().where(Token.revoked_at.is_(None)))).scalar_one())


def _digest(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()
