"""Whatever is sent, the answer is never a fault of ours."""

import orjson
import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from service.verdict.mates import FIELDS

BOUNDED = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])

VALUE = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)
CHECK = st.dictionaries(st.sampled_from(FIELDS), VALUE, max_size=4)
MATE = st.fixed_dictionaries(
    {"kind": st.sampled_from(["bore", "shaft", "tapped hole", "clamp", "presence"])},
    optional={
        name: VALUE | st.sampled_from(["5 H7", "M4 depth 10", "10+12", "blind", "aluminium", "-1", "1e9", "5/0"])
        for name in ("diameter", "thread", "layers", "grip", "into", "depth", "end", "material", "process")
    },
)


@BOUNDED
@given(st.text(max_size=500))
def test_any_line_is_answered(client: FlaskClient, line: str) -> None:
    """Read, unread or refused."""
    assert client.get("/v1/reading", query_string={"line": line}).status_code in (200, 422)


@BOUNDED
@given(st.binary(max_size=200))
def test_any_query_is_answered(client: FlaskClient, raw: bytes) -> None:
    """The query as bytes, which a client need not escape."""
    reply = client.get("/v1/verdict", environ_overrides={"QUERY_STRING": raw.decode("latin-1")})
    assert 400 <= reply.status_code < 500


@BOUNDED
@given(st.text(max_size=60), st.sampled_from(["bore", "shaft", "tapped", "clamp", "presence", "fit"]))
def test_any_mate_is_answered(client: FlaskClient, text: str, field: str) -> None:
    """In its short text form."""
    query = {"line": "M5 dowel pin", "bore": "5 H7", field: text}
    assert client.get("/v1/verdict", query_string=query).status_code in (200, 422)


@BOUNDED
@given(VALUE | CHECK | st.lists(CHECK, max_size=3))
def test_any_json_is_answered(client: FlaskClient, value: object) -> None:
    """Values of every kind in every place; a list is answered by a list."""
    try:
        data = orjson.dumps(value)
    except (TypeError, orjson.JSONEncodeError):
        return
    reply = client.post("/v1/verdicts", data=data, content_type="application/json")
    assert reply.status_code in (200, 422)
    if reply.status_code == 200 and isinstance(value, list):
        assert not [row for row in reply.get_json() if row["error"] and row["error"]["status"] >= 500]


@BOUNDED
@given(MATE)
def test_any_mate_as_an_object_is_answered(client: FlaskClient, mate: dict[str, object]) -> None:
    """With right names and wrong values."""
    try:
        data = orjson.dumps({"line": "M4x45 socket head cap screw 8.8", "mate": mate})
    except (TypeError, orjson.JSONEncodeError):
        return
    assert client.post("/v1/verdicts", data=data, content_type="application/json").status_code in (200, 422)


@BOUNDED
@given(st.binary(max_size=300), st.sampled_from(["application/json", "text/csv", "application/x-ndjson", "a/b"]))
def test_any_body_is_answered(client: FlaskClient, data: bytes, content_type: str) -> None:
    """Bytes of any kind under any type."""
    reply = client.post("/v1/verdicts", data=data, content_type=content_type)
    assert reply.status_code < 500


@BOUNDED
@given(st.binary(max_size=200))
def test_any_rows_are_answered_row_by_row(client: FlaskClient, data: bytes) -> None:
    """Under a good heading nothing fails as a whole, except where there is no row at all."""
    reply = client.post("/v1/verdicts.ndjson", data=b"line,bore\n" + data, content_type="text/csv")
    assert reply.status_code in (200, 422)
    rows = [orjson.loads(line) for line in reply.data.splitlines()] if reply.status_code == 200 else []
    assert not [row for row in rows if row["error"] and row["error"]["status"] >= 500]


@pytest.mark.parametrize(
    "accept", ["", "a", ";;;", "text/csv;q=x", "*/*;q=9", "\xff/\x00", "text/csv," * 500, "application/json;q=-1"]
)
def test_any_accept_is_answered(client: FlaskClient, accept: str) -> None:
    """Understood or 406."""
    reply = client.get("/healthz", environ_overrides={"HTTP_ACCEPT": accept})
    assert reply.status_code in (200, 406)


@pytest.mark.parametrize(
    "path",
    [
        "/%00",
        "/v1/verdict%00",
        "/v1/%2e%2e/verdict",
        "/v1/verdict.%2e",
        "/%ff",
        "/v1/reference/%00.csv",
        "/v1" + "/" * 99,
    ],
)
def test_any_path_is_answered(client: FlaskClient, path: str) -> None:
    """There or not there."""
    assert 400 <= client.get(path).status_code < 500
