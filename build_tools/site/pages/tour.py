"""The tour: the invented studio of ``example.yaml``, with links that open the working pages filled in and what the planner answers.

Everything but the clients is computed at every build by the reference of the working pages, so the tour cannot go stale.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from ...catalog import entries
from ...catalog.entries.example import Day
from ...evidence.conventions import settings
from ...handout.fragment import Handout, Item, encode
from ...planning import additions
from ...planning import week as weeks
from ...planning.facts import facts
from ...planning.order import Orders
from ...planning.plan_file import Plan
from ...planning.preferences import statements
from ...planning.shortlist import Proposal, Shortlists, Wish
from ...planning.warnings import warnings
from ...planning.week import DAYS, Count, Entry, Week
from ...planning.words import WORDS
from ..client import handout_page
from ..context import Desk, Link, Shelf
from ..planner.state import fragment
from ..resource import Resource
from ..sections.tour_words import Reason, Words, grounds
from ..templating import render
from . import programme

URI = "tour.md"
#: Repetitions of what is added, as the button of the page Lagging part adds it.
ADDED = "8-12"


@dataclass(frozen=True)
class Answer:
    """One proposed accessory."""

    exercise: Link
    part: Link
    reason: Reason
    why: Link | None
    tied: bool
    differences: list[str]
    costs: str


@dataclass(frozen=True)
class Counted:
    """A lagging part: weekly sets without and with what was added."""

    part: Link
    before: float
    after: float


@dataclass(frozen=True)
class Trained:
    """One day of the week."""

    name: str
    minutes: int
    exercises: list[tuple[Link, Entry]]
    handout: str


@dataclass(frozen=True)
class ClientView:
    """Everything that the tour shows of one client."""

    anchor: str
    data: entries.Client
    lagging: list[Link]
    equipment: list[str]
    avoid: list[str]
    span: str
    """The weekly sets of the goal."""
    range: str
    """Where that range stands."""
    open_lagging: str
    open_week: str
    open_added: str
    answers: list[Answer]
    counts: list[Counted]
    remarks: list[tuple[str, str | None]]
    """On the week with what was added; each with the passage that says so, where the programme has it."""
    days: list[Trained]
    """Of the week with what was added."""


def resources(shelf: Shelf) -> Iterator[Resource]:
    """The page."""
    yield Resource(URI, text, anchors(shelf), "example.yaml" if shelf.catalog.example else None)


def anchors(shelf: Shelf) -> list[str]:
    """The anchors of the page."""
    return ["top", *(f"client-{number}" for number, _ in enumerate(_clients(shelf), 1))]


def text(shelf: Shelf) -> str:
    """The page as Markdown; a catalog without an example or without a programme has a page that says so."""
    desk, example = shelf.at(URI), shelf.catalog.example
    clients = _clients(shelf)
    studio = example.data.studio if example else "Tour"
    teller = Teller(desk) if clients else None
    return render(
        "tour.md.jinja", example=example.data if example and clients else None, words=WORDS, notice=shelf.handbook.notice.short,
        cautions=desk.href("cautions.md"), pages={name: desk.href(f"{name}.md") for name in ("find", "compare", "lagging", "week")},
        clients=[teller.client(number, client) for number, client in enumerate(clients, 1)] if teller else [],
        meta={"title": f"Tour: {studio}" if clients else "Tour", "hide": ["navigation"],
              "description": "Invented clients: from a lagging part to next week, and to a handout on a phone."})


def _clients(shelf: Shelf) -> list[entries.Client]:
    return shelf.catalog.example.data.clients if shelf.catalog.example and shelf.catalog.programme else []


class Teller:
    """Asks the planner on behalf of every client."""

    def __init__(self, desk: Desk) -> None:
        shelf = desk.shelf
        assert shelf.catalog.programme
        self._desk, self._programme = desk, shelf.catalog.programme.data
        self._facts = facts(shelf.catalog, shelf.courses)
        self._orders = Orders(self._facts, statements(shelf.catalog, shelf.conclusions), settings(shelf.catalog).margin_length)
        self._words = Words(shelf.names, self._facts, self._orders, {id: joint.name for id, joint in shelf.vocabulary.joints.items()})

    def client(self, number: int, client: entries.Client) -> ClientView:
        """A client with everything that the planner answers."""
        desk, vocabulary = self._desk, self._desk.shelf.vocabulary
        week, doses = planned(client), self._programme.goals[client.goal]
        before = weeks.count(week, self._facts)
        sets = [before[part].sets if part in before else 0 for part in client.lagging]
        wish = Wish(tuple(client.lagging), frozenset(client.equipment), frozenset(client.avoid), week.exercises,
                    additions.sets(client.lagging[0], sets[0], doses))
        found = Shortlists(self._facts, {part: self._orders.of(part) for part in client.lagging}).of(wish)
        whole = added(week, [proposal.exercise for proposal in found.proposals], wish.sets)
        after = weeks.count(whole, self._facts)
        return ClientView(
            anchor=f"client-{number}", data=client, lagging=desk.parts(client.lagging),
            equipment=[vocabulary.equipment[id].name for id in client.equipment],
            avoid=[vocabulary.concerns[id].name for id in client.avoid],
            span=programme.span(doses.weekly_sets.low, doses.weekly_sets.high),
            range=desk.href(programme.URI, programme.anchor_of(("goals", client.goal, "weekly_sets"))),
            open_lagging=self._opened("lagging.md", client.goal, wish, week), open_week=self._opened("week.md", client.goal, wish, week),
            open_added=self._opened("week.md", client.goal, wish, whole), answers=[self._answer(one, wish.sets) for one in found.proposals],
            counts=[Counted(desk.part(part), held, after[part].sets if part in after else 0)
                    for part, held in zip(client.lagging, sets, strict=True)],
            remarks=self._remarks(client.goal, whole, after), days=self._days(client.goal, whole))

    def _answer(self, proposal: Proposal, sets: int) -> Answer:
        reason = self._words.reason(proposal)
        return Answer(self._desk.exercise(proposal.exercise), self._desk.part(proposal.part), reason, self._why(reason), proposal.tied,
                      [self._words.difference(proposal, other) for other in proposal.differences], self._words.costs(proposal, sets))

    def _remarks(self, goal: entries.Goal, week: Week, counts: Mapping[str, Count]) -> list[tuple[str, str | None]]:
        known = self._desk.shelf.addresses.anchors(programme.URI)
        found = warnings(week, counts, self._facts, self._programme.goals[goal])
        anchored = [(self._words.warning(one), grounds(one, goal)) for one in found]
        return [(told, self._desk.href(programme.URI, anchor) if anchor in known else None) for told, anchor in anchored]

    def _opened(self, uri: str, goal: entries.Goal, wish: Wish, week: Week) -> str:
        vocabulary = self._desk.shelf.vocabulary
        return f"{self._desk.href(uri)}#{fragment(Plan(goal, week), wish, list(vocabulary.equipment), list(vocabulary.concerns))}"

    def _days(self, goal: entries.Goal, week: Week) -> list[Trained]:
        times = weeks.seconds(self._programme, goal)
        return [Trained(name, -int(-weeks.duration(day, self._facts, times) // 60),
                        [(self._desk.exercise(entry.exercise), entry) for entry in day], self._handout(name, day))
                for name, day in zip(DAYS, week.days, strict=True) if day]

    def _handout(self, name: str, day: tuple[Entry, ...]) -> str:
        items = tuple(Item(entry.exercise, entry.sets, entry.repetitions, None, entry.left, entry.rest) for entry in day)
        return f"{self._desk.href(handout_page.PAGE)}#{encode(Handout(name, items))}"

    def _why(self, reason: Reason) -> Link | None:
        if reason.address is None:
            return None
        page, _, anchor = reason.address.partition("#")
        return Link("Numbers and reasons", self._desk.href(f"{page.rstrip('/')}.md", anchor or None))


def planned(client: entries.Client) -> Week:
    """The week of a client as the planner knows it."""
    return Week(tuple(tuple(Entry(one.exercise, one.sets, one.repetitions, one.left, one.rest) for one in client.week.get(day, ()))
                      for day in map(_key, DAYS)))


def added(week: Week, exercises: list[str], sets: int) -> Week:
    """The week with accessories at the end of its last training day, as the button of the page Lagging part adds them."""
    last = max((number for number, day in enumerate(week.days) if day), default=0)
    new = tuple(Entry(id, sets, ADDED) for id in exercises)
    return replace(week, days=tuple((*day, *new) if number == last else day for number, day in enumerate(week.days)))


def _key(day: str) -> Day:
    return day.lower()  # type: ignore[return-value]  # DAYS are the same seven, as headings
