"""Write a catalog of invented exercises that invented studies connect, for weighing numbers.

Deterministic. Exercises share muscles by ``PER_MUSCLE``, so that studies of one muscle form a
network of that size at most; every third study has three arms, and each measures growth
and activation.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

from .generate import named, record, renamed, word, write

PER_MUSCLE = 60


def generate(demo: Path, target: Path, exercises: int, studies: int) -> Path:
    """Write a catalog with these many exercises and studies into the new folder ``target``."""
    for folder in ("muscles", "exercises", "studies"):
        (target / folder).mkdir(parents=True)
    for name in ("handbook.yaml", "vocabulary.yaml"):
        shutil.copyfile(demo / name, target / name)
    muscle, exercise = (
        (demo / name).read_text(encoding="utf-8")
        for name in ("muscles/lantern.yaml", "exercises/crate-curl.yaml")
    )
    records = (demo / "references.bib").read_text(encoding="utf-8")
    muscles = -(-exercises // PER_MUSCLE)
    for number in range(muscles):
        text = renamed(muscle, {"wick2030": _study(0), "snuffed2029": f"{_study(0)}c"})
        write(target / "muscles" / f"{_muscle(number)}.yaml", named(text, word(number)))
    for number in range(exercises):
        of_muscle = range(
            number - number % PER_MUSCLE, min(exercises, number - number % PER_MUSCLE + PER_MUSCLE)
        )
        other = of_muscle[(number + 1) % len(of_muscle)]
        ids = {
            "lantern": _muscle(number // PER_MUSCLE),
            "cable-curl": _exercise(other),
            "wick2030": _study(number % studies),
        }
        write(
            target / "exercises" / f"{_exercise(number)}.yaml",
            named(renamed(exercise, ids), word(number)),
        )
    bibliography = []
    for number in range(studies):
        write(target / "studies" / f"{_study(number)}.yaml", _studied(number, exercises, muscles))
        keys = {
            key: f"{_study(number)}{letter}"
            for key, letter in (
                ("wick2030", ""),
                ("glow2031", "b"),
                ("snuffed2029", "c"),
                ("dusk2032", "d"),
            )
        }
        bibliography.append(record(renamed(records, keys), word(number), number))
    write(target / "references.bib", "".join(bibliography))
    return target


def _studied(number: int, exercises: int, muscles: int) -> str:
    """One study of two or three exercises of one muscle, next to each other often enough to connect them all."""
    muscle = number % muscles
    first = muscle * PER_MUSCLE
    size = min(PER_MUSCLE, exercises - first)
    turn = number // muscles
    arms = list(
        dict.fromkeys(first + (turn + step) % size for step in (0, 1 + turn // size * 3 % size, 7))
    )[: 3 if number % 3 == 0 else 2]
    lines = [
        "design: parallel",
        "allocation: random",
        "same_people: false",
        "people: {n: 60}",
        "weeks: 10",
        "arms:",
    ]
    lines += [
        f"  arm-{at}: {{exercise: {_exercise(arm)}, called: curl {at}, n: 20}}"
        for at, arm in enumerate(arms)
    ]
    lines += ["results:"]
    for measure, unit, value in (
        ("mri-volume", "%", "change_percent"),
        ("surface-emg", "% MVIC", "mean"),
    ):
        lines += [
            f"  - parts: [{_muscle(muscle)}/long-head]",
            "    measured: part",
            f"    measure: {measure}",
            f'    unit: "{unit}"',
            "    at: Table 1",
            "    values:",
        ]
        lines += [
            f"      arm-{at}: {{{value}: {mean}, sd: 8}}"
            for at, mean in enumerate(_means(number, arms))
        ]
    return "\n".join([*lines, "left_out: []", "says: Invented.", ""])


def _means(number: int, arms: list[int]) -> Iterator[float]:
    """Something of the exercise, something of the study, and a remainder that looks like noise."""
    for arm in arms:
        yield 30 + arm * 7 % 11 + number % 5 + (number * 31 + arm * 17) % 13 / 4


def _muscle(number: int) -> str:
    return f"{word(number)}-muscle"


def _exercise(number: int) -> str:
    return f"{word(number)}-curl"


def _study(number: int) -> str:
    return f"{word(number)}2030"
