"""Every kind of sentence that an answer can become, read aloud: ``sentences.txt`` holds one of each.

``GOLDEN=write pytest tests/evidence/wording/test_sentences.py`` writes that file anew; read it before committing.
"""

import os
import re
from dataclasses import replace
from pathlib import Path

import pytest
from answers import CABLE, CELLS, CRATE, LONG, SHORT, asked, made, said, within

from build_tools.checks.rules.absolute_words import ABSOLUTE
from build_tools.evidence.terms import LEVELS, Answer, Directions, Gains, RatioInterval
from build_tools.evidence.wording.names import Names
from build_tools.evidence.wording.sentences import claimed, describe_kinds, taught

GOLDEN = Path(__file__).with_name("sentences.txt")
GAINS = Gains(1.18, 1.11)
KINDS = {
    "exercises": asked,
    "parts": within,
}


@pytest.fixture
def names(demo) -> Names:
    return Names(demo)


def composed(names: Names) -> dict[str, str]:
    """What is said -> the sentence, for every cell, outcome and kind of question, and for every remark."""
    told = {}
    for outcome in ("growth", "activation", "strength"):
        for called, question in KINDS.items():
            for row in CELLS:
                for level in LEVELS:
                    told[f"{outcome}, {called}, {row}, {level}"] = said(
                        names, made(row, level, question(outcome))
                    )
    for row in CELLS:
        told[f"growth in gains, {row}"] = said(
            names, made(row, gains=GAINS if row == "found" else Gains(1.12, 1.11))
        )
        told[f"activation printed, {row}"] = said(
            names, made(row, question=asked("activation"), printed="61% MVIC against 40% MVIC")
        )
    told |= {called: said(names, answer) for called, answer in REMARKED.items()}
    for direction in ("more", "less", "alike"):
        for outcome in ("growth", "activation", "strength", "length", "architecture"):
            told[f"taught, {outcome}, {direction}"] = taught(
                names, asked(outcome), (LONG, SHORT), direction, outcome == "growth"
            )
    return told


REMARKED = {
    "two parts": replace(made("found"), parts=(LONG, SHORT)),
    "relative": made("found", question=replace(asked("activation"), relative_to=SHORT)),
    "named test": made(
        "found",
        question=asked("strength"),
        strength_test="One-repetition maximum of the crate press, which nobody had trained",
    ),
    "pooled": made(
        "found",
        "moderate",
        gains=Gains(1.18, 1.11, True),
        studies=3,
        people=75,
        weeks=(6, 12),
        path="direct and indirect",
    ),
    "indirect": made("found", path="indirect", studies=2, people=41),
    "indirect, very low": made("found", "very low", path="indirect", studies=2, people=41),
    "borrowed": made("unclear", borrowed=True),
    "borrowed, no difference": made("no difference reported", borrowed=True),
    "own difference": made(
        "found",
        gains=GAINS,
        difference="difference 3.2 mm, 95% interval 0.4 to 6.0",
        p="p = 0.03",
    ),
    "only a difference": made(
        "direction only", difference="difference 3.2 mm, 95% interval 0.4 to 6.0", p="p = 0.03"
    ),
    "only numbers": made("direction only", printed="14% against 9%", groups=3),
    "no test": made("found", tests=frozenset()),
    "a ranking": made("found", tests=frozenset(["ranking"])),
    "one test over all": made("hinted", tests=frozenset(["omnibus"])),
    "own start": made("found", tests=frozenset(["within"])),
    "conflict": made("found", conflict=True, studies=3, people=60),
    "whole": made("unclear", measured="whole"),
    "together": made("found", measured="together", together=(SHORT,)),
    "as one": replace(made("found", measured="together"), parts=(LONG, SHORT)),
    "phase": made("found", question=asked("activation"), phase="Lifting phase"),
    "further": made(
        "found",
        directions=Directions(1, 1, 2, 1),
        untested=(("more", "ranking"), ("less", "none"), ("neither", "within")),
        studies=5,
        people=90,
    ),
    "two of three": made(
        "direction only", directions=Directions(2, 0, 1), studies=3, people=60, weeks=(6, 12)
    ),
    "mixed": made(
        "unclear", estimate=None, directions=Directions(1, 0, 1, 1), studies=3, people=60
    ),
    "both ways": made("unclear", estimate=None, directions=Directions(1, 1), studies=2, people=60),
    "null of two": made("no difference reported", studies=2, people=60),
    "null, uneven": made("no difference reported", estimate=RatioInterval(1.02, 0.95, 1.09)),
    "null without a number": made("no difference reported", estimate=None),
    "as tested": made(
        "found",
        as_tested=(
            ((CRATE, "Held still for 10 s."),),
            ((CABLE, "EMG on."), (CRATE, "Held still.")),
        ),
    ),
    "as tested, both": made("found", as_tested=(((CABLE, "Held still."), (CRATE, "Held still.")),)),
    "as tested, many": made(
        "found",
        studies=4,
        as_tested=tuple(((CRATE, f"Held still for {n} s."),) for n in (1, 2, 3)) + ((),),
    ),
    "untested": Answer(
        asked(),
        (LONG,),
        "not studied",
        None,
        None,
        untested=(("less", "ranking"), ("neither", "omnibus"), ("neither", "omnibus")),
    ),
    "not studied": Answer(asked(), (LONG,), "not studied", None, None),
    "two numbers": Answer(
        asked("activation"),
        (LONG,),
        "not studied",
        "less",
        None,
        printed="14% against 22%",
        studies=1,
        people=9,
    ),
}

#: Which of them stand in the file: the others differ from these in a noun or a verb.
IN_FILE = re.compile(
    r"(?!(strength|activation), .*(high|moderate)|strength, parts|.*, parts, .*(high|moderate))"
)


def test_every_sentence_reads_as_expected(names):
    text = "".join(f"{k} | {v}\n" for k, v in composed(names).items() if IN_FILE.match(k))
    if os.environ.get("GOLDEN") == "write":
        GOLDEN.write_text(text, encoding="utf-8")
    assert text == GOLDEN.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("answer", "told"),
    [
        (
            # 1.11 x 1.028 = 1.141 and 1.11 x 1.10 = 1.221.
            made("found", "moderate", gains=GAINS),
            "The crate curl probably grows the long head of the lantern muscle more than the standing cable curl: "
            "about 18% against 11% (18% could be 14% to 22%), 28 people, 12 weeks.",
        ),
        (
            made("found", "very low", gains=GAINS),
            "One small study found more growth of the long head of the lantern muscle with the crate curl than with the "
            "standing cable curl: about 18% against 11% (18% could be 14% to 22%), 28 people, 12 weeks. "
            "Do not lean on it yet.",
        ),
        (
            made("found", "very low", studies=2, people=41),
            "Two small studies found more growth of the long head of the lantern muscle with the crate curl than with the "
            "standing cable curl: about 6% larger at the end (could be 3% to 10%), 41 people, 12 weeks. "
            "Do not lean on it yet.",
        ),
        (
            made("found", "very low", studies=1, people=240),
            "One study found more growth of the long head of the lantern muscle with the crate curl than with the "
            "standing cable curl: about 6% larger at the end (could be 3% to 10%), 240 people, 12 weeks. "
            "Do not lean on it yet.",
        ),
        (
            made(
                "hinted",
                gains=Gains(1.18, 1.15),
                estimate=RatioInterval(1.18 / 1.15, 0.98, 1.08),
            ),
            "Growth of the long head of the lantern muscle leaned towards the crate curl rather than the standing cable curl, "
            "but could be chance: about 18% against 15% (18% could be 13% to 24%), 28 people, 12 weeks.",
        ),
        (
            made("unclear", gains=Gains(1.12, 1.11)),
            "No clear difference in growth of the long head of the lantern muscle between the crate curl and the standing "
            "cable curl: about 12% against 11% (12% could be 8% to 17%), 28 people, 12 weeks.",
        ),
        (
            made("no difference reported"),
            "One study of 28 people over 12 weeks reported no difference in growth of the long head of the lantern muscle "
            "between the crate curl and the standing cable curl. It was too small to rule out a difference of 6% in size "
            "either way.",
        ),
        (
            made(
                "found",
                "high",
                asked("activation"),
                estimate=RatioInterval(1.53, 1.2, 1.95),
                printed="61% MVIC against 40% MVIC",
            ),
            "The crate curl works the long head of the lantern muscle harder than the standing cable curl: 61% against "
            "40% MVIC, 53% more (could be 20% to 95%), 28 people, one session.",
        ),
    ],
)
def test_sentences(names, answer, told):
    assert said(names, answer) == told


@pytest.mark.parametrize(
    ("changes", "remark"),
    [
        (
            {"difference": "difference 3.2 mm, 95% interval 0.4 to 6.0", "p": "p = 0.03"},
            "In the paper: difference 3.2 mm, 95% interval 0.4 to 6.0; p = 0.03.",
        ),
        ({"measured": "whole"}, "The whole muscle was measured, not this part."),
        (
            {"measured": "together", "together": (SHORT,)},
            "Measured as one with the short head of the lantern muscle.",
        ),
        ({"borrowed": True}, "The range is taken from similar studies."),
        ({"tests": frozenset()}, "No test of the two was read."),
        ({"tests": frozenset(["none"])}, "No test of the two was read."),
        ({"conflict": True}, "Studies point opposite ways."),
        ({"path": "indirect"}, "No study compared the two; this comes through other exercises."),
        (
            {"as_tested": (((CRATE, "Held still for 10 s."),),)},
            "As tested: the crate curl, held still for 10 s.",
        ),
        (
            {"as_tested": (((CABLE, "Held still."), (CRATE, "Held still.")),)},
            "As tested, both: held still.",
        ),
        (
            {"as_tested": ((), ((CRATE, "Held still."),), ())},
            "As tested in one of three studies: the crate curl, held still.",
        ),
        (
            {"directions": Directions(neither=1)},
            "Without a number, one further study reported no difference.",
        ),
        (
            {"aside": (("less", "thickness"),)},
            "One further study measured thickness and found more with the standing cable curl.",
        ),
        (
            {"aside": (("neither", "the whole muscle"), ("neither", "the whole muscle"))},
            "Two further studies measured the whole muscle and reported no difference.",
        ),
        (
            {"untested": (("less", "none"), ("less", "none"))},
            "Two further studies point the other way, but no test of the two was read.",
        ),
    ],
)
def test_a_short_sentence_follows(names, changes, remark):
    plain = said(names, made("found"))
    assert said(names, made("found", **changes)) == f"{plain} {remark}"


@pytest.mark.parametrize(
    ("row", "p", "at_odds"),
    [
        ("unclear", "p = 0.038", True),
        ("unclear", "p < 0.05", True),
        ("hinted", "p = 0.026", True),
        ("unclear", "p > 0.05", False),
        ("unclear", "p = 0.05", False),
        ("unclear", "p < 0.1", False),
        ("found", "p = 0.01", False),
    ],
)
def test_a_paper_that_found_what_is_not_clear_over_all_is_said_to(names, row, p, at_odds):
    told = said(names, made(row, p=p))
    lead = "The paper itself found a difference" if at_odds else "In the paper"
    assert told.endswith(f"{lead}: {p}.")


@pytest.mark.parametrize("printed", ["18% against 11%", "ratio 1.06"])
def test_a_paper_is_not_quoted_for_what_was_just_told(names, printed):
    assert "In the paper" not in said(names, made("found", gains=GAINS, printed=printed))


def test_of_a_lift_no_part_is_said_to_be_measured_with_others(names):
    told = said(
        names,
        made(
            "found",
            question=asked("strength"),
            strength_test="one-repetition maximum of the crate press",
            measured="together",
            together=(SHORT,),
        ),
    )
    assert "easured" not in told


def test_a_paper_with_a_p_value_did_test_the_two(names):
    assert "No test" not in said(names, made("found", tests=frozenset(), p="p = 0.03"))


def test_a_null_always_has_what_it_leaves_open(names):
    for row, changes in (("unclear", {}), ("unclear", {"gains": Gains(1.12, 1.11)}), ("alike", {})):
        assert "could be" in said(names, made(row, **changes))
    assert "too small to rule out" in said(names, made("no difference reported"))


def test_likeness_is_told_only_from_an_interval(names):
    with pytest.raises(ValueError, match="interval"):
        said(names, made("alike", estimate=None))
    for row in CELLS:
        assert (" alike" in said(names, made(row))) == (row == "alike")


def test_only_opposite_signs_are_told_as_opposite(names):
    one_null = made("unclear", estimate=None, directions=Directions(1, 0, 1), studies=2, people=41)
    assert "opposite" not in said(names, one_null)
    both = replace(one_null, directions=Directions(1, 1, 0))
    assert said(names, both).startswith("Studies point opposite ways on growth")


@pytest.mark.parametrize("changes", [{"level": None}, {"side": None}])
def test_a_difference_needs_a_side_and_a_certainty(names, changes):
    with pytest.raises(ValueError, match="certainty|side"):
        said(names, replace(made("found"), **changes))


def test_two_parts_are_never_told_to_differ_in_size(names):
    """Their growth is compared, each against its own start; which of them is the larger muscle is another matter."""
    for row in ("found", "trivial", "alike", "hinted", "unclear", "opposite"):
        told = said(names, made(row, question=within()))
        assert "at the end" not in told and "each from its start" in told


def test_plain_sentences_are_one_breath(names):
    for called, text in composed(names).items():
        if called not in REMARKED:
            assert len(re.split(r"(?<=[^.]{2})\. ", text)[0].split()) <= 45, text


def test_no_sentence_promises_more_than_evidence_can(names):
    words = re.compile(rf"\b({'|'.join(ABSOLUTE)}|verdict|certainty|shown)\b", re.IGNORECASE)
    assert not [text for text in composed(names).values() if words.search(text)]


BOTH = "the crate curl and the standing cable curl"


@pytest.mark.parametrize(
    ("found", "told"),
    [
        (
            [("activation", "found", "more"), ("growth", "found", "more")],
            "activation and growth agree: both favour the crate curl.",
        ),
        (
            [
                ("activation", "found", "less"),
                ("growth", "found", "less"),
                ("strength", "found", "less"),
            ],
            "activation, growth and strength agree: all favour the standing cable curl.",
        ),
        (
            [("activation", "found", "more"), ("growth", "unclear", None)],
            "activation favoured the crate curl, growth did not clearly differ.",
        ),
        (
            [("activation", "found", "less"), ("growth", "found", "more")],
            "activation and growth point opposite ways: activation favoured the standing cable curl, growth favoured the "
            "crate curl; one does not outweigh the other.",
        ),
        (
            [("activation", "hinted", "less"), ("growth", "found", "more")],
            "activation leaned towards the standing cable curl, not clearly; growth favoured the crate curl.",
        ),
        (
            [("activation", "hinted", "more"), ("growth", "found", "more")],
            "activation and growth point the same way, to the crate curl, but not all clearly.",
        ),
        (
            [("activation", "alike", None), ("growth", "alike", None)],
            f"activation and growth agree: alike with {BOTH}.",
        ),
        (
            [("activation", "unclear", None), ("growth", "unclear", None)],
            f"no clear difference in activation or growth between {BOTH}.",
        ),
        (
            [("activation", "alike", None), ("growth", "unclear", None)],
            "activation was alike, growth did not clearly differ.",
        ),
        (
            [("activation", "found", "more"), ("growth", "not studied", None)],
            "activation favoured the crate curl, growth was not compared.",
        ),
    ],
)
def test_whether_kinds_agree(names, found, told):
    assert (
        describe_kinds(names, LONG, CRATE, CABLE, found)
        == f"For the long head of the lantern muscle, {told}"
    )


@pytest.mark.parametrize("finding", ["hinted", "unclear", "alike"])
def test_kinds_are_opposite_only_when_both_were_found(names, finding):
    side = "less" if finding == "hinted" else None
    told = describe_kinds(
        names, LONG, CRATE, CABLE, [("growth", "found", "more"), ("activation", finding, side)]
    )
    assert "opposite" not in told and "agree" not in told


@pytest.mark.parametrize(
    ("outcome", "direction", "clause"),
    [
        ("growth", "more", "the crate curl grows {} more than the standing cable curl"),
        ("growth", "less", "the crate curl grows {} less than the standing cable curl"),
        ("activation", "more", "the crate curl works {} harder than the standing cable curl"),
        ("activation", "less", "the crate curl works {} less hard than the standing cable curl"),
        ("strength", "more", "the crate curl strengthens {} more than the standing cable curl"),
        (
            "length",
            "more",
            "the crate curl trains {} at greater length than the standing cable curl",
        ),
        (
            "length",
            "alike",
            "the crate curl and the standing cable curl train {} at about the same length",
        ),
        ("growth", "alike", "the crate curl and the standing cable curl grow {} alike"),
    ],
)
def test_claims_read_as_their_authors_mean_them(names, outcome, direction, clause):
    told = clause.format("the long head of the lantern muscle")
    question = asked(outcome)
    assert claimed(names, question, (LONG,), direction) == told
    for common, lead in (
        (True, "Commonly taught, untested here"),
        (False, "Cited, but untested here"),
    ):
        assert taught(names, question, (LONG,), direction, common) == f"{lead}: {told}."


def test_parts_of_one_exercise_are_claimed_within_it(names):
    assert (
        claimed(names, within("activation"), (LONG,), "more")
        == "the crate curl works the long head of the lantern muscle harder than the short head"
    )
    assert (
        claimed(names, within("activation"), (LONG,), "alike")
        == "the crate curl works the long head and the short head of the lantern muscle alike"
    )
