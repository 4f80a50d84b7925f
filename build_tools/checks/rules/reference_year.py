"""No reference is dated beyond next year.

Why: such a year is a slip, and it puts an old study before the newest ones.

Instead: write the year of publication. Journals date an issue ahead by a year at
most; the convention `years_ahead` in handbook.yaml can say otherwise.

Fails: references.bib 5:3
    @article{dusk2028,
      author = {Dusk, Eve},
      title = {Lamps at dusk},
      journal = {Journal of Invented Results},
      year = {2107},
      read = {abstract},
      readat = {this file},
    }

Passes: references.bib
    @article{dusk2028,
      author = {Dusk, Eve},
      title = {Lamps at dusk},
      journal = {Journal of Invented Results},
      year = {2028},
      read = {abstract},
      readat = {this file},
    }
"""

from collections.abc import Iterator

from build_tools.checks.rule import Context, Problem

#: Unless the handbook says otherwise.
YEARS_AHEAD = 1


def check(context: Context) -> Iterator[Problem]:
    """References of years to come."""
    catalog = context.catalog
    if catalog.handbook is None:
        return
    convention = catalog.handbook.data.conventions.years_ahead
    latest = context.today.year + (round(convention.value) if convention else YEARS_AHEAD)
    for reference in catalog.references.values():
        if int(reference.year) > latest:
            yield Problem(
                reference.place("year"),
                f"the year {reference.year} lies in the future",
                "write the year of publication",
            )
