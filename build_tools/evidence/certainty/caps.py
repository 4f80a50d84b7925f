"""Caps: limits that come from how the numbers were obtained, whatever the evidence itself."""

from __future__ import annotations

from collections import Counter

from ..terms import LEVELS, Level
from ..wording.amounts import samples
from .body import MOST, Cap, CertaintyRule, EvidenceBody, Read

#: The highest level that numbers read there allow. Convention: methods, spreads and corrections stand in the full text.
READ_AT_MOST: dict[Read, Level] = {
    "full text": "high",
    "abstract": "moderate",
    "part of abstract": "low",
    "record": "low",
    "memory": "very low",
}
#: A direction has no size. Convention.
DIRECTIONS_AT_MOST: Level = "low"

RULES = (
    CertaintyRule(
        "cap-read",
        "cap",
        "Numbers read only in an abstract allow moderate at most; in part of one, or in the record, low; from memory, very low. "
        f"The cap is the highest level that the reading behind {MOST:.0%} of the people allows.",
        "Convention of this handbook: what stands only in the full text cannot have been checked.",
    ),
    CertaintyRule(
        "cap-directions",
        "cap",
        f"Where no number says how much, at most {DIRECTIONS_AT_MOST}.",
        "Convention of this handbook: a stated direction has no size.",
    ),
)


def caps(body: EvidenceBody) -> tuple[Cap, ...]:
    """The limits that apply, of which the lowest holds."""
    found = []
    people: Counter[Read] = Counter()
    for sample in body.samples:
        people[sample.read] += sample.n
    reading = next(
        level for level in reversed(LEVELS) if _allowing(people, level) / body.people >= MOST
    )
    if reading != "high":
        counts = Counter(sample.read for sample in body.samples)
        told = ", ".join(
            f"{counts[where]} {'from' if where == 'memory' else 'in'} {_called(where)}"
            for where in READ_AT_MOST
            if counts[where]
        )
        found.append(
            Cap(
                "cap-read",
                reading,
                f"The numbers of {samples(len(body.samples))} were read: {told}.",
            )
        )
    if body.estimate is None:
        found.append(
            Cap(
                "cap-directions",
                DIRECTIONS_AT_MOST,
                f"No number says how much: {samples(len(body.samples))} only stated a direction.",
            )
        )
    return tuple(found)


def _allowing(people: Counter[Read], level: Level) -> int:
    """People whose numbers were read where ``level`` is allowed."""
    return sum(
        n for where, n in people.items() if LEVELS.index(READ_AT_MOST[where]) >= LEVELS.index(level)
    )


def _called(where: Read) -> str:
    return {
        "full text": "the full text",
        "abstract": "the abstract only",
        "part of abstract": "part of the abstract",
        "record": "the record only",
        "memory": "memory",
    }[where]
