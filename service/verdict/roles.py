"""Which dimension of which family meets a bore, a shaft or a thread, by what the families declare (``Mates``).

A family that declares nothing meets a bore with its outer diameter and a shaft with its bore.
"""

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

from reference.families import all_families, by_name

_MATES = {family.name: family.mates for family in all_families()}

OWN_HOLE: Mapping[str, str] = MappingProxyType(
    {name: mates.own_hole for name, mates in _MATES.items() if mates.own_hole is not None}
)
"""Families whose size names the hole they are made for, and the class of that hole by their standard ('' for none)."""

FOR_A_BORE: Mapping[str, str] = MappingProxyType({name: m.for_bore for name, m in _MATES.items() if m.for_bore})
FOR_A_SHAFT: Mapping[str, str] = MappingProxyType({name: m.for_shaft for name, m in _MATES.items() if m.for_shaft})
"""Families that are made for a bore or a shaft of one nominal size, and the dimension that names it."""

HOUSING: Mapping[str, tuple[str, str]] = MappingProxyType({n: m.housing for n, m in _MATES.items() if m.housing})
"""Parts that are fitted into a housing of this class where no fit is given: its first and its last class."""

SEAT: Mapping[str, tuple[str, str]] = MappingProxyType({name: m.seat for name, m in _MATES.items() if m.seat})
"""Parts that run on a shaft of this class where no fit is given: its first and its last class."""

CLEARANCE_HOLE = frozenset(name for name, mates in _MATES.items() if mates.through)
"""Threaded families that go through a clearance hole and into a tapped one."""

HEADED = frozenset(name for name, mates in _MATES.items() if mates.headed)
"""Screws whose head clamps a stack."""

LENGTH_OVER_ALL = frozenset(name for name, mates in _MATES.items() if mates.over_all)
"""Families whose length includes the head (or that have none): the head sinks into the stack."""

BORE_KEY: Mapping[str, str] = MappingProxyType(
    {name: mates.bore_key for name, mates in _MATES.items() if mates.bore_key != "outer_diameter"}
)
"""Families of which another dimension than the outer diameter goes into a bore."""

PARALLEL_PINS = frozenset(name for name, mates in _MATES.items() if mates.reamed)
"""Pins that in class m6 are made for a hole H7."""

TAPERED = frozenset(name for name, mates in _MATES.items() if mates.tapered)
"""Pins that need a tapered hole."""

NOT_IN_A_BORE = frozenset(name for name, mates in _MATES.items() if not mates.in_bore)
"""Families that no bore is made for."""

NOT_ON_A_SHAFT = frozenset(name for name, mates in _MATES.items() if not mates.on_shaft)
"""Families that have a hole, or a bore in their tables, that is not made for a shaft."""


@lru_cache(maxsize=4096)
def can_have(family: str, key: str) -> bool:
    """Tell whether a part of the family can have a dimension (or ``rating``): by its declaration and its table.

    A family that is not declared may have any.
    """
    declared = by_name().get(family)
    if declared is None:
        return True
    if key == "rating":
        return bool(declared.ratings)
    keys = {declared.key, declared.thread, *declared.labels.values()}
    keys.update(name for layout in declared.layouts for name in layout.keys)
    keys.update(name for need in declared.needed for name in need)
    rows = declared.sizes.rows if declared.sizes is not None else ()
    return key in keys or any(key in row.dimensions for row in rows)
