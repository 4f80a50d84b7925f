"""Tables of muscle lengths: complete, or refused at the line that is wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from build_tools.catalog.entries import LengthTable
from build_tools.catalog.length_table import MAX_SIZE, angles, read
from build_tools.catalog.load import load

TABLE = LengthTable.model_validate(
    {
        "model": "any",
        "axes": [
            {"joint": "hip", "coordinate": "hip", "span": [-10, 10], "step": 20},
            {"joint": "knee", "coordinate": "knee", "span": [0, 20], "step": 10},
        ],
    }
)
TEXT = (
    "hip_deg,knee_deg,rope\n-10,0,400.5\n-10,10,399\n-10,20,398\n10,0,410\n10,10,409\n10,20,408\n"
)


def test_a_whole_table(tmp_path: Path) -> None:
    path = tmp_path / "any.csv"
    path.write_text(TEXT, encoding="utf-8")
    grid, findings = read(path, "any.csv", TABLE)
    assert (
        findings == []
        and grid.joints == ("hip", "knee")
        and grid.angles == ((-10, 10), (0, 10, 20))
    )
    assert (
        grid.lengths["rope"][-10, 0] == 400.5
        and grid.lengths["rope"][10, 20] == 408
        and len(grid.lengths["rope"]) == 6
    )


@pytest.mark.parametrize(
    ("change", "line", "told"),
    [
        (lambda t: "", 1, "does not name hip_deg, knee_deg"),
        (lambda t: t.replace("knee_deg", "ankle_deg"), 1, "does not name hip_deg, knee_deg"),
        (lambda t: t.replace(",rope", ""), 1, "and muscles"),
        (lambda t: t.replace("rope\n", "rope,rope\n"), 1, "each once"),
        (
            lambda t: t.replace("-10,10,", "-10,15,"),
            3,
            "this line should be for hip -10 and knee 10 degrees",
        ),
        (
            lambda t: t.replace("-10,20,398\n", ""),
            4,
            "this line should be for hip -10 and knee 20 degrees",
        ),
        (lambda t: t[: t.rindex("10,20,")], 6, "the table ends after 5 of 6 lines"),
        (lambda t: t + "10,30,407\n", 8, "should have ended"),
        (lambda t: t.replace("399", ""), 3, "`` is no number"),
        (lambda t: t.replace("399", "nan"), 3, "`nan` is no number"),
        (
            lambda t: t.replace("399", "399,1"),
            3,
            "there are 4 values here, where the table should have 3",
        ),
    ],
)
def test_refused(tmp_path: Path, change, line: int, told: str) -> None:
    path = tmp_path / "any.csv"
    path.write_text(change(TEXT), encoding="utf-8")
    grid, [finding] = read(path, "model/any.csv", TABLE)
    assert grid is None and told in finding.message and finding.rule == "length-table"
    assert (finding.spot.file, finding.spot.line) == ("model/any.csv", line)


def test_what_is_no_table_at_all(tmp_path: Path) -> None:
    path = tmp_path / "any.csv"
    for content, told in (
        (None, "cannot be read"),
        (b"\xff\xfe", "is no table"),
        (b"x" * (MAX_SIZE + 1), "larger than"),
    ):
        if content is not None:
            path.write_bytes(content)
        _, [finding] = read(path, "any.csv", TABLE)
        assert told in finding.message and finding.spot.line == 1


def test_axes_are_whole_steps() -> None:
    assert angles([-20, 20], 20) == (-20, 0, 20)
    for span, step in (([0, 25], 10), ([10, 0], 10), ([0, 0], 10)):
        with pytest.raises(ValueError, match="whole number of steps"):
            angles(span, step)


def test_a_table_that_nobody_names_is_a_stray_file(demo: Path) -> None:
    (demo / "model" / "lamp2.csv").write_text("", encoding="utf-8")
    assert [(f.rule, f.spot.file) for f in load(demo, "demo").findings] == [
        ("stray-file", "demo/model/lamp2.csv")
    ]


def test_a_catalog_without_a_model_is_sound(demo: Path) -> None:
    for file in (demo / "model").iterdir():
        file.unlink()
    catalog = load(demo, "demo")
    assert catalog.findings == [] and catalog.model is None and catalog.length_tables == {}
