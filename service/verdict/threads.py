"""Does the screw's thread go into the hole's: system, diameter, pitch and hand, with the look-alikes named."""

from decimal import Decimal
from functools import lru_cache

from reference import threads
from reference.lookalikes import lookalikes
from reference.quantities import ThreadSize
from service.verdict.model import Finding


@lru_cache(maxsize=2048)
def match(screw: ThreadSize, hole: ThreadSize, where: str) -> Finding:
    """Return the finding whether a screw's thread goes into a hole's; ``where`` is what messages call the hole."""
    numbers: dict[str, Decimal | str] = {"screw": screw.designation, "hole": hole.designation}
    head = f"{screw.designation} into {where}"

    def wrong(code: str, text: str) -> Finding:
        return Finding(code, "wrong", f"{head}: {text}{_alike(screw, hole)}", numbers, threads.source(hole))

    if screw.hand != hole.hand:
        return wrong("thread-hand", f"the screw's thread is {screw.hand}-hand, the hole's {hole.hand}-hand")
    if screw.system != hole.system:
        return wrong("thread-system", f"a {screw.system} thread does not go with a {hole.system} one")
    if screw.diameter != hole.diameter:
        return wrong("thread-diameter", f"the thread is {screw.diameter} mm, the hole's {hole.diameter} mm")
    if screw.pitch is None or hole.pitch is None:
        return Finding("pitch-not-stated", "open", f"{head}: a pitch is not stated", numbers, threads.source(hole))
    if screw.pitch != hole.pitch:
        return wrong(
            "thread-pitch", f"the pitch is {screw.pitch} mm, the hole's {hole.pitch} mm; it starts, then binds"
        )
    return Finding("thread-matches", "fits", f"{head}: the thread matches", numbers, threads.source(hole))


def _alike(screw: ThreadSize, hole: ThreadSize) -> str:
    """Say how two threads that are taken for each other betray themselves; nothing where they are not."""
    known = next((other for other in lookalikes(screw) if other.name == hole.designation), None)
    if known is None:
        return ""
    binds = f", binds after about {known.turns_until_binding} turns" if known.turns_until_binding else ""
    told = f"; told apart by {' or '.join(known.told_apart_by)}" if known.told_apart_by else ""
    return f". It is easily taken for it: diameter {abs(known.difference)} mm apart{binds}{told}"
