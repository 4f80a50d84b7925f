"""``tests/`` mirrors ``build_tools/``: who knows a module's place knows where its tests stand."""

from __future__ import annotations

from pathlib import Path

import pytest
from folders import ROOT

TESTS = ROOT / "tests"
PACKAGE = ROOT / "build_tools"

#: Folders and modules that test no single module, each with what they test instead. One that is gone, or that has its module, is an error.
ELSEWHERE = {
    "test_bench.py": "the benchmark, which is no part of the product",
    "test_fuzz.py": "whether anything breaks it, all rooms together",
    "test_lasting.py": "other packages, which are no part of the product",
    "test_layers.py": "the order of all rooms",
    "test_mirror.py": "this",
    "test_packaging.py": "commands and locked sets",
    "test_unused.py": "all modules at once",
    "end_to_end": "the wheel, as another team uses it",
    "test_repository.py": "what a code host and its visitors look for",
    "test_workflows.py": "the workflows",
    "shipped": "the shipped catalog",
    "site/whole": "whole sites, as readers meet them",
    "checks/test_mistakes.py": "the checks together, by slips in the shipped catalog",
    "checks/test_number_manuals.py": "the rules about numbers, which stand in several rooms",
    "evidence/test_properties.py": "all of the engine: no order, side, unit or last digit decides, and less is never surer",
    "evidence/test_invariance.py": "all of the engine: files, names, sides, units and what is beside a question change nothing",
    "evidence/test_same_bytes.py": "all of the engine: every Python and any number of threads give the same bytes",
    "evidence/test_statistics_coverage.py": "the published values, each checked or left out for a reason",
    "evidence/wording/test_sentence_properties.py": "what holds for every sentence",
    "evidence/oracle": "an independent way to the same numbers",
}
MODULES = sorted(TESTS.rglob("test_*.py"))


def has_subject(path: Path) -> bool:
    """Whether a module, script, package or folder has the name that a test module is given."""
    place, name = PACKAGE / path.relative_to(TESTS).parent, path.stem.removeprefix("test_")
    return any(name in (found.name, found.stem) for found in place.glob(f"{name}*"))


def is_elsewhere(path: Path) -> bool:
    return any(TESTS / name in (path, *path.parents) for name in ELSEWHERE)


@pytest.mark.parametrize(
    "path",
    [path for path in MODULES if not is_elsewhere(path)],
    ids=lambda p: p.relative_to(TESTS).as_posix(),
)
def test_a_test_stands_where_its_module_does(path: Path) -> None:
    assert has_subject(path)


def test_every_exception_is_there_and_needed() -> None:
    for name in ELSEWHERE:
        beneath = [path for path in MODULES if TESTS / name in (path, *path.parents)]
        assert beneath and not all(map(has_subject, beneath)), name
