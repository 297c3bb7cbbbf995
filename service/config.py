"""What an operator can set: every setting by environment variable, typed, with its default and meaning.

Each field of ``Settings`` is read from ``KITPROOF_<FIELD>``; a value that cannot be understood stops the start and says
what is accepted. Constants of the trade do not belong here (``reference``).

>>> Settings.from_environment({"KITPROOF_PORT": "9000"}).port
9000
"""

import os
from collections.abc import Mapping
from dataclasses import Field, dataclass, field, fields
from pathlib import Path
from typing import Any

PREFIX = "KITPROOF_"


class SettingError(ValueError):
    """A setting cannot be understood; the message names the variable, its value and what is accepted."""


def _var_folder() -> Path:
    """Return the folder for files written at run time: beside the checkout, or where a wheel is started."""
    checkout = Path(__file__).resolve().parents[1]
    return (checkout if (checkout / "pyproject.toml").is_file() else Path.cwd()) / "var"


def _database_url() -> str:
    return f"sqlite:///{_var_folder() / 'kitproof.sqlite3'}"


def _cores() -> int:
    # More workers than cores gained nothing when measured, and each costs its memory.
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _setting(
    meaning: str, default: Any = None, factory: Any = None, at_least: int = 1, words: tuple[str, ...] = ()
) -> Any:
    metadata = {"meaning": meaning, "at_least": at_least, "words": words}
    if factory is not None:
        return field(default_factory=factory, metadata=metadata)
    return field(default=default, metadata=metadata)


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings of one running service."""

    database_url: str = _setting("SQLAlchemy address of the store; an SQLite file is created", factory=_database_url)
    database_wait: int = _setting("how long a request waits for a lock or a connection of the database [s]", 5)
    host: str = _setting("address to listen on; beyond this machine only with tokens", "127.0.0.1")
    port: int = _setting("port to listen on", 8383)
    workers: int = _setting("worker processes; by default one per usable core", factory=_cores)
    threads: int = _setting("threads of each worker", 4)
    tokens: str = _setting(
        "who needs a token: everyone elsewhere than on this machine, or always everyone",
        "elsewhere",
        words=("elsewhere", "always"),
    )
    proxies: int = _setting(
        "how many proxies of yours stand in front; so many addresses of X-Forwarded-For are believed, and the path in "
        "X-Forwarded-Prefix",
        0,
        at_least=0,
    )
    rate_limit: int = _setting(
        "requests of one token, or of one address without a valid token, within a minute and in each worker; 0: any",
        6000,
        at_least=0,
    )
    orders_limit: int = _setting("most stored orders of one owner", 10_000)
    log: str = _setting(
        "a line of JSON on standard error for each request: time, request id, path, status, verdict; or none",
        "off",
        words=("off", "json"),
    )
    jobs_limit: int = _setting("most jobs of one owner, with their results", 100)
    job_rows_limit: int = _setting("most rows of one job", 1_000_000)
    job_days: int = _setting("how long a job is kept after it is done or cancelled, with its result [days]", 30)
    job_threads: int = _setting(
        "threads of each worker process that work on jobs; 0: none, where `python -m service work` does", 1, at_least=0
    )
    body_limit: int = _setting("largest JSON body [bytes]", 1024 * 1024)
    checks_limit: int = _setting("most checks in one JSON body", 1000)
    row_limit: int = _setting("longest row of a CSV or NDJSON body [bytes]", 64 * 1024)
    spool_limit: int = _setting(
        "longest batch reply that is held on disk until the upload has ended [bytes]; "
        "what goes beyond is sent while the client still uploads",
        1024 * 1024 * 1024,
    )

    @classmethod
    def from_environment(cls, environ: Mapping[str, str] | None = None) -> "Settings":
        """Read the settings from the environment.

        Raises:
            SettingError: a variable's value is not of its kind, or ``KITPROOF_`` stands before no setting.
        """
        given = {name: text for name, text in (os.environ if environ is None else environ).items() if text}
        known = {PREFIX + item.name.upper(): item for item in fields(cls)}
        unknown = sorted(name for name in given if name.startswith(PREFIX) and name not in known)
        if unknown:
            raise SettingError(f"{unknown[0]} is no setting; there are: {', '.join(known)}")
        return cls(**{item.name: _parse(name, item, given[name]) for name, item in known.items() if name in given})


def _parse(name: str, item: Field[Any], text: str) -> Any:
    words = item.metadata["words"]
    if words and text not in words:
        raise SettingError(f"{name}={text!r} is not accepted: {' or '.join(words)}, for example {name}={words[0]}")
    if item.type is not int:
        return text
    least = item.metadata["at_least"]
    if not text.isascii() or not text.isdigit() or int(text) < least:
        raise SettingError(f"{name}={text!r} is not accepted: a whole number from {least} up, for example {name}=8")
    return int(text)
