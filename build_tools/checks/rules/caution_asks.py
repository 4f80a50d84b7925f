"""A caution and a group to treat with care name a licensed or qualified professional to ask.

Why: a coach's page must not take the place of an examination. The client needs to
know who is entitled to answer.

Instead: name a doctor, nurse, midwife or physiotherapist, or another licensed,
qualified or registered professional.

Fails: exercises/crate-curl.yaml 5:10
    cautions:
      - who: Anyone with a sore knee today.
        instead: Bend only as far as it feels fine.
        stop_if: The knee hurts sharply or gives way.
        ask: Ask your coach or a friend.
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
        ask: Ask your doctor or a licensed physiotherapist.
        common_practice: The usual care with a painful joint.
"""

import re
from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem

#: Professions that need a licence almost everywhere, or any profession that is said to be licensed.
PROFESSIONAL = re.compile(
    r"\b(doctors?|gps?|physicians?|surgeons?|nurses?|midwi(fe|ves)|physiotherapists?|physical therapists?"
    r"|(licen[sc]ed|qualified|registered|chartered)\b.*\b\w*(professional|therapist|clinician|practitioner|specialist|dietitian|psychologist)s?)\b",
    re.IGNORECASE,
)
_WRITE = "write, for instance: Ask a licensed physiotherapist or doctor."


def check(context: Context) -> Iterator[Problem]:
    """Cautions and careful groups that name nobody entitled to answer."""
    for exercise in context.catalog.exercises.values():
        for index, caution in enumerate(exercise.data.cautions):
            if not PROFESSIONAL.search(caution.ask):
                yield Problem(
                    exercise.spot("cautions", index, "ask"),
                    "this caution names no licensed professional",
                    _WRITE,
                )
    if programme := context.catalog.programme:
        for id, group in programme.data.careful.items():
            if not PROFESSIONAL.search(group.ask):
                yield Problem(
                    programme.spot("careful", id, "ask"),
                    "this group to treat with care names no licensed professional",
                    _WRITE,
                )
