"""The pages' data, from the shipped catalog and from the invented one: complete, true to the conclusions, the same every time."""

from __future__ import annotations

import json
from typing import Any

import pytest
import shipped_made
from folders import DEMO

from build_tools.catalog.load import Catalog, load
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.claims.conclusions import Conclusions
from build_tools.evidence_map.preferences import statements
from build_tools.movement.course import Courses
from build_tools.movement.length.length import MeanLengths
from build_tools.planning.compare_data import INSTANTS, comparison
from build_tools.planning.order import STATED
from build_tools.planning.planner_data import planner


@pytest.fixture(scope="module", params=["shipped", "demo"])
def made(request: pytest.FixtureRequest) -> tuple[Catalog, Conclusions, Courses, dict[str, Any]]:
    if request.param == "shipped":
        known = shipped_made.catalog(), shipped_made.conclusions(), shipped_made.courses()
        return *known, shipped_made.planner_data()
    catalog = load(DEMO)
    conclusions, courses = conclude(catalog, MeanLengths(catalog)), Courses(catalog)
    return catalog, conclusions, courses, planner(catalog, conclusions, courses)


def test_everything_that_is_named_is_there(
    made: tuple[Catalog, Conclusions, Courses, dict[str, Any]],
) -> None:
    catalog, _, _, data = made
    assert json.loads(json.dumps(data)) == data, "nothing but JSON values"
    assert data["exercises"].keys() == catalog.exercises.keys()
    for id, one in data["exercises"].items():
        assert (
            set(one["equipment"]) <= data["equipment"].keys()
            and set(one["concerns"]) <= data["concerns"].keys()
        )
        assert (
            one["position"] in data["positions"]
            and set(one["joints"].values()) <= data["joints"].keys()
        )
        assert (
            one["credits"].keys() <= data["parts"].keys()
            and one["best"].keys() | set(one["direct"]) <= one["credits"].keys()
        )
        for part, kinds in one["best"].items():
            for kind, index in kinds.items():
                told = data["statements"][index]
                assert (
                    id in (told["first"], told["second"])
                    and (told["first"] == id or kind == "measured")
                    and told["kind"] == STATED[kind]
                    and told["part"] in (part, part.partition("/")[0])
                )
    for part, places in data["orders"].items():
        listed = [id for place in places for id in place["exercises"]]
        assert sorted(listed) == sorted(
            id for id, one in data["exercises"].items() if part in one["direct"]
        )
        for place in places:
            if place["kind"] in STATED:
                assert all(
                    place["kind"] in data["exercises"][id]["best"][part]
                    for id in place["exercises"]
                )


def test_statements_say_what_the_conclusions_say(
    made: tuple[Catalog, Conclusions, Courses, dict[str, Any]],
) -> None:
    """Each claim on growth or activation whose "more" was found or hinted for all its parts puts its exercise ahead, and each
    statement that puts one ahead has a comparison behind it that points the same way."""
    catalog, conclusions, _, data = made
    told = {
        (s.kind, s.part, s.first, s.second) for s in statements(catalog, conclusions) if s.ahead
    }
    checked = 0
    for id, entry in catalog.exercises.items():
        for conclusion, claim in zip(conclusions.of(id), entry.data.emphasis, strict=True):
            if (
                claim.more_than
                and claim.more_than.exercise
                and not claim.relative_to
                and conclusion.finding in ("found", "hinted")
                and conclusion.outcome in ("growth", "activation")
            ):
                for part in claim.part:
                    assert (conclusion.outcome, part, id, claim.more_than.exercise) in told
                    checked += 1
    assert checked
    null = {
        index
        for one in data["exercises"].values()
        for places in one["best"].values()
        for place, index in places.items()
        if place == "measured"
    }
    for n, s in enumerate(data["statements"]):
        ahead = (s["kind"], s["part"], s["first"], s["second"]) in told
        assert ahead == (n not in null)
        assert (s["finding"] in ("found", "hinted") or s["kind"] == "taught") == ahead


def test_no_wider_measurement_recommends_against_the_parts_own_null(
    made: tuple[Catalog, Conclusions, Courses, dict[str, Any]],
) -> None:
    """Of every pair and part that was measured alone without a clear difference."""
    _, conclusions, _, data = made
    for field in conclusions.fields.values():
        for c in field.comparisons:
            alone = c.measured == "part" and c.finding in ("unclear", "alike")
            if alone and field.outcome in ("growth", "activation") and not field.relative_to:
                pair = {c.question.first, c.question.second}
                for id in pair & data["exercises"].keys():
                    best = data["exercises"][id]["best"].get(field.part, {})
                    for place in (field.outcome, f"{field.outcome}-wider"):
                        if place in best:
                            told = data["statements"][best[place]]
                            assert {told["first"], told["second"]} != pair


def test_the_parts_own_result_comes_before_anything_wider() -> None:
    """Over the shipped catalog, against the conclusions: who came out ahead on the part itself, or was measured there without a clear
    difference to an exercise that trains it, stands before everybody whom only something wider recommends."""
    data, checked = shipped_made.planner_data(), 0
    own: dict[tuple[str, str], set[str]] = {}
    behind: set[tuple[str, str, str]] = set()
    for field in shipped_made.conclusions().fields.values():
        for c in field.comparisons:
            pair = [c.question.first, c.question.second]
            if field.relative_to or c.measured != "part" or c.finding == "not studied":
                continue
            if c.finding not in ("found", "hinted") or not c.side:
                own.setdefault((field.part, field.outcome), set()).update(pair)
                continue
            ahead, other = pair if c.side == "more" else reversed(pair)
            own.setdefault((field.part, field.outcome), set()).add(ahead)
            behind.add((field.part, field.outcome, other))
    for part, places in data["orders"].items():
        for outcome, first in (("growth", {"growth", "measured"}), ("activation", {"activation"})):
            kinds = [place["kind"] for place in places]
            wide = kinds.index(f"{outcome}-wider") if f"{outcome}-wider" in kinds else len(kinds)
            assert not first & set(kinds[wide:])
            for place in places[wide:] if outcome == "growth" else []:
                for id in place["exercises"]:
                    direct = {
                        o
                        for o in own.get((part, outcome), ())
                        if part in data["exercises"].get(o, {"direct": ()})["direct"]
                    }
                    alone = len(direct) < 2  # compared with nothing that trains the part
                    assert id not in direct or alone or (part, outcome, id) in behind, (part, id)
                    checked += 1
    assert checked


@pytest.mark.parametrize(
    ("part", "own"),
    [
        ("calf/soleus", ["seated-calf-raise", "standing-calf-raise"]),
        ("hamstrings/biceps-femoris-short-head", ["prone-leg-curl", "seated-leg-curl"]),
    ],
)
def test_the_whole_muscle_lends_its_parts_no_lead(part: str, own: list[str]) -> None:
    """The soleus grew alike with straight and bent knees (kinoshita2023), the short head alike lying and seated (maeo2021), while the
    whole calf and the whole hamstrings grew more with one of the two."""
    assert shipped_made.planner_data()["orders"][part][0] == {"kind": "measured", "exercises": own}


def test_no_word_lets_activation_pass_for_growth(
    made: tuple[Catalog, Conclusions, Courses, dict[str, Any]],
) -> None:
    data = made[3]
    assert all(
        "does not show growth" in data["kinds"][kind]["means"] for kind in ("activation", "length")
    )
    for s in data["statements"]:
        if s["kind"] == "activation":
            assert "growth" not in s["sentence"].lower()


def test_no_score_is_written(made: tuple[Catalog, Conclusions, Courses, dict[str, Any]]) -> None:
    data = made[3]
    assert {
        key for place in (p for places in data["orders"].values() for p in places) for key in place
    } == {"kind", "exercises"}


def test_what_one_exercise_is_compared_by(
    made: tuple[Catalog, Conclusions, Courses, dict[str, Any]],
) -> None:
    catalog, _, courses, _ = made
    for id in list(catalog.exercises)[:40]:
        one = comparison(catalog, courses, id)
        assert ("load" in one) != ("no_load" in one)
        assert all(
            len(values) == INSTANTS and min(values) >= 0 and max(values) <= 100
            for values in one["lengths"].values()
        )
        if "load" in one:
            assert len(one["load"]) == INSTANTS and max(one["load"]) <= 100


def test_the_same_catalog_gives_the_same_text(
    made: tuple[Catalog, Conclusions, Courses, dict[str, Any]],
) -> None:
    catalog, conclusions, _, data = made
    assert json.dumps(planner(catalog, conclusions, Courses(catalog))) == json.dumps(data)
