"""Tokens: found by what they are, kept as digests, revoked for good."""

import pytest
from sqlalchemy import text

from service.store import tokens
from service.store.store import Store
from service.store.tokens import Bearer


def test_a_token_tells_its_owner_and_scope(store: Store) -> None:
    """Two tokens of one owner are two tokens."""
    with store.write() as session:
        first, second = tokens.make(session, "club", "write"), tokens.make(session, "club", "read", "spreadsheet")
    with store.read() as session:
        assert tokens.find(session, first) == Bearer("club", "write", first[3:19])
        assert tokens.find(session, second) == Bearer("club", "read", second[3:19])


def test_the_secret_is_not_stored(store: Store) -> None:
    """Nowhere in the row of the token."""
    with store.write() as session:
        token = tokens.make(session, "club", "write")
        row = session.execute(text("SELECT * FROM token")).one()
    assert token[20:] not in str(row)
    assert len(token) == 84


@pytest.mark.parametrize("change", [lambda token: token[:-1] + ("0" if token[-1] != "0" else "1"), str.upper])
def test_a_token_that_differs_is_none(store: Store, change: object) -> None:
    """In one character, or in case."""
    with store.write() as session:
        token = tokens.make(session, "club", "write")
    assert callable(change)
    with store.read() as session:
        assert tokens.find(session, change(token)) is None
        for other in ("", "kp_", f"kp_{'0' * 16}_{token[20:]}", "x" * 5000, token + "0"):
            assert tokens.find(session, other) is None


def test_a_revoked_token_is_none(store: Store) -> None:
    """Revoking it once more is told."""
    with store.write() as session:
        kept, revoked = tokens.make(session, "club", "write"), tokens.make(session, "club", "write")
        assert tokens.revoke(session, revoked[3:19])
        assert not tokens.revoke(session, revoked[3:19])
        assert not tokens.revoke(session, "0" * 16)
    with store.write() as session:
        assert tokens.find(session, revoked) is None
        assert tokens.find(session, kept) is not None
        assert tokens.any_valid(session)
        assert tokens.revoke(session, kept[3:19])
        assert not tokens.any_valid(session)
        assert [token.revoked_at is None for token in tokens.listing(session)] == [False, False]
