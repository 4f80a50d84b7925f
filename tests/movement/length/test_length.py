"""Relative length over a repetition: shares, rounding, words, and plain reasons where there is none."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from folders import DEMO, SHIPPED
from hypothesis import given
from hypothesis import strategies as st
from shipped_made import catalog

from build_tools.catalog.entries import Movement
from build_tools.catalog.load import Catalog, load
from build_tools.movement.length.length import (
    LONG,
    SHORT,
    Lengths,
    MeanLengths,
    Missing,
    Repetition,
    path,
    percent,
)

LONG_HEAD, SHORT_HEAD = (
    "hamstrings/biceps-femoris-long-head",
    "hamstrings/biceps-femoris-short-head",
)
HAMSTRINGS = [LONG_HEAD, SHORT_HEAD, "hamstrings/semitendinosus", "hamstrings/semimembranosus"]


@pytest.fixture(scope="module")
def lengths() -> Lengths:
    return Lengths(catalog())


def moving(**changes: object) -> Movement:
    return Movement.model_validate(
        {
            "position": "prone",
            "from": {"hip": 0, "knee": 0},
            "to": {"hip": 0, "knee": 100},
            "load": {"kind": "machine"},
            **changes,
        }
    )


def test_the_ends_of_the_range(lengths: Lengths) -> None:
    """The long head is longest folded at the hip with a straight knee (anatomy: it crosses behind both)."""
    assert lengths.relative(LONG_HEAD, {"hip": 120, "knee": 0}) == 1
    assert lengths.relative(LONG_HEAD, {"hip": -20, "knee": 120}) == pytest.approx(0, abs=0.01)
    assert lengths.relative(SHORT_HEAD, {}) == 1 and lengths.relative(
        SHORT_HEAD, {"knee": 120}
    ) == pytest.approx(0, abs=0.01)


def test_prone_and_seated_curl_as_measured_on_the_models(lengths: Lengths) -> None:
    """About 26% prone and 76% seated, on another model 28% and 72%: measured before this code was written (hips at 0 and 90 degrees,
    knee from 0 to 100). Published to 10%: 30 and 80 or 70."""
    prone, seated = (
        lengths.over(
            LONG_HEAD, moving(**{"from": {"hip": hip, "knee": 0}, "to": {"hip": hip, "knee": 100}})
        )
        for hip in (0, 90)
    )
    assert prone.mean == pytest.approx(0.26, abs=0.03) and seated.mean == pytest.approx(
        0.76, abs=0.03
    )


@given(st.sampled_from(HAMSTRINGS), st.floats(-20, 120), st.floats(0, 120))
def test_a_share_lies_between_nothing_and_all(part: str, hip: float, knee: float) -> None:
    assert 0 <= Lengths(catalog()).relative(part, {"hip": hip, "knee": knee}) <= 1


@given(st.floats(0, 1))
def test_published_to_the_nearest_ten(share: float) -> None:
    shown = percent(share)
    assert shown in range(0, 101, 10) and abs(shown - 100 * share) <= 5 + 1e-9


@pytest.mark.parametrize(
    ("share", "shown"),
    [(0, 0), (0.049, 0), (0.05, 10), (0.25, 30), (0.449, 40), (0.95, 100), (1, 100)],
)
def test_rounding(share: float, shown: int) -> None:
    assert percent(share) == shown


def test_the_mean_is_over_time() -> None:
    """Worked by hand: 0, 1, 0 evenly spaced is one half on average; 0.2 to 0.6 in a straight line is 0.4."""
    assert Repetition((0, 1, 0)).mean == 0.5 and Repetition(
        (0.2, 0.3, 0.4, 0.5, 0.6)
    ).mean == pytest.approx(0.4)
    found = Repetition((0.2, 0.9, 0.1, 0.4))
    assert (found.start, found.end, found.shortest, found.longest) == (0.2, 0.4, 0.1, 0.9)


@pytest.mark.parametrize(
    ("shares", "words"),
    [
        ((0.7, 0.9), "long throughout"),
        ((0.1, 0.3), "short throughout"),
        ((0.2, 0.8), "from short to long"),
        ((0.9, 0.2), "from long to short"),
        ((0.9, 0.6), "mostly long"),
        ((0.4, 0.1), "mostly short"),
        ((0.4, 0.6), "around the middle of its range"),
        ((0.4, 0.7), "from middling to long"),
        ((0.6, 0.2), "from middling to short"),
        ((LONG, LONG), "long throughout"),
        ((SHORT, SHORT), "short throughout"),
    ],
)
def test_words(shares: tuple[float, ...], words: str) -> None:
    assert Repetition(shares).words == words


def test_the_path_runs_through_what_lies_between(lengths: Lengths) -> None:
    steps = path([{"hip": 0}, {"hip": 90, "knee": 60}, {"hip": 0}])
    assert (
        steps[0] == {"hip": 0, "knee": 0}
        and steps[30] == {"hip": 45, "knee": 30}
        and steps[60] == {"hip": 90, "knee": 60}
    )
    assert steps[-1] == {"hip": 0, "knee": 0} and len(steps) == 121
    straight = lengths.over(LONG_HEAD, moving(**{"from": {"hip": 0}, "to": {"hip": 0}}))
    bent = lengths.over(
        LONG_HEAD, moving(**{"from": {"hip": 0}, "via": [{"hip": 90}], "to": {"hip": 0}})
    )
    assert straight.mean == pytest.approx(straight.longest)
    assert straight.mean < bent.mean < bent.longest == lengths.relative(LONG_HEAD, {"hip": 90})


@pytest.mark.parametrize("part", HAMSTRINGS)
def test_a_repetition_turned_round_has_the_same_mean(lengths: Lengths, part: str) -> None:
    there = lengths.over(part, moving())
    back = lengths.over(
        part, moving(**{"from": {"hip": 0, "knee": 100}, "to": {"hip": 0, "knee": 0}})
    )
    assert there.mean == pytest.approx(back.mean) and there.start == pytest.approx(back.end)


def test_shipped_exercises_have_lengths_unless_they_leave_the_box(lengths: Lengths) -> None:
    """Of those that a set of counts for the hamstrings; the tables hold only movement forwards and backwards."""
    shown = [
        entry.data.movement
        for entry in catalog().exercises.values()
        if any(ref.startswith("hamstrings") for ref in entry.data.set_credit)
        and entry.data.movement.view == "side"
    ]
    found = [lengths.over(part, movement) for movement in shown for part in HAMSTRINGS]
    missing = [f.why for f in found if isinstance(f, Missing)]
    assert len(found) - len(missing) > 80 and all(why.endswith("only") for why in missing)


# --- no value, and why -----------------------------------------------------------


def test_past_the_box_the_whole_repetition_has_none(lengths: Lengths) -> None:
    missing = lengths.over(LONG_HEAD, moving(to={"hip": 0, "knee": 130}))
    assert (
        isinstance(missing, Missing)
        and missing.why.startswith("the knee is at 130°")
        and "0° to 120° only" in missing.why
    )


def test_other_reasons(lengths: Lengths) -> None:
    assert lengths.relative("deltoid/anterior", {}) == Missing(
        "no model value is available for this muscle"
    )
    assert lengths.relative("hamstrings", {}) == Missing(
        "a group of parts has no length of its own"
    )
    assert lengths.over(LONG_HEAD, moving(view="front")) == Missing(
        "the model's tables hold no movement to the side"
    )
    assert lengths.over(LONG_HEAD, moving(view="above")) == Missing(
        "the model's tables hold no movement across the body"
    )
    assert lengths.over(LONG_HEAD, moving(position="floating")) == Missing(
        "the position is not known"
    )
    assert Lengths(Catalog(Path("nowhere"))).relative(LONG_HEAD, {}) == Missing(
        "no model value is available for this muscle"
    )


def test_a_muscle_that_fails_its_check_is_not_shown() -> None:
    demo = load(DEMO)
    model = demo.model.data
    wrong = model.muscles["long-head"].model_copy(
        update={"acts": {"hip": "flexes", "knee": "flexes"}}
    )
    demo.model = replace(
        demo.model, data=model.model_copy(update={"muscles": {**model.muscles, "long-head": wrong}})
    )
    found = Lengths(demo)
    assert found.relative("lantern/long-head", {}) == Missing(
        "the model disagrees with what was published on this muscle"
    )
    assert isinstance(found.relative("lantern/short-head", {}), float)


def test_muscles_without_a_part_are_known_by_their_own_id() -> None:
    bare = load(SHIPPED)
    model = bare.model.data
    bare.model = replace(
        bare.model,
        data=model.model_copy(
            update={
                "muscles": {
                    id: muscle.model_copy(update={"part": None})
                    for id, muscle in model.muscles.items()
                }
            }
        ),
    )
    lengths = Lengths(bare)
    assert lengths.relative("soleus", {"ankle": 30}) == 1
    assert lengths.relative("gastrocnemius-medial-head", {"knee": 0}) > lengths.relative(
        "gastrocnemius-medial-head", {"knee": 90}
    )


def test_no_length_where_a_joint_leaves_the_plane(lengths: Lengths) -> None:
    """A bench press drawn from the side: the true angle at the shoulder is not the drawn one."""
    press = {
        "position": "supine",
        "from": {"shoulder": 60, "elbow": 10},
        "to": {"shoulder": 0, "elbow": 90},
    }
    head = "elbow-extensors/triceps-brachii-long-head"
    assert isinstance(lengths.over(head, moving(**press)), Repetition)
    missing = lengths.over(head, moving(out_of_plane=["shoulder"], **press))
    assert missing == Missing("the joints that it crosses also move out of the drawn plane")
    assert isinstance(
        lengths.over(
            "elbow-extensors/triceps-brachii-lateral-head",
            moving(out_of_plane=["shoulder"], **press),
        ),
        Repetition,
    )


def test_lengths_of_a_state_before_are_kept_for_exercises_that_did_not_change() -> None:
    shipped = catalog()
    curl, other = (shipped.exercises[id] for id in ("seated-leg-curl", "prone-leg-curl"))
    before = MeanLengths(shipped)
    told = before("seated-leg-curl", LONG_HEAD), before("prone-leg-curl", LONG_HEAD)
    lying = curl.data.model_copy(update={"movement": other.data.movement})
    changed = replace(shipped, exercises={**shipped.exercises, curl.id: replace(curl, data=lying)})
    after = MeanLengths(changed, before)
    assert (after("seated-leg-curl", LONG_HEAD), after("prone-leg-curl", LONG_HEAD)) == (
        told[1],
        told[1],
    )
    assert after("seated-leg-curl@none", LONG_HEAD) == MeanLengths(changed)(
        "seated-leg-curl@none", LONG_HEAD
    )


def test_what_the_evidence_engine_is_told() -> None:
    tell = MeanLengths(catalog())
    assert tell("seated-leg-curl", LONG_HEAD) > tell("prone-leg-curl", LONG_HEAD) + 0.3
    assert tell("seated-leg-curl", "hamstrings") == "a group of parts has no length of its own"
    assert tell("no-such-lift", LONG_HEAD) == "the exercise is not known"
