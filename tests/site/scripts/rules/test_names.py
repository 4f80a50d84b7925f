"""Choosing by name. Spellings are those that coaches type (common practice, from the review of issue 14); Latin terms are those of
Terminologia Anatomica (FIPAT 2019), as the catalog holds them."""

from __future__ import annotations

import pytest
import shipped_made
from script_rules import names

LIST = [
    ["lying", ["Lying triceps extension", "skull crusher"]],
    ["pull", ["Pull-up", "overhand pull-up"]],
    ["band", ["Band-assisted pull-up"]],
    ["press", ["Bench press", "flat bench press"]],
    ["farmer", ["Carry", "farmer's walk"]],
]


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("skullcrusher", "lying"),
        ("Skull crushers", "lying"),
        ("tricep extension", "lying"),
        ("pullup", "pull"),
        ("pull ups", "pull"),
        ("PULL-UPS", "pull"),
        ("assisted pull", "band"),
        ("press bench", "press"),
        ("ben", "press"),
        ("farmers walk", "farmer"),
        ("farmer’s walk", "farmer"),
    ],
)
def test_what_is_typed_finds_its_exercise_first(typed: str, first: str) -> None:
    assert names.named(LIST, typed)[0]["id"] == first


def test_the_name_that_fits_is_told() -> None:
    assert names.named(LIST, "skullcrusher") == [{"id": "lying", "name": "skull crusher"}]
    assert [one["id"] for one in names.named(LIST, "pull up")] == ["pull", "band"]


@pytest.mark.parametrize("typed", ["squat", "pull press", "zz"])
def test_a_name_that_is_not_there_finds_nothing(typed: str) -> None:
    assert names.named(LIST, typed) == []


def test_nothing_typed_leaves_the_list_as_it_is() -> None:
    assert [one["id"] for one in names.named(LIST, " -")] == [id for id, _ in LIST]


def test_every_name_of_the_catalog_finds_its_own() -> None:
    """Each exercise by its name, its other names, and its name run together; of two with one name either may be first."""
    exercises = shipped_made.planner_data()["exercises"]
    every = [[id, [one["name"], *one["also"]]] for id, one in exercises.items()]
    owners: dict[str, set[str]] = {}
    for id, called in every:
        for name in called:
            owners.setdefault(name.casefold(), set()).add(id)
    for id, called in every[::16]:
        for name in (*called, called[0].replace(" ", "").replace("-", "")):
            found = names.named(every, name)[0]["id"]
            assert found in owners.get(name.casefold(), {id}), (name, found)
