"""Reports for build tools: JUnit XML, TAP 13, ``file:line: error:`` lines, and SARIF 2.1.0.

One check is one case, and a case that is not good fails, whatever its verdict: what stops an order stops a build. A
report never says by itself that the build is to stop; that is the status of the reply (``gate=1``).

Sources: TAP 13 (testanything.org), SARIF 2.1.0 (OASIS). JUnit XML has no standard: these are the elements and
attributes that the usual CI systems read.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from tempfile import SpooledTemporaryFile
from urllib.parse import quote

import orjson

from service.cells import xml_text

_IN_MEMORY = 1024 * 1024
_CHUNK = 64 * 1024


@dataclass(frozen=True, slots=True)
class Case:
    """One check of a report.

    ``number`` is its line in the body or its place in the list, ``title`` what was checked, ``word`` what came out and
    ``reason`` why. ``advice`` holds what to do, such as the text to order instead.
    """

    number: int
    title: str
    word: str
    good: bool
    reason: str
    advice: tuple[str, ...] = ()


def advice(order_text: str, question: str | None) -> tuple[str, ...]:
    """Return what to do in words: what to order instead, what to ask."""
    named = (("order instead", order_text), ("ask the supplier", question))
    return tuple(f"{name}: {text}" for name, text in named if text)


@dataclass(frozen=True, slots=True)
class Origin:
    """Where the cases come from: the file as its sender calls it, and whether the numbers count its lines."""

    file: str = "order"
    by_line: bool = True


NOWHERE = Origin()
"""What stands in reports where the sender names no file."""

Cases = Iterable[Case]
Writer = Callable[[Cases, Origin], Iterator[bytes]]


def _one_line(text: str) -> str:
    return " ".join(text.split())


# --- JUnit XML -----------------------------------------------------------------------------------------------------


def junit(cases: Cases, origin: Origin) -> Iterator[bytes]:
    """Write one suite. Its counts stand before its cases, so these are held until all are known, long ones on disk."""
    name = _attribute(origin.file)
    # Readers take the part before the last dot of a class for its package.
    of_case = f'classname="{name.replace(".", "_")}" file="{name}"'
    count = failures = 0
    with SpooledTemporaryFile(max_size=_IN_MEMORY) as held:
        for case in cases:
            count += 1
            failures += not case.good
            held.write(_testcase(case, of_case, origin).encode())
        counts = f'tests="{count}" failures="{failures}" errors="0" skipped="0"'
        yield f'<?xml version="1.0" encoding="UTF-8"?>\n<testsuites>\n<testsuite name="{name}" {counts}>\n'.encode()
        held.seek(0)
        while chunk := held.read(_CHUNK):
            yield chunk
    yield b"</testsuite>\n</testsuites>\n"


def _testcase(case: Case, of_case: str, origin: Origin) -> str:
    """Return one case; its number makes its name the only one of its kind."""
    line = f' line="{case.number}"' if origin.by_line else ""
    head = f'<testcase {of_case}{line} name="{case.number} {_attribute(case.title)}"'
    if case.good:
        return f"{head}/>\n"
    # Some readers show the message, others only the text.
    text = xml_text("\n".join((case.reason, *case.advice)))
    return f'{head}><failure type="{case.word}" message="{_attribute(case.reason)}">{text}</failure></testcase>\n'


def _attribute(text: str) -> str:
    return xml_text(_one_line(text)).replace('"', "&quot;")


# --- TAP 13 --------------------------------------------------------------------------------------------------------


def tap(cases: Cases, origin: Origin) -> Iterator[bytes]:
    """Write one test point a case; the plan comes last, so that a report that breaks off is no success."""
    yield b"TAP version 13\n"
    count = 0
    for case in cases:
        count += 1
        described = _one_line(f"{case.number} {case.title}").replace("\\", "\\\\").replace("#", "\\#")
        yield f"{'ok' if case.good else 'not ok'} {count} - {described}\n".encode()
        if not case.good:
            yield _diagnosis(case, origin).encode()
    yield f"1..{count}\n".encode()


def _diagnosis(case: Case, origin: Origin) -> str:
    """Return the YAML block below a test point; JSON texts are YAML."""
    facts = {"verdict": case.word, "message": case.reason, "file": origin.file, "number": case.number}
    facts |= {"advice": case.advice} if case.advice else {}
    block = "".join(f"  {name}: {orjson.dumps(fact).decode()}\n" for name, fact in facts.items())
    return f"  ---\n{block}  ...\n"


# --- lines ---------------------------------------------------------------------------------------------------------


def lines(cases: Cases, origin: Origin) -> Iterator[bytes]:
    """Write ``file:line: error: ...`` for what is not good, as compilers do, and at the end how many there were.

    What has a place in a list but no line of a file gets its place before its title instead.
    """
    words: dict[str, int] = {}
    for case in cases:
        words[case.word] = words.get(case.word, 0) + 1
        if case.good:
            continue
        at, title = origin.file, case.title
        if origin.by_line:
            at += f":{case.number}"
        else:
            title = f"{case.number} {title}"
        at = _one_line(at)
        parts = [f"{at}: error: {case.word}: {_one_line(title)}: {_one_line(case.reason)}\n"]
        parts += [f"{at}: note: {_one_line(advice)}\n" for advice in case.advice]
        yield "".join(parts).encode()
    counts = ", ".join(f"{number} {word}" for word, number in words.items())
    yield f"{sum(words.values())} checked: {counts}\n".encode()


# --- SARIF 2.1.0 ---------------------------------------------------------------------------------------------------

_SARIF = b'{"$schema":"https://json.schemastore.org/sarif-2.1.0.json","version":"2.1.0","runs":[{"results":['


def sarif(cases: Cases, origin: Origin) -> Iterator[bytes]:
    """Write one result a case that is not good; its rule is the word that came out."""
    yield _SARIF
    rules: dict[str, int] = {}
    lead = b""
    for case in cases:
        if case.good:
            continue
        rule = rules.setdefault(case.word, len(rules))
        yield lead + orjson.dumps(_result(case, rule, origin))
        lead = b","
    about = [{"id": word, "shortDescription": {"text": f"the verdict is {word}"}} for word in rules]
    driver = {"name": "Kitproof", "rules": about}
    yield b'],"tool":' + orjson.dumps({"driver": driver}) + b"}]}\n"


def _result(case: Case, rule: int, origin: Origin) -> dict[str, object]:
    place: dict[str, object] = {"artifactLocation": {"uri": quote(origin.file)}}
    location: dict[str, object] = {"physicalLocation": place}
    if origin.by_line:
        place["region"] = {"startLine": case.number}
    else:
        location["logicalLocations"] = [{"name": str(case.number), "kind": "element"}]
    text = "\n".join((f"{case.title}: {case.reason}", *case.advice))
    return {
        "ruleId": case.word,
        "ruleIndex": rule,
        "level": "error",
        "message": {"text": text},
        "locations": [location],
    }


REPORTS: Mapping[str, Writer] = {"junit": junit, "tap": tap, "lines": lines, "sarif": sarif}
"""Every report by the name of its form."""
