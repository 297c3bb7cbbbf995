"""The commands: each does its work, and says in one line what stands in the way."""

import io
import re
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from sqlalchemy import text

from service import cli
from service.store import habits, orders, tokens
from service.store.store import Store
from service.stored import orders as stored_orders
from service.verdict.model import CheckError

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command on a database of the test's own; return the exit code and both outputs."""
    for name in list(cli.os.environ):
        if name.startswith("KITPROOF_"):
            monkeypatch.delenv(name)
    monkeypatch.setenv("KITPROOF_DATABASE_URL", f"sqlite:///{tmp_path / 'kitproof.sqlite3'}")

    def call(*arguments: str, **environ: str) -> tuple[int, str, str]:
        with monkeypatch.context() as patch:
            for name, value in environ.items():
                patch.setenv(f"KITPROOF_{name.upper()}", value)
            code = cli.main(list(arguments))
        captured = capsys.readouterr()
        return code, captured.out, captured.err

    return call


@pytest.fixture
def local(run: Run, tmp_path: Path) -> Store:
    """The store that the commands work on."""
    return Store(f"sqlite:///{tmp_path / 'kitproof.sqlite3'}")


def test_migrate_tells_the_version(run: Run) -> None:
    """And that nothing was left to do the second time."""
    assert run("migrate")[:2] == (0, "the tables are of version 0004; before: none\n")
    assert run("migrate")[:2] == (0, "the tables are of version 0004\n")


def test_a_database_of_a_newer_version_is_left_alone(run: Run, local: Store) -> None:
    """It would be damaged by software that does not know it."""
    run("migrate")
    with local.write() as session:
        session.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    code, _, said = run("migrate")
    assert (code, said) == (
        1,
        "error: the database is of version 9999, which this version of the service does not know\n",
    )


def test_tokens_are_made_listed_and_revoked(run: Run, local: Store) -> None:
    """The secret is printed once, the list holds none."""
    code, made, _ = run("token", "create", "--owner", "club", "--scope", "write", "--note", "workshop")
    assert code == 0
    token = made.strip()
    with local.read() as session:
        bearer = tokens.find(session, token)
    assert bearer is not None
    assert (bearer.owner, bearer.scope) == ("club", "write")
    listed = run("token", "list")[1]
    assert re.fullmatch(rf"{bearer.token_id}  write  \d{{4}}-\d\d-\d\d  valid +club  workshop\n", listed)
    assert token[20:] not in listed
    assert run("token", "revoke", bearer.token_id)[0] == 0
    assert "revoked" in run("token", "list")[1]
    code, _, said = run("token", "revoke", bearer.token_id)
    assert (code, said) == (1, f"error: there is no valid token {bearer.token_id}\n")


@pytest.mark.parametrize("wrong", [["token", "create"], ["token", "create", "--owner", " "], ["fly"], []])
def test_wrong_use_is_told(run: Run, wrong: list[str]) -> None:
    """With exit code 2, as every tool has it."""
    with pytest.raises(SystemExit) as ended:
        run(*wrong)
    assert ended.value.code == 2


def test_everything_goes_out_to_a_file_and_back(run: Run, local: Store, tmp_path: Path) -> None:
    """Into another database; never over a file that is there."""
    with local.write() as session:
        orders.create(session, "club", "a" * 32, {"name": "sampler"}, "")
    file = tmp_path / "all.jsonl"
    assert run("export", str(file))[0] == 0
    assert file.stat().st_mode & 0o077 == 0
    code, _, said = run("export", str(file))
    assert code == 1
    assert "exists" in said
    other = f"sqlite:///{tmp_path / 'other.sqlite3'}"
    assert run("import", str(file), database_url=other)[1] == (
        "new: order 1, revision 1, entry 0, check 0, verdict 0, habit 0, token 0\n"
    )
    assert "order 0" in run("import", str(file), database_url=other)[1]
    broken = tmp_path / "broken.jsonl"
    broken.write_bytes(file.read_bytes()[:-20])
    code, _, said = run("import", str(broken))
    assert code == 1
    assert said.startswith("error: line 4: no JSON")
    assert run("import", str(tmp_path / "none.jsonl"))[0] == 1


def test_recheck_tells_what_changed_and_why(run: Run, local: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing where nothing did; an order that is not understood any more is named, and the others are proved."""
    needs = [{"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}]
    lines = [{"id": "L1", "line": "M5 dowel pin, 20 long", "quantity": 6, "supplier": "A"}]
    plans = [{"name": "sampler", "needs": needs, "lines": lines}, {"name": "rail", "needs": needs}]
    changes = [stored_orders.prepare_new(local, "club", plan) for plan in plans]
    with local.write() as session:
        for change in changes:
            stored_orders.carry_out(session, change, "")
    assert run("recheck") == (0, "", "")
    habit = {"sign": "M", "part": "pin", "means": "outer diameter", "noted_on": "2027-01-11"}
    with local.write() as session:
        habits.add(session, "club", "A", orders.new_id(), habit)
    lead = f"club  {changes[0].order_id}  sampler: "
    code, said, _ = run("recheck")
    assert code == 0
    assert said.splitlines() == [
        f"{lead}line L1: ask -> fits (habits)",
        f"{lead}need N1: in doubt -> covered (habits)",
        f"{lead}order: not ready -> ready (habits)",
    ]
    assert run("recheck") == (0, "", "")
    parse = stored_orders.parse_order

    def stricter(fields: Any, day: Any) -> Any:
        if "lines" in fields:
            raise CheckError("lines.L1.line", "", "no pins any more", "")
        return parse(fields, day)

    monkeypatch.setattr(stored_orders, "parse_order", stricter)
    assert run("recheck") == (1, f"{lead}lines.L1.line is not understood; accepted: no pins any more\n", "")


def test_export_takes_a_pipe(run: Run, local: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """Standard output by default."""
    with local.write() as session:
        orders.create(session, "club", "a" * 32, {}, "")
        tokens.make(session, "club", "read")
    written = io.BytesIO()
    monkeypatch.setattr(cli.sys, "stdout", SimpleNamespace(buffer=written, flush=lambda: None))
    assert cli.main(["export", "--owner", "club", "--with-tokens"]) == 0
    monkeypatch.undo()
    assert [line[:17] for line in written.getvalue().splitlines()] == [
        b'{"record":"kitpro',
        b'{"record":"order"',
        b'{"record":"revisi',
        b'{"record":"token"',
        b'{"record":"end","',
    ]


def test_a_backup_is_a_database(run: Run, local: Store, tmp_path: Path) -> None:
    """Made while the store is open."""
    with local.write() as session:
        orders.create(session, "club", "a" * 32, {}, "")
        assert run("backup", str(tmp_path / "copy.sqlite3"))[0] == 0
    assert run("backup", str(tmp_path / "copy.sqlite3"))[0] == 1
    copy = Store(f"sqlite:///{tmp_path / 'copy.sqlite3'}")
    with copy.read() as session:
        assert orders.count(session, "club") == 0, "what was not committed is not in it"
    copy.engine.dispose()


def test_serving_beyond_this_machine_needs_a_token(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is started; with one, gunicorn takes over."""
    started: list[list[str]] = []
    monkeypatch.setattr(cli.os, "execv", lambda program, arguments: started.append(arguments))
    code, _, said = run("serve", host="0.0.0.0")  # noqa: S104 - refused
    assert (code, started) == (1, [])
    assert said.startswith("error: KITPROOF_HOST=0.0.0.0 can be reached from other machines")
    run("token", "create", "--owner", "club")
    run("serve", host="0.0.0.0")  # noqa: S104 - only the start is looked at
    assert started[0][1:] == ["-m", "gunicorn", "--config", "python:service.serving"]


@pytest.mark.parametrize(
    ("environ", "said"),
    [
        ({"database_url": "mysql://x/y"}, "names mysql, which is not served"),
        ({"port": "no"}, "KITPROOF_PORT='no' is not accepted"),
        ({"tokens": "never"}, "KITPROOF_TOKENS='never' is not accepted: elsewhere or always"),
        ({"database_url": "postgresql://nobody@/none?host=/nowhere"}, "the database does not answer"),
    ],
)
def test_what_an_operator_can_put_right_is_one_line(run: Run, environ: dict[str, str], said: str) -> None:
    """Without a trace of the program."""
    code, _, error = run("token", "list", **environ)
    assert code == 1
    assert error.startswith(f"error: {said}") or said in error
    assert error.count("\n") == 1
