"""Reported contrasts are found whoever cites them, and turned the way round the reader asks."""

from build_tools.catalog.entries import Study
from build_tools.evidence.studies.contrasts import Reports


def with_result(demo, key, result):
    """The demo catalog with one more result in a study."""
    entry = demo.studies[key]
    data = entry.data.model_dump(by_alias=True)
    data["results"].append(result)
    demo.studies[key] = type(entry)(entry.id, Study.model_validate(data), entry.source)
    return demo


def test_direction_is_turned_to_the_question(demo):
    reports = Reports(demo)
    [asked] = reports.of_exercises("crate-curl", "cable-curl", "lantern/long-head", "growth")
    [turned] = reports.of_exercises("cable-curl", "crate-curl", "lantern/long-head", "growth")
    assert (asked.direction, asked.flipped, asked.stated) == ("more", False, True)
    assert (turned.direction, turned.flipped) == ("less", True)
    assert turned.first.value == asked.second.value


def test_outcomes_are_kept_apart(demo):
    reports = Reports(demo)
    assert [
        r.study
        for r in reports.of_exercises(
            "crate-curl", "cable-curl", "lantern/short-head", "activation"
        )
    ] == ["glow2031"]
    assert [
        r.study
        for r in reports.of_exercises("crate-curl", "cable-curl", "lantern/short-head", "growth")
    ] == ["wick2030"]
    assert reports.of_exercises("crate-curl", "cable-curl", "lantern/long-head", "activation") == []


def test_cover_tells_alone_jointly_and_whole_muscle(demo):
    for parts in (["lantern/long-head", "lantern/short-head"], ["lantern"]):
        with_result(
            demo,
            "wick2030",
            {
                "parts": parts,
                "measure": "mri-volume",
                "unit": "%",
                "at": "abstract",
                "contrasts": [
                    {"of": "standing", "against": "seated", "favours": "of", "test": "between"}
                ],
            },
        )
    found = Reports(demo).of_exercises("crate-curl", "cable-curl", "lantern/long-head", "growth")
    assert [(r.cover, r.direction) for r in found] == [
        ("whole muscle", "less"),
        ("alone", "more"),
        ("jointly", "less"),
    ]
    whole = Reports(demo).of_exercises("crate-curl", "cable-curl", "lantern", "growth")
    assert [r.cover for r in whole] == ["alone"]


def test_a_ratio_to_another_part_is_another_question(demo):
    with_result(
        demo,
        "glow2031",
        {
            "parts": ["lantern/long-head"],
            "relative_to": "lantern/short-head",
            "measure": "surface-emg",
            "unit": "ratio",
            "at": "Table 3",
            "contrasts": [
                {"of": "seated", "against": "standing", "favours": "of", "test": "between"}
            ],
        },
    )
    reports = Reports(demo)
    assert reports.of_exercises("crate-curl", "cable-curl", "lantern/long-head", "activation") == []
    [ratio] = reports.of_exercises(
        "crate-curl", "cable-curl", "lantern/long-head", "activation", "lantern/short-head"
    )
    assert ratio.direction == "more"


def test_two_parts_in_one_exercise_stated_or_read_off(demo):
    reports = Reports(demo)
    [read_off] = reports.of_parts("crate-curl", "lantern/long-head", "lantern/short-head", "growth")
    assert (read_off.direction, read_off.stated) == ("more", False)
    with_result(
        demo,
        "wick2030",
        {
            "parts": ["lantern/long-head", "lantern/short-head"],
            "measure": "mri-volume",
            "unit": "%",
            "at": "p. 3",
            "contrasts": [
                {
                    "of": "seated",
                    "against": "seated",
                    "favours": "against",
                    "test": "between",
                    "of_part": "lantern/long-head",
                    "against_part": "lantern/short-head",
                }
            ],
        },
    )
    [stated] = Reports(demo).of_parts(
        "crate-curl", "lantern/long-head", "lantern/short-head", "growth"
    )
    assert (stated.direction, stated.stated, stated.at) == ("less", True, "p. 3")


def test_equal_or_unlike_values_have_no_direction(demo):
    for seated, standing in (({"mean": 5.0}, {"mean": 5.0}), ({"mean": 9.0}, {"change": 5.0})):
        with_result(
            demo,
            "glow2031",
            {
                "parts": ["lantern/long-head"],
                "measure": "surface-emg",
                "unit": "mV",
                "at": "p. 4",
                "values": {"seated": seated, "standing": standing},
            },
        )
    found = Reports(demo).of_exercises(
        "crate-curl", "cable-curl", "lantern/long-head", "activation"
    )
    assert [r.direction for r in found] == [None, None]


def test_every_contrast_on_a_part(demo):
    found = Reports(demo).on_part("lantern/short-head", "growth")
    assert [(r.study, r.first.exercise, r.second.exercise, r.direction) for r in found] == [
        ("wick2030", "crate-curl", "cable-curl", "neither")
    ]
