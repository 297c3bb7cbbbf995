"""Suppliers' habits in the store: what one supplier means by a sign, as its buyer has learnt it."""

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import delete, func, select
from sqlalchemy.orm import Session

from service.store.model import Habit


def add(session: Session, owner: str, supplier: str, habit_id: str, body: dict[str, Any]) -> Habit:
    """Store a habit of a supplier."""
    habit = Habit(id=habit_id, owner=owner, supplier=supplier, body=body)
    session.add(habit)
    session.flush()
    return habit


def of(session: Session, owner: str, suppliers: Iterable[str]) -> Sequence[Habit]:
    """Return the habits of suppliers, in the order in which they were noted."""
    query = select(Habit).where(Habit.owner == owner, Habit.supplier.in_(list(suppliers)))
    return session.execute(query.order_by(Habit.supplier, Habit.made_at, Habit.id)).scalars().all()


def suppliers(session: Session, owner: str) -> list[tuple[str, int]]:
    """Return the suppliers with habits, and how many each has."""
    query = select(Habit.supplier, func.count()).where(Habit.owner == owner)
    rows = session.execute(query.group_by(Habit.supplier).order_by(Habit.supplier))
    return [(supplier, number) for supplier, number in rows]


def remove(session: Session, owner: str, supplier: str, habit_id: str) -> bool:
    """Forget a habit; whether there was one."""
    query = delete(Habit).where(Habit.owner == owner, Habit.supplier == supplier, Habit.id == habit_id)
    return bool(session.execute(query.returning(Habit.id)).scalar_one_or_none())
