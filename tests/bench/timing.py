"""Medians of repeated runs."""

from __future__ import annotations

import gc
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter

ROOT = Path(__file__).parents[2]


def of_calls(runs: int, *functions: Callable[[], object]) -> list[float]:
    """Median seconds of each function, run in turns so that a busy moment hits all alike."""
    return _in_turns(runs, functions)


def of_commands(runs: int, *commands: list[str]) -> list[float]:
    """Median seconds of each ``python ...`` command in a fresh process; a failing command ends the benchmark."""
    return _in_turns(runs, [lambda command=command: _run(command) for command in commands])


def _in_turns(runs: int, functions: Callable[[], object] | list | tuple) -> list[float]:
    seconds: list[list[float]] = [[] for _ in functions]
    for _ in range(runs):
        for times, function in zip(seconds, functions, strict=True):
            gc.collect()
            start = perf_counter()
            function()
            times.append(perf_counter() - start)
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
