"""The outside check values in ``tests/reference/statistics.yaml``, by entry.

Each test module that checks against them says which in ``COVERS``, a set of
entry ids at module level; ``test_statistics_coverage.py`` sees that none is left.
"""

from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import yaml

PATH = Path(__file__).parents[1] / "reference" / "statistics.yaml"

#: R and Python printed the full-precision values to 15 digits, which is well
#: below this; the file's own 1e-8 is wider than it need be.
REL = 1e-9
#: For values that should be zero.
ABS = 1e-14


@cache
def entries() -> dict[str, dict[str, Any]]:
    """Entry id -> entry."""
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    return {e["id"]: e for e in yaml.load(PATH.read_text(encoding="utf-8"), loader)["entries"]}  # noqa: S506 - a safe loader


def entry(entry_id: str) -> dict[str, Any]:
    """One entry: ``inputs``, ``expected``, ``tolerance``, ``source``, perhaps ``published``."""
    return entries()[entry_id]


def expect(entry_id: str, actual: Any, *path: Any, rel: float = REL, abs: float = ABS) -> None:
    """``actual`` is what the entry expects at ``path``; a caller that needs a wider tolerance says why beside it."""
    wanted = entry(entry_id)["expected"]
    for step in path:
        wanted = wanted[step]
    same(actual, wanted, f"{entry_id} {'.'.join(map(str, path))}", rel=rel, abs=abs)


def expect_published(entry_id: str, *actual: Any) -> None:
    """Each of ``actual``, in the order of the entry's ``published`` list, is what the source printed (None: not checked here)."""
    published = entry(entry_id)["published"]
    assert len(published) == len(actual), f"{entry_id} has {len(published)} published values"
    for item, value in zip(published, actual, strict=True):
        if value is not None:
            same(
                value,
                item["value"],
                f"{entry_id} {item['quantity']}",
                rel=0,
                abs=item["tolerance_abs"],
            )


def same(actual: Any, wanted: Any, what: str = "", rel: float = REL, abs: float = ABS) -> None:
    """Numbers, lists and tables of them agree; of a mapping, every key that ``actual`` has."""
    if isinstance(wanted, Mapping):
        assert actual, what
        for key, value in actual.items():
            same(value, wanted[key], f"{what}.{key}", rel, abs)
        return
    if isinstance(wanted, Sequence) and wanted and isinstance(wanted[0], Mapping):
        assert len(actual) == len(wanted), what
        for number, (a, w) in enumerate(zip(actual, wanted, strict=True)):
            same(a, w, f"{what}[{number}]", rel, abs)
        return
    np.testing.assert_allclose(
        np.asarray(actual, dtype=float),
        np.asarray(wanted, dtype=float),
        rtol=rel,
        atol=abs,
        err_msg=what,
    )
