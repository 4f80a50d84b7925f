"""Write a catalog of any size, made from the invented demo catalog.

Deterministic: the same size gives the same bytes. Every copy of the demo gets
new ids and new names from an invented vocabulary, far enough apart that no two
look like slips of each other.
"""

from __future__ import annotations

import itertools
import re
import shutil
from pathlib import Path

#: Exercises that share one muscle; the hamstrings have about this many.
PER_MUSCLE = 20
#: Tenths of a degree by which postures differ.
TURNS = 290
_SYLLABLES = [a + b for a in "bdfgklmnprstvz" for b in "aeiou"]
#: In reading order, shown names of an entry: made unique by a word in front.
_NAME = re.compile(r"^(\s*(?:name|everyday|latin): )(.+)$", re.MULTILINE)
_OTHER_NAMES = re.compile(r"^(\s*also_called: )\[(.+)\]$", re.MULTILINE)
#: The lines of a posture, and angles that may be made smaller.
_POSTURE = re.compile(r"^ +(?:from|to): .+$", re.MULTILINE)
_ANGLE = re.compile(r"\b[3-9]\d\b|\b1\d\d\b")
#: The key of a muscle of the model.
_KEY = re.compile(r"^(  )(?=[\w-]+:$)", re.MULTILINE)


def generate(demo: Path, target: Path, entries: int) -> Path:
    """Write at least ``entries`` muscles, exercises and studies (a demo's worth more at most) into the new folder ``target``."""
    sources = {
        folder: sorted((demo / folder).glob("*.yaml"))
        for folder in ("muscles", "exercises", "studies")
    }
    for folder in sources:
        (target / folder).mkdir(parents=True)
    (target / "model").mkdir()
    for name in ("handbook.yaml", "vocabulary.yaml", "model/lamp.csv"):
        shutil.copyfile(demo / name, target / name)
    records = (demo / "references.bib").read_text(encoding="utf-8")
    model, modelled = (demo / "model" / "muscles.yaml").read_text(encoding="utf-8"), ""
    head, _, muscles = model.partition("\nmuscles:\n")
    bibliography = []
    per_muscle = max(1, PER_MUSCLE // len(sources["exercises"]))
    written = 0
    for copy in itertools.count():
        if written >= entries:
            break
        words = dict.fromkeys(sources, word(copy)) | {"muscles": word(copy - copy % per_muscle)}
        new_ids = {
            path.stem: _id(folder, words[folder], path.stem)
            for folder, paths in sources.items()
            for path in paths
        }
        new_ids |= {
            key: _id("studies", words["studies"], key)
            for key in re.findall(r"^@\w+\{(\w+),", records, re.MULTILINE)
        }
        if not copy:
            # Once a catalog, and of its first copy: how much and how often, and the example that the tour follows.
            for name in ("programme.yaml", "example.yaml"):
                write(target / name, renamed((demo / name).read_text(encoding="utf-8"), new_ids))
        if not copy % per_muscle:
            lines = renamed(muscles, new_ids)
            modelled += named(_KEY.sub(rf"\1{words['muscles']}-", lines), words["muscles"])
        for folder, paths in sources.items():
            if folder == "muscles" and copy % per_muscle:
                continue
            for path in paths:
                text = renamed(path.read_text(encoding="utf-8"), new_ids)
                if folder == "exercises":
                    text = moved(text, copy)
                write(
                    target / folder / f"{new_ids[path.stem]}.yaml",
                    text if folder == "studies" else named(text, words[folder]),
                )
                written += 1
        # Some works are cited by a muscle only, which not every copy has.
        cited = records if copy % per_muscle == 0 else _of_studies(records, sources["studies"])
        bibliography.append(record(renamed(cited, new_ids), words["studies"], copy))
    write(target / "references.bib", "".join(bibliography))
    write(target / "model" / "muscles.yaml", f"{head}\nmuscles:\n{modelled}")
    return target


def write(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8", newline="\n")


def _of_studies(records: str, studies: list[Path]) -> str:
    """The records of works that have a study file."""
    blocks = re.split(r"^(?=@)", records, flags=re.MULTILINE)
    keys = {path.stem for path in studies}
    return "".join(
        block
        for block in blocks
        if not block.startswith("@") or re.match(r"@\w+\{(\w+)", block)[1] in keys
    )  # type: ignore[index]


def _id(folder: str, word: str, old: str) -> str:
    return f"{word}{old}" if folder == "studies" else f"{word}-{old}"


def word(number: int) -> str:
    """An invented word for ``number``: distinct numbers differ in at least two syllables of four."""
    size = len(_SYLLABLES)
    first, second = number % size, number // size % size
    return "".join(
        _SYLLABLES[i % size]
        for i in (first, second, 3 * first + 7 * second, 11 * first + 5 * second)
    )


def renamed(text: str, new_ids: dict[str, str]) -> str:
    """``text`` with every old id that stands as an id (not as a word of a sentence) replaced."""
    old = "|".join(map(re.escape, sorted(new_ids, key=len, reverse=True)))
    return re.sub(
        rf"(?<![\w-])({old})(?=[/:,\]}}]|\s*$)",
        lambda match: new_ids[match[1]],
        text,
        flags=re.MULTILINE,
    )


def named(text: str, word: str) -> str:
    """``text`` with ``word`` in front of every name, so that names stay unique."""
    text = _NAME.sub(lambda match: f"{match[1]}{word.capitalize()} {match[2]}", text)
    return _OTHER_NAMES.sub(
        lambda match: (
            f"{match[1]}[{', '.join(f'{word} {name.strip()}' for name in match[2].split(','))}]"
        ),
        text,
    )


def moved(text: str, copy: int) -> str:
    """``text`` with postures of its own: no two of ``TURNS`` copies look alike, as nothing drawn once must pass for drawn often."""
    return _POSTURE.sub(
        lambda line: _ANGLE.sub(lambda angle: f"{int(angle[0]) - copy % TURNS / 10:g}", line[0]),
        text,
    )


def record(text: str, word: str, copy: int) -> str:
    """``text`` with DOIs, PubMed ids and titles of its own."""
    text = re.sub(r"(doi = \{[^}]+)", rf"\1.{copy}", text)
    text = re.sub(r"(title = \{)", rf"\g<1>{word.capitalize()}: ", text)
    numbers = itertools.count(100_000_000 + 100 * copy)
    return re.sub(r"(pmid = \{)\d+", lambda match: f"{match[1]}{next(numbers)}", text)
