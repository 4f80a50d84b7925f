"""Names as one says them."""

import pytest

from build_tools.evidence.wording.names import Names, joined


@pytest.mark.parametrize(
    ("name", "inside"),
    [
        ("Lantern muscle, long head", "the long head of the lantern muscle"),
        ("Lantern muscle", "the lantern muscle"),
        ("Nordic muscle, EMG part", "the EMG part of the Nordic muscle"),
        ("Lantern femoris long head", "the long head of the lantern femoris"),
        ("Lantern medial head", "the medial head of the lantern"),
        ("Acromial part of lantern", "the acromial part of the lantern"),
        ("Long head of the lantern", "the long head of the lantern"),
        ("Lantern and lamp flexors", "the lantern and lamp flexors"),
    ],
)
def test_parts_are_named_as_one_says_them(demo, name, inside):
    object.__setattr__(demo.muscles["lantern"].data, "name", name)
    object.__setattr__(demo.vocabulary.data, "proper_nouns", ["Nordic"])
    assert Names(demo).part("lantern") == inside


def test_what_coaches_call_it_comes_first(demo):
    object.__setattr__(demo.muscles["lantern"].data, "coaches", "lamps")
    assert Names(demo).part("lantern") == "the lamps"
    assert Names(demo).part("lantern/long-head") == "the long head of the lantern muscle"


@pytest.mark.parametrize(
    ("parts", "told"),
    [
        (["the soleus"], "the soleus"),
        (["the soleus", "the lats"], "the soleus and the lats"),
        (
            ["the long head of the biceps", "the short head of the biceps"],
            "the long head and the short head of the biceps",
        ),
        (
            ["the long head of the biceps", "the long head of the triceps"],
            "the long head of the biceps and the long head of the triceps",
        ),
        (
            ["the long head of the biceps", "the short head of the biceps", "the brachialis"],
            "the long head of the biceps, the short head of the biceps and the brachialis",
        ),
    ],
)
def test_a_muscle_is_said_once(parts, told):
    assert joined(parts) == told


def test_a_version_stands_in_brackets_so_that_the_sentence_can_go_on(demo):
    assert Names(demo).exercise("crate-curl@lower-half") == "the crate curl (over the lower half)"


def test_unknown_names_stand_as_they_are(demo):
    assert (Names(demo).part("no/part"), Names(demo).exercise("no-curl")) == ("no/part", "no-curl")
