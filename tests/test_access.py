"""Who may: callers on this machine without a token, everyone else with one, and how often."""

import base64
from pathlib import Path
from typing import Any

import pytest

from service.access import REMEMBERED, WINDOW, Access, NoTokens, Rates, is_loopback, require_tokens, require_write
from service.config import Settings
from service.errors import Forbidden, TooManyRequests, Unauthorized
from service.store import tokens
from service.store.engine import Unavailable
from service.store.store import Store
from service.store.tokens import LOCAL, Bearer

HERE = {"REMOTE_ADDR": "127.0.0.1", "HTTP_HOST": "127.0.0.1:8383"}


class Clock:
    """Seconds that pass when they are told to."""

    def __init__(self) -> None:
        """Begin somewhere."""
        self.now = 1000.0

    def __call__(self) -> float:
        """Return the present second."""
        return self.now


@pytest.fixture
def clock() -> Clock:
    """A clock of the test's own."""
    return Clock()


@pytest.fixture
def local(tmp_path: Path) -> Store:
    """A store for access alone."""
    return Store(f"sqlite:///{tmp_path / 'a.sqlite3'}")


def made(store: Store, scope: str = "write", owner: str = "club") -> str:
    """Return a new token."""
    with store.write() as session:
        return tokens.make(session, owner, scope)


def showing(token: str, **environ: str) -> dict[str, str]:
    """Return a request from elsewhere that shows a token."""
    return {
        "REMOTE_ADDR": "192.0.2.7",
        "HTTP_HOST": "proof.example",
        "HTTP_AUTHORIZATION": f"Bearer {token}",
        **environ,
    }


@pytest.mark.parametrize(
    ("host", "own"),
    [
        ("127.0.0.1", True),
        ("127.8.8.8", True),
        ("::1", True),
        ("[::1]", True),
        ("LOCALHOST", True),
        ("0.0.0.0", False),  # noqa: S104 - an address to be judged, nothing listens there
        ("::", False),
        ("192.168.1.5", False),
        ("localhost.example", False),
        ("", False),
    ],
)
def test_loopback_is_only_what_nobody_else_reaches(host: str, own: bool) -> None:
    """A private network is no loopback."""
    assert is_loopback(host) is own


@pytest.mark.parametrize("host", ["127.0.0.1:8383", "localhost", "[::1]:8383", "127.0.0.1"])
def test_this_machine_needs_no_token(local: Store, host: str) -> None:
    """Where the service listens on loopback only."""
    assert Access(local, Settings()).bearer({**HERE, "HTTP_HOST": host}) == Bearer(LOCAL, "write", "")


@pytest.mark.parametrize(
    "environ",
    [
        {**HERE, "REMOTE_ADDR": "192.0.2.7"},
        {**HERE, "HTTP_HOST": "evil.example"},
        {**HERE, "HTTP_HOST": "127.0.0.1.evil.example:8383"},
        {**HERE, "HTTP_X_FORWARDED_FOR": "192.0.2.7"},
        {**HERE, "HTTP_FORWARDED": "for=192.0.2.7"},
        {**HERE, "HTTP_VIA": "1.1 proxy"},
        {**HERE, "REMOTE_ADDR": ""},
    ],
)
def test_what_comes_from_elsewhere_needs_one(local: Store, environ: dict[str, str]) -> None:
    """Also what a page on the web sends under its own name, or a proxy passes on."""
    with pytest.raises(Unauthorized) as refused:
        Access(local, Settings()).bearer(environ)
    assert dict(refused.value.headers)["WWW-Authenticate"] == 'Bearer realm="kitproof"'


@pytest.mark.parametrize("change", [{"tokens": "always"}, {"proxies": 1}, {"host": "192.0.2.1"}])
def test_where_the_service_is_reached_from_elsewhere_everyone_needs_one(local: Store, change: dict[str, Any]) -> None:
    """Behind a proxy every request seems to come from this machine."""
    access = Access(local, Settings(**change))
    with pytest.raises(Unauthorized):
        access.bearer(HERE)
    token = made(local)
    assert access.bearer({**HERE, "HTTP_AUTHORIZATION": f"bearer  {token}"}).owner == "club"


def test_a_token_tells_who_it_is(local: Store) -> None:
    """From anywhere; on this machine too it is the token that counts."""
    access, token = Access(local, Settings()), made(local, "read")
    assert access.bearer(showing(token)) == Bearer("club", "read", token[3:19])
    assert access.bearer({**HERE, "HTTP_AUTHORIZATION": f"Bearer {token}"}).owner == "club"


@pytest.mark.parametrize(
    "shown", ["Basic a2VwdDpzZWNyZXQ=", "Bearer", "Bearer ", "", "kp_0000000000000000_" + "0" * 64, "Bearer x\x00"]
)
def test_what_is_no_token_is_refused(local: Store, shown: str) -> None:
    """Even on this machine: who shows something means it."""
    with pytest.raises(Unauthorized):
        Access(local, Settings()).bearer({**HERE, "HTTP_AUTHORIZATION": shown})


def by_browser(token: str, user: str = "bench", **environ: str) -> dict[str, str]:
    """Return a request from elsewhere as a browser sends it."""
    shown = base64.b64encode(f"{user}:{token}".encode()).decode()
    return {**showing(token), "HTTP_AUTHORIZATION": f"Basic {shown}", "HTTP_ACCEPT": "text/html,*/*;q=0.8", **environ}


def test_a_browser_shows_the_token_as_a_password(local: Store) -> None:
    """Under any name; what is no token stays none."""
    access, token = Access(local, Settings()), made(local)
    assert access.bearer(by_browser(token)).owner == "club"
    assert access.bearer(by_browser("", user=token)).owner == "club"
    with pytest.raises(Unauthorized):
        access.bearer(by_browser("secret"))


def test_only_a_browser_is_told_to_ask_its_user(local: Store) -> None:
    """By the second challenge."""
    access = Access(local, Settings())
    stranger = {"REMOTE_ADDR": "192.0.2.7", "HTTP_HOST": "proof.example"}
    with pytest.raises(Unauthorized) as program:
        access.bearer({**stranger, "HTTP_ACCEPT": "*/*"})
    with pytest.raises(Unauthorized) as browser:
        access.bearer({**stranger, "HTTP_ACCEPT": "text/html,application/xhtml+xml"})
    assert [value.split()[0] for _, value in program.value.headers] == ["Bearer"]
    assert [value.split()[0] for _, value in browser.value.headers] == ["Bearer", "Basic"]


@pytest.mark.parametrize(
    ("site", "method", "let_in"),
    [
        ("cross-site", "POST", False),
        ("same-site", "DELETE", False),
        ("cross-site", "GET", True),
        ("same-origin", "POST", True),
        ("none", "POST", True),
    ],
)
def test_a_page_of_another_site_cannot_use_what_a_browser_keeps(
    local: Store, site: str, method: str, let_in: bool
) -> None:
    """It adds its user's token to whatever a page sends."""
    access, token = Access(local, Settings()), made(local)
    request = by_browser(token, HTTP_SEC_FETCH_SITE=site, REQUEST_METHOD=method)
    if let_in:
        assert access.bearer(request).owner == "club"
    else:
        with pytest.raises(Forbidden):
            access.bearer(request)


@pytest.mark.parametrize(("site", "let_in"), [("cross-site", False), ("same-site", False), ("same-origin", True)])
def test_a_page_of_another_site_changes_nothing_on_this_machine(local: Store, site: str, let_in: bool) -> None:
    """Nobody shows a token here, but a browser would send that page's forms from this machine."""
    access = Access(local, Settings())
    request = {**HERE, "HTTP_SEC_FETCH_SITE": site, "REQUEST_METHOD": "POST"}
    assert access.bearer({**request, "REQUEST_METHOD": "GET"}).owner == LOCAL
    if let_in:
        assert access.bearer(request).owner == LOCAL
    else:
        with pytest.raises(Forbidden):
            access.bearer(request)


def test_a_revoked_token_ends_soon(local: Store, clock: Clock) -> None:
    """It is remembered for two seconds at most, and a made-up one not at all."""
    access, token = Access(local, Settings(), clock), made(local)
    access.bearer(showing(token))
    with local.write() as session:
        tokens.revoke(session, token[3:19])
    clock.now += REMEMBERED + 0.1
    with pytest.raises(Unauthorized) as refused:
        access.bearer(showing(token))
    assert "invalid_token" in dict(refused.value.headers)["WWW-Authenticate"]
    again = made(local)
    assert access.bearer(showing(again)).token_id == again[3:19]


def test_without_the_database_no_token_is_believed(tmp_path: Path) -> None:
    """Nobody is let in unseen; on this machine everything that needs no store goes on."""
    (tmp_path / "folder").mkdir()
    access = Access(Store(f"sqlite:///{tmp_path / 'folder'}"), Settings())
    with pytest.raises(Unavailable):
        access.bearer(showing(f"kp_{'0' * 16}_{'0' * 64}"))
    assert access.bearer(HERE).owner == LOCAL


def test_who_only_reads_does_not_write() -> None:
    """The error says which scope is needed."""
    assert require_write(Bearer("club", "write", "1")).owner == "club"
    with pytest.raises(Forbidden) as refused:
        require_write(Bearer("club", "read", "1"))
    assert 'scope="write"' in dict(refused.value.headers)["WWW-Authenticate"]


def test_listening_elsewhere_needs_a_token_first(local: Store) -> None:
    """The message says how to make one; a revoked one does not count."""
    elsewhere = Settings(host="192.0.2.1")
    require_tokens(local, Settings())
    with pytest.raises(NoTokens, match="python -m service token create"):
        require_tokens(local, elsewhere)
    token = made(local)
    require_tokens(local, elsewhere)
    with local.write() as session:
        tokens.revoke(session, token[3:19])
    with pytest.raises(NoTokens):
        require_tokens(local, elsewhere)


# --- how often -------------------------------------------------------------------------------------------------------


def test_each_caller_has_a_number_of_requests_a_minute(clock: Clock) -> None:
    """With the next minute it begins anew; others are not touched."""
    rates = Rates(3, clock)
    for _ in range(3):
        rates.count("a")
    with pytest.raises(TooManyRequests) as refused:
        rates.count("a")
    assert 0 < int(dict(refused.value.headers)["Retry-After"]) <= WINDOW
    rates.count("b")
    clock.now += WINDOW
    rates.count("a")


def test_no_limit_counts_nothing(clock: Clock) -> None:
    """0 stands for any number."""
    rates = Rates(0, clock)
    for _ in range(10_000):
        rates.count("a")


def test_many_strangers_take_no_more_memory_than_a_bound(clock: Clock, monkeypatch: pytest.MonkeyPatch) -> None:
    """Beyond it they share one count; who was known before keeps their own."""
    monkeypatch.setattr("service.access._MOST_REMEMBERED", 10)
    rates = Rates(5, clock)
    for number in range(13):
        rates.count(str(number))
    assert len(rates._counts) <= 11
    rates.count("0")
    rates.count("13")
    rates.count("14")
    with pytest.raises(TooManyRequests):
        rates.count("15")


def test_guessing_is_slowed_down_and_does_not_lock_others_out(local: Store, clock: Clock) -> None:
    """Requests without a valid token count for their address, valid ones for their token."""
    access, token = Access(local, Settings(rate_limit=5), clock), made(local)
    for _ in range(5):
        with pytest.raises(Unauthorized):
            access.bearer(showing("kp_" + "0" * 16 + "_" + "0" * 64))
    with pytest.raises(TooManyRequests):
        access.bearer(showing("guess"))
    for _ in range(5):
        access.bearer(showing(token))
    with pytest.raises(TooManyRequests):
        access.bearer(showing(token))
    for _ in range(50):
        access.bearer(HERE)
