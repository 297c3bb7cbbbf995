"""Holds a long reply until the request has been read, so that a client which sends everything first does not stall.

Sending a reply while the request still comes in fills the socket's buffers both ways: each side then waits for the
other. Small replies stay in memory, long ones go to a temporary file.
"""

from collections.abc import Iterator
from tempfile import SpooledTemporaryFile

_IN_MEMORY = 1024 * 1024
_CHUNK = 64 * 1024


class Spool:
    """The pieces of a reply, taken at once up to a limit [bytes]; those beyond it follow as they come."""

    def __init__(self, pieces: Iterator[bytes], limit: int | None) -> None:
        """Take the pieces; ``complete`` tells whether none is left."""
        self._rest = pieces
        self._file = SpooledTemporaryFile(max_size=_IN_MEMORY)  # noqa: SIM115 - closed with the response
        self.size = 0
        self.complete = False
        try:
            for piece in pieces:
                self._file.write(piece)
                self.size += len(piece)
                if limit is not None and self.size > limit:
                    break
            else:
                self.complete = True
        except BaseException:
            self.close()
            raise
        self._file.seek(0)

    def body(self) -> bytes | Iterator[bytes]:
        """Return what is held and what follows, in order: a small reply as a whole, a long one piece by piece."""
        if self.complete and self.size <= _CHUNK:
            with self._file:
                return self._file.read()
        return self._pieces()

    def _pieces(self) -> Iterator[bytes]:
        with self._file:
            while chunk := self._file.read(_CHUNK):
                yield chunk
        if not self.complete:
            yield from self._rest

    def close(self) -> None:
        """Forget what is held."""
        self._file.close()
