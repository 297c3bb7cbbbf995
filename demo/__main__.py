"""Prints the verdicts on the river sampler's lines: ``python -m demo``."""

import csv
import sys
import textwrap
from pathlib import Path

from service.verdict.judge import judge
from service.verdict.mates import parse_check

CHECKS = Path(__file__).parent / "checks.csv"


def main() -> None:
    """Print one block a line: the verdict, the mate, why, and what to order or to ask."""
    with CHECKS.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            what = row.pop("what")
            verdict = judge(parse_check({name: value for name, value in row.items() if value}))
            print(f"{verdict.verdict:9}{verdict.line}  ({what})")
            for judged in verdict.readings:
                print(f"         {judged.verdict}: {judged.reading.family}")
                for finding in judged.findings:
                    if finding.weight != "note":
                        _say(finding.text, "           ")
            if verdict.order_text not in {
                "",
                *(judged.reading.order_text for judged in verdict.readings if judged.verdict != "wrong"),
            }:
                _say(f"order instead: {verdict.order_text}", "         ")
            if verdict.question:
                _say(f"ask: {verdict.question}", "         ")
            for finding in verdict.findings:
                _say(finding.text, "         ")
            print()


def _say(text: str, indent: str) -> None:
    print(textwrap.fill(text, width=110, initial_indent=indent, subsequent_indent=indent + "  "))


if __name__ == "__main__":
    sys.exit(main())
