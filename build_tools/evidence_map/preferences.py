"""What studies, the model and common teaching say of two exercises and one part: every pair once, told from the side that is ahead.

An exercise is ahead where a difference is found or hinted and the side says so. Nothing is weighed anew here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from ..catalog.load import Catalog
from ..evidence.claims.conclusions import Comparison, Conclusion, Conclusions
from ..evidence.claims.length_claims import NO_GROWTH
from ..evidence.terms import EvidenceFinding, Measured, Question
from ..evidence.treatments import is_version, pair_anchor
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
    finding: EvidenceFinding
    certainty: str | None
    address: str
    measured: Measured = "part"
    """What was measured for ``part``: itself, together with others, or only its whole muscle."""
    studies: int = 0
    people: int = 0


def claim_address(conclusion: Conclusion) -> str:
    """Where a claim stands, from the top of the site."""
    return f"exercises/{conclusion.exercise}/#claim-{conclusion.index + 1}"


def pair_address(part: str, asked: Question) -> str:
    """Where a pair of exercises stands, from the top of the site: on the page of its part, or of its whole muscle."""
    return f"muscles/{part}/#{pair_anchor(asked.outcome, asked.first, asked.second)}"


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

    def claimed(self) -> Iterator[Preference]:
        """One for each part of each claim that contrasts two exercises."""
        for conclusion in (c for list in self._conclusions.claims.values() for c in list):
            address = claim_address(conclusion)
            for comparison in conclusion.comparisons:
                asked = comparison.question
                if asked.within or asked.relative_to or asked.first not in self._catalog.exercises:
                    continue
                if asked.outcome == "length":
                    if comparison.finding != "not studied":
                        yield self._modelled(conclusion, comparison, address)
                elif comparison.sentence:
                    yield _studied(comparison, address)
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
                        asked = comparison.question
                        yield _studied(comparison, pair_address(field.part, asked))

    def _modelled(self, conclusion: Conclusion, comparison: Comparison, address: str) -> Preference:
        asked = comparison.question
        first, second = _ahead_first(comparison)
        return Preference(
            "length",
            "length",
            asked.part,
            first,
            second,
            first if comparison.side else None,
            conclusion.sentence
            if NO_GROWTH in conclusion.sentence
            else f"{conclusion.sentence} {NO_GROWTH}",
            comparison.finding,
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
            "not studied",
            None,
            address,
        )


def _studied(comparison: Comparison, address: str) -> Preference:
    """A comparison from the side that is ahead; its sentence names that side first whichever way it was asked."""
    asked, rated = comparison.question, comparison.certainty
    first, second = _ahead_first(comparison)
    leads = comparison.side is not None and comparison.finding in ("found", "hinted")
    return Preference(
        asked.outcome,  # type: ignore[arg-type]
        asked.outcome,
        asked.part,
        first,
        second,
        first if leads else None,
        comparison.sentence,
        comparison.finding,
        rated.level if rated else None,
        address,
        comparison.measured,
        comparison.studies,
        comparison.people,
    )


def _ahead_first(comparison: Comparison) -> tuple[str, str]:
    """The two exercises of a comparison, the one that is ahead or leans ahead first."""
    asked = comparison.question
    if comparison.side == "less":
        return asked.second, asked.first
    return asked.first, asked.second
