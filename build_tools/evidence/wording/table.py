"""The table of sentences: what studies found x how certain it is. Methods prints it, and sentences are made from it.

The pattern is GRADE's (doi:10.1016/j.jclinepi.2019.10.014): certainty is one word, ``probably``
or ``may``, beside a plain verb. Where GRADE calls the evidence very uncertain, we say who found what,
and not to lean on it. The phrases are our own.
"""

from __future__ import annotations

from typing import Literal

from ...english import upper_first
from ..terms import LEVELS, Level
from .clauses import WORDS, Compared

TableRow = Literal[
    "found",
    "trivial",
    "alike",
    "hinted",
    "one study's own",
    "not alone",
    "not tested",
    "unclear",
    "opposite",
    "direction only",
    "no difference reported",
]
#: TableRow -> what it stands for.
ROWS: dict[TableRow, str] = {
    "found": "A difference: the 95% interval leaves out no difference, and differences too small to matter",
    "trivial": "A difference that could be too small to matter: the interval's near end lies within the margin",
    "alike": "Likeness: the whole interval lies within the margin",
    "hinted": "A lean: most of the interval lies on one side, but it holds no difference, too",
    "one study's own": "A lean that rests on one study, whose own test or interval leaves out no difference: other studies may not",
    "not alone": "A clear lean, of several parts or the whole muscle measured as one",
    "not tested": "A clear lean, going by two numbers that nobody was read to have tested",
    "unclear": "Nothing clear: the interval holds no difference, and differences either way",
    "opposite": "Studies that point opposite ways, each clearly",
    "direction only": "A difference that was tested, without a number for how much",
    "no difference reported": "No difference reported, without a number",
}
_CAUTION = ". Do not lean on it yet"
#: The caution as a sentence of its own, at the end of what it is of.
CAUTION = " Do not lean on it yet."
_OTHERWISE = ". Another study could find otherwise"
#: That as a sentence of its own.
OTHERWISE = " Another study could find otherwise."


def _same(phrase: str, very_low: str | None = None) -> dict[Level, str]:
    """A row that says the same whatever the certainty, but perhaps the lowest."""
    return {level: very_low or phrase if level == "very low" else phrase for level in LEVELS}


#: TableRow -> level -> phrase. What its slots hold: ``Compared.slots`` in ``clauses``; ``who``, ``whom``: the studies; ``figures``,
#: ``extent``, ``missed``: numbers, and what is not known of them.
TABLE: dict[TableRow, dict[Level, str]] = {
    "found": {
        "high": "{exercise} {grows} {part} {more} than {other}{figures}",
        "moderate": "{exercise} probably {grows} {part} {more} than {other}{figures}",
        "low": "{exercise} may {grow} {part} {more} than {other}{figures}",
        "very low": "{who} found more {more_of}{figures}" + _CAUTION,
    },
    "trivial": {
        "high": "{exercise} {grows} {part} at least a little {more} than {other}{figures}",
        "moderate": "{exercise} probably {grows} {part} at least a little {more} than {other}{figures}",
        "low": "{exercise} may {grow} {part} at least a little {more} than {other}{figures}",
        "very low": "{who} found at least a little more {more_of}{figures}" + _CAUTION,
    },
    "alike": {
        "high": "{both} {both_grow} {parts} {alike}{figures}",
        "moderate": "{both} probably {both_grow} {parts} {alike}{figures}",
        "low": "{both} may {grow} {parts} {alike}{figures}",
        "very low": "{who} found {alike_of}{figures}" + _CAUTION,
    },
    "hinted": _same(
        "{leaned}, but could be chance{figures}",
        "in {who}, {leaned}, but could be chance{figures}",
    ),
    "one study's own": _same("{who} found more {more_of}{figures}" + _OTHERWISE),
    "not alone": _same("{leaned}, but was not measured alone{figures}"),
    "not tested": _same("{leaned}, but no test of the two was read{figures}"),
    # Whether a difference is clear is our reading of all there is; a paper's own test may have said otherwise.
    "unclear": _same("no clear difference in {between}{figures}"),
    "opposite": _same("studies point opposite ways on {between}{figures}"),
    "direction only": _same(
        "{whom} reported more {more_of}{extent}",
        "{whom} reported more {more_of}{extent}" + _CAUTION,
    ),
    "no difference reported": _same("{whom} reported no difference in {between}{missed}"),
}


def filled(row: TableRow, level: Level, slots: dict[str, str]) -> str:
    """A phrase of the table with its slots filled, as a sentence."""
    return f"{upper_first(TABLE[row][level].format(**slots))}."


def example(row: TableRow, level: Level) -> str:
    """A phrase of the table as Methods prints it: of growth, with P for the part, X and Y for the exercises."""
    told = Compared(WORDS["growth"], "X", "Y", "P").slots()
    return filled(
        row,
        level,
        {
            **told,
            "who": "one small study",
            "whom": "one study of N people",
            "figures": ": [numbers]",
            "extent": "; by how much is not printed",
            "missed": ". It was too small to rule out [numbers]",
        },
    )
