"""Who took part in a study, in one line as a person would say it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...catalog.entries.study import People
from ...english import lower_first, upper_first

#: What a note calls those who took part. Only a phrase that ends in one of these, or goes on to tell them apart, is joined to their number.
_GROUP = re.compile(
    r"\b(?:men|women|people|adults|students|volunteers|athletes|players|lifters|bodybuilders|runners|novices)\b",
    re.IGNORECASE,
)
#: How such a phrase may begin: any other first word may be a name, which keeps its capital letter.
_OPENS = re.compile(
    r"(?:active|adults?|amateur|athletes|bodybuilders|college|collegiate|competitive|elite|experienced|female|fit|"
    r"football|healthy|male|men|novices|older|people|professional|runners|sedentary|soccer|students|trained|university|"
    r"untrained|volunteers|women|young|(?:moderate|physical|recreational)ly|[a-z]+-(?:aged|trained))\b(?!-)",
    re.IGNORECASE,
)
_END = re.compile(r"([,;.])(?: |$)")
_FEW = r"[\w-]+(?: [\w-]+)?"
#: What a comma is followed by where it stands in a list.
_LIST = re.compile(rf"(?:{_FEW}, )*{_FEW} and {_FEW}(?=[.,;]|$)")


def told(people: People) -> str:
    """``17 men``; ``20 students, 10 of them women; untrained. One leg for each way.``

    What the note says of all of them stands with their number, and nothing is said twice. The rest of the note follows as it is written.
    """
    who, rest = _parted(people.note or "")
    line = "; ".join(_facts(people, who))
    if not rest:
        return line
    # A figure after a full stop would be read as one number with the count.
    return f"{line}. {upper_first(rest)}" if rest[0].isalpha() else f"{line}; {rest}"


def _parted(note: str) -> tuple[str, str]:
    """What a note opens with, if it says who they all were, and the rest."""
    end = _END.search(note)
    clause, rest = (note[: end.start()], note[end.end() :]) if end else (note, "")
    # "Men in one group, women in the other": then the first words are not about all of them.
    some = _GROUP.search(rest) or (end and end[1] == "," and _LIST.match(rest))
    return (lower_first(clause), rest) if _OPENS.match(clause) and not some else ("", note)


def _facts(people: People, who: str) -> Iterator[str]:
    group = who if people.n > 1 and _GROUP.search(who) else ""
    yield f"{people.n:,}{' ' + group if group else ''}{_women(people, group)}"
    if people.age:
        yield f"age {people.age}"
    if people.trained is not None:
        trained = "trained" if people.trained else "untrained"
        if not re.search(rf"\b{trained}\b", who):
            yield trained
    if who and not group:
        yield who


def _women(people: People, group: str) -> str:
    """How many of them are women, unless the words for all of them say so."""
    men, women = (re.search(word, group) for word in (r"\b(?:men|male)\b", r"\b(?:women|female)\b"))
    if people.women is None:
        return ""
    if people.women == 0:
        return "" if men and not women else ", none of them women"
    if people.women < people.n:
        return f", {people.women:,} of them {'a woman' if people.women == 1 else 'women'}"
    if not group:
        return " woman" if people.n == 1 else " women"
    return "" if women and not men else ", all of them women"
