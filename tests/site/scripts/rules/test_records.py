"""Some records out of the file of all, read back by pybtex, rispy and citeproc-py (independent readers of the three forms)."""

from __future__ import annotations

import json

import pytest
import rispy
import shipped_made
from citeproc.source.json import CiteProcJSON
from pybtex.database import parse_string
from script_rules import records

from build_tools.site.pages.data_files import FORMS

REFERENCES = shipped_made.catalog().references
KEYS = [*list(REFERENCES)[::25], "no-such-key"]


@pytest.fixture(scope="module", params=list(FORMS))
def form(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def read(form: str, text: str) -> dict[str, str]:
    """Key -> title, by the reader of the form."""
    if form == "bib":
        found = parse_string(text, "bibtex").entries
        return {key: entry.fields["title"] for key, entry in found.items()}
    if form == "ris":
        return {entry["id"]: entry["title"] for entry in rispy.loads(text)}
    return {key: str(item["title"]) for key, item in CiteProcJSON(json.loads(text)).items()}


def test_only_those_come_and_all_of_them(form: str) -> None:
    whole = FORMS[form][1](REFERENCES.values())
    some = read(form, records.records(whole, form, KEYS))
    every = read(form, whole)
    assert some == {key: every[key] for key in KEYS if key in REFERENCES}
    assert len(every) == len(REFERENCES)
