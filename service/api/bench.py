"""The sheet for the bench as a page: what to measure on each bag, the values that were entered, what they prove.

With a stored order the values are kept: each as a measurement of its log, once however often the form is sent, and only
for the revision that the page showed. A value that is changed is a new measurement, one that is cleared is withdrawn.
What is not understood is said beside its field; then nothing is stored, and everything typed stays.
"""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

import orjson
from flask import Blueprint, Response, request

from reference import tables
from service.api import orders as checked_orders
from service.api.callers import caller, writer
from service.api.once import store
from service.api.pages import html, proofed_form
from service.api.stored_orders import change_order, proved_now
from service.api.trace import request_id
from service.errors import BadValue, NoPrecondition, NotFound, RequestError, Stale
from service.orders.bench import Bag, bags
from service.orders.model import OrderCheck
from service.pages import orders as order_pages
from service.receipts.bench import ToMeasure, not_proved, tells_apart
from service.receipts.check import check as check_receipt
from service.receipts.intake import parse_receipt
from service.receipts.values import read_values
from service.store.orders import Made
from service.stored import log, measurements
from service.stored import orders as stored_orders
from service.verdict.model import CheckError

blueprint = Blueprint("bench", __name__)

Form = Mapping[str, str]
Told = list[tuple[str, str, Mapping[str, Any]]]

_MOST_BOXES = 7
_CLEARED = "cleared at the bench"


@dataclass(frozen=True, slots=True)
class _Known:
    """What is kept of an order's measurements: those that count by bag and key, all by bag, and who told each."""

    counting: Mapping[tuple[Any, ...], measurements.Entry]
    of_line: Mapping[str, list[measurements.Entry]]
    told: Mapping[int, tuple[str, str]]


_NOTHING = _Known({}, {}, {})


@dataclass(slots=True)
class _Sheet:
    """What a page says besides the bags."""

    problems: dict[str, str] = field(default_factory=dict)
    homeless: list[str] = field(default_factory=list)
    problem: Mapping[str, Any] | None = None
    notice: str = ""
    changes: list[Any] = field(default_factory=list)
    status: int = 200


@blueprint.get("/bench")
def bench_of_stored() -> Response:
    """Show what to measure on each bag of an order that is kept, with what was measured."""
    return _page_of(request.args.get("order", ""), None, _Sheet())


@blueprint.post("/bench")
def bench() -> Response:
    """Show what to measure on each bag of an order, and what the values that were entered prove; keep them if asked."""
    order = request.args.get("order", "")
    if not order:
        return proofed_form(
            lambda found, kept: html(
                order_pages.bench_page(_bags(found, request.form, _NOTHING, {}), _instruments(), kept)
            )
        )
    given = checked_orders.text_fields()
    if "store" not in given:
        sheet = _Sheet(notice="Not kept: this only shows what the values prove." if _filled(given) else "")
        return _page_of(order, given, sheet)
    return _keep(order, given)


def _filled(given: Form) -> bool:
    return any(value.strip() for name, value in given.items() if name.startswith("measured."))


# --- showing ---------------------------------------------------------------------------------------------------------


def _page_of(order: str, given: Form | None, sheet: _Sheet) -> Response:
    """Return the page of a stored order; ``given`` is what was typed, None where what is kept is shown."""
    change, name = proved_now(order)
    found = change.proof.result
    shown = bags(found)
    known = _known(order)
    if given is not None:
        sheet.problems = _mistakes(shown, given, known)
        sheet.homeless = _homeless(shown, given)
    text = order_pages.bench_page(
        _bags(found, given, known, sheet.problems),
        _instruments(),
        {},
        stored=order,
        name=name,
        revision=change.expected,
        by=(given or {}).get("by", ""),
        mistakes=list(sheet.problems.items()),
        homeless=sheet.homeless,
        problem=sheet.problem,
        notice=sheet.notice,
        changes=sheet.changes,
    )
    return html(text, sheet.status)


def _known(order: str) -> _Known:
    stored, entries, made = stored_orders.measured(store(), caller().owner, order)
    of_line: dict[str, list[measurements.Entry]] = {}
    for one in entries:
        of_line.setdefault(one.body["line"], []).append(one)
    counting = {(one.body["line"], *log.key_of(one.body)): one for one in entries if one.state == "counts"}
    return _Known(counting, of_line, {entry.number: _told(made, entry.revision) for entry in stored.log})


def _told(made: Made, revision: int) -> tuple[str, str]:
    """Return when a revision was made, to the minute, and with which token."""
    made_at, made_by = made[revision]
    return made_at.strftime("%Y-%m-%d %H:%M UTC"), made_by


@cache
def _instruments() -> tuple[str, ...]:
    return tuple(dict.fromkeys(row.text("instrument") for row in tables.load("instruments")))


def _names(bag: Bag) -> list[tuple[str, ToMeasure]]:
    """Return what to measure on a bag, each with what its fields are called."""
    return [(f"{bag.result.supply.id}.{place}", one) for place, one in enumerate(bag.measures, start=1)]


def _key_text(one: ToMeasure) -> str:
    return " ".join(str(part) for part in measurements.key_of_measure(one))


def _bags(found: OrderCheck, given: Form | None, known: _Known, problems: Mapping[str, str]) -> list[dict[str, Any]]:
    return [_bag(bag, given, known, problems) for bag in bags(found)]


def _bag(bag: Bag, given: Form | None, known: _Known, problems: Mapping[str, str]) -> dict[str, Any]:
    supply = bag.result.supply
    first = next((one for _, one in bag.result.judgements if one.word == bag.result.word), None)
    asked = {measurements.key_of_measure(one) for one in bag.measures}
    besides = [one for one in known.of_line.get(supply.id, ()) if log.key_of(one.body) not in asked]
    return {
        "id": supply.id,
        "line": supply.line,
        "said": supply.said,
        "supplier": supply.supplier,
        "needs": [need.name for need in bag.needs],
        "verdict": bag.result.word,
        "proof": bag.result.proof,
        "unmeasured": [one.asked.dimension for one in not_proved(bag.measures, supply.receipts) if not one.measured],
        "order_text": first.order_text if first else "",
        "apart": tells_apart(supply.line),
        "measures": [_measure(name, one, bag, given, known, problems) for name, one in _names(bag)],
        "besides": [_entry(one, known) for one in besides],
    }


def _measure(
    name: str, one: ToMeasure, bag: Bag, given: Form | None, known: _Known, problems: Mapping[str, str]
) -> dict[str, Any]:
    """Return what to measure with the values for it, and what they prove."""
    supply = bag.result.supply
    key = measurements.key_of_measure(one)
    kept = known.counting.get((supply.id, *key))
    value, chosen = ("", one.instrument) if kept is None else (kept.body["measured"], kept.body.get("instrument", ""))
    if given is not None:
        value = given.get(f"measured.{name}", "").strip()
        chosen = given.get(f"instrument.{name}", one.instrument)
    earlier = [
        other for other in known.of_line.get(supply.id, ()) if log.key_of(other.body) == key and other.state != "counts"
    ]
    shown: dict[str, Any] = {
        **one._asdict(),
        "name": name,
        "key": _key_text(one),
        "boxes": min(supply.amount.number, _MOST_BOXES),
        "value": value,
        "chosen": chosen,
        "problem": problems.get(name, ""),
        "decision": "",
        "kept": None if kept is None else _entry(kept, known),
        "earlier": [_entry(other, known) for other in earlier],
    }
    if not value or shown["problem"]:
        return shown
    lot = supply.amount.number if supply.amount.unit == "piece" else None
    try:
        return {**shown, **_proved(value, chosen, one, lot, kept)}
    except CheckError as error:
        return {**shown, "problem": _said(error)}


def _proved(
    value: str, chosen: str, one: ToMeasure, lot: int | None, kept: measurements.Entry | None
) -> dict[str, Any]:
    """Return what entered values prove; without an instrument its uncertainty is that of what is kept.

    Raises:
        CheckError: they are not understood.
    """
    values = read_values(value, "measured", one.lower, one.upper)
    receipt = {
        "limits": {"lower": one.lower, "upper": one.upper},
        "measured": [str(each) for each in values],
        "dimension": one.dimension,
        "lot": lot if lot is not None and lot >= len(values) else None,
    }
    proved = check_receipt(parse_receipt({**receipt, **_instrument(chosen, kept)}))
    sample = proved.sample.text if proved.sample else ""
    return {"decision": proved.outcome.decision, "text": proved.outcome.text, "advice": proved.advice, "sample": sample}


def _instrument(chosen: str, kept: measurements.Entry | None) -> dict[str, Any]:
    """Return what a value was measured with: the instrument, or the uncertainty that was told in place of one."""
    if chosen or kept is None:
        return {"instrument": chosen}
    return {"uncertainty": kept.body["uncertainty"]["value"]}


def _entry(one: measurements.Entry, known: _Known) -> dict[str, Any]:
    """Return a measurement that is kept, as a page names it."""
    at, token = known.told[one.number]
    return {
        "number": one.number,
        "typed": one.body["measured"],
        "dimension": one.body["dimension"],
        "instrument": one.body.get("instrument", ""),
        "uncertainty": one.body["uncertainty"]["value"],
        "decision": one.outcome.decision,
        "state": one.state,
        "because": one.because,
        "by": one.body.get("by", ""),
        "at": at,
        "token": token,
    }


def _said(error: CheckError) -> str:
    """Return what is wrong with a value, in the words of who typed it."""
    given = "" if error.value is None else f"“{error.value}” is not understood. "
    return f"{given}Accepted: {error.accepted}. For example: {error.example}."


# --- keeping ---------------------------------------------------------------------------------------------------------


def _mistakes(shown: tuple[Bag, ...], given: Form, known: _Known) -> dict[str, str]:
    """Return what is wrong with the values of a form, by what their fields are called."""
    found: dict[str, str] = {}
    for bag in shown:
        for name, one in _names(bag):
            value = given.get(f"measured.{name}", "").strip()
            if not value:
                continue
            kept = known.counting.get((bag.result.supply.id, *measurements.key_of_measure(one)))
            try:
                _proved(value, given.get(f"instrument.{name}", one.instrument), one, None, kept)
            except CheckError as error:
                found[name] = _said(error)
    return found


def _homeless(shown: tuple[Bag, ...], given: Form) -> list[str]:
    """Return values that were typed for what the sheet does not ask for any more: they are told, never dropped."""
    known = {name: one for bag in shown for name, one in _names(bag)}
    found = []
    for field_name, value in given.items():
        name = field_name.removeprefix("measured.")
        if name == field_name or not value.strip():
            continue
        key = given.get(f"of.{name}", "")
        if name not in known or (key and key != _key_text(known[name])):
            found.append(f"{name.rpartition('.')[0]}, {key or 'a dimension that is not asked for'}: {value.strip()}")
    return found


def _keep(order: str, given: Form) -> Response:
    """Keep the values of a form with its order, and show the page with what that changed, or what is wrong."""
    sheet = _Sheet()
    try:
        owner = writer().owner
        change, _ = proved_now(order)
        shown = bags(change.proof.result)
        revision, known = _revision(given), _known(order)
        sheet.homeless = _homeless(shown, given)
        if _mistakes(shown, given, known):
            sheet.status = 422
            return _page_of(order, given, sheet)
        if sheet.homeless:
            raise Stale(
                "the sheet asks for other dimensions by now; nothing was stored",
                field="of",
                accepted="the sheet as it is now",
            )
        told = _to_tell(shown, given, known)
        if not told:
            sheet.notice = "Nothing new: what stands here is kept already."
            return _page_of(order, None, sheet)
        # The same values for the same revision are the same request: sent twice, they are kept once.
        content = orjson.dumps([order, revision, [list(one) for one in told]], option=orjson.OPT_SORT_KEYS)
        answer = change_order(
            {"order": order, "revision": revision, "told": [one for _, _, one in told]},
            lambda: stored_orders.prepare_log(store(), owner, order, frozenset({revision}), told),
            key=f"bench-{hashlib.sha256(content).hexdigest()}",
        )
    except NotFound:
        raise
    except Stale as error:
        sheet.status = error.status
        sheet.problem = {
            "title": error.title,
            "accepted": "",
            "detail": "Somebody changed the order since you opened this page, so that nothing was stored. What you "
            "typed stands below, beside what is kept by now: look at it and keep it again.",
        }
        return _page_of(order, given, sheet)
    except RequestError as error:
        sheet.status, sheet.problem = error.status, error.body(request_id())
        return _page_of(order, given, sheet)
    made = answer.reply["revision"]
    sheet.notice = f"Kept with the order, as revision {made}."
    if made <= change.expected:
        sheet.notice = f"This was kept before, as revision {made}. What counts by now stands below."
    sheet.changes = answer.reply["changes"]
    return _page_of(order, None, sheet)


def _revision(given: Form) -> int:
    """Return the revision that a form was made from.

    Raises:
        NoPrecondition: the form does not say so.
        BadValue: it is none.
    """
    text = given.get("revision", "")
    if not text:
        raise NoPrecondition(
            "the form does not say which revision of the order it was made from; nothing was stored",
            field="revision",
            accepted="the number of the order's revision, as the page sends it",
            example="3",
        )
    if not (text.isascii() and text.isdigit() and len(text) < 10):
        raise BadValue(
            "no revision; nothing was stored", field="revision", value=text, accepted="a number", example="3"
        )
    return int(text)


def _to_tell(shown: tuple[Bag, ...], given: Form, known: _Known) -> Told:
    """Return what is new in a form: values that differ from what counts, and what was cleared."""
    told: Told = []
    for bag in shown:
        for name, one in _names(bag):
            line, key = bag.result.supply.id, measurements.key_of_measure(one)
            kept = known.counting.get((line, *key))
            value = given.get(f"measured.{name}")
            if value is None or (not value.strip() and kept is None):
                continue
            typed, chosen = value.strip(), given.get(f"instrument.{name}", one.instrument)
            if not typed:
                told += _withdrawn(f"measured.{name}", line, key, known)
                continue
            if kept is not None and (typed, chosen) == (kept.body["measured"], kept.body.get("instrument", "")):
                continue
            measured = {
                "line": line,
                "dimension": one.dimension,
                "measured": typed,
                **_instrument(chosen, kept),
                "by": given.get("by", "").strip(),
            }
            if len([other for other in bag.measures if other.dimension == one.dimension]) > 1:
                measured["limits"] = measurements.asked_by(one)
            told.append(("measurement", f"measured.{name}", measured))
    return told


def _withdrawn(name: str, line: str, key: tuple[Any, ...], known: _Known) -> Told:
    """Return what withdraws everything that was kept of one dimension of a bag: else an earlier value would count."""
    return [
        ("event", name, {"event": "withdrawn", "entry": one.number, "note": _CLEARED})
        for one in known.of_line.get(line, ())
        if log.key_of(one.body) == key and one.state in ("counts", "replaced")
    ]
