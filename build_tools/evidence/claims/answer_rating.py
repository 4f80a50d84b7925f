"""What the rules of certainty are asked of an answer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from typing import Literal

from ...catalog.entries import Study
from ...catalog.load import Catalog
from ..certainty.appraisal import risk_of
from ..certainty.body import EvidenceBody, RatedSample
from ..certainty.rating import Certainty, Override, certainty
from ..model.reports import PairReport
from ..settings import Settings
from ..studies.arm_means import compared
from ..studies.study_index import sample_names
from ..terms import Measured, Question
from .conclusions import Row
from .sample_rows import clear_side
from .weighing import Weighing


class AnswerRating:
    """Rates the answers of one catalog under one set of conventions."""

    def __init__(self, catalog: Catalog, settings: Settings) -> None:
        self._catalog, self._settings = catalog, settings
        # An indirect answer rests on many samples, and so does the next one.
        self._rated = cache(self._rate)
        self._sample_of = sample_names({key: entry.data for key, entry in catalog.studies.items()})

    def certainty(
        self,
        question: Question,
        counted: list[Row],
        weighing: Weighing,
        tried: Sequence[tuple[str, Weighing]],
        override: Override | None,
    ) -> Certainty:
        connected = weighing.connected
        if connected and connected.path != "direct":
            rated = [
                self._rated(key, question.outcome, weighing.measured) for key in connected.studies
            ]
            rated += [
                self._seen(row, question, weighing)
                for row in counted
                if row.study not in connected.studies
            ]
        else:
            rated = [self._seen(row, question, weighing) for row in counted]
        findings = [weighing.finding, *(found.finding for _, found in tried)]
        body = EvidenceBody(
            outcome=question.outcome,
            samples=tuple(rated),
            margin=self._settings.margins[question.outcome],
            large=self._settings.large[question.outcome],
            usual=self._settings.effects[question.outcome],
            estimate=weighing.weighed.estimate if weighing.sized else None,
            known=weighing.known.estimate if weighing.known else None,
            side=1 if weighing.posterior.mean >= 0 else -1,
            heterogeneity_p=connected.heterogeneity_p if connected else None,
            spread=connected.spread if connected else None,
            direct_share=connected.direct_share if connected else 1.0,
            incoherence=connected.incoherence if connected else None,
            findings=tuple(findings),
        )
        return certainty(body, override)

    def _seen(self, row: Row, question: Question, weighing: Weighing) -> RatedSample:
        """A sample with what its row shows of this very pair."""
        report = weighing.reports.get(self._sample_of[row.study])
        return replace(
            self._rated(row.study, question.outcome, weighing.measured),
            n=row.people,
            differs=row.differs,
            clear=clear_side(row),
            spread=_spread_known(report),
        )

    def _rate(self, key: str, outcome: str, measured: Measured) -> RatedSample:
        """A sample as far as no pair is asked about: all of its exercises count."""
        study: Study = self._catalog.studies[key].data
        reference = self._catalog.references.get(key)
        return RatedSample(
            study=key,
            design=study.design,
            allocation=study.allocation or "not stated",
            n=compared(study),
            outcome=outcome,
            measured_as=measured,
            read=reference.read if reference else "memory",  # type: ignore[arg-type]
            risk_of_bias=risk_of(self._catalog, key),
            differs=any(arm.differs for arm in study.arms.values() if arm.treatment),
        )


def _spread_known(
    report: PairReport | None,
) -> Literal["printed", "bounded", "significant", "unknown"]:
    """How far a sample's own spread is known."""
    if report is None:
        return "printed"
    if report.widest is not None:
        return "bounded"
    return "significant" if report.sign else "unknown"
