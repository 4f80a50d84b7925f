"""Figures outside of their pages: start and finish side by side, and whose they are."""

from __future__ import annotations

import pytest
import shipped_made

from build_tools.site.figures.file import FigureFile, credits, posture


@pytest.mark.parametrize("id", ["seated-leg-curl", "bench-press"])
def test_it_credits_the_model_whose_attachments_it_draws(id: str) -> None:
    """Outside source: section 4 of CC BY 3.0 asks for the author, the title and the licence's address; a figure without lines owes nothing."""
    shelf = shipped_made.book().shelf
    words, figure = " ".join(credits(shelf, id)), posture(shelf, id, "figure")
    drawn = id == "seated-leg-curl"
    styles = {shape.style for pose in figure.poses for shape in pose.shapes}
    assert ("Thick line" in figure.thick) == drawn == ("muscle" in styles)
    for credit in ("gait2392.osim", "Delp S.L.", "https://creativecommons.org/licenses/by/3.0/"):
        assert (credit in words) == drawn
    assert "Drillis" in words and "Licence:" in words


def test_all_of_it_lies_in_its_size() -> None:
    shelf = shipped_made.book().shelf
    for id in shelf.catalog.exercises:
        laid = FigureFile(posture(shelf, id, "figure"))
        assert all(0 <= left <= laid.width - laid.pose_width for left, _ in laid.poses)
        assert all(0 <= left <= laid.width - laid.inset for left, _, _ in laid.insets)
        below = laid.inset_top + laid.inset if laid.insets else laid.top + laid.pose_height
        assert below <= laid.height
