"""Every rule has a complete manual, and the manual's examples hold."""

from __future__ import annotations

from pathlib import Path
from types import ModuleType, SimpleNamespace

import pytest
from examples import TODAY, lay_over
from folders import DEMO

from build_tools.checks.manuals.manual import Manual, ManualExample, read_manual
from build_tools.checks.manuals.register import rule_manuals
from build_tools.checks.rule import Context, all_rules

RULES = all_rules()


def manual_of(module: ModuleType) -> Manual:
    """The module's manual; one that cannot be read fails the test of its own rule, not the collection of all."""
    try:
        return read_manual(module.__doc__ or "")
    except ValueError:
        return Manual("", "", "", (), ())


EXAMPLES = [
    pytest.param(rule, example, id=f"{rule}-{kind}-{number}")
    for rule, module in RULES.items()
    for manual in [manual_of(module)]
    for kind, examples in (("fails", manual.fails), ("passes", manual.passes))
    for number, example in enumerate(examples, 1)
]


def test_there_are_rules() -> None:
    assert len(RULES) >= 25


@pytest.mark.parametrize("rule", RULES)
def test_manual_is_complete(rule: str) -> None:
    manual = read_manual(RULES[rule].__doc__ or "")
    assert manual.title.endswith(".") and len(manual.title) <= 100
    assert len(manual.why) > 40 and len(manual.instead) > 20


@pytest.mark.parametrize(("rule", "example"), EXAMPLES)
def test_example(rule: str, example: ManualExample, tmp_path: Path) -> None:
    catalog = lay_over(example, tmp_path)
    assert not catalog.findings, "the example itself must load"
    problems = list(RULES[rule].check(Context(catalog, TODAY)))
    found = sorted(
        (problem.spot.file, problem.spot.line, problem.spot.column) for problem in problems
    )
    assert found == sorted((f"/{example.file}", *place) for place in example.places), problems
    for problem in problems:
        assert problem.message and problem.help
        assert problem.message[-1] not in ".!", "a message is a clause, not a sentence"


@pytest.mark.parametrize("rule", RULES)
def test_demo_catalog_is_clean(rule: str) -> None:
    from build_tools.catalog.load import load

    assert list(RULES[rule].check(Context(load(DEMO, "demo"), TODAY))) == []


@pytest.mark.parametrize(
    ("place", "complaint"),
    [
        ("at 1:1", "`at` is no line:column"),
        ("1", "`1` is no line:column"),
        ("0:1", "`0:1` is no line:column"),
    ],
)
def test_a_malformed_manual_names_its_module_and_leaves_the_others(
    place: str, complaint: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    broken = SimpleNamespace(
        __name__="build_tools.checks.rules.swap_once",
        __doc__=(
            f"Title.\n\nWhy: because.\n\nInstead: that.\n\nFails: a.yaml {place}\n    x: 1\n\nPasses: a.yaml\n    x: 2\n"
        ),
    )
    monkeypatch.setattr(
        "build_tools.checks.manuals.register.all_rules", lambda: {**RULES, "swap-once": broken}
    )
    manuals = rule_manuals()
    assert (
        "build_tools/checks/rules/swap_once.py" in manuals["swap-once"].title
        and complaint in manuals["swap-once"].why
    )
    assert manuals["near-names"].fails and manual_of(broken).title == ""


@pytest.mark.parametrize(
    "docstring",
    [
        "Title.\n\nWhy: because.\n\nInstead: that.\n\nFails: a.yaml 1:1\n    x: 1\n",
        "Title.\n\nWhy: because.\n\nInstead: that.\n\nFails: a.yaml\n    x: 1\n\nPasses: a.yaml\n    x: 2\n",
        "Title.\n\nInstead: that.\n\nFails: a.yaml 1:1\n    x: 1\n\nPasses: a.yaml\n    x: 2\n",
    ],
)
def test_incomplete_manual_is_refused(docstring: str) -> None:
    with pytest.raises(ValueError, match="Passes"):
        read_manual(docstring)
