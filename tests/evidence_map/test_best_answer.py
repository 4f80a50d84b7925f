"""What answers for a part is the strongest kind of evidence that there is, and never two kinds mixed."""

from __future__ import annotations

from functools import cache

import pytest
import shipped_made

from build_tools.evidence_map.best_answer import BestAnswer, BestAnswers
from build_tools.evidence_map.grid import EvidenceMap


@cache
def answers() -> dict[str, BestAnswer]:
    catalog, conclusions = shipped_made.catalog(), shipped_made.conclusions()
    map = EvidenceMap(catalog, conclusions, shipped_made.courses())
    found = BestAnswers(catalog, conclusions, map)
    return {part: found.of(part) for part in map.parts}


@pytest.mark.parametrize(
    ("part", "kind", "more", "chosen"),
    [
        # Maeo 2023: long head 28.5% overhead against 19.6%.
        (
            "elbow-extensors/triceps-brachii-long-head",
            "growth",
            True,
            ("overhead-cable-extension",),
        ),
        # Maeo 2021: biceps femoris long head more with the seated curl, short head without a difference.
        ("hamstrings/biceps-femoris-long-head", "growth", True, ("seated-leg-curl",)),
        (
            "hamstrings/biceps-femoris-short-head",
            "growth",
            False,
            ("prone-leg-curl", "seated-leg-curl"),
        ),
        # Kinoshita 2023: gastrocnemius more standing, soleus without a difference.
        ("calf/gastrocnemius-medial-head", "growth", True, ("standing-calf-raise",)),
        ("calf/soleus", "growth", False, ("seated-calf-raise", "standing-calf-raise")),
        # Chaves 2020: upper chest 0.62 cm more on the incline, 95% interval 0.23 to 1.0.
        (
            "chest/pectoralis-major-clavicular-part",
            "growth",
            True,
            ("incline-bench-press",),
        ),
        # No study of the catalog measured it in two exercises.
        ("forearm/supinator", "none", False, ("band-forearm-rotation", "forearm-rotation")),
    ],
)
def test_what_papers_report_is_the_answer(
    part: str, kind: str, more: bool, chosen: tuple[str, ...]
) -> None:
    found = answers()[part]
    assert (found.kind, found.more, found.chosen) == (kind, more, chosen)


def test_only_exercises_that_train_the_part_are_chosen() -> None:
    exercises = shipped_made.catalog().exercises
    for part, found in answers().items():
        assert found.chosen
        for id in found.chosen:
            credit = exercises[id].data.set_credit
            assert part in credit or part.partition("/")[0] in credit, (part, id)


def test_activation_answers_only_where_no_growth_does() -> None:
    """And what leads there leads in the comparison that is told."""
    for found in answers().values():
        told = found.comparison
        if told is None:
            assert found.kind in ("length", "none")
            continue
        asked = told.question
        assert asked.outcome == found.kind
        if found.more:
            ahead = asked.first if told.side == "more" else asked.second
            assert told.finding in ("found", "hinted") and ahead == found.chosen[0]
        else:
            assert told.finding in ("unclear", "alike")


def test_who_came_out_behind_another_one_chosen_is_not_chosen() -> None:
    for part, found in answers().items():
        if not found.more or len(found.chosen) < 2:
            continue
        for field in shipped_made.conclusions().fields.values():
            if (field.part, field.outcome, field.relative_to) == (part, found.kind, None):
                for c in field.comparisons:
                    if {c.question.first, c.question.second} <= set(found.chosen):
                        assert c.side is None, part
