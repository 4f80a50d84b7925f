"""The same catalog gives the same bytes: on every supported Python, and however many threads the linear algebra uses.

``HANDBOOK_PYTHONS`` names further interpreters that have the handbook's packages, separated as in ``PATH``; without it the
running one is tried with one and with two threads.
"""

from __future__ import annotations

import os
import subprocess
import sys

import pytest
from folders import DEMO, ROOT, SHIPPED

PROGRAM = """
import hashlib, sys
from pathlib import Path
from build_tools.catalog.load import load
from build_tools.committed import files
from build_tools.evidence.claims.conclude import conclude
from build_tools.movement.length.length import MeanLengths
catalog = load(Path(sys.argv[1]), "catalog")
texts = files.files(conclude(catalog, MeanLengths(catalog)), catalog)
print(hashlib.sha256(repr(sorted(texts.items())).encode()).hexdigest())
"""


def concluded(python: str, catalog: str, threads: int) -> str:
    done = subprocess.run(
        [python, "-c", PROGRAM, catalog],
        capture_output=True,
        text=True,
        check=True,
        timeout=600,
        cwd=ROOT,
        env={
            **os.environ,
            "PYTHONPATH": str(ROOT),
            "OPENBLAS_NUM_THREADS": str(threads),
            "PYTHONHASHSEED": str(threads),
        },
    )
    return done.stdout


@pytest.mark.parametrize("catalog", [DEMO, SHIPPED], ids=["demo", "shipped"])
def test_the_same_bytes_everywhere(catalog):
    others = [
        python for python in os.environ.get("HANDBOOK_PYTHONS", "").split(os.pathsep) if python
    ]
    seen = {
        concluded(python, str(catalog), threads)
        for python in (sys.executable, *others)
        for threads in (1, 2)
    }
    assert len(seen) == 1
