"""Which dimension of which family meets a bore, a shaft or a thread.

A family that is not named here is judged by the dimension it has: an outer diameter meets a bore, a bore a shaft.

Source: common practice; the standards of the families.
"""

from collections.abc import Mapping
from functools import lru_cache

from reference.families import by_name

OWN_HOLE: Mapping[str, str] = {
    "slotted spring pin": "H12",
    "coiled spring pin": "H12",
    "grooved pin": "H11",
    "split pin": "H14",
    "heat-set insert": "",
    "press-in insert": "",
    "rivet nut": "",
    "wire thread insert": "",
    "cable gland": "",
}
"""Families whose size names the hole they are made for, and the class of that hole by their standard ('' for none)."""

FOR_A_BORE: Mapping[str, str] = {"internal retaining ring": "hole_diameter"}
FOR_A_SHAFT: Mapping[str, str] = {
    "external retaining ring": "shaft_size",
    "shaft collar": "shaft_size",
    "shaft support": "shaft_size",
    "bearing block": "shaft_size",
    "linear bearing block": "shaft_size",
}
"""Families that are made for a bore or a shaft of one nominal size, and the dimension that names it."""

HOUSING: Mapping[str, tuple[str, str]] = {
    "plain bush": ("H7", "H7"),
    "flanged bush": ("H7", "H7"),
    "linear ball bearing": ("H7", "H7"),
}
"""Parts that are fitted into a housing of this class where no fit is given: its first and its last class."""

SEAT: Mapping[str, tuple[str, str]] = {"linear ball bearing": ("g6", "h6")}
"""Parts that run on a shaft of this class where no fit is given: its first and its last class."""

CLEARANCE_HOLE = frozenset(
    {
        "socket head cap screw",
        "low head cap screw",
        "button head screw",
        "countersunk screw",
        "hex head screw (threaded to the head)",
        "hex head bolt",
        "set screw",
        "pan head screw",
        "cheese head screw",
        "knurled screw",
        "wing screw",
        "stud",
        "threaded rod",
    }
)
"""Threaded families that go through a clearance hole and into a tapped one."""

HEADED = CLEARANCE_HOLE - {"set screw", "stud", "threaded rod"}
"""Screws whose head clamps a stack."""

LENGTH_OVER_ALL = frozenset({"countersunk screw", "set screw", "stud", "threaded rod"})
"""Families whose length includes the head (or that have none): the head sinks into the stack."""

BORE_KEY: Mapping[str, str] = {"shoulder screw": "shoulder_diameter"}
"""Families of which another dimension than the outer diameter goes into a bore."""

PARALLEL_PINS = frozenset({"parallel pin", "parallel pin with internal thread", "parallel pin with external thread"})
"""Pins that in class m6 are made for a hole H7."""

TAPERED = frozenset({"taper pin", "taper pin with internal thread", "taper pin with external thread"})
"""Pins that need a tapered hole."""

NOT_IN_A_BORE = frozenset(
    {
        "hex nut",
        "thin nut",
        "lock nut (prevailing torque)",
        "square nut",
        "cap nut",
        "flange nut",
        "wing nut",
        "T-slot nut",
        "plain washer",
        "large washer",
        "spring washer",
        "toothed lock washer",
        "wood screw",
        "self-tapping screw",
        "shaft collar",
        "shaft coupling",
        "timing pulley",
        "timing belt",
        "guide rail",
        "guide carriage",
        "extension spring",
        "O-ring",
        "external retaining ring",
        "E-ring",
        "parallel key",
        "storage module",
        "power supply",
        "fuse",
        "motor",
        "fan",
    }
)
"""Families that no bore is made for."""

NOT_ON_A_SHAFT = frozenset(
    {
        "hex nut",
        "thin nut",
        "lock nut (prevailing torque)",
        "square nut",
        "cap nut",
        "flange nut",
        "wing nut",
        "T-slot nut",
        "rivet nut",
        "plain washer",
        "large washer",
        "spring washer",
        "toothed lock washer",
        "standoff",
        "heat-set insert",
        "press-in insert",
        "wire thread insert",
        "lead screw nut",
        "O-ring",
        "storage module",
        "fuse",
    }
)
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
    keys.update(name for need in declared.needs for name in need.split("|"))
    rows = declared.sizes.rows if declared.sizes is not None else ()
    return key in keys or any(key in row.dimensions for row in rows)
