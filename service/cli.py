"""The commands of the service: ``python -m service <command>``.

All of them take their settings from the environment as the service does (``service.config``). Exit codes: 0 done,
1 not done, 2 wrong use.
"""

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from contextlib import ExitStack
from pathlib import Path
from typing import BinaryIO

from sqlalchemy import NullPool

from service import __doc__ as about
from service.access import NoTokens, require_tokens
from service.collector import settle
from service.config import SettingError, Settings
from service.store import exchange, tokens
from service.store.backup import NoBackup, back_up
from service.store.engine import AddressError, Unavailable, open_engine
from service.store.migrate import HEAD, NewerDatabase, migrate
from service.store.model import NAME
from service.store.store import Store

KNOWN = (SettingError, AddressError, Unavailable, NewerDatabase, NoTokens, NoBackup, exchange.BadExport, OSError)
"""What an operator can put right: told in one line, without a trace."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Carry out one command and return the exit code."""
    parsed = _parser().parse_args(arguments)
    command: Callable[[argparse.Namespace, Settings], int] = parsed.run
    try:
        return command(parsed, Settings.from_environment())
    except KNOWN as error:
        print(f"error: {error}", file=sys.stderr)
        return 1


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m service", description=(about or "").split("\n", 1)[0])
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")

    def command(
        run: Callable[[argparse.Namespace, Settings], int], name: str, meaning: str, into: object = commands
    ) -> argparse.ArgumentParser:
        added: argparse.ArgumentParser = into.add_parser(name, help=meaning, description=meaning)  # type: ignore[attr-defined]
        added.set_defaults(run=run)
        return added

    command(_serve, "serve", "serve over HTTP with gunicorn")
    work = command(_work, "work", "work on jobs, in a process of its own, until it is stopped")
    work.add_argument("--threads", type=int, default=1, help="chunks worked at a time (default: 1)")
    command(_migrate, "migrate", "bring the tables of the database to the present version")

    token = commands.add_parser("token", help="make, list and revoke tokens", description="Make, list, revoke tokens.")
    actions = token.add_subparsers(title="commands", required=True, metavar="COMMAND")
    create = command(_create_token, "create", "make a token; it is printed once and cannot be shown again", actions)
    create.add_argument("--owner", required=True, type=_name, help="whose orders the token gives access to")
    create.add_argument(
        "--scope", choices=tokens.SCOPES, default="read", help="read (default) or write, which reads too"
    )
    create.add_argument("--note", default="", type=_note, help="what it is for")
    command(_list_tokens, "list", "list all tokens by their ids", actions)
    revoke = command(_revoke_token, "revoke", "revoke a token", actions)
    revoke.add_argument("id", help="id of the token, as the list has it")

    command(_recheck, "recheck", "prove every stored order again and tell which verdicts changed, and why")
    export = command(_export, "export", "write everything to one open file (JSON Lines)")
    export.add_argument("file", nargs="?", default="-", help="the file, - for standard output (default)")
    export.add_argument("--owner", help="only what is this owner's")
    export.add_argument("--with-tokens", action="store_true", help="tokens too, as digests")
    read = command(_import, "import", "read what export wrote; all of it is stored or nothing")
    read.add_argument("file", nargs="?", default="-", help="the file, - for standard input (default)")
    backup = command(_backup, "backup", "copy the SQLite database to a new file while it is in use")
    backup.add_argument("file", type=Path, help="the new file")
    catalogue = command(_catalogue, "catalogue", "judge a CSV or Parquet file of any length, a file for each partition")
    catalogue.add_argument("source", type=Path, help="the file, with columns as /v1/verdicts takes them")
    catalogue.add_argument("folder", type=Path, help="takes the results; empty or not there yet")
    catalogue.add_argument("--workers", type=int, help="processes here (default: one per core); 0: this one, no Dask")
    catalogue.add_argument("--scheduler", help="the Dask cluster that works instead, for example tcp://10.0.0.5:8786")
    catalogue.add_argument("--partition", type=int, default=20_000, help="rows of a partition (default: 20000)")
    catalogue.add_argument("--resume", action="store_true", help="go on with a run that was stopped")
    catalogue.add_argument("--to", choices=("csv", "parquet"), help="how results are written (default: as the source)")
    catalogue.add_argument("--units", choices=("mm", "in"), default="mm", help="unit of lengths (default: mm)")
    return parser


def _name(text: str) -> str:
    if not text.strip() or len(text) > NAME or not text.isprintable():
        raise argparse.ArgumentTypeError(f"1 to {NAME} printable characters are accepted, for example workshop")
    return text


def _note(text: str) -> str:
    return _name(text) if text else ""


def _store(settings: Settings) -> Store:
    return Store(settings.database_url, wait=settings.database_wait)


def _serve(parsed: argparse.Namespace, settings: Settings) -> int:
    store = _store(settings)
    store.prepare_early()
    require_tokens(store, settings)
    # Replaced, so that signals reach gunicorn itself.
    os.execv(sys.executable, [sys.executable, "-m", "gunicorn", "--config", "python:service.serving"])  # noqa: S606


def _work(parsed: argparse.Namespace, settings: Settings) -> int:
    from service.api.jobs import queue_of

    store = _store(settings)
    store.prepare()
    settle()
    queue_of(store, settings).run(max(parsed.threads, 1))
    return 0


def _migrate(parsed: argparse.Namespace, settings: Settings) -> int:
    before = migrate(open_engine(settings.database_url, wait=settings.database_wait, poolclass=NullPool))
    print(f"the tables are of version {HEAD}" + ("" if before == HEAD else f"; before: {before or 'none'}"))
    return 0


def _create_token(parsed: argparse.Namespace, settings: Settings) -> int:
    with _store(settings).write() as session:
        made = tokens.make(session, parsed.owner, parsed.scope, parsed.note)
    print(made)
    return 0


def _list_tokens(parsed: argparse.Namespace, settings: Settings) -> int:
    with _store(settings).read() as session:
        found = tokens.listing(session)
    for token in found:
        state = "valid" if token.revoked_at is None else f"revoked {token.revoked_at:%Y-%m-%d}"
        print(
            f"{token.id}  {token.scope:5}  {token.made_at:%Y-%m-%d}  {state:18}  {token.owner}  {token.note}".rstrip()
        )
    return 0


def _revoke_token(parsed: argparse.Namespace, settings: Settings) -> int:
    with _store(settings).write() as session:
        revoked = tokens.revoke(session, parsed.id)
    if not revoked:
        print(f"error: there is no valid token {parsed.id}", file=sys.stderr)
        return 1
    print(f"token {parsed.id} is revoked; a running service may accept it for two seconds more")
    return 0


def _recheck(parsed: argparse.Namespace, settings: Settings) -> int:
    # Reading and judging are loaded only where they are needed.
    from service.stored.orders import recheck_all

    failed = 0
    for found in recheck_all(_store(settings)):
        lead = f"{found.owner}  {found.order_id}  {found.name}".rstrip()
        if found.error:
            failed += 1
            print(f"{lead}: {found.error}")
        for one in found.changes:
            before, verdict = one.before or "nothing", one.verdict or "nothing"
            print(f"{lead}: {one.subject} {one.id}".rstrip() + f": {before} -> {verdict} ({one.because})")
    return 1 if failed else 0


def _export(parsed: argparse.Namespace, settings: Settings) -> int:
    with ExitStack() as stack:
        file: BinaryIO = sys.stdout.buffer
        if parsed.file != "-":
            # Never over a file that is there; read by the owner only.
            number = os.open(parsed.file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600)
            file = stack.enter_context(os.fdopen(number, "wb"))
        session = stack.enter_context(_store(settings).read())
        file.writelines(exchange.export_lines(session, owner=parsed.owner, tokens=parsed.with_tokens))
        file.flush()
        if parsed.file != "-":
            os.fsync(file.fileno())
    return 0


def _import(parsed: argparse.Namespace, settings: Settings) -> int:
    with ExitStack() as stack:
        file: BinaryIO = sys.stdin.buffer
        if parsed.file != "-":
            file = stack.enter_context(open(parsed.file, "rb"))
        session = stack.enter_context(_store(settings).write())
        new = exchange.import_lines(session, file)
    print("new: " + ", ".join(f"{name} {number}" for name, number in new.items()))
    return 0


def _backup(parsed: argparse.Namespace, settings: Settings) -> int:
    size = back_up(open_engine(settings.database_url), parsed.file)
    print(f"{parsed.file}: {size} bytes")
    return 0


def _catalogue(parsed: argparse.Namespace, settings: Settings) -> int:
    from service.catalogue.run import run
    from service.catalogue.source import CatalogueError, MissingExtraError

    workers = settings.workers if parsed.workers is None else parsed.workers
    if workers < 0 or parsed.partition < 1:
        name, value = ("--workers", workers) if workers < 0 else ("--partition", parsed.partition)
        print(f"error: {name} {value}: a whole number from {int(workers >= 0)} up is accepted", file=sys.stderr)
        return 2
    settle()
    try:
        verdicts = run(
            parsed.source,
            parsed.folder,
            workers=workers,
            row_limit=settings.row_limit,
            rows=parsed.partition,
            resume=parsed.resume,
            form=parsed.to,
            units=parsed.units,
            scheduler=parsed.scheduler,
            told=lambda text: print(text, file=sys.stderr),
        )
    except (CatalogueError, MissingExtraError) as error:
        print(f"error: {error}", file=sys.stderr)
        return 1
    counted = ", ".join(f"{word} {number}" for word, number in sorted(verdicts.items()))
    print(f"{parsed.folder}: {sum(verdicts.values())} rows: {counted}")
    return 0
