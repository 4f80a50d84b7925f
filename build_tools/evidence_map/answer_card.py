"""The answer for a part in about thirty words: what to choose, why, how sure that is, what nobody tested.

Composed from what was concluded; nobody writes these by hand. Verbs are those of the table of sentences: a difference that was
found is told plainly at high certainty, ``probably`` at moderate, ``may`` at low and for what is only hinted; at very low
certainty a study found it, and nobody should lean on it yet.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..english import counted, listed, upper_first
from ..evidence.claims.conclusions import Comparison
from ..evidence.terms import Gains, RatioInterval
from ..evidence.wording import figures
from ..evidence.wording.amounts import in_words
from ..evidence.wording.names import Names
from ..evidence.wording.turning import printed_difference
from .best_answer import BestAnswer

#: Most exercises that a card names; more are counted.
NAMED = 3
#: Most words of a card; what is only told beside the answer gives way.
MOST_WORDS = 48
_DO_NOT_LEAN = "do not lean on it yet"


@dataclass(frozen=True)
class AnswerCard:
    """The card of one part; texts are sentences, empty where there is nothing to say."""

    lead: str
    """How the chosen exercises are introduced: ``Choose``; without an answer ``These train it``."""
    chosen: tuple[str, ...]
    """Exercises, at most ``NAMED``."""
    others: int
    """How many more there are."""
    why: str
    sure: str
    beside: tuple[str, ...]
    """What must be known beside it: an exercise that leans further, a wider measurement."""
    untested: str

    @property
    def lines(self) -> tuple[tuple[str, str], ...]:
        """What follows the chosen, each with its label."""
        told = (
            ("Why", self.why),
            ("How sure", self.sure),
            *(("Also", text) for text in self.beside),
            ("Not tested", self.untested),
        )
        return tuple((label, text) for label, text in told if text)


def answer_card(names: Names, answer: BestAnswer) -> AnswerCard:
    """The card of an answer."""
    card = AnswerCard(
        lead=_lead(answer),
        chosen=answer.chosen[:NAMED],
        others=max(0, len(answer.chosen) - NAMED),
        why=_why(names, answer),
        sure=_sure(answer),
        beside=(),
        untested=_untested(answer),
    )
    # That several are level is part of the answer, whatever the room.
    beside = [_tie(answer)] if answer.tie else []
    room = MOST_WORDS - _words(names, card) - sum(len(text.split()) + 1 for text in beside)
    for text in _beside(names, answer):
        if len(text.split()) + 1 <= room:
            beside.append(text)
            room -= len(text.split()) + 1
    return AnswerCard(**{**card.__dict__, "beside": tuple(beside)})


def _words(names: Names, card: AnswerCard) -> int:
    chosen = " ".join([card.lead, *(names.exercise(id) for id in card.chosen)])
    return len(" ".join([chosen, *(f"{label} {text}" for label, text in card.lines)]).split())


def _lead(answer: BestAnswer) -> str:
    if answer.kind == "none":
        return "These train it"
    if answer.more:
        return "Choose"
    return {1: "Measured", 2: "Either"}.get(len(answer.chosen), "None clearly ahead")


def _why(names: Names, answer: BestAnswer) -> str:
    comparison = answer.comparison
    if answer.kind == "none":
        return "Nobody tested which exercise is best."
    if answer.kind == "length":
        return "Long under load, by the model."
    if comparison is None:
        return ""
    if not answer.more:
        return _nothing_clear(names, answer, comparison)
    other = names.exercise(_other(comparison, answer.chosen[0]))
    which = f"{names.exercise(answer.chosen[0])} " if len(answer.chosen) > 1 else ""
    if answer.kind == "activation":
        joint = _joint(names, answer, comparison)
        verb = _verb(comparison, "was", "was probably", "may be")
        if verb:
            told = f"{which}{verb} more active in one session than {other}"
        else:
            who = (
                "one study"
                if comparison.studies == 1
                else f"{in_words(comparison.studies)} studies"
            )
            told = f"{who} found {which or 'it '}more active in one session than {other}"
        return f"{upper_first(told)}{', ' + joint if joint else ''}."
    verb = _verb(comparison, "grows", "probably grows", "may grow")
    object_ = _object(names, answer, comparison)
    if verb:
        told = f"{which}{verb} {object_} more"
    else:
        n = comparison.studies
        told = f"{which}grew {object_} more in {in_words(n)} {'study' if n == 1 else 'studies'}"
    return f"{upper_first(told)}{_extent(comparison, other)}{_after(comparison)}."


def _verb(comparison: Comparison, high: str, moderate: str, low: str) -> str:
    """The verb of the table of sentences; none at very low certainty, where a study found it."""
    if comparison.finding != "found":
        return low
    level = comparison.certainty.level if comparison.certainty else "very low"
    return {"high": high, "moderate": moderate, "low": low}.get(level, "")


def _object(names: Names, answer: BestAnswer, comparison: Comparison) -> str:
    """What grew: ``it``, ``the whole calf``, ``it and the medial head together``."""
    if _is_whole(answer, comparison):
        return f"the whole {_muscle(names, answer)}"
    joint = _with(names, comparison)
    return f"it and {joint} together" if joint else "it"


def _joint(names: Names, answer: BestAnswer, comparison: Comparison) -> str:
    """``measured with the medial head``, ``on the whole calf``; nothing where the part was measured alone."""
    if _is_whole(answer, comparison):
        return f"on the whole {_muscle(names, answer)}"
    joint = _with(names, comparison)
    return f"measured with {joint}" if joint else ""


def _is_whole(answer: BestAnswer, comparison: Comparison) -> bool:
    return comparison.question.part != answer.part or comparison.measured == "whole"


def _muscle(names: Names, answer: BestAnswer) -> str:
    return names.part(answer.part.partition("/")[0]).removeprefix("the ")


def _with(names: Names, comparison: Comparison) -> str:
    if comparison.measured != "together":
        return ""
    parts = sorted({part for row in comparison.rows if row.weighed for part in row.together})
    return listed([_short(names, part) for part in parts]) if parts else "others"


def _short(names: Names, part: str) -> str:
    """A part beside another of its muscle: ``the medial head``."""
    return names.part(part).partition(" of the ")[0]


def _extent(comparison: Comparison, other: str) -> str:
    """How much more, after whom it is told: ``: 28% against 20% with the cable pushdown``."""
    turned = comparison.side == "less"
    if gains := _gains(comparison):
        return f": {gains[0]} against {gains[1]} with {other}"
    weighed = [row for row in comparison.rows if row.weighed]
    printed = weighed[0].difference if len(weighed) == 1 else None
    found = printed_difference(printed, turned) if printed else None
    if found:
        return f" than {other}: {found.value:g} {found.unit} ({found.low:g} to {found.high:g})"
    return f" than {other}"


def _gains(comparison: Comparison) -> tuple[str, str] | None:
    """What both sides gained, the one ahead first, as the sentence tells it."""
    estimate, gains = comparison.estimate, comparison.gains
    if not (estimate and gains and comparison.sized):
        return None
    if comparison.side == "less":
        estimate = RatioInterval(1 / estimate.ratio, 1 / estimate.high, 1 / estimate.low)
        gains = Gains(gains.second, gains.first, gains.pooled)
    if not figures.fits(gains, estimate):
        return None
    told = figures.gains_told(gains, estimate)
    return told.first, told.second


def _after(comparison: Comparison) -> str:
    if comparison.question.outcome == "activation":
        return ""
    weeks = figures.lasting(comparison.question.outcome, comparison.weeks)
    return f", {weeks}" if weeks else ""


def _nothing_clear(names: Names, answer: BestAnswer, comparison: Comparison) -> str:
    asked = comparison.question
    told = "No clear difference" if comparison.finding != "alike" else "Alike"
    if not (comparison.estimate and comparison.sized) and not comparison.directions.mixed:
        told = "No difference reported"
    what = "activity in one session" if answer.kind == "activation" else "growth"
    joint = _joint(names, answer, comparison)
    where = f", {joint}" if joint else ""
    if gains := _gains(comparison):
        sides = [names.exercise(asked.first), names.exercise(asked.second)]
        if len(answer.chosen) == 2:
            numbers = f"{gains[0]} against {gains[1]}"
        else:
            numbers = f"{gains[0]} with {sides[0]}, {gains[1]} with {sides[1]}"
        return f"{told} in {what}{where}: {numbers}{_after(comparison)}."
    between = (
        ""
        if len(answer.chosen) == 2
        else f" between {names.exercise(asked.first)} and {names.exercise(asked.second)}"
    )
    return f"{told} in {what}{between}{where}{_after(comparison)}."


def _sure(answer: BestAnswer) -> str:
    comparison = answer.comparison
    if comparison is None or comparison.certainty is None:
        return ""
    level, n = comparison.certainty.level, comparison.studies
    who = f"{in_words(n)} {'study' if n == 1 else 'studies'} of {counted(comparison.people, 'person', 'people')}"
    told = f"{level}: {who}"
    if comparison.path == "indirect":
        told = f"{level}: only through other exercises"
    if level == "very low" and answer.more and answer.kind == "growth":
        told += f"; {_DO_NOT_LEAN}"
    return f"{upper_first(told)}."


def _beside(names: Names, answer: BestAnswer) -> list[str]:
    """What must be known beside the answer, the most telling first."""
    told = []
    if answer.beyond:
        who = names.exercise(_other(answer.beyond, answer.chosen[0]))
        how = "came out" if answer.beyond.finding == "found" else "leaned"
        told.append(f"{upper_first(who)} {how} ahead of it.")
    if answer.wider:
        told.append(_wider(names, answer, answer.wider))
    return told


def _wider(names: Names, answer: BestAnswer, comparison: Comparison) -> str:
    asked, joint = comparison.question, _joint(names, answer, comparison)
    growth = "Growth" if answer.kind == "activation" else ""
    where = f"{growth}, {joint}" if growth and joint else growth or joint
    first, second = names.exercise(asked.first), names.exercise(asked.second)
    if comparison.side is None:
        return f"{upper_first(where)}: nothing clear between {first} and {second}."
    if comparison.side == "less":
        first, second = second, first
    how = "came out" if comparison.finding == "found" else "leaned"
    return f"{upper_first(where)}: {first} {how} ahead of {second}."


def _untested(answer: BestAnswer) -> str:
    if answer.kind == "none":
        return ""
    if answer.kind == "length":
        return "Growth, which length does not show."
    if answer.kind == "activation":
        return f"Growth{' of it alone' if answer.wider else ''}, which activity does not show."
    if not answer.untested:
        return ""
    others = "the other one" if answer.untested == 1 else f"the {answer.untested} others"
    return f"Growth with {others}."


def _tie(answer: BestAnswer) -> str:
    which = "the two" if len(answer.chosen) == 2 else "them"
    return {
        "compared": f"Nothing clear between {which}.",
        "untested": f"Nobody compared {which}.",
    }[answer.tie or "untested"]


def _other(comparison: Comparison, exercise: str) -> str:
    asked = comparison.question
    return asked.second if asked.first == exercise else asked.first
