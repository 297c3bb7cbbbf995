"""Everything as one open file, and back.

The file is JSON Lines in UTF-8: one JSON object per line, each with ``record`` saying what it is. First stands
``kitproof-export`` with the number of the format, then come orders, revisions, entries, checks, verdicts and habits,
each with the columns of its table, moments in ISO 8601; last stands ``end`` with the number of records between, so that
a file that breaks off is noticed. Tokens are left out unless asked for, and are then digests all the same.

An import is kept whole or not at all. A record that is there already, alike, is passed over; one that differs stops it.
"""

from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import Any

import orjson
from sqlalchemy import Table, func, insert, select
from sqlalchemy.exc import DataError, IntegrityError
from sqlalchemy.orm import Session

from service.store.model import Base, Check, Entry, Habit, Json, Moment, Order, Revision, Token, Verdict, now

FORMAT = 2
"""The format that is written; from 2 on entries can be measurements."""

READ = (1, 2)
"""The formats that are read."""

RECORDS: dict[str, type[Base]] = {
    "order": Order,
    "revision": Revision,
    "entry": Entry,
    "check": Check,
    "verdict": Verdict,
    "habit": Habit,
    "token": Token,
}
"""What a record is called -> what it is; none needs one that comes after it."""


class BadExport(ValueError):  # noqa: N818 - it is the file that is bad
    """A file is no export, breaks off, or contradicts what is stored; the message names the line."""


def export_lines(session: Session, *, owner: str | None = None, tokens: bool = False) -> Iterator[bytes]:
    """Return the lines of an export, of one owner or of all."""
    if session.get_bind().dialect.name == "postgresql":
        # All records have to be of one moment; SQLite always reads so.
        session.connection(execution_options={"isolation_level": "REPEATABLE READ"})
    yield _line({"record": "kitproof-export", "format": FORMAT, "made_at": now().isoformat()})
    number = 0
    for name, kind in RECORDS.items():
        if kind is Token and not tokens:
            continue
        table = _table(kind)
        query = select(table).order_by(*table.primary_key.columns)
        if owner is not None:
            orders = select(Order.id).where(Order.owner == owner)
            query = query.where(table.c.owner == owner if "owner" in table.c else table.c.order_id.in_(orders))
        for row in session.execute(query.execution_options(yield_per=500)).mappings():
            number += 1
            yield _line({"record": name, **row})
    yield _line({"record": "end", "records": number})


def import_lines(session: Session, lines: Iterable[bytes]) -> dict[str, int]:
    """Store the records of an export and return how many of each kind were new.

    Raises:
        BadExport: names the line at fault; nothing may be kept then.
    """
    new = dict.fromkeys(RECORDS, 0)
    number, records, end = 0, 0, None
    for number, line in enumerate(lines, start=1):
        given = _given(number, line)
        name = given.pop("record", None)
        if number == 1:
            if name != "kitproof-export" or given.get("format") not in READ:
                raise BadExport(f"line 1: no export of format {' or '.join(map(str, READ))}")
        elif end is not None:
            raise BadExport(f"line {number}: nothing may follow the end")
        elif name == "end":
            end = given.get("records")
        elif name in RECORDS:
            records += 1
            new[name] += _take(session, number, RECORDS[name], given)
        else:
            raise BadExport(f"line {number}: {name!r} is no record; there are: {', '.join(RECORDS)}")
    if end is None:
        raise BadExport(f"the file breaks off after line {number}: its end is missing")
    if end != records:
        raise BadExport(f"the file holds {records} records, its end says {end}")
    _require_whole(session)
    return new


def _require_whole(session: Session) -> None:
    """Refuse an order whose revisions are not 1 to its latest, or whose first one has no plan."""
    whole = (
        select(Revision.order_id)
        .join(Order, Order.id == Revision.order_id)
        .group_by(Revision.order_id, Order.revision)
        .having(func.count() == Order.revision, func.max(Revision.number) == Order.revision)
    )
    planned = select(Revision.order_id).where(Revision.number == 1, Revision.plan.is_not(None))
    broken = select(Order.id).where(Order.id.not_in(whole) | Order.id.not_in(planned)).limit(1)
    order_id = session.execute(broken).scalar_one_or_none()
    if order_id is not None:
        raise BadExport(f"order {order_id} lacks some of its revisions")


def _line(record: dict[str, Any]) -> bytes:
    return orjson.dumps(record, option=orjson.OPT_APPEND_NEWLINE)


def _table(kind: type[Base]) -> Table:
    table = kind.__table__
    assert isinstance(table, Table)  # noqa: S101 - every mapped class here has a table of its own
    return table


def _given(number: int, line: bytes) -> dict[str, Any]:
    try:
        given = orjson.loads(line)
    except orjson.JSONDecodeError as error:
        raise BadExport(f"line {number}: no JSON: {error}") from None
    if not isinstance(given, dict):
        raise BadExport(f"line {number}: no JSON object")
    return given


def _take(session: Session, number: int, kind: type[Base], given: dict[str, Any]) -> bool:
    """Store a record; whether it was new."""
    table = _table(kind)
    if set(given) != set(table.c.keys()):
        raise BadExport(f"line {number}: a record of this kind has the names {', '.join(table.c.keys())}")
    values = {}
    for column in table.c:
        try:
            values[column.name] = _value(column.type, bool(column.nullable), given[column.name])
        except (TypeError, ValueError):
            raise BadExport(f"line {number}: {column.name} is not of its kind: {given[column.name]!r:.100}") from None
    key = [column == values[column.name] for column in table.primary_key.columns]
    stored = session.execute(select(table).where(*key)).mappings().one_or_none()
    if stored is not None:
        if dict(stored) != values:
            name = next(name for name, value in values.items() if stored[name] != value)
            raise BadExport(f"line {number}: a record of the same key is stored already and differs in {name}")
        return False
    try:
        session.execute(insert(table).values(values))
    except (IntegrityError, DataError) as error:
        raise BadExport(f"line {number}: the record does not go with what is stored: {error.orig!s:.200}") from None
    return True


def _value(column: Any, nullable: bool, given: Any) -> Any:
    """Return a column's value from its JSON.

    Raises:
        TypeError, ValueError: it is not of the column's kind.
    """
    if given is None and nullable:
        return None
    if isinstance(column, Json):
        if not isinstance(given, dict | list):
            raise TypeError
        return given
    if isinstance(column, Moment):
        moment = datetime.fromisoformat(given)
        if moment.tzinfo is None:
            raise ValueError("a moment without its zone")
        return moment
    if not isinstance(given, column.python_type) or isinstance(given, bool):
        raise TypeError
    longest = getattr(column, "length", None)
    if longest is not None and len(given) > longest:
        raise ValueError("too long")
    return given
