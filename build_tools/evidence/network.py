"""Network meta-analysis by generalised least squares on contrast blocks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Block:
    """What one sample of people says about two or more treatments, on the log ratio scale."""

    study: str
    """Reference key (the first, when several publications share the sample)."""
    treatments: tuple[str, ...]
    """k distinct ids; the first is the block's baseline."""
    y: np.ndarray
    """(k-1,) log ratio of ``treatments[1:]`` against ``treatments[0]``."""
    v: np.ndarray
    """(k-1, k-1) covariance of ``y``."""
