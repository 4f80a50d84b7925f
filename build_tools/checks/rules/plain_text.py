"""Texts are plain: no Markdown, no web addresses, no character codes.

Why: a client sees the brackets and asterisks as they stand, and an address in a
sentence leads somewhere that nobody has checked. Sources have their own place.

Instead: say it in words. Emphasis comes from the order of the words, a list is
several entries, and what a source says goes into `cites:`.

Fails: exercises/crate-curl.yaml 3:11 6:11 10:11 12:11
    cues:
      set_up:
        - do: Sit **tall** on the crate.
          common_practice: A steady seat makes sets comparable.
      move:
        - do: Pull your heel [under](https://example.org) the crate.
          common_practice: A target outside the body is easy to follow.
      check:
        - why: You know then that the right part works.
          do: 1. Feel the work behind your thigh.
          common_practice: Quick check for both client and coach.
        - do: See lantern.example.org for more.
          common_practice: Quick check for both client and coach.

Fails: muscles/lantern.yaml 1:10
    summary: An invented muscle with parts that cross two joints&nbsp;or one.

Passes: exercises/crate-curl.yaml
    cues:
      set_up:
        - do: Sit tall on the crate.
          common_practice: A seat 1.5 feet high makes sets comparable.
      move:
        - do: Pull your heel under the crate.
          common_practice: A target outside the body is easy to follow.
      check:
        - do: Feel the work behind your thigh.
          common_practice: Quick check for both client and coach.
"""

import re
from collections.abc import Iterator
from typing import Any

from build_tools.catalog.entry_memory import once_per_entry
from build_tools.catalog.load import Loaded
from build_tools.catalog.walk import texts_of, yaml_entries
from build_tools.checks.rule import Context, Problem

#: What it would be elsewhere, how it is told (after CommonMark, from memory), and what to do.
MARKUP: tuple[tuple[str, re.Pattern[str], str], ...] = (
    (
        "a link",
        re.compile(r"\[[^\]]*\]\s?[(\[][^)\]]*[)\]]"),
        "say it in words; a source goes into `cites:`",
    ),
    (
        "a web address",
        re.compile(
            r"\b(?:https?://|www\.)\S+|\b[\w.+-]+@[\w-]+\.\w+|\b[a-z0-9-]+(?:\.[a-z0-9-]+)*"
            r"\.(?:com|org|net|info|edu|gov|app|io|co\.[a-z]{2})\b",
            re.IGNORECASE,
        ),
        "leave it out; a source goes into `cites:`",
    ),
    (
        "emphasis",
        re.compile(
            r"(?<![\w*])(\*{1,3})(?=[^\s*])[^*]+(?<=[^\s*])\1(?![\w*])|(?<!\w)(_{1,3})(?=[^\s_])[^_]+(?<=[^\s_])\2(?!\w)"
        ),
        "write the words alone; put the word that matters first",
    ),
    ("code", re.compile(r"`[^`]+`"), "write the words alone"),
    (
        "a list or a heading",
        re.compile(r"\A\s*(?:#{1,6}|[-*+]|\d{1,2}[.)])\s"),
        "write the words alone; each item is an entry of its own",
    ),
    (
        "a character code",
        re.compile(r"&(?:#\d+|#x[0-9a-f]+|[a-z]{2,}\d*);", re.IGNORECASE),
        "type the character itself",
    ),
)
#: A text with any of these holds one of them, so most texts are looked through once and not for each.
_HINT = re.compile(r"[\[*_`&@]|://|\.\w|\A\s*[#\-+\d]")


def check(context: Context) -> Iterator[Problem]:
    """Texts with something that only a program would read."""
    for entry in yaml_entries(context.catalog):
        yield from _marked(entry)


@once_per_entry
def _marked(entry: Loaded[Any]) -> list[Problem]:
    problems = []
    for path, text in texts_of(entry):
        if not _HINT.search(text):
            continue
        for called, form, help in MARKUP:
            if found := form.search(text):
                said = f"`{found.group().strip()}` is {called}, and would be shown as it stands"
                problems.append(Problem(entry.spot(*path), said, help))
                break
    return problems
