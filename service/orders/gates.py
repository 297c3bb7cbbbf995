"""Whether a step may start: every need of it covered by what fits, received, and proved where it was measured.

An irreversible step waits for everything unless it lists its needs. What comes before a step in the plan is not the
gate's matter: it looks at parts. A need with ``measure`` waits for every dimension that the sheet for the bench asks
for on its bags; where the sheet asks for none, whatever was measured proves the bag.
"""

from collections.abc import Iterable, Mapping

from service.orders.bench import asked_for, covered_by, needs_on
from service.orders.model import Cover, Gate, Order, Step, Supply
from service.orders.schedule import needs_of
from service.receipts.bench import Open, not_proved

_ToProve = Mapping[tuple[str, str], tuple[Open, ...]]
"""Need and line -> the dimensions that are still to be proved."""


def gates(
    order: Order,
    covers: Mapping[str, Cover],
    supplies: Mapping[str, Supply],
    proofs: Mapping[str, str],
    clashes: Mapping[str, str],
) -> tuple[Gate, ...]:
    """Return the gate of each step; ``clashes`` are needs whose parts do not match each other, with the reason."""
    to_prove = _to_prove(covers, supplies)
    closed = {
        name: clashes.get(cover.need.id) or _closed(cover, supplies, proofs, to_prove) for name, cover in covers.items()
    }
    return tuple([_gate(step, order, covers, closed) for step in order.steps])


def _gate(step: Step, order: Order, covers: Mapping[str, Cover], closed: Mapping[str, str | None]) -> Gate:
    """Return whether one step may start, and what keeps it closed."""
    wanted = needs_of(step, order)
    waiting = [name for name in covers if name in wanted]
    because = [reason for name in waiting if (reason := closed[name]) is not None]
    return Gate(step, not because, tuple(waiting), tuple(because))


def _to_prove(covers: Mapping[str, Cover], supplies: Mapping[str, Supply]) -> _ToProve:
    """Return what is still to be proved on each bag for the needs that have to be measured."""
    if not any(cover.need.measure for cover in covers.values()):
        return {}
    covered = covered_by(covers.values())
    wanted = {cover.need.id: cover.need for cover in covers.values()}
    found = {}
    for cover in covers.values():
        if not cover.need.measure or cover.state != "covered":
            continue
        for share in cover.shares:
            supply = supplies[share.supply]
            asked = asked_for(cover.need, supply.line, needs_on(supply, covered, wanted), wanted)
            found[cover.need.id, supply.id] = not_proved(asked, supply.receipts)
    return found


def _closed(cover: Cover, supplies: Mapping[str, Supply], proofs: Mapping[str, str], to_prove: _ToProve) -> str | None:
    """Return why a need is not fulfilled, or None where it is."""
    need = cover.need
    if cover.state != "covered":
        return cover.text
    coming = [one for one in cover.shares if not one.here]
    if coming:
        much = sum(one.quantity for one in coming)
        lines = ", ".join(dict.fromkeys(one.supply for one in coming))
        required, much_said = need.required.said(cover.required), need.required.said(much)
        return f"{need.name}: {required} needed, {much_said} still to come ({lines})"
    for share in cover.shares:
        proof = proofs.get(share.supply)
        if proof == "not provable":
            return f"{need.name}: what was measured on {share.supply} proves nothing; measure with a finer instrument"
        if not need.measure:
            continue
        left = to_prove[need.id, share.supply]
        bag = f"{need.name}: {share.supply} ({supplies[share.supply].line})"
        if proof is None:
            return f"{bag} has to be measured and is not{f': {_listed(left)}' if left else ''}"
        missing = [one for one in left if not one.measured]
        if missing:
            return f"{bag} is not measured in full; still to be measured: {_listed(missing)}"
        if left:
            return f"{bag} was measured, but what it is for asks for more than that proves: {_listed(left)}"
    return None


def _listed(left: Iterable[Open]) -> str:
    """Return dimensions that are to be proved, each with its limits."""
    return ", ".join(
        f"{one.asked.dimension.replace('_', ' ')} {one.asked.lower} to {one.asked.upper} mm" for one in left
    )
