"""How a command is typed by whoever reads a message.

Messages, manuals and help name a command in one form, `` `handbook conclude` `` or `` `mkdocs serve` ``, the same on every machine.
``typed`` puts in its place what works there when it is typed: the target of make where a Makefile has one, else the name alone where
it is found, else the path of the program, else Python with the module. Formats for machines keep the one form.
"""

from __future__ import annotations

import os
import re
import shutil
import sys
from functools import cache
from pathlib import Path

#: Program -> the module that is the same.
PROGRAMS = {"handbook": "build_tools.cli", "mkdocs": "mkdocs"}
#: A Makefile lists in it which subcommands are targets of its own.
TARGETS = "HANDBOOK_TARGETS"
#: Where the catalog is when nothing is said.
CATALOG = "catalog"
#: Subcommands that read a catalog, and so must be told of one that stands elsewhere.
_READ_CATALOG = (
    "addresses",
    "check",
    "cite",
    "conclude",
    "diff",
    "explain",
    "new",
    "schema",
    "write",
)
_NAMED = re.compile(rf"`({'|'.join(PROGRAMS)})\s+([a-z][a-z-]*)((?: [^`\n]+)?)`")


def typed(text: str, catalog: str = CATALOG) -> str:
    """``text`` with each command as it is typed here, for the catalog that stands in the folder ``catalog``."""
    return _NAMED.sub(lambda named: f"`{_typed(named, catalog)}`", text)


def _typed(named: re.Match[str], catalog: str) -> str:
    program, command, options = named[1], named[2], named[3].strip()
    if program == "handbook" and command in _READ_CATALOG and catalog != CATALOG:
        options = f"{options} --catalog {_quoted(catalog)}".strip()
    if command in os.environ.get(TARGETS, "").split():
        # make's quotes are doubled ones, so a path in them stands in single ones.
        inner = options.replace('"', "'")
        return f"make {command}" + (f' ARGS="{inner}"' if inner else "")
    return " ".join(filter(None, (called(program), command, options)))


@cache
def called(program: str) -> str:
    """How one of ``PROGRAMS`` is called from where the person stands."""
    here = [Path(sys.executable).parent, Path(sys.argv[0]).parent]
    found = shutil.which(program)
    # Another program of that name, of another environment, is not the one that speaks.
    if found and Path(found).resolve().parent in {folder.resolve() for folder in here}:
        return program
    beside = here[0] / (f"{program}.exe" if os.name == "nt" else program)
    if beside.is_file():
        return _quoted(_shown(beside))
    return f"{_quoted(_shown(Path(sys.executable)))} -m {PROGRAMS[program]}"


def _shown(path: Path) -> str:
    """The path from here where it lies below, else the whole path."""
    try:
        return str(path.relative_to(Path.cwd()))
    except ValueError:
        return str(path)


def _quoted(word: str) -> str:
    """``word`` as one argument of a shell, on Windows too."""
    return f'"{word}"' if re.search(r"\s", word) else word
