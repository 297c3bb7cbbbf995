"""Reports for build tools: one case a check, and what is not good fails."""

import json
from typing import Any
from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient

from service.api.reports import REPORTS, Case, Origin

FITS = Case(2, "ISO 8734 - 5 x 20 - A - St", "fits", True, "clearance -0.012..0.008 mm")
NASTY = "<&>\"' # \\ \n\r\t ø\x01"
WRONG = Case(3, f"pin {NASTY}", "wrong", False, f"too big {NASTY}", (f"order instead: {NASTY}",))
ORIGIN = Origin("lists/order 1.csv")


def written(form: str, cases: list[Case], origin: Origin = ORIGIN) -> str:
    """Return a report as text."""
    return b"".join(REPORTS[form](cases, origin)).decode()


class TestJUnit:
    """JUnit XML, as CI systems read it."""

    def suite(self, cases: list[Case], origin: Origin = ORIGIN) -> ElementTree.Element:
        """Return the one suite of a report."""
        root = ElementTree.fromstring(written("junit", cases, origin))  # noqa: S314 - our own reply
        assert root.tag == "testsuites"
        (suite,) = root
        return suite

    def test_the_counts_are_right_and_stand_at_the_head(self) -> None:
        """Some readers trust them."""
        suite = self.suite([FITS, WRONG, WRONG])
        assert {name: suite.get(name) for name in ("tests", "failures", "errors", "skipped")} == {
            "tests": "3",
            "failures": "2",
            "errors": "0",
            "skipped": "0",
        }
        assert len(suite.findall("testcase/failure")) == 2

    def test_a_failure_tells_its_verdict_and_why_in_message_and_text(self) -> None:
        """Some readers show the one, some the other."""
        good, bad = self.suite([FITS, WRONG])
        failure = bad.find("failure")
        assert failure is not None
        assert (good.find("failure"), failure.get("type")) == (None, "wrong")
        assert str(failure.get("message")).startswith("too big <&>\"' # \\ ø\ufffd")
        assert str(failure.text).startswith("too big <&>\"' # \\")
        assert "order instead: <&>" in str(failure.text)

    def test_names_are_never_twice_the_same(self) -> None:
        """Of two cases of one name a CI system counts one."""
        suite = self.suite([Case(number, "M5 dowel pin", "ask", False, "") for number in range(1, 60)])
        assert len({(case.get("classname"), case.get("name")) for case in suite}) == 59

    def test_a_case_points_to_its_place(self) -> None:
        """To a line where there are lines; the class holds no dot, which would make a package of it."""
        (case,) = self.suite([FITS])
        assert (case.get("file"), case.get("line"), case.get("classname")) == (
            "lists/order 1.csv",
            "2",
            "lists/order 1_csv",
        )
        (case,) = self.suite([FITS], Origin("order.json", by_line=False))
        assert (case.get("file"), case.get("line")) == ("order.json", None)

    def test_a_long_report_goes_to_disk_and_is_whole(self) -> None:
        """The counts are known only at the end."""
        suite = self.suite([Case(number, "x" * 400, "wrong", False, "y" * 400) for number in range(2000)])
        assert (suite.get("tests"), len(suite)) == ("2000", 2000)


class TestTap:
    """TAP 13; that a harness reads it is tested with the scripts."""

    def test_each_case_is_a_test_point_and_the_plan_comes_last(self) -> None:
        """A report that breaks off has no plan, so it is no success."""
        lines = written("tap", [FITS, WRONG]).splitlines()
        assert lines[0] == "TAP version 13"
        assert lines[1] == "ok 1 - 2 ISO 8734 - 5 x 20 - A - St"
        assert lines[2].startswith("not ok 2 - 3 pin <&>\"' \\# \\\\ ø")
        assert (lines[3], lines[-2], lines[-1]) == ("  ---", "  ...", "1..2")

    def test_the_diagnosis_holds_one_fact_a_line(self) -> None:
        """Each value is JSON, which YAML reads."""
        block = written("tap", [WRONG]).split("  ---\n")[1].split("  ...\n")[0]
        facts = {
            name: json.loads(value) for name, value in (line.strip().split(": ", 1) for line in block.splitlines())
        }
        assert facts == {
            "verdict": "wrong",
            "message": WRONG.reason,
            "file": ORIGIN.file,
            "number": 3,
            "advice": list(WRONG.advice),
        }


class TestLines:
    """``file:line: error: ...``, as compilers write it."""

    def test_only_what_is_not_good_is_named_and_all_are_counted(self) -> None:
        """One line each, whatever the text holds."""
        assert written("lines", [FITS, WRONG, FITS]).splitlines() == [
            "lists/order 1.csv:3: error: wrong: pin <&>\"' # \\ ø\x01: too big <&>\"' # \\ ø\x01",
            "lists/order 1.csv:3: note: order instead: <&>\"' # \\ ø\x01",
            "3 checked: 2 fits, 1 wrong",
        ]

    def test_what_has_no_line_points_to_none(self) -> None:
        """Its place in the list stands before its title."""
        report = written("lines", [WRONG], Origin("order.json", by_line=False))
        assert report.startswith("order.json: error: wrong: 3 pin <&>")


class TestSarif:
    """SARIF 2.1.0, by the parts of it that are used here."""

    def run(self, cases: list[Case], origin: Origin = ORIGIN) -> dict[str, Any]:
        """Return the one run of a log."""
        log = json.loads(written("sarif", cases, origin))
        assert log["version"] == "2.1.0"
        (run,) = log["runs"]
        found: dict[str, Any] = run
        return found

    def test_a_result_has_its_rule_its_place_and_its_text(self) -> None:
        """What is good is no result."""
        ask = Case(9, "M5 dowel pin", "ask", False, "two readings")
        run = self.run([FITS, WRONG, ask, WRONG])
        rules = run["tool"]["driver"]["rules"]
        assert [rule["id"] for rule in rules] == ["wrong", "ask"]
        assert [(one["ruleId"], one["ruleIndex"], one["level"]) for one in run["results"]] == [
            ("wrong", 0, "error"),
            ("ask", 1, "error"),
            ("wrong", 0, "error"),
        ]
        assert run["results"][1]["message"]["text"] == "M5 dowel pin: two readings"
        place = run["results"][1]["locations"][0]["physicalLocation"]
        assert place == {"artifactLocation": {"uri": "lists/order%201.csv"}, "region": {"startLine": 9}}

    def test_a_place_in_a_list_is_no_line(self) -> None:
        """The position stands as a logical location."""
        (result,) = self.run([WRONG], Origin("order.json", by_line=False))["results"]
        (location,) = result["locations"]
        assert "region" not in location["physicalLocation"]
        assert location["logicalLocations"] == [{"name": "3", "kind": "element"}]

    def test_nothing_wrong_is_an_empty_list(self) -> None:
        """Results that are left out would mean that nothing was run."""
        run = self.run([FITS])
        assert (run["results"], run["tool"]["driver"]["rules"]) == ([], [])


BODY = "line,bore,fit\nISO 8734 - 5 x 20 - A - St,5 H7,location\nM5 dowel pin,5 H7,location\nx,5 Q7,\n"


class TestOverHttp:
    """Reports of a batch, and of a request that could not be read."""

    @pytest.mark.parametrize(
        ("form", "content_type", "mark"),
        [
            ("junit", "application/xml; charset=utf-8", 'name="order.csv" tests="3" failures="2"'),
            ("tap", "text/plain; charset=utf-8", "not ok 2 - 3 M5 dowel pin"),
            ("lines", "text/plain; charset=utf-8", "order.csv:4: error: unread: x: bore: "),
            ("sarif", "application/sarif+json", '"region":{"startLine":4}'),
        ],
    )
    @pytest.mark.parametrize("address", ["/v1/verdicts.{form}?", "/v1/verdicts?format={form}&"])
    def test_a_list_is_reported(
        self, client: FlaskClient, form: str, content_type: str, mark: str, address: str
    ) -> None:
        """By suffix or by format; the numbers are those of the lines in the file."""
        reply = client.post(address.format(form=form) + "file=order.csv", data=BODY, content_type="text/csv")
        assert (reply.status_code, reply.content_type) == (200, content_type)
        assert mark in reply.get_data(as_text=True)
        assert reply.headers["X-Verdict"] == "unread"

    @pytest.mark.parametrize("form", REPORTS)
    def test_a_gate_goes_with_every_report(self, client: FlaskClient, form: str) -> None:
        """The status stops the build, the report says why."""
        reply = client.post(f"/v1/verdicts.{form}?gate=1", data=BODY, content_type="text/csv")
        assert reply.status_code == 409
        assert "ask" in reply.get_data(as_text=True)

    def test_one_object_is_one_case(self, client: FlaskClient) -> None:
        """Numbered 1, as in a list."""
        reply = client.post("/v1/verdicts.tap", json={"line": "M5 dowel pin", "bore": "5 H7"})
        assert reply.get_data(as_text=True).splitlines()[1] == "not ok 1 - 1 M5 dowel pin"

    @pytest.mark.parametrize(
        ("form", "start"),
        [
            ("junit", '<?xml version="1.0" encoding="UTF-8"?>\n<testsuites>'),
            ("tap", "Bail out! error: body: "),
            ("lines", "error: body: "),
            ("sarif", '{"type":"/docs#nothing-to-check"'),
        ],
    )
    def test_an_empty_order_fails_in_every_report(self, client: FlaskClient, form: str, start: str) -> None:
        """A reader of the report alone must not take it for a success."""
        reply = client.post(f"/v1/verdicts.{form}?file=a.csv", data="line,bore\n", content_type="text/csv")
        assert reply.status_code == 422
        assert reply.get_data(as_text=True).startswith(start)
        if form == "junit":
            root = ElementTree.fromstring(reply.data)  # noqa: S314 - our own reply
            assert [one.get("type") for one in root.iter("failure")] == ["nothing-to-check"]
            assert root[0].get("name") == "a.csv"

    def test_one_check_by_get_has_no_report(self, client: FlaskClient) -> None:
        """The error names the forms that there are."""
        reply = client.get("/v1/verdict.junit?line=M5+dowel+pin&bore=5+H7")
        assert reply.status_code == 404
        assert ".txt" in reply.get_json()["accepted"]


ORDER = {
    "needs": [
        {"id": "N1", "description": "index pins", "quantity": 2, "bore": "5 H7", "fit": "location"},
        {"id": "N2", "description": "cover screws", "quantity": 4, "tapped": "M3 depth 6 in aluminium"},
    ],
    "lines": [{"id": "L1", "line": "M5 dowel pin", "quantity": 2, "for": ["N1"]}],
}
READY = {
    "needs": [ORDER["needs"][0]],
    "lines": [{"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 2}],
}


class TestOrders:
    """Reports of a whole order."""

    def test_the_order_each_need_and_each_line_is_a_case(self, client: FlaskClient) -> None:
        """A need is told by its state, a line by its verdict."""
        reply = client.post("/v1/orders/check.junit?file=sampler.json", json=ORDER)
        (suite,) = ElementTree.fromstring(reply.data)  # noqa: S314 - our own reply
        assert suite.get("name") == "sampler.json"
        found = [
            (case.get("name"), failure.get("type")) for case in suite if (failure := case.find("failure")) is not None
        ]
        assert found == [
            ("1 the order", "not ready"),
            ("2 need N1 index pins", "in doubt"),
            ("3 need N2 cover screws", "missing"),
            ("4 line L1 M5 dowel pin", "ask"),
        ]
        texts = [str(failure.text) for failure in suite.iter("failure")]
        assert "N2 cover screws: 4 needed" in texts[0]
        assert "order instead: Parallel pin ISO 8734 - 5 x <length> - A - St" in texts[3]
        assert "ask the supplier: " in texts[3]

    def test_an_order_that_is_ready_has_no_failure(self, client: FlaskClient) -> None:
        """In any report; the gate is open."""
        reply = client.post("/v1/orders/check.junit?gate=1", json=READY)
        (suite,) = ElementTree.fromstring(reply.data)  # noqa: S314 - our own reply
        assert (reply.status_code, suite.get("tests"), suite.get("failures")) == (200, "3", "0")
        lines = client.post("/v1/orders/check.lines?gate=1", json=READY)
        assert lines.get_data(as_text=True) == "3 checked: 1 ready, 1 covered, 1 fits\n"

    @pytest.mark.parametrize("form", REPORTS)
    def test_a_gate_goes_with_every_report(self, client: FlaskClient, form: str) -> None:
        """The status stops the build."""
        reply = client.post(f"/v1/orders/check.{form}?gate=1", json=ORDER)
        assert reply.status_code == 409
        assert "not ready" in reply.get_data(as_text=True)
