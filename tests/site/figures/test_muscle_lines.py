"""The thick lines of figures: which muscles, along which way, and whether they grow when the muscle does.

Outside source: the length tables, read from their files without any of our code; which muscle crosses which joint where, from
standard anatomy. The drawn length is that of the path on the page.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections import Counter
from math import dist

import pytest
from drawn_figures import CATALOGS, EVERY, LENGTHS, direct, lines, made_lines, of
from shipped_lengths import column

from build_tools.movement.length.route import route
from build_tools.movement.posture.frame import Frame
from build_tools.movement.posture.pose import frames
from build_tools.site.figures.limbs import HALF
from build_tools.site.figures.muscle_lines import CLEAR, MARGIN
from build_tools.site.figures.shapes import SCALE, gap

SHIPPED = CATALOGS["shipped"]
MUSCLES = {muscle.part: muscle for muscle in SHIPPED.model.data.muscles.values() if muscle.part}
WITH_LINES = [id for name, id in EVERY if name == "shipped" and lines(name, id).lines]
#: Half the width of a stroke of 9 drawing units, metres.
HALF_STROKE = 4.5 / SCALE


def course(id: str) -> tuple[Frame, ...]:
    assert SHIPPED.vocabulary
    return frames(SHIPPED.exercises[id].data.movement, SHIPPED.vocabulary.data, steps=9)


def told(part: str, angles: dict[str, float]) -> float:
    """Share of the part's own range by its table, between the table's angles on straight lines; kept to the trusted angles."""
    muscle = MUSCLES[part]
    table = SHIPPED.model.data.tables[muscle.table]
    values = column(muscle.table, muscle.column)
    at = []
    for axis in table.axes:
        low, high = muscle.box.get(axis.joint, (0, 0))
        angle = min(max(angles.get(axis.joint, 0.0), low), high)
        steps = range(int(axis.span[0]), int(axis.span[1]) + 1, int(axis.step))
        start = min(bisect_right(steps, angle) - 1, len(steps) - 2)
        at.append((steps[start], steps[start + 1], (angle - steps[start]) / axis.step))
    (a, b, u), (c, d, v) = at
    length = (1 - u) * ((1 - v) * values[a, c] + v * values[a, d]) + u * (
        (1 - v) * values[b, c] + v * values[b, d]
    )
    boxes = [muscle.box.get(axis.joint, (0, 0)) for axis in table.axes]
    inside = [
        value
        for (x, y), value in values.items()
        if boxes[0][0] <= x <= boxes[0][1] and boxes[1][0] <= y <= boxes[1][1]
    ]
    return (length - min(inside)) / (max(inside) - min(inside))


def length(points: list[tuple[float, float]]) -> float:
    return sum(dist(a, b) for a, b in zip(points, points[1:], strict=False))


@pytest.mark.parametrize("id", WITH_LINES)
def test_a_line_grows_when_its_muscle_does(id: str) -> None:
    """Every part that a line stands for, over all pairs of postures between which the table's change is above the margin."""
    shown = course(id)
    for line in lines("shipped", id).lines:
        lengths = [length(line.points(frame, *line.facing[0])) for frame in shown]
        for part in line.parts:
            shares = [told(part, frame.angles) for frame in shown]
            for a in range(len(shown)):
                for b in range(a):
                    if abs(shares[a] - shares[b]) > MARGIN:
                        change = lengths[a] - lengths[b]
                        assert (shares[a] - shares[b]) * change > 0, (part, a, b)


@pytest.mark.parametrize("id", WITH_LINES)
def test_the_drawn_path_is_as_long_as_the_line(id: str) -> None:
    """Read back from the page: dropping points on the straight way shortens nothing that is seen (2 cm)."""
    figure, shown = of("shipped", id), course(id)
    for pose, frame in ((figure.poses[0], shown[0]), (figure.poses[-1], shown[-1])):
        drawn = sum(
            dist((0, 0), (int(x), int(y)))
            for shape in pose.shapes
            if shape.style == "muscle"
            for run in re.findall(r"l([^Ml]+)", shape.d)
            for x, y in zip(*[iter(re.findall(r"-?\d+", run))] * 2, strict=True)
        )
        whole = sum(
            length(line.points(frame, *side))
            for line in lines("shipped", id).lines
            for side in line.facing
        )
        assert drawn / SCALE == pytest.approx(whole, abs=0.02 * len(lines("shipped", id).lines))


@pytest.mark.parametrize("id", WITH_LINES)
def test_lines_do_not_leave_the_body(id: str) -> None:
    """All of the stroke lies on the limbs, the hips and the heel or on their outline, of which half a stroke lies outside them."""
    for frame in course(id):
        for line in lines("shipped", id).lines:
            for prefix, facing in line.facing:
                way = line.points(frame, prefix, facing)
                steps = [
                    (a[0] + s * (b[0] - a[0]) / 8, a[1] + s * (b[1] - a[1]) / 8)
                    for a, b in zip(way, way[1:], strict=False)
                    for s in range(9)
                ]
                assert all(room(frame, prefix, step) > -HALF_STROKE for step in steps), line.parts


def room(frame: Frame, prefix: str, point: tuple[float, float]) -> float:
    """How far inside the outline of the nearest piece half the stroke lies, metres."""
    joints = frame.joints
    found = [0.1 - dist(joints["mid_hip"], point)]
    for name, start, end in (
        ("thigh", "hip", "knee"),
        ("shank", "knee", "ankle"),
        ("upper_arm", "shoulder", "elbow"),
        ("forearm", "elbow", "wrist"),
    ):
        a, b = joints[prefix + start], joints[prefix + end]
        share = min(1.0, max(0.0, dist(a, point) / dist(a, b)))
        found.append(HALF[name][0] + share * (HALF[name][1] - HALF[name][0]) - gap(point, a, b))
    # The heel is round, and the tendon reaches it behind the ankle.
    found.append(0.075 - dist(joints[prefix + "ankle"], point))
    return max(found) - HALF_STROKE


def test_every_credited_part_with_a_checked_length_is_drawn_or_out_of_the_model() -> None:
    """What is left out: angles or planes that the model is not trusted in. Counted, so that a figure that loses its line is seen."""
    missing = Counter(
        part.split("/")[1]
        for name, id in EVERY
        if name == "shipped"
        for part in direct(name, id)
        if route(SHIPPED, LENGTHS["shipped"], part)
        and part not in [ref for line in lines(name, id).lines for ref in line.parts]
    )
    assert sum(missing.values()) <= 20 and len(WITH_LINES) >= 65
    assert set(missing) <= {
        "triceps-brachii-long-head",
        "triceps-brachii-lateral-head",
        "triceps-brachii-medial-head",
        "biceps-brachii-long-head",
        "vastus-lateralis",
        "vastus-medialis",
        "vastus-intermedius",
    }


@pytest.mark.parametrize(
    ("id", "says", "plainly"),
    [
        ("seated-leg-curl", "Thick lines: hamstrings.", "Thick lines: back of the thigh."),
        ("back-squat", "Thick line: quads.", "Thick line: front of the thigh."),
        ("standing-calf-raise", "Thick line: calf.", "Thick line: calf."),
        ("seated-calf-raise", "Thick line: soleus.", "Thick line: calf."),
        ("cable-pushdown", "Thick line: triceps.", "Thick line: back of the upper arm."),
        (
            "overhead-cable-extension",
            "Thick line: triceps without long head.",
            "Thick line: back of the upper arm.",
        ),
        (
            "barbell-curl",
            "Thick line: long head of biceps and brachialis.",
            "Thick line: front of the upper arm.",
        ),
        (
            "leg-extension",
            "Thick line: quads without rectus femoris.",
            "Thick line: front of the thigh.",
        ),
        ("bench-press", "", ""),
        ("plank", "", ""),
    ],
)
def test_one_short_line_says_what_is_thick(id: str, says: str, plainly: str) -> None:
    drawn = of("shipped", id)
    if says and set(direct("shipped", id)) - MUSCLES.keys() and " without " in drawn.thick:
        # A part that no model has, which anybody may add, is said to be without a line.
        assert drawn.thick.startswith(says.rstrip("."))
        says = drawn.thick
    assert (drawn.thick, drawn.thick_plainly) == (says, plainly) and len(says) < 50
    assert drawn.says.endswith(says) if says else "Thick" not in drawn.says
    styles = [s.style for pose in drawn.poses for s in pose.shapes]
    moving = [[s.style for s in step].count("muscle") for step in drawn.moving]
    assert ("muscle" in styles) == bool(says) and set(moving) <= {1 if says else 0}


def test_parts_that_lie_on_one_another_are_one_line() -> None:
    """The three vasti share a tendon; the short head of the biceps femoris comes from the thigh, the other hamstrings from the pelvis."""
    [quads] = lines("shipped", "leg-extension").lines
    assert {part.split("/")[1][:6] for part in quads.parts} == {"vastus"} and len(quads.parts) == 3
    long, short = lines("shipped", "seated-leg-curl").lines
    assert len(long.parts) == 3 and short.parts == ("hamstrings/biceps-femoris-short-head",)


def test_a_muscle_lies_where_it_works_not_on_what_moves() -> None:
    """Anatomy: the quadriceps on the front of the thigh, though the leg extension moves the shank."""
    frame = course("leg-extension")[0]
    [quads] = lines("shipped", "leg-extension").lines
    hip, knee = frame.joints["hip"], frame.joints["knee"]
    way = quads.points(frame, *quads.facing[0])
    assert all(gap(point, hip, knee) < HALF["thigh"][0] - CLEAR + 1e-6 for point in way)
    assert all(y > hip[1] for _, y in way[1:-1])  # seated: the front of the thigh is up


PRESS = {
    "position": "standing",
    "load": {"kind": "free-weight", "at": "hand"},
    "from": {"shoulder-abduction": 60, "elbow": 120},
    "to": {"shoulder-abduction": 170, "elbow": 5},
}
TRICEPS = [f"elbow-extensors/triceps-brachii-{head}-head" for head in ("long", "lateral", "medial")]


def test_seen_from_the_front_both_arms_show_what_bends_in_the_plane_of_the_page() -> None:
    """The elbow extensors lie on the side away from the bend, mirrored; what also crosses the shoulder has no table for this plane."""
    found, frame = made_lines(TRICEPS, view="front", **PRESS)
    [line] = found.lines
    assert line.parts == (TRICEPS[1], TRICEPS[2])
    left, right = (line.points(frame, *side) for side in line.facing)
    assert left == [pytest.approx((-x, y)) for x, y in right]
    (ax, ay), (bx, by), (wx, wy) = (frame.joints[name] for name in ("shoulder", "elbow", "wrist"))
    bend = (bx - ax) * (wy - by) - (by - ay) * (wx - bx)
    x, y = left[1]
    assert ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) * bend < 0


@pytest.mark.parametrize(
    "change",
    [
        {"view": "front", "from": {"shoulder-abduction": 5}, "to": {"shoulder-abduction": 90}},
        {
            "view": "front",
            "from": {"shoulder-rotation": 0, "elbow": 90},
            "to": {"shoulder-rotation": 0, "elbow": 10},
        },
        {"from": {"elbow": 10}, "to": {"elbow": 145}},
        {"from": {"elbow": 10}, "to": {"elbow": 120}, "out_of_plane": ["elbow"]},
        {"from": {"shoulder-rotation": 0}, "to": {"shoulder-rotation": 90}},
    ],
    ids=["straight arms", "towards the viewer", "beyond the table", "out of the plane", "end on"],
)
def test_no_line_where_the_path_is_not_seen_or_not_trusted(change: dict[str, object]) -> None:
    found, _ = made_lines(TRICEPS, **{**PRESS, **change})
    assert found.lines == () and found.says == ""
