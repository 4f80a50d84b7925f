"""The rule by which a plan goes on, in the words and numbers of ``programme.yaml``; what it asks is settled there, with its source.

What follows from it for a row of the week: ``site/scripts/rules/progress.js``.
"""

from __future__ import annotations

from typing import Any

from ..catalog.entries import Programme

TOPIC = "progression"
#: Advice and its numbers that the next week is made with. Where one is missing, the page tells the advice and reckons nothing.
NEEDED = {
    "add-load": {"repetitions-above", "percent"},
    "add-repetitions": set(),
    "step-back": set(),
    "hold": set(),
    "away": {"weeks", "percent"},
    "easy-week": {"every-weeks", "sets-share", "left-more"},
}
#: What the page says of a row's next week, by kind; places in braces are filled there.
WORDS = {
    "unwritten": "Nothing written down: the same again.",
    "missed": "Missed: the same again.",
    "away": "{weeks} weeks without it: start at {load}, {percent}% less, and go by the warm-up sets.",
    "away-words": "{weeks} weeks without it: start lighter, and go by the warm-up sets.",
    "up": "{load} instead of {before}, {percent}% more: {possible} were possible, {target} were asked.",
    "more": "Same load, {repetitions} repetitions: {possible} were possible, {target} were asked. The next step, {load}, is {percent}% more.",
    "more-words": "{repetitions} repetitions: {possible} were possible, {target} were asked.",
    "stuck": "Same again. The next step ({load}) would be {percent}% more; look for a smaller one, or for a harder version.",
    "harder": "Time for the next band or a harder version: {possible} were possible, {target} were asked.",
    "stay": "Same load, one repetition more where it goes well.",
    "short": "{sets} of {asked} sets: the same again.",
    "again": "Fewer repetitions than asked: the same again. Once may be a bad day.",
    "down": "{load} instead of {before}, {percent}% less: twice in a row fewer repetitions than asked.",
    "down-words": "Twice in a row fewer repetitions than asked: make it easier.",
    "time": "Held for a time: no rule for it was read. Hold longer as it gets easy.",
    "easy": "Easy week: {sets} sets, {left} left in reserve.",
    "easy-due": "{weeks} weeks without an easy one.",
    "after-easy": "Goes on from the week before the easy one.",
    "dropped": "The oldest week no longer fits and is left out of this file. Save the file under a new name first to keep it.",
}


def rules(programme: Programme) -> list[dict[str, Any]]:
    """The advice on progression, in order, as JSON values: do, because, and where given id and numbers."""
    topic = programme.topics.get(TOPIC)
    return [
        {
            "do": advice.do,
            "because": advice.because,
            **({"id": advice.id} if advice.id else {}),
            **({"numbers": advice.numbers} if advice.numbers else {}),
        }
        for advice in (topic.advice if topic else [])
    ]


def complete(programme: Programme) -> bool:
    """Whether the next week can be made: every piece of advice that it needs is there, with its numbers."""
    topic = programme.topics.get(TOPIC)
    held = {advice.id: advice.numbers.keys() for advice in (topic.advice if topic else [])}
    return all(id in held and needed <= held[id] for id, needed in NEEDED.items())
