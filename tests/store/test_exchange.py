"""Everything as one open file: a round trip changes nothing, and what is no whole export changes nothing either."""

from collections.abc import Iterable
from pathlib import Path

import orjson
import pytest
from sqlalchemy import select
from sqlalchemy.orm import Session

from service.store import exchange, habits, orders, tokens
from service.store.exchange import RECORDS, BadExport
from service.store.orders import Basis, Changed
from service.store.store import Store

A, B = "a" * 32, "b" * 32


def fill(session: Session) -> str:
    """Store some of everything, of two owners."""
    plan = {
        "name": 'Sampler ø5 "quoted" \u2028 =1+1',
        "needs": [{"id": "N1", "quantity": 6, "share": 0.1}],
        "none": None,
    }
    orders.create(session, "club", A, plan, "token 1")
    orders.change(
        session, "club", A, 1, "logged", "", entries=[("event", {"kind": "broken"}), ("receipt", {"x": [4.99]})]
    )
    orders.record(session, A, 2, Basis("f1", "0.1", [{"sign": "M"}]), [Changed("line", "L1", "", "ask", "")])
    orders.record(session, A, 2, Basis("f2", "0.1", []), [Changed("line", "L1", "ask", "fits", "data")])
    orders.create(session, "rival", B, {}, "")
    habits.add(session, "club", "A & Söhne", "c" * 32, {"sign": "M"})
    return tokens.make(session, "club", "read")


def rows(store: Store) -> dict[str, list[tuple[object, ...]]]:
    """Return everything that a store holds."""
    with store.read() as session:
        found = {name: session.execute(select(kind.__table__)).all() for name, kind in RECORDS.items()}
    return {name: sorted([tuple(row) for row in some], key=repr) for name, some in found.items()}


def exported(store: Store, **options: object) -> list[bytes]:
    """Return the lines of an export."""
    with store.read() as session:
        return list(exchange.export_lines(session, **options))  # type: ignore[arg-type]


def take(store: Store, lines: Iterable[bytes]) -> dict[str, int]:
    """Import lines."""
    with store.write() as session:
        return exchange.import_lines(session, lines)


@pytest.fixture
def other(tmp_path: Path) -> Store:
    """An empty store of another kind or another place."""
    return Store(f"sqlite:///{tmp_path / 'other.sqlite3'}")


def test_a_round_trip_changes_nothing(store: Store, other: Store) -> None:
    """From each kind of database into another one and back again."""
    with store.write() as session:
        token = fill(session)
    lines = exported(store, tokens=True)
    new = take(other, lines)
    assert new == {"order": 2, "revision": 3, "entry": 2, "check": 2, "verdict": 2, "habit": 1, "token": 1}
    assert rows(other) == rows(store)
    assert exported(other, tokens=True)[1:] == lines[1:]
    with other.read() as session:
        assert tokens.find(session, token) is not None
        found = orders.find(session, "club", A)
    assert found is not None
    assert found.plan["name"].startswith("Sampler ø5")
    other.engine.dispose()


def test_what_is_there_already_is_passed_over(store: Store) -> None:
    """So that an import can be repeated, and an export be read where it came from."""
    with store.write() as session:
        fill(session)
    before = rows(store)
    assert set(take(store, exported(store)).values()) == {0}
    assert rows(store) == before


def test_an_owner_exports_only_what_is_theirs(store: Store) -> None:
    """And tokens only where they are asked for."""
    with store.write() as session:
        fill(session)
    records = [orjson.loads(line) for line in exported(store, owner="rival")]
    assert [record["record"] for record in records] == ["kitproof-export", "order", "revision", "end"]
    assert all(record["record"] != "token" for record in map(orjson.loads, exported(store)))
    assert B not in b"".join(exported(store, owner="club", tokens=True)).decode()


def test_an_import_is_kept_whole_or_not_at_all(store: Store, other: Store) -> None:
    """Whatever line it fails on."""
    with store.write() as session:
        fill(session)
    lines = exported(store)
    empty = rows(other)
    for cut in range(len(lines)):
        with pytest.raises(BadExport):
            take(other, lines[:cut])
    assert rows(other) == empty
    other.engine.dispose()


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda lines: [b"{", *lines[1:]], "line 1: no JSON"),
        (lambda lines: [b"[]\n", *lines[1:]], "line 1: no JSON object"),
        (lambda lines: [lines[0].replace(b'"format":2', b'"format":3'), *lines[1:]], "no export of format 1 or 2"),
        (lambda lines: lines[1:], "line 1: no export"),
        (lambda lines: [*lines, b'{"record":"order"}'], "nothing may follow the end"),
        (lambda lines: [*lines[:1], b'{"record":"spell"}\n', *lines[1:]], "line 2: 'spell' is no record"),
        (
            lambda lines: [*lines[:1], b'{"record":"order"}\n', *lines[1:]],
            "line 2: a record of this kind has the names id",
        ),
        (lambda lines: [*lines[:-2], lines[-1]], "holds .* records, its end says"),
        (lambda lines: [*lines[:2], *lines[3:]], "does not go with what is stored"),
        (
            lambda lines: [line.replace(b'"revision":2,"made_at"', b'"revision":3,"made_at"') for line in lines],
            "lacks some",
        ),
        (
            lambda lines: [line.replace(b'"revision":2,"made_at"', b'"revision":"2","made_at"') for line in lines],
            "revision",
        ),
        (lambda lines: [line.replace(b'"owner":"club"', b'"owner":"' + b"c" * 101 + b'"') for line in lines], "owner"),
        (lambda lines: [line.replace(b'+00:00"', b'"') for line in lines], "made_at is not of its kind"),
    ],
)
def test_what_is_no_export_is_told_by_its_line(store: Store, other: Store, change: object, said: str) -> None:
    """And nothing of it is kept."""
    assert callable(change)
    with store.write() as session:
        fill(session)
    with pytest.raises(BadExport, match=said):
        take(other, change(exported(store)))
    assert all(not some for some in rows(other).values())
    other.engine.dispose()


def test_a_record_that_contradicts_what_is_stored_is_refused(store: Store) -> None:
    """Nothing is overwritten by an import either."""
    with store.write() as session:
        fill(session)
    before = rows(store)
    lines = [line.replace(b'"f1"', b'"f9"') for line in exported(store)]
    with pytest.raises(BadExport, match="stored already and differs in reference"):
        take(store, lines)
    assert rows(store) == before
