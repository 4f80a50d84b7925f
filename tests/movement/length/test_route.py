"""Where muscles run: the paths, laid through a chain of our own, are as long as the tables say.

Outside source: the length tables, which the package computed in the room from the same model files. The chain below is plain
trigonometry in the plane with the model's own distances between joints, and none of our posture code.
"""

from __future__ import annotations

from math import cos, dist, radians, sin

import pytest
from shipped_lengths import muscle
from shipped_made import catalog

from build_tools.catalog.muscle_path import UNIT, Place
from build_tools.movement.length.length import Lengths
from build_tools.movement.length.route import Route, route

LENGTHS = Lengths(catalog())
PARTS = [given.part for given in catalog().model.data.muscles.values() if given.part]
#: From joint to joint in the models, mm: gait2392 (femur to tibia to talus) and arm26 (humerus to ulna).
LONG = {"thigh": 395.8, "shank": 430.0, "upper-arm": 290.5}
#: How far the path in the plane may miss the table's change of length, mm. The model's knee slides up to 27 mm on the thigh as it
#: bends, and its shoulder muscles run sideways too; ankle and elbow are plain hinges.
HINGE, SLIDES = 1.5, 28.0
HINGED = ("soleus", "triceps-brachii-lateral-head", "triceps-brachii-medial-head", "brachialis")


def found(part: str) -> Route:
    given = route(catalog(), LENGTHS, part)
    assert given
    return given


def turned(point: tuple[float, float], degrees: float) -> tuple[float, float]:
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return point[0] * c - point[1] * s, point[0] * s + point[1] * c


def laid(place: Place, angles: dict[str, float]) -> tuple[float, float]:
    """The place in the plane, mm from hip or shoulder: x to the front, y up, flexion swings limbs to the front."""
    long = LONG[UNIT[place.segment]]
    point, joint = (place.ahead * long, -place.along * long), (0.0, 0.0)
    chain = {
        "thigh": [("", "hip")],
        "shank": [("", "hip"), ("thigh", "-knee")],
        "foot": [("", "hip"), ("thigh", "-knee"), ("shank", "ankle")],
        "upper-arm": [("", "shoulder")],
        "forearm": [("", "shoulder"), ("upper-arm", "elbow")],
    }
    turn = 0.0
    for above, joint_name in chain.get(place.segment, []):
        down = turned((0.0, -LONG.get(above, 0.0)), turn)
        joint = joint[0] + down[0], joint[1] + down[1]
        bend = angles.get(joint_name.removeprefix("-"), 0.0)
        turn += -bend if joint_name.startswith("-") else bend
    x, y = turned(point, turn)
    return joint[0] + x, joint[1] + y


@pytest.mark.parametrize("part", PARTS)
def test_a_path_is_as_long_as_the_table_says(part: str) -> None:
    way = found(part)
    told = muscle(next(id for id, m in catalog().model.data.muscles.items() if m.part == part))
    near = HINGE if part.split("/")[1] in HINGED else SLIDES
    differences = []
    for angles in told.box_angles():
        points = [laid(place, angles) for place in way.places(angles)]
        long = sum(dist(a, b) for a, b in zip(points, points[1:], strict=False))
        differences.append(long - told.length(angles))
    assert max(differences) - min(differences) < 2 * near
    assert all(abs(given - differences[0]) < near for given in differences)


def test_what_moves_lies_between_the_tables_angles() -> None:
    """The patella glides: half way between two angles it is half way between its two places."""
    way = found("quadriceps/vastus-lateralis")
    at = [way.places({"knee": knee})[-1] for knee in (20, 25, 30)]
    assert at[1].along == pytest.approx((at[0].along + at[2].along) / 2)
    assert at[1].ahead == pytest.approx((at[0].ahead + at[2].ahead) / 2)
    assert at[0].ahead > at[2].ahead > 0


def test_bent_further_it_runs_over_the_end_of_the_thigh() -> None:
    """Anatomy: from about 80 degrees on the quadriceps tendon lies on the femur."""
    way = found("quadriceps/vastus-lateralis")
    straight, bent = (
        [place.segment for place in way.places({"knee": knee})] for knee in (20.0, 90.0)
    )
    assert bent.count("thigh") > straight.count("thigh")


def test_every_muscle_begins_and_ends_where_anatomy_puts_it() -> None:
    """Standard anatomy: origin and insertion, and whether it crosses the joint behind or in front."""
    ends = {
        "hamstrings/biceps-femoris-long-head": ("pelvis", "shank", -1),
        "hamstrings/biceps-femoris-short-head": ("thigh", "shank", -1),
        "hamstrings/semitendinosus": ("pelvis", "shank", -1),
        "hamstrings/semimembranosus": ("pelvis", "shank", -1),
        "quadriceps/vastus-lateralis": ("thigh", "shank", 1),
        "quadriceps/vastus-intermedius": ("thigh", "shank", 1),
        "quadriceps/vastus-medialis": ("thigh", "shank", 1),
        "calf/gastrocnemius-medial-head": ("thigh", "foot", -1),
        "calf/gastrocnemius-lateral-head": ("thigh", "foot", -1),
        "calf/soleus": ("shank", "foot", -1),
        "elbow-extensors/triceps-brachii-long-head": ("shoulder-blade", "forearm", -1),
        "elbow-extensors/triceps-brachii-lateral-head": ("upper-arm", "forearm", -1),
        "elbow-extensors/triceps-brachii-medial-head": ("upper-arm", "forearm", -1),
        "elbow-flexors/biceps-brachii-long-head": ("shoulder-blade", "forearm", 1),
        "elbow-flexors/brachialis": ("upper-arm", "forearm", 1),
    }
    assert set(ends) == set(PARTS)
    for part, (first, last, side) in ends.items():
        places = found(part).places({})
        assert (places[0].segment, places[-1].segment) == (first, last)
        beside = {"thigh": "knee", "shank": "ankle", "upper-arm": "elbow", "pelvis": "hip"}
        near = [p for p in places if p.segment in beside and p.along > 0.05 or p.segment == "foot"]
        assert sum(place.ahead for place in near) * side > 0, part


def test_angles_a_step_beyond_the_trusted_ones_still_have_a_path_and_the_length_of_the_last() -> (
    None
):
    way = found("quadriceps/vastus-medialis")
    assert way.is_known({"knee": 130.0}) and not way.is_known({"knee": 131.0})
    assert way.share({"knee": 130.0}) == way.share({"knee": 120.0}) == pytest.approx(1.0, abs=0.01)
    assert way.joints == {"knee"}


def test_parts_without_a_checked_length_have_no_route() -> None:
    for part in (
        "quadriceps/rectus-femoris",
        "elbow-flexors/biceps-brachii-short-head",
        "nothing/at-all",
    ):
        assert route(catalog(), LENGTHS, part) is None
