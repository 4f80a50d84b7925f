"""What a sample says of a pair when no spread of its own was printed, and how that weighs.

A number without a spread, a bound on p and a bare "no difference" each say something, and leaving out those that
found nothing would leave the answer to whatever came out significant. Each is a likelihood of the average log
ratio, with the standard error borrowed from studies of the same measure (``BorrowedSpread``), so that significant
and null reports enter alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from scipy.special import ndtr

from .nodes import BorrowedSpread, spread_nodes
from .posterior import Array, Density, Mixture, on_panels

#: Panels of a density that no mixture of normals gives; directions alone make it smooth.
_PANELS, _SMOOTH_PANELS = 24, 12
#: What is less likely than this counts as this: its logarithm stays finite.
_LEAST = 1e-200
#: How many standard deviations of its widest part a density is followed to either side.
_FAR = 9.0


@dataclass(frozen=True)
class PairReport:
    """One sample's report on a pair, ``y`` and ``sign`` of the first against the second."""

    study: str
    y: float | None
    """Log ratio as printed; ``None`` where only a direction is told."""
    sign: int | None
    """1 or -1: a test found the first ahead or behind; 0: a test found no difference; ``None``: nobody tested the two."""
    critical: float
    """Size of t that the test asked for."""
    spread: BorrowedSpread
    """What its standard error probably is."""
    mixed: bool = False
    """Whether ``sign`` is 0 because its own measurements were tested with different results."""

    def mirrored(self) -> PairReport:
        """The same from the other side."""
        return PairReport(
            self.study,
            None if self.y is None else -self.y,
            None if self.sign is None else -self.sign,
            self.critical,
            self.spread,
            self.mixed,
        )

    @property
    def widest(self) -> float | None:
        """The widest standard error that a number and a test that found it significant allow; ``None`` for anything else."""
        if self.y is None or not self.sign or self.sign * self.y <= 0:
            return None
        return abs(self.y) / self.critical

    @property
    def errors(self) -> Array:
        """Equally likely standard errors, as far as the number and its test allow them."""
        if self.y is None or self.sign is None:
            return self.spread.points()
        bound = abs(self.y) / self.critical
        if self.sign == 0:
            return self.spread.points(least=bound)
        # A number against its own test is not believed to bound anything.
        return self.spread.points(most=bound) if self.sign * self.y > 0 else self.spread.points()

    def log_likelihood(self, effect: Array, tau: Array) -> Array:
        """(effects, taus) logarithm of how likely the report is."""
        se = self.errors[:, None, None]
        total = np.sqrt(se**2 + tau[None, None, :] ** 2)
        d = effect[None, :, None]
        if self.y is not None:
            likely = np.exp(-(((self.y - d) / total) ** 2) / 2) / total
        elif self.sign:
            likely = ndtr((self.sign * d - self.critical * se) / total)
        else:
            far = self.critical * se
            likely = ndtr((far - d) / total) - ndtr((-far - d) / total)
        found: Array = np.log(np.maximum(likely.mean(axis=0), _LEAST))
        return found


def weigh(
    network: Mixture | None,
    tau: Array | None,
    reports: Sequence[PairReport],
    scale: float,
    effect: float,
) -> Mixture | Density:
    """The average log ratio of a pair, from a network's answer and from reports without a spread.

    Args:
        network: The pair's answer over the nodes ``tau``, or ``None`` when nothing with a spread connects the two.
        reports: At least one, if there is no network.
        scale: Of the half-normal prior on the spread between studies.
        effect: Scale of a normal prior on the log ratio, used only where nobody gives a number; else the prior is flat.
    """
    if network is None:
        return _of_reports(
            tuple(sorted((replace(r, study="") for r in reports), key=_order)), scale, effect
        )
    if not reports:
        return network
    assert tau is not None
    ordered = sorted(reports, key=_order)
    if len(ordered) == 1 and ordered[0].y is not None:
        return _mixture(network, tau, network.weights, ordered[0].y, ordered[0].errors)
    return _density(network, tau, network.weights, ordered, effect)


def _order(report: PairReport) -> tuple[object, ...]:
    """By everything, as a sum's last digit hangs on what comes first."""
    number, test = (report.y is None, report.y or 0.0), (report.sign is None, report.sign or 0)
    return report.study, number, test, report.critical, report.spread.middle, report.spread.factor


@lru_cache(maxsize=4096)
def _of_reports(reports: tuple[PairReport, ...], scale: float, effect: float) -> Mixture | Density:
    """Reports alone; several parts of one study often report alike."""
    assert reports  # or there would be nothing to weigh
    least = min(float(r.errors.min()) for r in reports)
    numbers = [r.y for r in reports if r.y is not None]
    far = max(numbers) - min(numbers) if numbers else 0.0
    # Directions alone are smooth in the spread between studies.
    growth = 4 if numbers else 8
    tau, weight = spread_nodes(scale, max(2 * least, scale / 8), far, growth)
    if len(reports) == 1 and reports[0].y is not None:
        return _mixture(None, tau, weight, reports[0].y, reports[0].errors)
    return _density(None, tau, weight, reports, effect)


def _mixture(
    network: Mixture | None, tau: Array, weight: Array, y: float, errors: Array
) -> Mixture:
    """Exact for one number: every spread between studies with every standard error."""
    variance = tau[:, None] ** 2 + errors**2
    if network is None:
        weights = np.broadcast_to(weight[:, None], variance.shape).ravel()
        return Mixture(weights / weights.sum(), np.full(weights.size, y), np.sqrt(variance).ravel())
    m, s2 = network.means[:, None], network.sds[:, None] ** 2
    both = s2 + variance
    logs = -((y - m) ** 2) / (2 * both) - np.log(both) / 2
    weights = (weight[:, None] * np.exp(logs - logs.max())).ravel()
    return Mixture(
        weights / weights.sum(),
        ((m * variance + y * s2) / both).ravel(),
        np.sqrt(s2 * variance / both).ravel(),
    )


def _density(
    network: Mixture | None,
    tau: Array,
    weight: Array,
    reports: Sequence[PairReport],
    effect: float,
) -> Density:
    numbers = [r.y for r in reports if r.y is not None]
    widest = float(
        np.sqrt(
            max(float(r.errors.max()) for r in reports) ** 2 + (4 * tau_scale(tau, weight)) ** 2
        )
    )
    if network is not None:
        centre, reach = [network.mean], _FAR * network.sd
    elif numbers:
        centre, reach = numbers, _FAR * widest
    else:
        centre, reach = [0.0], min(_FAR * effect, _FAR * (widest * 3 + effect / 4))
    panels = _PANELS if numbers else _SMOOTH_PANELS
    edges = np.linspace(min(centre) - reach, max(centre) + reach, panels + 1)

    def log_density(d: Array) -> Array:
        logs = np.zeros((len(d), len(tau)))
        for report in reports:
            logs += report.log_likelihood(d, tau)
        if network is not None:
            logs -= ((d[:, None] - network.means) / network.sds) ** 2 / 2 + np.log(network.sds)
        elif not numbers:
            logs -= ((d / effect) ** 2 / 2)[:, None]
        top = logs.max(axis=1)
        found: Array = top + np.log(np.exp(logs - top[:, None]) @ weight)
        return found

    return on_panels(edges, log_density)


def tau_scale(tau: Array, weight: Array) -> float:
    """Root mean square of the spread between studies over its nodes."""
    return float(np.sqrt(weight @ tau**2 / weight.sum()))
