"""Warning signs are not answered with a lift: texts that an independent reading found dangerous, and what they became."""

from __future__ import annotations

from dataclasses import replace

import pytest
import shipped_made
from examples import TODAY

from build_tools.checks.rule import Context
from build_tools.checks.rules import (
    caution_red_flags,
)


# Texts that stood in this repository's catalog until an independent reading of its cautions found them dangerous or too weak,
# each with the words that were mended; and what they became. The vocabulary is the shipped one.
@pytest.mark.parametrize(
    ("position", "caution", "broken"),
    [
        (
            "standing",
            {
                "who": "Anyone with back pain or very high blood pressure.",
                "concerns": ["lower-back", "blood-pressure"],
                "instead": "Sit with back support and breathe out as you press.",
                "ask": "Your doctor before heavy standing lifts.",
            },
            ["who"],
        ),
        (
            "standing",
            {
                "who": "Anyone with high blood pressure that is not under control.",
                "concerns": ["blood-pressure"],
                "instead": "Sit down and use light weights by your sides.",
                "ask": "Your doctor.",
            },
            ["instead", "who"],
        ),
        (
            "standing",
            {
                "who": "Anyone told to avoid straining or holding the breath.",
                "concerns": ["blood-pressure"],
                "stop_if": "You feel faint or your chest feels tight.",
                "ask": "Your doctor.",
            },
            ["instead", "stop_if"],
        ),
        (
            "standing",
            {
                "who": "Anyone with high blood pressure or heart disease.",
                "concerns": ["blood-pressure", "heart"],
                "stop_if": "You feel faint, your head pounds or your chest hurts.",
                "ask": "Your doctor, before heavy sets.",
            },
            ["stop_if"],
        ),
        (
            "on-flat-bench",
            {"who": "Anyone with a sore, loose or operated shoulder.", "concerns": ["shoulder"]},
            ["who"],
        ),
        (
            "on-flat-bench",
            {
                "who": "Anyone with a sore, loose or operated shoulder.",
                "concerns": ["shoulder", "operation"],
                "instead": "Use a machine fly with a stop, or a floor press.",
            },
            ["instead"],
        ),
        (
            "on-flat-bench",
            {
                "who": "Anyone late in pregnancy, or unwell when lying flat.",
                "concerns": ["pregnancy"],
            },
            ["who"],
        ),
        (
            "forearms-on-floor",
            {"who": "Anyone late in pregnancy or soon after a birth.", "concerns": ["pregnancy"]},
            [],
        ),
        (
            "standing",
            {
                "who": "Anyone with back pain, disc trouble or leg numbness.",
                "concerns": ["lower-back", "numbness"],
                "instead": "Choose a sliding leg curl or a seated leg curl for now.",
            },
            ["instead"],
        ),
        (
            "standing",
            {
                "who": "Anyone with wrist pain, a recent break, or numb fingers.",
                "concerns": ["wrist-hand", "numbness"],
                "instead": "Squeeze a soft ball with a straight wrist.",
            },
            ["instead"],
        ),
        (
            "standing",
            {
                "who": "Anyone with chest pain.",
                "concerns": ["heart"],
                "instead": "Use a lighter weight.",
                "ask": "Your doctor first.",
            },
            ["instead"],
        ),
        (
            "standing",
            {
                "who": "Anyone with high blood pressure.",
                "concerns": ["blood-pressure"],
                "instead": "Once your doctor agrees, press light dumbbells.",
                "ask": "Your doctor first.",
            },
            [],
        ),
        (
            "on-flat-bench",
            {
                "who": "Anyone with a sore, loose or operated shoulder.",
                "concerns": ["shoulder", "operation"],
                "instead": "After an operation, wait for a go-ahead.",
            },
            [],
        ),
        (
            "seated-upright",
            {
                "who": "Anyone after surgery to the heart.",
                "concerns": ["operation", "heart"],
                "instead": "Wait for a go-ahead.",
                "stop_if": "For chest pain, call for help at once.",
                "ask": "The surgeon first.",
            },
            [],
        ),
    ],
)
def test_red_flags_are_not_answered_with_a_lift(
    position: str, caution: dict[str, object], broken: list[str]
) -> None:
    shipped = shipped_made.catalog()
    entry = shipped.exercises["overhead-press"]
    movement = entry.data.movement.model_copy(update={"position": position})
    plain = {"instead": "Leave it out.", "stop_if": "Pain grows.", "ask": "A doctor."}
    changed = entry.data.cautions[0].model_copy(update={**plain, **caution})
    pressed = replace(
        entry, data=entry.data.model_copy(update={"cautions": [changed], "movement": movement})
    )
    catalog = replace(shipped, exercises={**shipped.exercises, entry.id: pressed})
    spots = {
        entry.spot("cautions", 0, place): place for place in ("who", "instead", "stop_if", "ask")
    }
    missing = entry.spot("cautions", key=True)  # what the position needs is another test's matter
    found = [p.spot for p in caution_red_flags.check(Context(catalog, TODAY)) if p.spot in spots]
    assert missing not in spots
    assert sorted({spots[spot] for spot in found}) == broken


def test_a_concern_is_heard_wherever_its_word_begins() -> None:
    assert caution_red_flags.first(["operat"], "A recently OPERATED knee.") == "OPERATED"
    assert caution_red_flags.first(["operat"], "Anyone cooperative.") is None
    assert caution_red_flags.first([], "Anything.") is None
