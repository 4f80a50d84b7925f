"""Risk of bias from signalling questions.

Outside the project: RoB 2 (Sterne et al. 2019, doi:10.1136/bmj.l4898; the tool's site) has a judgement of low, some concerns or
high follow from the answers by an algorithm; that one bad domain makes the whole high, and only good ones low, is from memory.
"""

from itertools import product
from typing import get_args

import pytest
from catalogs import answer, result, study

from build_tools.catalog.entries import AppraisalQuestion, Found
from build_tools.evidence.certainty.appraisal import judge_risk
from build_tools.evidence.certainty.body import Read

ORDER = {"low": 0, "some": 1, "high": 2}
ASKED = {
    id: AppraisalQuestion(asks="?", designs=["parallel"], decides=decides, common_practice="Made.")
    for id, decides in (("chance", True), ("blind", False), ("told", False))
}


def risk(*found, read="full text"):
    return judge_risk(ASKED, dict(zip(ASKED, found, strict=True)), read)


@pytest.mark.parametrize(
    ("found", "expected"),
    [
        (("yes", "yes", "yes"), "low"),
        (("yes", "partly", "yes"), "low"),
        (("partly", "partly", "yes"), "some"),
        (("yes", "no", "yes"), "some"),
        (("yes", "not stated", "yes"), "some"),
        (("not stated", "not stated", "not stated"), "some"),
        (("no", "yes", "yes"), "high"),
        (("no", "not stated", "not stated"), "high"),
    ],
)
def test_the_judgement_follows_from_the_answers(found, expected):
    assert risk(*found) == expected


@pytest.mark.parametrize("read", sorted(set(get_args(Read)) - {"full text"}))
def test_a_low_risk_needs_the_full_text(read):
    assert risk("yes", "yes", "yes", read=read) == "some"
    assert risk("no", "yes", "yes", read=read) == "high"


def test_what_is_not_appraised_is_not_judged_and_what_is_left_out_is_not_stated():
    assert judge_risk(ASKED, {}, "full text") is None
    assert judge_risk(ASKED, {"chance": "yes"}, "full text") == "some"
    assert judge_risk(ASKED, {"blind": "yes", "told": "yes"}, "full text") == "some"


def test_silence_never_lowers_the_risk():
    """Any answer but a no that turns into not stated, and any reading that grows shorter."""
    for found in product(get_args(Found), repeat=len(ASKED)):
        for place, said in enumerate(found):
            silent = [*found[:place], "not stated", *found[place + 1 :]]
            if said != "no":
                assert ORDER[risk(*silent)] >= ORDER[risk(*found)], (found, place)
        for read in get_args(Read):
            assert ORDER[risk(*found, read=read)] >= ORDER[risk(*found)], (found, read)


@pytest.mark.parametrize(
    ("fair", "charged"), [("yes", 0), ("not stated", -1), ("no", -2), (None, -1)]
)
def test_the_rating_is_charged_with_the_risk_of_the_study(fair, charged):
    """By the questions of the demo: an appraised trial, and one that nobody appraised."""
    given = {"because": "Invented.", "at": "Table 1"}
    appraisal = {"fair-lamp": {"answer": fair, **given}, "told-all": {"answer": "yes", **given}}
    data = study(
        [result({"a": {"mean": 50.0, "sd": 10.0}, "b": {"mean": 40.0, "sd": 10.0}})],
        **({"appraisal": appraisal} if fair else {}),
    )
    steps = answer({"one": data}).certainty.steps
    assert [step.change for step in steps if step.domain == "risk of bias"] == [charged]
