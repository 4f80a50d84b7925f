"""What the planner says, as the pages' scripts say it: the sentences of ``planning.words`` filled by the Python reference."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from ...english import listed, upper_first
from ...evidence.wording.names import Names
from ...planning.facts import ExerciseFacts
from ...planning.order import STATED, Orders
from ...planning.shortlist import Difference, Proposal
from ...planning.warnings import GROUNDS, Warning
from ...planning.week import DAYS
from ...planning.words import KIND_WORDS, WORDS


@dataclass(frozen=True)
class Reason:
    """Why an exercise stands where it stands."""

    kind: str
    """For its mark: growth, activation, length, taught or none."""
    name: str
    sentence: str
    sure: str
    address: str | None
    """Where the numbers are, from the top of the site; None where no statement is the reason."""


class Words:
    """Fills sentences about one catalog."""

    def __init__(self, names: Names, exercises: dict[str, ExerciseFacts], orders: Orders, joints: dict[str, str]) -> None:
        """``joints`` are their names by id."""
        self._names, self._exercises, self._orders, self._joints = names, exercises, orders, joints

    def reason(self, proposal: Proposal) -> Reason:
        """The sentence for which the exercise is proposed, and how sure it is."""
        kind, part = proposal.kind, proposal.part
        name, means = KIND_WORDS[kind]
        told = self._orders.best(proposal.exercise, part, kind) if kind in STATED else None
        if told:
            sure = [told.verdict and f"Verdict: {told.verdict}.", told.certainty and f"Certainty: {told.certainty}."]
            return Reason(kind, name, told.sentence, " ".join(filter(None, sure)), told.address)
        length = self._exercises[proposal.exercise].lengths.get(part)
        sentence = self._filled(f"{kind}-reason", part, percent=length.percent if length else None)
        return Reason(kind, name, sentence, "" if kind == "none" else means, None)

    def difference(self, proposal: Proposal, difference: Difference) -> str:
        """How the proposal differs from another exercise of the week for the same part."""
        first, second = self._exercises[proposal.exercise], self._exercises[difference.other]
        part, other = proposal.part, self._names.exercise(difference.other)
        if not difference.ways:
            return WORDS["differs-unknown"].format(other=other)
        values = {"load": first.load, "other_load": second.load, "other": other}
        if "length" in difference.ways:  # else it may be known of one only, or of none
            one, two = first.lengths[part], second.lengths[part]
            values |= {"word": one.word, "percent": f"{one.percent}", "other_word": two.word, "other_percent": f"{two.percent}"}
        if "joint" in difference.ways:
            values |= {"joint": self._joints[first.joints[part]], "other_joint": self._joints[second.joints[part]]}
        return " ".join(self._filled(f"differs-{way}", part, **values) for way in difference.ways)

    def costs(self, proposal: Proposal, sets: int) -> str:
        """What the sets of the proposal count for besides the chosen parts."""
        counted: dict[float, list[str]] = {}
        for part, value in proposal.costs.items():
            counted.setdefault(value, []).append(self._names.part(part))
        told = [WORDS["costs"].format(sets=sets, counted=f"{value:g}", part=listed(parts))
                for value, parts in sorted(counted.items(), reverse=True)]
        return " ".join(told) or WORDS["costs-nothing"]

    def warning(self, found: Warning) -> str:
        """What a week goes against."""
        days = [DAYS[number] for number in (*found.days, *found.days)]
        exercises = [self._names.exercise(id) for id in found.exercises] or ["", ""]
        return WORDS[found.kind].format(
            Parts=upper_first(self._names.parts(found.parts)) if found.parts else "", sets=_number(found.sets), bound=_number(found.bound),
            day=days[0] if days else "", next_day=days[1] if days else "", Day=days[0] if days else "",
            exercise=exercises[0], main=exercises[1])

    def _filled(self, key: str, part: str, **values: Any) -> str:
        inside = self._names.part(part)
        return WORDS[key].format(part=inside, Part=upper_first(inside), **values)


def grounds(found: Warning, goal: str) -> str:
    """The anchor on the page of the programme that says so."""
    return GROUNDS[found.kind].format(goal=goal)


def _number(value: float | None) -> str:
    return "" if value is None else f"{value:g}"
