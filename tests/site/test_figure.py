"""Posture figures: geometry read back from the drawing, words, hostile text and sizes.

Outside checks: the arcs are read by the rules of the SVG recommendation, and what
is read back is compared with the published segment lengths; the XML is judged by
expat. The four snapshots are numbers: compare them with the drawing when one moves.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from math import dist, hypot
from pathlib import Path

import pytest
from folders import DEMO, ROOT, SHIPPED
from hypothesis import given
from hypothesis import strategies as st

from build_tools.catalog.entries import Exercise, Movement
from build_tools.catalog.load import Catalog, load
from build_tools.movement.load.working import load_path
from build_tools.movement.posture.body import REFERENCE
from build_tools.movement.posture.frame import Frame
from build_tools.movement.posture.pose import VIEWS, frames, key_frames
from build_tools.site.figures.arrow import SHORTEST
from build_tools.site.figures.body import body
from build_tools.site.figures.figure import STEPS, Figure, figure, html
from build_tools.site.figures.file import uri
from build_tools.site.figures.limbs import HALF, piece
from build_tools.site.figures.shapes import SCALE, Shape, area, disc, limb
from build_tools.site.figures.views import DRAWN

SVG = "{http://www.w3.org/2000/svg}"
CATALOGS = {name: load(root) for name, root in (("shipped", SHIPPED), ("demo", DEMO))}
EVERY = [(name, id) for name, catalog in CATALOGS.items() for id in catalog.exercises]
LIMBS = ("thigh", "shank", "upper_arm", "forearm")


def of(name: str, id: str) -> Figure:
    catalog = CATALOGS[name]
    assert catalog.vocabulary
    return figure("fig", catalog.exercises[id].data, catalog.vocabulary.data)


def made(equipment: list[str], **movement: object) -> Figure:
    """A figure of an invented movement with the shipped vocabulary."""
    catalog: Catalog = CATALOGS["shipped"]
    assert catalog.vocabulary
    base = catalog.exercises["romanian-deadlift"].data
    return figure(
        "fig",
        base.model_copy(
            update={"equipment": equipment, "movement": Movement.model_validate(movement)}
        ),
        catalog.vocabulary.data,
    )


def parsed(written: str) -> ET.Element:
    """The page's figure as XML, without the attributes that HTML lets stand alone."""
    return ET.fromstring(
        re.sub(r" (download|data-search-exclude|hidden)(?=[ >])", "", written).strip()
    )


def numbers(d: str) -> list[float]:
    return [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", d)]


def read(shape: Shape) -> tuple[float, float, float]:
    """Distance of a taper's two circles and their radii, metres, from its path alone.

    The straight side touches both circles, so it is as long as the legs of a right
    triangle with the distance of the centres and the difference of the radii.
    """
    match = re.fullmatch(r"M\S.*?a(\d+) .*?l(.*?)a(\d+) .*?Z", shape.d)
    assert match, shape.d
    (x, y), wide, narrow = numbers(match[2]), float(match[1]), float(match[3])
    return hypot(hypot(x, y), wide - narrow) / SCALE, wide / SCALE, narrow / SCALE


def course(name: str, id: str) -> tuple[Frame, ...]:
    catalog = CATALOGS[name]
    assert catalog.vocabulary
    return key_frames(catalog.exercises[id].data.movement, catalog.vocabulary.data)


def test_every_view_is_drawn() -> None:
    assert set(DRAWN) == set(VIEWS.values())


@pytest.mark.parametrize(("name", "id"), EVERY)
def test_limbs_are_as_long_as_the_published_segments(name: str, id: str) -> None:
    """Within one and a half drawing units, 7.5 mm; what points towards the viewer is seen shorter, never longer."""
    for frame in course(name, id):
        for segment in (name for name in LIMBS if name in frame.segments):
            seen = dist(frame.segments[segment].start, frame.segments[segment].end)
            if frame.view.name == "side" and "shoulder-rotation" not in frame.angles:
                assert seen == pytest.approx(REFERENCE.length(segment))
            assert seen <= REFERENCE.length(segment) + 1e-9
            if seen > max(HALF[segment]):
                length, wide, narrow = read(piece(frame, segment))
                assert length == pytest.approx(seen, abs=1.5 / SCALE)
                assert (wide, narrow) == pytest.approx(HALF[segment], abs=0.5 / SCALE)


@pytest.mark.parametrize(("name", "id"), EVERY)
def test_every_exercise_has_a_figure_with_words_that_fits_its_room(name: str, id: str) -> None:
    drawn = of(name, id)
    assert [pose.label for pose in drawn.poses][:: len(drawn.poses) - 1] == ["Start", "Finish"]
    left, top, width, height = drawn.box
    for pose in drawn.poses:
        assert len(pose.says) > 10
        assert {"body", "work"} <= {shape.style for shape in pose.shapes}
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
    path = load_path(movement.load, frames(movement, catalog.vocabulary.data, steps=STEPS))
    return dist(path[0], path[-1])


@pytest.mark.parametrize(("name", "id"), EVERY)
def test_drawings_are_small_and_whole(name: str, id: str) -> None:
    root = parsed(html(of(name, id), "x.svg", "Credit."))
    drawings = list(root.iter("svg"))
    assert len(drawings) == len(course(name, id)) + 1
    assert all(len(ET.tostring(drawing)) <= 7000 for drawing in drawings)
    assert len(ET.tostring(root)) <= 8300 + 3000 * (len(drawings) - 3) + 2500 * (
        course(name, id)[0].view.apart
    )
    for drawing in drawings[:2]:
        title, says = drawing.find("title"), drawing.find("desc")
        assert drawing.get("role") == "img"
        assert drawing.get("aria-labelledby") == f"{title.get('id')} {says.get('id')}"
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    assert len(set(ids)) == len(ids)


@pytest.mark.parametrize(
    ("name", "id"),
    [
        ("shipped", "romanian-deadlift"),
        ("shipped", "seated-leg-curl"),
        ("shipped", "nordic-curl"),
        ("demo", "crate-curl"),
    ],
)
def test_snapshots(name: str, id: str) -> None:
    assert SNAPSHOTS[id] == snapshot(of(name, id))


def snapshot(drawn: Figure) -> tuple[tuple[int, int, int, int], list[list[float]]]:
    """The room, and where the working segment begins and ends (drawing units) in each pose."""
    return drawn.box, [
        numbers(next(s.d for s in pose.shapes if s.style == "work"))[:2] for pose in drawn.poses
    ]


SNAPSHOTS: dict[str, object] = {
    "romanian-deadlift": ((-76, -361, 200, 373), [[20.0, -185.0], [-36.0, -159.0]]),
    "seated-leg-curl": ((-44, -314, 244, 326), [[85.0, -126.0], [74.0, -139.0]]),
    "nordic-curl": ((-139, -274, 393, 286), [[-17.0, -97.0], [77.0, -50.0]]),
    "crate-curl": ((-44, -284, 242, 296), [[86.0, -96.0], [74.0, -109.0]]),
}


def test_the_working_segment_is_told_by_weight() -> None:
    """It stands apart from the rest by its own style: solid in every stylesheet, outlined the rest."""
    css = (Path(ROOT) / "build_tools" / "site" / "styles" / "handbook.css.jinja").read_text(
        encoding="utf-8"
    )
    assert ".hb-pose__work { fill: currentColor;" in css
    assert ".hb-pose__body { fill: var(--hb-paper);" in css
    frame = course("shipped", "seated-leg-curl")[0]
    work = next(shape for shape in body(frame, "shank") if shape.style == "work")
    assert work.d == piece(frame, "shank").d


def test_overlapping_pieces_unite() -> None:
    """Every closed piece runs the same way round, so that none cuts a hole (the fill rule of the recommendation is nonzero)."""
    for shape in (
        disc((0, 1), 0.2),
        limb((0, 1), (0.3, 0.2), 0.1, 0.05),
        limb((0, 0), (-0.5, 0.5), 0.05, 0.1),
        area([(0, 0), (1, 0), (1, 1)]),
        area([(0, 0), (1, 1), (1, 0)]),
    ):
        assert _clockwise(shape.d) > 0, shape.d


def _clockwise(d: str) -> float:
    """Twice the area inside the corners of a path, with a small bow for each arc; positive runs clockwise on the page."""
    assert set(re.findall(r"a\d+ \d+ 0 [01] ([01])", d)) <= {"1"}  # no arc runs the other way
    at, points = (0.0, 0.0), []
    for command, body_ in re.findall(r"([Mlah])([^MlahZ]*)", d):
        values = numbers(body_)
        steps = (
            [values[5:7]]
            if command == "a"
            else [values[i : i + 2] for i in range(0, len(values), 2)]
        )
        for x, y in steps:
            new = (x, y) if command == "M" else (at[0] + x, at[1] + y)
            if (
                command == "a"
            ):  # the bow's middle lies to the left of the way, seen along it with y down
                points.append(
                    (
                        (at[0] + new[0]) / 2 + (new[1] - at[1]) / 2,
                        (at[1] + new[1]) / 2 - (new[0] - at[0]) / 2,
                    )
                )
            at = new
            points.append(at)
    return sum(
        a[0] * b[1] - b[0] * a[1] for a, b in zip(points, [*points[1:], points[0]], strict=True)
    )


def test_a_leg_that_does_something_else_is_drawn_behind() -> None:
    styles = [
        shape.style for shape in of("shipped", "rear-foot-raised-split-squat").poses[0].shapes
    ]
    assert "far" in styles and styles.index("far") < styles.index("body")
    assert "far" not in [shape.style for shape in of("shipped", "back-squat").poses[0].shapes]


def test_the_arrow_begins_and_ends_like_the_load() -> None:
    """Moved aside, not turned or stretched."""
    catalog = CATALOGS["shipped"]
    assert catalog.vocabulary
    for id in ("seated-leg-curl", "romanian-deadlift", "conventional-deadlift"):
        way = next(
            shape for shape in of("shipped", id).poses[0].shapes if shape.style == "way"
        ).room
        movement = catalog.exercises[id].data.movement
        course = frames(movement, catalog.vocabulary.data, steps=len(way))
        joint = {"ankle": "ankle", "hand": "hand"}[movement.load.at or ""]
        first, last = course[0].joints[joint], course[-1].joints[joint]
        assert (way[-1][0] - way[0][0], way[-1][1] - way[0][1]) == pytest.approx(
            (last[0] - first[0], last[1] - first[1])
        )
        assert dist(way[0], first) > 0.04


CURL = {"from": {"elbow": 5}, "to": {"elbow": 140}}


@pytest.mark.parametrize(
    ("equipment", "movement", "styles"),
    [
        (
            ["barbell"],
            {"position": "standing", **CURL, "load": {"kind": "free-weight", "at": "hand"}},
            {"ring", "hub"},
        ),
        (
            ["dumbbell"],
            {"position": "standing", **CURL, "load": {"kind": "free-weight", "at": "hand"}},
            {"hub", "cord"},
        ),
        (
            ["kettlebell"],
            {"position": "standing", **CURL, "load": {"kind": "free-weight", "at": "hand"}},
            {"kit", "hub"},
        ),
        (
            ["plate"],
            {"position": "standing", **CURL, "load": {"kind": "free-weight", "at": "chest"}},
            {"ring"},
        ),
        (
            ["cable"],
            {
                "position": "standing",
                **CURL,
                "load": {"kind": "cable", "at": "hand", "from": {"x": 0.6, "height": "low"}},
            },
            {"kit", "cord", "hub"},
        ),
        (
            ["band"],
            {
                "position": "standing",
                **CURL,
                "load": {"kind": "band", "at": "hand", "from": {"x": 0.6, "height": "low"}},
            },
            {"kit", "cord", "hub"},
        ),
        (
            ["none"],
            {
                "position": "hanging",
                "from": {"shoulder": 180},
                "to": {"shoulder": 60, "elbow": 120},
                "load": {"kind": "body-weight"},
            },
            {"cord", "hub"},
        ),
        (
            ["flat-bench"],
            {
                "position": "supine",
                "support": {"back": 0.45},
                **CURL,
                "load": {"kind": "body-weight"},
            },
            {"kit"},
        ),
        (["none"], {"position": "standing", **CURL, "load": {"kind": "body-weight"}}, set()),
    ],
)
def test_equipment_is_hinted(
    equipment: list[str], movement: dict[str, object], styles: set[str]
) -> None:
    drawn = {shape.style for shape in made(equipment, **movement).poses[-1].shapes}
    assert drawn & {"kit", "cord", "ring", "hub"} == styles


def test_seen_from_the_front_both_sides_work_and_carry() -> None:
    drawn = made(
        ["dumbbell"],
        position="standing-tall",
        view="front",
        load={"kind": "free-weight", "at": "hand"},
        **{"from": {"shoulder-abduction": 5}, "to": {"shoulder-abduction": 90}},
    )
    xs = [x for shape in drawn.poses[-1].shapes if shape.style == "work" for x, _ in shape.room]
    assert min(xs) == pytest.approx(-max(xs))
    left, _, width, _ = drawn.box
    assert abs(left + width / 2) < width / 4  # about the middle, but for the arrow


def test_what_hardly_moves_gets_no_arrow() -> None:
    drawn = made(
        ["none"],
        position="standing",
        **{"from": {"elbow": 0}, "to": {"elbow": 1}},
        load={"kind": "body-weight"},
    )
    assert "way" not in {shape.style for shape in drawn.poses[0].shapes}


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
    root = parsed(html(figure("fig", exercise, catalog.vocabulary.data), "x.svg", "Credit."))
    plain = parsed(html(of("demo", "crate-curl"), "x.svg", "Credit."))
    assert [e.tag for e in root.iter()] == [e.tag for e in plain.iter()]
    assert root.find(".//title").text == f"{name}, start"


def test_files_stand_alone(demo_book) -> None:  # type: ignore[no-untyped-def]
    files = {f.uri: f.content for f in demo_book.files}
    for id in CATALOGS["demo"].exercises:
        written = files[uri(id)]
        root = ET.fromstring(written)
        assert len(written) <= 8000
        assert root.get("role") == "img" and "Finish:" in root.find(f"{SVG}desc").text
        assert len(root.findall(f"{SVG}svg")) == 2  # start and finish
        words = " ".join(text.text for text in root.iter(f"{SVG}text"))
        assert "Licence:" in words and "Drillis" in words
        assert (
            b"url(" not in written and b"href" not in written and b"@import" not in written
        )  # asks nobody for anything
        drawn = {e.get("class") for e in root.iter(f"{SVG}path")}
        styled = set(re.findall(r"\.(hb-pose__\w+)", root.find(f"{SVG}style").text))
        assert drawn <= styled


def test_pages_link_their_file(demo_book) -> None:  # type: ignore[no-untyped-def]
    for id in CATALOGS["demo"].exercises:
        page = next(page.text for page in demo_book.pages if page.uri == f"exercises/{id}.md")
        assert f'href="../../{uri(id)}" download' in page
        assert page.index("hb-posed") < page.index("## What it favours")


FLY = {
    "position": "on-flat-bench",
    "view": "above",
    "from": {"shoulder-horizontal": 0},
    "to": {"shoulder-horizontal": 90},
    "load": {"kind": "free-weight", "at": "hand"},
}


def test_seen_from_the_head_the_view_is_told_and_both_arms_work() -> None:
    drawn = made(["dumbbell", "flat-bench"], **FLY)
    assert (
        drawn.position == "Lying face up on a bench, seen from the head end"
        and drawn.says.startswith(drawn.position)
    )
    root = parsed(html(drawn, "x.svg", "Credit."))
    told = [p.text for p in root.iter("p") if p.text and "seen" in p.text]
    assert told == ["Start (seen from the head end)", "Finish (seen from the head end)"]
    xs = [x for shape in drawn.poses[0].shapes if shape.style == "work" for x, _ in shape.room]
    assert min(xs) == pytest.approx(-max(xs))


@pytest.mark.parametrize(
    ("position", "floor"),
    [("on-flat-bench", True), ("bent-over", True), ("seated-upright", False), ("standing", False)],
)
def test_from_the_head_a_floor_is_seen_only_below_someone_who_lies_or_bends_over(
    position: str, floor: bool
) -> None:
    drawn = made(["dumbbell"], **FLY | {"position": position})
    assert ("floor" in {shape.style for shape in drawn.poses[0].shapes}) == floor


def test_a_turned_trunk_is_drawn_with_its_head() -> None:
    """The nose, the only thing beside the head's circle, goes to the left with a turn to the left."""
    drawn = made(
        ["none"],
        position="standing",
        view="above",
        load={"kind": "body-weight"},
        **{"from": {"spine-rotation": 0}, "to": {"spine-rotation": 40}},
    )
    ahead, left = ([x for x, _ in pose.shapes[-1].room] for pose in drawn.poses)
    assert min(left) < min(ahead) - 0.01
