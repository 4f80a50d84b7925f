"""Where something differs, in words that lead an author to the line."""

from __future__ import annotations

from typing import Any

import pytest

from build_tools.revisions import leaves, places

STUDY: dict[str, Any] = {
    "people": {"n": 18},
    "results": [
        {
            "parts": ["lantern/long-head"],
            "measure": "mri-volume",
            "values": {"seated": {"change_percent": 14}},
            "contrasts": [{"of": "seated", "against": "standing", "p": 0.04}],
        }
    ],
    "says": "It grew.",
}


def told(now: dict[str, Any]) -> list[str]:
    return [places.told(leaf, STUDY, now) for leaf in leaves.differing(STUDY, now)]


def test_a_number_is_named_by_what_it_measures() -> None:
    [result] = STUDY["results"]
    more = {**result, "values": {"seated": {"change_percent": 36}}}
    assert told({**STUDY, "results": [more]}) == [
        "lantern/long-head mri-volume, seated, change percent: 14 → 36"
    ]
    tested = {**result, "contrasts": [{**result["contrasts"][0], "p": 0.5}]}
    assert told({**STUDY, "results": [tested]}) == [
        "lantern/long-head mri-volume, seated against standing, p: 0.04 → 0.5"
    ]


def test_what_came_and_went_is_named() -> None:
    [result] = STUDY["results"]
    assert told({**STUDY, "results": []}) == ["lantern/long-head mri-volume: taken out"]
    other = {**result, "parts": ["lantern/short-head"]}
    assert told({**STUDY, "results": [result, other]}) == ["lantern/short-head mri-volume: new"]
    assert told({**STUDY, "weeks": 8}) == ["weeks: 8 (new)"]


@pytest.mark.parametrize("length", [10, 1000])
def test_of_a_long_text_the_place_that_differs_is_shown(length: int) -> None:
    start = "word " * length
    [leaf] = leaves.differing({"says": f"{start}grew."}, {"says": f"{start}shrank."})
    line = places.told(leaf, {}, {})
    before, _, now = line.removeprefix("says: ").partition(" → ")
    assert before.endswith("grew.") and now.endswith("shrank.") and len(line) < 330


def test_numbers_of_a_study_leave_out_its_texts() -> None:
    now = {**STUDY, "people": {"n": 20}, "says": "It did not grow."}
    found = list(leaves.differing(STUDY, now))
    assert list(places.numbers(found, STUDY, now)) == ["people, n: 18 → 20"]
