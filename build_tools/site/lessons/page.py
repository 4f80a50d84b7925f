"""The page of a lesson: its pieces as plain links, and what a script makes of them; and the list of all lessons."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from ...clock import today
from ...english import upper_first
from ..client import scripts, share
from ..context import Link, PageContext, RenderContext
from ..pages import data_files
from ..resource import Resource
from ..templating import render
from . import chosen, cited, notes, slides, table
from .lesson import lesson, uri
from .pictures import Picture

LIST = "lessons/index.md"
SCRIPT = scripts.uri("lesson/lesson.js")


@dataclass(frozen=True)
class PictureView:
    """A picture in the list."""

    picture: Picture
    links: list[Link]
    """Its slide, and its drawn file where it has one."""


@dataclass(frozen=True)
class LessonPage:
    """Everything the template shows."""

    meta: dict[str, object]
    muscle: str
    title: str
    about: Link
    slides: str
    count: int
    files: list[Link]
    """Table, references, notes: each with what it holds."""
    references: list[Link]
    pictures: list[PictureView]
    credit: str
    cite: str
    notice: str
    notice_href: str
    script: str
    copies: str
    """The script that copies."""


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """A page and its files for each muscle, the list, and slides without any."""
    for muscle in shelf.catalog.muscles:
        yield Resource(uri(muscle), partial(text, muscle=muscle), ["top", "pictures"])
        yield Resource(slides.uri(muscle), partial(slides.file, muscle=muscle))
        yield Resource(_file(muscle, "statements.csv"), partial(_table, muscle=muscle))
        yield Resource(_file(muscle, "notes.txt"), partial(_notes, muscle=muscle))
        if _keys(shelf, muscle):
            for form in data_files.FORMS:
                yield Resource(
                    _file(muscle, f"references.{form}"),
                    partial(_references, muscle=muscle, form=form),
                )
    yield Resource(LIST, listed, ["top"])
    yield Resource(slides.EMPTY, slides.empty)


def text(shelf: RenderContext, muscle: str) -> str:
    """The page as Markdown."""
    return render("lesson.md.jinja", page=model(shelf, muscle))


def listed(shelf: RenderContext) -> str:
    """The list of all lessons as Markdown."""
    desk = shelf.at(LIST)
    return render(
        "lessons.md.jinja",
        meta={
            "title": "Lessons",
            "description": "Slides, pictures, tables and references to teach each muscle.",
            "hide": ["navigation", "toc"],
        },
        lessons=[
            (Link(lesson(shelf, muscle).title, desk.href(uri(muscle))), data.data.name)
            for muscle, data in shelf.catalog.muscles.items()
        ],
    )


def model(shelf: RenderContext, muscle: str) -> LessonPage:
    """What the page shows."""
    desk, of = shelf.at(uri(muscle)), lesson(shelf, muscle)
    data = shelf.catalog.muscles[muscle].data
    return LessonPage(
        meta={
            "title": f"Teach the {data.everyday}",
            "description": f"{upper_first(data.everyday)}: slides, pictures, table, references and notes to teach it.",
            "hide": ["navigation", "toc"],
        },
        muscle=muscle,
        title=f"Teach the {data.everyday}",
        about=desk.muscle(muscle),
        slides=desk.href(slides.uri(muscle)),
        count=len(of.slides),
        files=[
            Link("Statements", desk.href(_file(muscle, "statements.csv"))),
            Link("Speaker notes", desk.href(_file(muscle, "notes.txt"))),
        ],
        references=[
            Link(name, desk.href(_file(muscle, f"references.{form}")))
            for form, (name, _) in data_files.FORMS.items()
            if _keys(shelf, muscle)
        ],
        pictures=[
            _picture(desk, muscle, slide.name, slide.picture)
            for slide in of.slides
            if slide.picture
        ],
        credit=cited.credit(shelf, f"lessons/{muscle}/"),
        cite=f"{shelf.handbook.owner.name}. {of.title}: lesson. {cited.handbook(shelf, f'lessons/{muscle}/')}. {shelf.handbook.licence}.",
        notice=shelf.handbook.notice.short,
        notice_href=desk.href("cautions.md"),
        script=desk.href(SCRIPT),
        copies=desk.href(share.SCRIPT),
    )


def _picture(desk: PageContext, muscle: str, slide: str, picture: Picture) -> PictureView:
    links = [Link("On its slide", f"{desk.href(slides.uri(muscle))}#{slide}")]
    if picture.file:
        links.append(Link("SVG", desk.href(picture.file)))
    return PictureView(picture, links)


def _file(muscle: str, name: str) -> str:
    return f"lessons/{muscle}/{name}"


def _table(shelf: RenderContext, muscle: str) -> bytes:
    return table.text(shelf, muscle, today().isoformat()).encode()


def _notes(shelf: RenderContext, muscle: str) -> bytes:
    return notes.text(shelf, muscle).encode()


def _keys(shelf: RenderContext, muscle: str) -> list[str]:
    """The studies behind the table, in the catalog's order."""
    found = {row.study for c in chosen.told(shelf, muscle, table.OUTCOMES) for row in c.rows}
    return [key for key in shelf.catalog.references if key in found]


def _references(shelf: RenderContext, muscle: str, form: str) -> bytes:
    _, write = data_files.FORMS[form]
    return write([shelf.catalog.references[key] for key in _keys(shelf, muscle)]).encode()
