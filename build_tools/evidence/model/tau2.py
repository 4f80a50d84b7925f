"""tau², the variance between studies that a whole network shares, from its independent rows.

DerSimonian & Laird's moments generalised to any design matrix, and restricted
maximum likelihood (REML). ``rows.x`` must have full column rank.
"""

from __future__ import annotations

import numpy as np

from .root import bracketed_root
from .rows import Rows, project

#: Where REML looks for maxima besides zero, as the likelihood may have several: so many points over so many orders of magnitude.
GRID, DECADES = 16, 6
DOUBLINGS = 60


def moments(rows: Rows) -> float:
    """Generalised DerSimonian–Laird: the tau² at which Q at tau² = 0 has its expectation, cut at 0; 0 when no residual is left."""
    at_zero = project(rows, 0.0)
    spare = at_zero.q.shape[0] - at_zero.q.shape[1]
    slope = float(at_zero.weight @ (1 - (at_zero.q**2).sum(axis=1))) if spare > 0 else 0.0
    return max(0.0, (at_zero.sum_of_squares - spare) / slope) if slope > 0 else 0.0


def restricted(rows: Rows) -> float | None:
    """REML: of 0 and all values where the score turns from rising to falling, the most likely.

    ``None`` when there is no such value, or when it cannot be found.
    """
    ordinary = np.linalg.lstsq(rows.x, rows.y, rcond=None)[0]
    residual = rows.y - rows.x @ ordinary
    top = max(
        float(residual @ residual) / (rows.x.shape[0] - rows.x.shape[1]), float(rows.spread.max())
    )
    for _ in range(DOUBLINGS):
        if _score(rows, top) < 0:
            break
        top *= 2
    grid = [0.0, *np.geomspace(top * 10.0**-DECADES, top, GRID).tolist()]
    scores = [_score(rows, tau2) for tau2 in grid]
    maxima = [0.0] if scores[0] <= 0 else []
    for low, high, rising, falling in zip(grid, grid[1:], scores, scores[1:], strict=False):
        if rising > 0 >= falling:
            found = bracketed_root(lambda tau2: _score(rows, tau2), low, high)
            if found is None:
                return None
            maxima.append(found)
    return max(maxima, key=lambda tau2: _likelihood(rows, tau2), default=None)


def _score(rows: Rows, tau2: float) -> float:
    """Twice the derivative of the restricted log likelihood."""
    p = project(rows, tau2)
    return float(p.weight @ (p.residual**2 - 1 + (p.q**2).sum(axis=1)))


def _likelihood(rows: Rows, tau2: float) -> float:
    """Twice the restricted log likelihood, up to a constant."""
    p = project(rows, tau2)
    return float(np.log(p.weight).sum() - 2 * np.log(np.abs(np.diag(p.r))).sum()) - p.sum_of_squares
