"""One process that tries inputs: a line of JSON for each. It ends itself, telling where it stood, when one takes too long."""

from __future__ import annotations

import faulthandler
import json
import os
import resource
import signal
import sys
import time
from pathlib import Path
from random import Random

from .kinds import SHARES, Trials

#: Address space of a process, which no sound input comes near.
MEMORY = 3 << 30


def random_of(seed: int, number: int) -> Random:
    """The same numbers for the same run, whatever ran before."""
    return Random(f"{seed}/{number}")


def main() -> None:
    seed, first, last, step, seconds, rendered, kinds = json.loads(sys.argv[1])
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    out = os.fdopen(os.dup(1), "w", encoding="utf-8")
    sys.stdout = open(os.devnull, "w", encoding="utf-8")  # what is tried may print
    # Seconds of the processor count, which a busy or paused machine does not use up; one that only waits is ended far later.
    faulthandler.register(signal.SIGPROF, all_threads=False, chain=True)
    trials = Trials()
    for number in range(first, last, step):
        random = random_of(seed, number)
        kind = random.choices([*SHARES], [*SHARES.values()])[0]
        if kinds and kind not in kinds:
            kind = random.choice(kinds)
        deep = random.random() < rendered
        out.write(json.dumps({"number": number, "kind": kind}) + "\n")
        out.flush()
        # The shipped catalog is read, reckoned and rendered fifty times as long as the demo.
        most = seconds * (8 if kind == "shipped" else 1)
        signal.setitimer(signal.ITIMER_PROF, most)
        faulthandler.dump_traceback_later(60 * most, exit=True)
        given = trials.made(kind, random)
        _forget_peak()
        before, begun = _peak(), time.perf_counter()
        outcome = trials.tried(given, deep)
        took, more = time.perf_counter() - begun, _peak() - before
        signal.setitimer(signal.ITIMER_PROF, 0)
        faulthandler.cancel_dump_traceback_later()
        told = {"number": number, "took": took, "memory": more, "outcome": outcome}
        if not outcome.is_sound:
            told |= given.as_data()
        out.write(json.dumps(told) + "\n")
        out.flush()


def _forget_peak() -> None:
    try:
        Path("/proc/self/clear_refs").write_text("5")
    except OSError:  # not Linux: the peak then only grows
        pass


def _peak() -> int:
    """Largest memory so far, bytes."""
    try:
        status = Path("/proc/self/status").read_text(encoding="ascii")
        return int(status.split("VmHWM:")[1].split()[0]) << 10
    except OSError:
        return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss << 10


if __name__ == "__main__":
    main()
