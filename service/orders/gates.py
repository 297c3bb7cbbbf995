"""Whether a step may start: every need of it covered by what fits, received, and proved where it was measured.

An irreversible step waits for everything unless it lists its needs. What comes before a step in the plan is not the
gate's matter: it looks at parts.
"""

from collections.abc import Mapping

from service.orders.model import Cover, Gate, Order, Step, Supply
from service.orders.schedule import needs_of


def gates(
    order: Order,
    covers: Mapping[str, Cover],
    supplies: Mapping[str, Supply],
    proofs: Mapping[str, str],
    clashes: Mapping[str, str],
) -> tuple[Gate, ...]:
    """Return the gate of each step; ``clashes`` are needs whose parts do not match each other, with the reason."""
    return tuple(gate(step, order, covers, supplies, proofs, clashes) for step in order.steps)


def gate(
    step: Step,
    order: Order,
    covers: Mapping[str, Cover],
    supplies: Mapping[str, Supply],
    proofs: Mapping[str, str],
    clashes: Mapping[str, str],
) -> Gate:
    """Return whether one step may start, and what keeps it closed."""
    wanted = needs_of(step, order)
    waiting = [cover for name, cover in covers.items() if name in wanted]
    because = [
        reason
        for cover in waiting
        if (reason := clashes.get(cover.need.id) or _closed(cover, supplies, proofs)) is not None
    ]
    return Gate(step, not because, tuple(cover.need.id for cover in waiting), tuple(because))


def _closed(cover: Cover, supplies: Mapping[str, Supply], proofs: Mapping[str, str]) -> str | None:
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
        if need.measure and proof is None:
            return f"{need.name}: {share.supply} ({supplies[share.supply].line}) has to be measured and is not"
    return None
