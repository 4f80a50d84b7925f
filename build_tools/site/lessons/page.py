"""The page of a lesson: its pieces as plain links, and what a script makes of them; and the list of all lessons."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from ...english import upper_first
from ..client import scripts
from ..context import Link, PageContext, RenderContext
from ..pages import data_files
from ..resource import Resource
from ..templating import render
from . import chosen, cited, slides, table
from .lesson import Slide, lesson, uri
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
    table: str
    references: list[Link]
    """The records of all sources, in each form."""
    keys: list[str]
    """The sources of this muscle among them."""
    pictures: list[PictureView]
    credit: str
    cite: str
    notice: str
    notice_href: str
    script: str


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """A page and its files for each muscle, the list, and slides without any."""
    for muscle in shelf.catalog.muscles:
        yield Resource(uri(muscle), partial(text, muscle=muscle), ["top", "pictures"])
        yield Resource(slides.uri(muscle), partial(slides.file, muscle=muscle))
        yield Resource(_file(muscle, "statements.csv"), partial(table.file, muscle=muscle))
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
    desk, of, keys = shelf.at(uri(muscle)), lesson(shelf, muscle), _keys(shelf, muscle)
    data, address = shelf.catalog.muscles[muscle].data, cited.at(shelf, f"lessons/{muscle}/")
    named = cited.handbook(shelf, address)
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
        table=desk.href(_file(muscle, "statements.csv")),
        references=data_files.downloads(desk) if keys else [],
        keys=keys,
        pictures=[
            _picture(desk, muscle, n, slide)
            for n, slide in enumerate(of.slides, 1)
            if slide.picture
        ],
        credit=cited.credit(shelf, address),
        cite=f"{shelf.handbook.owner.name}. {of.title}: lesson. {named}. {shelf.handbook.licence}.",
        notice=shelf.handbook.notice.short,
        notice_href=desk.href("cautions.md"),
        script=desk.href(SCRIPT),
    )


def _picture(desk: PageContext, muscle: str, n: int, slide: Slide) -> PictureView:
    assert slide.picture
    links = [Link(f"Slide {n}", f"{desk.href(slides.uri(muscle))}#{slide.name}")]
    if slide.picture.file:
        is_file = slide.picture.file.endswith(".svg")
        links.append(
            Link("Drawing (SVG)" if is_file else "Its page", desk.href(slide.picture.file))
        )
    return PictureView(slide.picture, links)


def _file(muscle: str, name: str) -> str:
    return f"lessons/{muscle}/{name}"


def _keys(shelf: RenderContext, muscle: str) -> list[str]:
    """The studies behind the table, in the catalog's order."""
    found = {row.study for c in chosen.studied(shelf, muscle) for row in c.rows}
    return [key for key in shelf.catalog.references if key in found]
