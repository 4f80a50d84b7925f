"""What must hold for any body of evidence: worse input never raises certainty, and the steps add up."""

from dataclasses import replace
from math import exp

from certainty_cases import DOMAINS, charges
from hypothesis import given
from hypothesis import strategies as st

from build_tools.evidence.certainty.rating import (
    LEVELS,
    EvidenceBody,
    Incoherence,
    RatedSample,
    certainty,
)
from build_tools.evidence.claims.verdict import Directions, RatioInterval

COVERS = {"grade_down_steps"}

samples_ = st.builds(
    RatedSample,
    st.sampled_from("abcdef"),
    st.sampled_from(
        ["parallel", "within-participant", "acute-crossover", "one-group", "observational"]
    ),
    st.integers(1, 500),
    st.sampled_from(["growth", "activation"]),
    st.sampled_from(["full text", "abstract", "part of abstract", "record", "memory"]),
    st.booleans(),
    st.sampled_from([0.0, 0.5, 0.9]),
    st.sampled_from(["low", "some", "high", None]),
    st.booleans(),
    st.booleans(),
    st.booleans(),
)


@st.composite
def bodies(draw):
    """Any body; its intervals lie within one another as pooling makes them: common, random effects, prediction."""
    middle = draw(st.floats(-1.2, 1.2))
    halves = sorted(draw(st.lists(st.floats(0, 1.5), min_size=3, max_size=3)))
    common, estimate, prediction = (
        (exp(middle), exp(middle - half), exp(middle + half)) for half in halves
    )
    told = draw(st.none() | st.just(RatioInterval(*estimate)))
    directions = Directions(*draw(st.tuples(*[st.integers(0, 3)] * 3)))
    if told is None and not directions.total:
        directions = Directions(1, 0, 0)
    return EvidenceBody(
        draw(st.sampled_from(["growth", "activation"])),
        tuple(draw(st.lists(samples_, min_size=1, max_size=5))),
        draw(st.sampled_from([1.05, 1.1, 1.3])),
        told,
        draw(st.none() | st.just(RatioInterval(*common))),
        directions,
        draw(st.none() | st.floats(0, 100)),
        0.01,
        draw(st.none() | st.floats(0, 1)),
        draw(st.none() | st.just(prediction[1:])),
        draw(st.floats(0, 1)),
        draw(st.none() | st.builds(Incoherence, st.floats(0, 1), st.floats(0.5, 2))),
        tuple(draw(st.lists(st.sampled_from(["shown", "leaning"]), max_size=3))),
    )


def rank(any_body):
    return LEVELS.index(certainty(any_body).level)


WORSE_SAMPLE = {
    "design": lambda s: replace(s, design="observational"),
    "outcome": lambda s: replace(s, measured="strength"),
    "not appraised": lambda s: replace(
        s, risk_of_bias=None if s.risk_of_bias == "low" else s.risk_of_bias
    ),
    "high risk": lambda s: replace(s, risk_of_bias="high"),
    "abstract": lambda s: replace(s, read="abstract" if s.read == "full text" else s.read),
    "memory": lambda s: replace(s, read="memory"),
    "differs": lambda s: replace(s, differs=True),
    "jointly": lambda s: replace(s, jointly=True),
    "whole muscle": lambda s: replace(s, whole_muscle=True),
    "less correlated": lambda s: replace(s, correlation=s.correlation / 2),
    "separate groups": lambda s: replace(s, paired=False),
}


def halved(any_body):
    """Half the people in every sample, rounded up; people weigh, so only alike samples keep their shares."""
    first = any_body.samples[0]
    return replace(any_body, samples=(replace(first, n=(first.n + 1) // 2),))


def widened(any_body, by=1.3):
    """All three intervals wider about the same estimate."""

    def wider(x):
        return x and RatioInterval(x.ratio, x.low / by, x.high * by)

    prediction = any_body.prediction and (any_body.prediction[0] / by, any_body.prediction[1] * by)
    return replace(
        any_body,
        estimate=wider(any_body.estimate),
        common=wider(any_body.common),
        prediction=prediction,
    )


WORSE_BODY = {
    "more spread": lambda b: replace(b, i2=None if b.i2 is None else min(100, b.i2 + 30)),
    "wider": widened,
    "a wider interval only": lambda b: replace(
        b,
        estimate=b.estimate
        and RatioInterval(
            b.estimate.ratio,
            min(b.estimate.low, *(b.prediction or (9,))),
            max(b.estimate.high, *(b.prediction or (0,))),
        ),
    ),
    "less direct": lambda b: replace(b, direct_share=b.direct_share / 3),
    "disagreement": lambda b: replace(b, incoherence=Incoherence(0.001, 3.0)),
    "sensitive": lambda b: replace(b, verdicts=("shown", "not shown")),
    "contrary": lambda b: (
        b
        if b.estimate is None
        else replace(
            b,
            directions=replace(
                b.directions,
                **(
                    {"less": b.directions.less + 1}
                    if b.estimate.ratio > 1
                    else {"more": b.directions.more + 1}
                ),
            ),
        )
    ),
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
def test_fewer_people_never_raise_certainty(any_body):
    alone = replace(any_body, samples=any_body.samples[:1])
    assert rank(halved(alone)) <= rank(alone)


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
