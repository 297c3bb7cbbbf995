"""Prints what is found in the order of the river sampler: ``python -m demo.order``."""

import json
import textwrap
from datetime import date
from pathlib import Path

from service.orders.check import check
from service.orders.intake import parse_order

ORDER = Path(__file__).parent / "order.json"


def main() -> None:
    """Print the reasons against ready, what is too many, the dates, the gates, and what to buy spare."""
    found = check(parse_order(json.loads(ORDER.read_text("utf-8")), date(2027, 1, 25)))
    print("ready" if found.ready else "not ready")
    _block("what delays it most first", [one.text for one in found.reasons])
    _block("nearly right", [f"{one.text}. Order: {one.order_text}" for one in found.near_misses if one.order_text])
    _block("bought twice", [one.text for one in found.duplicates])
    _block("too many", [one.text for one in found.surplus])
    kit = found.schedule.known
    _block("dates", [f"what has a date is complete by {kit.p50} (50 %), {kit.p90} (90 %)"])
    _block(
        "gates", [f"{one.step.id}: {'open' if one.open else f'closed by {len(one.because)}'}" for one in found.gates]
    )
    _block("spares", [f"{one.need}: {one.text}" for one in found.spares if one.buy])
    _block("notes", list(found.notes))


def _block(title: str, lines: list[str]) -> None:
    print(f"\n{title}")
    for line in lines:
        print(textwrap.fill(line, width=110, initial_indent="  ", subsequent_indent="    "))


if __name__ == "__main__":
    main()
