"""What stands first for a client who has to take care: whatever was asked for is answered, by lines, by a failure said, or by a silence said.

Common practice: a missing line is not an all-clear, so it is told apart from a file that could not be had.
"""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from script_rules import care

KNOWN = {"knee": ["Knee", None, []], "heart": ["Heart", "Ask first.", ["You faint."]]}
LINE = ["Sore knees.", "Go less deep.", "It locks."]


def careful(asked: list[str], files: dict[str, Any], *ids: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = care.careful(asked, KNOWN, files, list(ids))
    return found


def test_lines_stand_once_however_often_an_exercise_comes() -> None:
    [found] = careful(
        ["knee"],
        {"knee": {"crate-curl": [LINE, LINE[::-1]], "other": [LINE]}},
        *["crate-curl", "cable-curl"] * 2,
    )
    assert found["lines"] == [["crate-curl", LINE], ["crate-curl", LINE[::-1]]]
    assert found["silent"] == ["cable-curl"]


def test_a_concern_that_is_gone_a_file_that_is_missing_and_a_silence_differ() -> None:
    gone, missing, silent = careful(
        ["toString", "knee", "heart"], {"knee": None, "heart": {}}, "crate-curl"
    )
    assert gone["name"] is gone["lines"] is None
    assert (missing["name"], missing["lines"], missing["silent"]) == ("Knee", None, [])
    assert (silent["before"], silent["help"]) == ("Ask first.", ["You faint."])
    assert (silent["lines"], silent["silent"]) == ([], ["crate-curl"])


@given(
    st.lists(st.sampled_from(["knee", "heart", "gone"]), unique=True),
    st.dictionaries(
        st.sampled_from(["knee", "heart"]),
        st.none() | st.dictionaries(st.sampled_from("abc"), st.just([LINE])),
    ),
    st.lists(st.sampled_from("abcd"), min_size=1),
)
def test_no_concern_is_answered_by_nothing(
    asked: list[str], files: dict[str, Any], ids: list[str]
) -> None:
    found = careful(asked, files, *ids)
    assert [each["id"] for each in found] == asked
    for each in found:
        told = each["lines"] is None or {id for id, _ in each["lines"]} | set(
            each["silent"]
        ) == set(ids)
        assert told and (each["name"] is None) == (each["id"] == "gone")
