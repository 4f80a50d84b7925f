"""Curves whose shape is known in closed form."""

from math import radians, sin

from build_tools.movement.load.curve import Curve, Instant

STEPS = 141


def curve(law, start, end, joint="elbow", steps=STEPS):
    """The moment ``law(angle in degrees)`` at evenly spaced angles."""

    def sample(i):
        angle = start + (end - start) * i / (steps - 1)
        return Instant(i / (steps - 1), angle, law(angle))

    return Curve(joint, tuple(map(sample, range(steps))))


def hanging(angle):
    """A weight on a segment at this angle from hanging: the moment goes with the sine."""
    return 25.5 * sin(radians(angle))
