"""What a lesson says is what the muscle's pages say, and activity never stands among growth. Read from the made pages."""

from __future__ import annotations

import html
import re
from functools import cache

import pytest
import shipped_made

from build_tools.catalog.entries import Muscle
from build_tools.site.lessons import chosen, cited
from build_tools.site.lessons.lesson import Lesson, Slide, lesson
from build_tools.site.sections import labels

MUSCLES = list(shipped_made.catalog().muscles)


@cache
def pages() -> dict[str, str]:
    """Uri -> the page's words, without marks."""
    return {
        page.uri: words(html.unescape(re.sub(r"<[^>]+>", " ", page.text)))
        for page in shipped_made.book().pages
        if page.uri.startswith("muscles/")
    }


def words(text: str) -> str:
    """A text with plain spaces."""
    return " ".join(text.split())


def of(muscle: str) -> Lesson:
    return lesson(shipped_made.book().shelf, muscle)


def statements(muscle: str) -> list[Slide]:
    return [slide for slide in of(muscle).slides if slide.statement]


def data(muscle: str) -> Muscle:
    return shipped_made.catalog().muscles[muscle].data


@pytest.mark.parametrize("muscle", MUSCLES)
def test_each_sentence_stands_on_the_page_it_names(muscle: str) -> None:
    for slide in statements(muscle):
        path, _, anchor = slide.statement.partition("#")
        uri = f"{path.rstrip('/')}.md"
        assert words(slide.heading) in pages()[uri]
        assert anchor in shipped_made.book().shelf.addresses.anchors(uri)
        assert words(slide.notes[0]) in pages()[uri], "the whole sentence, for the speaker"


@pytest.mark.parametrize("muscle", MUSCLES)
def test_growth_stands_before_activity_and_activity_says_what_it_is(muscle: str) -> None:
    kinds = [slide.name.partition("-")[0] for slide in statements(muscle)]
    assert kinds == sorted(kinds, key=["growth", "activation"].index)
    for slide in statements(muscle):
        activity = "does not show growth" in slide.kind
        assert activity == slide.name.startswith("activation")
        assert ("activ" in slide.heading or "harder" in slide.heading) == activity
        assert not slide.picture or ("activity" in slide.picture.alt.casefold()) == activity


@pytest.mark.parametrize("muscle", MUSCLES)
def test_every_slide_names_place_and_day_and_the_notes_what_stands_behind(muscle: str) -> None:
    shelf = shipped_made.book().shelf
    for slide in statements(muscle):
        assert slide.sure.startswith("Certainty: ")
        assert slide.statement in slide.foot[-1] and re.search(r" \d{4}, ", slide.foot[-1])
        comparison = next(
            c
            for c in chosen.told(shelf, muscle, ["growth", "activation"])
            if cited.place_of(c) == slide.statement
        )
        for row in comparison.rows:
            [note] = [n for n in slide.notes[1:] if n.startswith(f"{shelf.short(row.study)},")]
            assert f"{row.people} people" in note
            assert all(labels.TESTS[test] in note for test in row.tests)
            assert all(text in note for text in row.texts)


@pytest.mark.parametrize("muscle", MUSCLES)
def test_each_part_stands_by_what_coaches_and_anatomists_call_it(muscle: str) -> None:
    lines = [x for s in of(muscle).slides if s.name.startswith("parts") for x in s.lines]
    for line, part in zip(lines, data(muscle).parts.values(), strict=True):
        assert line.term.casefold() == (part.coaches or part.name).casefold()
        assert (line.latin, line.text) == (part.latin or "", part.does)


@pytest.mark.parametrize("muscle", MUSCLES)
def test_exercises_keep_their_cautions(muscle: str) -> None:
    """Safety words stay wherever a client may look: the notice on the slide, when to stop in the notes, emergency signs at the end."""
    shelf = shipped_made.book().shelf
    shown = [slide for slide in of(muscle).slides if slide.name.startswith("how-")]
    assert 1 <= len(shown) <= chosen.MOST_EXERCISES
    for slide in shown:
        exercise = shelf.catalog.exercises[slide.name.removeprefix("how-")].data
        notes = " ".join(slide.notes)
        assert slide.sure == shelf.handbook.notice.short
        assert all(c.instead in notes and c.stop_if in notes for c in exercise.cautions)
    end = " ".join(of(muscle).slides[-1].points)
    assert all(sign in end for sign in shelf.handbook.notice.help_at_once)


@pytest.mark.parametrize("muscle", MUSCLES)
def test_one_number_over_several_parts_is_shown_once_and_under_its_bracket(muscle: str) -> None:
    shelf = shipped_made.book().shelf
    growth, activation = chosen.strongest(shelf, muscle)
    for comparison, slide in zip((*growth, *activation), statements(muscle), strict=True):
        assert bool(slide.bracket) == (comparison.measured != "part")
    wide = [c for c in growth if c.measured != "part"]
    numbers = {
        (frozenset((c.question.first, c.question.second)), c.rows[0].study, c.rows[0].results)
        for c in wide
    }
    assert len(numbers) == len(wide)


@pytest.mark.parametrize("muscle", MUSCLES)
def test_pictures_have_names_of_their_own_and_are_told(muscle: str) -> None:
    pictures = of(muscle).pictures
    assert len({picture.name for picture in pictures}) == len(pictures)
    for picture in pictures:
        assert picture.alt and picture.title and min(picture.size) > 0
    marked = [p for p in pictures if "-map-" in p.name]
    rows = shipped_made.book().shelf.evidence_map.block(muscle).rows
    told = " ".join(picture.alt for picture in marked)
    names = shipped_made.catalog().exercises
    assert all(f"{names[row.exercise].data.name}: " in told for row in rows)
