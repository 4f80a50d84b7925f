"""The manuals of what only the numbers show: complete, and their examples hold."""

from __future__ import annotations

from pathlib import Path

import pytest
from examples import TODAY, lay_over
from folders import DEMO

from build_tools.catalog.load import Catalog, load
from build_tools.checks.manuals.manual import ManualExample
from build_tools.checks.manuals.numbers import NUMBERS
from build_tools.checks.profile import load_profile
from build_tools.pipeline import Checked, Opened, run

PROFILE = load_profile()
EXAMPLES = [
    pytest.param(rule, example, id=f"{rule}-{kind}-{number}")
    for rule, manual in NUMBERS.items()
    for kind, examples in (("fails", manual.fails), ("passes", manual.passes))
    for number, example in enumerate(examples, 1)
]


def checked(catalog: Catalog) -> Checked:
    return run(Opened(catalog, TODAY, PROFILE))


@pytest.mark.parametrize("rule", NUMBERS)
def test_manual_is_complete(rule: str) -> None:
    manual = NUMBERS[rule]
    assert manual.title.endswith(".") and len(manual.title) <= 100
    assert len(manual.why) > 40 and len(manual.instead) > 20


@pytest.mark.parametrize(("rule", "example"), EXAMPLES)
def test_example(rule: str, example: ManualExample, tmp_path: Path) -> None:
    result = checked(lay_over(example, tmp_path))
    assert result.conclusions, f"the rules must let the example pass: {result.by_rules}"
    found = [reported.finding for reported in result.by_numbers if reported.finding.rule == rule]
    assert [(f.spot.file, f.spot.line, f.spot.column) for f in found] == [
        (f"/{example.file}", *place) for place in example.places
    ]
    for finding in found:
        assert finding.help and finding.message[-1] not in "!"


def test_the_demo_catalog_is_clean() -> None:
    assert checked(load(DEMO, "demo")).reported == []


def test_nothing_is_computed_from_an_unsound_catalog(demo: Path) -> None:
    file = demo / "exercises" / "cable-curl.yaml"
    file.write_text(file.read_text().replace("swaps: [crate-curl]", "swaps: [crate-crul]"))
    found = checked(load(demo, "demo"))
    assert found.conclusions is None and found.by_numbers == []
    assert [reported.finding.rule for reported in found.reported] == ["known-exercise"]


def except_from(demo: Path, *rules: str) -> None:
    lines = [
        f"  - {{rule: {rule}, file: exercises/crate-curl.yaml, because: Invented for this test.}}"
        for rule in rules
    ]
    (demo / "exceptions.yaml").write_text("\n".join(["exceptions:", *lines, ""]))


def dispute(demo: Path) -> None:
    file = demo / "exercises" / "crate-curl.yaml"
    file.write_text(
        file.read_text().replace(
            "    because: The bent", "    disputed: Invented.\n    because: The bent"
        )
    )


def test_an_exception_lets_a_number_finding_through(demo: Path) -> None:
    dispute(demo)
    assert [r.finding.rule for r in checked(load(demo, "demo")).reported] == ["needless-dispute"]
    except_from(demo, "needless-dispute")
    assert checked(load(demo, "demo")).reported == []


def test_an_exception_that_the_numbers_do_not_need_is_reported_once(demo: Path) -> None:
    except_from(demo, "contradicted-claim")
    assert [(r.finding.rule, r.severity) for r in checked(load(demo, "demo")).reported] == [
        ("needless-exception", "error")
    ]


def test_generated_files_take_no_exception(demo: Path) -> None:
    except_from(demo, "stale-conclusions")
    [reported] = checked(load(demo, "demo")).reported
    assert (
        reported.finding.rule == "exception-rule"
        and "stale-conclusions" in reported.finding.message
    )
