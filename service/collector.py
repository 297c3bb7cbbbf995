"""How often Python looks for rings of objects that nothing else holds.

Reading and judging make many small values and no rings: reference counts free them at once. At Python's own pace the
search for rings, which walks through every living value, took a third of the time of a batch.
"""

import gc

YOUNG = 50_000
"""New values between two searches among the young; Python's own figure of 700 is for programs with little memory."""

_PASSES, _OLDER = 20, 100


def wait() -> None:
    """Search for nothing while a process loads what it will keep anyway; ``settle`` ends that."""
    gc.disable()


def settle() -> None:
    """Take everything that is held now (tables, families, routes) out of all searches, and search less often.

    For a process that has loaded what it needs and now serves or works; processes forked from it inherit both.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(YOUNG, _PASSES, _OLDER)
    gc.enable()
