"""Reading: from one line of text to every meaning it can have, with the evidence for each. Pure functions.

Steps, a module each: ``text`` (one spelling, tokens), ``standards``, ``nouns`` (which families), ``scan`` (what the
line says), ``assemble`` (a family's readings), ``reader`` (state), ``questions``. Facts of the trade live in
``reference``; judging a reading against its mate is ``service.verdict``.
"""

from service.reading.model import Because, LineReading, Note, Reading
from service.reading.reader import MAX_LINE, read

__all__ = ["MAX_LINE", "Because", "LineReading", "Note", "Reading", "read"]
