"""How hands hold is told by the catalog, drawn and put into words; and only what the exercise's own cues say."""

from __future__ import annotations

import re
from typing import get_args

import pytest
import shipped_made

from build_tools.catalog.entries import Exercise, Movement
from build_tools.site.figures.insets.hands import SHOULDERS, hands, says
from build_tools.site.figures.insets.inset import Inset

TOLD = {
    id: e.data
    for id, e in shipped_made.catalog().exercises.items()
    if e.data.movement.hand_width or e.data.movement.stance
}
#: Hand width or stance -> words, one of which a set-up or move cue must hold.
CUED = {
    "thumb-apart": "thumb",
    "hand-apart": "hand's width apart",
    "one-handle": "narrow handle",
    "two-handles": "two handles|both handles",
    "shoulder-wide": "wide as (your|the) shoulders|shoulder.width|shoulder.wide|about shoulder",
    "little-wider": "little wider|bit wider|outside (your )?shoulder",
    "wider": "wider than your shoulders",
    "much-wider": "clearly wider|palm wider",
    "outside-legs": "outside your legs",
    "between-knees": "between your knees",
    "at-sides": "each side|against your sides",
    "under-hips": "under your hips",
    "wider-than-hips": "wider than your hips",
    "wider-than-shoulders": "wider than your shoulders",
    "wide": "feet wide",
}


def cues(exercise: Exercise) -> str:
    return " ".join(cue.do for cue in [*exercise.cues.set_up, *exercise.cues.move])


def drawn(id: str) -> Inset:
    inset = hands(shipped_made.catalog().exercises[id].data, shipped_made.vocabulary())
    assert inset
    return inset


@pytest.mark.parametrize("id", TOLD)
def test_nothing_is_told_that_no_cue_says(id: str) -> None:
    movement = TOLD[id].movement
    for word in (movement.hand_width, movement.stance):
        if word:
            assert re.search(CUED[word], cues(TOLD[id]), re.IGNORECASE), word


def test_every_grip_has_words() -> None:
    grips = {grip for grip in get_args(get_args(Movement.model_fields["grip"].annotation)[0])}
    assert grips == set(shipped_made.vocabulary().grips)


def test_words_tell_palms_thumbs_and_width() -> None:
    exercises, vocabulary = shipped_made.catalog().exercises, shipped_made.vocabulary()
    assert says(exercises["chin-up"].data, vocabulary) == (
        "Underhand (thumbs point outwards), hands as wide as the shoulders"
    )
    assert says(exercises["push-up"].data, vocabulary) == (
        "Hands a little wider than the shoulders"
    )
    assert says(exercises["hammer-curl"].data, vocabulary).startswith("Palms facing each other")


def test_wider_hands_are_drawn_further_apart() -> None:
    def reach(id: str) -> float:
        return max(x for s in drawn(id).shapes if s.style == "body" for x, _ in s.room)

    order = ["close-hands-push-up", "push-up", "wide-hands-push-up"]
    assert sorted(order, key=reach) == order
    assert reach("close-hands-push-up") < SHOULDERS / 2 < reach("push-up")
    assert reach("close-grip-pulldown") < reach("underhand-pulldown") < reach("lat-pulldown")


def test_thumbs_tell_the_grip() -> None:
    """Overhand thumbs point at each other, underhand ones outwards: anatomy, with the hand on a bar before the body."""

    def thumb(id: str) -> float:
        """How far the right-hand glyph reaches inwards less how far outwards of its palm."""
        glyph = next(s for s in drawn(id).shapes if s.style == "body")
        xs = [x for x, _ in glyph.room[:4]]
        middle = (min(xs) + max(xs)) / 2
        every = [x for x, _ in glyph.room]
        return (middle - min(every)) - (max(every) - middle)

    assert thumb("pull-up") > 0 > thumb("chin-up")
    assert thumb("reverse-curl") > 0 > thumb("barbell-curl")
