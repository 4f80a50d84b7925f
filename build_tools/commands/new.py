"""Begin an exercise, a study or a muscle: a commented draft with every key that must be there.

`handbook new exercise ID`   ID is the address for good, e.g. seated-row
`handbook new study KEY`     KEY as in references.bib; `handbook cite` adds a record
`handbook new muscle ID`

Each has its own options, told by --help behind it; --catalog DIR names another catalog.
At a terminal it asks for what no option gave; an empty answer leaves a TODO.
Without a terminal, or with --no-input, it never asks. Words are checked against
the catalog. The check refuses a draft until every TODO is written.

Exit status: 0 written, 2 nothing was written, and why.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, get_args

from build_tools.catalog.invocation import typed

from . import CLEAN, CannotRun, reporting, terminal

if TYPE_CHECKING:
    from build_tools.catalog.load import Catalog

Word = Callable[[str], str]
"""Gives back a word as it is written in an entry; raises ``RefusedWord``."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    kinds = parser.add_subparsers(dest="kind", metavar="exercise|study|muscle", required=True)
    exercise = _kind(kinds, "exercise", "ID", "the file's name and the address, for good")
    _text(exercise, "--name", "its name as coaches say it")
    _text(exercise, "--like", "take over how a relative is built, nothing of what it claims", "ID")
    _list(exercise, "--equipment", "what it needs; may be given several times", "ID")
    _list(exercise, "--muscle", "a muscle or muscle/part that a set counts for", "ID")
    _list(exercise, "--helping", "one that a set counts for indirectly", "ID")
    _text(exercise, "--position", "how the body is placed", "ID")
    _text(exercise, "--load", "what resists, such as cable", "KIND")
    study = _kind(kinds, "study", "KEY", "the record's key in references.bib")
    _text(study, "--design", "how it was built", "ID")
    _list(study, "--exercise", "an exercise that was compared; makes an arm of that name", "ID")
    _text(study, "--measure", "how the outcome was measured", "ID")
    _list(study, "--part", "a muscle or muscle/part that was measured", "ID")
    muscle = _kind(kinds, "muscle", "ID", "the file's name and the address, for good")
    _text(muscle, "--name", "its name in English")
    _text(muscle, "--everyday", "what a client would call it", "NAME")
    _text(muscle, "--region", "where it is listed", "ID")
    _list(muscle, "--part", "the id of one of its parts", "ID")


def run(args: argparse.Namespace) -> int:
    """Write the draft, say how to go on, and answer the exit status."""
    from build_tools.authoring import drafts, files
    from build_tools.authoring.words import RefusedWord

    with terminal.progress() as tell:
        catalog = reporting.load(args.catalog, tell).catalog
    if catalog.vocabulary is None:
        first = catalog.findings[0]
        raise CannotRun(
            f"{first.spot.file}:{first.spot.line}: {first.message}; without the vocabulary no word can be checked"
        )
    folder, make = _KINDS[args.kind]
    try:
        text = make(catalog, args, _Asker(args))
    except RefusedWord as refused:
        raise CannotRun("; ".join(refused.args)) from None
    if args.dry_run:
        print(text, end="")
        return CLEAN
    path: Path = args.catalog / folder / f"{args.id}.yaml"
    try:
        files.create(path, text)
    except FileExistsError:
        raise CannotRun(f"{path} is there already; nothing was written") from None
    except OSError as error:
        raise CannotRun(f"{path} cannot be written: {error.strerror}") from None
    shown = f"{catalog.label}/{folder}/{args.id}.yaml"
    print(
        typed(
            f"written: {shown}\n"
            f"next: write what stands at each of its {drafts.places(text)} TODOs; `handbook check` lists those that are left.\n"
            "then: `handbook conclude` and `handbook addresses`, and commit what they write with the entry.",
            catalog.label,
        )
    )
    return CLEAN


class _Asker:
    """Takes what options gave, and asks for the rest where somebody can answer."""

    def __init__(self, args: argparse.Namespace) -> None:
        self._args = args
        self._asks = not args.no_input and sys.stdin.isatty() and sys.stdout.isatty()

    def one(self, option: str, question: str, word: Word) -> str | None:
        """A word, or ``None`` for a TODO."""
        given = getattr(self._args, option)
        if given is not None:
            return word(given)
        return self._asked(question, word)

    def several(self, option: str, question: str, word: Word) -> list[str]:
        """Words, each once; none for a TODO."""
        given = getattr(self._args, option)
        if given is None:
            found = self._asked(
                f"{question}, several with commas between",
                lambda answer: ",".join(word(each) for each in _split([answer])),
            )
            given = [found] if found else []
        return list(dict.fromkeys(word(each) for each in _split(given)))

    def _asked(self, question: str, word: Word) -> str | None:
        from build_tools.authoring.words import RefusedWord

        while self._asks:
            try:
                answer = input(f"{question} (empty: later): ").strip()
            except EOFError:
                sys.stdout.write("\n")
                self._asks = False
                break
            if not answer:
                break
            try:
                return word(answer)
            except RefusedWord as refused:
                print(f"  {'; '.join(refused.args)}")
        return None


def _exercise(catalog: Catalog, args: argparse.Namespace, ask: _Asker) -> str:
    from build_tools.authoring import drafts, words

    words.free_id(catalog, "exercises", args.id)
    given: dict[str, Any] = {}
    given["name"] = ask.one(
        "name", "Name as coaches say it", lambda w: words.free_name(catalog, "exercises", w)
    )
    like = ask.one("like", "Built like which exercise", lambda w: words.known_exercise(catalog, w))
    if like is None or args.equipment is not None:
        given["equipment"] = ask.several(
            "equipment", "Equipment", lambda w: words.known_term(catalog, "equipment", w)
        )
    if like is None or args.muscle is not None or args.helping is not None:
        part: Word = lambda w: words.known_part(catalog, w)  # noqa: E731
        direct = ask.several("muscle", "Muscles that a set counts for", part)
        indirect = ask.several("helping", "Muscles that help", part)
        given["set_credit"] = dict.fromkeys(indirect, "indirect") | dict.fromkeys(direct, "direct")
    if like is None or args.position is not None:
        given["position"] = ask.one(
            "position", "Position", lambda w: words.known_term(catalog, "positions", w)
        )
    if like is None or args.load is not None:
        given["load"] = ask.one("load", "What resists", _load)
    return drafts.exercise(catalog, {k: v for k, v in given.items() if v}, like)


def _study(catalog: Catalog, args: argparse.Namespace, ask: _Asker) -> str:
    from build_tools.authoring import drafts, words

    words.free_id(catalog, "studies", args.id)
    words.known_reference(catalog, args.id)
    return drafts.study(
        catalog,
        ask.one("design", "Design", lambda w: words.known_term(catalog, "designs", w)),
        ask.several("exercise", "Exercises compared", lambda w: words.known_exercise(catalog, w)),
        ask.one("measure", "Measure", lambda w: words.known_term(catalog, "measures", w)),
        ask.several("part", "Parts measured", lambda w: words.known_part(catalog, w)),
    )


def _muscle(catalog: Catalog, args: argparse.Namespace, ask: _Asker) -> str:
    from build_tools.authoring import drafts, words

    words.free_id(catalog, "muscles", args.id)
    name: Word = lambda w: words.free_name(catalog, "muscles", w)  # noqa: E731
    given = {
        "name": ask.one("name", "Name in English", name),
        "everyday": ask.one("everyday", "What a client calls it", name),
        "region": ask.one("region", "Region", lambda w: words.known_term(catalog, "regions", w)),
    }
    parts = ask.several("part", "Ids of its parts", lambda w: words.new_id("a part", w))
    return drafts.muscle(catalog, {k: v for k, v in given.items() if v}, parts)


_KINDS = {
    "exercise": ("exercises", _exercise),
    "study": ("studies", _study),
    "muscle": ("muscles", _muscle),
}


def _load(word: str) -> str:
    from build_tools.authoring.words import RefusedWord
    from build_tools.catalog.entries import Load
    from build_tools.checks.rule import suggest

    kinds = get_args(Load.model_fields["kind"].annotation)
    if word not in kinds:
        known = f"write one of: {', '.join(kinds)}"
        raise RefusedWord(f"`{word}` is no kind of load", suggest(word, kinds, known))
    return word


def _split(given: list[str]) -> list[str]:
    return [word for text in given for each in text.split(",") if (word := each.strip())]


def _kind(
    kinds: argparse._SubParsersAction[argparse.ArgumentParser], name: str, id: str, told: str
) -> argparse.ArgumentParser:
    parser = kinds.add_parser(name, description=f"Begin {'an' if name[0] == 'e' else 'a'} {name}.")
    parser.add_argument("id", metavar=id, help=told)
    reporting.add_catalog(parser)
    parser.add_argument("--no-input", action="store_true", help="ask nothing, leave a TODO")
    parser.add_argument("--dry-run", action="store_true", help="show the draft, write nothing")
    return parser


def _text(
    parser: argparse.ArgumentParser, option: str, told: str, metavar: str | None = None
) -> None:
    parser.add_argument(option, help=told, metavar=metavar or option[2:].upper())


def _list(parser: argparse.ArgumentParser, option: str, told: str, metavar: str) -> None:
    parser.add_argument(option, action="append", help=told, metavar=metavar)
