"""What the page that lays exercises side by side needs of one, as ``data/compare/<id>.json``. What is not known is left out::

    {"cues": {"set_up": [text, ...], "move": [...], "check": [...]},
     "cautions": [{"who", "instead", "stop_if", "afterwards"?, "ask"}, ...],
     "care": [[heading, [line, ...]], ...],         # signs that need emergency help, then go-aheads and what to tell later
     "load"?: [per cent of its peak, ...],         # 21 instants, every 5 % of the repetition; below 0: the other side is asked
     "no_load"?: why there is no curve,
     "lengths": {part: [per cent of its own range, ...]},             # the same instants
     "no_length"?: {part: why}}

Curves are told in whole per cent; in words, lengths are published to 10 % and loads to 5 %.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, get_args

from ..catalog import care
from ..catalog.entries import Exercise, Place
from ..catalog.load import Catalog
from ..movement.course import Courses
from ..movement.length.length import Repetition
from ..movement.load.moments import Unknown

#: Instants of a curve, evenly spaced from start to end.
INSTANTS = 21


def comparison(catalog: Catalog, courses: Courses, id: str) -> dict[str, Any]:
    """One exercise as JSON values. Raises KeyError for an unknown one."""
    exercise, course = catalog.exercises[id].data, courses.of(id)
    load = (
        {"no_load": course.load.why}
        if isinstance(course.load, Unknown)
        else {"load": _instants(course.load.normalised())}
    )
    known = {
        part: _instants(found.shares)
        for part, found in course.lengths.items()
        if isinstance(found, Repetition)
    }
    missing = {
        part: found.why
        for part, found in course.lengths.items()
        if not isinstance(found, Repetition)
    }
    return {
        "cues": {
            step: [cue.do for cue in getattr(exercise.cues, step)]
            for step in ("set_up", "move", "check")
        },
        "cautions": [
            {key: text for key in get_args(Place) if (text := getattr(caution, key))}
            for caution in exercise.cautions
        ],
        "care": _care(catalog, exercise),
        **load,
        "lengths": known,
        **({"no_length": missing} if missing else {}),
    }


def _care(catalog: Catalog, exercise: Exercise) -> list[list[Any]]:
    """What stands once for everybody or with a concern, under its heading."""
    assert (
        catalog.handbook and catalog.vocabulary
    )  # a catalog without them does not pass the checks
    found = care.care(care.named(exercise), catalog.vocabulary.data)
    under = {
        care.HELP_AT_ONCE: [
            *catalog.handbook.data.notice.help_at_once,
            *(line.say for line in found.help_at_once),
        ],
        care.BEFORE: [line.say for line in found.before],
        care.AFTERWARDS: [line.say for line in found.afterwards],
    }
    return [[heading, lines] for heading, lines in under.items() if lines]


def _instants(values: Sequence[float]) -> list[int]:
    """Per cent at the instants, straight between the samples."""
    made = []
    for number in range(INSTANTS):
        place, step = divmod(number * (len(values) - 1), INSTANTS - 1)
        after = values[min(place + 1, len(values) - 1)]
        made.append(round((values[place] + (after - values[place]) * step / (INSTANTS - 1)) * 100))
    return made
