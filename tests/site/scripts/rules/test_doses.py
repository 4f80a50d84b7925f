"""A dose in words. Expected sentences are the ones that the first handouts had: links of theirs still open and must say the same."""

from __future__ import annotations

from dataclasses import asdict

import pytest
from handouts import Item
from script_rules import doses

from build_tools.catalog.fixed_words import fixed_words

WORDS = fixed_words("handout")["script"]["dose"]


@pytest.mark.parametrize(
    ("item", "told"),
    [
        (Item("crate-curl"), [""]),
        (Item("crate-curl", 1, "1"), ["1 set of 1 repetition"]),
        (Item("crate-curl", 3, "8-12", "20 kg"), ["3 sets of 8 to 12 repetitions, 20\u00a0kg"]),
        (Item("crate-curl", None, "20-40s", "red band"), ["20 to 40 seconds, red\u00a0band"]),
        (Item("crate-curl", rest=119), ["", "Rest 119 seconds between sets."]),
        (Item("crate-curl", rest=120), ["", "Rest 2 minutes between sets."]),
        (Item("crate-curl", tempo="3-1-1"), ["", "Lower for 3 seconds, hold for 1, lift for 1."]),
        (Item("crate-curl", left=0), ["", "Go on until you cannot do one more with good form."]),
    ],
)
def test_in_words(item: Item, told: list[str]) -> None:
    assert doses.dose(asdict(item), WORDS) == told
    assert doses.work(asdict(item), WORDS) == told[0]


@pytest.mark.parametrize(
    ("field", "value", "outside"),
    [
        ("repetitions", "8-12", False),
        ("repetitions", "8-13", True),
        ("repetitions", "99s", False),
        ("load", "30 kg", False),
        ("load", "30 %", True),
        ("tempo", "3-9-2", False),
        ("rest", None, False),
    ],
)
def test_outside_a_range(field: str, value: object, outside: bool) -> None:
    assert doses.outside(field, value, {field: {"low": 1, "high": 12, "says": "outside"}}) == (
        "outside" if outside else ""
    )
