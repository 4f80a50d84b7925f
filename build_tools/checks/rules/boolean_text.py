"""No text is a bare yes, no, on, off, true or false.

Why: such a word answers a question that the key does not ask; an exercise would be
called "yes" on its page.

Instead: write the text that the key asks for.

Fails: exercises/crate-curl.yaml 1:7 2:21
    name: yes
    also_called: [curl, "true"]

Passes: exercises/crate-curl.yaml
    name: On and off curl

Passes: studies/glow2031.yaml
    appraisal:
      fair-lamp: {answer: yes, because: The lamp was drawn by lot., at: Table 2}
      told-all: {answer: no, because: One lamp is left out., at: Table 2}
"""

from collections.abc import Iterator
from typing import Any

from build_tools.catalog.entry_memory import once_per_entry
from build_tools.catalog.load import Loaded
from build_tools.catalog.walk import texts_of, yaml_entries
from build_tools.checks.rule import Context, Problem

#: The boolean words of YAML 1.1 (type "bool", yaml.org) without y and n, which may be short names.
ANSWERS = {"yes", "no", "on", "off", "true", "false"}


def check(context: Context) -> Iterator[Problem]:
    """Texts that are an answer."""
    for entry in yaml_entries(context.catalog):
        yield from _answers(entry)


@once_per_entry
def _answers(entry: Loaded[Any]) -> list[Problem]:
    problems = []
    for path, text in texts_of(entry):
        # The answer to a signalling question is one.
        if text.strip().lower() in ANSWERS and path[-1] != "answer":
            key = next((str(step) for step in reversed(path) if isinstance(step, str)), "")
            problems.append(
                Problem(
                    entry.spot(*path),
                    f"`{text.strip()}` answers yes or no, and `{key}` asks for a text",
                    "write the text that is meant",
                )
            )
    return problems
