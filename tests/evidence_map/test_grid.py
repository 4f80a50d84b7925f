"""The map of the shipped catalog says what its conclusions say, and no more."""

from __future__ import annotations

from functools import cache

import pytest
import shipped_made

from build_tools.evidence.treatments import is_version
from build_tools.evidence_map.grid import EvidenceMap
from build_tools.evidence_map.marks import Mark


@cache
def shipped() -> EvidenceMap:
    return EvidenceMap(shipped_made.catalog(), shipped_made.conclusions(), shipped_made.courses())


def test_a_filled_mark_rests_on_a_difference_found_on_the_part_itself() -> None:
    comparisons = [
        *(c for field in shipped_made.conclusions().fields.values() for c in field.comparisons),
        *(
            c
            for of in shipped_made.conclusions().claims.values()
            for conclusion in of
            for c in conclusion.comparisons
        ),
    ]
    led = {
        (
            asked.outcome,
            asked.first if c.side == "more" else asked.second,
            asked.part,
        )
        for c in comparisons
        if c.finding == "found" and c.measured == "part"
        if not (c.question.relative_to or c.question.within)
        for asked in (c.question,)
    }
    filled = {
        (mark.kind, id, cell.part)
        for id in shipped_made.catalog().exercises
        for cell in shipped().strip(id)
        if (mark := cell.mark) and mark.fill == "found"
    }
    assert filled and filled <= led


@pytest.mark.parametrize(
    ("exercise", "part", "mark"),
    [
        # Maeo 2021: biceps femoris long head 14% against 9%, short head 10% against 9% without a difference.
        ("seated-leg-curl", "hamstrings/biceps-femoris-long-head", Mark("growth", "found")),
        # Kinoshita 2023: gastrocnemius lateral 12.4% against 1.7%; soleus 2.1% against 2.9% without a difference.
        ("standing-calf-raise", "calf/gastrocnemius-lateral-head", Mark("growth", "found")),
        ("standing-calf-raise", "calf/soleus", Mark("growth", "no more")),
        ("seated-calf-raise", "calf/soleus", Mark("growth", "no more")),
    ],
)
def test_what_papers_report_of_a_part_is_its_mark(exercise: str, part: str, mark: Mark) -> None:
    assert shipped().cell(exercise, part).mark == mark


def test_two_parts_of_one_exercise_give_no_mark() -> None:
    """Kubo 2019 compares vastus lateralis with rectus femoris in squats, which ranks no exercises."""
    cell = shipped().cell("back-squat", "quadriceps/vastus-lateralis")
    assert cell.mark != Mark("growth", "found") and cell.aside
    assert all("/" not in (reason.against or "") for reason in cell.reasons)


def test_a_strip_holds_every_part_that_a_set_counts_for() -> None:
    for id, entry in shipped_made.catalog().exercises.items():
        held = {cell.part for cell in shipped().strip(id)}
        for ref in entry.data.set_credit:
            assert any(part == ref or part.startswith(f"{ref}/") for part in held), (id, ref)


def test_every_exercise_of_a_muscle_stands_in_its_block_once() -> None:
    for muscle in shipped_made.catalog().muscles:
        block = shipped().block(muscle)
        ids = [row.exercise for row in (*block.rows, *block.blank)]
        assert len(ids) == len(set(ids))
        direct = {
            id
            for id, entry in shipped_made.catalog().exercises.items()
            if any(
                ref.partition("/")[0] == muscle and credit == "direct"
                for ref, credit in entry.data.set_credit.items()
            )
        }
        assert direct <= set(ids)
        bests = [row.best for row in block.rows]
        assert bests == sorted(bests)


def test_a_cell_without_a_mark_was_compared_by_nobody() -> None:
    measured = {
        (side, field.part)
        for field in shipped_made.conclusions().fields.values()
        if field.outcome in ("growth", "activation") and field.relative_to is None
        for comparison in field.comparisons
        if comparison.finding != "not studied"
        and not any(
            is_version(side) for side in (comparison.question.first, comparison.question.second)
        )
        for side in (comparison.question.first, comparison.question.second)
    }
    for id in shipped_made.catalog().exercises:
        for part in shipped().parts:
            if (id, part) in measured:
                assert shipped().cell(id, part).tested, (id, part)
