"""The store of one running service: transactions to read and to write in, on tables of the present version."""

import logging
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import NullPool
from sqlalchemy.orm import Session

from service.store.engine import WAIT, Unavailable, answers, is_embedded, open_engine, told_apart
from service.store.migrate import HEAD, migrate, version

log = logging.getLogger(__name__)


class Store:
    """One database. It is usable after a fork, and again as soon as the database is, without a restart."""

    def __init__(self, url: str, *, wait: float = WAIT) -> None:
        """Open the database at an address; nothing is connected yet.

        Raises:
            AddressError: the address names no database that is served.
        """
        self.engine = open_engine(url, wait=wait)
        self._writing = self.engine.execution_options(writes=True)
        self._url = url
        self._wait = wait
        self._prepared = False

    def prepare(self) -> None:
        """Make sure that the tables are of the present version; an embedded database is brought there.

        Raises:
            Unavailable: the database does not answer, or its tables are of another version.
            NewerDatabase: the tables are of a version that is not known here.
        """
        if self._prepared:
            return
        # A connection of its own, closed afterwards: none may be open when workers are forked.
        engine = open_engine(self._url, wait=self._wait, poolclass=NullPool)
        if version(engine) != HEAD:
            if not is_embedded(engine):
                raise Unavailable("the tables are not of this version: run `python -m service migrate`", 60)
            migrate(engine)
        self._prepared = True

    def prepare_early(self) -> None:
        """Prepare at start; a database that does not answer yet is prepared at its first use."""
        try:
            self.prepare()
        except Unavailable as error:
            log.warning("the store is not ready: %s", error.reason)

    def check(self) -> None:
        """Raise where nothing can be stored or read now.

        Raises:
            Unavailable: says why.
        """
        self.prepare()
        answers(self.engine)

    @contextmanager
    def read(self) -> Iterator[Session]:
        """Give a session that sees one state of the database and changes nothing.

        Raises:
            Unavailable: the database cannot serve now.
        """
        with told_apart():
            self.prepare()
            with Session(self.engine, expire_on_commit=False) as session:
                yield session

    @contextmanager
    def write(self) -> Iterator[Session]:
        """Give a session whose changes are all kept at its end, or none of them.

        Raises:
            Unavailable: the database cannot serve now. Where it went away at the very end, the changes may be kept all
                the same: an Idempotency-Key makes it safe to repeat the request.
        """
        with told_apart():
            self.prepare()
            with Session(self._writing, expire_on_commit=False) as session, session.begin():
                yield session
