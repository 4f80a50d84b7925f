"""What to write for text that stands where YAML wants something else: numbers as papers print them, words that only look right."""

from __future__ import annotations

import re
import unicodedata

_NUMBER = r"[-+]?(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)"
#: Keys whose number has a spread beside it, under `sd`, `se` or `ci95`.
_WITH_SPREAD = ("mean", "change", "change_percent", "value")
_FORM = "write plain digits, without quotes, unit or leading zero"


def number_help(text: str, key: str) -> str:
    """What to write for text that holds a number among other things."""
    text = _plain(text)
    if spread := re.fullmatch(
        rf"({_NUMBER})\s*%?\s*(?:(?:±|\+/?-)\s*({_NUMBER})|\(({_NUMBER})\)|\[({_NUMBER})\])\s*%?",
        text,
    ):
        beside = _point(spread[2] or spread[3] or spread[4])
        if key in _WITH_SPREAD:
            return f"write the spread apart: {key}: {_point(spread[1])}, sd: {beside} (or se:, as the paper says)"
        return f"write the number alone: {key}: {_point(spread[1])}"
    if key.isdigit() and (ends := interval(text)):
        return f"write two numbers with a comma between: {ends}"
    if key == "p":
        return _probability(text) or _FORM
    if re.fullmatch(r"[-+]?[0-9]{1,3}(,[0-9]{3})+(\.[0-9]+)?", text) and (
        "." in text or text.count(",") > 1
    ):
        return f"write it without commas: {text.replace(',', '')}"
    if re.fullmatch(r"[-+]?[1-9][0-9]{0,2},[0-9]{3}", text):
        return f"write {_point(text)} or {text.replace(',', '')}, whichever is meant"
    if re.fullmatch(rf"{_NUMBER}", text):
        return f"write {'a decimal point' if ',' in text else 'plain digits, without quotes'}: {_point(text)}"
    if re.fullmatch(rf"{_NUMBER}\s*(?:-|–|to)\s*[0-9].*", text):
        return "write one number; a range has no place here"
    alone = re.fullmatch(rf"(?:[^0-9.,+-]|[.](?![0-9]))*({_NUMBER})[^0-9.,]*", text)
    return f"write the number alone: {key}: {_point(alone[1])}" if alone else _FORM


def _probability(text: str) -> str | None:
    """A p value as papers print it."""
    if re.fullmatch(r"n\.?\s?s\.?", text, re.IGNORECASE):
        return "leave `p:` out, or write `p_above:` with the bound that the paper gives"
    found = re.fullmatch(
        r"(?:p\s*)?([<>≤≥=]?)\s*=?\s*(0?[.,][0-9]+|1)\s*\*{0,3}", text, re.IGNORECASE
    )
    if not found:
        return None
    value = _point(found[2])
    if found[1] in ("", "="):
        return f"write the number alone: p: {value}"
    side = "p_below" if found[1] in "<≤" else "p_above"
    return f"write the bound as `{side}: {value}` in place of `p:`"


def _point(number: str) -> str:
    """Digits as YAML reads them: 0.5 for ,5 and .5."""
    number = re.sub(r"^([-+]?)0+(?=[0-9])", r"\1", number.replace(",", "."))
    return re.sub(r"^([-+]?)\.", r"\g<1>0.", number)


def _plain(text: str) -> str:
    """With the digits and signs of a keyboard in place of those that only look like them."""
    text = unicodedata.normalize("NFKC", text).replace("−", "-").strip()
    return re.sub(r"\s+", " ", text)


def interval(text: str) -> str | None:
    """``[0.02, 0.13]`` for two numbers in a row, else ``None``."""
    ends = re.fullmatch(
        rf"[(\[]?\s*({_NUMBER})\s*(?:-|–|,|;|to)\s*({_NUMBER})\s*[)\]]?", _plain(text)
    )
    if not ends:
        return None
    return f"[{_point(ends[1])}, {_point(ends[2])}]"


def cut_by_a_comma(before: str, rest: str) -> str | None:
    """``33.3`` where ``{mean: 33,3}`` made a key of the ``3``, else ``None``; ``before`` is the line up to the key."""
    head, tail = re.search(r"(-?[0-9]+),$", before), re.match(r"[0-9]+(?![^\s±)\]%])", rest)
    return f"{head[1]}.{tail[0]}" if head and tail and rest.isprintable() else None


def odd_character(text: str) -> str | None:
    """The first character of an id that is on no keyboard, or that nobody sees, as ``U+200B``; ``None`` if there is none."""
    odd = next((c for c in text if not c.isascii()), None)
    return f"U+{ord(odd):04X}" if odd else None


def as_id(text: str, gap: str) -> str | None:
    """The id that a name was meant to be, with ``gap`` between its words; ``None`` if none can be made of it."""
    if not re.fullmatch(r"[A-Za-z0-9 _'.,/-]+", text):
        return None
    parts = [re.sub(r"[^a-z0-9]+", gap, part.lower()).strip("-") for part in text.split("/")]
    made = "/".join(parts)
    return made if re.fullmatch(r"[a-z][a-z0-9-]*(/[a-z][a-z0-9-]*)?", made) else None
