"""Where partitions are worked: one after the other in this process, or on Dask, here or on other machines."""

import tempfile
from collections.abc import Iterator, Sequence
from contextlib import ExitStack
from importlib import import_module
from typing import Any

from service.catalogue.parts import Done, Task, work
from service.catalogue.source import MissingExtraError, Partition
from service.collector import settle


def here(task: Task, partitions: Sequence[Partition]) -> Iterator[Done]:
    """Work partitions in this process."""
    for partition in partitions:
        yield work(task, partition)


def on_dask(task: Task, partitions: Sequence[Partition], workers: int, scheduler: str | None) -> Iterator[Done]:
    """Work partitions on processes of this machine, or on the cluster of a scheduler; each is told as it is done.

    Workers on other machines have to see the files under the same names.

    Raises:
        MissingExtraError: Dask is not installed.
    """
    try:
        distributed: Any = import_module("distributed")
    except ImportError:
        raise MissingExtraError("distributed") from None
    with ExitStack() as stack:
        if scheduler is None:
            cluster = distributed.LocalCluster(
                n_workers=min(workers, len(partitions)),
                threads_per_worker=1,
                processes=True,
                host="127.0.0.1",
                dashboard_address=None,
                local_directory=stack.enter_context(tempfile.TemporaryDirectory()),
            )
            stack.enter_context(cluster)
            scheduler = cluster.scheduler_address
            stack.enter_context(distributed.Client(scheduler)).run(settle)
        client = stack.enter_context(distributed.Client(scheduler))
        # Writing a file is no pure function: nothing of it may be answered from memory.
        futures = [client.submit(work, task, partition, pure=False) for partition in partitions]
        for future in distributed.as_completed(futures):
            yield future.result()
            future.release()
