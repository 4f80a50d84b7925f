"""The tour: the invented studio of ``example.yaml``. What the planner answers for each client is told by the working pages' own rules, in
``scripts/planner/tour.js``; the build writes who the clients are, what they ask for and the weeks they bring."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass

from ...catalog import entries
from ...catalog.entries.example import Day, Sets
from ...evidence_map.marks import LEGEND
from ...planning.plan import DAYS
from ..client import scripts
from ..context import Link, PageContext, RenderContext
from ..map import mark as marks
from ..resource import Resource
from ..templating import render
from . import programme

URI = "tour.md"


@dataclass(frozen=True)
class ClientView:
    """Everything that the build writes of one client."""

    anchor: str
    data: entries.Client
    lagging: list[Link]
    equipment: list[str]
    avoid: list[str]
    span: str
    """The weekly sets of the goal."""
    range: str
    """Where that range stands."""
    days: list[tuple[str, list[tuple[Link, Sets]]]]
    """The week as it is; days off are left out."""
    wish: str
    """What the script reads, as JSON: see ``wish``."""


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """The page."""
    yield Resource(URI, text, anchors(shelf), "example.yaml" if shelf.catalog.example else None)


def anchors(shelf: RenderContext) -> list[str]:
    """The anchors of the page."""
    return ["top", *(f"client-{number}" for number, _ in enumerate(_clients(shelf), 1))]


def text(shelf: RenderContext) -> str:
    """The page as Markdown; a catalog without an example or without a programme has a page that says so."""
    desk, example = shelf.at(URI), shelf.catalog.example
    clients = _clients(shelf)
    studio = example.data.studio if example else "Tour"
    return render(
        "tour.md.jinja",
        example=example.data if example and clients else None,
        notice=shelf.handbook.notice.short,
        cautions=desk.href("cautions.md"),
        pages={name: desk.href(f"{name}.md") for name in ("find", "compare", "lagging", "week")},
        clients=[_view(desk, number, client) for number, client in enumerate(clients, 1)],
        marks=marks,
        legend=LEGEND,
        script=desk.href(scripts.uri("planner/tour.js")),
        meta={
            "title": f"Tour: {studio}" if clients else "Tour",
            "hide": ["navigation"],
            "description": "Invented clients: from a lagging part to next week, and to a handout on a phone.",
        },
    )


def wish(client: entries.Client, equipment: list[str], concerns: list[str]) -> dict[str, object]:
    """What a client asks for as the script reads it: ``{goal, parts, equipment, concerns, days}``.

    Ids stand in the order of the vocabulary's lists, which are given; ``days`` are seven lists from Monday on, as in a saved week.
    """
    days = [
        [
            {
                "exercise": one.exercise,
                "sets": one.sets,
                "repetitions": one.repetitions,
                "left": one.left,
                "rest": one.rest,
            }
            for one in client.week.get(_key(name), ())
        ]
        for name in DAYS
    ]
    return {
        "goal": client.goal,
        "parts": client.lagging,
        "equipment": [id for id in equipment if id in client.equipment],
        "concerns": [id for id in concerns if id in client.avoid],
        "days": days,
    }


def _clients(shelf: RenderContext) -> list[entries.Client]:
    return (
        shelf.catalog.example.data.clients
        if shelf.catalog.example and shelf.catalog.programme
        else []
    )


def _view(desk: PageContext, number: int, client: entries.Client) -> ClientView:
    vocabulary, catalog = desk.shelf.vocabulary, desk.shelf.catalog
    assert catalog.programme
    sets = catalog.programme.data.goals[client.goal].weekly_sets
    asked = wish(
        client, [id for id in vocabulary.equipment if id != "none"], list(vocabulary.concerns)
    )
    return ClientView(
        anchor=f"client-{number}",
        data=client,
        lagging=desk.parts(client.lagging),
        equipment=[vocabulary.equipment[id].name for id in client.equipment],
        avoid=[vocabulary.concerns[id].name for id in client.avoid],
        span=programme.span(sets.low, sets.high),
        range=desk.href(programme.URI, programme.anchor_of(("goals", client.goal, "weekly_sets"))),
        days=[
            (name, [(desk.exercise(one.exercise), one) for one in client.week[_key(name)]])
            for name in DAYS
            if _key(name) in client.week
        ],
        wish=json.dumps(asked, ensure_ascii=False, separators=(",", ":")),
    )


def _key(day: str) -> Day:
    return day.lower()  # type: ignore[return-value]  # DAYS are the same seven, as headings
