"""BibTeX text to records with the place of every field, through pybtex's low-level parser.

The parser reads on after an error, at the next line that starts with ``@``, so
that one unclosed brace does not hide what is wrong further down.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass
from typing import NamedTuple

from pybtex.database.input.bibtex import LowLevelParser, SkipEntry, UndefinedMacro, month_names
from pybtex.scanner import Pattern, PrematureEOF, PybtexSyntaxError, Token
from pybtex.utils import CaseInsensitiveDict

#: Enough to mend in one go; a file with more is not BibTeX, and each costs a new start.
MAX_PROBLEMS = 100

_CHARACTER = {
    LowLevelParser.AT: "@",
    LowLevelParser.LBRACE: "{",
    LowLevelParser.RBRACE: "}",
    LowLevelParser.QUOTE: '"',
}
_RECORD_START = re.compile(r"^[ \t]*@", re.MULTILINE)
_STRAY = re.compile(r"^[ \t]*(?!%)(\S)", re.MULTILINE)


class RecordField(NamedTuple):
    """One field of a record: name in lower case, value as written between its braces, place of the name."""

    name: str
    value: str
    line: int
    column: int


@dataclass(frozen=True)
class Record:
    """One record. ``line`` and ``column`` are of its ``@``, ``key_column`` of its key on ``key_line``."""

    type: str
    key: str
    fields: tuple[RecordField, ...]
    line: int
    column: int
    key_line: int
    key_column: int


class RecordProblem(NamedTuple):
    """Something that is not BibTeX, and the key of the record it spoils (empty when unknown)."""

    line: int
    column: int
    message: str
    help: str
    key: str


def parse(text: str, has_remarks: bool = False) -> tuple[list[Record], list[RecordProblem]]:
    """The sound records of ``text``, in order, and everything that is not BibTeX. Never raises.

    BibTeX takes all text between records for a remark. Ours must begin with ``%``, so that a record that lost its ``@`` is seen; with
    ``has_remarks``, as in other programs' exports, any text is one.
    """
    parser = _Parser(text, has_remarks)
    records = parser.records()
    return records, parser.problems


class _Parser(LowLevelParser):  # type: ignore[misc]  # pybtex has no types
    """pybtex's parser, with places, a fresh start after an error, and no text that nothing reads."""

    #: Where it reads on, as pybtex keeps it.
    pos: int

    def __init__(self, text: str, has_remarks: bool) -> None:
        # Its own macros: pybtex would write each @string into a dictionary shared by the process.
        super().__init__(text, macros=CaseInsensitiveDict(month_names))
        self.problems: list[RecordProblem] = []
        self._has_remarks = has_remarks
        self._line_starts = [0, *(m.end() for m in re.finditer("\n", text))]
        self._key_start = self._field_start = 0
        self._field_starts: list[int] = []

    def records(self) -> list[Record]:
        found = []
        read_to, in_comment = 0, False
        while len(self.problems) < MAX_PROBLEMS:
            at_end = not self.skip_to([self.AT])
            gap_end = self.end_pos if at_end else self.pos - 1
            is_remark = in_comment or self._has_remarks
            if not is_remark and (stray := _STRAY.search(self.text, read_to, gap_end)):
                self._problem(
                    stray.start(1),
                    "text outside a record",
                    "start a record with @article{key, and a comment with %",
                    "",
                )
            if at_end:
                break
            self.command_start = gap_end
            record, in_comment = self._record()
            if record:
                found.append(record)
            read_to = self.pos
        else:
            self._problem(
                self.pos,
                f"more than {MAX_PROBLEMS} errors, so the rest was not read",
                "mend these first",
                "",
            )
        return found

    def _record(self) -> tuple[Record | None, bool]:
        """The record at hand, if sound, and whether it was a comment."""
        before = len(self.problems)
        self._field_starts = []
        self._key_start = self._field_start = self.command_start
        try:
            command, body = self.parse_command()
        except SkipEntry:
            return None, True
        except PybtexSyntaxError as error:
            self.handle_error(error)
            return None, False
        if len(self.problems) > before or command.lower() in ("string", "preamble"):
            return None, False
        key, fields = body
        placed = tuple(
            RecordField(name.lower(), "".join(parts), *self._place(start))
            for (name, parts), start in zip(fields, self._field_starts, strict=True)
        )
        return Record(
            command.lower(),
            key,
            placed,
            *self._place(self.command_start),
            *self._place(self._key_start),
        ), False

    def parse_entry_body(self, body_end: Pattern) -> None:
        self.eat_whitespace()
        self._key_start = self.pos
        super().parse_entry_body(body_end)

    def parse_field(self) -> None:
        self.eat_whitespace()
        self._field_start = self.pos
        super().parse_field()
        if self.current_field_name:
            self._field_starts.append(self._field_start)

    def skip_to(self, patterns: list[Pattern]) -> Token | None:
        """As inherited, in one search: looking for each character apart makes an unclosed quote quadratic."""
        character = {_CHARACTER[pattern]: pattern for pattern in patterns}
        match = re.compile(f"[{''.join(character)}]").search(self.text, self.pos)
        if match is None:
            return None
        value = self.text[self.pos : match.end()]
        self.pos = match.end()
        return Token(value, character[match.group()])

    def update_lineno(self, value: str) -> None:
        """Places are found from offsets, so counting lines is not needed."""

    def handle_error(self, error: PybtexSyntaxError) -> None:
        """Note the error and, unless parsing can go on, start afresh at the next record."""
        key, message = self.current_entry_key or "", str(error.args[0])
        if isinstance(error, UndefinedMacro):
            self._problem(
                self.pos - len(message),
                f"`{message}` is not defined by any @string",
                f"put the text in braces: {{{message}}}",
                key,
            )
            return
        if (
            isinstance(error, PrematureEOF)
            or self.text[self.pos : self.pos + 1] == "@"
            or "braces" in message
        ):
            # The next record or the end of the file is far from what was left open.
            self._problem(
                self._field_start,
                "the braces or quotes from here on do not match",
                "close what opens here, once",
                key,
            )
        else:
            self._problem(
                self.pos,
                f"this is not BibTeX: {message}",
                "check the braces, the `=` and the comma after the field before",
                key,
            )
        start = _RECORD_START.search(self.text, self.command_start + 1)
        self.pos = start.start() if start else self.end_pos

    def _problem(self, offset: int, message: str, help: str, key: str) -> None:
        self.problems.append(RecordProblem(*self._place(offset), message, help, key))

    def _place(self, offset: int) -> tuple[int, int]:
        line = bisect_right(self._line_starts, offset)
        return line, offset - self._line_starts[line - 1] + 1
