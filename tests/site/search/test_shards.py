"""Words in small files: each word in one, with all its places, and no file larger than it must be."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from build_tools.site.search.shards import ROOM, runs, shards

PLACES = 40
WORDS = st.dictionaries(
    st.text("abcde", min_size=1, max_size=4),
    st.lists(st.integers(0, PLACES - 1), min_size=1, max_size=12, unique=True),
    max_size=30,
)


@given(WORDS, st.lists(st.integers(1, ROOM // 3), min_size=PLACES, max_size=PLACES))
def test_every_word_has_one_file_with_all_its_places(
    places_of: dict[str, list[int]], sizes: list[int]
) -> None:
    found = list(shards(places_of, sizes))
    assert [word for shard in found for word in shard.words] == sorted(places_of)
    for shard in found:
        assert {place for word in shard.words for place in places_of[word]} == set(shard.places)
        assert len(shard.words) == 1 or sum(sizes[place] for place in shard.places) <= ROOM


def test_small_catalogs_make_one_file() -> None:
    assert len(list(shards({"a": [0], "b": [0, 1]}, [10, 10]))) == 1
    assert list(shards({}, [])) == []


@given(st.lists(st.integers(1, 150)))
def test_runs_hold_everything_once_and_in_order(sizes: list[int]) -> None:
    found = list(runs(sizes, 100))
    assert [index for run in found for index in run] == list(range(len(sizes)))
    for run in found:
        assert len(run) == 1 or sum(sizes[index] for index in run) <= 100
