"""What studies, the model and common teaching say of two exercises and one part: every pair once, told from the side that is ahead.

The verdict is that of ``evidence.verdict``: an exercise is ahead where "more" is shown or leaning. Nothing is weighed anew here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

from ..catalog.load import Catalog
from ..evidence.claims.conclusions import Comparison, Conclusion, Conclusions
from ..evidence.claims.engine import Engine
from ..evidence.claims.length_claims import NO_GROWTH
from ..evidence.claims.verdict import Verdict, verdict
from ..evidence.settings import settings
from ..evidence.treatments import is_version
from ..evidence.wording.sentences import taught

Kind = Literal["growth", "activation", "length", "taught", "none", "strength"]
#: Kinds of reason, in the order in which they count. Growth and activation are never mixed.
KINDS: tuple[Kind, ...] = ("growth", "activation", "length", "taught", "none")
#: Outcomes that pages of exercises tell of; architecture is listed on muscle pages only.
OUTCOMES = ("growth", "activation", "strength")


@dataclass(frozen=True)
class Preference:
    """One pair of exercises, one part, one kind of evidence."""

    kind: Kind
    """Growth, activation or strength as studied; length by the model; taught where nothing tests it."""
    outcome: str
    part: str
    """A part, or a whole muscle where it was measured or taught so."""
    first: str
    second: str
    ahead: str | None
    """The exercise that came out ahead: always ``first``, or None."""
    sentence: str
    verdict: Verdict | None
    """On ``first`` being ahead; None where studies put neither ahead, which the sentence tells."""
    certainty: str | None
    address: str
    ratio: tuple[float, float, float] | None = None
    """Estimate with its 95 % interval, first to second."""
    studies: int = 0
    people: int = 0


def statements(catalog: Catalog, conclusions: Conclusions) -> list[Preference]:
    """All statements in a fixed order; pairs that a claim asks of come with the claim's address and, if authored, its certainty."""
    source = _Source(catalog, conclusions)
    found: dict[tuple[str, str, str, frozenset[str]], Preference] = {}
    for statement in [*source.claimed(), *source.compared()]:
        pair = frozenset((statement.first, statement.second))
        found.setdefault((statement.kind, statement.outcome, statement.part, pair), statement)
    return [found[key] for key in sorted(found, key=lambda k: (k[:3], sorted(k[3])))]


class _Source:
    """Statements as claims and fields hold them."""

    def __init__(self, catalog: Catalog, conclusions: Conclusions) -> None:
        self._catalog, self._conclusions = catalog, conclusions
        self._settings = settings(catalog)

    @cached_property
    def _engine(self) -> Engine:
        """Only to tell a comparison from its other side."""
        return Engine(self._catalog, self._settings)

    def claimed(self) -> Iterator[Preference]:
        """One for each part of each claim that contrasts two exercises."""
        for conclusion in (c for list in self._conclusions.claims.values() for c in list):
            address = f"exercises/{conclusion.exercise}/#claim-{conclusion.index + 1}"
            for comparison in conclusion.comparisons:
                asked = comparison.question
                if asked.within or asked.relative_to or asked.first not in self._catalog.exercises:
                    continue
                if asked.outcome == "length":
                    if comparison.shape != "untested":
                        yield self._modelled(conclusion, comparison, address)
                elif comparison.sentence:
                    yield from self._studied(comparison, address)
                elif conclusion.basis == "common practice":
                    yield self._taught(conclusion, comparison, address)

    def compared(self) -> Iterator[Preference]:
        """One for each pair that studies compare or connect."""
        for field in self._conclusions.fields.values():
            if field.relative_to is None and field.outcome in OUTCOMES:
                for comparison in field.comparisons:
                    # A version of an exercise says nothing of the exercise as such.
                    versions = is_version(comparison.question.first) or is_version(
                        comparison.question.second
                    )
                    if comparison.sentence and not versions:
                        yield from self._studied(
                            comparison, f"muscles/{field.part.partition('/')[0]}/"
                        )

    def _studied(self, comparison: Comparison, address: str) -> Iterator[Preference]:
        asked, margin = comparison.question, self._settings.margins[comparison.question.outcome]
        tested = comparison.shape != "read off"
        ahead, behind = (
            verdict(way, comparison.estimate, comparison.directions, margin).verdict
            for way in ("more", "less")
        )
        if tested and behind in ("shown", "leaning"):
            turned = self._engine.comparison(replace(asked, first=asked.second, second=asked.first))
            yield from self._studied(replace(turned, certainty=comparison.certainty), address)
            return
        leads = tested and ahead in ("shown", "leaning")
        estimate, rated = comparison.estimate, comparison.certainty
        yield Preference(
            asked.outcome,  # type: ignore[arg-type]
            asked.outcome,
            asked.part,
            asked.first,
            asked.second,
            asked.first if leads else None,
            comparison.sentence,
            ahead if leads else None if tested else "untested",
            rated.level if rated else None,
            address,
            (estimate.ratio, estimate.low, estimate.high)
            if estimate and not estimate.bounded
            else None,
            comparison.studies,
            comparison.people,
        )

    def _modelled(self, conclusion: Conclusion, comparison: Comparison, address: str) -> Preference:
        asked = comparison.question
        first, second = (
            (asked.first, asked.second)
            if comparison.shape != "less"
            else (asked.second, asked.first)
        )
        return Preference(
            "length",
            "length",
            asked.part,
            first,
            second,
            first if comparison.shape != "alike" else None,
            conclusion.sentence
            if NO_GROWTH in conclusion.sentence
            else f"{conclusion.sentence} {NO_GROWTH}",
            "shown" if comparison.shape != "alike" else None,
            None,
            address,
        )

    def _taught(self, conclusion: Conclusion, comparison: Comparison, address: str) -> Preference:
        claim = self._catalog.exercises[conclusion.exercise].data.emphasis[conclusion.index]
        asked, way = comparison.question, claim.direction
        if way == "less_than":
            asked = replace(asked, first=asked.second, second=asked.first)
        sentence = taught(
            self._conclusions.names,
            asked,
            (asked.part,),
            "alike" if way == "similar_to" else "more",
            True,
        )
        return Preference(
            "taught",
            asked.outcome,
            asked.part,
            asked.first,
            asked.second,
            None if way == "similar_to" else asked.first,
            sentence,
            "untested",
            None,
            address,
        )
