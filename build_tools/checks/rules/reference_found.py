"""Every reference has an identifier, a web address, or says where it was read.

Why: a reader who cannot find a source cannot check what rests on it, and a record
that nobody can find may be one that nobody has seen.

Instead: add `doi`, `pmid`, `pmcid` or `url`; where there is none, say in `readat` where it
was read.

Fails: references.bib 1:1
    @article{dusk2028,
      author = {Dusk, Eve},
      title = {Lamps at dusk},
      journal = {Journal of Invented Results},
      year = {2028},
      read = {abstract},
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


def check(context: Context) -> Iterator[Problem]:
    """References that lead nowhere."""
    for key, reference in context.catalog.references.items():
        if not reference.link and not reference.readat:
            yield Problem(
                reference.spot,
                f"nobody can find `{key}`: it has no identifier and does not say where it was read",
                "add `doi`, `pmid`, `pmcid` or `url`, or say in `readat` where it was read",
            )
