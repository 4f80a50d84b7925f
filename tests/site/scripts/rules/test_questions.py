"""What the page puts together answers as the whole does, from which it was divided."""

from __future__ import annotations

import shipped_made
from script_rules import questions, shortlist, words
from worlds import wish

from build_tools.planning.questions import of_muscle, shared

PARTS = [
    "hamstrings/semitendinosus",
    "deltoid/acromial-part",
    "hamstrings/biceps-femoris-short-head",
]


def test_each_muscle_is_asked_once_in_the_order_of_the_parts() -> None:
    assert questions.musclesOf(PARTS) == ["hamstrings", "deltoid"]


def test_an_answer_is_that_of_the_whole() -> None:
    whole = shipped_made.planner_data()
    files = [of_muscle(whole, muscle) for muscle in questions.musclesOf(PARTS)]
    data = questions.answerable(shared(whole), files)
    asked = wish(*PARTS, equipment=list(whole["equipment"]), week=["back-squat", "prone-leg-curl"])
    found = shortlist.shortlist(data, asked)
    assert found == shortlist.shortlist(whole, asked)
    assert found["proposals"]
    for part, places in found["options"].items():
        for place in places:
            for id in place["exercises"]:
                told = words.reason(data, id, part, place["kind"])
                assert told == words.reason(whole, id, part, place["kind"])


def test_what_a_page_was_given_stays_as_it_is() -> None:
    whole = shipped_made.planner_data()
    first = shared(whole)
    assert questions.answerable(first, [])["exercises"]["back-squat"]["best"] == {}
    assert "best" not in first["exercises"]["back-squat"]
