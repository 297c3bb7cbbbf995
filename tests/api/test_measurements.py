"""Measurements of stored orders over HTTP, and the sheet for the bench that keeps them; on SQLite and PostgreSQL."""

import csv
import io
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from sqlalchemy import text

from service.app import create_app
from service.config import Settings
from service.store import exchange
from service.store.backup import back_up
from service.store.store import Store
from tests.pages.parsed import Parsed

Check = Callable[..., dict[str, Any]]

ANYWAY = {"If-Match": "*"}
ORDER: dict[str, Any] = {
    "name": "river sampler",
    "needs": [{"id": "N1", "quantity": 2, "step": "plate", "bore": "5 H7", "fit": "location", "measure": True}],
    "lines": [{"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 2, "supplier": "A"}],
    "stock": [{"id": "S1", "line": "M5 dowel pin", "quantity": 1, "for": ["N1"]}],
    "steps": [{"id": "plate"}],
}
GOOD = {"line": "L1", "dimension": "outer_diameter", "measured": "5.010 5,009", "instrument": "micrometer"}


@pytest.fixture
def client(emptied: str) -> Iterator[FlaskClient]:
    """A client of the application on each kind of database."""
    app = create_app(Settings(database_url=emptied, body_limit=20_000))
    yield app.test_client()
    app.extensions["kitproof.store"].engine.dispose()


@pytest.fixture
def order(client: FlaskClient) -> str:
    """The id of a stored order."""
    return str(client.post("/v1/orders", json=ORDER).get_json()["id"])


def store_of(client: FlaskClient) -> Store:
    """Return the store behind a client."""
    found: Store = client.application.extensions["kitproof.store"]
    return found


def tell(client: FlaskClient, order: str, *given: dict[str, Any], **headers: str) -> Any:
    """Tell measurements."""
    headers = {**ANYWAY, **headers}
    return client.post(f"/v1/orders/{order}/measurements", json={"measurements": list(given)}, headers=headers)


def told(client: FlaskClient, order: str) -> list[dict[str, Any]]:
    """Return the measurements of an order."""
    found: list[dict[str, Any]] = client.get(f"/v1/orders/{order}/measurements").get_json()["measurements"]
    return found


class TestResource:
    """What programs see."""

    def test_a_measurement_is_kept_as_typed_and_as_read(self, client: FlaskClient, order: str) -> None:
        """With its limits, where they come from, the uncertainty, what it proves, and who told it when."""
        reply = tell(client, order, {**GOOD, "by": "the bench by the window", "note": "bag 2"})
        assert (reply.status_code, reply.headers["ETag"], reply.get_json()["revision"]) == (200, '"2"', 2)
        (one,) = told(client, order)
        assert (one["typed"], [piece["measured"] for piece in one["values"]]) == ("5.010 5,009", [5.01, 5.009])
        assert (one["limits"]["lower"], one["limits"]["upper"]) == (5.001, 5.016)
        assert one["limits"]["from"].startswith("goes with every bore 5 H7")
        assert (one["uncertainty"]["value"], one["instrument"], one["decision"]) == (0.004, "micrometer", "conforming")
        assert (one["by"], one["note"], one["state"], one["revision"]) == (
            "the bench by the window",
            "bag 2",
            "counts",
            2,
        )
        assert one["made_at"] > "2026"
        assert one["made_by"] == ""

    def test_who_told_it_is_the_token(self, emptied: str) -> None:
        """Where tokens are asked for; another owner's order is not found, and one that only reads may not tell."""
        from service.store import tokens

        app = create_app(Settings(database_url=emptied, tokens="always"))
        client = app.test_client()
        with app.extensions["kitproof.store"].write() as session:
            mine, reading, other = (
                tokens.make(session, owner, scope)
                for owner, scope in (("club", "write"), ("club", "read"), ("rival", "write"))
            )

        def as_(token: str) -> dict[str, str]:
            return {"Authorization": f"Bearer {token}"}

        made = client.post("/v1/orders", json=ORDER, headers=as_(mine)).get_json()["id"]
        path, body = f"/v1/orders/{made}/measurements", {"measurements": [GOOD]}
        assert client.post(path, json=body, headers={**ANYWAY, **as_(other)}).status_code == 404
        assert client.post(path, json=body, headers={**ANYWAY, **as_(reading)}).status_code == 403
        assert client.post(path, json=body, headers={**ANYWAY, **as_(mine)}).status_code == 200
        (one,) = client.get(path, headers=as_(reading)).get_json()["measurements"]
        assert one["made_by"]
        assert one["made_by"] in mine
        app.extensions["kitproof.store"].engine.dispose()

    def test_all_values_are_rows_of_a_sheet(self, client: FlaskClient, order: str) -> None:
        """One each, in the units that are asked for."""
        tell(client, order, GOOD, {**GOOD, "measured": "4.9"})
        reply = client.get(f"/v1/orders/{order}/measurements.csv")
        rows = list(csv.DictReader(io.StringIO(reply.get_data(as_text=True))))
        assert [(row["number"], row["value"], row["decision"], row["state"]) for row in rows] == [
            ("1", "5.01", "conforming", "replaced"),
            ("1", "5.009", "conforming", "replaced"),
            ("2", "4.9", "not conforming", "counts"),
        ]
        assert {row["order"] for row in rows} == {order}
        inches = client.get(f"/v1/orders/{order}/measurements?units=in").get_json()["measurements"][1]
        assert inches["values"][0]["measured"] == pytest.approx(4.9 / 25.4, abs=1e-6)

    def test_the_log_says_it_in_words(self, client: FlaskClient, order: str) -> None:
        """Among everything else that happened, and which entry withdrew it."""
        tell(client, order, {**GOOD, "by": "the bench by the window", "on": "2026-01-05"})
        events = {"events": [{"event": "withdrawn", "entry": 1, "on": "2026-01-06", "note": "wrong bag"}]}
        client.post(f"/v1/orders/{order}/events", json=events, headers=ANYWAY)
        first, second = client.get(f"/v1/orders/{order}/log").get_json()["entries"]
        assert first["text"] == (
            "L1 measured, outer diameter: 5.01 5.009 mm (± 0.004, micrometer) against 5.001 to 5.016 mm: conforming, "
            "by the bench by the window, on 2026-01-05"
        )
        assert (first["kind"], first["withdrawn_by"]) == ("measurement", 2)
        assert second["text"] == "entry 1 withdrawn, on 2026-01-06 (wrong bag)"
        assert client.get(f"/v1/orders/{order}").get_json()["log"] == [first, second]

    @pytest.mark.parametrize(
        ("change", "code", "field"),
        [
            ({"measured": "eight"}, "bad-value", "measurements[0].measured"),
            ({"measured": "5010"}, "bad-value", "measurements[0].measured"),
            ({"line": "L7"}, "bad-value", "measurements[0].line"),
            ({"dimension": "length"}, "bad-value", "measurements[0].dimension"),
            ({"colour": "red"}, "bad-value", "measurements.0.colour"),
        ],
    )
    def test_what_is_not_understood_is_named(
        self, client: FlaskClient, order: str, assert_problem: Check, change: dict[str, Any], code: str, field: str
    ) -> None:
        """And nothing is stored."""
        assert_problem(tell(client, order, GOOD | change), 422, code, field)
        assert told(client, order) == []

    def test_it_is_meant_for_a_revision_and_told_once(
        self, client: FlaskClient, order: str, assert_problem: Check
    ) -> None:
        """As every change of an order."""
        path, body = f"/v1/orders/{order}/measurements", {"measurements": [GOOD]}
        assert_problem(client.post(path, json=body), 428, "no-precondition", "If-Match")
        assert_problem(client.post(path, json=body, headers={"If-Match": '"2"'}), 412, "stale", "If-Match")
        first = tell(client, order, GOOD, **{"Idempotency-Key": "once"})
        again = tell(client, order, GOOD, **{"Idempotency-Key": "once"})
        assert first.get_json() == again.get_json()
        assert len(told(client, order)) == 1


# --- kept ------------------------------------------------------------------------------------------------------------


def test_an_export_takes_measurements_along(client: FlaskClient, order: str, tmp_path: Path) -> None:
    """To a store of another kind, where they count as before."""
    tell(client, order, GOOD)
    before = told(client, order)
    with store_of(client).read() as session:
        lines = list(exchange.export_lines(session))
    other = create_app(Settings(database_url=f"sqlite:///{tmp_path / 'other.sqlite3'}"))
    with other.extensions["kitproof.store"].write() as session:
        exchange.import_lines(session, lines)
    assert told(other.test_client(), order) == before
    other.extensions["kitproof.store"].engine.dispose()


def test_a_backup_holds_them(tmp_path: Path) -> None:
    """It is a store as it stands."""
    app = create_app(Settings(database_url=f"sqlite:///{tmp_path / 'a.sqlite3'}"))
    client = app.test_client()
    order = client.post("/v1/orders", json=ORDER).get_json()["id"]
    tell(client, order, GOOD)
    back_up(app.extensions["kitproof.store"].engine, tmp_path / "copy.sqlite3")
    copy = create_app(Settings(database_url=f"sqlite:///{tmp_path / 'copy.sqlite3'}"))
    assert told(copy.test_client(), order) == told(client, order)
    for one in (app, copy):
        one.extensions["kitproof.store"].engine.dispose()


def test_a_store_of_before_takes_them_after_its_step(client: FlaskClient, order: str) -> None:
    """Orders and receipts that it held stay as they were; going back takes the measurements out, and nothing else."""
    from alembic import command

    from service.store.migrate import configuration, migrate, version

    engine = store_of(client).engine
    events = {"events": [{"event": "received", "line": "L1"}]}
    client.post(f"/v1/orders/{order}/events", json=events, headers=ANYWAY)
    tell(client, order, GOOD)

    def back() -> None:
        config = configuration()
        with engine.connect().execution_options(writes=True) as connection, connection.begin():
            config.attributes["connection"] = connection
            command.downgrade(config, "0002")

    back()
    assert version(engine) == "0002"
    with engine.connect() as connection:
        kinds = connection.execute(text("SELECT kind FROM order_entry")).scalars().all()
    assert kinds == ["event"]
    assert migrate(engine) == "0002"
    assert tell(client, order, GOOD).status_code == 200
    assert [one["state"] for one in told(client, order)] == ["counts"]


# --- the sheet for the bench -----------------------------------------------------------------------------------------


def bench(client: FlaskClient, order: str, status: int = 200, **fields: str) -> Parsed:
    """Return the page that answers the form; the names of its fields have dots."""
    named = {name.replace("__", "."): value for name, value in fields.items()}
    reply = client.post(f"/bench?order={order}", data=named, content_type="multipart/form-data")
    assert reply.status_code == status, reply.get_data(as_text=True)
    return Parsed(reply.get_data(as_text=True))


def fields(page: Parsed) -> dict[str, str]:
    """Return every field of the form as a browser would send it."""
    found = {one.get("name", ""): one.get("value", "") for one in page.all(".//form//input")}
    for select in page.all(".//form//select"):
        options = select.findall("option")
        chosen = next((one for one in options if one.get("selected")), options[0])
        found[select.get("name", "")] = chosen.get("value", chosen.text or "")
    return found


def sent(client: FlaskClient, order: str, page: Parsed, status: int = 200, **typed: str) -> Parsed:
    """Send the form of a page with something typed into it, to be kept."""
    named = {name.replace("__", "."): value for name, value in typed.items()}
    given = {**fields(page), **named, "store": "yes"}
    return bench(client, order, status, **{name.replace(".", "__"): value for name, value in given.items()})


def opened(client: FlaskClient, order: str) -> Parsed:
    """Return the sheet of an order."""
    reply = client.get(f"/bench?order={order}")
    assert reply.status_code == 200
    return Parsed(reply.get_data(as_text=True))


class TestBench:
    """What the form keeps."""

    def test_values_are_kept_and_shown_when_the_page_is_opened_again(self, client: FlaskClient, order: str) -> None:
        """As they were typed, with what they prove, who told them and when."""
        page = sent(client, order, opened(client, order), measured__L1__1="5.010 5,009", by="the bench by the window")
        notice = page.one(".//div[@role='status']")
        assert notice.startswith("Kept with the order, as revision 2.")
        again = opened(client, order)
        assert fields(again)["measured.L1.1"] == "5.010 5,009"
        assert again.texts(".//div[@class='told']//span[@class='word']") == ["conforming"]
        kept = next(text for text in again.texts(".//p[@class='soft']") if text.startswith("Kept: "))
        assert "5.010 5,009, micrometer (± 0.004 mm); entry 1, 20" in kept
        assert kept.endswith("by the bench by the window")
        assert "The bag: conforming, 1 of 1 dimension measured." in again.one(".//section[@aria-labelledby='bag-1']")

    def test_the_bag_says_which_dimension_is_still_to_be_measured(self, client: FlaskClient) -> None:
        """A receipt in the order itself counts as well as what is kept."""
        bore = {"dimension": "bore", "measured": [7.996], "uncertainty": 0.001}
        line = {"id": "L1", "line": "608-2RS", "quantity": 2, "received_on": "2026-01-05", "receipt": bore}
        needs = [{"id": "N1", "quantity": 2, "shaft": "8 h6", "fit": "-0.010..0.010", "measure": True}]
        made = client.post("/v1/orders", json={"needs": needs, "lines": [line]}).get_json()["id"]
        bag = opened(client, made).one(".//section[@aria-labelledby='bag-1']")
        assert "The bag: conforming, 1 of 2 dimensions measured, still to be measured: outer diameter." in bag
        page = sent(client, made, opened(client, made), measured__L1__2="21.9955")
        assert "The bag: conforming, 2 of 2 dimensions measured." in page.one(".//section[@aria-labelledby='bag-1']")

    def test_a_value_that_was_only_looked_at_is_not_kept(self, client: FlaskClient, order: str) -> None:
        """The page says so."""
        page = bench(client, order, measured__L1__1="5.010")
        assert page.one(".//div[@role='status']") == "Not kept: this only shows what the values prove."
        assert told(client, order) == []

    def test_the_same_form_sent_twice_is_kept_once(self, client: FlaskClient, order: str) -> None:
        """Whether one after the other or by two clicks at once."""
        page = opened(client, order)
        sent(client, order, page, measured__L1__1="5.010")
        again = sent(client, order, page, measured__L1__1="5.010")
        assert again.one(".//div[@role='status']") == "Nothing new: what stands here is kept already."
        other = opened(client, order)
        answers: list[str] = []

        def click() -> None:
            # A client of its own: two windows of a browser share none.
            found = sent(client.application.test_client(), order, other, measured__L1__1="5.011")
            answers.append(found.one(".//div[@role='status']"))

        clicks = [threading.Thread(target=click) for _ in range(2)]
        for one in clicks:
            one.start()
        for one in clicks:
            one.join()
        assert len(answers) == 2
        assert [one["typed"] for one in told(client, order)] == ["5.010", "5.011"]

    def test_a_value_that_is_changed_is_a_correction(self, client: FlaskClient, order: str) -> None:
        """The one before stays to be seen, on the page and in the log."""
        sent(client, order, opened(client, order), measured__L1__1="4.9")
        page = sent(client, order, opened(client, order), measured__L1__1="5.010")
        assert "need N1: missing, now covered" not in page.one(".//div[@role='status']")
        (before,) = page.texts(".//details[@class='screen']")
        assert "4.9, micrometer (± 0.004 mm): not conforming; replaced by entry 2; entry 1" in before
        assert [one["state"] for one in told(client, order)] == ["replaced", "counts"]

    def test_another_instrument_is_a_correction_too(self, client: FlaskClient, order: str) -> None:
        """The same values prove less with it."""
        sent(client, order, opened(client, order), measured__L1__1="5.010")
        sent(client, order, opened(client, order), instrument__L1__1="calliper")
        assert [one["decision"] for one in told(client, order)] == ["conforming", "not provable"]

    def test_a_value_that_is_cleared_is_withdrawn(self, client: FlaskClient, order: str) -> None:
        """With all that was kept before it: an earlier one does not come back."""
        sent(client, order, opened(client, order), measured__L1__1="4.9")
        sent(client, order, opened(client, order), measured__L1__1="5.010")
        page = sent(client, order, opened(client, order), measured__L1__1="")
        assert fields(page)["measured.L1.1"] == ""
        assert [one["state"] for one in told(client, order)] == ["withdrawn", "withdrawn"]

    def test_what_is_proved_wrong_moves_the_order(self, client: FlaskClient, order: str) -> None:
        """And the page says what moved."""
        sent(client, order, opened(client, order), measured__L1__1="5.010")
        page = sent(client, order, opened(client, order), measured__L1__1="4.9")
        assert "need N1: covered, now short" in page.one(".//div[@role='status']")
        assert client.get(f"/v1/orders/{order}/check").get_json()["ready"] is False
        # Its field is still there, so that it can be corrected.
        assert fields(opened(client, order))["measured.L1.1"] == "4.9"

    @pytest.mark.parametrize("typed", ["eight", "5.010 kg", "5010", "5.010 5.0l1"])
    def test_what_is_not_understood_is_said_beside_its_field(self, client: FlaskClient, order: str, typed: str) -> None:
        """Nothing is stored, nothing that was typed is lost."""
        page = sent(
            client, order, opened(client, order), 422, measured__L1__1=typed, measured__S1__1="5.011", by="somebody"
        )
        assert "“" in page.one(".//p[@class='problem']")
        assert typed.split(" ", 1)[-1] in page.one(".//p[@class='problem']")
        (bad,) = page.all(".//input[@aria-invalid]")
        assert bad.get("name") == "measured.L1.1"
        assert page.all(f".//div[@id='{bad.get('aria-describedby')}']/p[@class='problem']")
        (link,) = [one.get("href") for one in page.all(".//div[@role='alert']//a")]
        assert link == f"#{bad.get('id')}"
        assert page.one("./head/title").startswith("Error: ")
        entered = fields(page)
        assert (entered["measured.L1.1"], entered["measured.S1.1"], entered["by"]) == (typed, "5.011", "somebody")
        assert told(client, order) == []

    def test_a_form_of_an_older_revision_is_not_kept(self, client: FlaskClient, order: str) -> None:
        """What was typed stands beside what was kept in between, and can be kept then."""
        page = opened(client, order)
        tell(client, order, GOOD)
        stale = sent(client, order, page, 412, measured__L1__1="5.012")
        assert "Somebody changed the order" in stale.one(".//div[@role='alert']")
        assert fields(stale)["measured.L1.1"] == "5.012"
        assert any(text.startswith("Kept: 5.010 5,009") for text in stale.texts(".//p[@class='soft']"))
        assert [one["typed"] for one in told(client, order)] == ["5.010 5,009"]
        sent(client, order, stale)
        assert [one["typed"] for one in told(client, order)] == ["5.010 5,009", "5.012"]

    @pytest.mark.parametrize(("revision", "status"), [(None, 428), ("", 428), ("x", 422), ("99999999999", 422)])
    def test_a_form_that_lacks_its_revision_is_not_kept(
        self, client: FlaskClient, order: str, revision: str | None, status: int
    ) -> None:
        """A field of the page is missing or spoilt: it is said, and what was typed stays."""
        given = {"measured__L1__1": "5.010", "store": "yes", **({} if revision is None else {"revision": revision})}
        page = bench(client, order, status, **given)
        assert "revision" in page.one(".//div[@role='alert']")
        assert fields(page)["measured.L1.1"] == "5.010"
        assert told(client, order) == []

    def test_a_value_whose_place_is_gone_is_told(self, client: FlaskClient, order: str) -> None:
        """The plan asks for something else by now: it is never put to another dimension."""
        page = opened(client, order)
        needs = [{**ORDER["needs"][0], "bore": "6 H7"}]
        client.patch(
            f"/v1/orders/{order}",
            json={"needs": needs},
            content_type="application/merge-patch+json",
            headers=ANYWAY,
        )
        stale = sent(client, order, page, 412, measured__L1__1="5.012", measured__L9__1="7")
        alerts = " ".join(stale.texts(".//div[@role='alert']"))
        assert "L1, outer_diameter 5.001 5.016: 5.012" in alerts
        assert "L9, a dimension that is not asked for: 7" in alerts
        assert told(client, order) == []

    def test_an_uncertainty_without_an_instrument_is_kept_through_the_form(
        self, client: FlaskClient, order: str
    ) -> None:
        """A program may know its own; the form neither loses nor changes it."""
        tell(client, order, {**GOOD, "instrument": "", "uncertainty": 0.002})
        page = opened(client, order)
        assert sent(client, order, page).one(".//div[@role='status']").startswith("Nothing new")
        sent(client, order, page, measured__L1__1="5.011")
        assert [one["uncertainty"]["value"] for one in told(client, order)] == [0.002, 0.002]

    def test_a_token_that_only_reads_keeps_nothing(self, emptied: str) -> None:
        """What was typed stays on the page that says so."""
        from service.store import tokens

        app = create_app(Settings(database_url=emptied, tokens="always"))
        client = app.test_client()
        with app.extensions["kitproof.store"].write() as session:
            mine, reading = (tokens.make(session, "club", scope) for scope in ("write", "read"))
        made = client.post("/v1/orders", json=ORDER, headers={"Authorization": f"Bearer {mine}"}).get_json()["id"]
        given = {"measured.L1.1": "5.010", "store": "yes", "revision": "1"}
        reply = client.post(f"/bench?order={made}", data=given, headers={"Authorization": f"Bearer {reading}"})
        assert reply.status_code == 403
        page = Parsed(reply.get_data(as_text=True))
        assert "this token only reads" in page.one(".//div[@role='alert']")
        assert fields(page)["measured.L1.1"] == "5.010"
        app.extensions["kitproof.store"].engine.dispose()
