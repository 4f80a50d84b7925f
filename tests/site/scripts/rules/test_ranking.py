"""How well a place is called what was typed: the order of the house, by cases made for it."""

from __future__ import annotations

from typing import Any

import pytest
from script_rules import query, ranking

EXERCISE, PART, CAUTION, SOURCE = 0, 1, 3, 5


def place(kind: int, *names: str, note: str = "") -> dict[str, Any]:
    return {
        "kind": kind,
        "weight": 0,
        "title": names[0],
        "address": names[0],
        "names": [[query.stem(word) for word in query.asked(name)] for name in names],
        "note": [query.stem(word) for word in query.asked(note)],
    }


def rank(one: dict[str, Any], typed: str, **costs: float) -> float:
    """The rank where every typed word means itself, at a cost where one is given."""
    words = query.asked(typed)
    slots = [{query.stem(word): costs.get(word, 0)} for word in words]
    found = ranking.rank(one, slots, query.joined(words))
    return float("inf") if found is None else found  # JSON has no infinity


LYING = place(EXERCISE, "Lying triceps extension", "skull crusher", note="Triceps, barbell")


def test_exactly_then_in_any_order_then_within_a_name_then_over_several_then_loosely() -> None:
    ranks = [
        rank(LYING, typed)
        for typed in (
            "lying triceps extension",
            "skullcrusher",
            "crusher skull",
            "lying triceps",
            "triceps extension",
            "lying crusher",
            "barbell skull",
            "lying row",
        )
    ]
    assert ranks == sorted(ranks)
    assert [int(found) for found in ranks] == [0, 0, 1, 2, 2, 3, 3, 5]
    assert rank(LYING, "deadlift") == float("inf")


def test_a_slip_costs() -> None:
    assert rank(LYING, "lying triceps") < rank(LYING, "lying triceps", triceps=0.5) < 3


def test_few_words_of_a_long_name_are_only_near() -> None:
    supinator = place(PART, "Supinator", "deep muscle that turns the palm up")
    assert rank(supinator, "muscle up") > 5 > rank(supinator, "supinator")


def test_a_body_part_alone_asks_for_no_caution_and_its_pain_does() -> None:
    knee = place(CAUTION, "Knee", "knee pain")
    extension = place(EXERCISE, "Leg extension", "knee extension")
    found = [{"rank": rank(one, "knee"), "place": one} for one in (knee, extension)]
    assert ranking.ranked(found)[0]["place"] == extension
    assert rank(knee, "knee pain") < 1


def test_the_kind_of_thing_decides_what_is_near() -> None:
    assert rank(place(EXERCISE, "Goblet squat"), "sissy squat") < rank(
        place(EXERCISE, "Sissy hold"), "sissy squat"
    )


def test_a_title_that_shares_a_word_is_never_the_nearest() -> None:
    source = place(SOURCE, "Moore et al. 2019", note="Gluteus medius in eight exercises")
    assert rank(source, "gluteus medius") == 4.5
    assert not ranking.isNearest({"place": source})


@pytest.mark.parametrize(("weights", "first"), [((3, 1), "Barbell row"), ((0, 2), "Upright row")])
def test_of_two_alike_the_better_known_goes_first(weights: tuple[int, int], first: str) -> None:
    found = [
        {"rank": 2.1, "place": {**place(EXERCISE, name), "weight": weight}}
        for name, weight in zip(("Barbell row", "Upright row"), weights, strict=True)
    ]
    assert ranking.ranked(found)[0]["place"]["title"] == first
