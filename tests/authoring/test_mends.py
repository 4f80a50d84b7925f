"""Each mend puts right what was meant and nothing else; what has several answers stays with the author."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml
from slips import LEFT, MENDED, Slip

from build_tools.authoring.mending import mend
from build_tools.authoring.mends import MENDS
from build_tools.checks.manuals.register import manuals


@pytest.fixture(autouse=True)
def _day(command_line: None) -> None:
    """Reviews are judged by one day."""


@pytest.mark.parametrize("name", MENDED)
@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_a_slip_with_one_answer_is_mended_in_its_line(name: str, ends: str, demo: Path) -> None:
    slip: Slip = MENDED[name]
    path = demo / slip.file
    wanted = path.read_text(encoding="utf-8")
    if slip.mended is not None:
        wanted = wanted.replace(slip.text, slip.mended, 1)
    slip.make(demo)
    path.write_bytes(path.read_bytes().replace(b"\n", ends.encode()))
    left = mend(demo, "catalog")
    assert path.read_bytes().decode("utf-8") == wanted.replace("\n", ends)
    assert {told.rule for told in left.told} == {slip.rule} and not left.found
    assert {told.spot.file for told in left.told} == {f"catalog/{slip.file}"}


@pytest.mark.parametrize("name", LEFT)
def test_a_slip_with_several_answers_is_left(name: str, demo: Path) -> None:
    slip: Slip = LEFT[name]
    slip.make(demo)
    before = {path: path.read_bytes() for path in demo.rglob("*") if path.is_file()}
    left = mend(demo, "catalog")
    assert not left.told
    assert {path: path.read_bytes() for path in demo.rglob("*") if path.is_file()} == before
    assert slip.rule in {graded.finding.rule for graded in left.found}


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("exceptions:\n  - {X}\n", "exceptions: []\n"),
        ("# why\nexceptions:  # few\n  - {X}\n# end\n", "# why\nexceptions: []  # few\n# end\n"),
        ("exceptions: [{X}]\n", "exceptions: []\n"),
        (
            "exceptions:\n  - {X}\n  # needed\n  - {Y}\n  - {X}  # old",
            "exceptions:\n  # needed\n  - {Y}\n",
        ),
        ("exceptions: [{X}, {Y}, {X}]", "exceptions: [{Y}]"),
    ],
)
def test_a_needless_exception_goes(before: str, after: str, demo: Path) -> None:
    """Y is needed: two names differ by one letter."""
    curl = demo / "exercises/crate-curl.yaml"
    text = curl.read_text(encoding="utf-8")
    curl.write_text(text.replace("name: Crate curl", "name: Standing cabel curl"), encoding="utf-8")
    words = {
        "{X}": "{rule: cue-once, file: exercises/crate-curl.yaml, because: Once.}",
        "{Y}": "{rule: near-names, file: exercises/crate-curl.yaml, because: Invented.}",
    }
    for word, exception in words.items():
        before, after = before.replace(word, exception), after.replace(word, exception)
    (demo / "exceptions.yaml").write_text(before, encoding="utf-8")
    left = mend(demo, "catalog")
    assert (demo / "exceptions.yaml").read_text(encoding="utf-8") == after
    assert {told.rule for told in left.told} == {"needless-exception"}
    assert isinstance(yaml.safe_load(after)["exceptions"], list)


def test_every_mend_is_that_of_a_rule() -> None:
    assert MENDS.keys() <= manuals().keys()
    assert {slip.rule for slip in MENDED.values()} | {"needless-exception"} == set(MENDS)


def test_a_mend_is_told_with_its_place_as_it_was(demo: Path) -> None:
    MENDED["swap twice"].make(demo)
    MENDED["equipment twice"].make(demo)
    told = [str(each) for each in mend(demo, "catalog").told]
    assert told == [
        "catalog/exercises/crate-curl.yaml:3: mended [listed-once]: took out the second `crate`",
        "catalog/exercises/crate-curl.yaml:43: mended [swap-once]: took out the second `cable-curl`",
    ]
    assert all(re.fullmatch(r"\S+:\d+: mended \[[a-z-]+\]: .+[^.]", line) for line in told)
