"""What the catalog's numbers say on every claim, and on every pair of exercises that studies connect."""

from __future__ import annotations

from itertools import groupby
from typing import Any, Literal

from ...catalog.entries import Claim
from ...catalog.finding import Finding
from ...catalog.load import Catalog, Loaded
from ...english import upper_first
from ..certainty.rating import Certainty, Override
from ..model.slope import LengthSlope, fit_slope
from ..studies.samples import PooledTopic
from ..terms import LEVELS, Claimed, Question
from ..wording import sentences
from . import judgement
from .conclusions import (
    ClaimFinding,
    Comparison,
    Conclusion,
    Conclusions,
    KindsCompared,
)
from .engine import Engine
from .judgement import Judged
from .length_claims import Lengths, compare, judge, sentence
from .memory import ConclusionMemory

#: From what stops a claim to what carries it; a claim on several parts is as good as its weakest.
_WEAKEST_FIRST: tuple[ClaimFinding, ...] = (
    "opposite",
    "alike",
    "unclear",
    "not studied",
    "hinted",
    "found",
)
_DIRECTIONS: dict[str, Claimed] = {
    "more_than": "more",
    "less_than": "less",
    "similar_to": "similar",
}


def conclude(
    catalog: Catalog, lengths: Lengths | None = None, memory: ConclusionMemory | None = None
) -> Conclusions:
    """Recompute everything a sound catalog says. Numbers that cannot be weighed become findings, not exceptions.

    ``lengths`` answers for the model of muscle lengths; without it claims on length are untested. With a ``memory`` of the catalog only
    what a change bears on is weighed.
    """
    memory = memory or ConclusionMemory()
    engine = memory.engine(catalog)
    conclusions = Conclusions(engine.names)
    conclusions.fields = memory.fields() or {
        topic: engine.field(*topic) for topic in engine.assembly.fields()
    }
    for id, entry in catalog.exercises.items():
        conclusions.claims[id] = memory.claims(id, entry) or [
            _conclude(engine, lengths, id, index, claim)
            for index, claim in enumerate(entry.data.emphasis)
        ]
        for conclusion, claim in zip(conclusions.claims[id], entry.data.emphasis, strict=True):
            conclusions.findings += _findings(engine, entry, conclusion, claim)
    conclusions.kinds = _kinds(engine, conclusions)
    if lengths is not None:
        conclusions.slopes = _slopes(engine, lengths)
    conclusions.findings += engine.assembly.trouble
    memory.keep(catalog, conclusions)
    return conclusions


def question(exercise: str, claim: Claim, part: str) -> Question:
    """What a claim asks of one of its parts."""
    other = claim.comparator
    if other.part:
        return Question(part, other.part, part, claim.outcome, claim.relative_to, within=exercise)
    return Question(exercise, other.exercise or "", part, claim.outcome, claim.relative_to)


def claimed_of(claim: Claim) -> Claimed:
    """What a claim says of its first side against its second."""
    return _DIRECTIONS[claim.direction]


def _conclude(
    engine: Engine, lengths: Lengths | None, exercise: str, index: int, claim: Claim
) -> Conclusion:
    claimed, margin = claimed_of(claim), engine.settings.margins[claim.outcome]
    if claim.outcome == "length":
        comparisons = tuple(
            compare(question(exercise, claim, part), lengths, engine.settings.margin_length)
            for part in claim.part
        )
        judged = [judge(claimed, c, engine.settings.margin_length) for c in comparisons]
    else:
        comparisons = tuple(_comparison(engine, exercise, claim, part) for part in claim.part)
        judged = [judgement.judge(claimed, c, margin) for c in comparisons]
    return Conclusion(
        claim_id=f"{exercise}/{index + 1}",
        exercise=exercise,
        index=index,
        outcome=claim.outcome,
        parts=tuple(claim.part),
        basis="common practice" if claim.common_practice else "cited",
        finding=_weakest(judged),
        reason=_reason(engine, claim, judged),
        certainty=_lowest(comparisons),
        told=_told(engine, claim, claimed, comparisons),
        comparisons=comparisons,
    )


def _comparison(engine: Engine, exercise: str, claim: Claim, part: str) -> Comparison:
    authored = claim.certainty
    override = (
        Override(authored.level, authored.because, tuple(c.key for c in authored.cites))
        if authored
        else None
    )
    return engine.comparison(question(exercise, claim, part), override)


def _weakest(judged: list[Judged]) -> ClaimFinding:
    return min((j.finding for j in judged), key=_WEAKEST_FIRST.index)


def _lowest(comparisons: tuple[Comparison, ...]) -> Certainty | None:
    rated = [c.certainty for c in comparisons if c.certainty]
    return min(rated, key=lambda c: LEVELS.index(c.level)) if rated else None


def _reason(engine: Engine, claim: Claim, judged: list[Judged]) -> str:
    if len(judged) == 1:
        return judged[0].reason
    grouped = groupby(zip(judged, claim.part, strict=True), key=lambda pair: pair[0].reason)
    told: list[tuple[str, list[str]]] = [
        (reason, [part for _, part in group]) for reason, group in grouped
    ]
    if len(told) == 1:
        return told[0][0]
    return " ".join(f"{upper_first(engine.names.parts(parts))}: {reason}" for reason, parts in told)


def _told(
    engine: Engine, claim: Claim, claimed: Claimed, comparisons: tuple[Comparison, ...]
) -> tuple[sentences.ComposedAnswer, ...]:
    """One sentence for each run of parts with the same answer."""
    direction: Literal["more", "less", "alike"] = "alike" if claimed == "similar" else claimed

    def taught(parts: tuple[str, ...]) -> str:
        return sentences.taught(
            engine.names,
            comparisons[0].question,
            parts,
            direction,
            claim.common_practice is not None,
        )

    if claim.outcome == "length":
        return (sentences.ComposedAnswer(sentence(engine.names, comparisons, taught), ()),)
    told = []
    for _, group in groupby(comparisons, key=_alike):
        run = list(group)
        told.append(
            engine.told(run)
            if run[0].sentence
            else sentences.ComposedAnswer(taught(tuple(c.question.part for c in run)), ())
        )
    return sentences.arranged(told)


def _alike(comparison: Comparison) -> tuple[object, ...]:
    """What comparisons must share to be told in one sentence; those with an estimate stand alone."""
    # One number over several parts is one finding: with the same rows, none of a part alone, it is told once.
    joint = all(row.cover != "alone" for row in comparison.rows)
    sized = comparison.estimate is not None and comparison.sized
    alone = comparison.question.part if sized and not joint else None
    rows = tuple((row.study, row.results if joint else ()) for row in comparison.rows)
    return (
        comparison.finding,
        comparison.side,
        bool(comparison.sentence),
        rows,
        str(comparison.directions),
        comparison.measured,
        alone,
    )


def _findings(
    engine: Engine, entry: Loaded[Any], conclusion: Conclusion, claim: Claim
) -> list[Finding]:
    path = ("emphasis", conclusion.index)
    found = []
    if conclusion.finding == "opposite" and not claim.disputed:
        found.append(
            Finding(
                "contradicted-claim",
                entry.spot(*path),
                f"the numbers contradict this {claim.outcome} claim: {conclusion.reason}",
                "turn the claim round, take it out, or add `disputed: <why it stands although numbers point the other way>`",
            )
        )
    if claim.disputed and conclusion.finding != "opposite":
        found.append(
            Finding(
                "needless-dispute",
                entry.spot(*path, "disputed", key=True),
                f"the numbers do not contradict this claim (they say: {conclusion.finding})",
                "remove `disputed:`",
            )
        )
    bearing = {row.study for c in conclusion.comparisons for row in c.rows}.union(
        *(engine.bearing(c.question) for c in conclusion.comparisons)
    )
    for number, cited in enumerate(claim.cites):
        # A review is a fair source, but its studies are what is counted.
        review = cited.key in engine.catalog.studies and cited.key not in engine.assembly.studies
        if claim.outcome != "length" and cited.key not in bearing and not review:
            found.append(
                Finding(
                    "cited-without-numbers",
                    entry.spot(*path, "cites", number),
                    f"`{cited.key}` is cited, but the catalog has no numbers or directions of it for this contrast",
                    f"add them to studies/{cited.key}.yaml, or cite a study that has them",
                )
            )
    return found


def _kinds(engine: Engine, conclusions: Conclusions) -> list[KindsCompared]:
    """Pairs of which both activation and growth were measured on a part, and whether the two agree."""
    by_pair: dict[tuple[str, str, str], dict[str, Comparison]] = {}
    for field in conclusions.fields.values():
        for comparison in field.comparisons:
            asked = comparison.question
            if (
                field.relative_to is None
                and comparison.finding != "not studied"
                and asked.outcome in ("activation", "growth")
            ):
                found = by_pair.setdefault((asked.part, asked.first, asked.second), {})
                found[asked.outcome] = comparison
    told = []
    for (part, first, second), kinds in sorted(by_pair.items()):
        if len(kinds) == 2:
            both = [kinds["activation"], kinds["growth"]]
            sides = [c.side if c.finding in ("found", "hinted") else None for c in both]
            told.append(
                KindsCompared(
                    kinds["growth"].question,
                    sides[0] == sides[1] if all(sides) else None,
                    sentences.describe_kinds(
                        engine.names,
                        part,
                        first,
                        second,
                        [(c.question.outcome, c.finding, c.side) for c in both],
                    ),
                )
            )
    return told


def _slopes(engine: Engine, lengths: Lengths) -> dict[str, LengthSlope]:
    """Muscle -> how its growth goes with length under load, over every sample whose lengths the handbook knows."""
    found = {}
    people = {key: study.people.n for key, study in engine.assembly.studies.items()}
    for muscle, entry in sorted(engine.catalog.muscles.items()):
        parts = [f"{muscle}/{part}" for part in entry.data.parts] or [muscle]
        blocks = []
        known: dict[str, float] = {}
        for part in parts:
            for dimension in engine.assembly.dimensions("growth"):
                topic = PooledTopic(part, "growth", None, "part", dimension)
                for sample in engine.samples(topic):
                    if sample.block is None:
                        continue
                    blocks.append((part, sample.block))
        numbers = [block.study for _, block in blocks]
        shared = []
        for part, block in blocks:
            for treatment in block.treatments:
                length = lengths(treatment, part)
                if not isinstance(length, str):
                    known[f"{part} {treatment}"] = length
            named = tuple(f"{part} {treatment}" for treatment in block.treatments)
            shared.append((block.renamed(named), numbers.count(block.study)))
        slope = fit_slope(
            shared, known, engine.settings.spreads["growth"], engine.settings.slope, people
        )
        if slope:
            found[muscle] = slope
    return found
