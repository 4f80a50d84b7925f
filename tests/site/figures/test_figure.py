"""Posture figures: words, hostile text and sizes.

Outside check: the XML is judged by expat. The three snapshots are numbers: compare them with the drawing when one moves.
"""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections import defaultdict
from math import dist

import pytest
from drawn_figures import CATALOGS, EVERY, course, made, numbers, of, parsed
from hypothesis import given
from hypothesis import strategies as st

from build_tools.catalog.entries import Exercise
from build_tools.movement.load.working import load_path
from build_tools.movement.posture.facing import shown_frames
from build_tools.site.figures.arrow import SHORTEST
from build_tools.site.figures.figure import STEPS, Figure, figure, html
from build_tools.site.figures.shapes import SCALE


@pytest.mark.parametrize(("name", "id"), EVERY)
def test_every_exercise_has_a_figure_with_words_that_fits_its_room(name: str, id: str) -> None:
    drawn = of(name, id)
    labels = [pose.label for pose in drawn.poses]
    assert (labels[0], labels[-1]) in {("Start", "Finish"), ("Top", "Bottom"), ("Hold", "Hold")}
    left, top, width, height = drawn.box
    for pose in drawn.poses:
        assert len(pose.says) > 10
        assert "body" in {shape.style for shape in pose.shapes}
        for shape in pose.shapes:
            for x, y in shape.room:
                assert (
                    left - 1 <= x * SCALE <= left + width + 1
                    and top - 1 <= -y * SCALE <= top + height + 1
                ), shape.style
    assert ([shape.style for shape in drawn.poses[0].shapes][-2:] == ["way", "tip"]) == (
        travels(name, id) >= SHORTEST
    )


def travels(name: str, id: str) -> float:
    catalog = CATALOGS[name]
    assert catalog.vocabulary
    movement = catalog.exercises[id].data.movement
    path = load_path(movement.load, shown_frames(movement, catalog.vocabulary.data, steps=STEPS))
    return dist(path[0], path[-1])


@pytest.mark.parametrize(("name", "id"), EVERY)
def test_drawings_are_small_and_whole(name: str, id: str) -> None:
    drawn = of(name, id)
    root = parsed(html(drawn, "x", "Credit."))
    drawings = list(root.iter("svg"))
    assert len(drawings) == len(drawn.poses) + len(drawn.insets) + bool(drawn.moving)
    assert all(len(ET.tostring(drawing)) <= 7500 for drawing in drawings)
    assert len(ET.tostring(root)) <= 8700 + 3200 * (len(drawings) - 3) + 2500 * (
        course(name, id)[0].view.apart
    )
    thick = drawn.thick
    assert [p.text for p in root.iter("p") if "Thick" in (p.text or "")] == [thick] * bool(thick)
    for drawing in drawings[: len(drawn.poses)]:
        assert drawing.find("desc").text.endswith(thick or ".")
        title, says = drawing.find("title"), drawing.find("desc")
        assert drawing.get("role") == "img"
        assert drawing.get("aria-labelledby") == f"{title.get('id')} {says.get('id')}"
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    assert len(set(ids)) == len(ids)


#: Exercises whose drawings may be the same, and why.
TWINS: dict[frozenset[str], str] = {}


def test_no_two_exercises_look_the_same() -> None:
    """All that is drawn, but for how long a repetition takes and what is written."""
    alike: dict[object, set[str]] = defaultdict(set)
    for name, id in EVERY:
        drawn = of(name, id)
        pictures = [*(pose.shapes for pose in drawn.poses), *(i.shapes for i in drawn.insets)]
        alike[tuple((s.style, s.d) for shapes in pictures for s in shapes)].add(id)
    assert {frozenset(ids) for ids in alike.values() if len(ids) > 1} == set(TWINS)


@pytest.mark.parametrize(
    ("name", "id"),
    [
        ("shipped", "romanian-deadlift"),
        ("shipped", "seated-leg-curl"),
        ("shipped", "nordic-curl"),
    ],
)
def test_snapshots(name: str, id: str) -> None:
    assert SNAPSHOTS[id] == snapshot(of(name, id))


def snapshot(drawn: Figure) -> tuple[tuple[int, int, int, int], list[list[float]]]:
    """The room, and where the first line of a muscle begins (drawing units) in each pose."""
    return drawn.box, [
        numbers(next(s.d for s in pose.shapes if s.style == "muscle"))[:2] for pose in drawn.poses
    ]


SNAPSHOTS: dict[str, object] = {
    "romanian-deadlift": ((-76, -361, 200, 373), [[-11.0, -176.0], [-56.0, -185.0]]),
    "seated-leg-curl": ((-44, -314, 258, 326), [[-11.0, -129.0], [-11.0, -129.0]]),
    "nordic-curl": ((-139, -274, 393, 286), [[-11.0, -89.0], [72.0, -43.0]]),
}


def test_seen_from_the_front_both_sides_carry() -> None:
    drawn = made(
        ["dumbbell"],
        position="standing-tall",
        view="front",
        load={"kind": "free-weight", "at": "hand"},
        **{"from": {"shoulder-abduction": 5}, "to": {"shoulder-abduction": 90}},
    )
    xs = [x for shape in drawn.poses[-1].shapes if shape.style == "kit" for x, _ in shape.room]
    assert min(xs) == pytest.approx(-max(xs))
    left, _, width, _ = drawn.box
    assert abs(left + width / 2) < width / 4  # about the middle, but for the arrow


@given(
    st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1)
    | st.sampled_from(
        [
            "</desc><script>alert(1)</script>",
            '"><img src=x onerror=alert(1)>',
            "]]>",
            "&lt;",
            "{{ 7*7 }}",
        ]
    )
)
def test_names_stay_text(name: str) -> None:
    catalog = CATALOGS["demo"]
    assert catalog.vocabulary
    exercise: Exercise = catalog.exercises["crate-curl"].data.model_copy(update={"name": name})
    root = parsed(html(figure("fig", exercise, catalog.vocabulary.data), "x", "Credit."))
    plain = parsed(html(of("demo", "crate-curl"), "x", "Credit."))
    assert [e.tag for e in root.iter()] == [e.tag for e in plain.iter()]
    assert root.find(".//title").text == f"{name}, start"
