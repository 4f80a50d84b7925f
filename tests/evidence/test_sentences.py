"""Every sentence the engine can compose, read aloud: ``golden/sentences.txt`` holds one of each build.

``GOLDEN=write pytest tests/evidence/test_sentences.py`` writes that file anew; read it before committing.
"""

import os
import re
from dataclasses import replace
from itertools import product
from pathlib import Path

import pytest

from build_tools.checks.rules.absolute_words import ABSOLUTE
from build_tools.evidence.certainty.rating import LEVELS
from build_tools.evidence.claims.conclusions import Question
from build_tools.evidence.claims.verdict import Directions, RatioInterval
from build_tools.evidence.wording import sentences
from build_tools.evidence.wording.names import Names

GOLDEN = Path(__file__).parent / "golden" / "sentences.txt"
LONG, SHORT = "lantern/long-head", "lantern/short-head"
CRATE, CABLE = "crate-curl", "cable-curl"

ESTIMATES = {
    "more": RatioInterval(1.12, 1.06, 1.19),
    "less": RatioInterval(0.89, 0.84, 0.94),
    "alike": RatioInterval(1.004, 0.992, 1.015),
    "unclear": RatioInterval(1.03, 0.97, 1.09),
}
DIRECTIONS = {
    "more": Directions(2),
    "less": Directions(0, 1),
    "none found": Directions(0, 0, 1),
    "split": Directions(2, 1, 1, 1),
}
FIGURES = "14% against 9%"


def questions(outcome: str) -> dict[str, tuple[Question, tuple[str, ...]]]:
    return {
        "exercises": (Question(CRATE, CABLE, LONG, outcome), (LONG,)),
        "exercises, two parts": (Question(CRATE, CABLE, LONG, outcome), (LONG, SHORT)),
        "exercises, relative": (Question(CRATE, CABLE, LONG, outcome, relative_to=SHORT), (LONG,)),
        "parts": (Question(LONG, SHORT, LONG, outcome, within=CRATE), (LONG,)),
    }


def composed(names: Names) -> list[str]:
    """``kind | what is said``, a line for every combination."""
    one, more, indirect = (
        sentences.Behind(sentences.support(*who)) for who in ((1, 20), (3, 75), (2, 41, True))
    )
    lines = []
    for outcome in ("growth", "activation", "strength", "length"):
        for called, (question, parts) in questions(outcome).items():

            def say(kind: str, text: str, where: str = f"{outcome}, {called}") -> None:
                lines.append(f"{where}, {kind} | {text}")

            for shape, level in product(("more", "less", "alike"), LEVELS):
                say(
                    f"{shape}, {level}",
                    sentences.answer(
                        names,
                        question,
                        parts,
                        shape,
                        level,
                        more,
                        estimate=ESTIMATES[shape],
                        degree={"more": "slightly", "less": "much"}.get(shape, ""),
                    ),
                )
            say(
                "more, indirect",
                sentences.answer(
                    names, question, parts, "more", "low", indirect, estimate=ESTIMATES["more"]
                ),
            )
            say(
                "unclear",
                sentences.answer(
                    names, question, parts, "unclear", "low", more, estimate=ESTIMATES["unclear"]
                ),
            )
            for shape, level in product(("more", "less"), ("low", "very low")):
                say(
                    f"{shape}, {level}, stated",
                    sentences.answer(
                        names,
                        question,
                        parts,
                        shape,
                        level,
                        replace(one, printed=FIGURES),
                        directions=DIRECTIONS[shape],
                    ),
                )
            for shape in ("none found", "split"):
                say(
                    f"{shape}, stated",
                    sentences.answer(
                        names, question, parts, shape, "low", one, directions=DIRECTIONS[shape]
                    ),
                )
            for test, direction in product(
                ("none", "within", "ranking", "omnibus"), ("more", "neither")
            ):
                say(
                    f"read off, {direction}, {test}",
                    sentences.read_off(
                        names,
                        question,
                        parts,
                        direction,
                        replace(one, printed=FIGURES, tests=frozenset([test])),
                    ),
                )
            say(
                "more, moderate, bound on p",
                sentences.answer(
                    names,
                    question,
                    parts,
                    "more",
                    "moderate",
                    one,
                    estimate=replace(ESTIMATES["more"], bounded=True),
                ),
            )
            say(
                "more, moderate, three groups",
                sentences.answer(
                    names,
                    question,
                    parts,
                    "more",
                    "moderate",
                    sentences.Behind(sentences.support(1, 36, groups=3)),
                    directions=DIRECTIONS["more"],
                ),
            )
            if outcome == "strength":
                say(
                    "more, moderate, named test",
                    sentences.answer(
                        names,
                        question,
                        parts,
                        "more",
                        "moderate",
                        replace(one, strength_test="One-repetition maximum of the crate press"),
                        estimate=ESTIMATES["more"],
                    ),
                )
            for direction, taught in product(("more", "less", "alike"), (True, False)):
                say(
                    f"{direction}, {'taught' if taught else 'cited'}",
                    sentences.taught(names, question, parts, direction, taught),
                )
    lines.append(
        "disagreement | "
        + sentences.disagreement(
            names, LONG, CRATE, CABLE, [("growth", "more"), ("activation", "less")]
        )
    )
    lines.append(
        "disagreement of three | "
        + sentences.disagreement(
            names,
            LONG,
            CRATE,
            CABLE,
            [("growth", "more"), ("activation", "less"), ("strength", "more")],
        )
    )
    return lines


#: Which of them stand in the file: the others differ from these in a noun or a verb.
IN_FILE = re.compile(
    r"growth, exercises, |(growth|activation), parts, |activation, exercises, (two parts|relative), (?!.*(high|low)\b)"
    r"|(strength|length), exercises, \w+, moderate|disagreement"
)


@pytest.fixture
def lines(demo) -> list[str]:
    return composed(Names(demo))


def test_every_sentence_reads_as_expected(lines):
    text = "".join(f"{line}\n" for line in lines if IN_FILE.match(line.partition(" | ")[0]))
    if os.environ.get("GOLDEN") == "write":
        GOLDEN.parent.mkdir(exist_ok=True)
        GOLDEN.write_text(text, encoding="utf-8")
    assert text == GOLDEN.read_text(encoding="utf-8")


def test_activation_is_never_told_as_growth(lines):
    told = [line.partition(" | ")[2] for line in lines if line.startswith("activation")]
    assert told and not any(
        re.search(r"\b(grow|growth|grew|grown|size|larger|muscle mass|build)", text, re.IGNORECASE)
        for text in told
    )


def test_no_sentence_promises_more_than_evidence_can(lines):
    words = re.compile(rf"\b({'|'.join(ABSOLUTE)})\b", re.IGNORECASE)
    assert not [line for line in lines if words.search(line)]


def test_every_sentence_is_one(lines):
    for text in (line.partition(" | ")[2] for line in lines):
        assert text[0].isupper() and text.endswith(".") and ". " not in text and ".." not in text
        assert (
            "  " not in text
            and " ," not in text
            and "()" not in text
            and text.count("(") == text.count(")")
        )
        assert not re.search(r"\b(\w+) \1\b", text), text
        assert text.count(":") <= 2, text


@pytest.mark.parametrize(
    ("behind", "remark"),
    [
        (
            {"as_tested": (((CRATE, "Held still for 10 s."),),)},
            "As tested: the crate curl, held still for 10 s.",
        ),
        (
            {"as_tested": (((CABLE, "Held still."), (CRATE, "Held still.")),)},
            "As tested, both: held still.",
        ),
        (
            {"as_tested": (((CABLE, "With the EMG leads off."), (CRATE, "EMG on.")),)},
            "As tested: the standing cable curl, with the EMG leads off; the crate curl, EMG on.",
        ),
        (
            {"as_tested": ((), ((CRATE, "Held still."),), ())},
            "As tested in 1 of the 3 studies: the crate curl, held still.",
        ),
        (
            {"together": (SHORT,)},
            "One number covers the long head of the lantern muscle and the short head of the lantern muscle together.",
        ),
    ],
)
def test_a_second_sentence_says_what_was_really_tested(demo, behind, remark):
    question, parts = questions("growth")["exercises"]
    told = sentences.answer(
        Names(demo),
        question,
        parts,
        "more",
        "low",
        sentences.Behind("1 study of 20 people", **behind),
        estimate=ESTIMATES["more"],
    )
    assert told.endswith(f"from 1 study of 20 people. {remark}")


def test_certainty_is_carried_by_the_verb(lines):
    wanted = {
        "high": " is ",
        "moderate": " is probably ",
        "low": " may be ",
        "very low": "very uncertain whether",
    }
    for level, word in wanted.items():
        said = [line for line in lines if re.search(rf", (more|less), {level} \|", line)]
        assert said and all(word in line for line in said)
        others = set(wanted.values()) - {word, " is "}
        assert not any(other in line for line in said for other in others)
    assert all(
        " are " in line for line in lines if re.search(r", parts, alike, (high|moderate) \|", line)
    )


@pytest.mark.parametrize(
    ("estimate", "whose", "text"),
    [
        (RatioInterval(1.06, 1.03, 1.10), "", "6% more (95% interval 3% to 10%)"),
        (RatioInterval(0.8, 0.7, 0.9), "", "20% less (95% interval 10% to 30%)"),
        (
            RatioInterval(1.0, 0.96, 1.04),
            " in it",
            "no difference (95% interval 4% less to 4% more)",
        ),
        (
            RatioInterval(0.98, 0.9, 1.05),
            " in it",
            "2% less in it (95% interval 10% less to 5% more)",
        ),
        (
            RatioInterval(3.2, 1.1, 9.0),
            "",
            "3.2 times as much (95% interval 10% more to 9 times as much)",
        ),
        (
            RatioInterval(1.0004, 0.9999, 1.0009),
            " in it",
            "under 0.1% more in it (95% interval under 0.1% less to under 0.1% more)",
        ),
    ],
)
def test_sizes(estimate, whose, text):
    assert sentences.size(estimate, sentences._OUTCOMES["activation"], whose) == text


@pytest.mark.parametrize(
    ("estimate", "directions", "shape"),
    [
        (RatioInterval(1.2, 1.1, 1.3), Directions(), "more"),
        (RatioInterval(0.8, 0.7, 0.9), Directions(), "less"),
        (RatioInterval(1.2, 0.9, 1.6), Directions(), "unclear"),
        (RatioInterval(1.01, 0.99, 1.04), Directions(), "alike"),
        (RatioInterval(1.03, 1.01, 1.04), Directions(), "alike"),
        (RatioInterval(1.2, 1.1, 1.3), Directions(0, 5), "more"),
        (RatioInterval(1.2, 1.0, 1.3), Directions(), "unclear"),
        (RatioInterval(1.0, 1 / 1.1, 1.1), Directions(), "alike"),
        (None, Directions(), "untested"),
        (None, Directions(2), "more"),
        (None, Directions(0, 2), "less"),
        (None, Directions(0, 0, 2), "none found"),
        (None, Directions(1, 1), "split"),
        (None, Directions(1, 0, 1), "split"),
        (None, Directions(mixed=1), "split"),
        (None, Directions(1, mixed=1), "split"),
    ],
)
def test_shapes(estimate, directions, shape):
    assert sentences.shape(estimate, directions, 1.1) == shape


def test_people_are_counted_in_words_that_fit():
    assert sentences.support(1, 1) == "1 study of 1 person"
    assert sentences.support(2, 41) == "2 studies of 41 people"


@pytest.mark.parametrize(
    ("name", "inside"),
    [
        ("Lantern muscle, long head", "the long head of the lantern muscle"),
        ("Lantern muscle", "the lantern muscle"),
        ("Nordic muscle, EMG part", "the EMG part of the Nordic muscle"),
    ],
)
def test_parts_are_named_as_one_says_them(demo, name, inside):
    object.__setattr__(demo.muscles["lantern"].data, "name", name)
    object.__setattr__(demo.vocabulary.data, "proper_nouns", ["Nordic"])
    assert Names(demo).part("lantern") == inside


def test_two_parts_are_never_told_to_differ_in_size(lines):
    """Their growth is compared, each against its own start; which of them is the larger muscle is another matter."""
    told = [line for line in lines if line.startswith(("growth, parts", "strength, parts"))]
    assert told and not any("at the end" in line for line in told)
    assert any("each part against its own start" in line for line in told)


def test_unknown_names_stand_as_they_are(demo):
    assert (Names(demo).part("no/part"), Names(demo).exercise("no-curl")) == ("no/part", "no-curl")
