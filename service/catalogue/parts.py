"""One partition judged, and written to a file of its own: whole, or not at all."""

import os
import tempfile
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from reference import tables
from service.api.formats import Look
from service.api.render import Wire, csv_pieces
from service.api.verdict import LAYOUT, Tally, judged
from service.catalogue.source import CatalogueError, Partition, Source, parquet
from service.cells import cell_text

NUMBERS = frozenset({"window_lower", "window_upper", "clearance_lower", "clearance_upper", "share"})
"""Columns that are numbers in a Parquet file; ``number`` is a whole one, all others are text."""

UNFINISHED = ".unfinished"


@dataclass(frozen=True, slots=True)
class Task:
    """What every partition of a run has in common: ``form`` is how parts are written, ``folder`` where.

    ``reference`` is the fingerprint of the data that verdicts have to rest on.
    """

    source: Source
    folder: str
    form: str
    units: str
    reference: str

    def file(self, partition: Partition) -> str:
        """Return the name of a partition's file."""
        return f"part-{partition.index:06d}.{self.form}"


@dataclass(frozen=True, slots=True)
class Done:
    """A partition that is written: its index, and how many verdicts of each kind it holds."""

    index: int
    verdicts: dict[str, int]


def work(task: Task, partition: Partition) -> Done:
    """Judge the rows of a partition and write them.

    Raises:
        CatalogueError: the reference data here are others than those of the run, or the file was changed meanwhile.
    """
    if tables.fingerprint() != task.reference:
        raise CatalogueError(f"a worker has the reference data {tables.fingerprint()}, the run {task.reference}")
    counted: Counter[str] = Counter()

    def blocks() -> Iterator[list[Wire]]:
        for block in judged(task.source.rows(partition), task.units, Tally(), "catalogue"):
            counted.update(reply["verdict"] for reply in block)
            yield block

    # A name of its own for each attempt: an engine may run one twice at a time. Renamed only when it is on the disk.
    number, name = tempfile.mkstemp(suffix=UNFINISHED, prefix=f"part-{partition.index:06d}-", dir=task.folder)
    try:
        with os.fdopen(number, "wb") as file:
            if task.form == "csv":
                file.writelines(csv_pieces(blocks(), Look("csv"), LAYOUT, batch=True))
            else:
                _write_parquet(blocks(), file)
            file.flush()
            os.fsync(file.fileno())
        if counted.total() != partition.rows:
            raise CatalogueError(f"{task.source.path} was changed while it was read")
        Path(name).replace(Path(task.folder) / task.file(partition))
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    return Done(partition.index, dict(counted))


def _write_parquet(blocks: Iterable[list[Wire]], file: Any) -> None:
    library = parquet()
    import pyarrow

    types = {"number": pyarrow.int64(), **dict.fromkeys(NUMBERS, pyarrow.float64())}
    schema = pyarrow.schema([(column, types.get(column, pyarrow.string())) for column in LAYOUT.columns])
    with library.ParquetWriter(file, schema) as writer:
        for block in blocks:
            rows = [row for reply in block for row in LAYOUT.rows(reply)]
            arrays = [
                pyarrow.array(
                    cells if name in types else [None if cell is None else cell_text(cell) for cell in cells],
                    schema.field(name).type,
                )
                for name, cells in zip(LAYOUT.columns, zip(*rows, strict=True), strict=True)
            ]
            writer.write_batch(pyarrow.record_batch(arrays, schema=schema))
