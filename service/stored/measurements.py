"""What was measured at the bench on the bags of a stored order: entries of its log, one for each dimension of a bag.

An entry keeps the values as they were typed and as they were read, with the limits that they were held against. It is
never changed: of several for the same dimension and limits of a bag the last one counts, and one can be withdrawn. It
counts no more once the plan says another line, asks for other limits, or names the line for another need: then the
same values may prove something else.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Any, Literal, NamedTuple

from service.orders.bench import Bag, measured_for
from service.orders.fields import LONGEST_NAME, LONGEST_TEXT, day, some_of, text
from service.orders.model import Order
from service.receipts.bench import ToMeasure
from service.receipts.intake import parse_receipt
from service.receipts.values import read_values
from service.stored import log
from service.strength.measuring import MeasuredDecision
from service.verdict.model import CheckError

Fields = dict[str, Any]

FIELDS = ("line", "dimension", "measured", "instrument", "uncertainty", "limits", "by", "on", "note")
"""What is told of a measurement."""

AS_GIVEN = "as given"

State = Literal["counts", "replaced", "withdrawn", "passed over"]


class Entry(NamedTuple):
    """A measurement of the log: its number and body, what became of it, and why or by which entry."""

    number: int
    body: Mapping[str, Any]
    state: State
    because: str

    @property
    def outcome(self) -> MeasuredDecision:
        """What it proves."""
        return log.outcome(self.body)


def measurement(given: Mapping[str, Any], where: str, today: date, bags: Mapping[str, Bag]) -> Fields:
    """Return a measurement as it is kept: values read, limits and uncertainty found, the day filled in.

    The limits are those that the sheet for the bench asks for, unless the measurement states its own.

    Raises:
        CheckError: a field is missing or not understood, or nothing asks for the dimension.
    """
    for field, value in given.items():
        if field not in FIELDS:
            raise CheckError(f"{where}.{field}", value, f"the fields {', '.join(FIELDS)}", "measured")
    line = text(given.get("line"), f"{where}.line", LONGEST_NAME, "L1")
    bag = bags.get(line)
    if bag is None:
        raise CheckError(
            f"{where}.line", given.get("line"), f"one of {some_of(bags)}" if bags else "a known line", "L1"
        )
    dimension = text(given.get("dimension"), f"{where}.dimension", LONGEST_NAME, "outer_diameter")
    dimension = dimension.strip().lower().replace(" ", "_")
    lower, upper, source = _limits(given.get("limits"), dimension, bag, where)
    values = read_values(given.get("measured"), f"{where}.measured", lower, upper)
    receipt: Fields = {"measured": [str(one) for one in values], "dimension": dimension, "limits": _ends(lower, upper)}
    receipt |= {name: given[name] for name in ("instrument", "uncertainty") if given.get(name) not in (None, "")}
    uncertainty = parse_receipt(receipt, where).uncertainty
    typed = given["measured"]
    kept: Fields = {
        "line": line,
        "of": bag.result.supply.line,
        "dimension": dimension,
        "measured": typed if isinstance(typed, str) else " ".join(str(one) for one in values),
        "values": receipt["measured"],
        "limits": {**receipt["limits"], "from": source},
        "needs": [need.id for need in bag.needs],
        "uncertainty": {"value": str(uncertainty.value), "from": uncertainty.said},
    }
    for name, longest in (("instrument", LONGEST_NAME), ("by", LONGEST_NAME), ("note", LONGEST_TEXT)):
        if given.get(name) not in (None, ""):
            kept[name] = text(given[name], f"{where}.{name}", longest)
    return {**kept, "on": (day(given.get("on"), f"{where}.on") or today).isoformat()}


def _limits(given: Any, dimension: str, bag: Bag, where: str) -> tuple[Decimal | None, Decimal | None, str]:
    asked = [one for one in bag.measures if one.dimension == dimension]
    if given not in (None, ""):
        receipt = parse_receipt({"limits": given, "measured": [1], "uncertainty": 0}, where)
        alike = next((one for one in asked if (one.lower, one.upper) == (receipt.lower, receipt.upper)), None)
        return receipt.lower, receipt.upper, AS_GIVEN if alike is None else alike.limits_from
    if len(asked) == 1:
        return asked[0].lower, asked[0].upper, asked[0].limits_from
    if asked:
        accepted = "the limits: the bag is for mates that ask for different ones"
        raise CheckError(f"{where}.limits", None, accepted, f'{{"lower": {asked[0].lower}, "upper": {asked[0].upper}}}')
    names = ", ".join(dict.fromkeys(one.dimension for one in bag.measures))
    accepted = f"{names}; another one with its limits" if names else "a dimension together with its limits"
    raise CheckError(f"{where}.dimension", dimension or None, accepted, names.split(",")[0] or "length")


def _ends(lower: Decimal | None, upper: Decimal | None) -> dict[str, str | None]:
    return {"lower": None if lower is None else str(lower), "upper": None if upper is None else str(upper)}


def asked_by(one: ToMeasure) -> dict[str, str | None]:
    """Return the limits of what the sheet asks for, as a measurement states them."""
    return _ends(one.lower, one.upper)


def key_of_measure(one: ToMeasure) -> tuple[str, str | None, str | None]:
    """Return the same of what the sheet for the bench asks for."""
    ends = asked_by(one)
    return one.dimension, ends["lower"], ends["upper"]


# --- what became of each ---------------------------------------------------------------------------------------------


def outdated(told: Iterable[log.Told], planned: Order) -> dict[int, str]:
    """Return the measurements that the plan has left behind, by number, each with the reason."""
    supplies = {supply.id: supply for supply in planned.supplies}
    needs = {need.id: need for need in planned.needs}
    found: dict[int, str] = {}
    for number, kind, body in told:
        supply = supplies.get(body["line"]) if kind == "measurement" else None
        if supply is None:
            continue
        lead = f"entry {number} measured {supply.id}"
        added = [name for name in supply.serves if name not in body["needs"]]
        of = [needs[name] for name in body["needs"] if name in needs]
        if supply.line != body["of"]:
            found[number] = f"{lead} as {body['of']!r}, which the plan has changed"
        elif body["limits"]["from"] == AS_GIVEN:
            continue
        elif added:
            found[number] = f"{lead} before it was for {', '.join(added)} too"
        elif log.key_of(body) not in {key_of_measure(one) for one in measured_for(supply.line, of, needs)}:
            ends = f"{body['limits']['lower']} to {body['limits']['upper']} mm"
            found[number] = f"{lead} against {ends}, which the design does not ask for any more"
    return found


def entries(told: Sequence[log.Told], planned: Order) -> list[Entry]:
    """Return every measurement of a log, in order, with what became of it."""
    gone, old = log.withdrawn(told), outdated(told, planned)
    known = {supply.id for supply in planned.supplies}
    found: list[Entry] = []
    latest: dict[tuple[Any, ...], int] = {}
    for number, kind, body in told:
        if kind == "receipt" and number not in gone:
            for key in [key for key in latest if key[0] == body["line"]]:
                place = latest.pop(key)
                found[place] = found[place]._replace(state="replaced", because=f"by entry {number}")
        if kind != "measurement":
            continue
        state: State = "counts"
        because = ""
        if number in gone:
            state, because = "withdrawn", f"by entry {gone[number]}"
        elif body["line"] not in known:
            state, because = "passed over", f"the plan has no {body['line']} any more"
        elif number in old:
            state, because = "passed over", old[number]
        else:
            key = (body["line"], *log.key_of(body))
            if key in latest:
                found[latest[key]] = found[latest[key]]._replace(state="replaced", because=f"by entry {number}")
            latest[key] = len(found)
        found.append(Entry(number, body, state, because))
    return found
