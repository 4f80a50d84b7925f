"""Every id a finding can have, with its manual: what the loader refuses, what the runner adds, the rules, and the numbers.

The loader's ids have no module of their own, so their manuals stand here.
"""

from __future__ import annotations

from types import ModuleType

from .. import exceptions, runner
from ..rule import all_rules
from .manual import Manual, read_manual
from .numbers import COMMITTED, NUMBERS


def _manual(title: str, why: str, instead: str) -> Manual:
    return Manual(title, why, instead, (), ())


#: Found while the catalog is loaded. None of these can be let through by an exception.
LOADER: dict[str, Manual] = {
    "missing-file": _manual(
        "The files every catalog has are there.",
        "Without the vocabulary and the handbook's own settings nothing else can be judged.",
        "Add the file, or name the folder that holds it with --catalog.",
    ),
    "stray-file": _manual(
        "Every file in the catalog is read by something.",
        "A file under a wrong name would be left out of the handbook in silence.",
        "Give it the name the message suggests, move it where it belongs, or remove it.",
    ),
    "file-name": _manual(
        "A file name is an id.",
        "It becomes part of a published address that never changes, so it holds nothing that an address must escape.",
        "Use small letters, digits and single hyphens (study files: letters and digits), and the ending .yaml.",
    ),
    "file-size": _manual(
        "A catalog file stays small.",
        "An entry needs a few kilobytes; a file far larger is a mistake or an attempt to stall the build.",
        "Write one file for each exercise, muscle or study.",
    ),
    "file-encoding": _manual(
        "A catalog file is UTF-8 text.",
        "Any other encoding turns names into nonsense on some machines.",
        "Save the file as UTF-8.",
    ),
    "file-unreadable": _manual(
        "A catalog file can be read.",
        "What cannot be read cannot be checked or published.",
        "Check its permissions and that it is a plain file.",
    ),
    "length-table": _manual(
        "Every table of muscle lengths or paths is whole.",
        "A missing or damaged line would be shown as a length or a place that no model gave.",
        "Sample the table again with `handbook sample-lengths`; it is never edited by hand.",
    ),
    "bibtex-syntax": _manual(
        "The bibliography is well-formed BibTeX.",
        "A record that cannot be read loses its source, and with it the basis of every claim that cites it.",
        "Mend the braces, quotes or commas at this line or the one above.",
    ),
    "bad-key": _manual(
        "A reference's key is small letters and digits.",
        "The key becomes part of the source's published address and the name of its study file.",
        "Use the first author's family name and the year, e.g. smith2024.",
    ),
    "merge-conflict": _manual(
        "No file holds the marks of a merge that was not finished.",
        "Between the marks stand two versions of the same lines, and a reader would get one of them by chance.",
        "Keep the lines that are right and delete the three lines of marks.",
    ),
    "misplaced-file": _manual(
        "An entry stands in the folder of its kind.",
        "The folder decides what a file is; elsewhere its page, its numbers and every mention of it are lost.",
        "Move it to the folder and name that the message gives.",
    ),
    "yaml-syntax": _manual(
        "The file is well-formed YAML.",
        "A parser that guesses would publish something nobody wrote.",
        "Mend the indentation, quotes or brackets at this line or the one above; indent with spaces.",
    ),
    "yaml-key": _manual(
        "Keys are plain words.",
        "Lists or mappings as keys have no meaning in the catalog.",
        "Write `key: value` with a one-word key.",
    ),
    "duplicate-key": _manual(
        "A key stands once in its mapping.",
        "Most YAML readers keep the last of two and lose the first without a word.",
        "Keep one of the two.",
    ),
    "yaml-alias": _manual(
        "Catalog files use no YAML anchors or aliases.",
        "They make an entry hard to read by line, and nested ones can fill a machine's memory.",
        "Write the value out; put text that starts with & or * in quotes.",
    ),
    "yaml-tag": _manual(
        "Catalog files use no YAML tags.",
        "The field decides the type of a value, never the file.",
        "Remove the tag; put text that starts with ! in quotes.",
    ),
    "yaml-depth": _manual(
        "Catalog files are not nested deeply.",
        "An entry needs a handful of levels; far more can exhaust the parser.",
        "Flatten the value.",
    ),
    "unknown-key": _manual(
        "Every key is one the catalog knows.",
        "A misspelt key would be ignored, and what it says would be missing from the page.",
        "Use the key the message suggests; `handbook schema` shows all keys of an entry.",
    ),
    "missing-key": _manual(
        "Keys without which a page cannot be written are there.",
        "A page with a hole in it helps nobody.",
        "Add the key; the message says what belongs there.",
    ),
    "wrong-type": _manual(
        "Every value has the type its key needs.",
        "Nothing is converted by guessing: text is not a number and a single value is not a list.",
        "Write the value as the message shows.",
    ),
    "wrong-value": _manual(
        "Every value is one its key allows.",
        "A value outside the list, range or form of its field has no meaning on the page.",
        "Write one of the values the message names.",
    ),
}

#: Found by the runner itself.
RUNNER: dict[str, Manual] = {
    exceptions.NEEDLESS: _manual(
        "Every exception still lets something through.",
        "An exception that outlives its finding would hide the next one in the same file.",
        "Remove it from exceptions.yaml.",
    ),
    exceptions.UNKNOWN_RULE: _manual(
        "An exception names a rule that exists.",
        "A misspelt rule lets nothing through; errors of a file's form cannot be let through at all.",
        "Use an id that `handbook rules` lists.",
    ),
    runner.INTERNAL_ERROR: _manual(
        "Every rule runs to its end.",
        "When a rule itself fails, the catalog cannot be called sound, whatever else was found.",
        "Report the message as a fault of the checks, with the entry that was edited last.",
    ),
}


def rule_manuals() -> dict[str, Manual]:
    """Rule id -> manual. A docstring that is no manual says so in its place, with its module; the other rules stay readable."""
    return {rule: _of(module) for rule, module in all_rules().items()}


def _of(module: ModuleType) -> Manual:
    try:
        return read_manual(module.__doc__ or "")
    except ValueError as error:
        file = f"build_tools/checks/rules/{module.__name__.rpartition('.')[2]}.py"
        return _manual(
            f"The manual in {file} cannot be read.", str(error), f"Mend the docstring of {file}."
        )


def manuals() -> dict[str, Manual]:
    """Id -> manual of everything that can be reported, sorted by id."""
    return dict(sorted({**LOADER, **RUNNER, **rule_manuals(), **NUMBERS, **COMMITTED}.items()))
