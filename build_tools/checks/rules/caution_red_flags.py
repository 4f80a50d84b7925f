"""Cautions name their concerns, and say what those demand: go-aheads before lifts, help at once.

Why: a warning sign is answered by a professional, never by another way to lift. Somebody whose
blood pressure is very high, whose knee was operated on last week or whose chest hurts can come to
harm by a lighter load, and a page that offers one looks like permission.

Instead: say what the message asks for. Which words each concern demands, and which it forbids, stands
in `vocabulary.yaml`: `spoken_of:` and `wording:` of a concern, `caution_wording:` for every caution, and
`care:` of a position for those that each exercise in it needs. Signs that need emergency help stand once,
under `help_at_once:`.

Fails: exercises/crate-curl.yaml 2:10 5:14 10:14 10:14
    cautions:
      - who: Anyone after knee surgery.
        concerns: [knee]
        instead: Wait for a go-ahead.
        stop_if: The knee swells, or your chest hurts.
        ask: Ask a licensed physiotherapist or doctor.
        common_practice: A surgeon sets the limits.
      - who: Anyone whose knee was operated on.
        concerns: [knee, operation]
        instead: Bend a little with a light crate.
        stop_if: The knee hurts sharply.
        ask: Ask a licensed physiotherapist or doctor.
        common_practice: A surgeon sets the limits.

Fails: exercises/crate-curl.yaml 1:1
    cautions:
      - who: Anyone who feels unsteady.
        concerns: [balance]
        instead: Hold on to a post.
        stop_if: You sway.
        ask: Ask a licensed physiotherapist or doctor.
        common_practice: In the demo, everybody who sits is cautioned about the knee.

Passes: exercises/crate-curl.yaml
    cautions:
      - who: Anyone whose knee was operated on.
        concerns: [knee, operation]
        instead: Wait for a go-ahead, then bend as far as it allows.
        stop_if: The knee hurts sharply. For chest pain call for help at once.
        ask: Ask a licensed physiotherapist or the surgeon.
        common_practice: A surgeon sets the limits.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import cache

from build_tools.catalog import care
from build_tools.catalog.entries import Caution, Exercise, Wording
from build_tools.checks.rule import Context, Problem


def check(context: Context) -> Iterator[Problem]:
    """Cautions that lack a concern or a word, or say a forbidden one; exercises without a caution that their position needs."""
    if (vocabulary := context.catalog.vocabulary) is None:
        return
    concerns = vocabulary.data.concerns
    for entry in context.catalog.exercises.values():
        exercise = entry.data
        position = vocabulary.data.positions.get(exercise.movement.position)
        for id in position.care if position else ():
            if id not in care.named(exercise):
                yield Problem(
                    entry.spot("cautions", key=True),
                    f"no caution names the concern `{id}`, which this position needs",
                    f"add a caution with `concerns: [{id}]`, or choose the position that fits",
                )
        for index, caution in enumerate(exercise.cautions):
            for id, concern in concerns.items():
                if id not in caution.concerns and (word := first(concern.spoken_of, caution.who)):
                    yield Problem(
                        entry.spot("cautions", index, "who"),
                        f"`{word}` speaks of the concern `{id}`, which `concerns:` does not name",
                        f"add `{id}` to `concerns:`, so that its rules and its lines hold here",
                    )
            asked = [
                *vocabulary.data.caution_wording,
                *(w for id in caution.concerns if id in concerns for w in concerns[id].wording),
            ]
            for wording in asked:
                if holds(wording, caution, exercise):
                    for place, message in broken(wording, caution):
                        yield Problem(
                            entry.spot("cautions", index, place), message, wording.because
                        )


def holds(wording: Wording, caution: Caution, exercise: Exercise) -> bool:
    """Whether the demand is made of this caution."""
    return (not wording.positions or exercise.movement.position in wording.positions) and (
        not wording.said or first(wording.said, getattr(caution, wording.where) or "") is not None
    )


def broken(wording: Wording, caution: Caution) -> Iterator[tuple[str, str]]:
    """The field and the message of each breach."""
    texts = {place: getattr(caution, place) or "" for place in wording.places}
    if wording.one_of and not any(first(wording.one_of, text) for text in texts.values()):
        yield wording.places[0], f"{_either(texts)} says none of: {', '.join(wording.one_of)}"
    for place, text in texts.items():
        if word := first(wording.none_of, text):
            yield place, f"`{word}` may not stand in `{place}` here"


def first(words: Sequence[str], text: str) -> str | None:
    """The first place in the text where one of the words begins, as it is written there; ``None`` without words."""
    found = _beginning(tuple(words)).search(text) if words else None
    return found[0] if found else None


@cache
def _beginning(words: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, words))})\w*", re.IGNORECASE)


def _either(places: Iterable[str]) -> str:
    return " or ".join(f"`{place}`" for place in places)
