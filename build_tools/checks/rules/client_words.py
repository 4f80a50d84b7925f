"""No text for clients uses a word of the trade that has an everyday one.

Why: a beginner reads the page alone, on a phone, between two sets. A word that has to be
looked up is passed over, and with it what it asks for.

Instead: write the words that the message offers. The list stands in `vocabulary.yaml` under
`client_words:`; add a word when somebody did not understand it. Plurals and endings are found
too. Names of exercises, sources and evidence keep the words of the trade.

Fails: exercises/crate-curl.yaml 3:11 12:10
    cues:
      set_up:
        - do: Sit on the crate with your torso upright.
          common_practice: A steady seat makes sets comparable.
      move:
        - do: Pull your heel under the crate.
          common_practice: A target outside the body is easy to follow.
      check:
        - do: Feel the work behind your thigh.
          common_practice: Quick check for both client and coach.
    faults:
      - see: The ribs flare.
        say: Sit back against the wall.
        common_practice: Shows when the crate is too high.

Fails: vocabulary.yaml 5:12
    concerns:
      knee:
        name: Knee
        afterwards:
          say: Tell your coach if the torso is stiff the next morning.
          common_practice: An invented sign.
      balance: {name: Unsteady balance}
      operation: {name: Operation}

Passes: exercises/crate-curl.yaml
    cues:
      set_up:
        - do: Sit on the crate with your back upright.
          common_practice: A steady seat makes sets comparable.
      move:
        - do: Pull your heel under the crate.
          common_practice: A target outside the body is easy to follow.
      check:
        - do: Feel the work behind your thigh.
          common_practice: Quick check for both client and coach.
"""

import re
from collections.abc import Callable, Iterator
from functools import partial

from build_tools.catalog.entries import CareLine, Exercise, Vocabulary
from build_tools.catalog.entry_memory import once_per_entry
from build_tools.catalog.finding import Spot
from build_tools.catalog.load import Loaded
from build_tools.catalog.walk import client_texts
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Words of the trade in what a client reads."""
    vocabulary = context.catalog.vocabulary
    if vocabulary is None or not vocabulary.data.client_words:
        return
    for exercise in context.catalog.exercises.values():
        yield from _of_exercise(exercise, vocabulary)
    for place, text in _lines(context):
        yield from _of_text(place, text, vocabulary)


@once_per_entry
def _of_exercise(exercise: Loaded[Exercise], vocabulary: Loaded[Vocabulary]) -> list[Problem]:
    return [
        problem
        for path, text in client_texts(exercise.data)
        for problem in _of_text(partial(exercise.spot, *path), text, vocabulary)
    ]


def _of_text(
    place: Callable[[], Spot], text: str, vocabulary: Loaded[Vocabulary]
) -> Iterator[Problem]:
    found, instead = _wanted(vocabulary)
    for word in dict.fromkeys(match[1].lower() for match in found.finditer(text)):
        yield Problem(
            place(), f"`{word}` is a word of the trade", f"write instead: {instead[word]}"
        )


@once_per_entry
def _wanted(vocabulary: Loaded[Vocabulary]) -> tuple[re.Pattern[str], dict[str, str]]:
    """What finds the words of the trade, and what to write instead of each."""
    plain = vocabulary.data.client_words
    words = "|".join(map(re.escape, plain))
    return (
        re.compile(rf"\b({words})(?:s|es|d|ed|ing)?\b", re.IGNORECASE),
        {word.lower(): write for word, write in plain.items()},
    )


def _lines(context: Context) -> Iterator[tuple[Callable[[], Spot], str]]:
    """What else stands on cue sheets: the lines of concerns, and the notice."""
    for statement in context.statements:
        if isinstance(statement.basis, CareLine):
            yield partial(statement.spot, "say"), statement.basis.say
    if handbook := context.catalog.handbook:
        for index, line in enumerate(handbook.data.notice.help_at_once):
            yield partial(handbook.spot, "notice", "help_at_once", index), line
