"""Catalogues by partition: the same rows as in one process and as a batch, however they are cut and worked."""

import csv
import json
import os
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

from bench.lines import checks
from service.app import create_app
from service.catalogue.parts import UNFINISHED
from service.catalogue.plan import NAME
from service.catalogue.run import run
from service.catalogue.source import CatalogueError, opened
from service.config import Settings
from service.verdict.mates import FIELDS

ROOT = Path(__file__).resolve().parents[2]
LIMIT = 2000

TROUBLED = (
    b'line,bore,fit\r\n"M5 dowel pin\nhardened",5 H7,location\r\n\r\n0.25" dowel pin,"1/4 in",slip\r\n'
    b"dowel pin 5x20,5 Q7,location\r\n,,\r\nM5 dowel pin," + b"5" * 3000 + b",\r\n"
    b'\'=M5 dowel pin,5 H7,location,too,many\r\nM6 \xff pin,6 H7,\r\n"""M3"" pin",3 H7,press'
)
"""Rows of several lines, blank ones, broken ones, a quote within a cell, one over the limit, no end of line."""


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> FlaskClient:
    """The service that a catalogue is held against."""
    store = tmp_path_factory.mktemp("store") / "kitproof.sqlite3"
    return create_app(Settings(database_url=f"sqlite:///{store}", row_limit=LIMIT)).test_client()


@pytest.fixture(scope="module")
def lines(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A catalogue of varied lines with several kinds of mate."""
    path = tmp_path_factory.mktemp("source") / "lines.csv"
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, [name for name in FIELDS if name != "mate"], restval="")
        writer.writeheader()
        writer.writerows(checks(600))
    return path


def batch(client: FlaskClient, path: Path) -> list[bytes]:
    """Return the rows that a batch of the same file is answered with, heading first."""
    return client.post("/v1/verdicts.csv", data=path.read_bytes(), content_type="text/csv").data.split(b"\r\n")


def joined(folder: Path) -> list[bytes]:
    """Return the rows of all parts in their order, with one heading."""
    parts = [path.read_bytes().split(b"\r\n") for path in sorted(folder.glob("part-*.csv"))]
    assert all(part[0] == parts[0][0] for part in parts)
    return [parts[0][0], *(row for part in parts for row in part[1:-1]), b""]


@pytest.mark.parametrize("rows", [1, 2, 3, 100])
def test_parts_joined_are_what_a_batch_answers(client: FlaskClient, tmp_path: Path, rows: int) -> None:
    """Wherever rows are cut, their numbers, errors and verdicts stay the same to the byte."""
    source = tmp_path / "lines.csv"
    source.write_bytes(TROUBLED)
    verdicts = run(source, tmp_path / "out", workers=0, row_limit=LIMIT, rows=rows)
    assert joined(tmp_path / "out") == batch(client, source)
    assert sum(verdicts.values()) == 7
    assert verdicts["unread"] >= 3


def test_two_worker_processes_give_what_one_process_gives(client: FlaskClient, lines: Path, tmp_path: Path) -> None:
    """Line for line, on a cluster of this machine, and as the service itself answers."""
    pytest.importorskip("distributed", reason="the extra `distributed` is not installed")
    alone = run(lines, tmp_path / "alone", workers=0, row_limit=LIMIT, rows=70)
    both = run(lines, tmp_path / "both", workers=2, row_limit=LIMIT, rows=70)
    assert len(list((tmp_path / "both").glob("part-*.csv"))) == 9
    assert joined(tmp_path / "both") == joined(tmp_path / "alone") == batch(client, lines)
    assert both == alone


def test_a_cluster_that_is_there_already_works_too(lines: Path, tmp_path: Path) -> None:
    """As it does on several machines: the scheduler's address is all that is told."""
    distributed = pytest.importorskip("distributed", reason="the extra `distributed` is not installed")
    alone = run(lines, tmp_path / "alone", workers=0, row_limit=LIMIT, rows=200)
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, host="127.0.0.1", dashboard_address=None, local_directory=tmp_path
    ) as cluster:
        address = cluster.scheduler_address
        assert run(lines, tmp_path / "out", workers=9, row_limit=LIMIT, rows=200, scheduler=address) == alone
    assert joined(tmp_path / "out") == joined(tmp_path / "alone")


def test_parquet_gives_what_csv_gives(lines: Path, tmp_path: Path) -> None:
    """In and out, across the borders of row groups; only the numbers of the rows are those of the file."""
    parquet = pytest.importorskip("pyarrow.parquet", reason="the extra `distributed` is not installed")
    import pyarrow

    with lines.open(newline="", encoding="utf-8") as file:
        rows = [{name: cell or None for name, cell in row.items()} for row in csv.DictReader(file)]
    source = tmp_path / "lines.parquet"
    schema = pyarrow.schema([(name, pyarrow.string()) for name in rows[0]])
    parquet.write_table(pyarrow.Table.from_pylist(rows, schema=schema), source, row_group_size=90)
    run(source, tmp_path / "as_parquet", workers=0, row_limit=LIMIT, rows=70)
    run(source, tmp_path / "as_csv", workers=0, row_limit=LIMIT, rows=70, form="csv")
    run(lines, tmp_path / "csv", workers=0, row_limit=LIMIT, rows=70)

    def told(folder: str) -> list[bytes]:
        return [row.partition(b",")[2] for row in joined(tmp_path / folder)]

    assert told("as_csv") == told("csv")
    found = [
        row for path in sorted((tmp_path / "as_parquet").glob("part-*")) for row in parquet.read_table(path).to_pylist()
    ]
    assert [row["number"] for row in found] == list(range(1, 601))
    with_heading = csv.DictReader(text.decode() for text in joined(tmp_path / "as_csv") if text)
    for row, as_csv in zip(found, with_heading, strict=True):
        assert (row["verdict"], row["line"], row["order_text"] or "") == (
            as_csv["verdict"],
            as_csv["line"],
            as_csv["order_text"],
        )
        assert row["clearance_lower"] == (float(as_csv["clearance_lower"]) if as_csv["clearance_lower"] else None)


def test_numbers_in_a_parquet_file_are_read(tmp_path: Path) -> None:
    """A column of diameters need not be text; a column of anything else is refused by its name."""
    parquet = pytest.importorskip("pyarrow.parquet", reason="the extra `distributed` is not installed")
    import pyarrow

    source = tmp_path / "lines.parquet"
    lines = ["ISO 8734 - 5 x 20 - A - St", "ISO 8734 - 5.5 x 20 - A - St"]
    parquet.write_table(pyarrow.table({"line": lines, "presence": [True, False]}), source)
    with pytest.raises(CatalogueError, match="column presence holds bool; text and numbers are accepted"):
        run(source, tmp_path / "none", workers=0, row_limit=LIMIT)
    parquet.write_table(pyarrow.table({"line": lines, "bore": [5.012, 5.0]}), source)
    verdicts = run(source, tmp_path / "out", workers=0, row_limit=LIMIT, form="csv")
    assert verdicts == {"ask": 1, "wrong": 1}
    texts = csv.DictReader(row.decode() for row in joined(tmp_path / "out") if row)
    assert [row["mate"] for row in texts] == ["bore 5.012", "bore 5"]


# --- stopped and gone on -------------------------------------------------------------------------------------------


def command(source: Path, folder: Path, *more: str) -> list[str]:
    """Return the documented command."""
    return [sys.executable, "-m", "service", "catalogue", str(source), str(folder), "--partition", "25", *more]


def test_a_killed_run_goes_on_where_it_was(client: FlaskClient, lines: Path, tmp_path: Path) -> None:
    """Killed without a word: parts that were done are kept, and the whole is as if it had never been stopped."""
    pytest.importorskip("distributed", reason="the extra `distributed` is not installed")
    folder, environ = tmp_path / "out", {**os.environ, "KITPROOF_ROW_LIMIT": str(LIMIT)}
    stopped = subprocess.Popen(
        command(lines, folder, "--workers", "2"), cwd=ROOT, env=environ, stderr=subprocess.PIPE, text=True
    )
    assert stopped.stderr is not None
    while "parts" not in stopped.stderr.readline():
        assert stopped.poll() is None
    stopped.kill()
    stopped.wait()
    stopped.stderr.close()
    done = _settled(folder)
    assert 0 < len(done) < 24, "the run was stopped in the midst of it"
    (folder / f"part-000001-x{UNFINISHED}").write_bytes(b"half a part")

    again = subprocess.run(
        command(lines, folder, "--workers", "2"), cwd=ROOT, env=environ, capture_output=True, text=True, check=False
    )
    assert again.returncode == 1
    assert "to go on with a stopped run say --resume" in again.stderr

    resumed = subprocess.run(
        command(lines, folder, "--workers", "2", "--resume"),
        cwd=ROOT,
        env=environ,
        capture_output=True,
        text=True,
        check=False,
    )
    assert resumed.returncode == 0, resumed.stderr
    assert ": 600 rows: " in resumed.stdout
    noted = {file for file, _ in done}
    assert not any(line.split(":")[0] in noted for line in resumed.stderr.splitlines())
    assert all((folder / file).stat().st_mtime_ns == changed for file, changed in done)
    assert joined(folder) == batch(client, lines)
    assert not list(folder.glob(f"*{UNFINISHED}"))


def _settled(folder: Path) -> list[tuple[str, int]]:
    """Return the parts noted as done with the time they were written, once the workers have ended as well."""
    time.sleep(1)
    parts = json.loads((folder / NAME).read_bytes())["parts"]
    names = [part["file"] for part in parts if part["verdicts"] is not None]
    return [(name, (folder / name).stat().st_mtime_ns) for name in names]


def test_a_part_that_is_lost_is_written_again(lines: Path, tmp_path: Path) -> None:
    """And a run that has ended is left as it is."""
    told: list[str] = []

    def again() -> dict[str, int]:
        told.clear()
        return run(lines, tmp_path / "out", workers=0, row_limit=LIMIT, rows=200, resume=True, told=told.append)

    whole = again()
    assert len(told) == 3
    before = joined(tmp_path / "out")
    assert again() == whole
    assert told == []
    (tmp_path / "out/part-000001.csv").unlink()
    assert again() == whole
    assert told == ["part-000001.csv: 3 of 3 parts"]
    assert joined(tmp_path / "out") == before


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"rows": 60}, "the stopped run had partition_rows 50, this one has 60"),
        ({"units": "in"}, "the stopped run had units mm, this one has in"),
        ({"row_limit": 10_000}, "the stopped run had row_limit 2000, this one has 10000"),
        ({"form": "parquet"}, "the stopped run had written_as csv, this one has parquet"),
    ],
)
def test_parts_of_different_runs_are_never_mixed(
    lines: Path, tmp_path: Path, change: dict[str, Any], told: str
) -> None:
    """What was asked before is held against what is asked now."""
    asked: dict[str, Any] = {"workers": 0, "row_limit": LIMIT, "rows": 50, "resume": True}
    source = tmp_path / "lines.csv"
    source.write_bytes(lines.read_bytes())
    run(source, tmp_path / "out", **asked)
    with pytest.raises(CatalogueError, match=told):
        run(source, tmp_path / "out", **{**asked, **change})
    source.write_bytes(source.read_bytes().replace(b"H7", b"H8", 1))
    with pytest.raises(CatalogueError, match="the stopped run had source"):
        run(source, tmp_path / "out", **asked)


# --- what cannot be read -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "content", "told"),
    [
        ("lines.txt", b"line\nM5 dowel pin\n", "a name that ends in .csv or .parquet is accepted"),
        ("lines.csv", b"", "lines.csv: body: the body is empty"),
        ("lines.csv", b"line,bore\n", "holds no check"),
        ("lines.csv", b"bore\n5 H7\n", "the heading names no line"),
        ("lines.csv", b"line,boer\npin,5 H7\n", "'boer' is no field here; 'bore' is"),
    ],
)
def test_a_file_that_is_no_catalogue_is_refused_before_the_work(
    tmp_path: Path, name: str, content: bytes, told: str
) -> None:
    """In one line that says what is accepted; nothing is written."""
    (tmp_path / name).write_bytes(content)
    with pytest.raises(CatalogueError, match=told):
        run(tmp_path / name, tmp_path / "out", workers=0, row_limit=LIMIT)
    assert not (tmp_path / "out").exists()


def test_a_folder_with_other_files_is_left_alone(lines: Path, tmp_path: Path) -> None:
    """With --resume as without."""
    (tmp_path / "notes.txt").write_text("mine")
    for resume in (False, True):
        with pytest.raises(CatalogueError, match="a folder that is empty or not there is accepted"):
            run(lines, tmp_path, workers=0, row_limit=LIMIT, resume=resume)
    assert [path.name for path in tmp_path.iterdir()] == ["notes.txt"]


def test_a_file_changed_under_the_run_is_noticed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Parts of two versions of a file would be no result."""
    source = tmp_path / "lines.csv"
    source.write_bytes(b"line,bore\n" + b"M5 dowel pin,5 H7\n" * 10)
    planned = opened(source, 4, LIMIT)

    def shrunk(*given: Any) -> Any:
        source.write_bytes(b"line,bore\n" + b"M5 dowel pin,5 H7\n" * 6)
        return planned

    monkeypatch.setattr("service.catalogue.run.opened", shrunk)
    with pytest.raises(CatalogueError, match="was changed while it was read"):
        run(source, tmp_path / "out", workers=0, row_limit=LIMIT)


def test_without_the_extra_it_says_how_to_get_it(
    lines: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """CSV in one process needs nothing besides the service."""
    from service import cli

    absent: Callable[[str], None] = lambda name: monkeypatch.setitem(sys.modules, name, None)  # noqa: E731
    absent("distributed")
    absent("pyarrow.parquet")
    assert cli.main(["catalogue", str(lines), str(tmp_path / "out"), "--workers", "2"]) == 1
    assert "distributed is not installed; it comes with the extra" in capsys.readouterr().err
    assert cli.main(["catalogue", str(lines), str(tmp_path / "one"), "--workers", "0"]) == 0
    assert capsys.readouterr().out.startswith(f"{tmp_path / 'one'}: 600 rows: ")
