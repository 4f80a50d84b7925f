"""Text for clients is short: a cue of at most 15 words, any other sentence of at most 25.

Why: a client holds one idea while lifting. Longer sentences are read twice or not
at all; the British government's style guide sets 25 words as the limit for the
public (GOV.UK, Sentence length: why 25 words is our limit, 2014).

Instead: one idea a cue, imperative first. Split the second idea into its own cue,
and move the explanation into `why:`.

Fails: exercises/crate-curl.yaml 3:11
    cues:
      set_up:
        - do: Sit tall on the crate, put both hands on its edges, look ahead, and breathe out before you start.
          common_practice: A steady seat makes sets comparable.
      move:
        - do: Pull your heel under the crate.
          common_practice: A target outside the body is easy to follow.
      check:
        - do: Feel the work behind your thigh.
          common_practice: Quick check for both client and coach.

Passes: exercises/crate-curl.yaml
    cues:
      set_up:
        - do: Sit tall on the crate, with both hands on its edges.
          common_practice: A steady seat makes sets comparable.
      move:
        - do: Pull your heel under the crate.
          common_practice: A target outside the body is easy to follow.
      check:
        - do: Feel the work behind your thigh.
          common_practice: Quick check for both client and coach.
"""

import re
from collections.abc import Iterator

from build_tools.catalog.walk import client_texts
from build_tools.checks.rule import Context, Problem

#: One idea to hold while lifting.
CUE_WORDS = 15
#: See Why above.
SENTENCE_WORDS = 25
#: What a client is told to do is a cue, wherever it stands.
CUES = ("do", "say")


def check(context: Context) -> Iterator[Problem]:
    """Sentences with too many words."""
    for exercise in context.catalog.exercises.values():
        for path, text in client_texts(exercise.data):
            is_cue = path[-1] in CUES
            limit = CUE_WORDS if is_cue else SENTENCE_WORDS
            longest = (
                len(text.split())
                if is_cue
                else max(len(sentence.split()) for sentence in re.split(r"[.!?;:]\s", text))
            )
            if longest > limit:
                yield Problem(
                    exercise.spot(*path),
                    f"{longest} words in one {'cue' if is_cue else 'sentence'}; the limit is {limit}",
                    "split it into two cues of one idea each" if is_cue else "write two sentences",
                )
