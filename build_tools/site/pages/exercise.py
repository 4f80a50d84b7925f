"""The page of one exercise: what it favours, how to coach it, cautions, swaps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import partial

from markupsafe import Markup

from ...catalog import care, entries
from ...movement.load import body_weight
from ...movement.posture.words import KeyPosture, key_postures
from ..client import share
from ..client.share import Share
from ..context import Grounds, Link, PageContext, RenderContext, once
from ..figures import file as figure_file
from ..figures.figure import html
from ..map import strip as strips
from ..resource import Resource
from ..sections import care as care_view
from ..sections import kinds as kinds_views
from ..sections import load_and_length as curve_views
from ..sections import statements
from ..sections.care import CareView
from ..sections.kinds import KindsView
from ..sections.load_and_length import CurvesView
from ..sections.references import Formatted, cited_on, formatted
from ..sections.statements import OutcomeGroup
from ..templating import render

SECTIONS = (
    "top",
    "what-it-favours",
    "how-to-do-it",
    "faults",
    "cautions",
    "load-and-length",
    "swaps",
    "facts",
    "sources",
)


@dataclass(frozen=True)
class CueGroup:
    """Set-up, movement or check."""

    title: str
    cues: list[tuple[entries.Cue, Grounds]]


@dataclass(frozen=True)
class SwapView:
    """Another exercise for the same job, and what differs in a few words."""

    link: Link
    differs: str


@dataclass(frozen=True)
class ExercisePage:
    """Everything the template of an exercise shows."""

    meta: dict[str, object]
    exercise: entries.Exercise
    favours: str
    """What it favours, in one line."""
    strip: Markup
    """Its row of the evidence map."""
    equipment: list[str]
    position: str
    direct: list[tuple[Link, str]]
    """Parts a set counts for: name and everyday name."""
    indirect: list[tuple[Link, str]]
    outcomes: list[OutcomeGroup]
    kinds: list[KindsView]
    """Where both activation and growth were measured: whether they agree."""
    compared_in: list[tuple[Link, str]]
    findings: str
    """Where findings and certainty are explained."""
    certainty: str
    figure: Markup
    """Start and finish, drawn."""
    share: Share
    postures: list[KeyPosture]
    """The same in words."""
    cues: list[CueGroup]
    faults: list[tuple[entries.Fault, Grounds]]
    cautions: list[tuple[entries.Caution, Grounds]]
    care: CareView
    curves: CurvesView
    body_weight: tuple[str, Grounds] | None
    swaps: list[SwapView]
    left_out: str
    """What a printed page leaves out, and where it stands."""
    sources: list[Formatted]
    reviewed: date
    notice: str
    notice_href: str


def resources(shelf: RenderContext) -> Iterator[Resource]:
    """A page for each exercise."""
    for id in shelf.catalog.exercises:
        yield Resource(
            f"exercises/{id}.md", partial(text, id=id), anchors(shelf, id), f"exercises/{id}.yaml"
        )


def anchors(shelf: RenderContext, id: str) -> list[str]:
    """The anchors of an exercise's page."""
    return [
        *SECTIONS,
        *(f"claim-{n + 1}" for n in range(len(shelf.catalog.exercises[id].data.emphasis))),
    ]


def text(shelf: RenderContext, id: str) -> str:
    """The page as Markdown."""
    return render("exercise.md.jinja", page=model(shelf, id))


def model(shelf: RenderContext, id: str) -> ExercisePage:
    """What the page shows."""
    exercise, desk, vocabulary = (
        shelf.catalog.exercises[id].data,
        shelf.at(f"exercises/{id}.md"),
        shelf.vocabulary,
    )
    keys = cited(shelf, id)
    passed_on = share.view(desk, id, keys)
    outcomes = statements.view(desk, id)
    return ExercisePage(
        meta={
            "title": exercise.name,
            "description": f"{exercise.name}: what it favours and on what evidence, how to do it, "
            "what to look for, cautions and swaps.",
            "section": "exercises",
            "hide": ["navigation"],
        },
        exercise=exercise,
        favours=shelf.favours.of(id),
        strip=strips.strip(desk, id),
        equipment=[vocabulary.equipment[e].name for e in exercise.equipment],
        position=vocabulary.positions[exercise.movement.position].name,
        direct=_credits(desk, exercise, "direct"),
        indirect=_credits(desk, exercise, "indirect"),
        outcomes=outcomes,
        kinds=kinds_views.of_exercise(shelf, id),
        compared_in=_compared_in(desk, id),
        findings=desk.href("methods.md", "findings"),
        certainty=desk.href("methods.md", "certainty"),
        figure=html(
            figure_file.posture(shelf, id, "posture"),
            id,
            passed_on.figure,
        ),
        share=passed_on,
        postures=key_postures(exercise.movement, vocabulary),
        cues=[
            CueGroup(title, [(cue, desk.grounds(cue)) for cue in cues])
            for title, cues in (
                ("Set up", exercise.cues.set_up),
                ("Move", exercise.cues.move),
                ("Check", exercise.cues.check),
            )
        ],
        faults=[(f, desk.grounds(f)) for f in exercise.faults],
        cautions=[(c, desk.grounds(c)) for c in exercise.cautions],
        care=care_view.view(desk, care.named(exercise), everybody=True),
        curves=curve_views.view(desk, id),
        body_weight=_body_weight(desk, exercise),
        swaps=_swaps(desk, id),
        left_out=statements.left_out(desk, outcomes),
        sources=[formatted(desk, key) for key in keys],
        reviewed=exercise.reviewed,
        notice=shelf.handbook.notice.short,
        notice_href=desk.href("cautions.md"),
    )


@once
def cited(shelf: RenderContext, id: str) -> list[str]:
    """Keys of everything that an exercise's page cites, in the order of a reference list."""
    exercise = shelf.catalog.exercises[id].data
    fraction = [exercise.body_weight_fraction] if exercise.body_weight_fraction else []
    based = [
        *exercise.emphasis,
        *exercise.cues.set_up,
        *exercise.cues.move,
        *exercise.cues.check,
        *exercise.faults,
        *exercise.cautions,
        *care.care(care.named(exercise), shelf.vocabulary).lines,
        *fraction,
    ]
    keys = [c.key for basis in based for c in basis.cites]
    return cited_on(
        shelf,
        keys
        + [
            row.study
            for conclusion in shelf.conclusions.of(id)
            for c in conclusion.comparisons
            for row in c.rows
        ],
    )


def _body_weight(desk: PageContext, exercise: entries.Exercise) -> tuple[str, Grounds] | None:
    share = exercise.body_weight_fraction
    return (body_weight.told(share.value, share.how), desk.grounds(share)) if share else None


def _credits(desk: PageContext, exercise: entries.Exercise, credit: str) -> list[tuple[Link, str]]:
    return [
        (desk.part(ref), desk.everyday(ref))
        for ref, given in exercise.set_credit.items()
        if given == credit
    ]


def _compared_in(desk: PageContext, id: str) -> list[tuple[Link, str]]:
    """Claims on other pages that compare with this exercise."""
    return [
        (desk.exercise(other, f"claim-{c.index + 1}"), c.sentence)
        for other, c in desk.shelf.compared_in.get(id, [])
    ]


def _swaps(desk: PageContext, id: str) -> list[SwapView]:
    """Swaps written here, and exercises that name this one as theirs."""
    exercises, vocabulary = desk.shelf.catalog.exercises, desk.shelf.vocabulary
    ids = list(dict.fromkeys([*exercises[id].data.swaps, *desk.shelf.swaps_from.get(id, [])]))
    return [
        SwapView(
            desk.exercise(other),
            ", ".join(
                [
                    vocabulary.positions[exercises[other].data.movement.position].name.lower(),
                    *(
                        vocabulary.equipment[e].name.lower()
                        for e in exercises[other].data.equipment
                    ),
                ]
            ),
        )
        for other in ids
    ]
