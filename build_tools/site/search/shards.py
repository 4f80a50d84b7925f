"""Many small files instead of one index: words in order of the alphabet, each in the one file that holds all its places.

Who has typed a word fetches the file of that word alone, so what is sent for a first answer does not grow with the
catalog but with the number of places that share a word.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

#: A file is closed when it has grown to this many bytes. A word of more places has a file of its own, however large.
ROOM = 24_000


class Shard(NamedTuple):
    """The words of one file and the indexes of their places."""

    words: list[str]
    places: list[int]


def shards(places_of: Mapping[str, Sequence[int]], sizes: Sequence[int]) -> Iterator[Shard]:
    """Words in order of the alphabet, packed; ``sizes`` holds the bytes of each place."""
    words: list[str] = []
    held: set[int] = set()
    for word in sorted(places_of):
        more = held.union(places_of[word])
        if words and sum(sizes[place] for place in more) > ROOM:
            yield Shard(words, sorted(held))
            words, more = [], set(places_of[word])
        words, held = [*words, word], more
    if words:
        yield Shard(words, sorted(held))


def runs(sizes: Sequence[int], room: int) -> Iterator[range]:
    """Indexes in a row, so many that their bytes together fit into ``room``; a larger one stands alone."""
    start = held = 0
    for index, size in enumerate(sizes):
        if index > start and held + size > room:
            yield range(start, index)
            start, held = index, 0
        held += size
    if start < len(sizes):
        yield range(start, len(sizes))
