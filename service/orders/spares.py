"""What to buy spare: what breaks easily, takes long to replace and is cheap, with the arithmetic shown.

Pieces that break or get lost while building: of n bought at least those needed are good (binomial). Pieces that fail in
use: so many failures are expected in the hours of use (Poisson), for the first interval only.
"""

from collections.abc import Callable, Mapping
from decimal import Decimal
from functools import cache
from typing import NamedTuple

from reference import tables
from service.orders.model import Cover, Need, Spare, Supply
from service.reading import read
from service.strength.chance import buy_for, enough_good, expected_failures, poisson_at_most, spares_for

LONG_DAYS = 14
"""From so many days to replace it a part takes long."""

CHEAP = Decimal(2)
"""Up to this price of a piece it is cheap, in whatever money the order is written."""

FRAGILE_SHARE = Decimal("0.05")
FORGOTTEN_SHARE = Decimal("0.01")
"""Share that is reckoned with where nothing is said: one piece in a hundred is lost or faulty (an estimate)."""

CONFIDENCE = 0.95

Again = Callable[[Need], int | None]


class _Loss(NamedTuple):
    share: Decimal
    why: str
    source: str


@cache
def _by_family() -> Mapping[str, _Loss]:
    return {
        row.text("family"): _Loss(row.decimal("share"), row.text("why"), row.source)
        for row in tables.load("assembly_losses")
    }


def spares(
    covers: Mapping[str, Cover], supplies: Mapping[str, Supply], left: Mapping[str, int], again: Again
) -> tuple[Spare, ...]:
    """Return what to buy spare; ``left`` is what is left over for a need, ``again`` how long it takes to get more."""
    found: list[Spare] = []
    for cover in covers.values():
        if not cover.required or cover.need.required.unit != "piece":
            continue
        advice = _advice(cover, supplies, left.get(cover.need.id, 0), again(cover.need))
        if advice is not None:
            found.append(advice)
    return tuple(found)


def _advice(cover: Cover, supplies: Mapping[str, Supply], have: int, days: int | None) -> Spare | None:
    need, required = cover.need, cover.required
    loss = _loss(cover, supplies)
    price = need.price or min((p for p in (supplies[one.supply].price for one in cover.shares) if p), default=None)
    fragile = loss.share > FORGOTTEN_SHARE
    slow = days is not None and days >= LONG_DAYS
    cheap = price is not None and price <= CHEAP
    if not (fragile and (slow or cheap or days is None)) and not (slow and cheap) and need.mtbf_hours is None:
        return None
    why = [f"breaks easily: {loss.why}"] if fragile else []
    why += [f"takes {days} days to replace"] if slow else []
    why += [f"costs {price} apiece"] if cheap else []
    spare = buy_for(required, float(loss.share), CONFIDENCE) - required
    text = _binomial(required, spare, loss.share)
    source = f"binomial; {loss.source}"
    if need.mtbf_hours and need.hours:
        expected = expected_failures(required, float(need.hours), float(need.mtbf_hours))
        failing = spares_for(expected, CONFIDENCE)
        why.append(f"fails in use: {need.hours} hours, {need.mtbf_hours} between failures")
        chance = poisson_at_most(failing, expected)
        text += f" In use {expected:.2f} failures are expected; {failing} spare cover them with {chance:.1%}."
        source += "; Poisson, first interval only"
        spare += failing
    buy = max(spare - have, 0)
    if spare == 0:
        return None
    text += f" {have} left over already, buy {buy} more." if have else f" Buy {buy} more."
    return Spare(need.id, buy, have, tuple(why), text, source)


def _binomial(required: int, spare: int, share: Decimal) -> str:
    chance = enough_good(required + spare, required, float(share))
    text = f"{required} needed, {share:.0%} break or get lost: with {spare} spare the chance of enough is {chance:.1%}"
    if not spare:
        return text + "."
    return f"{text}, with {spare - 1} spare {enough_good(required + spare - 1, required, float(share)):.1%}."


def _loss(cover: Cover, supplies: Mapping[str, Supply]) -> _Loss:
    """Return the share of pieces that break: as stated, by the family of what covers the need, or an estimate."""
    need = cover.need
    if need.breaks is not None:
        return _Loss(need.breaks, "by the order's own figure", "the order itself")
    lines = [supplies[one.supply].line for one in cover.shares] or ([need.part] if need.part else [])
    for line in lines:
        for reading in read(line).readings[:1]:
            if reading.family in _by_family():
                return _by_family()[reading.family]
    if need.fragile:
        return _Loss(FRAGILE_SHARE, "the order says so", "an estimate of 5 %")
    return _Loss(FORGOTTEN_SHARE, "", "an estimate of 1 %")
