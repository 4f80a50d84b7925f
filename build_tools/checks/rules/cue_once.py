"""An exercise gives each cue once.

Why: a client who reads the same line twice looks for the difference. It comes from
copying a cue and forgetting to change it.

Instead: remove one, or write the other idea that was meant.

Fails: exercises/crate-curl.yaml 6:11
    cues:
      set_up:
        - do: Sit tall on the crate.
          common_practice: A steady seat makes sets comparable.
      move:
        - do: Sit tall, on the crate!
          common_practice: A target outside the body is easy to follow.
      check:
        - do: Feel the work behind your thigh.
          common_practice: Quick check for both client and coach.

Passes: exercises/crate-curl.yaml
    cues:
      set_up:
        - do: Sit tall on the crate.
          common_practice: A steady seat makes sets comparable.
      move:
        - do: Stay tall on the crate.
          common_practice: A target outside the body is easy to follow.
      check:
        - do: Feel the work behind your thigh.
          common_practice: Quick check for both client and coach.
"""

from collections.abc import Iterator

from build_tools.catalog.walk import Path, client_texts
from build_tools.checks.names import plain
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Second copies of a cue."""
    for exercise in context.catalog.exercises.values():
        first: dict[str, Path] = {}
        for path, text in client_texts(exercise.data):
            if path[-1] == "do" and first.setdefault(plain(text), path) != path:
                line = exercise.spot(*first[plain(text)]).line
                yield Problem(
                    exercise.spot(*path),
                    f"this cue stands on line {line} already",
                    "remove it, or write the idea that was meant",
                )
