"""The kinds of mate, in one place. To add one: a dataclass in ``model``, a module with three verbs, a line here."""

from collections.abc import Mapping
from typing import Any, NamedTuple, Protocol

from service.reading.model import Reading
from service.verdict import belt_path, bore, clamp, groove, hole_pattern, pocket, presence, rating, shaft, tapped_hole
from service.verdict.fields import Fields
from service.verdict.model import (
    BeltPathMate,
    BoreMate,
    ClampMate,
    FitWanted,
    GrooveMate,
    HolePatternMate,
    JudgedReading,
    Mate,
    PocketMate,
    PresenceMate,
    RatingMate,
    ShaftMate,
    TappedHoleMate,
)


class Verbs(Protocol):
    """What the module of a kind of mate does."""

    def from_text(self, text: str, field: str) -> Any:
        """Return the mate of a short form."""

    def from_fields(self, given: Fields, field: str) -> Any:
        """Return the mate of an object."""

    def judge(self, reading: Reading, mate: Any, fit: FitWanted | None) -> JudgedReading:
        """Judge one reading against the mate."""


class Kind(NamedTuple):
    """A kind of mate: the field of its short form, its class, its module, and an accepted short form."""

    field: str
    mate: type[Mate]
    verbs: Verbs
    example: str


KINDS = (
    Kind("bore", BoreMate, bore, "5 H7"),
    Kind("shaft", ShaftMate, shaft, "8 h6"),
    Kind("tapped", TappedHoleMate, tapped_hole, "M3 depth 6 in aluminium"),
    Kind("clamp", ClampMate, clamp, "46 into M3 depth 6 in aluminium"),
    Kind("pocket", PocketMate, pocket, "8.2 +0.1/0 depth 3"),
    Kind("groove", GrooveMate, groove, "9.6 h11 width 1.1 H13 on shaft 10"),
    Kind("pattern", HolePatternMate, hole_pattern, "16 x M3 at 25 position 0.2"),
    Kind("path", BeltPathMate, belt_path, "20T and 60T GT2 at 80..84 width 6"),
    Kind("rating", RatingMate, rating, "24 V, 40 W margin 20 %"),
    Kind("presence", PresenceMate, presence, "yes"),
)

BY_FIELD: Mapping[str, Kind] = {kind.field: kind for kind in KINDS}
BY_NAME: Mapping[str, Kind] = {kind.mate.kind: kind for kind in KINDS}
JUDGE: Mapping[type[Mate], Any] = {kind.mate: kind.verbs.judge for kind in KINDS}
"""Class of a mate -> what judges a reading against it."""
