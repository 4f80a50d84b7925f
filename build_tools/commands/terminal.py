"""What the terminal allows: colours, and a progress line that leaves no trace."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TextIO

from build_tools.catalog.invocation import CATALOG, typed


def has_colours(stream: TextIO) -> bool:
    """Whether ``stream`` is a terminal that shows colours and nobody asked for none (https://no-color.org)."""
    return _steerable(stream) and not os.environ.get("NO_COLOR")


def say(text: str, catalog: str = CATALOG) -> None:
    """Tell it beside the output; commands are named as they are typed here, for the catalog in that folder."""
    print(typed(text, catalog), file=sys.stderr)


@contextmanager
def progress() -> Iterator[Callable[[str], None]]:
    """A function that shows what goes on, on the last line of the terminal; silent anywhere else."""
    if not _steerable(sys.stderr):
        yield lambda text: None
        return

    def tell(text: str) -> None:
        sys.stderr.write(f"\r\x1b[K{text} ...")
        sys.stderr.flush()

    try:
        yield tell
    finally:
        sys.stderr.write("\r\x1b[K")
        sys.stderr.flush()


def _steerable(stream: TextIO) -> bool:
    return (
        stream.isatty() and os.environ.get("TERM", "dumb" if os.name == "posix" else "") != "dumb"
    )
