"""What the pages need to know of a week: its days, the limits of a saved one, its times, and the grounds of what is remarked on it.

The rules themselves are those of the pages' scripts, ``site/scripts/rules/week.js`` and ``plan.js``.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..catalog.entries import Dose, Programme
from ..catalog.entries.programme import Goal
from ..handout import limits

DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
#: Of the file in which a coach saves a week. A change of what it holds needs a new number; files of earlier numbers still open.
VERSION = 2
#: Longest file, most exercises of a day, and most past weeks.
MOST_CHARACTERS, MOST_EXERCISES, MOST_WEEKS = 400_000, limits.MOST_EXERCISES, 104
#: What may stand for what was done of an exercise: sets (0: missed), the fewest repetitions of one of them, load, and repetitions left.
DONE: dict[str, limits.Number | limits.Text] = {
    "sets": limits.Number(0, 20),
    "repetitions": limits.Number(0, 999),
    "load": limits.FIELDS["load"],
    "left": limits.Number(0, 10),
}
GOALS: tuple[Goal, ...] = ("growth", "strength")
#: Kind of remark on a week -> the anchor on the page of the programme; ``{goal}`` stands for the goal.
GROUNDS = {
    "below": "{goal}-weekly-sets",
    "above": "{goal}-weekly-sets",
    "consecutive": "topic-how-often",
    "accessory-first": "topic-order",
}


@dataclass(frozen=True)
class Seconds:
    """What a day's time is reckoned from."""

    change: float
    """Between two exercises."""
    warm_up: float
    """Before the first."""
    repetition: float
    rest: float


def seconds(programme: Programme, goal: Goal) -> Seconds:
    """The programme's times; a rest that is not given is the middle of the goal's range.

    A repetition takes the middle of the range for strength, whatever the goal: that for growth says which speeds work, not which
    are usual (half a second to eight).
    """
    timing = programme.timing
    return Seconds(
        timing.change_exercise.value,
        timing.warm_up.value,
        _middle(programme.goals["strength"].repetition_seconds),
        _middle(programme.goals[goal].rest_seconds),
    )


def as_data() -> dict[str, object]:
    """What a page needs to read and write a week, as JSON values."""
    return {
        "version": VERSION,
        "characters": MOST_CHARACTERS,
        "days": list(DAYS),
        "exercises": MOST_EXERCISES,
        "weeks": MOST_WEEKS,
        "goals": list(GOALS),
        "done": [[name, limit._asdict()] for name, limit in DONE.items()],
    }


def _middle(dose: Dose) -> float:
    ends = [end for end in (dose.low, dose.high) if end is not None]
    return sum(ends) / len(ends)
