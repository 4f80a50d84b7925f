"""A claim held against what studies found: rules of our own, an exhaustive table, then what must hold for any answer."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from build_tools.evidence.claims.conclusions import Comparison, Row
from build_tools.evidence.claims.judgement import judge
from build_tools.evidence.terms import Question, RatioInterval

MARGIN = 1.1
CLEAR, LESS, NEAR, OPEN = (
    RatioInterval(*x)
    for x in ((1.3, 1.2, 1.41), (0.77, 0.71, 0.83), (1.0, 0.95, 1.05), (1.2, 0.96, 1.5))
)


def comparison(finding, side=None, estimate=OPEN, **more):
    told = {"more": 0.9, "rows": (), **more}
    return Comparison(
        Question("a", "b", "m/p", "growth"),
        finding,
        side,
        told.pop("rows"),
        None,
        "",
        estimate=estimate,
        **told,
    )


@pytest.mark.parametrize(
    ("answer", "more", "less", "similar"),
    [
        (comparison("found", "more", CLEAR), "found", "opposite", "opposite"),
        (comparison("found", "less", LESS), "opposite", "found", "opposite"),
        # found, and too small to matter
        (
            comparison("found", "more", RatioInterval(1.04, 1.01, 1.07)),
            "found",
            "opposite",
            "found",
        ),
        # found, and it may be too small to matter: likeness is neither shown nor excluded
        (
            comparison("found", "more", RatioInterval(1.2, 1.02, 1.41)),
            "found",
            "opposite",
            "unclear",
        ),
        (comparison("hinted", "more"), "hinted", "unclear", "unclear"),
        (comparison("hinted", "less"), "unclear", "hinted", "unclear"),
        (comparison("alike", None, NEAR), "alike", "alike", "found"),
        (comparison("unclear"), "unclear", "unclear", "unclear"),
        # a null without a number never shows likeness, however little it leaves open
        (comparison("alike", None, NEAR, sized=False), "alike", "alike", "unclear"),
        (comparison("hinted", "more", None), "hinted", "unclear", "unclear"),
        (comparison("not studied", None, None), "not studied", "not studied", "not studied"),
    ],
)
def test_the_answer_decides(answer, more, less, similar):
    found = tuple(judge(claimed, answer, MARGIN).finding for claimed in ("more", "less", "similar"))
    assert found == (more, less, similar)


def row():
    return Row("one", (0,), 12, "abstract", None, None, False, "no test", ())


def test_the_reason_says_what_it_rests_on():
    def reason(answer):
        return judge("more", answer, MARGIN).reason

    assert "1.3" not in reason(comparison("found", "more", CLEAR)) and "30% more" in reason(
        comparison("found", "more", CLEAR)
    )
    assert "90%" in reason(comparison("hinted", "more")) and "count as alike" not in reason(
        comparison("hinted", "more")
    )
    assert "count as alike" in reason(comparison("unclear")) and "count as alike" in reason(
        comparison("alike", None, NEAR)
    )
    assert reason(comparison("hinted", "more", None)).startswith(
        "A direction was reported, and no number says how much"
    )
    assert "leaves open" in reason(comparison("unclear", None, NEAR, sized=False))
    assert "the part was not measured by itself" in reason(
        comparison("hinted", "more", measured="whole")
    )
    assert reason(comparison("not studied")).startswith("No study in this handbook")
    assert reason(comparison("not studied", rows=(row(),))).startswith(
        "Something was printed for both"
    )


TURNED = {"more": "less", "less": "more", None: None, "similar": "similar"}
answers = st.builds(
    comparison,
    st.sampled_from(["found", "hinted", "alike", "unclear"]),
    st.none(),
    st.none()
    | st.tuples(st.floats(0.5, 2), st.floats(1, 1.5), st.floats(1, 1.5)).map(
        lambda x: RatioInterval(x[0], x[0] / x[1], x[0] * x[2])
    ),
    more=st.floats(0, 1),
    sized=st.booleans(),
    measured=st.sampled_from(["part", "together", "whole"]),
).flatmap(
    lambda c: st.sampled_from(
        [
            replace(c, side=s)
            for s in (("more", "less") if c.finding in ("found", "hinted") else (None,))
        ]
    )
)


@given(answers)
def test_turning_the_contrast_round_turns_the_claim_round(answer):
    e = answer.estimate
    back = replace(
        answer,
        side=TURNED[answer.side],
        more=1 - answer.more,
        estimate=e and RatioInterval(1 / e.ratio, 1 / e.high, 1 / e.low),
    )
    for claimed in ("more", "less", "similar"):
        assert (
            judge(claimed, answer, MARGIN).finding == judge(TURNED[claimed], back, MARGIN).finding
        )


@given(answers)
def test_what_shows_more_shows_the_opposite_of_less(answer):
    more, less = (judge(claimed, answer, MARGIN).finding for claimed in ("more", "less"))
    assert (more == "found") == (less == "opposite") and (more == "opposite") == (less == "found")
    assert not (more == less == "hinted")


@given(st.sampled_from(["more", "less", "similar"]), answers)
def test_every_reason_is_one_sentence(claimed, answer):
    reason = judge(claimed, answer, MARGIN).reason
    assert (
        reason[0].isupper() and reason.endswith(".") and ". " not in reason and ".." not in reason
    )
