"""How often Python's garbage collector looks through a catalog's objects.

What is made from a catalog lives as long as it is needed, and by its default the collector looks through all of it
again and again: a tenth of a build.
"""

from __future__ import annotations

import gc

#: New objects before the collector looks through them, and rounds before it looks through those that outlived some.
_SPARED, _IN_SMALL_STEPS = (50_000, 20, 100), (50_000, 4, 20)


def spare() -> None:
    """Look through them seldom: a command makes much and soon ends."""
    gc.set_threshold(*_SPARED)


def settle() -> None:
    """Leave out what there is by now, and look through the rest in steps that nobody waits for: a preview goes on for long."""
    gc.freeze()
    gc.set_threshold(*_IN_SMALL_STEPS)
