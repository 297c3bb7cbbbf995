"""Which verdicts changed between two proofs of an order, and why.

The way from one proof to the next goes through what each cause alone would have made of the old order: its old plan and
log under the present data, then with the present habits too, then the new plan and log. A verdict is put down to every
cause that moved it on this way.

>>> compare({("line", "L1"): "ask"}, [("habits", {("line", "L1"): "fits"})])
[Changed(subject='line', id='L1', before='ask', verdict='fits', because='habits')]
"""

from collections.abc import Sequence

from service.orders.model import OrderCheck
from service.store.orders import Changed, Verdicts

Cause = tuple[str, Verdicts]
"""What changed, and the verdicts that it led to."""


def compare(before: Verdicts, causes: Sequence[Cause]) -> list[Changed]:
    """Return every verdict that is another one at the end, with the causes that moved it; in the order of subjects."""
    after = causes[-1][1] if causes else before
    changed = []
    for subject in sorted({*before, *after}):
        first, last = before.get(subject, ""), after.get(subject, "")
        if first == last:
            continue
        moved, here = [], first
        for name, verdicts in causes:
            there = verdicts.get(subject, "")
            if there != here:
                moved.append(name)
            here = there
        changed.append(Changed(*subject, first, last, ", ".join(moved)))
    return changed


def verdicts(result: OrderCheck) -> dict[tuple[str, str], str]:
    """Return every verdict of a check: on the order, its lines, its needs and the gates of its steps."""
    found = {("order", ""): "ready" if result.ready else "not ready"}
    found |= {("line", one.supply.id): one.word for one in result.lines}
    found |= {("need", one.need.id): one.state for one in result.needs}
    found |= {("gate", one.step.id): "open" if one.open else "closed" for one in result.gates}
    return found
