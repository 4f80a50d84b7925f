"""Makes a folder once for all processes that run the tests of one run (pytest-xdist, "Making session-scoped fixtures execute only once")."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from pathlib import Path

import pytest

#: Far more than any build takes: who waits for a process that was killed says so in the end.
PATIENCE = 300.0


def made_once(base: Path, name: str, make: Callable[[Path], Path]) -> Path:
    """What ``make`` answers for a new folder ``name`` in ``base``, made by whichever process asks first; the others wait for it.

    What the maker could not make fails every process with its reason.
    """
    folder, made, failed = base / name, base / f"{name}.made", base / f"{name}.failed"
    try:
        folder.mkdir()
    except FileExistsError:
        _wait_for(made, failed)
    else:
        try:
            _tell(made, str(make(folder)))
        except BaseException as error:
            _tell(failed, f"{type(error).__name__}: {error}")
            raise
    if failed.exists():
        pytest.fail(f"{name} could not be made: {failed.read_text(encoding='utf-8')}")
    return Path(made.read_text(encoding="utf-8"))


def shared_base(factory: pytest.TempPathFactory) -> Path:
    """The temporary folder of this run that all its processes share."""
    own = factory.getbasetemp()
    return own.parent if "PYTEST_XDIST_WORKER" in os.environ else own


def _wait_for(*outcomes: Path) -> None:
    until = time.monotonic() + PATIENCE
    while not any(path.exists() for path in outcomes):
        if time.monotonic() > until:
            pytest.fail(f"nobody finished {outcomes[0].stem} in {PATIENCE:g} seconds")
        time.sleep(0.05)


def _tell(outcome: Path, text: str) -> None:
    """Whole at once, since others read it as soon as it is there."""
    draft = outcome.with_suffix(".draft")
    draft.write_text(text, encoding="utf-8")
    draft.replace(outcome)
