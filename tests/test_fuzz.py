"""What once broke it does so no more, and the fuzzer itself makes the same inputs every time and sees the faults it is there for."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest
import yaml
from authoring.sample_exports import ALL
from folders import DEMO
from fuzz import outcome
from fuzz.kinds import SHARES, Input, Trials

CORPUS: list[dict[str, Any]] = yaml.safe_load(
    (Path(__file__).parent / "fuzz" / "corpus.yaml").read_text(encoding="utf-8")
)
#: The kinds that cost little.
CHEAP = [kind for kind in SHARES if kind != "shipped"]


@pytest.fixture(scope="module")
def trials() -> Trials:
    return Trials()


@pytest.mark.parametrize("case", CORPUS, ids=lambda case: f"{case['file']}-{case['put'][:30]!r}")
def test_what_once_broke_it(case: dict[str, Any], trials: Trials) -> None:
    text = (ALL if case["kind"] == "export" else trials.demo.texts)[case["file"]]
    assert case["find"] in text
    changed = text.replace(case["find"], case["put"] * case.get("times", 1), 1).encode()
    found = trials.tried(Input(case["kind"], {case["file"]: changed}), deep=True)
    assert found.is_sound, found
    assert case["rule"] == found.name or f"[{case['rule']}]" in found.detail, found


def test_the_unchanged_catalog_passes(trials: Trials) -> None:
    assert trials.tried(Input("catalog", {}), deep=True) == ("clean", "", "rendered")


def test_new_inputs_break_nothing(trials: Trials) -> None:
    """A few of every kind, the same every time; `make fuzz` tries as many as it is asked."""
    for number in range(80):
        random = Random(f"suite/{number}")
        given = trials.made(CHEAP[number % len(CHEAP)], random)
        assert trials.tried(given, deep=False).is_sound, given
        assert given == trials.made(CHEAP[number % len(CHEAP)], Random(f"suite/{number}"))


def test_faults_are_seen(trials: Trials, monkeypatch: pytest.MonkeyPatch) -> None:
    from build_tools.checks.rule import Problem
    from build_tools.checks.rules import name_once

    def blames_another_file(context: Any) -> Iterator[Problem]:
        spot = context.catalog.handbook.spot("title")
        yield Problem(spot._replace(line=spot.line + 10_000), "far below", "look there")

    def fails(context: Any) -> Iterator[Problem]:
        raise KeyError("lamp")

    for check, name in ((blames_another_file, "unlocated"), (fails, "internal")):
        monkeypatch.setattr(name_once, "check", check)
        assert trials.tried(Input("catalog", {}), deep=False).name == name
    assert outcome.of_pages([("a.svg", '<path d="M nan 3">')]) is not None
    assert outcome.of_pages([("a.json", '{"x": -Infinity}')]) is not None
    assert outcome.of_pages([("a.md", "Nancy has infinite patience, nan-o")]) is None
    assert outcome.of_error(MemoryError(), "read").name == "memory"


def test_a_catalog_is_as_it_was_after_a_trial(trials: Trials) -> None:
    for path in DEMO.rglob("*.yaml"):
        name = path.relative_to(DEMO).as_posix()
        assert (trials.demo.root / name).read_text(encoding="utf-8") == trials.demo.texts[name]
