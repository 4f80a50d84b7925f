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

from build_tools.catalog.entries import CareLine
from build_tools.catalog.finding import Spot
from build_tools.catalog.walk import client_texts
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Words of the trade in what a client reads."""
    vocabulary = context.catalog.vocabulary
    if vocabulary is None or not (plain := vocabulary.data.client_words):
        return
    found = re.compile(rf"\b({'|'.join(map(re.escape, plain))})(?:s|es|d|ed|ing)?\b", re.IGNORECASE)
    instead = {word.lower(): write for word, write in plain.items()}
    for place, text in _texts(context):
        for word in dict.fromkeys(match[1].lower() for match in found.finditer(text)):
            yield Problem(
                place(), f"`{word}` is a word of the trade", f"write instead: {instead[word]}"
            )


def _texts(context: Context) -> Iterator[tuple[Callable[[], Spot], str]]:
    """What stands on cue sheets: the exercises' own words, the lines of concerns, and the notice."""
    for exercise in context.catalog.exercises.values():
        for path, text in client_texts(exercise.data):
            yield partial(exercise.spot, *path), text
    for statement in context.statements:
        if isinstance(statement.basis, CareLine):
            yield partial(statement.spot, "say"), statement.basis.say
    if handbook := context.catalog.handbook:
        for index, line in enumerate(handbook.data.notice.help_at_once):
            yield partial(handbook.spot, "notice", "help_at_once", index), line
