"""The catalog we publish has nothing to mend, warnings included, covers the whole body, and its conclusions are committed."""

from __future__ import annotations

from collections import Counter

import pytest
import shipped_made

from build_tools.catalog import care
from build_tools.catalog.load import Catalog
from build_tools.catalog.walk import client_texts
from build_tools.checks import reading, reports
from build_tools.checks.profile import load_profile
from build_tools.committed import files as committed
from build_tools.movement.load.working import working_segment
from build_tools.movement.posture.limits import moving_joints
from build_tools.movement.posture.pose import frames
from build_tools.pipeline import Opened, run
from build_tools.site.figures.figure import STEPS, figure


@pytest.fixture(scope="module")
def catalog() -> Catalog:
    return shipped_made.catalog()


def test_nothing_to_mend_under_strict(catalog: Catalog) -> None:
    # Judged on the day of the newest review: a test must not begin to fail because time passes.
    # `make check` judges by the present day.
    newest = max(
        entry.data.reviewed
        for folder in (catalog.muscles, catalog.exercises)
        for entry in folder.values()
    )
    checked = run(Opened(catalog, newest, load_profile()))
    assert not checked.reported, "\n" + reports.render(reports.Report(checked.reported), "text")
    assert checked.conclusions is not None
    # What a pull request shows is what the numbers give. After a wanted change: handbook conclude
    assert committed.stale(committed.files(checked.conclusions, catalog), catalog) == []


def test_the_whole_body_is_covered(catalog: Catalog) -> None:
    assert catalog.vocabulary and catalog.programme
    assert len(catalog.exercises) >= 120
    assert {muscle.data.region for muscle in catalog.muscles.values()} == set(
        catalog.vocabulary.data.regions
    )
    # The rule `part-exercises` counts them.
    assert catalog.handbook and catalog.handbook.data.conventions.exercises_per_part
    assert catalog.handbook.data.conventions.exercises_per_part.value >= 3


#: Signs that need help at once, as beginnings of words, beside where they are listed. Back: a physiotherapy journal's page on the national
#: pathway for the nerves at the base of the spine (2024). Pregnancy: the signs of ACOG Committee Opinion 804 and of the edition before
#: it in four restatements, of the 2019 Canadian guideline in one, and of a review of 2017 (`pregnancypa2017`). Everybody: first-aid
#: teaching, from memory.
SIGNS = {
    None: ["chest", "faint", "breath", "face", "arm", "leg", "weak", "numb"],
    "lower-back": ["numb between the legs", "bladder", "bowel", "leg goes weak"],
    "pregnancy": [
        "bleed",
        "fluid",
        "regular cramps",
        "head",
        "chest",
        "calf is sore or swollen",
        "dizzy",
        "weak",
        "breathless before you start",
        "child moves less",
        "maternity team",
    ],
    "blood-pressure": ["headache", "sight", "speech"],
}


def test_signs_that_need_help_at_once_are_told(catalog: Catalog) -> None:
    assert catalog.vocabulary and catalog.handbook
    told = {
        id: " ".join(line.say for line in concern.help_at_once)
        for id, concern in catalog.vocabulary.data.concerns.items()
        if concern.help_at_once
    }
    told[None] = " ".join(catalog.handbook.data.notice.help_at_once)
    assert {
        id: [sign for sign in signs if sign not in told[id]] for id, signs in SIGNS.items()
    } == {id: [] for id in SIGNS}
    notice = " ".join(catalog.handbook.data.notice.long)
    assert "Very high blood pressure" in notice
    # Such signs stand in the box that says to call, not among what follows it.
    assert [sign for sign in ("emergency", "between the legs", "bladder") if sign in notice] == []


def test_nobody_with_a_red_flag_is_offered_a_lift_first(catalog: Catalog) -> None:
    """What one concern asks of all its exercises stands with it; the rule `caution-red-flags` holds the single cautions."""
    assert catalog.vocabulary
    concerns = catalog.vocabulary.data.concerns
    lines = {
        id: concerns[id].before.say
        for id in ("blood-pressure", "heart", "eye-pressure", "operation", "pregnancy", "numbness")
    }
    assert (
        "do not lift until a doctor clears you" in lines["blood-pressure"]
        and "After three months" in lines["pregnancy"]
    )
    said = [
        (id, caution.who.lower())
        for id, exercise in catalog.exercises.items()
        for caution in exercise.data.cautions
    ]
    assert [(id, who) for id, who in said if "very high" in who or "under control" in who] == []
    names = {id: care.named(exercise.data) for id, exercise in catalog.exercises.items()}
    assert "weak-bones" in names["hanging-knee-raise"] & names["hanging-leg-raise"]
    for id in (
        "glute-ham-raise",
        "reverse-hyperextension",
        "decline-bench-press",
        "pike-push-up",
        "raised-feet-push-up",
        "hip-extension-45",
    ):
        assert {"blood-pressure", "eye-pressure", "dizziness"} <= names[id], id


def test_every_exercise_has_a_figure_that_moves_or_holds(catalog: Catalog) -> None:
    assert catalog.vocabulary
    vocabulary, still = catalog.vocabulary.data, []
    for id, exercise in catalog.exercises.items():
        drawn = figure("figure", exercise.data, vocabulary)
        assert len(drawn.poses) >= (1 if exercise.data.movement.hold else 2), id
        assert all(pose.shapes and pose.says for pose in drawn.poses), id
        first, last = (
            sorted(shape.d for shape in pose.shapes if shape.style in ("work", "body", "far"))
            for pose in (drawn.poses[0], drawn.poses[-1])
        )
        assert working_segment(frames(exercise.data.movement, vocabulary, steps=STEPS)), id
        if first == last:
            still.append(id)
    # Nothing moves in a hold, and no flat drawing shows a limb that turns about its own length.
    unseen = {
        id: moving_joints(exercise.data.movement) - {"forearm-rotation"}
        for id, exercise in catalog.exercises.items()
    }
    assert set(still) == {id for id, joints in unseen.items() if not joints}
    assert {id for id in still if not moving_joints(catalog.exercises[id].data.movement)} == {
        id for id, exercise in catalog.exercises.items() if exercise.data.movement.hold
    }


def test_every_kind_of_place_is_served(catalog: Catalog) -> None:
    """Barbell, dumbbell, cable, machine, band and body weight in every region that a coach would look for them in."""
    assert catalog.vocabulary
    kinds = Counter(exercise.data.movement.load.kind for exercise in catalog.exercises.values())
    assert (
        min(kinds[kind] for kind in ("free-weight", "cable", "machine", "band", "body-weight"))
        >= 10
    )
    home = {
        id
        for id, exercise in catalog.exercises.items()
        if set(exercise.data.equipment)
        <= {
            "none",
            "chair",
            "band",
            "wall",
            "sliders",
            "box",
            "small-ball",
            "dumbbell",
            "low-anchor",
        }
    }
    region = {id: muscle.data.region for id, muscle in catalog.muscles.items()}
    served = {
        region[ref.split("/")[0]] for id in home for ref in catalog.exercises[id].data.set_credit
    }
    assert served == set(catalog.vocabulary.data.regions)


def test_clients_can_read_every_exercise(catalog: Catalog) -> None:
    """School grade of the whole of what a client reads; the single limit stands in the rule `client-reading-age`."""
    grades = {
        id: reading.grade([text for path, text in client_texts(e.data) if path[-1] != "ask"])
        for id, e in catalog.exercises.items()
    }
    assert max(grades.values()) <= 6


def test_the_programme_serves_both_goals_and_every_careful_group(catalog: Catalog) -> None:
    assert catalog.programme
    programme = catalog.programme.data
    assert set(programme.goals) == {"growth", "strength"}
    growth, strength = (dict(programme.goals[goal].items()) for goal in ("growth", "strength"))
    for key, dose in growth.items():  # a plan is counted once and held against either goal
        assert dose.unit == strength[key].unit, key
    assert (programme.credits.direct.value, programme.credits.indirect.value) == (1, 0.5)
    assert set(programme.careful) >= {
        "complete-beginners",
        "older-adults",
        "children-and-young-people",
        "pregnancy",
        "high-blood-pressure-and-heart-disease",
        "pain-and-injury",
    }


def test_no_range_rests_on_hearsay_alone(catalog: Catalog) -> None:
    """A figure read second-hand stands beside a source that was read, or the range says that it was read second-hand."""
    assert catalog.programme
    for goal, doses in catalog.programme.data.goals.items():
        for key, dose in doses.items():
            hearsay = [c for c in dose.cites if "second-hand" in (c.at or "")]
            assert len(hearsay) < len(dose.cites) or not hearsay or "second-hand" in dose.unsure, (
                goal,
                key,
            )
