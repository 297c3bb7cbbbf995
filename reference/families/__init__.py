"""The part families. Each module of this package declares one family (or a few close ones) and is found by itself.

To add a family: one module here, one table in ``reference/data``, its tests. Nothing else knows the list.
"""

from collections.abc import Mapping
from functools import cache
from importlib import import_module
from importlib.resources import files

from reference.families.base import Family

_PARTS = frozenset({"__init__", "base", "facts", "rules"})


@cache
def all_families() -> tuple[Family, ...]:
    """Return every declared family, sorted by name."""
    found: list[Family] = []
    for entry in files("reference.families").iterdir():
        module, dot, suffix = entry.name.partition(".")
        if suffix != "py" or not dot or module in _PARTS:
            continue
        declared = import_module(f"reference.families.{module}")
        found.extend(getattr(declared, "FAMILIES", ()) or (declared.FAMILY,))
    return tuple(sorted(found, key=lambda family: family.name))


@cache
def by_name() -> Mapping[str, Family]:
    """Return the families by name."""
    return {family.name: family for family in all_families()}


@cache
def by_standard() -> Mapping[str, tuple[Family, ...]]:
    """Return, for every standard that a family cites, the families it names."""
    found: dict[str, tuple[Family, ...]] = {}
    for family in all_families():
        for standard in family.standards:
            found[standard.name] = (*found.get(standard.name, ()), family)
    return found
