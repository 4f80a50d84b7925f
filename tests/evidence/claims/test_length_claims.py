"""Claims on muscle length against lengths that a model gives, here made up by the test."""

from __future__ import annotations

from dataclasses import replace

import pytest

from build_tools.catalog.entries import Claim
from build_tools.catalog.load import Catalog
from build_tools.committed import conclusions as committed_text
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.claims.conclusions import Conclusion, Conclusions
from build_tools.evidence.claims.length_claims import Lengths
from build_tools.evidence.explain.claim import explain

OTHER = {"exercise": "cable-curl"}


def claim(catalog: Catalog, **changes: object) -> None:
    """Give the crate curl one claim on length."""
    made = Claim.model_validate(
        {
            "part": ["lantern/long-head"],
            "outcome": "length",
            "because": "The bent hip lengthens it.",
            "common_practice": "Taught in Lantern Yard.",
            **changes,
        }
    )
    entry = catalog.exercises["crate-curl"]
    catalog.exercises["crate-curl"] = replace(
        entry, data=entry.data.model_copy(update={"emphasis": [made]})
    )


def judged(
    catalog: Catalog, lengths: Lengths | None, **changes: object
) -> tuple[Conclusion, Conclusions]:
    claim(catalog, **changes)
    conclusions = conclude(catalog, lengths)
    return conclusions.of("crate-curl")[0], conclusions


def given(first: float | str, second: float | str) -> Lengths:
    return lambda exercise, part: first if exercise == "crate-curl" else second


# The demo's margin is 10% of the own range.
@pytest.mark.parametrize(
    ("direction", "first", "second", "finding"),
    [
        ("more_than", 0.8, 0.3, "found"),
        ("more_than", 0.45, 0.35, "found"),
        ("more_than", 0.4, 0.35, "alike"),
        ("more_than", 0.35, 0.4, "alike"),
        ("more_than", 0.3, 0.8, "opposite"),
        ("less_than", 0.3, 0.8, "found"),
        ("less_than", 0.38, 0.4, "alike"),
        ("less_than", 0.8, 0.3, "opposite"),
        ("similar_to", 0.44, 0.36, "found"),
        ("similar_to", 0.5, 0.5, "found"),
        ("similar_to", 0.8, 0.3, "opposite"),
        ("similar_to", 0.3, 0.8, "opposite"),
    ],
)
def test_the_mean_and_the_margin_decide(
    demo: Catalog, direction: str, first: float, second: float, finding: str
) -> None:
    found, conclusions = judged(demo, given(first, second), **{direction: OTHER})
    assert found.finding == finding and found.certainty is None
    assert [f.rule for f in conclusions.findings if f.rule == "contradicted-claim"] == [
        "contradicted-claim"
    ] * (finding == "opposite")


def test_reason_and_sentence(demo: Catalog) -> None:
    found, _ = judged(demo, given(0.76, 0.29), more_than=OTHER)
    assert (
        found.reason == "Mean relative length about 80% against 30% of its own range, by the model."
    )
    assert found.sentence == (
        "By a computer model of one average body, the long head of the lantern muscle is longer in the crate curl than in the standing "
        "cable curl: about 80% against 30% of its own range on average. Length does not show growth."
    )


def test_alike(demo: Catalog) -> None:
    found, _ = judged(demo, given(0.42, 0.38), similar_to=OTHER)
    assert found.reason == (
        "Mean relative length about 40% against 40% of its own range, by the model, "
        "within the 10% of the range that count as alike."
    )
    assert (
        "is about as long in the crate curl as in the standing cable curl: about 40% against 40%"
        in found.sentence
    )


def test_several_parts_are_told_together_and_the_weakest_decides(demo: Catalog) -> None:
    shares = {"lantern/long-head": (0.8, 0.3), "lantern/short-head": (0.5, 0.5)}
    parts = list(shares)
    found, _ = judged(
        demo,
        lambda exercise, part: shares[part][exercise != "crate-curl"],
        part=parts,
        more_than=OTHER,
    )
    assert found.finding == "alike" and found.sentence.count("By a computer model") == 2
    assert (
        found.sentence.endswith("Length does not show growth.")
        and found.sentence.count("growth") == 1
    )
    shares["lantern/short-head"] = (0.9, 0.2)
    found, _ = judged(
        demo,
        lambda exercise, part: shares[part][exercise != "crate-curl"],
        part=parts,
        more_than=OTHER,
    )
    assert (
        found.finding == "found"
        and (
            "the long head of the lantern muscle (about 80% against 30%) and the short head of the lantern muscle (about 90% against 20%) are "
            "longer in the crate curl than in the standing cable curl, each as an average share of its own range."
        )
        in found.sentence
    )


@pytest.mark.parametrize(
    ("lengths", "changes", "why"),
    [
        (None, {"more_than": OTHER}, "no model of muscle lengths was at hand"),
        (
            given("the knee is at 130 degrees", 0.3),
            {"more_than": OTHER},
            "the knee is at 130 degrees",
        ),
        (
            given(0.3, "no model value is available for this muscle"),
            {"more_than": OTHER},
            "no model value is available for this muscle",
        ),
        (
            given(0.8, 0.3),
            {"more_than": {"part": "lantern/short-head"}},
            "those of two muscles cannot be compared",
        ),
        (
            given(0.8, 0.3),
            {"more_than": OTHER, "relative_to": "lantern/short-head"},
            "those of two muscles cannot be compared",
        ),
    ],
)
def test_untested_with_a_plain_reason(
    demo: Catalog, lengths: Lengths | None, changes: dict[str, object], why: str
) -> None:
    found, conclusions = judged(demo, lengths, **changes)
    assert found.finding == "not studied" and why in found.reason and "growth" not in found.sentence
    assert found.sentence.startswith("Commonly taught, untested here: ")
    assert not conclusions.findings


def test_only_claims_on_length_and_growth_along_it_ask_the_model(demo: Catalog) -> None:
    """No claim of another outcome hangs on the model; what length seems to add to growth is told apart from them."""
    asked: list[tuple[str, str]] = []

    def lengths(exercise: str, part: str) -> float:
        asked.append((exercise, part))
        return 0.8 if exercise == "crate-curl" else 0.3

    with_model, without = conclude(demo, lengths), conclude(demo)
    assert with_model.claims == without.claims and with_model.fields == without.fields
    assert set(with_model.slopes) == {"lantern"} and without.slopes == {} and asked


def test_a_needless_dispute_is_found(demo: Catalog) -> None:
    _, conclusions = judged(demo, given(0.8, 0.3), more_than=OTHER, disputed="Some doubt it.")
    assert [f.rule for f in conclusions.findings] == ["needless-dispute"]
    _, conclusions = judged(demo, given(0.3, 0.8), more_than=OTHER, disputed="Some doubt it.")
    assert conclusions.findings == []


def test_in_the_committed_file_and_in_the_explanation(demo: Catalog) -> None:
    _, conclusions = judged(demo, given(0.76, 0.29), more_than=OTHER)
    written = committed_text.files(conclusions, demo)["conclusions/exercises/crate-curl.yaml"]
    assert (
        'mean length: "80% against 30% of the own range"' in written and "certainty" not in written
    )
    told = explain(demo, conclusions, "crate-curl/1")
    assert "A length comes from a model of the body, not from studies." in told
    assert (
        "Finding: found. Mean relative length about 80% against 30% of its own range"
        in " ".join(told.split())
    )
