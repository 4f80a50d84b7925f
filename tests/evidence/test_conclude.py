"""Sentences are composed from the claim's fields and the reported numbers, whatever the author hopes."""

from pathlib import Path

import pytest

from build_tools.catalog.entries import Exercise
from build_tools.catalog.load import load
from build_tools.evidence.conclude import conclude


def with_claim(demo, **claim):
    """The demo catalog with one claim on the crate curl."""
    entry = demo.exercises["crate-curl"]
    data = entry.data.model_dump(by_alias=True, mode="json")
    data["emphasis"] = [{"part": ["lantern/long-head"], "outcome": "growth", "because": "It is invented.",
                         "cites": [{"key": "wick2030", "at": "abstract"}], **claim}]
    import json
    demo.exercises["crate-curl"] = type(entry)(entry.id, Exercise.model_validate_json(json.dumps(data)), entry.source)
    [conclusion] = conclude(demo).of("crate-curl")
    return conclusion


CABLE = {"exercise": "cable-curl"}


@pytest.mark.parametrize("claim, agreement, sentence", [
    ({"more_than": CABLE}, "agrees",
     "Growth of the lantern muscle, long head was greater with the crate curl than with the standing cable curl "
     "in 1 study of 18 people (14% against 9%)."),
    ({"less_than": CABLE}, "disagrees",
     "Growth of the lantern muscle, long head was greater with the crate curl than with the standing cable curl "
     "in 1 study of 18 people (14% against 9%)."),
    ({"similar_to": CABLE}, "disagrees",
     "Growth of the lantern muscle, long head was greater with the crate curl than with the standing cable curl "
     "in 1 study of 18 people (14% against 9%)."),
    ({"part": ["lantern/short-head"], "more_than": CABLE}, "no difference",
     "No clear difference in growth of the lantern muscle, short head was reported between the crate curl and the standing cable curl "
     "in 1 study of 18 people (10% (SD 4) against 9% (SD 4))."),
    ({"part": ["lantern/long-head", "lantern/short-head"], "more_than": CABLE}, "mixed",
     "Reports differ on whether growth of the lantern muscle, long head and the lantern muscle, short head was greater with the crate curl "
     "than with the standing cable curl: 1 report yes, 1 report no clear difference."),
    ({"outcome": "activation", "more_than": CABLE}, "no numbers",
     "Cited, but without numbers for this contrast here: activity of the lantern muscle, long head is higher in the crate curl "
     "than in the standing cable curl."),
    ({"outcome": "activation", "more_than": CABLE, "cites": [], "common_practice": "Taught."}, "common practice",
     "Commonly taught, untested here: activity of the lantern muscle, long head is higher in the crate curl "
     "than in the standing cable curl."),
    ({"more_than": {"part": "lantern/short-head"}}, "agrees",
     "With the crate curl, growth of the lantern muscle, long head was greater than that of the lantern muscle, short head "
     "in 1 study of 18 people (14% against 10% (SD 4))."),
])
def test_sentence_follows_the_numbers_not_the_author(demo, claim, agreement, sentence):
    conclusion = with_claim(demo, **claim)
    assert (conclusion.agreement, conclusion.sentence) == (agreement, sentence)


def test_a_contrary_study_counts_although_nobody_cites_it(demo):
    conclusion = with_claim(demo, less_than=CABLE, cites=[{"key": "glow2031", "at": "Table 2"}])
    assert conclusion.agreement == "disagrees"
    assert [(r.study, r.cited) for r in conclusion.readings] == [("wick2030", False)]


def test_unequal_values_without_a_test_do_not_speak_against_likeness(demo):
    conclusion = with_claim(demo, similar_to={"part": "lantern/short-head"})
    assert [r.bearing for r in conclusion.readings] == ["no direction"]
    assert conclusion.agreement == "no numbers"


def test_what_was_read_stands_with_each_reading(demo):
    [reading] = with_claim(demo, more_than=CABLE).readings
    assert reading.read == "abstract"
    assert reading.text == "Seated crate curl 14%, standing cable curl 9%; p < 0.01 (abstract)"


def test_published_numbers_reach_the_shipped_sentence():
    """Maeo et al. 2021, Med Sci Sports Exerc 53:825-837, abstract: whole hamstrings +14% seated, +9% prone."""
    catalog = load(Path(__file__).parents[2] / "catalog")
    readings = [r.text for c in conclude(catalog).of("seated-leg-curl") for r in c.readings if r.study == "maeo2021"]
    assert any("14%" in text and "9%" in text for text in readings)
