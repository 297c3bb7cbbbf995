"""A catalogue in, one file per partition out."""

from collections import Counter
from collections.abc import Callable
from pathlib import Path

from reference import tables
from service.catalogue.engine import here, on_dask
from service.catalogue.parts import Task
from service.catalogue.plan import Plan
from service.catalogue.source import form_of, opened

PARTITION_ROWS = 20_000


def run(
    source: Path,
    folder: Path,
    *,
    workers: int,
    row_limit: int,
    rows: int = PARTITION_ROWS,
    resume: bool = False,
    form: str | None = None,
    units: str = "mm",
    scheduler: str | None = None,
    told: Callable[[str], None] = lambda text: None,
) -> dict[str, int]:
    """Judge every row of a catalogue and return how many verdicts of each kind there are.

    Args:
        source: a CSV or Parquet file with the columns of a batch to ``/v1/verdicts``.
        folder: takes a file for each partition, in the order of the rows, and the manifest.
        workers: processes of this machine; 0 works in this process, without Dask.
        row_limit: longest row of a CSV file [bytes].
        rows: rows of a partition.
        resume: go on with a run that was stopped.
        form: how parts are written, ``csv`` or ``parquet``; by default as the source is.
        units: unit of the lengths, ``mm`` or ``in``.
        scheduler: address of a Dask cluster that works instead.
        told: called with a line of text whenever a part is done.

    Raises:
        CatalogueError: the catalogue cannot be read, or the folder is not what is said of it.
        MissingExtraError: Dask or pyarrow is needed and not installed.
    """
    opened_source, partitions = opened(source, rows, row_limit)
    task = Task(opened_source, str(folder.resolve()), form or form_of(source), units, tables.fingerprint())
    plan = Plan(task, partitions)
    plan.begin(resume)
    remaining = plan.open()
    if remaining and (workers or scheduler):
        finished = on_dask(task, remaining, workers, scheduler)
    else:
        finished = here(task, remaining)
    for done in finished:
        plan.note(done)
        told(f"{task.file(partitions[done.index])}: {len(plan.done)} of {len(partitions)} parts")
    return dict(sum((Counter(verdicts) for verdicts in plan.done.values()), Counter[str]()))
