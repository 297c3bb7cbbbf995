"""Measures and prints each row beside its goal. Rates are per core: requests over the CPU time of the workers.

Rounds of the bare route and of the service alternate, so that a busy neighbour troubles both alike; ratios are medians
of rounds of one run. Absolute figures hold for this machine at this hour only. No goal here is a test.

Goals in lines a second were set on a machine whose core answered the bare route 5,200 times a second; beside each
stands the same goal as a multiple of the bare route, which can be compared.
"""

import argparse
import csv
import statistics
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlencode

import orjson

from bench.client import Connection, get_request, load, post_request
from bench.lines import Check, checks
from bench.server import HOST, Server

DISTINCT = 20_000
STREAMED = 100_000


@dataclass(frozen=True)
class Measured:
    """One row of the result."""

    what: str
    value: str
    goal: str
    met: bool | None


def at_least(what: str, value: float, goal: float, unit: str) -> Measured:
    """Return a row whose value should reach its goal."""
    return Measured(what, f"{value:,.2f} {unit}".replace(".00 ", " "), f">= {goal:,g}", value >= goal)


def at_most(what: str, value: float, goal: float, unit: str) -> Measured:
    """Return a row whose value should stay under its goal."""
    return Measured(what, f"{value:,.2f} {unit}", f"<= {goal:,g}", value <= goal)


def told(what: str, value: float, unit: str) -> Measured:
    """Return a row without a goal."""
    return Measured(what, f"{value:,.2f} {unit}", "", None)


SET_ON = 5_200
"""Requests of the bare route that a core answered in a second where the goals were set (CPU time of the workers)."""


class Rates:
    """How fast a core answers the bare route here, before and after what is measured in lines a second."""

    def __init__(self, folder: Path, seconds: float) -> None:
        """Measure it a first time."""
        self._folder, self._seconds = folder, seconds
        self._found = [self._measure()]

    def _measure(self) -> float:
        with Server("bench.bare:app", "/bare", self._folder, {"BENCH_REPLY_BYTES": str(REPLY)}) as bare:
            load((HOST, bare.port), [get_request("/bare")], 1)
            return 1 / cpu_per_request(bare, [get_request("/bare")], self._seconds)[0]

    def row(self, what: str, rate: float, goal: float) -> Measured:
        """Return the row of a rate as a multiple of the bare route's, measured once more."""
        self._found.append(self._measure())
        return at_least(f"{what} against bare", rate / statistics.mean(self._found), round(goal / SET_ON, 1), "x bare")


REPLY = 2_000
"""A reply of usual length [bytes]."""

# --- in process ----------------------------------------------------------------------------------------------------


def in_process(given: Sequence[Check], folder: Path, seconds: float) -> list[Measured]:
    """Read and judge without HTTP: distinct lines, then one line again and again."""
    from service.collector import settle
    from service.verdict.judge import judge
    from service.verdict.mates import parse_check

    def rate(batch: Sequence[Check]) -> float:
        began = time.process_time()
        for fields in batch:
            judge(parse_check(fields))
        return len(batch) / (time.process_time() - began)

    bare = Rates(folder, seconds)
    rate(given[:200])  # builds what is built once
    settle()  # as a worker does
    distinct = statistics.median(rate(given[start : start + 4000]) for start in range(200, len(given) - 4000, 4000))
    same: Check = {"line": "ISO 8734 - 5 x 20 - A - St", "bore": "5 H7", "fit": "location"}
    repeated = statistics.median(rate([same] * 20_000) for _ in range(5))
    what = "reading and judging in process, distinct lines"
    return [
        at_least(what, distinct, 40_000, "lines/s/core"),
        bare.row(what, distinct, 40_000),
        at_least("reading and judging in process, one line repeated", repeated, 500_000, "lines/s/core"),
    ]


# --- over HTTP -----------------------------------------------------------------------------------------------------


def cpu_per_request(server: Server, requests: Sequence[bytes], seconds: float) -> tuple[float, float]:
    """Return the CPU time of one request [s] and the requests answered per second by all workers."""
    before, began = server.cpu(), time.perf_counter()
    answered = load((HOST, server.port), requests, seconds)
    passed = time.perf_counter() - began
    return (server.cpu() - before) / answered, answered / passed


def against_bare(
    service: Server, bare: Server, requests: Sequence[bytes], seconds: float, rounds: int
) -> tuple[float, float, float]:
    """Return, as medians of alternating rounds: CPU of the bare route over CPU of the service, and either CPU [s]."""
    pairs = []
    for _ in range(rounds):
        plain, _ = cpu_per_request(bare, [get_request("/bare")], seconds)
        ours, _ = cpu_per_request(service, requests, seconds)
        pairs.append((plain / ours, plain, ours))
    ratio, plain, ours = (statistics.median(column) for column in zip(*pairs, strict=True))
    return ratio, plain, ours


def one_per_request(
    service: Server, folder: Path, given: Sequence[Check], seconds: float, rounds: int
) -> list[Measured]:
    """Measure one verdict per request: each on a line of its own, then on few lines, which shows HTTP alone."""
    requests = [get_request("/v1/verdict?" + urlencode(check)) for check in given]
    with Connection(HOST, service.port) as connection:
        sizes = []
        for request in requests[:500]:
            connection.send(request)
            sizes.append(len(connection.receive()[1]))
    size = int(statistics.median(sizes))
    with Server("bench.bare:app", "/bare", folder, {"BENCH_REPLY_BYTES": str(size)}) as bare:
        load((HOST, bare.port), [get_request("/bare")], 1)
        ratio, plain, ours = against_bare(service, bare, requests[500:], seconds, rounds)
        load((HOST, service.port), requests[:200], 1)
        again, _, read_before = against_bare(service, bare, requests[:200], seconds, rounds)
    return [
        told(
            "bare Flask route of the same reply size",
            1 / plain,
            f"requests/s/core ({plain * 1e6:.0f} µs, {size} bytes)",
        ),
        told("one verdict per request, distinct lines", 1 / ours, f"requests/s/core ({ours * 1e6:.0f} µs)"),
        at_least("one verdict per request against bare", ratio, 0.50, "x bare"),
        told(
            "one verdict per request, lines read before",
            1 / read_before,
            f"requests/s/core ({read_before * 1e6:.0f} µs)",
        ),
        told("the same against bare", again, "x bare"),
    ]


def hundred_per_request(
    service: Server, folder: Path, given: Sequence[Check], seconds: float, rounds: int
) -> list[Measured]:
    """Measure 100 checks per JSON request, in lines, against requests of the bare route."""
    batches = [given[start : start + 100] for start in range(0, len(given) - 99, 100)]
    requests = [post_request("/v1/verdicts", "application/json", orjson.dumps(batch)) for batch in batches]
    with Connection(HOST, service.port) as connection:
        connection.send(requests[0])
        size = len(connection.receive()[1]) // 100
    with Server("bench.bare:app", "/bare", folder, {"BENCH_REPLY_BYTES": str(size)}) as bare:
        load((HOST, bare.port), [get_request("/bare")], 1)
        ratio, _, ours = against_bare(service, bare, requests, seconds, rounds)
    return [
        told("100 checks per request, distinct lines", 100 / ours, f"lines/s/core ({ours * 1e4:.0f} µs per line)"),
        at_least("100 checks per request against bare, in lines", ratio * 100, 2, "x bare"),
    ]


def streamed(folder: Path, given: Sequence[Check], seconds: float) -> list[Measured]:
    """Send many distinct lines as NDJSON in one request, all before the first byte of the reply is read.

    To a worker of its own, which is sent some thousands of others first: what it remembers has a bound, and what grows
    once that is reached grows with the length.
    """
    bare = Rates(folder, seconds)
    with Server("service.wsgi:app", "/readyz", folder, {"KITPROOF_WORKERS": "1"}) as service:
        fresh = Stream(service, list(checks(DISTINCT, seed=2)))
        stream = Stream(service, given)
    what = f"NDJSON of {len(given):,} distinct lines"
    return [
        at_least(what, stream.rate, 12_000, "lines/s/core"),
        bare.row(what, stream.rate, 12_000),
        at_most("memory growth of the worker meanwhile", stream.growth / 1e6, 10, "MB"),
        told("the same by the clock", stream.rate_by_clock, f"lines/s ({stream.returned / 1e6:.0f} MB sent back)"),
        told(f"NDJSON of {DISTINCT:,} others before, to a fresh worker", fresh.rate, "lines/s/core"),
        told("memory that it fills with what it remembers", fresh.growth / 1e6, "MB"),
    ]


class Stream:
    """One long request to a service of one worker, and what it cost."""

    def __init__(self, service: Server, given: Sequence[Check]) -> None:
        """Send it."""
        body = b"".join(orjson.dumps(check) + b"\n" for check in given)
        request = post_request("/v1/verdicts", "application/x-ndjson", body)
        with Connection(HOST, service.port) as connection:
            before, cpu, began = service.memory(), service.cpu(), time.perf_counter()
            service.reset_peak()
            connection.send(request)
            status, reply = connection.receive()
            passed, spent = time.perf_counter() - began, service.cpu() - cpu
            self.growth = max(service.memory("VmHWM")) - max(before)
        assert status == 200, f"the stream was answered by {status}"
        lines = reply.count(b"\n")
        assert lines == len(given), f"{lines} lines of {len(given)} came back"
        self.rate, self.rate_by_clock, self.returned = len(given) / spent, len(given) / passed, len(reply)


# --- catalogues ----------------------------------------------------------------------------------------------------


def catalogues(folder: Path, given: Sequence[Check]) -> list[Measured]:
    """Judge a CSV file by partition, in one process and on one and two workers of Dask, by the clock."""
    from service.catalogue.run import run
    from service.catalogue.source import MissingExtraError
    from service.verdict.mates import FIELDS

    source = folder / "catalogue.csv"
    with source.open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, [name for name in FIELDS if name != "mate"], restval="")
        writer.writeheader()
        writer.writerows(given)
    rows = []
    for workers, name in ((0, "in one process"), (1, "on one worker"), (2, "on two workers")):
        what = f"catalogue of {len(given):,} distinct lines {name}"
        began = time.perf_counter()
        try:
            verdicts = run(source, folder / f"catalogue-{workers}", workers=workers, row_limit=64 * 1024, rows=5000)
        except MissingExtraError:
            rows.append(Measured(what, "not measured: the extra `distributed` is not installed", "", None))
            continue
        passed = time.perf_counter() - began
        assert sum(verdicts.values()) == len(given), f"{sum(verdicts.values())} rows of {len(given)} came back"
        rows.append(told(what, len(given) / passed, "lines/s, start of the workers included" if workers else "lines/s"))
    return rows


def main() -> None:
    """Measure everything and print the rows."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=float, default=4, help="length of a round [s]")
    parser.add_argument("--rounds", type=int, default=5, help="rounds of each pair")
    parser.add_argument("--only", default="", help="measure only parts whose name begins so")
    options = parser.parse_args()
    given = list(checks(STREAMED))
    few = given[:DISTINCT]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        starts = []
        for _ in range(5):
            with Server("service.wsgi:app", "/readyz", folder) as server:
                starts.append(server.started_in)
        with Server("service.wsgi:app", "/readyz", folder) as service:
            idle = max(service.memory())
            parts: dict[str, Callable[[], list[Measured]]] = {
                "process": lambda: in_process(few, folder, options.seconds),
                "one": lambda: one_per_request(service, folder, few, options.seconds, options.rounds),
                "hundred": lambda: hundred_per_request(service, folder, few, options.seconds, options.rounds),
                "stream": lambda: streamed(folder, given, options.seconds),
                "catalogue": lambda: catalogues(folder, few),
            }
            rows = [measured for name, part in parts.items() if name.startswith(options.only) for measured in part()]
            rows += [
                at_most("start to first answer", statistics.median(starts), 1, "s"),
                told("memory of a worker, started", idle / 1e6, "MB"),
                told("memory of a worker, after all this", max(service.memory()) / 1e6, "MB"),
            ]
    width = max(len(row.what) for row in rows)
    for row in rows:
        met = "" if row.met is None else "met" if row.met else "NOT MET"
        print(f"{row.what:<{width}}  {row.value:>40}  {row.goal:>10}  {met}")


if __name__ == "__main__":
    main()
