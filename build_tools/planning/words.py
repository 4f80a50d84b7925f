"""Sentences of the planning pages, with {places} that the page fills. They stand here so that a page composes none of its own."""

from __future__ import annotations

from ..evidence_map.preferences import Kind

#: Kind of reason -> its name, and what it says of an exercise. Activation and length are kept from being read as growth.
KIND_WORDS: dict[Kind, tuple[str, str]] = {
    "growth": (
        "Growth",
        "A study measured more growth of the part, or of its muscle, than with another exercise.",
    ),
    "activation": (
        "Activation",
        "A study measured more activity in one session than in another exercise. That does not show growth.",
    ),
    "length": (
        "Long under load",
        "By the model, the part is long while the load is near its peak. That does not show growth.",
    ),
    "taught": ("Commonly taught", "Coaches hold it, and nothing in this handbook tests it."),
    "none": (
        "No reason to prefer it",
        "It trains the part, and nothing in this handbook puts it ahead of another exercise.",
    ),
}

WORDS: dict[str, str] = {
    "tie": "These stand in the same place: nothing here tells them apart.",
    "length-reason": "{Part} is long ({percent}% of its own range) while the load is near its peak. Length does not show growth.",
    "none-reason": "It trains {part}; nothing here puts it ahead of another exercise.",
    "differs-length": "{Part} is {word} ({percent}% of its own range), against {other_word} ({other_percent}%) in {other}.",
    "differs-joint": "The joint that is loaded most is another one: {joint}, against {other_joint} in {other}.",
    "differs-load": "The load is another one: {load}, against {other_load} in {other}.",
    "differs-unknown": "Nothing known here sets it apart from {other}.",
    "costs": "{sets} sets also count {counted} for {part}.",
    "costs-nothing": "Its sets count for nothing but what you chose.",
    "below": "{Parts}: {sets} sets, fewer than {bound}.",
    "above": "{Parts}: {sets} sets, more than {bound}.",
    "consecutive": "{Parts}: trained directly on {day} and again on {next_day}.",
    "accessory-first": "{Day}: {exercise} stands before {main}, a main lift.",
    "no-fit": "No accessory fits what you asked for.",
    "no-fit-part": "No accessory for {part} fits.",
    "no-part": "Choose a part that lags.",
    "one": "One accessory to consider.",
    "two": "Two accessories to consider.",
    "held": "The week holds {exercises}; they are not proposed again.",
    "held-nothing": "No week is open, so nothing counts as done.",
    "gets": "{Part}: {sets} sets a week now; the range is {range}.",
    "add": "Add {sets} sets to {day}",
    "everything": "everything",
    "nothing": "no equipment",
    "some": "{count} of {all} things",
    "range-open": "{low} or more",
    "range": "{low} to {high}",
    "standing-below": "Below",
    "standing-within": "Within",
    "standing-above": "Above",
    "standing-helper": "Only helps; not held against the range",
    "week-empty": "Start with the compound lifts, on the days the client comes; counts, warnings and files appear as you add.",
    "unknown-exercise": "No exercise has this name. Choose one of the list.",
    "full-day": "A day holds at most {count} exercises.",
    "added": "{exercise} added to {day}.",
    "removed": "{exercise} removed.",
    "moved": "{exercise} is now number {place}.",
    "opened": "The week is open.",
    "minutes": "About {minutes} minutes, by estimate.",
    "bad-repetitions": "{field}: write 8, 8-12, or 30s for a hold.",
    "bad-number": "{field}: a whole number from {low} to {high}.",
    "load-ask": "Fill in a recent set.",
    "load-ask-mass": "Fill in the repetitions of a recent set and the body mass.",
    "load-total": "Moved in that set: {total} {unit}, that is {fraction} of body mass and {added} {unit} added.",
    "load-none": "says nothing here",
    "load-add": "add {load} {unit}",
    "load-help": "help of {load} {unit}",
    "relax-equipment": "With {equipment}: {count} more.",
    "relax-concern": "Without avoiding {concern}: {count} more.",
    "relax-week": "Already in the week, and fitting otherwise: {count}.",
    "relax-main": "Main lifts, which are not proposed as accessories: {count}.",
    "relax-nothing": "No single change helps: have more at hand and avoid less.",
}
