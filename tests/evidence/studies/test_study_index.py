"""The index of the studies that count: one order, whatever the file's, and what a state before still knows."""

from dataclasses import replace

import pytest
from catalogs import LONG, A, B, of, result, study

from build_tools.catalog.entries import Study
from build_tools.evidence.studies.study_index import StudyIndex, sample_names

ARMS = {"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "sd": 10.0}}


@pytest.mark.parametrize(
    ("links", "names"),
    [
        ({"one": None, "two": "one", "three": "two"}, {"one": "one", "two": "one", "three": "one"}),
        ({"one": "two", "two": "one"}, {"one": "one", "two": "one"}),
        ({"one": "one", "two": "one"}, {"one": "one", "two": "one"}),
        (
            {"one": "two", "two": "three", "three": "two"},
            {"one": "three", "two": "three", "three": "three"},
        ),
        ({"one": "not here", "two": "not here"}, {"one": "not here", "two": "not here"}),
    ],
)
def test_a_sample_is_named_by_the_end_of_its_chain(links, names):
    blank = Study.model_validate(study([result(ARMS)]))
    assert (
        sample_names(
            {key: blank.model_copy(update={"same_sample_as": to}) for key, to in links.items()}
        )
        == names
    )


def test_an_index_takes_over_what_is_known_of_the_very_same_studies():
    before = of({"one": study([result(ARMS)]), "two": study([result(ARMS)])})
    other = of({"two": study([result(ARMS), result(ARMS, parts=("lantern",))])})
    after = replace(before, studies={"one": before.studies["one"], "two": other.studies["two"]})
    old = StudyIndex(before)
    new, fresh = StudyIndex(after, old), StudyIndex(after)
    assert new.views["one"] is old.views["one"] and new.views["two"] is not old.views["two"]
    for index in (new, fresh):
        assert sorted(number for number, _ in index.results("two")) == [0, 1]
        assert index.doing("one") == {"a": A, "b": B}
        assert index.arms_of[A] == [("one", "a"), ("two", "a")]
        assert index.measuring["lantern"] == ["two"] and index.measuring[LONG] == ["one", "two"]
