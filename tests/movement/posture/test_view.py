"""What every view shows, its words, and what is found to be wrong in it."""

from __future__ import annotations

from typing import get_args

import pytest
from seen_bodies import VOCABULARY, made, posture

from build_tools.catalog.entries import Movement
from build_tools.movement.load.working import working_segment
from build_tools.movement.posture.limits import impossible, not_shown, out_of_range
from build_tools.movement.posture.pose import PLACE, VIEWS, frames
from build_tools.movement.posture.words import key_postures, placed, seen


def test_every_view_that_the_catalog_may_write_is_placed_and_shows_what_it_reckons_with() -> None:
    assert list(VIEWS) == list(get_args(Movement.model_fields["view"].annotation))
    assert set(PLACE) == set(VIEWS.values())
    for name, view in VIEWS.items():
        assert posture("standing", {"elbow": 0}, view=name).view is view
        assert view.reckoned | view.turns.keys() | view.unreckoned_standing | set(
            view.stands_for.values()
        ) <= set(view.joints)
        assert set(view.joints) <= VOCABULARY.joints.keys(), "the vocabulary names each joint"


@pytest.mark.parametrize(
    ("view", "at"), [("side", (0.5, 1.2)), ("front", (-0.3, 1.2)), ("above", (0.3, 0.5))]
)
def test_a_place_half_a_metre_ahead_and_0_3_to_the_right_is_seen_from_each_side(
    view: str, at: tuple[float, float]
) -> None:
    """Right is to the left of the page from the front, and to the right from the head of someone who faces up the page."""
    assert VIEWS[view].on_page(
        (0.0, 0.0), 0.0, forward=0.5, left=-0.3, height=1.2
    ) == pytest.approx(at)


# --- words and checks -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("position", "view", "words"),
    [
        ("standing", "side", ""),
        ("standing", "front", "seen from the front"),
        ("standing", "above", "seen from above"),
        ("on-flat-bench", "above", "seen from the head end"),
        ("bent-over", "above", "seen from the front"),
        ("sitting-on-floor", "above", "seen from above"),
    ],
)
def test_from_where_it_is_seen(position: str, view: str, words: str) -> None:
    assert seen(made(position, {"elbow": 0}, view=view), VOCABULARY) == words


def test_the_words_of_a_view_and_of_the_other_side() -> None:
    turn = made(
        "standing",
        {"shoulder-rotation": 40},
        {"shoulder-rotation": -30},
        view="above",
        other={"from": {"shoulder-rotation": 0}, "to": {"shoulder-rotation": 0}},
    )
    assert placed(turn, VOCABULARY) == "Standing, seen from above"
    assert [told.words for told in key_postures(turn, VOCABULARY)] == [
        "forearms turned in 40°; other side: forearms pointing ahead",
        "forearms turned out 30°; other side: forearms pointing ahead",
    ]


@pytest.mark.parametrize(
    ("movement", "segment"),
    [
        (made("forearms-on-floor", {"hip": 0}), "trunk"),
        (made("seated", {"wrist": -40}, {"wrist": 40}), "forearm"),
        (
            made(
                "standing-tall", {"scapular-elevation": 0}, {"scapular-elevation": 25}, view="front"
            ),
            "upper_arm",
        ),
        (
            made("standing", {"shoulder-rotation": 40}, {"shoulder-rotation": -40}, view="above"),
            "forearm",
        ),
        (made("seated", {"hip-abduction": 0}, {"hip-abduction": 35}, view="above"), "thigh"),
        (made("standing", {"spine-rotation": -40}, {"spine-rotation": 40}, view="above"), "trunk"),
    ],
)
def test_what_works(movement: Movement, segment: str) -> None:
    assert working_segment(frames(movement, VOCABULARY)) == segment


def test_checks_know_the_views() -> None:
    assert [t.path for t in impossible(made("side-lying", {"hip": 0}), VOCABULARY)] == [
        ("position",)
    ]
    assert not list(
        impossible(made("standing", {"shoulder-horizontal": 0}, view="above"), VOCABULARY)
    ), "no floor is seen"
    assert [t.path for t in out_of_range(made("seated", {"wrist": 120}))] == [
        ("from", "wrist"),
        ("to", "wrist"),
    ]
    assert [t.path for t in not_shown(made("seated", {"knee": 10}, view="above"))] == [
        ("from", "knee"),
        ("to", "knee"),
    ]
