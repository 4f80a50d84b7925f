"""What must hold for any body of evidence: worse input never raises certainty, and the steps add up."""

from dataclasses import replace
from math import exp

import pytest
from certainty_cases import DOMAINS, TRIAL, body, charges, each
from hypothesis import given
from hypothesis import strategies as st

from build_tools.evidence.certainty.body import (
    EvidenceBody,
    Incoherence,
    RatedSample,
    RatingStep,
    charged_once,
)
from build_tools.evidence.certainty.rating import LEVELS, certainty
from build_tools.evidence.terms import RatioInterval

COVERS = {"grade_down_steps"}

FINDINGS = ["found", "hinted", "unclear", "alike"]
samples_ = st.builds(
    RatedSample,
    st.sampled_from("abcdef"),
    st.sampled_from(
        ["parallel", "within-participant", "acute-crossover", "one-group", "observational"]
    ),
    st.sampled_from(["random", "counterbalanced", "self-chosen", "not stated"]),
    st.integers(1, 500),
    st.sampled_from(["growth", "activation"]),
    st.sampled_from(["full text", "abstract", "part of abstract", "record", "memory"]),
    st.sampled_from(["low", "some", "high", None]),
    st.booleans(),
    st.sampled_from(["part", "together", "whole"]),
    st.sampled_from([-1, 0, 1]),
    st.sampled_from(["printed", "bounded", "significant", "unknown"]),
)


def interval(middle: float, half: float) -> RatioInterval:
    return RatioInterval(
        exp(middle), min(exp(middle - half), exp(middle)), max(exp(middle + half), exp(middle))
    )


@st.composite
def bodies(draw):
    """Any body; without a number for how much, no sample has a spread of its own."""
    middle = draw(st.floats(-1.2, 1.2))
    told, known = (
        draw(st.none() | st.floats(0, 1.5).map(lambda h: interval(middle, h))) for _ in range(2)
    )
    samples = draw(st.lists(samples_, min_size=1, max_size=5))
    if told is None:
        known = None
        bare = st.sampled_from(["significant", "unknown"])
        samples = [replace(s, spread=draw(bare)) for s in samples]
    elif known is None:
        samples = [
            replace(s, spread=s.spread if s.spread in ("significant", "unknown") else "unknown")
            for s in samples
        ]
    return EvidenceBody(
        outcome=draw(st.sampled_from(["growth", "activation"])),
        samples=tuple(samples),
        margin=draw(st.sampled_from([1.02, 1.1, 1.3])),
        large=1.5,
        usual=draw(st.sampled_from([0.06, 0.6])),
        estimate=told,
        known=known,
        side=1 if middle >= 0 else -1,
        heterogeneity_p=draw(st.none() | st.floats(0, 1)),
        spread=draw(st.none() | st.floats(0, 0.5)),
        direct_share=draw(st.floats(0, 1)),
        incoherence=draw(st.none() | st.builds(Incoherence, st.floats(0, 1), st.floats(0.5, 2))),
        findings=tuple(draw(st.lists(st.sampled_from(FINDINGS), max_size=3))),
    )


def rank(any_body):
    return LEVELS.index(certainty(any_body).level)


SPREADS = ["printed", "significant", "unknown"]
WORSE_SAMPLE = {
    "design": lambda s: replace(s, design="observational"),
    "chosen": lambda s: replace(s, allocation="self-chosen"),
    "not appraised": lambda s: replace(
        s, risk_of_bias=None if s.risk_of_bias == "low" else s.risk_of_bias
    ),
    "high risk": lambda s: replace(s, risk_of_bias="high"),
    "abstract": lambda s: replace(s, read="abstract" if s.read == "full text" else s.read),
    "memory": lambda s: replace(s, read="memory"),
    "differs": lambda s: replace(s, differs=True),
    "jointly": lambda s: replace(s, measured_as="together"),
    "whole muscle": lambda s: replace(s, measured_as="whole"),
    "only significant": lambda s: replace(
        s, spread=s.spread if s.spread == "unknown" else "significant"
    ),
    "no spread": lambda s: replace(s, spread="unknown"),
}


def widened(any_body, by=1.3):
    """Both intervals wider about the same estimate."""

    def wider(x):
        return x and RatioInterval(x.ratio, x.low / by, x.high * by)

    return replace(any_body, estimate=wider(any_body.estimate), known=wider(any_body.known))


def emptied(any_body):
    """All numbers dropped: no answer, nothing known, nothing to differ by; a side clearly shown is still told by its test."""
    samples = tuple(
        replace(s, spread="significant" if s.clear and s.spread != "unknown" else "unknown")
        for s in any_body.samples
    )
    return replace(
        any_body,
        samples=samples,
        estimate=None,
        known=None,
        heterogeneity_p=None,
        spread=None,
        findings=any_body.findings[:1],
    )


WORSE_BODY = {
    "more spread": lambda b: replace(b, heterogeneity_p=0.001, spread=max(0.3, b.spread or 0)),
    "wider": widened,
    "known to less": lambda b: replace(b, known=b.estimate and interval(0.0, 2.0)),
    "less direct": lambda b: replace(b, direct_share=b.direct_share / 3),
    "disagreement": lambda b: replace(b, incoherence=Incoherence(0.001, 3.0)),
    "sensitive": lambda b: replace(b, findings=("found", "unclear")),
    "contrary": lambda b: replace(b, samples=tuple(replace(s, clear=-b.side) for s in b.samples)),
}


@given(bodies(), st.sampled_from(sorted(WORSE_SAMPLE)), st.data())
def test_a_worse_sample_never_raises_certainty(any_body, way, data):
    index = data.draw(st.integers(0, len(any_body.samples) - 1))
    changed = list(any_body.samples)
    changed[index] = WORSE_SAMPLE[way](changed[index])
    assert rank(replace(any_body, samples=tuple(changed))) <= rank(any_body)


@given(bodies(), st.sampled_from(sorted(WORSE_BODY)))
def test_a_worse_body_never_raises_certainty(any_body, way):
    assert rank(WORSE_BODY[way](any_body)) <= rank(any_body)


@given(bodies())
def test_dropping_every_number_never_raises_certainty(any_body):
    """An interval that no significant test could leave so open aside: with large differences both ways nothing is significant."""
    open_ = certainty(any_body)
    if charges(open_, "imprecision") == 3 and any(s.clear for s in any_body.samples):
        any_body = replace(any_body, samples=tuple(replace(s, clear=0) for s in any_body.samples))
    # What contrary samples cost is dropped with nothing: they keep their sides.
    assert rank(emptied(any_body)) <= rank(any_body)


@given(bodies())
def test_steps_add_up_and_stay_within_what_a_domain_may_cost(any_body):
    """grade_down_steps: two levels at most, imprecision three."""
    rated = certainty(any_body)
    for domain in DOMAINS:
        assert (
            0 <= charges(rated, domain) <= {"imprecision": 3, "publication bias": 0}.get(domain, 2)
        )
    reached = max(0, LEVELS.index(rated.start) + sum(step.change for step in rated.steps))
    assert rated.level == LEVELS[min([reached, *(LEVELS.index(cap.at_most) for cap in rated.caps)])]


@given(bodies())
def test_every_reason_is_one_plain_sentence_with_its_facts(any_body):
    rated = certainty(any_body)
    for reason in [step.reason for step in rated.steps] + [cap.reason for cap in rated.caps]:
        assert (
            reason.endswith(".")
            and ". " not in reason
            and ".." not in reason
            and any(c.isdigit() for c in reason)
        ), reason


@given(bodies(), st.randoms())
def test_the_order_of_samples_does_not_matter(any_body, random):
    shuffled = list(any_body.samples)
    random.shuffle(shuffled)
    assert certainty(replace(any_body, samples=tuple(shuffled))) == certainty(any_body)


@given(bodies())
def test_the_other_side_is_rated_alike(any_body):
    def turned(x):
        return x and RatioInterval(1 / x.ratio, 1 / x.high, 1 / x.low)

    mirrored = replace(
        any_body,
        estimate=turned(any_body.estimate),
        known=turned(any_body.known),
        side=-any_body.side,
        incoherence=any_body.incoherence and any_body.incoherence.mirrored(),
        samples=tuple(replace(s, clear=-s.clear) for s in any_body.samples),
    )
    assert certainty(mirrored).level == certainty(any_body).level


# Shapes


@pytest.mark.parametrize("changes", [{"samples": ()}, {"margin": 1.0}, {"direct_share": 1.2}])
def test_an_unratable_body_is_refused(changes):
    with pytest.raises(ValueError):
        replace(body(), **changes)


def test_an_impossible_sample_is_refused():
    with pytest.raises(ValueError, match="a: a sample needs people"):
        replace(TRIAL, n=0)


def test_shares_are_of_people():
    told = body(replace(TRIAL, n=30), replace(TRIAL, study="b", n=90, differs=True))
    assert told.people == 120 and told.share(lambda sample: sample.differs) == 0.75
    assert body(*each()).share(lambda sample: sample.read == "full text") == 1


def test_of_several_signs_the_weightiest_is_charged():
    steps = [
        RatingStep(str(n), "imprecision", change, f"Reason {n}.")
        for n, change in enumerate((-1, 0, -2, -2))
    ]
    told = charged_once(steps, "once")
    assert [(s.rule, s.change) for s in told] == [("once", 0), ("1", 0), ("2", -2), ("once", 0)]
    assert told[0].reason == "Reason 0; a sign of the same cause, so not charged again."
    assert charged_once([], "once") == ()
