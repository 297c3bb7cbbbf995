"""The queue of jobs, kept by huey in the database in use: SQLite, or PostgreSQL for several replicas.

A ticket in the queue stands for one chunk of a job, whichever is free. So a ticket too many finds nothing to do, and
one that was lost with its worker is made good by ``refill``, which runs when a worker starts and every minute.
Jobs that ended long enough ago are cleared away then as well.
"""

import logging
from collections.abc import Callable
from contextlib import suppress
from datetime import timedelta
from functools import cached_property
from threading import Lock, Thread
from time import sleep
from typing import Any

from huey import Huey, PostgresHuey, SqliteHuey, crontab
from huey.api import TaskWrapper
from huey.consumer import Consumer

from service.store import jobs
from service.store.engine import Unavailable, file_of, is_embedded
from service.store.jobs import Worked
from service.store.model import now
from service.store.store import Store

Judge = Callable[[str, str], Worked]
"""Takes the checks of a chunk as they were stored, and the units; returns what came out."""

NAME = "kitproof"

RETRY = 5
"""Seconds until a database that did not answer is asked again."""

log = logging.getLogger(__name__)


class Worker(Consumer):  # type: ignore[misc]
    """Works jobs in threads of a process that has its own answer to signals."""

    def _set_signal_handlers(self) -> None:
        pass


class Queue:
    """The queue of one store; it is opened at its first use, so that it may be made before workers are forked."""

    def __init__(
        self, store: Store, judge: Judge, kept: timedelta, told: Callable[[str], None] = lambda event: None
    ) -> None:
        """Say where jobs are kept, how their rows are judged, and for how long after their end they stay.

        ``told`` hears of each job that is ``done`` here, or ``removed`` when its time was over.
        """
        self._store, self._judge, self._kept, self._told = store, judge, kept, told
        self._opening = Lock()

    @cached_property
    def _made(self) -> tuple[Huey, TaskWrapper]:
        self._store.prepare()
        engine = self._store.engine
        if is_embedded(engine):
            made: Any = SqliteHuey(NAME, results=False, filename=str(file_of(engine)), fsync=True)
        else:
            address = engine.url.set(drivername="postgresql").render_as_string(hide_password=False)
            made = PostgresHuey(NAME, results=False, dsn=address, table_prefix="job_queue", blocking=False)

        def ticket(job_id: str) -> None:
            self.work(job_id)

        def refill() -> None:
            self.refill()

        made.periodic_task(crontab())(refill)
        made.on_startup()(refill)
        return made, made.task()(ticket)

    def _opened(self) -> tuple[Huey, TaskWrapper]:
        with self._opening:
            return self._made

    def ticket(self, job_id: str) -> None:
        """Have one chunk of a job worked."""
        _, put = self._opened()
        put(job_id)

    def work(self, job_id: str) -> None:
        """Work one chunk of a job, whichever is free."""
        with self._store.write() as session:
            taken = jobs.take(session, job_id)
        if taken is None:
            return
        done = self._judge(taken.checks, taken.units)
        with self._store.write() as session:
            job = jobs.keep(session, job_id, taken.number, done)
        if job is not None and jobs.state_of(job) == "done":
            self._told("done")

    def refill(self) -> None:
        """Put tickets into an empty queue for chunks that nobody works on; clear away what is over."""
        with suppress(Unavailable):
            self._clear_away()
            if self._opened()[0].pending_count():
                return
            with self._store.read() as session:
                free = jobs.free(session)
            for job_id, chunks in free.items():
                for _ in range(chunks):
                    self.ticket(job_id)

    def _clear_away(self) -> None:
        """Delete uploads that were cut off, and jobs whose time is over."""
        with self._store.write() as session:
            jobs.forget_broken(session)
        with self._store.read() as session:
            over = jobs.finished_before(session, now() - self._kept)
        for owner, job_id in over:
            with self._store.write() as session:
                removed = jobs.remove(session, owner, job_id)
            # Every replica clears away; one of them finds the job.
            if removed:
                self._told("removed")

    def start(self, threads: int) -> None:
        """Work the queue in threads of this process, from when the database answers until the process ends."""
        Thread(target=self._start, args=(threads,), name="jobs", daemon=True).start()

    def _start(self, threads: int) -> None:
        while True:
            try:
                Worker(self._opened()[0], workers=threads, max_delay=1).start()
                return
            except Exception as error:  # whatever each database raises while it cannot be reached
                log.warning("jobs wait for the database: %s", error)
                sleep(RETRY)

    def run(self, threads: int) -> None:
        """Work the queue until the process is told to end; chunks that are begun are finished first."""
        Consumer(self._opened()[0], workers=threads, max_delay=1, graceful_signal="TERM").run()

    def close(self) -> None:
        """Close the connection that the queue holds."""
        self._opened()[0].storage.close()
