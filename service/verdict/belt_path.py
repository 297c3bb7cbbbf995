"""Judges a timing belt against its path: profile and pitch, teeth whole, length, and the tension travel that is left.

A closed belt runs around pulleys, of which a tensioner may move one; an open belt runs on a fixed path and is clamped
at both ends. Lengths lie on the pitch line (``service.strength.belts``).
"""

import math
import re
from collections.abc import Mapping
from decimal import Decimal
from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

from reference import belts as profiles
from reference.belts import Profile, profile_of
from reference.quantities import Limits
from reference.units import tidy
from service.reading.model import Reading
from service.strength import cautions
from service.strength.belts import (
    LEAST_TEETH_IN_MESH,
    Path,
    Pulley,
    back_idler_diameter,
    open_path,
    path,
    teeth_in_mesh,
    toothed_diameter,
)
from service.verdict.combine import worst
from service.verdict.diameters import MEASURE, diameter, length, signed_length
from service.verdict.fields import Fields, at, known, one_line, required
from service.verdict.model import BeltPathMate, CheckError, Finding, FitWanted, JudgedReading, Moves, PulleyAt
from service.verdict.pairs import CHANCE, percent, share_between

STRETCH = Decimal("0.002")
"""How much longer than itself a belt is drawn when it is tensioned; common practice, 0.1 to 0.2 % for glass cord."""

MOST_PULLEYS, MOST_TEETH = 20, 1000
"""Pulleys of a path; teeth of a pulley or of a clamp."""

SOURCE = "geometry of the path on the pitch line"

_FORMS = (
    "two pulleys by their teeth, the profile and the centre distance, or open, the profile, the path and the clamped "
    "teeth; then the tensioner's travel and the width"
)
_EXAMPLE = "20T and 60T GT2 at 80..84 width 6, or open GT2 path 1200 clamps 6 travel 5"
_END = rf"(?:\s+travel\s+(?P<travel>{MEASURE}))?(?:\s+width\s+(?P<width>{MEASURE}))?"
_CLOSED = re.compile(
    rf"(?P<one>\d{{1,4}})\s*T?\s+(?:and|\+|to)\s+(?P<other>\d{{1,4}})\s*T?\s+(?P<profile>.+?)\s+at\s+(?P<centres>.+?){_END}",
    re.IGNORECASE,
)
_OPEN = re.compile(
    rf"open\s+(?P<profile>.+?)\s+path\s+(?P<path>{MEASURE})(?:\s+clamps?\s+(?P<clamp>\d{{1,4}})(?:\s+teeth)?)?{_END}",
    re.IGNORECASE,
)


# --- requests --------------------------------------------------------------------------------------------------------


def from_text(text: str, field: str) -> BeltPathMate:
    """Return the path of a short form: ``20T and 60T GT2 at 80..84``, ``open GT2 path 1200 clamps 6 travel 5``.

    Raises:
        CheckError: a part of it is not understood.
    """
    if found := _OPEN.fullmatch(text):
        names = {"profile": "profile", "path": "path_length", "clamp": "clamp_teeth"}
    elif found := _CLOSED.fullmatch(text):
        names = {"profile": "profile", "centres": "centres"}
    else:
        raise CheckError(field, text, _FORMS, _EXAMPLE)
    given: dict[str, object] = {name: found[group] for group, name in names.items()}
    given |= {"travel": found["travel"], "belt_width": found["width"]}
    if "centres" in given:
        given["teeth"] = [int(found["one"]), int(found["other"])]
    return from_fields(given, field)


def from_fields(given: Fields, field: str) -> BeltPathMate:
    """Return the path of an object.

    ``profile``; ``teeth`` of two pulleys and their ``centres``, or ``pulleys`` (each ``x``, ``y``, ``teeth`` or
    ``diameter``, ``back``) with ``moves`` for the tensioner, or for an open belt ``path_length`` or ``pulleys`` and
    ``open``, and ``clamp_teeth``; ``travel`` of the tensioner, ``belt_width``.

    Raises:
        CheckError: a part of it is missing, contradicts another, or is not understood.
    """
    names = (
        "profile",
        "teeth",
        "centres",
        "pulleys",
        "moves",
        "open",
        "path_length",
        "clamp_teeth",
        "travel",
        "belt_width",
    )
    known(given, names, field)
    profile = _profile(required(given, "profile", field, "GT2"), at(field, "profile"))
    ways = [name for name in ("teeth", "pulleys", "path_length") if given.get(name) is not None]
    if len(ways) != 1:
        raise CheckError(field, dict(given), "teeth and centres, pulleys, or path_length: one of the three", _EXAMPLE)
    travel, width = (
        None if given.get(name) is None else length(given[name], at(field, name)) for name in ("travel", "belt_width")
    )
    clamped = given.get("clamp_teeth")
    clamp = None if clamped is None else _count(clamped, at(field, "clamp_teeth"), 0)
    if ways == ["path_length"]:
        long = length(given["path_length"], at(field, "path_length"))
        return _open(profile, long, (), clamp, travel, width)
    if ways == ["teeth"]:
        return _two(given, profile, travel, width, field)
    pulleys = _pulleys(given["pulleys"], profile, at(field, "pulleys"))
    if given.get("open"):
        try:
            long = tidy(Decimal(f"{_along(pulleys, profile).length:.3f}"))
        except ValueError as error:
            raise _no_path(at(field, "pulleys"), given["pulleys"], error) from None
        return _open(profile, long, pulleys, clamp, travel, width)
    return _around(given, profile, pulleys, travel, width, field)


def _profile(value: object, field: str) -> Profile:
    text = one_line(value, field, "a belt profile by name", "GT2")
    found = profile_of(text) if len(text) <= 20 else None
    if found is None:
        names = ", ".join(dict.fromkeys(one.name for one in profiles.profiles().values()))
        raise CheckError(field, value, f"a belt profile: {names}", "GT2")
    return found


def _count(value: object, field: str, least: int) -> int:
    number = int(value) if isinstance(value, str) and value.isdecimal() and len(value) < 5 else value
    if isinstance(number, bool) or not isinstance(number, int) or not least <= number <= MOST_TEETH:
        raise CheckError(field, value, f"a number of teeth from {least} to {MOST_TEETH}", "20")
    return number


def _two(given: Fields, profile: Profile, travel: Decimal | None, width: Decimal | None, field: str) -> BeltPathMate:
    """Return the path around two pulleys."""
    counts = given["teeth"]
    if not isinstance(counts, list | tuple) or len(counts) != 2:
        raise CheckError(at(field, "teeth"), counts, "the teeth of two pulleys", "[20, 60]")
    teeth = [_count(one, at(field, "teeth"), 6) for one in counts]
    where = at(field, "centres")
    centres = diameter(required(given, "centres", field, "80..84"), "hole", where).limits
    if travel is not None:
        if centres.lower is not None:
            raise CheckError(
                where, given["centres"], "a centre distance with its range, or with travel, not both", "80"
            )
        centres = Limits(centres.nominal, centres.nominal, centres.nominal + travel)
    pulleys = tuple(
        PulleyAt(x, Decimal(0), one, None, False) for x, one in zip((Decimal(0), centres.low), teeth, strict=True)
    )
    moves = Moves(2, centres.high - centres.low, Decimal(0))
    ends = _ends(pulleys, moves, profile, where, given["centres"])
    told = str(centres.low) if centres.low == centres.high else f"{centres.low}..{centres.high}"
    text = f"{teeth[0]}T and {teeth[1]}T {profile.name} at {told} mm"
    return _mate(text, profile, pulleys, moves, ends, width, centres)


def _around(
    given: Fields,
    profile: Profile,
    pulleys: tuple[PulleyAt, ...],
    travel: Decimal | None,
    width: Decimal | None,
    field: str,
) -> BeltPathMate:
    """Return the closed path around any pulleys, one of which a tensioner may move."""
    moves = None
    if given.get("moves") is not None:
        moved, where = given["moves"], at(field, "moves")
        if not isinstance(moved, Mapping):
            raise CheckError(where, moved, "an object with pulley (from 1), x and y", '{"pulley": 3, "x": 5}')
        known(moved, ("pulley", "x", "y"), where)
        number = _count(required(moved, "pulley", where, "3"), f"{where}.pulley", 1)
        if number > len(pulleys):
            raise CheckError(f"{where}.pulley", number, f"a pulley from 1 to {len(pulleys)}", "1")
        x, y = (signed_length(moved.get(name) or 0, f"{where}.{name}") for name in ("x", "y"))
        moves = Moves(number, x, y)
    if travel is not None:
        raise CheckError(
            at(field, "travel"), travel, "moves, which says which pulley the tensioner moves and where", ""
        )
    ends = _ends(pulleys, moves, profile, at(field, "pulleys"), given["pulleys"])
    return _mate(f"path around {len(pulleys)} pulleys, {profile.name}", profile, pulleys, moves, ends, width, None)


def _mate(
    text: str,
    profile: Profile,
    pulleys: tuple[PulleyAt, ...],
    moves: Moves | None,
    ends: tuple[float, float],
    width: Decimal | None,
    centres: Limits | None,
) -> BeltPathMate:
    least, most = (tidy(Decimal(f"{end:.3f}")) for end in sorted(ends))
    far = Decimal(0) if moves is None else (moves.x**2 + moves.y**2).sqrt()
    around = Limits(least, least, most)
    return BeltPathMate(text, profile.name, profile.pitch, pulleys, around, None, moves, tidy(far), centres, width)


def _open(
    profile: Profile,
    long: Decimal,
    pulleys: tuple[PulleyAt, ...],
    clamp: int | None,
    travel: Decimal | None,
    width: Decimal | None,
) -> BeltPathMate:
    """Return the path of an open belt."""
    teeth = USUAL_CLAMP if clamp is None else clamp
    text = f"open {profile.name} path of {long} mm with {teeth} teeth clamped at each end"
    return BeltPathMate(text, profile.name, profile.pitch, pulleys, Limits(long), teeth, None, travel, None, width)


USUAL_CLAMP = 6
"""Teeth held by a clamp where none are stated; common practice, as many as should mesh in a pulley."""


def _pulleys(value: object, profile: Profile, field: str) -> tuple[PulleyAt, ...]:
    if not isinstance(value, list | tuple) or not 2 <= len(value) <= MOST_PULLEYS:
        raise CheckError(field, value, f"a list of 2 to {MOST_PULLEYS} pulleys", '[{"x": 0, "y": 0, "teeth": 20}]')
    return tuple(_pulley(one, f"{field}.{number}") for number, one in enumerate(value))


def _pulley(value: object, field: str) -> PulleyAt:
    example = '{"x": 80, "y": 0, "teeth": 20}'
    if not isinstance(value, Mapping):
        raise CheckError(field, value, "an object with x, y, and teeth or diameter", example)
    known(value, ("x", "y", "teeth", "diameter", "back"), field)
    x, y = (signed_length(required(value, name, field, example), f"{field}.{name}") for name in ("x", "y"))
    teeth, smooth, back = value.get("teeth"), value.get("diameter"), value.get("back") or False
    if not isinstance(back, bool) or (teeth is not None and smooth is not None):
        raise CheckError(
            field, dict(value), "teeth, or diameter of a smooth pulley, and back as true or false", example
        )
    return PulleyAt(
        x,
        y,
        None if teeth is None else _count(teeth, f"{field}.teeth", 6),
        None if smooth is None else length(smooth, f"{field}.diameter"),
        back,
    )


# --- the path --------------------------------------------------------------------------------------------------------


def _drawn(pulley: PulleyAt, profile: Profile) -> Pulley:
    """Return a pulley by its diameter on the pitch line; one with neither teeth nor diameter is a clamp."""
    offset = float(profile.pitch_line_offset or 0)
    if pulley.teeth is not None:
        across = toothed_diameter(pulley.teeth, float(profile.pitch))
    else:
        across = back_idler_diameter(float(pulley.diameter), offset) if pulley.diameter else 0.0
    return Pulley(float(pulley.x), float(pulley.y), across, pulley.back)


def _moved(pulleys: tuple[PulleyAt, ...], moves: Moves | None, share: float) -> tuple[PulleyAt, ...]:
    """Return the pulleys with the tensioner at a share of its travel."""
    if moves is None:
        return pulleys
    number, part = moves.pulley - 1, Decimal(repr(share))
    one = pulleys[number]._replace(x=pulleys[number].x + part * moves.x, y=pulleys[number].y + part * moves.y)
    return (*pulleys[:number], one, *pulleys[number + 1 :])


def _loop(pulleys: tuple[PulleyAt, ...], profile: Profile) -> Path:
    """Return the closed path, in whichever order of the pulleys makes one loop.

    Raises:
        ValueError: neither order does, or two neighbours overlap.
    """
    drawn = [_drawn(pulley, profile) for pulley in pulleys]
    for one, other in combinations(drawn, 2):
        if math.hypot(one.x - other.x, one.y - other.y) < (one.diameter + other.diameter) / 2:
            raise ValueError(f"the pulleys at ({one.x:g}, {one.y:g}) and ({other.x:g}, {other.y:g}) overlap")
    for order in (drawn, drawn[::-1]):
        found = path(order)
        turned = sum(-wrap if one.back else wrap for one, wrap in zip(order, found.wraps, strict=True))
        if abs(turned - 2 * math.pi) < 1e-6:
            return found
    raise ValueError("the pulleys make no single loop in that order")


def _along(points: tuple[PulleyAt, ...], profile: Profile) -> Path:
    """Return the open path, whichever side of the pulleys the belt takes: the shorter."""
    drawn = [_drawn(point, profile) for point in points]
    mirrored = [Pulley(one.x, -one.y, one.diameter, one.back) for one in drawn]
    return min((open_path(drawn), open_path(mirrored)), key=lambda found: found.length)


def _ends(
    pulleys: tuple[PulleyAt, ...], moves: Moves | None, profile: Profile, field: str, value: object
) -> tuple[float, float]:
    """Return the length of a closed path with the tensioner at both ends of its travel.

    Raises:
        CheckError: no belt goes around the pulleys so.
    """
    try:
        slack, tight = (_loop(_moved(pulleys, moves, share), profile).length for share in (0.0, 1.0))
    except ValueError as error:
        raise _no_path(field, value, error) from None
    return slack, tight


def _no_path(field: str, value: object, error: ValueError) -> CheckError:
    return CheckError(field, value, f"pulleys that a belt can go around ({error})", "80..84")


# --- judging ---------------------------------------------------------------------------------------------------------


class BeltPart(NamedTuple):
    """What of a belt matters: profile and pitch, teeth, pitch length of a closed one, length of an open one, width.

    ``unsure``: the line gives a length and leaves open whether the belt is open or closed.
    """

    profile: str | None
    pitch: Decimal | None
    teeth: int | None
    closed: Decimal | None
    cut: Decimal | None
    width: Decimal | None
    unsure: bool = False


def belt_part(reading: Reading) -> BeltPart:
    """Return what of a reading matters for the path."""
    dimensions = reading.dimensions

    def size(key: str) -> Decimal | None:
        found = dimensions.get(key)
        return found.nominal if isinstance(found, Limits) else None

    named = reading.attributes.get("profile") or dimensions.get("profile")
    profile = profile_of(named) if isinstance(named, str) else None
    pitch = size("pitch") or (profile.pitch if profile is not None else None)
    count, closed = size("teeth"), size("pitch_length")
    if closed is None and count is not None and pitch is not None:
        closed = tidy(count * pitch)
    name = profile.name if profile is not None else named if isinstance(named, str) else None
    teeth, cut = None if count is None else int(count), size("length")
    ordered = reading.order_text
    unsure = closed is None and cut is not None and bool(ordered) and not re.search(r", (?:open|closed)\b", ordered)
    if unsure:
        closed = cut
    return BeltPart(name, pitch, teeth, closed, cut, size("belt_width") or size("width"), unsure)


def judge(reading: Reading, mate: BeltPathMate, fit: FitWanted | None) -> JudgedReading:
    """Judge whether the belt goes on its path and can be tensioned there."""
    if reading.family != "timing belt":
        text = f"a {reading.family} is no timing belt"
        return JudgedReading(reading, "wrong", None, (Finding("wrong-kind", "wrong", text, {}, "common practice"),))
    findings = _judged(belt_part(reading), mate)
    verdict = worst(findings)
    shares = [Decimal(one.numbers["share"]) for one in findings if "share" in one.numbers]
    share = min(shares, default=None) if verdict in ("fits", "marginal") else None
    return JudgedReading(reading, verdict, None, findings, share, (cautions.BELT, cautions.GENERAL))


@lru_cache(maxsize=2048)
def _judged(belt: BeltPart, mate: BeltPathMate) -> tuple[Finding, ...]:
    meshes = _meshes(belt, mate)
    if meshes.weight == "wrong":
        return (meshes,)
    found = [meshes, *_width(belt, mate)]
    if mate.clamp_teeth is not None:
        found += _open_belt(belt, mate)
    else:
        found += [*_whole(belt), *_closed_belt(belt, mate)]
    if belt.unsure:
        kind = "open" if mate.clamp_teeth is not None else "closed"
        text = f"whether the belt of {belt.cut} mm is open or closed is not stated; {kind} it has to be"
        found.append(Finding("open-or-closed", "open", text, {}, "the line"))
    return tuple(found)


def _meshes(belt: BeltPart, mate: BeltPathMate) -> Finding:
    """Compare profile and pitch."""
    numbers: dict[str, Decimal | str] = {"pitch": mate.pitch}
    text = f"belt {belt.profile or 'without a profile'}, pulleys {mate.profile}"
    if belt.pitch is None:
        return Finding("pitch-not-stated", "open", f"{text}: the belt's pitch is not stated", numbers, "the line")
    numbers["belt_pitch"] = belt.pitch
    if belt.pitch != mate.pitch:
        text += f": a pitch of {belt.pitch} mm on {mate.pitch} mm seems to mesh by hand and jumps under load"
        return Finding("pitch-differs", "wrong", text, numbers, SOURCE)
    if belt.profile is None:
        return Finding("profile-not-stated", "open", f"{text}: the tooth form is not stated", numbers, "the line")
    if belt.profile != mate.profile:
        text += f": the pitch is the same, {mate.pitch} mm, the form of the teeth is not; it runs badly and wears"
        return Finding("profile-differs", "marginal", text, numbers, "common practice")
    return Finding("meshes", "fits", f"{text}: they mesh", numbers, SOURCE)


def _width(belt: BeltPart, mate: BeltPathMate) -> list[Finding]:
    if mate.belt_width is None:
        return []
    if belt.width is None:
        return [Finding("width-not-stated", "open", "the width of the belt is not stated", {}, "the line")]
    numbers: dict[str, Decimal | str] = {"belt_width": belt.width, "width": mate.belt_width}
    text = f"a belt {belt.width} mm wide on pulleys for {mate.belt_width} mm"
    if belt.width > mate.belt_width:
        return [Finding("too-wide", "wrong", f"{text}: it does not go between the flanges", numbers, "as stated")]
    if belt.width < mate.belt_width:
        return [Finding("narrower", "marginal", f"{text}: it carries less and may wander", numbers, "as stated")]
    return [Finding("width-matches", "fits", text, numbers, "as stated")]


def _whole(belt: BeltPart) -> list[Finding]:
    """Refuse a closed belt whose length holds no whole number of teeth, or another than is stated."""
    if belt.closed is None or belt.pitch is None:
        return []
    count = belt.closed / belt.pitch
    numbers: dict[str, Decimal | str] = {"pitch_length": belt.closed, "pitch": belt.pitch}
    if abs(count - round(count)) * belt.pitch > Decimal("0.2"):
        below = math.floor(count)
        text = (
            f"{belt.closed} mm hold no whole number of teeth at {belt.pitch} mm; near it are {tidy(below * belt.pitch)}"
            f" and {tidy((below + 1) * belt.pitch)} mm"
        )
        return [Finding("teeth-not-whole", "wrong", text, numbers, "length over pitch")]
    if belt.teeth is not None and belt.teeth != round(count):
        text = f"{belt.teeth} teeth are {tidy(belt.teeth * belt.pitch)} mm, the line says {belt.closed} mm"
        return [Finding("teeth-and-length-differ", "wrong", text, numbers, "length over pitch")]
    return []


# --- closed belts ----------------------------------------------------------------------------------------------------


def _closed_belt(belt: BeltPart, mate: BeltPathMate) -> list[Finding]:
    """Judge the length of a closed belt, every belt within its tolerance, and the travel that is left."""
    least, most = mate.path.low, mate.path.high
    needed = f"{mate.text} takes {least} mm" if least == most else f"{mate.text} takes {least} to {most} mm"
    if belt.closed is None:
        if belt.cut is not None:
            text = f"{needed} of closed belt; an open belt of {belt.cut} mm would have to be joined"
            return [Finding("open-belt", "wrong", text, {}, "common practice")]
        fewest, largest = math.ceil(least / mate.pitch), math.floor(most / mate.pitch)
        which = (
            f": {fewest} to {largest} teeth" if fewest < largest else f": {fewest} teeth" if fewest == largest else ""
        )
        text = f"the line does not say the length of the belt; {needed}{which}"
        return [Finding("length-missing", "open", text, {"path_lower": least, "path_upper": most}, SOURCE)]
    tolerance, source = profiles.length_tolerance(belt.closed)
    low, high = belt.closed - tolerance, belt.closed + tolerance
    tightest = least / (1 + STRETCH)
    numbers: dict[str, Decimal | str] = {
        "pitch_length": belt.closed,
        "path_lower": least,
        "path_upper": most,
        "length_tolerance": tolerance,
    }
    text = f"a belt of {belt.closed} mm, {tolerance} mm more or less; {needed}"
    where = f"{SOURCE}; {source}"
    if low > most:
        return [Finding("belt-too-long", "wrong", f"{text}: {tidy(belt.closed - most)} mm too long", numbers, where)]
    if high < tightest:
        return [Finding("belt-too-short", "wrong", f"{text}: {tidy(least - belt.closed)} mm too short", numbers, where)]
    findings = [_taut(belt, mate, numbers, text, where, (low, high, tightest))]
    return findings + _mesh(belt, mate)


def _taut(
    belt: BeltPart,
    mate: BeltPathMate,
    numbers: dict[str, Decimal | str],
    text: str,
    where: str,
    ends: tuple[Decimal, Decimal, Decimal],
) -> Finding:
    """Say where the tensioner stands when the belt is taut, and how many belts can be tightened at all."""
    assert belt.closed is not None  # noqa: S101 - the caller has looked
    low, high, tightest = ends
    most = mate.path.high
    if mate.travel:
        used = _share_of_travel(belt.closed, mate)
        taut, left = _figure(mate.travel * used), _figure(mate.travel * (1 - used))
        numbers |= {"travel_used": taut, "travel_left": left}
        if mate.centres is not None:
            numbers["centres"] = _figure(mate.centres.low + mate.travel * used)
            text += f"; taut at {numbers['centres']} mm between centres"
        else:
            text += f"; taut at {taut} mm of the tensioner's travel"
        text += f", {left} mm of travel left to tension it and {taut} mm to lay it on"
        if taut < mate.pitch / 2:
            text += ": less than half a tooth, so pulleys and belt go on together"
    else:
        text += "; nothing can be adjusted"
    if tightest <= low and high <= most:
        numbers["share"] = Decimal(1)
        return Finding("belt-fits", "fits", text, numbers, where)
    share = share_between(float(tightest), float(most), float(belt.closed), float(high - belt.closed) / 3)
    numbers["share"] = share
    beyond = "slack" if high > most else "too tight"
    if high > most and low < tightest:
        beyond = "slack or too tight"
    text += f"; {percent(share)} of such belts can be tightened, the others are {beyond} ({CHANCE})"
    return Finding("some-belts-do-not-fit", "marginal", text, numbers, where)


def _share_of_travel(wanted: Decimal, mate: BeltPathMate) -> Decimal:
    """Return at which share of the tensioner's travel the path is as long as the belt, 0 or 1 where it never is."""
    profile = profile_of(mate.profile)
    assert profile is not None  # noqa: S101 - the mate was made with it

    def long(share: float) -> float:
        return _loop(_moved(mate.pulleys, mate.moves, share), profile).length

    start, end = long(0.0), long(1.0)
    slack, tight = (0.0, 1.0) if start <= end else (1.0, 0.0)
    target = float(wanted)
    if target <= min(start, end) or target >= max(start, end):
        return Decimal(int(target >= max(start, end)))
    for _ in range(60):
        middle = (slack + tight) / 2
        slack, tight = (middle, tight) if long(middle) < target else (slack, middle)
    share = Decimal(f"{(slack + tight) / 2:.6f}")
    return share if start <= end else 1 - share


def _mesh(belt: BeltPart, mate: BeltPathMate) -> list[Finding]:
    """Tell of a toothed pulley with too few teeth in mesh."""
    profile = profile_of(mate.profile)
    assert profile is not None  # noqa: S101 - the mate was made with it
    walked = _loop(mate.pulleys, profile)
    drawn = [_drawn(pulley, profile) for pulley in mate.pulleys]
    wraps = walked.wraps if path(drawn) == walked else walked.wraps[::-1]
    meshed = [
        (teeth_in_mesh(pulley.teeth, wrap), pulley.teeth)
        for wrap, pulley in zip(wraps, mate.pulleys, strict=True)
        if pulley.teeth is not None and not pulley.back
    ]
    fewest = min(meshed, default=None)
    if fewest is None or fewest[0] >= LEAST_TEETH_IN_MESH:
        return []
    count = Decimal(f"{fewest[0]:.1f}")
    text = f"only {count} teeth of the pulley with {fewest[1]} are in mesh; {LEAST_TEETH_IN_MESH} are wanted"
    return [Finding("few-teeth-in-mesh", "note", text, {"teeth_in_mesh": count}, "from memory")]


# --- open belts ------------------------------------------------------------------------------------------------------


def _open_belt(belt: BeltPart, mate: BeltPathMate) -> list[Finding]:
    """Judge whether an open belt reaches from clamp to clamp, and whether the tensioner takes up what is over."""
    assert mate.clamp_teeth is not None  # noqa: S101 - the caller has looked
    on_path = math.ceil(round(mate.path.nominal / mate.pitch, 9))
    teeth = on_path + 2 * mate.clamp_teeth
    needed, slack = tidy(teeth * mate.pitch), tidy(on_path * mate.pitch - mate.path.nominal)
    numbers: dict[str, Decimal | str] = {"needed_length": needed, "teeth": Decimal(teeth), "slack": slack}
    text = f"{mate.text} takes {teeth} teeth, {needed} mm"
    if belt.cut is None:
        if belt.closed is not None:
            text += f"; a closed belt of {belt.closed} mm would have to be cut, and its cords then fray"
            return [Finding("closed-belt", "wrong", text, numbers, "common practice")]
        return [Finding("length-missing", "open", f"the line does not say the length; {text}", numbers, SOURCE)]
    spare = tidy(belt.cut - needed)
    numbers |= {"length": belt.cut, "spare": spare}
    if spare < 0:
        return [Finding("belt-too-short", "wrong", f"{text}; {belt.cut} mm are {-spare} mm too short", numbers, SOURCE)]
    findings = [Finding("belt-reaches", "fits", f"{text}; {belt.cut} mm leave {spare} mm to spare", numbers, SOURCE)]
    return findings + _take_up(mate, slack)


def _take_up(mate: BeltPathMate, slack: Decimal) -> list[Finding]:
    """Say what the tensioner has left once it has taken up the last tooth that does not come out whole."""
    stretch = tidy((mate.path.nominal * STRETCH).quantize(Decimal("0.01")))
    wanted = slack + stretch
    numbers: dict[str, Decimal | str] = {"slack": slack, "stretch": stretch}
    says = f"whole teeth leave {slack} mm of slack, and tensioning stretches the belt by about {stretch} mm"
    if mate.travel is None:
        text = (
            f"{says}: the tensioner has to take up {wanted} mm, half of that where it moves a pulley with half a turn"
        )
        return [Finding("take-up-needed", "note", text, numbers, "common practice")]
    left = _figure(mate.travel - wanted / 2)
    numbers["travel_left"] = left
    text = f"{says}; the tensioner's {mate.travel} mm take up {tidy(2 * mate.travel)} mm"
    if left < 0:
        text += f", {tidy(-2 * left)} mm too little: move a clamp by part of a tooth, or give the tensioner more travel"
        return [Finding("travel-short", "marginal", text, numbers, "common practice")]
    return [Finding("travel-enough", "fits", f"{text}: {left} mm of travel are left", numbers, "common practice")]


def _figure(value: Decimal) -> Decimal:
    return tidy(value.quantize(Decimal("0.001")))
