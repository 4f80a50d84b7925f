"""Sampling where muscles run: a made-up leg in the place of the package, and a fresh run of the real models where they are at hand."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from math import degrees
from pathlib import Path
from types import SimpleNamespace

import made_up_model
import pytest
from folders import SHIPPED
from shipped_made import catalog

from build_tools.catalog.entries import Model
from build_tools.catalog.muscle_path import file, read
from build_tools.movement.length import sample_paths

#: Folder with the model files that muscles.yaml names.
MODELS = os.environ.get("MODEL_FILES", "")

Spot = tuple[float, float]
#: Joints of the made-up leg in the anatomical position, metres: hip, knee and ankle below one another, the thigh 0.5 m long.
ORIGINS = {"hips": (0.2, 1.2), "femur": (0.0, 1.0), "tibia": (0.0, 0.5), "talus": (0.0, 0.1)}


def vector(x: float, y: float) -> SimpleNamespace:
    return SimpleNamespace(get=lambda n: (x, y, 9.0)[n])


class Body:
    """A body of the made-up model: its frame is upright, its origin a joint."""

    def __init__(self, name: str) -> None:
        self.name = name

    def getName(self) -> str:
        return self.name

    def getPositionInGround(self, _state: object) -> SimpleNamespace:
        return vector(*ORIGINS[self.name])

    def findStationLocationInGround(self, _state: object, place: SimpleNamespace) -> object:
        return vector(*(ORIGINS[self.name][n] + place.get(n) for n in (0, 1)))


def point(kind: str, body: str, place: Spot) -> SimpleNamespace:
    return SimpleNamespace(
        getConcreteClassName=lambda: kind,
        getParentFrame=lambda: Body(body),
        getLocation=lambda _state: vector(*place),
    )


def package(path: Callable[[float, float], list[SimpleNamespace]]) -> SimpleNamespace:
    """A model with one muscle whose path depends on hip and knee as it counts them, degrees."""
    hip, knee = made_up_model.Coordinate(), made_up_model.Coordinate()

    def current(_state: object) -> SimpleNamespace:
        points = path(degrees(hip.radians), degrees(knee.radians))
        return SimpleNamespace(getSize=lambda: len(points), get=lambda n: points[n])

    muscle = SimpleNamespace(getGeometryPath=lambda: SimpleNamespace(getCurrentPath=current))
    model = SimpleNamespace(
        initSystem=object,
        realizePosition=lambda state: None,
        getBodySet=lambda: made_up_model.Members({name: Body(name) for name in ORIGINS}),
        getCoordinateSet=lambda: made_up_model.Members(first=hip, second=knee),
        getMuscles=lambda: made_up_model.Members(rope_r=muscle),
    )
    return SimpleNamespace(
        Model=lambda path: model,
        State=lambda state: state,
        Logger=SimpleNamespace(setLevelString=str),
    )


MODEL = Model.model_validate(
    {
        "models": {
            "lamp": {
                "file": "lamp.osim",
                "sha256": "0" * 64,
                "credit": "Nobody",
                "after": "Nothing",
                "licence": "CC0",
                "licence_url": "https://example.org/",
                "segments": {
                    "pelvis": {"body": "hips", "centre": "femur"},
                    "thigh": {"body": "femur", "to": "tibia"},
                    "shank": {"body": "tibia", "to": "talus"},
                },
            }
        },
        "tables": {
            "leg": {
                "model": "lamp",
                "axes": [
                    {"joint": "hip", "coordinate": "first", "span": [-10, 10], "step": 10},
                    {
                        "joint": "knee",
                        "coordinate": "second",
                        "reversed": True,
                        "span": [0, 20],
                        "step": 20,
                    },
                ],
            }
        },
        "sources": {"none": {"says": "Invented"}},
        "muscles": {
            "rope": {
                "name": "Rope",
                "table": "leg",
                "column": "rope",
                "suffix": "_r",
                "box": {"hip": [-10, 10], "knee": [0, 20]},
                "acts": {"knee": "flexes"},
                "arms": [{"joint": "knee", "over": [0, 20], "mm": [1, 2], "source": "none"}],
            }
        },
    }
)


def sampled(monkeypatch: pytest.MonkeyPatch, path: Callable[..., list[SimpleNamespace]]) -> str:
    monkeypatch.setitem(sys.modules, "opensim", package(path))
    return sample_paths.sample_paths(Path("lamp.osim"), "lamp", MODEL)


def over_the_knee(_hip: float, knee: float) -> list[SimpleNamespace]:
    bent = [point("ConditionalPathPoint", "femur", (0.05, -0.5))] if knee < -5 else []
    return [
        point("PathPoint", "hips", (-0.3, -0.25)),
        *bent,
        point("PathPoint", "tibia", (0.02, -0.04)),
    ]


def test_places_in_thousandths_of_their_unit_and_what_a_joint_brings(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Worked by hand: on the pelvis the place lies at (-0.1, 0.95), 0.05 m below the hip and 0.1 m behind, of a thigh of 0.5 m; on the
    shank 0.04 m down and 0.02 m ahead, of 0.4 m. The model counts the bent knee as -20 degrees."""
    assert sampled(monkeypatch, over_the_knee) == (
        "muscle,joint,deg,segment,along,ahead\n"
        "rope,,,pelvis,100,-200\n"
        "rope,knee,20,thigh,1000,100\n"
        "rope,,,shank,100,50\n"
    )


def test_what_this_form_cannot_hold_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    def both(hip: float, knee: float) -> list[SimpleNamespace]:
        moving = point("MovingPathPoint", "femur", (0.001 * hip, 0.001 * knee))
        return [point("PathPoint", "hips", (0, 0)), moving]

    def coming(_hip: float, knee: float) -> list[SimpleNamespace]:
        return [point("PathPoint", "hips", (0, 0))] * (2 if knee < -5 else 1)

    def elsewhere(_hip: float, _knee: float) -> list[SimpleNamespace]:
        return [point("PathPoint", "talus", (0, 0))]

    for path, told in (
        (both, "`rope_r` changes with hip and knee in one place"),
        (coming, "the fixed points of `rope_r`"),
        (elsewhere, "fixed to `talus`, which is none of the segments"),
    ):
        with pytest.raises(ValueError, match=told):
            sampled(monkeypatch, path)


# --- the real models ----------------------------------------------------------------


def test_the_committed_paths_hold_every_muscle_of_the_tables() -> None:
    model = catalog().model.data
    found = {
        column
        for id, given in model.models.items()
        if given.segments
        for column in read(SHIPPED / "model" / file(id), file(id))[0]
    }
    assert found == {muscle.column for muscle in model.muscles.values()}


@pytest.mark.parametrize("id", catalog().model.data.models)
def test_a_fresh_run_gives_the_committed_paths(id: str) -> None:
    pytest.importorskip("opensim", reason="the package `opensim` (extra `model`) is not installed")
    model = catalog().model.data
    given = Path(MODELS) / model.models[id].file
    if not MODELS or not given.exists():
        pytest.skip(f"{given.name} is not at hand; set MODEL_FILES to the folder that holds it")
    fresh = sample_paths.sample_paths(given, id, model)
    assert fresh.encode() == (SHIPPED / "model" / file(id)).read_bytes()
