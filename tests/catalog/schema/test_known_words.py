"""What editors offer is what the catalog holds, with the words that people know it by."""

from folders import DEMO

from build_tools.catalog.load import load
from build_tools.catalog.schema.known_words import known_words


def test_each_word_is_told_by_its_names() -> None:
    known = known_words(load(DEMO))
    assert known["equipment"]["crate"].startswith("Wooden crate")
    assert known["parts"]["lantern"].startswith("Lantern")
    assert ": " in known["parts"]["lantern/long-head"]
    assert known["references"]["wick2030"].startswith("Wick")
    assert set(known["studies"]) <= set(known["references"])
    assert "% MVIC" in known["units"] and "surface-emg" in known["units"]["% MVIC"]


def test_a_catalog_that_cannot_be_read_offers_what_is_left(tmp_path) -> None:
    (tmp_path / "vocabulary.yaml").write_text("a: [", encoding="utf-8")
    assert known_words(load(tmp_path)) == {}
