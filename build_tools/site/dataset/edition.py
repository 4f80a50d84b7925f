"""Which data these are: the version of their form, their day, their licence and how they are cited."""

from __future__ import annotations

from datetime import date

from ...catalog.walk import reviewed_entries
from ..addresses import url
from ..context import RenderContext
from ..pages.evidence import changes
from ..templating import day as day_words

URI = "data.md"
FOLDER = "data/set"
#: Of the form: the first number rises when a field goes or means something else, the second when one is added.
VERSION = "1.0"
#: Licence as authors name it -> its address.
LICENCES = {
    "CC BY 4.0": "https://creativecommons.org/licenses/by/4.0/",
    "CC BY-SA 4.0": "https://creativecommons.org/licenses/by-sa/4.0/",
    "CC0 1.0": "https://creativecommons.org/publicdomain/zero/1.0/",
}


def day(shelf: RenderContext) -> date:
    """The last day on which a conclusion moved or an entry was reviewed, so that the same catalog has the same day."""
    days = [entry.data.reviewed for entry in reviewed_entries(shelf.catalog)]
    return max([*days, *(one.day for one in changes.days(shelf))])


def address(shelf: RenderContext, uri: str) -> str:
    """Where a page or file is: absolute when that is known, else from the top of the site."""
    return shelf.site.at(url(uri)) or f"/{url(uri)}"


def citation(shelf: RenderContext) -> str:
    """How the data are cited."""
    handbook, at = shelf.handbook, shelf.site.at(url(URI))
    told = f"{handbook.owner.name}. {handbook.title}: catalog and conclusions, version {VERSION} of {day_words(day(shelf))}"
    return f"{told}. {handbook.licence}." + (f" {at}" if at else "")


def told(shelf: RenderContext) -> dict[str, str]:
    """The same for a file's head."""
    handbook = shelf.handbook
    return {
        "title": handbook.title,
        "about": handbook.tagline,
        "version": VERSION,
        "date": day(shelf).isoformat(),
        "creator": handbook.owner.name,
        "licence": handbook.licence,
        "cite": citation(shelf),
    }
