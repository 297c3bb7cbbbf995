"""Every page, in a real browser: for those who do not see, who use no mouse, on a phone, and on paper."""

from importlib.util import find_spec
from pathlib import Path
from typing import Any

import pytest

from tests.pages.browser import Browser
from tests.pages.visits import ASK, PAGES

WIDTHS = (360, 768, 1280)
REFLOWED = 320
"""What is left of the width of a desk's page that is enlarged to 400 %, as WCAG 1.4.10 has it."""

RULES = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")


@pytest.fixture(scope="module")
def axe() -> str:
    """The accessibility engine, as a script."""
    found = find_spec("axe_playwright_python")
    assert found is not None, "pip install --no-deps -r requirements/oracles.txt"
    assert found.origin is not None
    return Path(found.origin).with_name("axe.min.js").read_text("utf-8")


def violations(browser: Browser, axe: str) -> list[Any]:
    """Return what is wrong with the page that is open, and where."""
    # Not as a script element, which the page's own policy refuses.
    browser.run(f"{axe}\nwindow.axe = axe;")
    found: list[Any] = browser.run_later(
        "axe.run(document, {runOnly: arguments[0], resultTypes: ['violations']}).then(r => arguments[1]("
        "r.violations.map(v => [v.id, v.nodes.map(n => n.html.slice(0, 160))])), e => arguments[1](String(e)))",
        RULES,
    )
    return found


@pytest.fixture(scope="module", params=PAGES)
def page(window: Browser, site: str, request: pytest.FixtureRequest) -> Browser:
    """A page that was gone to as a person does; every test about all pages looks at it in turn."""
    window.on("screen")
    PAGES[request.param](window, site)
    return window


def test_no_page_breaks_the_rules_of_accessibility(page: Browser, axe: str) -> None:
    """WCAG 2.2 AA as far as a machine can tell, wide and narrow."""
    for width in (WIDTHS[0], WIDTHS[-1]):
        page.resize(width)
        assert violations(page, axe) == []


def test_no_page_is_wider_than_the_screen(page: Browser) -> None:
    """On a phone, a tablet and a desk, and enlarged four times there; long rows scroll in their own frame."""
    for width in (REFLOWED, *WIDTHS):
        page.resize(width)
        assert page.run("return document.documentElement.scrollWidth") <= width


def test_what_fingers_touch_is_large_enough_on_a_phone(page: Browser) -> None:
    """Every field and button, and what opens something, is 44 pixels high."""
    page.resize(WIDTHS[0])
    low = page.run(
        "return [...document.querySelectorAll(arguments[0])]"
        ".filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 44).map(e => e.outerHTML.slice(0, 99))",
        "input:not([type=hidden]):not([type=checkbox]), select, button, summary",
    )
    assert low == []


def test_no_page_needs_more_than_itself(page: Browser) -> None:
    """No script, no picture, no font, nothing from elsewhere."""
    assert page.run("return document.scripts.length") == 0
    loaded = page.run(
        "return performance.getEntriesByType('resource').map(e => e.name).filter(n => !n.endsWith('/favicon.ico'))"
    )
    assert loaded == []
    assert page.run("return getComputedStyle(document.querySelector('.masthead')).borderBottomStyle") == "double"


def test_every_page_has_its_landmarks_and_its_own_title(page: Browser) -> None:
    """One main part, one heading of the first level, a language, and one table at most."""
    counts = page.run(
        "return ['main', 'h1', 'header', 'footer', 'nav[aria-label]', 'table']"
        ".map(s => document.querySelectorAll(s).length)"
    )
    assert counts[:4] == [1, 1, 1, 1]
    assert counts[4] >= 1
    assert counts[5] <= 1
    assert page.run("return document.documentElement.lang") == "en"
    assert page.run("return document.title").endswith(" - Kitproof")


def test_the_engine_finds_what_is_wrong(browser: Browser, site: str, axe: str) -> None:
    """Else the test above would hold of any page."""
    browser.open(f"{site}/")
    browser.run("document.querySelector('label').remove(); document.documentElement.removeAttribute('lang')")
    assert {"html-has-lang", "label"} <= {name for name, _ in violations(browser, axe)}


def test_the_keyboard_alone_proofs_a_line(browser: Browser, site: str) -> None:
    """To the content, then from field to field, each seen when it has the focus."""
    browser.open(f"{site}/")
    tab, enter = "\ue004", "\ue007"
    browser.press(tab)
    browser.wait_for(".skip:focus")
    assert browser.run("return document.activeElement.textContent") == "To the content"
    assert browser.run("return document.activeElement.getBoundingClientRect().left") >= 0
    browser.press(enter, tab)
    assert browser.run("return document.activeElement.id") == "line"
    assert browser.run("return getComputedStyle(document.activeElement).outlineStyle") == "solid"
    browser.press(*"M5 dowel pin", tab, tab, *"5 H7", tab, tab, *"location")
    assert browser.run("return document.activeElement.id") == "fit"
    browser.press(enter)
    browser.wait_for(".copy")
    assert "ask" in browser.text(".told")


@pytest.mark.parametrize("name", ["verdict that asks", "order", "bench", "tightening"])
def test_paper_shows_what_matters_and_nothing_to_press(browser: Browser, site: str, name: str) -> None:
    """Pictures and texts stay, navigation and buttons go."""
    PAGES[name](browser, site)
    browser.on("print")
    shown = "return [...document.querySelectorAll(arguments[0])].filter(e => e.checkVisibility()).length"
    assert browser.run(shown, "nav, button, input, select") == 0
    assert browser.run(shown, "h1") == 1
    pictures = browser.run("return document.querySelectorAll('.picture svg').length")
    assert browser.run(shown, ".picture svg") == pictures
    assert browser.run(shown, ".cautions li") == browser.run("return document.querySelectorAll('.cautions li').length")


def test_a_sheet_for_the_bench_has_room_for_values_on_paper(browser: Browser, site: str) -> None:
    """A box for each piece, seven at most."""
    PAGES["bench"](browser, site)
    browser.on("print")
    boxes = browser.run(
        "return [...document.querySelectorAll('.bag')].map(b => [...b.querySelector('.boxes')?.children ?? []]"
        ".filter(e => e.checkVisibility()).length)"
    )
    assert boxes == [7, 7, 7, 2, 4, 0, 3]
    browser.resize(703)  # what the margins leave of A4
    assert browser.run("return new Set([...document.querySelector('.boxes').children].map(e => e.offsetTop)).size") == 1


def test_the_file_that_is_printed_is_a_document(browser: Browser, site: str, tmp_path: Path) -> None:
    """As A4."""
    browser.open(f"{site}/v1/verdict.html?{ASK}")
    browser.printed(tmp_path / "page.pdf")
    assert (tmp_path / "page.pdf").read_bytes().startswith(b"%PDF-")


def test_verdicts_are_told_without_colour(browser: Browser, site: str) -> None:
    """Each by a shape of its own beside its word; all in the colour of the text."""
    PAGES["first page"](browser, site)
    signs = browser.run(
        "return [...document.querySelectorAll('.entry .mark')].map(m => [m.textContent.trim(), m.querySelector('svg')"
        ".innerHTML, getComputedStyle(m).color])"
    )
    shapes = {word: shape for word, shape, _ in signs}
    assert set(shapes) == {"ask", "fits", "wrong", "marginal", "unread"}
    assert len(set(shapes.values())) == 5
    assert len({colour for *_, colour in signs}) == 1
