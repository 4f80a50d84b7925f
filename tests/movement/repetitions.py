"""Repetitions to reckon with: classic lifts as an author would write them, in a vocabulary of their own."""

from dataclasses import replace

from build_tools.catalog.entries import Movement, Vocabulary
from build_tools.movement.load.curve import Curve
from build_tools.movement.load.moments import Unknown, curves
from build_tools.movement.posture.body import REFERENCE
from build_tools.movement.posture.pose import frames

VOCABULARY = Vocabulary.model_validate(
    {
        "equipment": {},
        "designs": {},
        "measures": {},
        "regions": {},
        "joints": {
            j: {"name": j.title(), "flexed": "bent", "straight": "straight"}
            for j in (
                "hip",
                "knee",
                "ankle",
                "spine",
                "shoulder",
                "elbow",
                "hip-abduction",
                "shoulder-abduction",
            )
        },
        "load_points": {p: {"name": p.title()} for p in ("hand", "ankle", "heel", "hips", "chest")}
        | {"shoulders": {"name": "Shoulders", "angles": {"shoulder": -30, "elbow": 150}}},
        "positions": {
            "standing": {"name": "Standing", "rests_on": {"feet": 0}, "fixes": "foot"},
            "standing-tall": {"name": "Standing tall", "rests_on": {"feet": 0}, "fixes": "trunk"},
            "on-toes": {"name": "On the toes", "rests_on": {"toes": 0}, "fixes": "trunk"},
            "seated": {
                "name": "Seated",
                "rests_on": {"seat": 0.45},
                "fixes": "thigh",
                "at": 90,
                "angles": {"hip": 90, "knee": 90},
            },
            "reclined": {
                "name": "Reclined",
                "rests_on": {"seat": 0.45},
                "fixes": "trunk",
                "at": -45,
                "angles": {"hip": 45},
            },
            "prone": {"name": "Prone", "rests_on": {"front": 0.6}, "fixes": "trunk", "at": 90},
            "supine": {"name": "Supine", "rests_on": {"back": 0.45}, "fixes": "trunk", "at": -90},
            "kneeling": {"name": "Kneeling", "rests_on": {"knees": 0}, "fixes": "shank", "at": -90},
            "hanging": {
                "name": "Hanging",
                "rests_on": {"hands": 2.3},
                "fixes": "trunk",
                "angles": {"shoulder": 180},
            },
            "hands-and-toes": {
                "name": "On hands and toes",
                "rests_on": {"hands": 0, "toes": 0},
                "faces": "down",
            },
            "bridge": {"name": "Bridge", "rests_on": {"shoulders": 0, "feet": 0}, "faces": "up"},
        },
    }
)

#: A body without weight: what is left is the load alone.
WEIGHTLESS = replace(REFERENCE, mass_fractions=dict.fromkeys(REFERENCE.mass_fractions, 0.0))


def movement(position, start, end, kind="body-weight", at=None, **more):
    load = {"kind": kind, "at": at, **{k: more.pop(k) for k in ("from",) if k in more}}
    return Movement.model_validate(
        {"position": position, "from": start, "to": end, "load": load, **more}
    )


STANDING_CURL = movement("standing", {"elbow": 0}, {"elbow": 140}, "free-weight", "hand")
RECLINED_CURL = movement(
    "reclined",
    {"elbow": 0, "shoulder": -45},
    {"elbow": 140, "shoulder": -45},
    "free-weight",
    "hand",
)
SUPPORTED_CURL = movement(
    "standing", {"elbow": 0, "shoulder": 45}, {"elbow": 130, "shoulder": 45}, "free-weight", "hand"
)
LATERAL_RAISE = movement(
    "standing-tall",
    {"shoulder-abduction": 0},
    {"shoulder-abduction": 110},
    "free-weight",
    "hand",
    view="front",
)
PRONE_CURL = movement("prone", {"knee": 0}, {"knee": 90}, "free-weight", "ankle")
SQUAT = movement(
    "standing",
    {"hip": 5, "knee": 5, "ankle": 2},
    {"hip": 110, "knee": 110, "ankle": 30},
    "free-weight",
    "shoulders",
)
HINGE = movement("standing", {"hip": 0}, {"hip": 90}, "free-weight", "shoulders")
NORDIC = movement("kneeling", {"knee": 90}, {"knee": 15})
PULL_UP = movement("hanging", {"shoulder": 180, "elbow": 0}, {"shoulder": 70, "elbow": 130})
PUSH_UP = movement("hands-and-toes", {"shoulder": 70, "elbow": 0}, {"shoulder": 10, "elbow": 90})
PRESS = movement(
    "supine", {"shoulder": 90, "elbow": 0}, {"shoulder": 20, "elbow": 80}, "free-weight", "hand"
)
BRIDGE = movement("bridge", {"hip": 50, "knee": 95}, {"hip": 0, "knee": 95})
LEG_EXTENSION = movement("seated", {"knee": 90}, {"knee": 0}, "free-weight", "ankle")
CALF_RAISE = movement("on-toes", {"ankle": 5}, {"ankle": -35})
CABLE_CURL = movement(
    "standing",
    {"elbow": 0},
    {"elbow": 130},
    "cable",
    "hand",
    **{"from": {"x": 0.6, "height": "low"}},
)
BAND_CURL = movement(
    "standing", {"elbow": 5}, {"elbow": 130}, "band", "hand", **{"from": {"x": 0.1, "height": 0.0}}
)

ALL = {name: value for name, value in list(globals().items()) if isinstance(value, Movement)}


def reckon(made, body=REFERENCE, steps=141, **more) -> dict[str, Curve]:
    """The curves of a repetition; an unknown one fails."""
    found = curves(
        made,
        VOCABULARY.positions[made.position],
        frames(made, VOCABULARY, body, steps),
        body,
        **more,
    )
    assert not isinstance(found, Unknown), found.why
    return found
