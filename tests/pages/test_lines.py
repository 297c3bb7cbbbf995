"""The pages of one line."""

import re

import pytest
from flask.testing import FlaskClient

from service.pages.lines import again, percent, size_text
from tests.pages.parsed import get

ASK = "/v1/verdict.html?line=M5+dowel+pin&bore=5+H7&fit=location"
SHORT = "/v1/verdict.html?line=M4x45+socket+head+cap+screw+8.8&clamp=42+into+M4+depth+10+in+aluminium"
READING = ".//article[@class='reading']"


def test_readings_stand_side_by_side_each_with_its_word(client: FlaskClient) -> None:
    """None is hidden; the best supported comes first."""
    page = get(client, ASK)
    assert page.texts(f"{READING}/h3") == [
        "parallel pin with internal thread",
        "parallel pin",
        "parallel pin with external thread",
    ]
    assert page.texts(f"{READING}/p[@class='said']") == [
        "wrong, clearance −3.015 to −2.994 mm",
        "fits, clearance −0.012 to 0.008 mm",
        "open",
    ]


def test_what_to_order_and_what_to_ask_come_first(client: FlaskClient) -> None:
    """Ready to copy, and ready to send."""
    page = get(client, ASK)
    assert page.one(".//code[@class='order']") == "Parallel pin ISO 8734 - 5 x <length> - A - St"
    question = page.one(".//p[@class='ask']")
    assert question.startswith("Your line 'M5 dowel pin' can mean a)")
    mail = next(link.get("href") for link in page.all(".//a") if link.get("href", "").startswith("mailto:"))
    assert mail is not None
    assert "body=Your%20line%20%27M5%20dowel%20pin%27" in mail


def test_every_number_has_its_source(client: FlaskClient) -> None:
    """Findings, evidence, and the limits of a class."""
    page = get(client, ASK)
    for path in (".//ul[@class='findings']/li", ".//ol[@class='tokens']/li"):
        assert page.all(path)
        assert all(one.find(".//span[@class='source']") is not None for one in page.all(path))
    limits = next(text for text in page.texts(f"{READING}//dd") if text.startswith("5 m6 (5.004 to 5.012)"))
    assert "ISO 286-1 Table 1" in limits


def test_evidence_stands_token_by_token(client: FlaskClient) -> None:
    """What of the line says what."""
    tokens = get(client, ASK).texts(".//ol[@class='tokens']/li")
    assert tokens[1] == "M5 M marks an ISO metric thread ISO 965-1"


@pytest.mark.parametrize(
    ("address", "heading"),
    [
        (ASK, "Order this"),
        (SHORT, "Order this"),
        ("/v1/verdict.html?line=608-2RS&shaft=8+h6&fit=slip", "The same, written out: it stays marginal"),
        ("/v1/verdict.html?line=M6x22+hex+bolt+10.9&clamp=16+into+nut+M6", "Order this"),
        ("/v1/verdict.html?line=dowel+pin+5+m6+x+20&bore=5+H7&fit=location", "The same, written out"),
    ],
)
def test_an_order_text_that_puts_nothing_right_is_not_offered_as_a_remedy(
    client: FlaskClient, address: str, heading: str
) -> None:
    """Nobody is told to order the same again."""
    assert heading in get(client, address).texts("./body/main/h2")


def test_a_line_that_stands_as_it_should_is_not_put_right(client: FlaskClient) -> None:
    """There is nothing to order instead."""
    page = get(client, "/v1/verdict.html?line=Parallel+pin+ISO+8734+-+5+x+20+-+A+-+St&bore=5+H7&fit=location")
    assert "fits" in page.one(".//div[@class='told']")
    assert page.all(".//code[@class='order']") == []


@pytest.mark.parametrize(
    ("address", "said"),
    [
        (ASK, "It depends on what the line means. As a parallel pin it fits."),
        (SHORT, "It does not go with its mate."),
        ("/v1/verdict.html?line=608-2RS&shaft=8+h6&fit=slip", "only for some parts within their limits: about 60 %"),
        ("/v1/verdict.html?line=two+nice+bottles&bore=5+H7", "The line cannot be read."),
        ("/v1/verdict.html?line=M4x20+screw+8.8&clamp=12+into+M4+in+steel", "is not stated"),
    ],
)
def test_a_verdict_is_told_in_a_sentence(client: FlaskClient, address: str, said: str) -> None:
    """Whatever the word is."""
    assert said in get(client, address).one(".//div[@class='told']")


def test_cautions_stand_once_with_the_figures_that_they_belong_to(client: FlaskClient) -> None:
    """Pressing a pin can hurt."""
    cautions = get(client, ASK).texts(".//section[@class='cautions']//li")
    assert any("wear eye protection" in text for text in cautions)
    assert len(cautions) == len(set(cautions))


def test_a_page_leads_to_its_other_forms_and_back_to_the_form(client: FlaskClient) -> None:
    """With what was asked; each is answered."""
    page = get(client, ASK)
    others = {text: one.get("href", "") for one in page.all(".//nav[@class='others']//a") for text in one.itertext()}
    assert set(others) == {"JSON", "CSV", "XML", "plain text", "picture"}
    for address in others.values():
        assert client.get(address).status_code == 200
    back = next(one.get("href", "") for one in page.all(".//a") if "Change the line" in "".join(one.itertext()))
    form = get(client, back)
    fields = {one.get("name"): one.get("value") for one in form.all(".//form[@method='get']//input")}
    assert (fields["line"], fields["mate"], fields["fit"]) == ("M5 dowel pin", "5 H7", "location")
    assert [one.get("value") for one in form.all(".//option[@selected]")] == ["bore"]


def test_a_page_has_one_table_with_its_id_and_a_sheet_nothing_but_that(client: FlaskClient) -> None:
    """A web query picks it, wherever it stands; ``errors=inline`` is how a sheet asks."""
    page = get(client, ASK)
    assert [one.get("id") for one in page.all(".//table")] == ["verdicts"]
    bare = get(client, f"{ASK}&errors=inline")
    assert [one.tag for one in bare.all("./body/*")] == ["table"]
    assert bare.texts(".//td") == page.texts(".//td")


@pytest.mark.parametrize("line", ["=1+1", "+1/2 in pin", "-5 pin", "@SUM(1)", "=HYPERLINK(A1)\u00a0pin"])
def test_no_block_of_a_page_is_run_by_a_sheet(client: FlaskClient, line: str) -> None:
    """A sheet that imports a whole page takes each block as a cell; the heading is one."""
    for path in ("reading", "verdict"):
        reply = client.get(
            f"/v1/{path}.html", query_string={"line": line, **({"bore": "5 H7"} if path == "verdict" else {})}
        )
        text = reply.get_data(as_text=True)
        blocks = re.findall(r">\s*([=+@-][^<]*)", text)
        assert [block for block in blocks if not re.fullmatch(r"-\d+(\.\d+)?", block)] == []
        assert '<h1 class="copy">&#39;' in text


def test_what_a_buyer_writes_never_becomes_markup(client: FlaskClient) -> None:
    """In the heading, the title, the pictures and the rows."""
    page = get(client, "/v1/verdict.html?line=%3Cscript%3E%3Cb%3E+M5+dowel+pin&bore=5+H7")
    assert page.all(".//script") == []
    assert page.all(".//b") == []
    assert "<script>" in page.one(".//h1")


def test_a_reading_says_what_would_arrive(client: FlaskClient) -> None:
    """Without a mate there is no verdict."""
    page = get(client, "/v1/reading.html?line=10+x+M5x16+socket+head+cap+screw")
    assert page.one(".//div[@class='told']").startswith("clear")
    assert page.one(f"{READING}/h3") == "socket head cap screw"
    assert "10 ordered" in page.one(".//p[@class='against']")
    unread = get(client, "/v1/reading.html?line=two+nice+bottles").one(".//div[@class='told']")
    assert "no word of the line names a part that is known here" in unread


def test_lengths_can_be_shown_in_inches(client: FlaskClient) -> None:
    """Also within the picture."""
    page = get(client, f"{ASK}&units=in")
    assert "clearance −0.0004724 to 0.000315 in" in page.texts(f"{READING}/p[@class='said']")[1]
    assert any("0.1970079" in text for text in page.texts(".//{http://www.w3.org/2000/svg}text"))


def test_shares_are_never_rounded_to_all_or_nothing() -> None:
    """99.96 % is not 100 %."""
    assert percent(0.99996) == "99.9 %"
    assert percent(0.004) == "0.4 %"


def test_sizes_of_every_kind_are_written_out() -> None:
    """Threads, ratings, plain words."""
    assert size_text({"designation": "M5", "pitch": 0.8}) == "M5, pitch 0.8"
    assert size_text({"voltage": {"value": 24, "unit": "V", "upper": None}}) == "voltage 24 V"
    assert size_text({"nominal": 20, "lower": None, "upper": None, "tolerance_class": None}) == "20"


def test_asking_again_keeps_the_mate() -> None:
    """Whatever its kind."""
    assert again("line=M4&clamp=42+into+M4&dec=%2C") == "line=M4&kind=clamp&mate=42+into+M4"
