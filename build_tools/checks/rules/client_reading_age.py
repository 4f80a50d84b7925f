"""An exercise's text for clients can be read at age 11 to 12.

Why: half the public reads at about that age, and health leaflets are asked to stay
at United States grade 6 or below (British school year 7, age 11 to 12). The measure
is the Flesch-Kincaid grade of the cues and cautions together: the formula was made
for passages, and one cue of six words is too short for it. Whom to ask is left out,
because the names of professions are long and must stand. The lines that stand once with
a concern, and the notice's lines of when to stop and when to get help, are read as one
text more.

Instead: break the longest sentence, and put everyday words for the long ones.

Fails: exercises/crate-curl.yaml 1:1
    cues:
      set_up:
        - do: Establish appropriate alignment between equipment and articulations.
          why: Reproducible positioning facilitates comparability of successive repetitions and minimises compensatory displacement.
          common_practice: A steady seat makes sets comparable.
      move:
        - do: Initiate controlled flexion, maintaining continuous tension throughout.
          common_practice: A target outside the body is easy to follow.
      check:
        - do: Verify symmetrical participation of posterior musculature.
          common_practice: Quick check for both client and coach.

Fails: vocabulary.yaml 1:1
    concerns:
      knee:
        name: Knee
        help_at_once:
          - say: Neurovascular deterioration necessitates immediate multidisciplinary evaluation.
            common_practice: An invented sign.
      balance: {name: Unsteady balance}
      operation: {name: Operation}

Passes: exercises/crate-curl.yaml
    cues:
      set_up:
        - do: Line your knee up with the edge of the crate.
          why: The seat then stays the same from set to set.
          common_practice: A steady seat makes sets comparable.
      move:
        - do: Pull your heel under the crate.
          common_practice: A target outside the body is easy to follow.
      check:
        - do: Feel the work behind your thigh.
          common_practice: Quick check for both client and coach.
"""

from collections.abc import Iterator
from functools import partial

from build_tools.catalog import care
from build_tools.catalog.entries import TODO
from build_tools.catalog.walk import client_texts
from build_tools.checks.rule import Context, Problem

#: Highest United States school grade; the reader's age is about five more.
GRADE = 6.0
#: How many of the hardest words the help names.
NAMED = 4


def check(context: Context) -> Iterator[Problem]:
    """Exercises whose text for clients is too hard."""
    from build_tools.checks import reading  # the dictionary is large; other commands never need it

    passages = [
        (
            partial(exercise.spot, "cues", key=True),
            [
                text
                for path, text in client_texts(exercise.data)
                if path[-1] != "ask" and not text.startswith(TODO)
            ],
        )
        for exercise in context.catalog.exercises.values()
    ]
    if (vocabulary := context.catalog.vocabulary) and (
        lines := care.care(vocabulary.data.concerns, vocabulary.data).lines
    ):
        handbook = context.catalog.handbook
        notice = (
            [*handbook.data.notice.help_at_once, *handbook.data.notice.stop] if handbook else []
        )
        passages.append(
            (
                partial(vocabulary.spot, "concerns", key=True),
                [*notice, *(line.say for line in lines)],
            )
        )
    for spot, texts in passages:
        grade = reading.grade(texts) if texts else 0
        if grade > GRADE:
            words = reading.hardest_words(texts, NAMED)
            yield Problem(
                spot(),
                f"the text for clients reads at school grade {grade:.1f}; the limit is {GRADE:g} (age 11 to 12)",
                f"use shorter sentences, and everyday words for: {', '.join(words)}",
            )
