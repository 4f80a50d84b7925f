"""Pooling studies of one contrast: random effects, with an interval honest about few studies.

The choices for one contrast:
tau² by REML (PM should REML find no maximum); the interval of Hartung & Knapp
(2001) and Sidik & Jonkman (2002) with t on k-1 df, its factor q never below 1
(Röver, Knapp & Friede 2015, doi:10.1186/s12874-015-0091-1; of it, only the
abstract was seen); the prediction interval from the same standard error and the
same t (``pi_t_k_minus_1`` in ``tests/reference/statistics.yaml``; IntHout et al.
2016). Papers without a DOI here are cited from memory.

``y`` and ``v`` are as in ``heterogeneity``.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import special

from build_tools.evidence.errors import EvidenceError

from .heterogeneity import Method, heterogeneity, tail_of, tau2, tau2_interval
from .weighting import Numbers, residuals, scaled

HKSJ = "HKSJ, q at least 1"
T_OF_ONE = "t of one study"
Z_OF_ONE = "z of one study"


@dataclass(frozen=True)
class Mean:
    """An inverse-variance weighted mean."""

    estimate: float
    se: float
    """1/sqrt(sum w), right when tau² is known."""
    q: float
    """The HKSJ factor sum w (y - estimate)²/(k-1), by which se² is multiplied; 1 for one study."""


@dataclass(frozen=True)
class Pooled:
    """What k studies of one contrast say together, in y's unit. What one study cannot say is ``None``."""

    estimate: float
    se: float
    """The standard error behind ``low`` and ``high``: for two studies or more, HKSJ's."""
    low: float
    high: float
    k: int
    interval: str
    """How ``low`` and ``high`` were had."""
    df: float | None
    """Degrees of freedom of the interval; ``None``: normal."""
    method: Method | None = None
    """Estimator of tau²."""
    tau2: float | None = None
    tau2_low: float | None = None
    tau2_high: float | None = None
    """With ``tau2_low``, the Q-profile interval."""
    q: float | None = None
    """Cochran's Q, with k-1 df."""
    q_p: float | None = None
    i2: float | None = None
    """Percent, read off Q (Higgins & Thompson)."""
    prediction_low: float | None = None
    prediction_high: float | None = None
    """With ``prediction_low``, where the true effect of a new study would be expected."""
    notes: tuple[str, ...] = ()


def inverse_variance(y: Numbers, v: Numbers, tau2: float = 0.0) -> Mean:
    """Mean of y with weights 1/(v + tau²); with tau² = 0, the common-effect mean."""
    s = scaled(y, v)
    w = s.weights(tau2)
    mean, left = residuals(s.y, w[None])
    q = float((w * left[0] ** 2).sum()) / (w.size - 1) if w.size > 1 else 1.0
    return Mean(float(mean[0]) * s.unit + s.centre, s.unit / math.sqrt(w.sum()), q)


def interval(
    estimate: float, se: float, df: float | None = None, level: float = 0.95
) -> tuple[float, float]:
    """Two-sided interval by t with ``df`` degrees of freedom, or by the normal when ``None``."""
    reach = se * _critical(df, level)
    return estimate - reach, estimate + reach


def prediction_interval(
    estimate: float, se: float, tau2: float, df: float | None, level: float = 0.95
) -> tuple[float, float]:
    """Interval for the true effect of a new study: estimate ± t_df sqrt(tau² + se²).

    Three definitions are in use, all of this form: the HKSJ se with k-1 df (ours),
    the plain se with k-2 df (Higgins, Thompson & Spiegelhalter 2009), and the plain
    se with the normal (``df=None``).
    """
    return interval(estimate, math.hypot(math.sqrt(tau2), se), df, level)


def pool(
    y: Numbers, v: Numbers, *, method: Method = "REML", df: float | None = None, level: float = 0.95
) -> Pooled:
    """Pool k studies by random effects.

    One study is passed through: its interval by t with its own ``df`` (used for
    nothing else), or by the normal when that is not known; no tau², no prediction.
    Raises ``EvidenceError`` as ``weighting.scaled`` does and for an impossible
    method, df or level.
    """
    k = len(y)
    if k == 1:
        only = inverse_variance(y, v)
        low, high = interval(only.estimate, only.se, df, level)
        return Pooled(
            only.estimate, only.se, low, high, k, Z_OF_ONE if df is None else T_OF_ONE, df
        )
    between = tau2(y, v, method)
    mean = inverse_variance(y, v, between.value)
    se = mean.se * math.sqrt(max(1.0, mean.q))
    low, high = interval(mean.estimate, se, k - 1, level)
    tau2_low, tau2_high = tau2_interval(y, v, level)
    spread = heterogeneity(y, v, between.value)
    prediction_low, prediction_high = prediction_interval(
        mean.estimate, se, between.value, k - 1, level
    )
    notes = [between.note] if between.note else []
    if k == 2:
        notes.append(
            f"two studies: the interval reaches {_critical(1, level):.1f} standard errors either way"
        )
    return Pooled(
        estimate=mean.estimate,
        se=se,
        low=low,
        high=high,
        k=k,
        interval=HKSJ,
        df=k - 1,
        method=between.method,
        tau2=between.value,
        tau2_low=tau2_low,
        tau2_high=tau2_high,
        q=spread.q,
        q_p=spread.p,
        i2=spread.i2,
        prediction_low=prediction_low,
        prediction_high=prediction_high,
        notes=tuple(notes),
    )


def leave_one_out(
    y: Numbers,
    v: Numbers,
    *,
    method: Method = "REML",
    dfs: Sequence[float | None] | None = None,
    level: float = 0.95,
) -> list[Pooled]:
    """The pooled result without each study in turn, in the studies' order; empty for one study.

    ``dfs`` are the studies' own degrees of freedom, used when only one study remains.
    """
    y, v = np.asarray(y, dtype=float), np.asarray(v, dtype=float)
    k = scaled(y, v).y.size
    if k == 1:
        return []
    left = [dfs[1 - i] if dfs is not None and k == 2 else None for i in range(k)]
    return [
        pool(np.delete(y, i), np.delete(v, i), method=method, df=left[i], level=level)
        for i in range(k)
    ]


def _critical(df: float | None, level: float) -> float:
    """How many standard errors a two-sided interval reaches."""
    if df is not None and not df > 0:
        raise EvidenceError(f"degrees of freedom must be above 0, not {df}")
    tail = 1 - tail_of(level)
    return float(special.ndtri(tail) if df is None else special.stdtrit(df, tail))
