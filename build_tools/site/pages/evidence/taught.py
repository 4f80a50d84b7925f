"""The page Taught and tested: each common teaching beside what was found, and what would settle it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ....english import upper_first
from ....evidence.claims.teachings import Teaching, TeachingState
from ....evidence_map.marks import LEGEND, Mark
from ...client import scripts
from ...context import Link, RenderContext
from ...map import mark as marks
from ...resource import Resource
from ...sections import taught as views
from ...sections.comparison import bare
from ...sections.taught import TaughtView
from ...templating import render

URI = "taught.md"
#: States that stand open under their muscle; the others are folded, and their label tells how many they are.
OPEN: tuple[TeachingState, ...] = ("holds", "fails", "mixed")
_NOTES: dict[TeachingState, str] = {
    "model": "A model of one average body answers these from the joint angles. Length does not show growth."
}


@dataclass(frozen=True)
class StateGroup:
    """Teachings of one muscle in one state."""

    state: TeachingState
    words: str
    note: str
    """What holds for all of them; mostly nothing."""
    items: list[TaughtView]


@dataclass(frozen=True)
class TaughtMuscle:
    """One muscle and what is taught of it."""

    id: str
    name: str
    """What coaches call it."""
    open: list[StateGroup]
    folded: list[StateGroup]


@dataclass(frozen=True)
class TaughtPage:
    """Everything the template shows."""

    counts: str
    states: list[tuple[TeachingState, str, int, list[Mark]]]
    """State, its words, how many, and their marks; those that nothing is in are left out."""
    muscles: list[TaughtMuscle]
    gaps: Link
    methods: str
    script: str
    """Narrows the list."""
    share: str
    """Copies statements with their citations."""


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """The page."""
    yield Resource(URI, text, ["top", "how-to-read", *shelf.catalog.muscles])


def text(shelf: RenderContext) -> str:
    """The page as Markdown."""
    return render(
        "taught.md.jinja",
        page=model(shelf),
        marks=marks,
        drawn=LEGEND,
        meta={
            "title": "Taught and tested",
            "description": "Each common teaching on exercises beside what studies found, and what would settle it.",
            "hide": ["navigation", "toc"],
        },
    )


def model(shelf: RenderContext) -> TaughtPage:
    """What the page shows."""
    desk, taught = shelf.at(URI), views.all_taught(shelf)
    by_muscle: dict[str, list[TaughtView]] = {}
    for teaching in taught:
        shown = views.view(desk, teaching)
        by_muscle.setdefault(shown.muscle, []).append(shown)
    muscles = [
        TaughtMuscle(
            id,
            _name(shelf, id),
            _groups(listed, OPEN),
            _groups(listed, tuple(state for state in views.STATES if state not in OPEN)),
        )
        for id, listed in sorted(by_muscle.items(), key=lambda item: _name(shelf, item[0]))
    ]
    return TaughtPage(
        counts=views.counts(taught),
        states=[
            (state, words, len(found), _marks(found))
            for state, words in views.STATES.items()
            if (found := [t for t in taught if t.state == state])
        ],
        muscles=muscles,
        gaps=Link("Where studies disagree", desk.href("gaps.md", "disagreements")),
        methods=desk.href("methods.md", "findings"),
        script=desk.href(scripts.uri("taught.js")),
        share=desk.href(scripts.uri(scripts.SHARE)),
    )


def _name(shelf: RenderContext, muscle: str) -> str:
    return upper_first(bare(shelf.names.part(muscle)))


def _marks(taught: list[Teaching]) -> list[Mark]:
    """As the legend of the map has them; strength has none."""
    found = [mark for teaching in taught if (mark := views.mark(teaching))]
    return sorted(found, key=LEGEND.index)


def _groups(listed: list[TaughtView], states: tuple[TeachingState, ...]) -> list[StateGroup]:
    found = [(state, [one for one in listed if one.state == state]) for state in states]
    return [
        StateGroup(state, views.STATES[state], _NOTES.get(state, ""), items)
        for state, items in found
        if items
    ]
