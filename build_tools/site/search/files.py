"""The files of the search: which words there are, the places that are called so, and the sections where they are written.

``search/names.json`` lists the words of all names, file by file; ``search/names-<n>.json`` holds the places of its words.
``search/texts.json`` and ``search/texts-<n>.json`` do the same for the sections of pages, by their numbers: what they are called stands in
``search/sections-<n>.json``, of which a page asks those of its results. Nothing here decides what fits: that is ``scripts/rules``.
"""

from __future__ import annotations

import json
import math
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping
from itertools import chain
from typing import Any, NamedTuple

from ..addresses import url
from ..context import RenderContext
from ..pages import indexes
from .named import KINDS, SOURCE, NamedPlace, named_places
from .shards import ROOM, Shard, runs, shards
from .texts import PageText, page_text, words

#: A word of more sections than this finds those that speak of it most.
MOST_SECTIONS = 50
#: Words that stand in the name of nearly every source and alone name none: no file holds their places.
_NAMELESS = ("al", "et")
#: Bytes of a file of words with their sections, and sections in a file of what they are called.
_WORDS, _SECTIONS = 12_000, 200
#: Pages that only list what has a page of its own.
_LISTS = frozenset(indexes.URIS.values())
#: Sections of an entry's page that repeat what stands on others.
_REPEATS = frozenset({"sources", "swaps"})
#: How Okapi BM25 lets repetition and length count: k1 and b as commonly set (Robertson and Zaragoza 2009, from memory).
_REPEATED, _LENGTH = 1.2, 0.75


class SearchableSection(NamedTuple):
    """A page, or a section of a long one, as a result."""

    title: str
    heading: str
    address: str
    words: tuple[str, ...]
    share: float = 1.0
    """By how much what it says counts: our own pages speak before the pages of sources."""


def files(shelf: RenderContext, texts: Mapping[str, str]) -> Iterator[tuple[str, bytes]]:
    """Uri and content of each. ``texts``: every page's Markdown by its uri."""
    pages = [page_text(uri, text) for uri, text in sorted(texts.items())]
    same = [list(map(str.lower, group)) for group in shelf.vocabulary.same_words]
    yield from name_files(named_places(shelf, pages), same)
    yield from text_files(
        [section for page in pages if _is_read(page) for section in _sections(page)]
    )


def name_files(places: list[NamedPlace], same: list[list[str]]) -> Iterator[tuple[str, bytes]]:
    """The words of names, and the places by word. Where nothing else decides, a place that stands first goes first.

    A source stands in one file with those beside it in the list: its many names are authors', of whom few wrote much. Every other place
    stands in the files of all its words, as a word of theirs is shared by many.
    """
    of_place = [sorted(set(chain.from_iterable(map(words, place.names)))) for place in places]
    rows = [_json([index, *place]) for index, place in enumerate(places)]
    first = next((n for n, place in enumerate(places) if place.kind == SOURCE), len(places))
    called: dict[str, list[int]] = defaultdict(list)
    for index, names in enumerate(of_place[:first]):
        for word in names:
            called[word].append(index)
    packed = [*shards(called, [len(row) for row in rows])]
    for run in runs([len(row) for row in rows[first:]], ROOM):
        held = [first + n for n in run]
        packed.append(Shard(sorted(set(chain.from_iterable(of_place[n] for n in held))), held))
    counts = [Counter(chain.from_iterable(of_place[n] for n in shard.places)) for shard in packed]
    yield (
        "search/names.json",
        _json(
            {
                "kinds": KINDS,
                "same": same,
                "nameless": _NAMELESS,
                "words": [
                    list(
                        chain.from_iterable(
                            (word, count[word]) for word in shard.words if word not in _NAMELESS
                        )
                    )
                    for shard, count in zip(packed, counts, strict=True)
                ],
            }
        ),
    )
    for number, shard in enumerate(packed):
        yield (
            f"search/names-{number}.json",
            b"[" + b",".join(rows[n] for n in shard.places) + b"]",
        )


def text_files(sections: list[SearchableSection]) -> Iterator[tuple[str, bytes]]:
    """The words of sections, by word the sections that speak of it most, each with how much, and what they are called."""
    spoken: dict[str, dict[int, int]] = defaultdict(dict)
    usual = sum(len(section.words) for section in sections) / max(1, len(sections))
    counts = [Counter(section.words) for section in sections]
    known_in = Counter(word for counted in counts for word in counted)
    for index, counted in enumerate(counts):
        long = 1 - _LENGTH + _LENGTH * len(sections[index].words) / usual
        for word, times in counted.items():
            rare = math.log(1 + (len(sections) - known_in[word] + 0.5) / (known_in[word] + 0.5))
            much = rare * times * (_REPEATED + 1) / (times + _REPEATED * long)
            spoken[word][index] = max(1, round(10 * much * sections[index].share))
    most = {
        word: dict(sorted(found.items(), key=lambda item: (-item[1], item[0]))[:MOST_SECTIONS])
        for word, found in spoken.items()
    }
    found = sorted(most)
    rows = [list(chain.from_iterable(most[word].items())) for word in found]
    packed = list(
        runs([len(_json([*row, word])) for word, row in zip(found, rows, strict=True)], _WORDS)
    )
    yield (
        "search/texts.json",
        _json(
            {
                "most": MOST_SECTIONS,
                "each": _SECTIONS,
                "words": [" ".join(found[n] for n in shard) for shard in packed],
            }
        ),
    )
    for number, shard in enumerate(packed):
        yield f"search/texts-{number}.json", _json({found[n]: rows[n] for n in shard})
    for number, start in enumerate(range(0, len(sections), _SECTIONS)):
        told = [list(section[:3]) for section in sections[start : start + _SECTIONS]]
        yield f"search/sections-{number}.json", _json(told)


def _is_read(page: PageText) -> bool:
    """Whether a reader looks for what it says: not in lists, nor in a manual of the checks."""
    return page.uri not in _LISTS and not page.is_manual


def _sections(page: PageText) -> Iterator[SearchableSection]:
    """An entry's page as one result, so that it stands once in a list; every other page section by section."""
    address = url(page.uri) or "./"
    if page.is_entry:
        told = words(page.description)  # it says what the page is of: for a source its title
        own = [section.words for section in page.sections if section.anchor not in _REPEATS]
        spoken = chain(told, told, *own)
        share = 0.5 if page.meta["section"] == "sources" else 1.0
        yield SearchableSection(page.title, "", address, tuple(spoken), share)
        return
    for section in page.sections:
        if section.words:
            at = f"{address}#{section.anchor}" if section.anchor else address
            heading = section.heading if section.anchor else ""
            yield SearchableSection(page.title, heading, at, section.words)


def _json(value: Any) -> bytes:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode()
