"""The lines that speed is measured with: varied, distinct, the same in every run."""

from collections import Counter

from bench.lines import KINDS, checks
from service.reading import read
from service.verdict.judge import judge
from service.verdict.mates import parse_check


def test_lines_are_distinct_and_the_same_in_every_run() -> None:
    """Two runs can be compared."""
    lines = [check["line"] for check in checks(5000)]
    assert len(set(lines)) == 5000
    assert lines == [check["line"] for check in checks(5000)]
    assert lines != [check["line"] for check in checks(5000, seed=2)]


def test_shares_of_the_kinds_add_up() -> None:
    """They are given out of 100."""
    assert sum(weight for _, weight in KINDS) == 100


def test_lines_are_of_many_families_and_most_can_be_read() -> None:
    """A bench on lines that nobody understands would measure the wrong thing."""
    read_lines = [read(check["line"]) for check in checks(1500)]
    families = Counter(line.readings[0].family for line in read_lines if line.readings)
    assert len(families) >= 25
    assert sum(families.values()) >= 0.8 * len(read_lines)


def test_every_check_can_be_judged_and_verdicts_are_mixed() -> None:
    """The mates are written rightly; not everything fits."""
    words = Counter(judge(parse_check(check)).verdict for check in checks(1500))
    assert set(words) == {"fits", "marginal", "ask", "wrong", "unread"}
    assert max(words.values()) < 0.7 * 1500
