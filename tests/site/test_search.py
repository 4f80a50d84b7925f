"""The search index holds whole words: terms and values of a list never run together."""

from __future__ import annotations

import json
import re
from pathlib import Path


def test_words_do_not_run_together(demo_site: Path) -> None:
    docs = json.loads((demo_site / "search" / "search_index.json").read_text(encoding="utf-8"))["docs"]
    run_together = {word for doc in docs for word in re.findall(r"\b[A-Z]?[a-z]+[A-Z][a-z]+", re.sub(r"<[^>]*>", " ", doc["text"]))}
    assert run_together <= {"PubMed"}


def test_other_names_equipment_and_parts_stand_in_the_first_section(demo_site: Path) -> None:
    docs = json.loads((demo_site / "search" / "search_index.json").read_text(encoding="utf-8"))["docs"]
    text = next(doc["text"] for doc in docs if doc["location"] == "exercises/crate-curl/")
    for words in ("seated lamp curl", "Wooden crate", "Lantern muscle", "back of the lamp"):
        assert words in text
