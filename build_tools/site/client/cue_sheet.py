"""The cue sheet: the client's page of one exercise, in one request and without a script.

It is a whole page of its own, not one of the handbook's theme. What a handout takes
over from it is the content of ``main``: a heading, a figure and sections.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from ...catalog import care, entries
from ...catalog.fixed_words import fixed_words
from ...english import lower_first
from ..context import RenderContext
from ..figures.figure import Figure
from ..figures.file import posture
from ..previews.preview import Preview, exercise_alt, preview
from ..publication import Publication
from ..templating import render
from .offline import kept_at
from .qr import Qr

#: What ``equipment:`` says when the body is enough.
NOTHING = "none"
#: From how many characters a sheet is printed smaller, and smaller still, so that it stays one page. Measured over the shipped catalog
#: on A5, A4 and Letter; `tests/site/client/test_cue_sheet.py` holds it.
FULL, FULLEST = 1070, 1550
_WORDS = fixed_words("cue_sheet")


@dataclass(frozen=True)
class CueStep:
    """A heading and the cues below it, in order."""

    title: str
    cues: list[entries.Cue]


@dataclass(frozen=True)
class CueSheet:
    """Everything the template shows."""

    exercise: entries.Exercise
    figure: Figure
    needs: list[str]
    """Equipment by name, with what stands in for it; empty for the body alone."""
    steps: list[CueStep]
    cautions: list[tuple[entries.Caution, str]]
    """Each with whom to ask, as a sentence."""
    before: list[str]
    """Who waits for a go-ahead, whatever the exercise."""
    help_at_once: list[str]
    """Signs that need emergency help: everybody's first, then those of the concerns that its cautions speak of."""
    afterwards: list[str]
    """What shows in the hours and days after, and whom to tell: the cautions' own first, then the concerns'."""
    handbook: entries.Handbook
    preview: Preview
    """What a pasted link shows: the exercise's picture, and nothing of whoever it was sent to."""
    address: str | None
    """Where the sheet is published."""
    qr: Qr | None
    """The code of that address."""
    keep: str | None
    """Where the sheet can be kept for use without a network."""
    evidence: str
    """The exercise's page."""
    more_cautions: str
    """All cautions of the handbook."""

    @property
    def title(self) -> str:
        """Title of the page, also in the preview of a pasted link."""
        return self.preview.title

    @property
    def description(self) -> str:
        """One sentence for previews and search."""
        return self.preview.description

    @property
    def fullness(self) -> str | None:
        """How small it is printed: its words, from `FULL` on smaller, from `FULLEST` on smaller still."""
        words = [
            *(cue.do for step in self.steps for cue in step.cues),
            *(text for f in self.exercise.faults for text in (f.see, f.say)),
            *(text for c, ask in self.cautions for text in (c.who, c.instead, c.stop_if, ask)),
            *self.before,
            *self.help_at_once,
            *self.afterwards,
        ]
        length = sum(map(len, words))
        return "fullest" if length >= FULLEST else "full" if length >= FULL else None

    @property
    def headings(self) -> tuple[str, str, str]:
        """What heads the signs that need emergency help, the go-aheads, and what shows later."""
        return care.HELP_AT_ONCE, care.BEFORE, care.AFTERWARDS

    @property
    def reviewed(self) -> date:
        """Day of the last look at the exercise."""
        return self.exercise.reviewed


def uri(id: str) -> str:
    """Where the cue sheet of an exercise is."""
    return f"cues/{id}/index.html"


def qr_uris(id: str) -> tuple[str, str]:
    """Where its QR code is, as SVG and as PNG; the files exist when the address of the handbook is known."""
    return f"cues/{id}/qr.svg", f"cues/{id}/qr.png"


def uris(id: str, site: Publication) -> list[str]:
    """All files of one cue sheet."""
    return [uri(id), *(qr_uris(id) if site.url else ())]


def files(shelf: RenderContext, id: str) -> list[tuple[str, bytes]]:
    """All files of one cue sheet, with their bytes."""
    sheet = model(shelf, id)
    page = (
        uri(id),
        render("cue_sheet.html.jinja", sheet=sheet, palette=shelf.palette, words=_WORDS).encode(),
    )
    return (
        [page, *zip(qr_uris(id), (sheet.qr.svg, sheet.qr.png), strict=True)] if sheet.qr else [page]
    )


def model(shelf: RenderContext, id: str) -> CueSheet:
    """What the sheet shows."""
    exercise, vocabulary, desk = (
        shelf.catalog.exercises[id].data,
        shelf.vocabulary,
        shelf.at(uri(id)),
    )
    address, standing = shelf.site.at(f"cues/{id}/"), care.care(care.named(exercise), vocabulary)
    return CueSheet(
        exercise=exercise,
        figure=posture(shelf, id, id),
        needs=[_needed(vocabulary.equipment[e]) for e in exercise.equipment if e != NOTHING],
        cautions=[(caution, _ask(caution.ask)) for caution in exercise.cautions],
        before=[line.say for line in standing.before],
        help_at_once=[
            *shelf.handbook.notice.help_at_once,
            *(line.say for line in standing.help_at_once),
        ],
        afterwards=list(
            dict.fromkeys(
                [
                    *(caution.afterwards for caution in exercise.cautions if caution.afterwards),
                    *(line.say for line in standing.afterwards),
                ]
            )
        ),
        steps=[
            CueStep(_WORDS["set_up"], exercise.cues.set_up),
            CueStep(_WORDS["move"], exercise.cues.move),
            CueStep(_WORDS["check"], exercise.cues.check),
        ],
        handbook=shelf.handbook,
        preview=preview(
            shelf,
            uri(id),
            _WORDS["title"].format(name=exercise.name),
            _WORDS["description"].format(name=exercise.name),
            exercise_alt(exercise.name),
            f"exercises/{id}.md",
        ),
        address=address,
        qr=Qr(address) if address else None,
        keep=kept_at(desk, id) if shelf.site.offline else None,
        evidence=desk.href(f"exercises/{id}.md"),
        more_cautions=desk.href("cautions.md"),
    )


def _needed(equipment: entries.Equipment) -> str:
    """A piece of equipment, and what stands in for it."""
    name = lower_first(equipment.name)
    return f"{name} ({lower_first(equipment.note).rstrip('.')})" if equipment.note else name


def _ask(whom: str) -> str:
    """Whom to ask as an instruction: catalogs name the people, or say the whole sentence."""
    names = whom.split(maxsplit=1)[0] in _WORDS["articles"]
    told: str = _WORDS["ask"].format(whom=lower_first(whom)) if names else whom
    return told
