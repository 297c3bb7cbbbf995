"""A row of a family's table as the text to order, and that text read again.

A text that is not read as the part that it stands for is no text to order.
"""

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple

from reference.families.base import Family
from reference.quantities import Dimension, Limits
from reference.sizes import Size
from service.reading import read
from service.reading.assemble import order_text
from service.reading.model import Reading

_NONE: Mapping[str, str] = MappingProxyType({})


def designation(
    family: Family,
    row: Size,
    dimensions: Mapping[str, Dimension],
    attributes: Mapping[str, str] = _NONE,
    standard: str | None = None,
) -> str:
    """Return the order text of a row with dimensions and attributes added, by its own standard or by an equivalent."""
    name = standard or row.standard
    declared = family.by_standard.get(name)
    key = dimensions.get(family.key)
    given = {**(declared.fixed if declared else {}), **attributes, "standard": name}
    if isinstance(key, Limits) and key.tolerance_class:
        given.setdefault("tolerance_class", key.tolerance_class)
    inches = any(getattr(one, "system", "") == "unified" for one in dimensions.values())
    template = (declared and declared.order) or (family.inch_order if inches and family.inch_order else family.order)
    text = order_text(template, dimensions, given)
    if family.key == "catalogue_number":
        return f"{family.name} {row.size}" + (f", {text.partition(', ')[2]}" if ", " in text else "")
    usual = next((one.name for one in family.standards if one.name in text), None)
    return text if usual is None or name in text else text.replace(usual, name, 1)


class Ordered(NamedTuple):
    """A text to order, and what it is read as."""

    text: str
    reading: Reading


@lru_cache(maxsize=4096)
def read_again(text: str, family: str, standard: str = "") -> Ordered | None:
    """Return a text to order as it is read: the only reading of a clear line, of that family.

    The reading's own order text is taken where it is read alike and still names the standard; else the text itself.
    None where the text is read otherwise.
    """
    reading = _only(text, family)
    if reading is None:
        return None
    settled = _only(reading.order_text, family)
    kept = standard in reading.order_text or standard not in text
    if settled is not None and kept and settled.dimensions == reading.dimensions:
        return Ordered(reading.order_text, settled)
    return Ordered(text, reading)


def _only(text: str, family: str) -> Reading | None:
    found = read(text)
    alone = found.state == "clear" and len(found.readings) == 1 and found.readings[0].family == family
    return found.readings[0] if alone else None
