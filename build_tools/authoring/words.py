"""Whether a word that an author gives may stand in a new entry: an id or name that is free, or a term that the catalog knows."""

from __future__ import annotations

import re
from collections.abc import Iterable

from pydantic import TypeAdapter, ValidationError

from ..catalog.entries import ID_PATTERN, KEY_PATTERN, Name
from ..catalog.load import MAX_ID, Catalog
from ..checks.names import exercise_names, muscle_names, plain, term_names
from ..checks.rule import suggest

#: Folder of entries -> what one of them is called, and the list of moved.yaml that holds their retired ids.
KINDS = {
    "exercises": ("an exercise", "exercises"),
    "muscles": ("a muscle", "muscles"),
    "studies": ("a study", "sources"),
}
_NAME: TypeAdapter[str] = TypeAdapter(Name)


class RefusedWord(ValueError):
    """A word that cannot stand there. Arguments: what is wrong, what to write instead."""


def free_id(catalog: Catalog, kind: str, id: str) -> str:
    """``id``, if a new entry of a kind (a folder) may have it. Raises ``RefusedWord``."""
    pattern = KEY_PATTERN if kind == "studies" else ID_PATTERN
    if not re.fullmatch(pattern, id) or len(id) > MAX_ID:
        gap = "" if kind == "studies" else "-"
        meant = re.sub(r"[^a-z0-9]+", gap, id.lower()).strip("-")[:MAX_ID]
        hint = f", such as `{meant}`" if re.fullmatch(pattern, meant) else ""
        hyphens = "" if kind == "studies" else ", single hyphens"
        raise RefusedWord(
            f"`{id}` cannot be an id", f"use small letters, digits{hyphens}, a letter first{hint}"
        )
    called, retired_in = KINDS[kind]
    file = f"{catalog.label}/{kind}/{id}.yaml"
    if catalog.exists(kind, id) or (catalog.root / kind / f"{id}.yaml").exists():
        raise RefusedWord(f"there is {called} `{id}` already", f"it stands in {file}")
    retired = getattr(catalog.moved.data, retired_in) if catalog.moved else {}
    if id in retired:
        raise RefusedWord(
            f"the id `{id}` is retired: its address leads to `{retired[id]}`",
            f"choose another id, or write on in `{retired[id]}`",
        )
    return id


def free_name(catalog: Catalog, kind: str, name: str) -> str:
    """``name``, if no other exercise (or muscle) has it. Raises ``RefusedWord``."""
    try:
        name = _NAME.validate_python(" ".join(name.split()))
    except ValidationError:
        raise RefusedWord(
            f"`{name}` cannot be a name", "use words, at most 80 letters, no markup"
        ) from None
    if kind == "exercises":
        taken = {plain(known): owner.id for known, owner, _ in exercise_names(catalog)}
    else:
        taken = {plain(known): ref for known, ref in muscle_names(catalog)}
    if owner := taken.get(plain(name)):
        raise RefusedWord(
            f"the name `{name}` is taken by `{owner}`",
            "name what differs (equipment, posture, side), or write on in that entry",
        )
    return name


def known_term(catalog: Catalog, kind: str, word: str) -> str:
    """The id of a word in a closed list of vocabulary.yaml (``equipment``, ``measures``). Raises ``RefusedWord``."""
    assert catalog.vocabulary is not None
    vocabulary = catalog.vocabulary.data
    called = [(name, id) for of, id, name, _ in term_names(vocabulary) if of == kind]
    told = kind.replace("_", " ")
    return _known(word, getattr(vocabulary, kind), called, f"{told} of vocabulary.yaml")


def known_part(catalog: Catalog, word: str) -> str:
    """A reference to a muscle or one of its parts. Raises ``RefusedWord``."""
    return _known(word, catalog.part_refs(), muscle_names(catalog), "muscles and parts")


def known_exercise(catalog: Catalog, word: str) -> str:
    """The id of an exercise of the catalog. Raises ``RefusedWord``."""
    retired = catalog.moved.data.exercises if catalog.moved else {}
    if word in retired:
        raise RefusedWord(f"`{word}` is retired", f"write `{retired[word]}`")
    called = [(name, exercise.id) for name, exercise, _ in exercise_names(catalog)]
    return _known(word, catalog.exercises, called, "exercises")


def known_reference(catalog: Catalog, key: str) -> str:
    """A key of references.bib. Raises ``RefusedWord``."""
    if key in catalog.references:
        return key
    near = suggest(key, catalog.references, "")
    raise RefusedWord(
        f"references.bib has no record `{key}`",
        f"{near} If not, add it first: `handbook cite FILE`".removeprefix(" If not, "),
    )


def new_id(kind: str, word: str) -> str:
    """``word``, if it can be the id of something within an entry. Raises ``RefusedWord``."""
    if not re.fullmatch(ID_PATTERN, word) or len(word) > MAX_ID:
        raise RefusedWord(
            f"`{word}` cannot be the id of {kind}", "use small letters, digits and single hyphens"
        )
    return word


def _known(word: str, known: Iterable[str], called: Iterable[tuple[str, str]], told: str) -> str:
    ids = list(known)
    if word in ids:
        return word
    shown = ", ".join(sorted(ids)[:40]) + (", ..." if len(ids) > 40 else "")
    raise RefusedWord(
        f"`{word}` is none of the {told}", suggest(word, ids, f"write one of: {shown}", called)
    )
