"""Who took part in a study, as a person would say it: the forms are those that the shipped studies and a reader's complaint showed."""

from __future__ import annotations

import re

import pytest
import shipped_made

from build_tools.catalog.entries.study import People
from build_tools.site.pages.people import told


@pytest.mark.parametrize(
    ("given", "line"),
    [
        # What the file says of all of them stands with their number.
        ({"n": 17, "women": 0, "note": "Men."}, "17 men"),
        ({"n": 17, "women": 0, "note": "Students."}, "17 students, none of them women"),
        ({"n": 17, "women": 0}, "17, none of them women"),
        ({"n": 21, "women": 21}, "21 women"),
        ({"n": 21, "women": 21, "note": "Older women."}, "21 older women"),
        ({"n": 12, "women": 12, "note": "Athletes."}, "12 athletes, all of them women"),
        ({"n": 20, "women": 1, "note": "Healthy adults."}, "20 healthy adults, 1 of them a woman"),
        (
            {"n": 20, "women": 10, "note": "Healthy men and women."},
            "20 healthy men and women, 10 of them women",
        ),
        ({"n": 15, "note": "Healthy men and women."}, "15 healthy men and women"),
        # Of one person no word for many is right.
        ({"n": 1, "women": 1}, "1 woman"),
        ({"n": 1, "note": "Students."}, "1; students"),
        # A quality is one more thing said of them.
        (
            {"n": 15, "women": 0, "trained": True, "note": "Healthy."},
            "15, none of them women; trained; healthy",
        ),
        # Nothing is said twice.
        (
            {"n": 14, "women": 0, "trained": True, "age": "25 years", "note": "Trained men."},
            "14 trained men; age 25 years",
        ),
        ({"n": 9, "trained": False, "note": "Untrained adults."}, "9 untrained adults"),
        (
            {"n": 9, "trained": False, "note": "Eleven trained."},
            "9; untrained. Eleven trained.",
        ),
        # What else limits them keeps its own sentence.
        (
            {"n": 40, "women": 0, "age": "22 to 32 years", "note": "Young men, three days a week."},
            "40 young men; age 22 to 32 years. Three days a week.",
        ),
        ({"n": 12, "note": "One leg for each way."}, "12. One leg for each way."),
        # A figure after a full stop would be read with the count.
        ({"n": 1783, "note": "86 studies."}, "1,783; 86 studies."),
        ({"n": 12, "note": "Healthy men, 70 % of the maximum."}, "12 healthy men; 70 % of the maximum."),
        # A name keeps its letter, and a list is not cut.
        ({"n": 23, "note": "British Army personnel."}, "23. British Army personnel."),
        (
            {"n": 30, "note": "Students, nurses and firemen."},
            "30. Students, nurses and firemen.",
        ),
        (
            {"n": 20, "women": 10, "note": "Men in one group, women in the other."},
            "20, 10 of them women. Men in one group, women in the other.",
        ),
        ({"n": 20, "women": 0, "note": "Mostly men."}, "20, none of them women. Mostly men."),
    ],
)  # fmt: skip
def test_it_reads_as_one_would_say_it(given: dict[str, object], line: str) -> None:
    assert told(People.model_validate(given)) == line


def words(text: str) -> list[str]:
    return re.findall(r"[\w%.-]*[\w%]", text.lower())


def test_nothing_is_lost_and_no_scrap_is_left() -> None:
    """Every word that an author wrote still stands, in its order, and men are named only where the file names them."""
    for key, entry in shipped_made.catalog().studies.items():
        people = entry.data.people
        line = told(people)
        said = iter(words(line))
        assert all(word in said for word in words(people.note or "")), key
        assert f"{people.n:,}" in line and (people.age or "") in line, key
        assert not re.search(r"; [A-Z]|\b0 of them|\.\.", line), line
        assert not re.search(r"\bmen\b", line) or re.search(r"\bmen\b", people.note or "", re.I), (
            line
        )


def test_a_source_page_says_it() -> None:
    page = next(p for p in shipped_made.book().pages if p.uri == "sources/kubo2019.md")
    assert "<dt>People</dt> <dd>17 men</dd>" in page.text
