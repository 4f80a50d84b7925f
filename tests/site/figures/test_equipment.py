"""Equipment is hinted at by its own kinds of lines."""

from __future__ import annotations

import pytest
from drawn_figures import CURL, made


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
            {"cord", "hub"},
        ),
        (
            ["none"],
            {
                "position": "hanging",
                "from": {"shoulder": 180},
                "to": {"shoulder": 60, "elbow": 120},
                "load": {"kind": "body-weight"},
            },
            {"kit"},
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
