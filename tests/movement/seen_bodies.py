"""Bodies of 1.75 m in the shipped vocabulary, with ten kilograms to hold.

The lengths are those of Winter's figure 4.1: upper arm 0.186, forearm 0.146, grip 0.04, shoulder width 0.259 of the stature.
"""

from __future__ import annotations

import shipped_made
from repetitions import WEIGHTLESS

from build_tools.catalog.entries import Movement
from build_tools.movement.load.curve import Curve
from build_tools.movement.load.moments import Unknown, curves
from build_tools.movement.posture.body import Body
from build_tools.movement.posture.frame import Frame
from build_tools.movement.posture.pose import frames

VOCABULARY = shipped_made.vocabulary()


HALF, ARM, FOREARM, GRIP = 1.75 * 0.259 / 2, 1.75 * 0.372, 1.75 * 0.186, 1.75 * 0.04


G, MASS = 9.81, 10.0


DUMBBELLS = {"kind": "free-weight", "at": "hand"}


def made(
    position: str,
    start: dict[str, float],
    end: dict[str, float] | None = None,
    load: object = None,
    **more: object,
) -> Movement:
    resisted = load or {"kind": "body-weight"}
    return Movement.model_validate(
        {"position": position, "from": start, "to": end or start, "load": resisted, **more}
    )


def posture(*args: object, **more: object) -> Frame:
    return frames(made(*args, **more), VOCABULARY, steps=2)[0]  # type: ignore[arg-type]


def reckoned(
    movement: Movement, body: Body = WEIGHTLESS, one_side: bool = False
) -> dict[str, Curve] | Unknown:
    shown = frames(movement, VOCABULARY, body, steps=3)
    return curves(
        movement,
        VOCABULARY.positions[movement.position],
        shown,
        body,
        one_side=one_side,
        load_mass=MASS,
    )


def ends(movement: Movement, joint: str, one_side: bool = False) -> tuple[float, float]:
    found = reckoned(movement, one_side=one_side)
    assert not isinstance(found, Unknown), found.why
    return found[joint].samples[0].moment, found[joint].samples[-1].moment
