"""The lesson of one muscle as slides: what stands on each, and what the speaker says to it.

Sentences are those of the muscle's pages, shortened only as the pages shorten them. Growth and activation never share a slide.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from math import ceil

from markupsafe import Markup

from ...catalog import care
from ...clock import today
from ...english import counted, lower_first, upper_first
from ...evidence.claims.conclusions import Comparison
from ..client import cue_sheet
from ..context import PageContext, RenderContext, once
from ..pages.muscles import pairs
from ..pages.muscles.card import card
from ..plots import gain_bars
from ..sections import labels
from ..sections.comparison import bare
from ..sections.references import cited_on
from ..sections.taught import taught_of
from ..templating import day
from . import chosen, cited, pictures
from .pictures import Picture

#: Cues of an exercise that its slide shows. Convention.
MOST_CUES = 3
#: Rows of text that a list may fill on one slide.
TALLEST = 12.5


@dataclass(frozen=True)
class SlideLine:
    """One line of a list: a term with its second name, and what is said of it."""

    term: str
    text: str
    latin: str = ""
    small: str = ""
    """Where it stands."""
    sign: Markup = field(default_factory=Markup)


@dataclass(frozen=True)
class Slide:
    """One slide; what is empty is not shown."""

    name: str
    """Unique in its lesson."""
    heading: str
    kind: str = ""
    """What it is about, above the heading."""
    bracket: tuple[str, ...] = ()
    """The parts that one number covers."""
    sign: Markup = field(default_factory=Markup)
    picture: Picture | None = None
    lines: tuple[SlideLine, ...] = ()
    points: tuple[str, ...] = ()
    sure: str = ""
    foot: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    statement: str = ""
    """Where its sentence stands, from the top of the site."""


@dataclass(frozen=True)
class Lesson:
    """All of one muscle's."""

    muscle: str
    title: str
    slides: tuple[Slide, ...]

    @property
    def pictures(self) -> list[Picture]:
        """Every drawing, in the order of the slides."""
        return [slide.picture for slide in self.slides if slide.picture]


def uri(muscle: str) -> str:
    """The lesson's page."""
    return f"lessons/{muscle}.md"


@once
def lesson(shelf: RenderContext, muscle: str) -> Lesson:
    """The lesson of a muscle."""
    desk, data = shelf.at(uri(muscle)), shelf.catalog.muscles[muscle].data
    growth, activation = chosen.strongest(shelf, muscle)
    told = [
        _statement(desk, comparison, f"{outcome}-{n}", muscle)
        for outcome, found in (("growth", growth), ("activation", activation))
        for n, comparison in enumerate(found, 1)
    ]
    exercises = chosen.exercises(shelf, muscle)
    keys = [one.key for c in (*growth, *activation) for one in cited.studies(shelf, c)]
    slides = [
        _title(shelf, muscle),
        *_lists(
            "parts", "Which part does what", _parts(shelf, muscle), notes=_anatomy(desk, muscle)
        ),
        *_maps(desk, muscle),
        *told,
        *_unclear(desk, muscle),
        *_lists(
            "untested", "What nobody tested", _untested(desk, muscle), notes=_taught(desk, muscle)
        ),
        *(_how(desk, id, muscle) for id in exercises),
        *_lists("sources", "Sources", _sources(shelf, keys), notes=()),
        _end(shelf, muscle),
    ]
    return Lesson(muscle, upper_first(data.everyday), tuple(slides))


def _title(shelf: RenderContext, muscle: str) -> Slide:
    data = shelf.catalog.muscles[muscle].data
    names = dict.fromkeys(name for name in (data.name, data.coaches) if name)
    others = [name for name in names if name.casefold() != data.everyday.casefold()]
    return Slide(
        "title",
        upper_first(data.everyday),
        "Which exercise for which part, and how sure that is",
        points=(upper_first(", ".join(others)),) if others else (),
        foot=(
            cited.handbook(shelf, cited.at(shelf, f"muscles/{muscle}/")),
            f"Licence: {shelf.handbook.licence}",
        ),
        notes=(
            "Sentences are composed from what studies printed. Growth over weeks and activity in one session are different things: "
            "more activity does not show more growth.",
            "A bar is what people gained. The line across its end is what it could be, going by the 95% interval.",
        ),
    )


def _parts(shelf: RenderContext, muscle: str) -> Iterator[SlideLine]:
    for part in shelf.catalog.muscles[muscle].data.parts.values():
        name = part.coaches or part.name
        yield SlideLine(upper_first(bare(name)), part.does, part.latin or "")


def _anatomy(desk: PageContext, muscle: str) -> tuple[str, ...]:
    data = desk.shelf.catalog.muscles[muscle].data
    told = [(fact.say, desk.grounds(fact)) for fact in data.facts]
    return (
        data.summary,
        *(
            f"{say} ({'; '.join(f'{link.text}, {at}' if at else link.text for link, at in grounds.sources)})"
            if grounds.sources
            else say
            for say, grounds in told
        ),
        *(
            f"{upper_first(bare(part.coaches or part.name))}: lengthened by {lower_first(part.lengthened_by)}"
            for part in data.parts.values()
        ),
    )


def _maps(desk: PageContext, muscle: str) -> Iterator[Slide]:
    for picture in pictures.of_map(desk, muscle):
        yield Slide(
            picture.name.removeprefix(f"{muscle}-"),
            picture.title,
            picture=picture,
            foot=(cited.handbook(desk.shelf, cited.at(desk.shelf, f"muscles/{muscle}/")),),
            notes=(picture.credit,),
        )


def _statement(desk: PageContext, comparison: Comparison, name: str, muscle: str) -> Slide:
    shelf, outcome = desk.shelf, comparison.question.outcome
    view = pairs.pair(desk, comparison, None, f"bars-{name}")
    drawn = gain_bars.bars(shelf.names, comparison, f"bars-{name}")
    studies, place = cited.studies(shelf, comparison), cited.place_of(comparison)
    keys = [one.key for one in studies if one.row.weighed] or [one.key for one in studies]
    credit = f"Sources: {cited.links(shelf, keys)}."
    picture = pictures.of_bars(drawn, f"{muscle}-{name}", view.brief, credit) if drawn else None
    level = f"Certainty: {view.certainty.level}." if view.certainty else ""
    steps = view.certainty.steps if view.certainty else []
    return Slide(
        name,
        view.brief,
        ". ".join(filter(None, (labels.OUTCOMES[outcome], labels.LIMITS.get(outcome)))),
        tuple(view.bracket),
        view.sign if not drawn else Markup(""),
        picture,
        sure=level,
        foot=(cited.briefly(studies), cited.handbook(shelf, cited.at(shelf, place))),
        notes=(
            view.sentence,
            *map(cited.in_full, studies),
            " ".join(
                [level, *(f"{upper_first(change)}: {why}" for change, why in steps if change)]
            ),
        ),
        statement=place,
    )


def _unclear(desk: PageContext, muscle: str) -> Iterator[Slide]:
    shelf = desk.shelf
    outcome, found, count = chosen.unclear(shelf, muscle)
    if not found:
        return
    views = [pairs.pair(desk, comparison, None) for comparison in found]
    lines = [
        SlideLine(
            "",
            view.brief,
            small=cited.briefly(cited.studies(shelf, comparison)),
            sign=view.sign,
        )
        for view, comparison in zip(views, found, strict=True)
    ]
    shown = next(_groups(lines))
    left = count - len(shown)
    more = f"{counted(left, 'more pair', 'more pairs')} in the table" if left else ""
    yield Slide(
        "unclear",
        "Tested, and not shown",
        labels.OUTCOMES[outcome],
        lines=shown,
        foot=tuple(
            filter(None, (more, cited.handbook(shelf, cited.at(shelf, f"muscles/{muscle}/"))))
        ),
        notes=(
            "Nothing clear is no proof of likeness: a small study can miss a difference.",
            *(
                " ".join([view.sentence, *map(cited.in_full, cited.studies(shelf, comparison))])
                for view, comparison in zip(views[: len(shown)], found[: len(shown)], strict=True)
            ),
        ),
    )


def _untested(desk: PageContext, muscle: str) -> Iterator[SlideLine]:
    for ref in chosen.places(desk.shelf, muscle)[:-1]:
        part = desk.shelf.catalog.part(ref)
        assert part is not None, ref
        lines = dict(card(desk, ref).lines)
        if told := lines.get("Not tested") or lines.get("Why"):
            yield SlideLine(upper_first(bare(part.coaches or part.name)), told)


def _taught(desk: PageContext, muscle: str) -> tuple[str, ...]:
    told = [link.text for ref in chosen.places(desk.shelf, muscle) for link in taught_of(desk, ref)]
    view = desk.shelf.evidence_map.block(muscle)
    blank = [desk.exercise(row.exercise).text for row in view.blank]
    return tuple(
        filter(
            None,
            (
                "Silence is not a null: where nobody tested, nothing is known.",
                f"Commonly taught, and untested: {'; '.join(dict.fromkeys(told))}." if told else "",
                f"Compared by nobody: {', '.join(blank)}." if blank else "",
            ),
        )
    )


def _how(desk: PageContext, id: str, muscle: str) -> Slide:
    shelf, data = desk.shelf, desk.shelf.catalog.exercises[id].data
    sheet = cue_sheet.model(shelf, id)
    return Slide(
        f"how-{id}",
        data.name,
        "How to do it",
        picture=pictures.of_exercise(shelf, id, muscle),
        points=tuple(cue.do for cue in data.cues.move[:MOST_CUES]),
        sure=shelf.handbook.notice.short,
        foot=(cited.handbook(shelf, cited.at(shelf, f"exercises/{id}/")),),
        notes=(
            *(
                f"Take care: {caution.who} Instead: {caution.instead} Stop if: {caution.stop_if} {ask}"
                for caution, ask in sheet.cautions
            ),
            f"{care.HELP_AT_ONCE}: {' '.join(sheet.help_at_once)}",
            *(
                f"{heading}: {' '.join(lines)}"
                for heading, lines in (
                    (care.BEFORE, sheet.before),
                    (care.AFTERWARDS, sheet.afterwards),
                )
                if lines
            ),
            f"Cue sheet for clients: {cited.at(shelf, f'cues/{id}/')}",
        ),
    )


def _sources(shelf: RenderContext, keys: Iterable[str]) -> Iterator[SlideLine]:
    for key in cited_on(shelf, list(keys)):
        reference = shelf.catalog.references[key]
        yield SlideLine(
            shelf.short(key),
            upper_first(labels.read_of(reference.read)),
            small=reference.link or "",
        )


def _end(shelf: RenderContext, muscle: str) -> Slide:
    book = shelf.handbook
    return Slide(
        "end",
        "Yours to use",
        points=(
            f"Licence: {book.licence}. Name {book.title}, {book.owner.name}, and what you changed.",
            f"As of {day(today())}: {cited.at(shelf, f'lessons/{muscle}/')}",
            book.notice.short,
            f"{care.HELP_AT_ONCE}: {' '.join(book.notice.help_at_once)}",
        ),
        notes=("New studies change sentences. Look the address up before you teach this again.",),
    )


def _lists(
    name: str, heading: str, lines: Iterable[SlideLine], notes: tuple[str, ...]
) -> Iterator[Slide]:
    """A list over as many slides as it asks for; the notes stand with the first."""
    for n, some in enumerate(_groups(tuple(lines)), 1):
        yield Slide(
            name if n == 1 else f"{name}-{n}",
            heading,
            lines=some,
            notes=notes if n == 1 else (),
        )


def _groups(lines: Sequence[SlideLine]) -> Iterator[tuple[SlideLine, ...]]:
    """Lines in groups that fit a slide, in their order."""
    group: list[SlideLine] = []
    for line in lines:
        if group and sum(map(_height, (*group, line))) > TALLEST:
            yield tuple(group)
            group = []
        group.append(line)
    if group:
        yield tuple(group)


def _height(line: SlideLine) -> float:
    """About how many rows of text a line takes; widths are those of the stylesheet."""
    term = ceil(len(line.term) / 22) + 0.8 * ceil(len(line.latin) / 28)
    text = ceil(len(line.text) / (46 if line.term else 68)) + 0.8 * bool(line.small)
    return max(term, text) + 0.6
