"""A backup is whole while writers go on, and never overwrites anything."""

import threading
from pathlib import Path

import pytest

from service.store import orders
from service.store.backup import NoBackup, back_up
from service.store.engine import open_engine
from service.store.store import Store


def test_a_backup_is_whole_while_writers_go_on(tmp_path: Path) -> None:
    """Every order that was acknowledged before is in it, none half."""
    store = Store(f"sqlite:///{tmp_path / 'a.sqlite3'}")
    acknowledged, stop = [], threading.Event()

    def write() -> None:
        number = 0
        while not stop.is_set() and number < 2000:
            number += 1
            with store.write() as session:
                orders.create(session, "club", f"{number:032x}", {"name": str(number)}, "")
            acknowledged.append(number)

    writer = threading.Thread(target=write)
    writer.start()
    try:
        while len(acknowledged) < 20:
            assert writer.is_alive()
        before = len(acknowledged)
        assert back_up(store.engine, tmp_path / "copy.sqlite3") > 0
    finally:
        stop.set()
        writer.join(20)
    copy = Store(f"sqlite:///{tmp_path / 'copy.sqlite3'}")
    with copy.read() as session:
        found = [orders.find(session, "club", order_id) for _, order_id in orders.everyones(session)]
    assert len(found) >= before
    assert [one and one.plan["name"] for one in found] == [str(number + 1) for number in range(len(found))]
    copy.engine.dispose()
    store.engine.dispose()
    assert not (tmp_path / "copy.sqlite3.part").exists()


def test_a_backup_never_overwrites(tmp_path: Path) -> None:
    """And needs something to copy."""
    engine = open_engine(f"sqlite:///{tmp_path / 'a.sqlite3'}")
    with pytest.raises(NoBackup, match="there is no database"):
        back_up(engine, tmp_path / "copy.sqlite3")
    Store(f"sqlite:///{tmp_path / 'a.sqlite3'}").prepare()
    (tmp_path / "copy.sqlite3").write_text("mine")
    with pytest.raises(NoBackup, match="never overwrites"):
        back_up(engine, tmp_path / "copy.sqlite3")
    assert (tmp_path / "copy.sqlite3").read_text() == "mine"
    with pytest.raises(NoBackup, match="no copy was made"):
        back_up(engine, tmp_path / "no folder" / "copy.sqlite3")


def test_a_server_has_its_own_tools() -> None:
    """They are named."""
    with pytest.raises(NoBackup, match="pg_dump"):
        back_up(open_engine("postgresql://nowhere/x"), Path("unused"))
