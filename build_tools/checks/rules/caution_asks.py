"""A caution and a group to treat with care name a licensed or qualified professional to ask.

Why: a coach's page must not take the place of an examination. The client needs to
know who is entitled to answer. A sign that shows afterwards helps nobody unless it is told.

Instead: name a doctor, nurse, midwife or physiotherapist, or another licensed,
qualified or registered professional. What shows afterwards may be told to the coach.

Fails: exercises/crate-curl.yaml 5:10
    cautions:
      - who: Anyone with a sore knee today.
        instead: Bend only as far as it feels fine.
        stop_if: The knee hurts sharply or gives way.
        ask: Ask your coach or a friend.
        common_practice: The usual care with a painful joint.

Fails: exercises/crate-curl.yaml 5:17
    cautions:
      - who: Anyone with a sore knee today.
        instead: Bend only as far as it feels fine.
        stop_if: The knee hurts sharply or gives way.
        afterwards: The knee is stiff the next morning.
        ask: Ask your doctor or a licensed physiotherapist.
        common_practice: The usual care with a painful joint.

Fails: programme.yaml 6:10
    careful:
      lamp-keepers:
        name: Keepers of old lamps
        advice:
          - {do: Start with a small lamp., because: Old lamps are heavy., common_practice: An invented rule.}
        ask: Ask another keeper.

Passes: exercises/crate-curl.yaml
    cautions:
      - who: Anyone with a sore knee today.
        instead: Bend only as far as it feels fine.
        stop_if: The knee hurts sharply or gives way.
        afterwards: Tell your coach if the knee is stiff the next morning.
        ask: Ask your doctor or a licensed physiotherapist.
        common_practice: The usual care with a painful joint.
"""

import re
from collections.abc import Iterator

from build_tools.catalog.finding import Spot
from build_tools.checks.rule import Context, Problem

#: Professions that need a licence almost everywhere, or any profession that is said to be licensed.
PROFESSIONAL = re.compile(
    r"\b(doctors?|gps?|physicians?|surgeons?|nurses?|midwi(fe|ves)|physiotherapists?|physical therapists?"
    r"|(licen[sc]ed|qualified|registered|chartered)\b.*\b\w*(professional|therapist|clinician|practitioner|specialist|dietitian|psychologist)s?)\b",
    re.IGNORECASE,
)
_WRITE = "write, for instance: Ask a licensed physiotherapist or doctor."
_COACH = re.compile(r"\byour coach\b", re.IGNORECASE)


def check(context: Context) -> Iterator[Problem]:
    """Cautions, lines of a concern and careful groups that name nobody entitled to answer."""
    for exercise in context.catalog.exercises.values():
        for index, caution in enumerate(exercise.data.cautions):
            if not PROFESSIONAL.search(caution.ask):
                yield Problem(
                    exercise.spot("cautions", index, "ask"),
                    "this caution names no licensed professional",
                    _WRITE,
                )
            if caution.afterwards and not _tells(caution.afterwards):
                yield _untold(exercise.spot("cautions", index, "afterwards"))
    if vocabulary := context.catalog.vocabulary:
        for id, concern in vocabulary.data.concerns.items():
            if concern.afterwards and not _tells(concern.afterwards.say):
                yield _untold(vocabulary.spot("concerns", id, "afterwards", "say"))
    if programme := context.catalog.programme:
        for id, group in programme.data.careful.items():
            if not PROFESSIONAL.search(group.ask):
                yield Problem(
                    programme.spot("careful", id, "ask"),
                    "this group to treat with care names no licensed professional",
                    _WRITE,
                )


def _tells(line: str) -> bool:
    return bool(PROFESSIONAL.search(line) or _COACH.search(line))


def _untold(spot: Spot) -> Problem:
    return Problem(
        spot,
        "this line does not say whom to tell",
        "write, for instance: Tell your coach if the knee is stiff the next morning.",
    )
