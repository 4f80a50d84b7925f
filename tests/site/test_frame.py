"""The frame around the pages: doors over the pages that there are."""

from __future__ import annotations

from build_tools.site.frame import doors


def test_a_door_leads_only_to_pages_that_there_are() -> None:
    assert doors(["exercises/index.md", "gaps.md"], ["index.md", "methods.md"]) == [
        {"Map": "index.md"},
        {"Exercises": [{"Exercises": "exercises/index.md"}]},
        {"Evidence": [{"Gaps": "gaps.md"}, {"Methods": "methods.md"}]},
    ]


def test_pages_of_ones_own_stand_behind_a_door_of_their_own() -> None:
    assert doors([], ["index.md", "staff.md", "rooms/big.md"]) == [
        {"Map": "index.md"},
        {"More": ["rooms/big.md", "staff.md"]},
    ]
