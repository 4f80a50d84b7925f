"""How one question is weighed: which measurements answer it, what they say together, and what one more study would do."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import log

import numpy as np

from ..model.blocks import Block
from ..model.change import Outlook, OutlookBasis, outlook
from ..model.finding import Weighed
from ..model.network import Network
from ..model.posterior import Mixture, Posterior
from ..model.reports import PairReport, weigh
from ..settings import Settings
from ..studies.samples import PooledTopic
from ..terms import EvidenceFinding, Measured, Question, Side
from .component import Connected


@dataclass(frozen=True)
class Weighing:
    """A question's answer in numbers, with all that went into it."""

    topic: PooledTopic
    """What was measured, and which samples therefore count."""
    weighed: Weighed
    connected: Connected | None
    """What samples with a spread of their own say; ``None`` when they do not connect the two."""
    known: Weighed | None
    """The answer from those alone; where there are none, from numbers with a bound on p at these bounds, the widest they can be."""
    reports: Mapping[str, PairReport]
    """Sample -> its report without a spread."""
    basis: OutlookBasis
    """The answer as a normal distribution, with what one more study of it would be like."""
    samples: int
    """Behind it."""
    people: int
    """Of an average one of them."""

    @cached_property
    def outlook(self) -> Outlook:
        """What one more study would change."""
        return outlook(self.basis, self.people, self.weighed.classified)

    def mirrored(self) -> Weighing:
        """The same question asked from the other side."""
        connected = self.connected
        return replace(
            self,
            weighed=self.weighed.mirrored(),
            connected=connected.mirrored() if connected else None,
            known=self.known.mirrored() if self.known else None,
            reports={key: report.mirrored() for key, report in self.reports.items()},
            basis=replace(self.basis, mean=-self.basis.mean),
        )

    @property
    def posterior(self) -> Posterior:
        """Where the log ratio probably lies."""
        return self.weighed.posterior

    @cached_property
    def finding(self) -> EvidenceFinding:
        """Never ``found`` for a part that was not measured by itself, or where nobody tested the two."""
        found = self.weighed.finding
        tested = self.connected or any(r.sign is not None for r in self.reports.values())
        return "hinted" if found == "found" and (self.measured != "part" or not tested) else found

    @property
    def side(self) -> Side | None:
        """Which side is ahead, or leans ahead."""
        return self.weighed.side

    @property
    def measured(self) -> Measured:
        """What was measured for the part asked for."""
        return self.topic.measured

    @property
    def sized(self) -> bool:
        """Whether any number says how much."""
        return self.connected is not None or any(r.y is not None for r in self.reports.values())

    @property
    def has_interval(self) -> bool:
        """Whether there is an interval to tell: numbers, or at least a null, which leaves only so much open."""
        return self.sized or all(
            report.sign == 0 and not report.mixed for report in self.reports.values()
        )

    @property
    def borrowed(self) -> bool:
        """Whether no spread behind it was printed."""
        return self.connected is None


def weigh_question(
    question: Question,
    topic: PooledTopic,
    connected: Connected | None,
    reports: Mapping[str, PairReport],
    settings: Settings,
    samples: int,
    people: int,
) -> Weighing:
    """Weigh what bears on a question; ``samples`` stand behind it, of ``people`` each on average."""
    scale, effect = settings.spreads[question.outcome], settings.effects[question.outcome]
    margin = settings.margins[question.outcome]
    posterior = weigh(
        connected.posterior if connected else None,
        connected.tau if connected else None,
        list(reports.values()),
        scale,
        effect,
    )
    weighed = Weighed(posterior, margin)
    known = weighed if connected else None
    if connected and reports:
        known = Weighed(connected.posterior, margin)
    elif widest := _at_bounds(list(reports.values()), scale):
        known = Weighed(widest, margin)
    spread = connected.spread if connected else scale
    return Weighing(
        topic,
        weighed,
        connected,
        known,
        reports,
        _outlook_basis(posterior, spread, list(reports.values()), margin, samples, people),
        samples,
        people,
    )


def _at_bounds(reports: Sequence[PairReport], scale: float) -> Mixture | None:
    """The widest answer that numbers found significant allow, each at its own bound; ``None`` where there is none."""
    blocks = [
        Block(report.study, ("second", "first"), np.array([report.y]), np.array([[se**2]]))
        for report in reports
        if (se := report.widest) is not None
    ]
    return Network(blocks, scale).posterior("first", "second") if blocks else None


def _outlook_basis(
    posterior: Posterior,
    spread: float,
    reports: Sequence[PairReport],
    margin: float,
    samples: int,
    people: int,
) -> OutlookBasis:
    """One more study is taken to be as precise for its people as those there are."""
    sd = posterior.sd
    # What sampling leaves of one sample's variance when the spread between studies is taken out of it.
    each = samples * sd**2
    sampling = max(each - spread**2, each / 10)
    unit = min([sampling**0.5, *(report.spread.middle for report in reports)]) * people**0.5
    return OutlookBasis(posterior.mean, sd, spread, unit, log(margin))
