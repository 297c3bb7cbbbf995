"""Any text in any field is answered or refused, never anything else."""

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from service.verdict.judge import judge
from service.verdict.kinds import BY_NAME
from service.verdict.mates import EXAMPLES, parse_check
from service.verdict.model import CheckError

PIECES = st.sampled_from(
    [
        *("5", "5.012", "1/4", "3/0", "-1", "0", "1e9", "in", "mm", '"', "H7", "h6", "m6", "K9", "+0.012/0", "±0.01"),
        *("..", "x", "+", "M4", "M5x0.5", "10-32", "G 1/8", "depth", "deep", "blind", "through", "aluminium", "into"),
        *("nut", "lock", "washer", "drilled", "width", "on shaft", "in bore", "against", "24 V", "GB", "margin", "%"),
        *("at least", ",", "Ø", "½", "NaN"),
    ]
)
TEXTS = st.one_of(st.text(max_size=40), st.lists(PIECES, max_size=9).map(" ".join))
VALUES = st.recursive(
    st.one_of(TEXTS, st.integers(), st.floats(), st.booleans(), st.none()),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(st.sampled_from(
        ["kind", "diameter", "nominal", "lower", "upper", "thread", "layers", "grip", "into", "needed", "on", "depth",
         "count", "hole", "pitch", "circle", "profile", "teeth", "centres", "pulleys", "path_length", "x", "y", "moves"]
    ), inner, max_size=4)),
    max_leaves=8,
)  # fmt: skip


def answered(fields: dict[str, Any]) -> bool:
    """Judge what is understood; the only other way out is a CheckError with all its parts."""
    try:
        check = parse_check(fields)
    except CheckError as error:
        return bool(error.field and error.accepted)
    return judge(check).verdict in ("fits", "marginal", "ask", "wrong", "unread")


@given(st.sampled_from(sorted(EXAMPLES)), TEXTS, st.one_of(st.none(), TEXTS))
def test_any_short_form_is_answered_or_refused(field: str, text: str, fit: str | None) -> None:
    """Whatever stands in a mate or a fit, no other error comes out."""
    assert answered({"line": "M5 dowel pin", field: text, "fit": fit})


@given(st.sampled_from(list(BY_NAME)), VALUES)
def test_any_object_is_answered_or_refused(kind: str, value: Any) -> None:
    """Whatever stands in a mate's object, no other error comes out."""
    mate = {**value, "kind": kind} if isinstance(value, dict) else value
    assert answered({"line": "M5x20 SHCS 8.8", "mate": mate})
