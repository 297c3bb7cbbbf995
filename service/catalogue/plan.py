"""What a run is to do and what of it is done, in one file beside the parts, so that a stopped run goes on.

The file is replaced as a whole after each part. A part that was written but not yet noted is written again, alike.
"""

import dataclasses
import os
from pathlib import Path
from typing import Any

import orjson

from service.catalogue.parts import UNFINISHED, Done, Task
from service.catalogue.source import CatalogueError, Partition, digest
from service.version import service_version

NAME = "manifest.json"


class Plan:
    """The partitions of a run, each with its verdicts once it is done."""

    def __init__(self, task: Task, partitions: list[Partition]) -> None:
        """Plan a run of which nothing is done."""
        self.task, self.partitions = task, partitions
        self.done: dict[int, dict[str, int]] = {}
        source = Path(task.source.path)
        self._wanted: dict[str, Any] = {
            "source": {"name": source.name, "bytes": source.stat().st_size, "sha256": digest(source)},
            "written_as": task.form,
            "units": task.units,
            "row_limit": task.source.row_limit,
            "reference": task.reference,
            "version": service_version(),
            "rows": sum(partition.rows for partition in partitions),
            "partition_rows": partitions[0].rows,
        }

    @property
    def _path(self) -> Path:
        return Path(self.task.folder) / NAME

    def begin(self, resume: bool) -> None:
        """Begin in an empty folder, or go on where a run of the same plan was stopped.

        Raises:
            CatalogueError: the folder holds something else, or the run before was another one.
        """
        folder = Path(self.task.folder)
        folder.mkdir(parents=True, exist_ok=True)
        if resume and self._path.exists():
            self._take_over()
        elif any(folder.iterdir()):
            held = "no manifest of a run" if resume else "files; to go on with a stopped run say --resume"
            raise CatalogueError(f"{folder} holds {held}; a folder that is empty or not there is accepted")
        self.write()

    def _take_over(self) -> None:
        try:
            held = orjson.loads(self._path.read_bytes())
            before = {name: held[name] for name in self._wanted}
            parts = {part["index"]: part["verdicts"] for part in held["parts"]}
        except (orjson.JSONDecodeError, KeyError, TypeError) as error:
            raise CatalogueError(f"{self._path} is no manifest of a run: {error}") from None
        for name, value in self._wanted.items():
            if before[name] != value:
                raise CatalogueError(
                    f"the stopped run had {name} {before[name]}, this one has {value}; begin a new folder"
                )
        for partition in self.partitions:
            verdicts = parts.get(partition.index)
            if verdicts is not None and (self._path.parent / self.task.file(partition)).is_file():
                self.done[partition.index] = verdicts
        for left in self._path.parent.glob(f"*{UNFINISHED}"):
            left.unlink()

    def open(self) -> list[Partition]:
        """Return the partitions that are still to be worked."""
        return [partition for partition in self.partitions if partition.index not in self.done]

    def note(self, done: Done) -> None:
        """Note a partition as written."""
        self.done[done.index] = done.verdicts
        self.write()

    def write(self) -> None:
        """Replace the manifest."""
        parts = [
            {
                **dataclasses.asdict(partition),
                "file": self.task.file(partition),
                "verdicts": self.done.get(partition.index),
            }
            for partition in self.partitions
        ]
        unfinished = self._path.with_suffix(UNFINISHED)
        with unfinished.open("wb") as file:
            file.write(orjson.dumps({**self._wanted, "parts": parts}, option=orjson.OPT_INDENT_2))
            file.flush()
            os.fsync(file.fileno())
        unfinished.replace(self._path)
