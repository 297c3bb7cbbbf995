"""What a process does once it has loaded what it needs."""

import subprocess
import sys

SCRIPT = """
import gc
from service.collector import settle, wait
wait()
waiting = not gc.isenabled()
held = [[] for _ in range(1000)]
before = gc.get_freeze_count()
settle()
ring = []
ring.append(ring)
del ring
print(waiting, gc.get_freeze_count() - before >= 1000, gc.get_threshold()[0] > 700, gc.isenabled(), gc.collect() >= 1)
"""


def test_what_is_loaded_is_left_out_of_searches_and_rings_are_still_found() -> None:
    """In a process of its own: the settings are the whole process's."""
    done = subprocess.run([sys.executable, "-c", SCRIPT], check=True, capture_output=True, text=True)
    assert done.stdout.split() == ["True"] * 5
