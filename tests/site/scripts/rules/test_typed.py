"""What a coach types to add an exercise. The ways to write a dose are common practice among coaches; what follows is read by hand."""

from __future__ import annotations

import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from script_rules import link
from script_rules import typed as rules

from build_tools.handout import limits


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("back squat", ("back squat", 3, "8-12", None)),
        ("  back squat ", ("back squat", 3, "8-12", None)),
        ("back squat 4x6", ("back squat", 4, "6", None)),
        ("back squat 4 x 6 \u2013 8 62.5 kg", ("back squat", 4, "6-8", "62.5 kg")),
        ("Plank 3\u00d730S", ("Plank", 3, "30s", None)),
        ("band raise 3x15, red band", ("band raise", 3, "15", "red band")),
        ("bench press 5x5 @ 100 kg", ("bench press", 5, "5", "100 kg")),
        ("3x8", ("3x8", 3, "8-12", None)),  # no name: nothing to add
        ("45 degree hip extension 2x10", ("45 degree hip extension", 2, "10", None)),
    ],
)
def test_a_name_and_its_dose(text: str, expected: tuple[Any, ...]) -> None:
    found = rules.typed(text)
    assert tuple(found[key] for key in ("name", "sets", "repetitions", "load")) == expected


@given(
    st.from_regex(r"[a-z]{3,9}( [a-z]{3,9})?", fullmatch=True),
    st.integers(1, 20),
    st.integers(1, 50),
    st.integers(1, 50) | st.none(),
    st.sampled_from(["20 kg", "red band", "body weight"]) | st.none(),
)
def test_what_is_written_is_read(
    name: str, sets: int, low: int, more: int | None, load: str | None
) -> None:
    repetitions = str(low) if more is None else f"{low}-{low + more}"
    found = rules.typed(f"{name} {sets}x{repetitions} {load or ''}")
    assert found == {"name": name, "sets": sets, "repetitions": repetitions, "load": load}
    field = limits.FIELDS["repetitions"]
    assert isinstance(field, limits.Text) and re.fullmatch(field.pattern, repetitions)
    assert link.holds(field._asdict(), repetitions)
