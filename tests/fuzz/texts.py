"""Mutations of any text, as letters and as bytes: what a slip, a bad copy or a broken program makes of it."""

from __future__ import annotations

import re
from random import Random

#: Numbers that something may divide by, count to, or take a root of.
NUMBERS = (
    *("0", "-0", "-0.0", "1", "-1", "2", "0.5", "0.9999999", "1.0000001", "1e-9", "1e-320", "5e-324"),
    *("1e308", "-1e308", "1.7976931348623157e308", "1e309", "1e999", "-1e999", "1e15", "1e6", "1000000"),
    *("2147483648", "-2147483649", "9007199254740993", "999999999999999999", "-999999999999999999"),
    *("9" * 40, "nan", ".nan", "inf", ".inf", "-.inf", "NaN", "Infinity", "1_000", "0x1F", "010", "1e", "--1"),
    *("1,5", "½", "٣", "1/2", "12.5", "180", "-180", "360", "45", "90", "100", "101", "-20", "3", "7", "0.1", "0.3"),
)  # fmt: skip
#: Texts that mean something to a parser, a page, a table or a regular expression, and texts that are merely odd.
WORDS = (
    *("", " ", "null", "~", "true", "no", "TODO", "TODO: say it", "[]", "{}", "[[]]", "{a: 1}", "- a", "*a", "&a b", "!x y"),
    *('"', "'", '""', "`", "#", ": ", "- ", ",", "|", ">-", "%", "@", "---", "...", "\t", "\n", "\r\n", "\x00", "\x07", "\x85"),
    *("\u2028", "\u200b", "\u202e", "\ufeff", "\ufffe", "é", "ﬁ", "漢字", "\U0001f600", "а", "İ", "ß", "a" * 81, "a" * 401),
    *("a b " * 120, "a" * 70, "=1+1", "-", "../../etc/passwd", "C:\\x", "__proto__", "constructor", "toString", "<script>"),
    *("</script>", "{{ 7*7 }}", "{% raw %}", "$&", "\\", "(", "[", "{", "(a+)+$", "10.1/x", "https://", "http://[", "doi:10.1000/(x)"),
    *("growth", "activation", "strength", "length", "one", "both", "2026-13-40", "0001-01-01", "9999-12-31", "2026-02-30"),
    *("2026-11-20", "99999-01-01", "lantern", "lantern/long-head", "crate-curl", "wick2030", "hip", "knee", "-20", "1e5", "8-12"),
)  # fmt: skip
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?")
_WORD = re.compile(r"[^\s{}\[\](),:;\"'<>|]+")


def mutated(text: str, random: Random) -> bytes:
    """The text with one to three mutations."""
    for _ in range(random.choices((1, 2, 3), (7, 2, 1))[0]):
        text = random.choice((_number, _number, _word, _word, _line, _lines, _letters, _cut))(
            text, random
        )
    data = text.encode("utf-8", "surrogatepass")
    return _bytes(data, random) if random.random() < 0.08 else data


def number(random: Random) -> str:
    """A number, or what looks like one: an extreme, or one of any size."""
    if random.random() < 0.6:
        return random.choice(NUMBERS)
    size = random.choice((0.001, 0.1, 1, 2, 10, 100, 1000, 1e6, 1e12))
    value = random.uniform(-size / 4, size)
    return str(round(value)) if random.random() < 0.4 else f"{value:.4g}"


def _one(pattern: re.Pattern[str], text: str, random: Random, put: str) -> str:
    found = list(pattern.finditer(text))
    if not found:
        return text + put
    one = random.choice(found)
    return text[: one.start()] + put + text[one.end() :]


def _number(text: str, random: Random) -> str:
    return _one(_NUMBER, text, random, number(random))


def _word(text: str, random: Random) -> str:
    put = random.choice(WORDS if random.random() < 0.7 else _WORD.findall(text) or WORDS)
    return _one(_WORD, text, random, put)


def _line(text: str, random: Random) -> str:
    """A line lost, said again, moved or emptied."""
    lines = text.split("\n")
    at, to = random.randrange(len(lines)), random.randrange(len(lines))
    how = random.randrange(4)
    line = lines.pop(at) if how in (0, 2) else lines[at]
    if how in (1, 2):
        lines.insert(to, line)
    elif how == 3:
        lines[at] = random.choice(WORDS)
    return "\n".join(lines)


def _lines(text: str, random: Random) -> str:
    """A stretch lost, or said again, once or very often."""
    lines = text.split("\n")
    begin = random.randrange(len(lines))
    end = min(len(lines), begin + random.randrange(1, 12))
    times = random.choice((0, 2, 2, 3, 200))
    return "\n".join([*lines[:begin], *(lines[begin:end] * times), *lines[end:]])[:400_000]


def _letters(text: str, random: Random) -> str:
    """A few letters lost, put in or said again."""
    at = random.randrange(len(text) + 1)
    lost = random.choice((0, 0, 1, 1, 5, 40))
    put = random.choice(
        ("", *WORDS, text[at : at + 20], text[at : at + 1] * 300, "{" * 300, "[" * 5000)
    )
    return text[:at] + put + text[at + lost :]


def _cut(text: str, random: Random) -> str:
    at = random.randrange(len(text) + 1)
    return random.choice((text[:at], text[at:], "", text[:at] + text[:at]))


def _bytes(data: bytes, random: Random) -> bytes:
    for _ in range(random.choice((1, 1, 3, 20))):
        at = random.randrange(len(data) + 1)
        put = random.choice(
            (b"\xff", b"\x00", b"\xc3", b"\xed\xa0\x80", b"\xf4\x90\x80\x80", random.randbytes(3))
        )
        data = data[:at] + put + data[at + random.choice((0, 1, 2)) :]
    return data
