"""Statements under other ids: renamed there and back they are what they were, whichever way a pair's order turned."""

from __future__ import annotations

import pytest
from folders import SHIPPED

from build_tools.committed import files, moves
from build_tools.revisions.statements import Renames, under_present_ids

TEXTS = files.stored_texts(SHIPPED)
STATEMENTS = moves.statements(TEXTS, TEXTS)
NONE: dict[str, str] = {}


def test_without_renames_nothing_is_touched() -> None:
    assert under_present_ids(STATEMENTS, STATEMENTS, Renames(NONE, NONE, NONE)) is STATEMENTS


@pytest.mark.parametrize(
    ("id", "other"),
    [("back-squat", "a-squat"), ("back-squat", "z-squat"), ("seated-leg-curl", "a-curl")],
)
def test_an_exercise_there_and_back(id: str, other: str) -> None:
    there = under_present_ids(STATEMENTS, {}, Renames({id: other}, NONE, NONE))
    assert len(there) == len(STATEMENTS)
    told = {side for one in there.values() for side in (one.asked.first, one.asked.second)}
    assert id not in {side.partition("@")[0] for side in told} and other in told
    back = under_present_ids(there, STATEMENTS, Renames({other: id}, NONE, NONE))
    assert back == STATEMENTS


def test_a_pair_whose_order_turned_is_the_same_with_its_sides_exchanged() -> None:
    """Two exercises that exchange their names: the pair stands as before, and the other one is ahead."""
    one = next(
        one
        for one in STATEMENTS.values()
        if not one.asked.is_claim
        and one.told.answers[0].side == "more"
        and "@" not in f"{one.asked.first}{one.asked.second}"
    )
    first, second = one.asked.first, one.asked.second
    exchanged = Renames({first: second, second: first}, NONE, NONE)
    [there] = under_present_ids({one.key: one}, {}, exchanged).values()
    assert (there.asked.first, there.asked.second) == (second, first)
    assert there.told.answers[0].side == "more"
    [again] = under_present_ids({one.key: one}, {one.key: one}, exchanged).values()
    assert again.asked == one.asked and again.told.answers[0].side == "less"


def test_muscles_and_sources_are_renamed_wherever_they_stand() -> None:
    renames = Renames(NONE, {"hamstrings": "thigh-back"}, {"maeo2021": "maeo2020"})
    there = under_present_ids(STATEMENTS, {}, renames)
    parts = {answer.part for one in there.values() for answer in one.told.answers}
    pages = {one.asked.page for one in there.values()}
    keys = {key for one in there.values() for key in one.told.rests_on}
    assert "thigh-back" in parts and not [p for p in parts if p.startswith("hamstrings")]
    assert "/muscles/thigh-back/" in pages and "/muscles/hamstrings/" not in pages
    assert "maeo2020" in keys and "maeo2021" not in keys
    old = sorted(one.told.sentence for one in STATEMENTS.values())
    assert sorted(one.told.sentence for one in there.values()) == old
