"""Answers a check: reads the line, judges every reading against the mate, and says what to order or to ask.

>>> from service.verdict.mates import parse_check
>>> verdict = judge(parse_check({"line": "ISO 8734 - 5 x 20 - A - St", "bore": "5 H7", "fit": "location"}))
>>> verdict.verdict, str(verdict.readings[0].clearance.lower)
('fits', '-0.012')
"""

from collections.abc import Mapping
from functools import lru_cache

from service.reading import read
from service.reading.model import LineReading
from service.verdict import bore
from service.verdict.combine import combine
from service.verdict.kinds import JUDGE
from service.verdict.model import BoreMate, Check, ClampMate, Finding, JudgedReading, Verdict
from service.verdict.order_text import Proposal, pin_for, screw_for
from service.verdict.temperature import at_temperature


@lru_cache(maxsize=256)
def judge(check: Check) -> Verdict:
    """Return the verdict on a check; the same check asked again costs a look-up."""
    return judge_line(read(check.line), check)


def judge_line(line_reading: LineReading, check: Check) -> Verdict:
    """Return the verdict on a line that has been read already."""
    mate, fit = check.mate, check.fit
    judge_one = JUDGE[type(mate)]
    judged = tuple([judge_one(reading, mate, fit) for reading in line_reading.readings])
    if check.temperature is not None:
        judged = tuple(at_temperature(one, mate, fit, check.temperature, check.part_material) for one in judged)
    word, share = combine(judged)
    findings: tuple[Finding, ...] = ()
    question = None
    order_text = ""
    if word == "fits" and len(judged) == 1:
        order_text = judged[0].reading.order_text
    elif word == "unread":
        findings = (_unread(line_reading),)
        question = line_reading.question
    else:
        proposal = _proposal(judged, check)
        if proposal is not None:
            order_text, findings = proposal.text, proposal.findings
        if word == "ask":
            question = _question(line_reading, judged, order_text)
    if fit is None and isinstance(mate, BoreMate) and len(judged) == 1:
        fit = bore.usual_fit(judged[0].reading, mate)
    return Verdict(
        word,
        check.line,
        line_reading.state,
        mate,
        fit,
        judged,
        findings,
        question,
        order_text,
        _cautions(judged),
        share,
    )


def _unread(line_reading: LineReading) -> Finding:
    nearest = ", ".join(line_reading.nearest)
    text = line_reading.reason or "the line names no part that is known here"
    if nearest:
        text += f"; the nearest words known: {nearest}"
    return Finding("unread", "open", text, {"nearest": nearest} if nearest else {}, "the line")


def _proposal(judged: tuple[JudgedReading, ...], check: Check) -> Proposal | None:
    """Return what to order: a reading that fits, else a part of the same kind that does, else a marginal one."""
    for reading in judged:
        if reading.verdict == "fits":
            return Proposal(reading.reading.order_text, "fits")
    better = _better(judged, check)
    if better is not None and better.verdict == "fits":
        return better
    for reading in judged:
        if reading.verdict == "marginal":
            return Proposal(reading.reading.order_text, "marginal")
    return better


def _better(judged: tuple[JudgedReading, ...], check: Check) -> Proposal | None:
    mate = check.mate
    if isinstance(mate, BoreMate) and check.temperature is None:
        return pin_for([one.reading for one in judged], mate, check.fit)
    if isinstance(mate, ClampMate):
        found = [proposal for one in judged if (proposal := screw_for(one.reading, mate)) is not None]
        return next((one for want in ("fits", "marginal") for one in found if one.verdict == want), None)
    return None


def _question(line_reading: LineReading, judged: tuple[JudgedReading, ...], order_text: str) -> str:
    """Return the one question: between the readings where they disagree, else for the value that is open."""
    if len(judged) > 1 and line_reading.question:
        wanted = f" We need: {order_text}." if order_text else ""
        return line_reading.question + wanted
    opened = next((finding for one in judged for finding in one.findings if finding.weight == "open"), None)
    if opened is None:
        return line_reading.question or f"What exactly do you send for {line_reading.line!r}?"
    asked = _ASKED.get(opened.code)
    return asked or f"Please state: {opened.text}."


_ASKED: Mapping[str, str] = {
    "fit-not-stated": "Which fit is wanted: slip, location, press, a class pair such as H7/m6, or a window?",
    "depth-not-stated": "How deep is the full thread of the tapped hole?",
    "material-not-stated": "What is the tapped hole made in?",
}
"""Code of an open finding -> the question to whoever made the design."""


def _cautions(judged: tuple[JudgedReading, ...]) -> tuple[str, ...]:
    """Return the cautions of all readings, each once."""
    if len(judged) == 1:
        return judged[0].cautions
    return tuple(dict.fromkeys(caution for one in judged for caution in one.cautions))
