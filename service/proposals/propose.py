"""Try parts against a mate, keep those that fit, and rank them.

>>> from service.verdict.mates import parse_fit, parse_mate
>>> bore = parse_mate("bore", "5 H7")
>>> propose(Wanted(bore, parse_fit("location", bore))).proposals[0].order_text
'Parallel pin ISO 8734 - 5 x <length> - A - St'
"""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from reference.quantities import Dimension, Limits, ThreadSize
from service.proposals.candidates import FAMILIES, trials
from service.proposals.designation import read_again
from service.proposals.model import Proposal, Proposals, Substitute, Trial, Wanted
from service.reading.model import Reading
from service.verdict.judge import judge
from service.verdict.model import BoreMate, Check, PresenceMate, ShaftMate, Verdict

MOST = 12
"""Proposals of an answer."""

MOST_OF_A_FAMILY = 3
"""Of one family, where none was asked for."""

MOST_SUBSTITUTES, MOST_STANDARDS = 4, 12
"""Substitutes of a proposal, and standards among which they are sought."""

MOST_TRIED = 400
"""Parts that are tried for one answer."""

_HARD, _SOFT = "hardened steel", "unhardened steel"

HARDENED: Mapping[str, str] = {
    **dict.fromkeys(("ISO 8734", "DIN 6325", "ISO 8735", "DIN 7979", "GB/T 119.2", "GB/T 120.2"), _HARD),
    **dict.fromkeys(("ISO 2338", "DIN 7", "ISO 8733", "GB/T 119", "GB/T 119.1", "GB/T 120", "GB/T 120.1"), _SOFT),
}
"""Standard of a pin -> its steel, by the titles of the standards; DIN 7979 has both, in form D hardened."""

_UNTOLD = frozenset({"series", "length", "standard"})
"""What is no difference between two parts."""


class Passed(NamedTuple):
    """A trial that was judged to fit: its order text, what that is read as, and why it fits."""

    trial: Trial
    text: str
    reading: Reading
    verdict: Verdict


@lru_cache(maxsize=256)
def propose(wanted: Wanted) -> Proposals:
    """Return the standard parts that fit the mate, best first; what is rare comes after what is not."""
    groups: dict[tuple[str, ...], list[Passed]] = {}
    count = 0
    for trial in trials(wanted):
        count += 1
        if count > MOST_TRIED:
            break
        if wanted.family is None and _enough(groups, trial):
            continue
        passed = _passed(trial, wanted)
        if passed is not None and all(passed.text != one.text for one in _all(groups)):
            groups.setdefault(trial.group, []).append(passed)
    ordered = sorted(groups.values(), key=lambda group: group[0].trial.rare)
    most = MOST if wanted.family is None else 2 * MOST
    found = tuple(_proposal(group) for group in ordered[:most])
    fit = wanted.fit if wanted.fit is not None or not ordered else ordered[0][0].verdict.fit
    return Proposals(wanted, fit, found, count, None if found else _reason(wanted))


def _all(groups: Mapping[tuple[str, ...], list[Passed]]) -> Iterable[Passed]:
    return (one for group in groups.values() for one in group)


def _enough(groups: Mapping[tuple[str, ...], list[Passed]], trial: Trial) -> bool:
    """Tell whether enough of a family passed already, another standard of a part that passed always being welcome."""
    if trial.group in groups:
        return len(groups[trial.group]) > MOST_STANDARDS
    alike = [group for group in groups if group[0] == trial.family]
    return len(alike) >= MOST_OF_A_FAMILY


def _passed(trial: Trial, wanted: Wanted) -> Passed | None:
    """Return the trial as read from its order text, if that fits; None otherwise."""
    for text in trial.texts:
        ordered = read_again(text, trial.family, "" if trial.standard == "practice" else trial.standard)
        if ordered is not None and _made_of(ordered.reading, wanted.material):
            verdict = judge(Check(ordered.text, wanted.mate, wanted.fit))
            if verdict.verdict == "fits":
                return Passed(trial, ordered.text, ordered.reading, verdict)
    return None


def _made_of(reading: Reading, material: str | None) -> bool:
    """Tell whether the order text says the material that is wanted."""
    if material is None:
        return True
    told = " ".join(reading.attributes.get(name, "") for name in ("material", "property_class", "grade"))
    return material.casefold() in told.casefold()


# --- the answer ------------------------------------------------------------------------------------------------------


def _proposal(group: list[Passed]) -> Proposal:
    first, others = group[0], group[1:]
    judged = first.verdict.readings[0]
    reasons = [finding.text for finding in judged.findings if finding.weight == "fits"]
    if first.trial.says:
        reasons.append(first.trial.says)
    if first.trial.rare:
        reasons.append("hard to find: it is on no list")
    return Proposal(
        order_text=first.text,
        standards=_standards(first),
        family=first.reading.family,
        why="; ".join(reasons),
        rare=first.trial.rare,
        substitutes=_substitutes(first, others),
        missing=first.reading.missing,
        share=judged.share,
        source=first.trial.source,
        cautions=judged.cautions,
        reading=first.reading,
    )


def _standards(passed: Passed) -> tuple[str, ...]:
    """Return the standards of a part, the one that it was proposed by first."""
    if passed.trial.standard in ("", "practice"):
        return ()
    names = (passed.trial.standard, *passed.reading.standards)
    return tuple(dict.fromkeys(name for name in names if name))


def _substitutes(first: Passed, others: list[Passed]) -> tuple[Substitute, ...]:
    """Return the same part by other standards, those that differ least first, ISO, EN and DIN before national ones."""
    found = [
        Substitute(other.text, (other.trial.standard,), _differences(first, other))
        for other in others
        if other.trial.standard not in ("", "practice")
    ]
    found.sort(key=lambda one: (len(one.differs), not one.standards[0].startswith(("ISO", "EN", "DIN"))))
    return tuple(found[:MOST_SUBSTITUTES])


def _differences(first: Passed, other: Passed) -> tuple[str, ...]:
    """Return in what a substitute differs: by its sizes, and by its steel where the standards are of different ones."""
    steels = [HARDENED.get(one.trial.standard) for one in (first, other)]
    steel = (f"{steels[1]} instead of {steels[0]}",) if None not in steels and steels[0] != steels[1] else ()
    return (*differences(first.reading, other.reading), *steel)


def differences(one: Reading, other: Reading) -> tuple[str, ...]:
    """Say in what the second part differs from the first, a line each.

    Only what both state is compared: what one table holds and the other does not is no difference.
    """
    found = [
        f"{key.replace('_', ' ')} {_shown(theirs)} instead of {_shown(ours)}"
        for key, ours in one.dimensions.items()
        if key not in _UNTOLD and (theirs := other.dimensions.get(key)) is not None and _differ(ours, theirs)
    ]
    found += [
        f"{name.replace('_', ' ')} {other.attributes[name]} instead of {value}"
        for name, value in one.attributes.items()
        if name not in _UNTOLD and other.attributes.get(name, value) != value
    ]
    return tuple(found)


def _differ(ours: Dimension, theirs: Dimension) -> bool:
    if isinstance(ours, Limits) and isinstance(theirs, Limits):
        limits = ours.lower is not None and theirs.lower is not None
        return ours.nominal != theirs.nominal or (limits and (ours.low, ours.high) != (theirs.low, theirs.high))
    return ours != theirs


def _shown(value: Dimension) -> str:
    if isinstance(value, Limits):
        name = f" {value.tolerance_class}" if value.tolerance_class else ""
        within = f" ({value.lower}..{value.upper})" if value.lower is not None else ""
        return f"{value.nominal}{name}{within} mm"
    return value.designation if isinstance(value, ThreadSize) else str(value)


def _reason(wanted: Wanted) -> str:
    """Say why nothing is proposed, and what would help."""
    mate = wanted.mate
    if isinstance(mate, PresenceMate):
        return "a part that only has to be there can be anything"
    if wanted.family is not None and wanted.family not in FAMILIES.get(type(mate), ()):
        return f"no {wanted.family} of the tables goes with this {mate.kind}"
    if isinstance(mate, BoreMate | ShaftMate) and wanted.fit is None:
        return "no standard part is made for this as it stands: state the fit (slip, location, press, H7/m6)"
    if isinstance(mate, BoreMate | ShaftMate) and mate.diameter.lower is None:
        return f"the limits of the {mate.kind} are not stated: give its class (5 H7), deviations or limits"
    length = f" of {wanted.length} mm" if isinstance(wanted.length, Decimal) else ""
    material = f" in {wanted.material}" if wanted.material else ""
    return f"no standard part{length}{material} that the tables hold fits {mate.text} for every part within its limits"
