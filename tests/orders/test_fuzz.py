"""Whatever is sent as an order or a receipt: an answer, or an error that names a field; never a fault of ours."""

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from service.orders.check import check
from service.orders.intake import (
    LINE_FIELDS,
    LOSS_FIELDS,
    NEED_FIELDS,
    ORDER_FIELDS,
    STEP_FIELDS,
    STOCK_FIELDS,
    SUPPLIER_FIELDS,
    parse_order,
)
from service.receipts.check import check as check_receipt
from service.receipts.identify import identify
from service.receipts.intake import FIELDS, parse_receipt, parse_uncertainty
from service.verdict.model import CheckError

TODAY = date(2027, 1, 25)
DEMO = json.loads((Path(__file__).parents[2] / "demo" / "order" / "order.json").read_text("utf-8"))

VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-5, 10**12)
    | st.floats(allow_nan=False, allow_infinity=False, width=32)
    | st.sampled_from(
        [
            "",
            "N01",
            "L01",
            "S01",
            "5 H7",
            "location",
            "M5 dowel pin",
            "2027-02-01",
            "2 m",
            "10-14 days",
            "1.000",
            "x",
            "0",
        ]
    )
    | st.text(max_size=8),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from([*NEED_FIELDS, *LINE_FIELDS, *FIELDS, "low", "likely", "high", "kind", "record"]),
            inner,
            max_size=3,
        )
    ),
    max_leaves=5,
)

LISTS = {
    "needs": NEED_FIELDS,
    "lines": LINE_FIELDS,
    "stock": STOCK_FIELDS,
    "steps": STEP_FIELDS,
    "suppliers": SUPPLIER_FIELDS,
    "losses": LOSS_FIELDS,
}


def told(call: Callable[[], Any]) -> Any:
    """Return what a call gives, or the error that it names; anything else it raises is a fault."""
    try:
        return call()
    except CheckError as error:
        return error


def answered(fields: dict[str, Any]) -> None:
    """Check an order; an error has to name its field and what is accepted."""
    found = told(lambda: check(parse_order(fields, TODAY)))
    assert found.field if isinstance(found, CheckError) else found.needs


@settings(max_examples=120, deadline=None)
@given(st.dictionaries(st.sampled_from(ORDER_FIELDS), VALUES, max_size=6))
def test_any_fields_of_an_order(fields: dict[str, Any]) -> None:
    """Of any kind."""
    answered(fields)


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_an_order_with_one_field_changed(data: st.DataObject) -> None:
    """Everything else as it should be."""
    fields = {name: list(value) if isinstance(value, list) else value for name, value in DEMO.items()}
    fields["needs"], fields["lines"] = fields["needs"][:6], fields["lines"][:5]
    fields["losses"] = []
    name = data.draw(st.sampled_from(sorted(LISTS)))
    key = data.draw(st.sampled_from(sorted(LISTS[name])))
    entries = fields[name] or [{}]
    place = data.draw(st.integers(0, len(entries) - 1))
    entries[place] = {**entries[place], key: data.draw(VALUES)}
    fields[name] = entries
    answered(fields)


@settings(max_examples=150, deadline=None)
@given(st.text(st.characters(codec="utf-8"), max_size=80), st.sampled_from(["needs", "lines", "stock", "steps"]))
def test_any_text_as_a_sheet(text: str, name: str) -> None:
    """Also one that begins like a sheet."""
    heading = {"needs": "id;Menge;Bohrung\n", "lines": "id;Menge;Bezeichnung\n"}.get(name, "id;x\n")
    for sheet in (text, heading + text):
        answered({"needs": DEMO["needs"][:2], name: sheet})


@settings(max_examples=200, deadline=None)
@given(st.dictionaries(st.sampled_from(FIELDS), VALUES, max_size=6))
def test_any_fields_of_a_receipt(fields: dict[str, Any]) -> None:
    """The same."""
    found = told(lambda: check_receipt(parse_receipt(fields)))
    assert found.field if isinstance(found, CheckError) else found.outcome.decision


@settings(max_examples=60, deadline=None)
@given(
    st.dictionaries(st.sampled_from(["outer_diameter", "length", "thread", "teeth", "weight"]), VALUES, max_size=3),
    VALUES,
)
def test_any_measured_values(measured: dict[str, Any], uncertainty: Any) -> None:
    """And any uncertainty of them."""
    found = told(lambda: identify(measured, parse_uncertainty({"uncertainty": uncertainty}, False).value))
    assert found.field if isinstance(found, CheckError) else found.searched > 0
