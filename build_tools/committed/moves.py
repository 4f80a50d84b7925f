"""Which statements moved between two states of the committed conclusions.

A statement is a claim, or a pair of exercises that a study or a chain of studies tells a sentence of. It moved when,
for one of its parts, the finding, the side that is ahead or the certainty is another. Numbers, studies and words that
change without that are no move. This is the only place that says so.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Annotated, Any, Literal, NamedTuple

import yaml
from pydantic import Field

from ..catalog.entries import Entry
from ..evidence.terms import LEVELS
from ..evidence.treatments import pair_anchor

#: How a statement moved. ``turned``: the other side is ahead now, or a side where both were alike, or the reverse.
#: ``otherwise``: one part one way, another part another way, or a firmer finding of lower certainty.
Way = Literal["turned", "firmer", "weaker", "newly tested", "otherwise"]
#: From what says least; ``alike`` says as much as ``found``.
_STRENGTH = {"not studied": 0, "unclear": 1, "hinted": 2, "found": 3, "alike": 3}
#: What `because` may say: a kind, and of which.
BECAUSE = r"^(?:study|reference|convention|entry|vocabulary|model|rule)(?: [a-z0-9/_-]+)?$"
#: Stands where an answer has no side, or no certainty.
NO_SIDE, NOT_RATED = "no side", "not rated"
#: Where a sentence ends and the next begins.
_END = re.compile(r"(?<=[.!?]) (?=[A-Z0-9])")


class Answered(NamedTuple):
    """What was found for one part."""

    part: str
    finding: str
    side: str
    certainty: str


class Saying(Entry):
    """What a statement said at one time."""

    sentence: str = Field(description="As its page told it.")
    answers: Annotated[list[Answered], Field(min_length=1)] = Field(
        description="For each part: the part, the finding, the side that is ahead, the certainty."
    )
    rests_on: list[str] = Field(
        default=[], alias="rests on", description="Keys of the studies that were weighed."
    )


class Asked(Entry):
    """What a statement is on, whatever it says."""

    at: str = Field(
        pattern=r"^/(?:exercises/[a-z0-9-]+|muscles/[a-z0-9/-]+)/#[a-z0-9-]+$",
        description="Address from the top of the site.",
    )
    outcome: str = Field(description="Growth, activation, length or strength.")
    relative_to: str | None = Field(
        None, alias="relative to", description="The other part of a ratio."
    )
    first: str = Field(description="Exercise, or a version of one.")
    second: str = Field(description="Exercise, version or part that it is compared with.")

    @property
    def page(self) -> str:
        """The address without the place on it."""
        return self.at.partition("#")[0]

    @property
    def is_claim(self) -> bool:
        """Whether it is a claim of an exercise; else it is a pair of a part."""
        return self.at.startswith("/exercises/")

    def on(self, told: Saying) -> tuple[object, ...]:
        """What it is on, with the parts it answers for: the same whatever number it has on its page."""
        parts = tuple(answer.part for answer in told.answers)
        return self.page, self.outcome, self.relative_to, self.first, self.second, parts


class Move(Asked):
    """A statement that says something else now."""

    before: Saying = Field(description="What it said.")
    now: Saying = Field(description="What it says since.")
    because: list[Annotated[str, Field(pattern=BECAUSE)]] = Field(
        default=[],
        description="What changed behind it: study and its key, convention and its name, entry, reference, vocabulary, model, or "
        "rule where nothing but the program did. Left out where it is not known.",
    )

    @property
    def key(self) -> tuple[object, ...]:
        """The same for the same statement, whatever number it has on its page."""
        return self.on(self.now)

    @property
    def way(self) -> Way:
        """How it moved."""
        pairs = zip(self.before.answers, self.now.answers, strict=True)
        ways = {_way(before, now) for before, now in pairs if before != now}
        if "turned" in ways:
            return "turned"
        return ways.pop() if len(ways) == 1 else "otherwise"


class ToldStatement(NamedTuple):
    """One statement at one time."""

    asked: Asked
    told: Saying

    @property
    def key(self) -> tuple[object, ...]:
        """The same for the same statement, whatever number it has on its page."""
        return self.asked.on(self.told)


class Moves(NamedTuple):
    """What differs between two states: moved statements, and addresses of those that only one of them has."""

    moved: list[Move]
    new: list[str]
    gone: list[str]


class Reworded(NamedTuple):
    """A statement that tells the same answer in other words or numbers."""

    asked: Asked
    before: Saying
    now: Saying


Statements = dict[tuple[object, ...], ToldStatement]
"""By what each is on, whatever number it has on its page."""


def differing_files(before: Mapping[str, str | None], now: Mapping[str, str | None]) -> list[str]:
    """Paths that only one state has, or whose text differs."""
    return [path for path in sorted({*before, *now}) if before.get(path) != now.get(path)]


def moves(old: Statements, new: Statements) -> Moves:
    """What moved between two states of the statements, in the order of the addresses.

    A pair that a moved claim tells is left out: it is the same sentence.
    """
    moved = []
    for key in old.keys() & new.keys():
        was, told = old[key].told, new[key].told
        if was.answers != told.answers:
            asked = new[key].asked.model_dump(by_alias=True)
            moved.append(Move.model_validate({**asked, "before": was, "now": told}))
    return Moves(
        sorted(_without_told(moved), key=_place),
        [new[key].asked.at for key in new if key not in old],
        [old[key].asked.at for key in old if key not in new],
    )


def reworded(old: Statements, new: Statements) -> list[Reworded]:
    """Statements that answer the same in another sentence, in the order of the newer state."""
    return [
        Reworded(one.asked, old[key].told, one.told)
        for key, one in new.items()
        if key in old
        and old[key].told.answers == one.told.answers
        and old[key].told.sentence != one.told.sentence
    ]


def differing(before: Saying, now: Saying) -> tuple[str, str]:
    """The sentences of either side that the other has not; the whole where one side has none of its own."""
    was, told = _END.split(before.sentence), _END.split(now.sentence)
    own = [s for s in was if s not in told], [s for s in told if s not in was]
    if not all(own):
        return before.sentence, now.sentence
    return " ".join(own[0]), " ".join(own[1])


def _place(move: Move) -> tuple[object, ...]:
    return move.page, move.outcome, move.at


def _without_told(moved: list[Move]) -> Iterator[Move]:
    told = {
        (frozenset((move.first, move.second)), move.outcome, move.relative_to, after.part)
        for move in moved
        if move.is_claim
        for was, after in zip(move.before.answers, move.now.answers, strict=True)
        if was != after
    }
    for move in moved:
        sides = frozenset((move.first, move.second))
        asked = (sides, move.outcome, move.relative_to, move.now.answers[0].part)
        if move.is_claim or asked not in told:
            yield move


def _way(before: Answered, now: Answered) -> Way:
    if before.finding == "not studied":
        return "newly tested"
    if NO_SIDE not in (before.side, now.side) and before.side != now.side:
        return "turned"
    findings = {before.finding, now.finding}
    if "alike" in findings and findings & {"hinted", "found"}:
        return "turned"
    levels = [NOT_RATED, *LEVELS]
    steps = (
        _STRENGTH[now.finding] - _STRENGTH[before.finding],
        levels.index(now.certainty) - levels.index(before.certainty),
    )
    if min(steps) >= 0:
        return "firmer"
    return "weaker" if max(steps) <= 0 else "otherwise"


def statements(texts: Mapping[str, str | None], paths: Iterable[str]) -> Statements:
    """Every statement of some of the files. A file that is none of today's form tells none."""
    found: Statements = {}
    for path in paths:
        text = texts.get(path)
        try:
            data = yaml.load(text or "", yaml.CSafeLoader)
            made = list(_of_file(data)) if isinstance(data, dict) else []
        except (yaml.YAMLError, LookupError, ValueError, TypeError, AttributeError):
            continue
        for one in made:
            found.setdefault(one.key, one)
    return found


def _of_file(data: dict[str, Any]) -> Iterator[ToldStatement]:
    for claim in data.get("claims", ()):
        exercise, _, number = claim["claim"].partition("/")
        yield _statement(
            f"/exercises/{exercise}/#claim-{number}",
            claim,
            (exercise, claim["says"].rpartition(" ")[2]),
            claim["sentence"],
            claim["parts"],
        )
    for field in data.get("fields", ()):
        for pair in field["comparisons"]:
            if "sentence" not in pair:
                continue
            first, _, second = pair["pair"].partition(" against ")
            yield _statement(
                f"/muscles/{field['part']}/#{pair_anchor(field['outcome'], first, second)}",
                field,
                (first, second),
                pair["sentence"],
                [{"part": field["part"], **pair}],
            )


def _statement(
    at: str,
    on: dict[str, Any],
    sides: tuple[str, str],
    sentence: str,
    answers: list[dict[str, Any]],
) -> ToldStatement:
    asked = {"at": at, "outcome": on["outcome"], "first": sides[0], "second": sides[1]}
    if "relative to" in on:
        asked["relative to"] = on["relative to"]
    told = Saying.model_validate(
        {
            "sentence": sentence,
            "answers": [
                Answered(
                    one["part"],
                    one["finding"],
                    one.get("side", NO_SIDE),
                    one.get("certainty", NOT_RATED),
                )
                for one in answers
            ],
            "rests on": sorted({key for one in answers for key in one.get("rests on", ())}),
        }
    )
    return ToldStatement(Asked.model_validate(asked), told)
