"""Paths of muscles: read whole, or refused at the line that is wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from build_tools.catalog.load import load
from build_tools.catalog.muscle_path import MAX_SIZE, Place, Stop, file, read

TEXT = (
    "muscle,joint,deg,segment,along,ahead\n"
    "rope,,,thigh,500,-20\n"
    "rope,knee,0,shank,-50,120\n"
    "rope,knee,10,shank,-50,100\n"
    "rope,,,shank,100,40\n"
)


def test_places_are_shares_of_their_unit_and_some_hang_on_a_joint(tmp_path: Path) -> None:
    path = tmp_path / file("any")
    path.write_text(TEXT, encoding="utf-8")
    paths, findings = read(path, path.name)
    assert findings == [] and path.name == "any-paths.csv"
    assert paths["rope"].stops == (
        Stop(Place("thigh", 0.5, -0.02)),
        Stop(Place("shank", -0.05, 0.12), "knee", 0),
        Stop(Place("shank", -0.05, 0.1), "knee", 10),
        Stop(Place("shank", 0.1, 0.04)),
    )


@pytest.mark.parametrize(
    ("change", "line", "told"),
    [
        (lambda t: "", 1, "the first line is not muscle,joint,deg"),
        (lambda t: t.replace("along,", ""), 1, "the first line is not muscle,joint,deg"),
        (lambda t: t.replace("knee,0,shank", "knee,0,shin"), 3, "`shin` is none of pelvis"),
        (lambda t: t.replace("500", "9" * 400), 2, "is beyond 10000"),
        (lambda t: t.replace("knee,10,", "knee,-99999,"), 4, "is beyond 10000"),
        (lambda t: t.replace("500", "x" * 140_000), 1, "no path of a muscle"),
        (lambda t: t.replace("knee,10,", "knee,,"), 4, "a joint stands with its angle"),
        (lambda t: t.replace("100,40", "100"), 5, "there are 5 values here, not 6"),
        (lambda t: t.replace("100,40", "100,wide"), 5, "wide"),
        (lambda t: t + "string,,,foot,1,1\n", 6, "string has one place only"),
        (lambda t: "x" * (MAX_SIZE + 1), 1, "larger than"),
    ],
)
def test_a_damaged_file_is_refused_where_it_is_wrong(
    tmp_path: Path, change, line: int, told: str
) -> None:  # type: ignore[no-untyped-def]
    path = tmp_path / "any-paths.csv"
    path.write_text(change(TEXT), encoding="utf-8")
    paths, [finding] = read(path, path.name)
    assert paths == {} and told in finding.message and finding.spot.line == line
    assert finding.rule == "length-table" and "sample-lengths" in finding.help


def test_a_missing_file_is_told_of_once_the_model_has_segments(demo: Path) -> None:
    muscles = demo / "model" / "muscles.yaml"
    assert load(demo).findings == []
    text = muscles.read_text(encoding="utf-8")
    muscles.write_text(
        text.replace(
            "tables:\n", "    segments:\n      thigh: {body: thigh, to: shank}\ntables:\n"
        ),
        encoding="utf-8",
    )
    [finding] = load(demo).findings
    assert (
        finding.spot.file.endswith("lamplighter-paths.csv") and "cannot be read" in finding.message
    )
