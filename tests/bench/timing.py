"""Medians of repeated runs."""

from __future__ import annotations

import gc
import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter, process_time
from typing import NamedTuple

ROOT = Path(__file__).parents[2]


def of_calls(runs: int, *functions: Callable[[], object]) -> list[float]:
    """Median processor seconds of each function, run in turns so that a busy moment hits all alike."""
    return _in_turns(runs, functions, process_time)


def of_commands(runs: int, *commands: list[str]) -> list[float]:
    """Median seconds of each ``python ...`` command in a fresh process; a failing command ends the benchmark."""
    return _in_turns(
        runs, [lambda command=command: _run(command) for command in commands], perf_counter
    )


#: Starts a command from a small process, whose memory counts as the command's own until it has more.
_SMALL = """
import os, subprocess, sys
process = subprocess.Popen([sys.executable, *sys.argv[2:]])
_, status, used = os.wait4(process.pid, 0)
with open(sys.argv[1], "w") as told:
    print(used.ru_utime + used.ru_stime, used.ru_maxrss, file=told)
sys.exit(os.waitstatus_to_exitcode(status))
"""


class Used(NamedTuple):
    """What a command used: processor seconds (elapsed ones where the system does not tell), and its largest memory, megabytes."""

    seconds: float
    megabytes: float | None


def used(command: list[str]) -> Used:
    """Run ``python ...`` once in a process of its own; a failing command ends the benchmark."""
    if not hasattr(os, "wait4"):
        [seconds] = of_commands(1, command)
        return Used(seconds, None)
    with tempfile.TemporaryDirectory() as folder:
        told = Path(folder) / "used"
        _run(["-c", _SMALL, str(told), *command])
        seconds, memory = map(float, told.read_text(encoding="utf-8").split())
    in_kibibytes = 1 if sys.platform == "darwin" else 1024
    return Used(seconds, memory * in_kibibytes / 1e6)


def _in_turns(
    runs: int, functions: Callable[[], object] | list | tuple, clock: Callable[[], float]
) -> list[float]:
    seconds: list[list[float]] = [[] for _ in functions]
    for _ in range(runs):
        for times, function in zip(seconds, functions, strict=True):
            gc.collect()
            start = clock()
            function()
            times.append(clock() - start)
    return [median(times) for times in seconds]


def _run(command: list[str]) -> None:
    done = subprocess.run(
        [sys.executable, *command],
        cwd=ROOT,
        capture_output=True,
        text=True,
        stdin=subprocess.DEVNULL,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1"},
    )
    if done.returncode != 0:
        sys.exit(
            f"bench: python {' '.join(command)} ended with {done.returncode}:\n{done.stdout[-2000:]}{done.stderr[-2000:]}"
        )
