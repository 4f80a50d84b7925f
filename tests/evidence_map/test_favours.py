"""The line of an exercise says no more than its marks, and not much more than a breath takes.

From outside: the words of certainty are GRADE's informative statements (Santesso 2020: low "may", moderate "probably", high plain).
"""

from __future__ import annotations

from functools import cache

import pytest
import shipped_made

from build_tools.evidence_map.favours import NO_GROWTH, FavourSentences
from build_tools.evidence_map.grid import EvidenceMap
from build_tools.evidence_map.marks import Mark

#: Words that a coach takes in between two clients. Convention.
BREATH = 45
EXERCISES = sorted(shipped_made.catalog().exercises)


@cache
def shipped() -> EvidenceMap:
    return EvidenceMap(shipped_made.catalog(), shipped_made.conclusions(), shipped_made.courses())


@cache
def line(exercise: str) -> str:
    names = shipped_made.conclusions().names
    return FavourSentences(shipped(), names, shipped_made.catalog()).of(exercise)


@pytest.mark.parametrize("exercise", EXERCISES)
def test_a_line_is_short_and_starts_with_what_is_trained(exercise: str) -> None:
    assert len(line(exercise).split()) <= BREATH
    assert line(exercise).startswith("Trains ")


@pytest.mark.parametrize("exercise", EXERCISES)
def test_only_measured_growth_is_told_as_growth(exercise: str) -> None:
    marks = {
        reason.mark for cell in shipped().strip(exercise) if cell.counts for reason in cell.reasons
    }
    told = line(exercise).replace(NO_GROWTH, "").casefold()
    more = {mark for mark in marks if mark.kind == "growth" and mark.more}
    if not more:
        assert not any(word in told for word in ("may grow", "grew more", "seemed to grow"))
        assert "grows" not in told
    if not any(mark.kind == "growth" for mark in marks):
        assert "grow" not in told
    if "active" in told or "activity" in told:
        assert any(mark.kind == "activation" for mark in marks)


@pytest.mark.parametrize("exercise", EXERCISES)
def test_activation_never_stands_without_what_it_does_not_show(exercise: str) -> None:
    if "seemed more active" in line(exercise) or "showed more activity" in line(exercise):
        assert NO_GROWTH in line(exercise)


def test_what_is_found_is_told_with_its_people() -> None:
    cell = shipped().cell("seated-leg-curl", "hamstrings/biceps-femoris-long-head")
    text = line("seated-leg-curl")
    assert cell.mark == Mark("growth", "found")
    assert f"{cell.reasons[0].people} people" in text
    assert "biceps femoris" in text and ("May grow" in text or "do not lean" in text)


def test_an_exercise_that_nobody_compared_says_so() -> None:
    blank = [id for id in EXERCISES if all(not cell.reasons for cell in shipped().strip(id))]
    assert blank
    for id in blank:
        assert "No study here compares it." in line(id) or "compare only ranges" in line(id)
