"""Files of plots, from conclusions that the demo catalog does not have."""

from __future__ import annotations

import xml.etree.ElementTree as ET

from made import POOLED, a_book, compared, concluded, file, page, row, two_lists


def test_the_file_of_a_plot_names_title_sources_and_licence() -> None:
    made = a_book([concluded(POOLED)], fields=[two_lists()])
    root = ET.fromstring(file(made, "figures/exercises/crate-curl/claim-1-1.svg"))
    words = " ".join(" ".join(t.itertext()) for t in root.iter("{http://www.w3.org/2000/svg}text"))
    for part in (
        "Lantern Yard handbook",
        "CC0-1.0",
        "Wick et al. 2030, https://doi.org/10.0000/invented.1",
        "Glow 2031",
        "All together",
    ):
        assert part in words
    assert {f.uri for f in made.files if f.uri.startswith("figures/muscles/")} == {
        "figures/muscles/lantern/long-head/growth-1.svg",
        "figures/muscles/lantern/long-head/growth-2.svg",
    }


def test_directions_alone_have_no_plot() -> None:
    made = a_book([concluded(compared("crate-curl", "cable-curl", row(direction="more")))])
    assert not any(f.uri.startswith("figures/") and "claim-" in f.uri for f in made.files)
    assert "hb-plot" not in page(made, "exercises/crate-curl.md").partition("{#how-to-do-it}")[0]
