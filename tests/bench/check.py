"""The check against bare YAML parsing of the same files, and how it starts."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import yaml

from build_tools import collector
from build_tools.catalog.load import load
from build_tools.checks.profile import load_profile
from build_tools.checks.runner import run

from . import timing

#: Starting the command without doing anything, and an interpreter that does nothing.
IMPORT, BARE = ["-c", "import build_tools.commands.check"], ["-c", "pass"]


def parse(catalog: Path) -> None:
    """Read every YAML file of the catalog with PyYAML's C loader and nothing else."""
    for path in sorted(catalog.rglob("*.yaml")):
        yaml.load(path.read_bytes(), yaml.CSafeLoader)


def check(catalog: Path) -> list:
    """Everything that ``handbook check`` does, without starting Python."""
    return run(load(catalog), date(2026, 11, 25), load_profile())


def against_parsing(catalog: Path, runs: int) -> tuple[float, float]:
    """Median processor seconds of parsing and of checking, in one process that collects garbage as the command does."""
    collector.spare()
    parsing, checking = timing.of_calls(runs, lambda: parse(catalog), lambda: check(catalog))
    return parsing, checking


def start(runs: int) -> tuple[float, float]:
    """Median seconds of a bare interpreter, and of one that imports the check."""
    bare, importing = timing.of_commands(runs, BARE, IMPORT)
    return bare, importing
