"""YAML text of the catalog: read safely, with a line and column for every node.

The dialect is the core schema of YAML 1.2 (section 10.3) read with PyYAML's C
parser, made stricter where authors get hurt:

- ``no`` and ``1:30`` stay text, as in YAML 1.2; so do numbers that the two
  versions read differently or that no author means (``010``, ``0o17``, ``0x1F``,
  ``.inf``, ``.nan``, whole numbers beyond 18 digits), so that a number field
  refuses them instead of guessing;
- dates stay text until a date field asks for one, and keys always do;
- duplicate keys, anchors, aliases, tags and deep nesting are refused, and so
  are characters that YAML 1.1 takes for line breaks and 1.2 does not.

Positions cost time, so they are composed only for a file that something points into.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

import yaml

from .finding import Finding, Spot

#: A whole catalog file; the largest study file seen needs a tenth of it.
MAX_BYTES = 256 * 1024
#: Deepest nesting; an exercise needs six.
MAX_DEPTH = 24

#: Neither printable in YAML (section 5.1) nor in any other text, or (U+0085, U+2028, U+2029) a line break in 1.1 only (5.4).
_NOT_TEXT = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff]")
#: What version control leaves where two changes met.
_CONFLICT = re.compile(r"^(?:<{7} |\|{7} |={7}$|>{7} )", re.MULTILINE)
#: Spaces that are no spaces to YAML, at the head of a line (Unicode category Zs without U+0020).
_ODD_INDENT = re.compile("^[ \t]*([\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000])", re.MULTILINE)
#: A space or a colon that YAML does not know, after a key at the head of a line.
_ODD_COLON = re.compile(
    r"^[ \t]*(?:- )?\w+(?:(：|﹕|꞉)|:([\u00a0\u1680\u2000-\u200b\u202f\u205f\u3000]))", re.MULTILINE
)
#: What could be an anchor, alias or tag.
_MARKED = re.compile(r"(?:^|[\s\[{,:?-])[&*!]", re.MULTILINE)
#: Block collections nest by indentation or by `- - -` and `? ?` at the head of a line, two levels a column at most.
_FAR_INDENTED = re.compile(r"^[-?: \t]{100}", re.MULTILINE)
#: The C composer recurses; with fewer opening brackets, and nothing far indented, it cannot exhaust the stack.
_SAFE_BRACKETS = 200


class _Loader(yaml.CSafeLoader):
    """C parser that tells the plain scalars of the YAML 1.2 core schema apart."""

    yaml_implicit_resolvers: dict[str, Any] = {}


_TAG = "tag:yaml.org,2002:"
for _name, _pattern, _first in (
    ("bool", r"^(?:true|True|TRUE|false|False|FALSE)$", "tTfF"),
    ("null", r"^(?:~|null|Null|NULL|)$", ["~", "n", "N", ""]),
    ("int", r"^[-+]?(?:0|[1-9][0-9]{0,17})$", "-+0123456789"),
    (
        "float",
        r"^[-+]?(?:\.[0-9]+|(?:0|[1-9][0-9]{0,17})(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?$",
        "-+.0123456789",
    ),
):
    _Loader.add_implicit_resolver(_TAG + _name, re.compile(_pattern), list(_first))
_SCALARS: dict[str, Callable[[str], Any]] = {
    _TAG + "str": str,
    _TAG + "bool": lambda text: text.lower() == "true",
    _TAG + "null": lambda text: None,
    _TAG + "int": int,
    _TAG + "float": float,
}


class _Refused(Exception):
    """Raised inside the reader; becomes a finding."""

    def __init__(self, rule: str, mark: Any, message: str, help: str) -> None:
        super().__init__(message)
        self.rule, self.message, self.help = rule, message, help
        self.line, self.column = mark.line + 1, mark.column + 1


@dataclass(eq=False)
class SourceFile:
    """One file of the catalog: its text (empty when it could not be read) and the way from data back to text."""

    path: Path
    label: str
    """Path as shown to people, with forward slashes, relative to where they stand."""
    text: str = field(repr=False)

    @cached_property
    def _root(self) -> yaml.Node | None:
        return compose(self.text)

    def position(self, path: tuple[str | int, ...], key: bool = False) -> tuple[int, int]:
        """Line and column (both from 1) of the node at ``path``; of its key with ``key=True``.

        A path that leads further than the text goes (a missing key) answers with the
        nearest enclosing node.
        """
        node = self._root
        mark = node.start_mark if node is not None else None
        for step in path:
            if isinstance(node, yaml.MappingNode):
                pair = next(((k, v) for k, v in node.value if k.value == str(step)), None)
                if pair is None:
                    break
                node = pair[1]
                # An empty value has no place of its own: point at its key.
                at_key = key or (
                    isinstance(node, yaml.ScalarNode)
                    and node.start_mark.index == node.end_mark.index
                )
                mark = pair[0].start_mark if at_key else node.start_mark
            elif (
                isinstance(node, yaml.SequenceNode)
                and isinstance(step, int)
                and step < len(node.value)
            ):
                node = node.value[step]
                mark = node.start_mark
            else:
                break
        return (mark.line + 1, mark.column + 1) if mark else (1, 1)


def compose(text: str) -> yaml.Node | None:
    """The nodes of a text, each with the place where it begins and ends. Raises ``yaml.MarkedYAMLError``."""
    return yaml.compose(text, _Loader)


def scalar(node: yaml.ScalarNode) -> Any:
    """A scalar as plain data."""
    return _SCALARS[node.tag](node.value)


def read_text(path: Path, label: str, most_bytes: int, smaller: str) -> tuple[str, Finding | None]:
    """Text of a plain UTF-8 file with ``\\n`` for every line break, or an empty text and what is wrong.

    ``smaller`` says what to do about a file of more than ``most_bytes``. Never raises.
    """

    def refuse(
        rule: str, message: str, help: str, line: int = 1, column: int = 1
    ) -> tuple[str, Finding]:
        return "", Finding(rule, Spot(label, line, column), message, help)

    try:
        if path.is_symlink() or not path.is_file():
            return refuse(
                "file-unreadable",
                "this is not a plain file",
                "put a file here, not a folder or a link",
            )
        size = path.stat().st_size
        if size > most_bytes:
            return refuse(
                "file-size",
                f"the file has {size:,} bytes, more than the {most_bytes:,} it may have",
                smaller,
            )
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        return refuse(
            "file-encoding",
            f"the file is not UTF-8 text (byte {error.start:,})",
            "save it as UTF-8",
        )
    except OSError as error:
        return refuse(
            "file-unreadable",
            f"the file cannot be read: {error.strerror}",
            "check its permissions and that it is a plain file",
        )
    if found := _NOT_TEXT.search(text):
        return refuse(
            "file-encoding",
            f"an invisible character stands here (U+{ord(found.group()):04X})",
            "delete it, and type a plain space or line break where one is meant",
            *_place_of(found.start(), text),
        )
    if found := _CONFLICT.search(text):
        return refuse(
            "merge-conflict",
            f"a merge conflict is left here (`{found.group().strip()}`)",
            "keep the lines that are right, and delete the lines that start with <<<<<<<, ======= and >>>>>>>",
            *_place_of(found.start(), text),
        )
    return text, None


def _place_of(offset: int, text: str) -> tuple[int, int]:
    """Line and column (both from 1) of an offset."""
    return text.count("\n", 0, offset) + 1, offset - text.rfind("\n", 0, offset)


def read(
    path: Path, label: str, most_bytes: int = MAX_BYTES
) -> tuple[SourceFile, Any, list[Finding]]:
    """Read one YAML file: its source, its plain data (``None`` when unreadable) and what is wrong with it. Never raises."""
    text, unreadable = text_of(path, label, most_bytes)
    return parse(text, path, label, unreadable)


def text_of(path: Path, label: str, most_bytes: int = MAX_BYTES) -> tuple[str, Finding | None]:
    """Text of one YAML file, or an empty one and why it cannot be read. Never raises."""
    return read_text(path, label, most_bytes, "split it: one file per exercise, muscle or study")


def parse(
    text: str, path: Path, label: str, unreadable: Finding | None = None
) -> tuple[SourceFile, Any, list[Finding]]:
    """The same of a file's text, with ``\\n`` for every line break; ``unreadable`` is why there is none."""
    if unreadable:
        return SourceFile(path, label, ""), None, [unreadable]
    if found := _ODD_INDENT.search(text):
        line, column = _place_of(found.start(1), text)
        return (
            SourceFile(path, label, ""),
            None,
            [
                Finding(
                    "yaml-syntax",
                    Spot(label, line, column),
                    f"a character that only looks like a space indents this line (U+{ord(found[1]):04X})",
                    "delete it and type plain spaces, two per level",
                )
            ],
        )
    if found := _ODD_COLON.search(text):
        what = 1 if found[1] else 2
        line, column = _place_of(found.start(what), text)
        looks = "a colon" if found[1] else "a space"
        return (
            SourceFile(path, label, ""),
            None,
            [
                Finding(
                    "yaml-syntax",
                    Spot(label, line, column),
                    f"a character that only looks like {looks} follows this key (U+{ord(found[what]):04X})",
                    "delete it and type `: `, a colon and a plain space",
                )
            ],
        )
    try:
        _refuse_marks_and_depth(text)
        data = _data(compose(text), MAX_DEPTH)
        return SourceFile(path, label, text), data, []
    except _Refused as refused:
        rule, spot, message, help = (
            refused.rule,
            Spot(label, refused.line, refused.column),
            refused.message,
            refused.help,
        )
    except yaml.MarkedYAMLError as error:
        line, column = _place(error, text)
        lines = text.split("\n")
        rule, message, help = _explain(error, lines[line], lines[line - 1] if line else "")
        spot = Spot(label, line + 1, column + 1)
    return SourceFile(path, label, ""), None, [Finding(rule, spot, message, help)]


def _refuse_marks_and_depth(text: str) -> None:
    """Refuse anchors, aliases, tags and deep nesting before anything recursive sees the text."""
    if (
        text.count("[") + text.count("{") < _SAFE_BRACKETS
        and not _MARKED.search(text)
        and not _FAR_INDENTED.search(text)
    ):
        return
    depth = 0
    for event in yaml.parse(text, _Loader):
        mark = event.start_mark
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise _Refused(
                "yaml-alias",
                mark,
                "anchors (&) and aliases (*) are not part of the catalog's YAML",
                "write the value out; put text that starts with & or * in quotes",
            )
        if tag := getattr(event, "tag", None):
            raise _Refused(
                "yaml-tag",
                mark,
                f"tags such as `{tag}` are not part of the catalog's YAML",
                "remove the tag; put text that starts with ! in quotes",
            )
        if isinstance(event, yaml.CollectionStartEvent):
            depth += 1
            if depth > MAX_DEPTH:
                raise _too_deep(mark)
        elif isinstance(event, yaml.CollectionEndEvent):
            depth -= 1


def _data(node: yaml.Node | None, levels: int) -> Any:
    """Plain data of a node that may nest ``levels`` deep."""
    if node is None:
        return None
    if isinstance(node, yaml.ScalarNode):
        return scalar(node)
    if not levels:
        raise _too_deep(node.start_mark)
    if isinstance(node, yaml.SequenceNode):
        return [_data(item, levels - 1) for item in node.value]
    mapping: dict[str, Any] = {}
    for key_node, value_node in node.value:
        if not isinstance(key_node, yaml.ScalarNode):
            raise _Refused(
                "yaml-key",
                key_node.start_mark,
                "this key is not plain text",
                "write `key: value` with a one-word key",
            )
        # Keys are taken as written (never typed), so `no:` is the key "no".
        key = key_node.value
        if key in mapping:
            raise _Refused(
                "duplicate-key",
                key_node.start_mark,
                f"the key `{key}` stands here a second time",
                "keep one of the two; the earlier one would be lost",
            )
        mapping[key] = _data(value_node, levels - 1)
    return mapping


def _too_deep(mark: Any) -> _Refused:
    return _Refused(
        "yaml-depth",
        mark,
        f"nested more than {MAX_DEPTH} levels deep",
        "no entry needs this; flatten it",
    )


def _place(error: yaml.MarkedYAMLError, text: str) -> tuple[int, int]:
    """Line and column, from 0, of an error; what is never closed is shown where it opens, not where the text ends."""
    body = text.rstrip()
    end = body.count("\n"), len(body) - body.rfind("\n") - 1
    marks = [(mark.line, mark.column) for mark in (error.problem_mark, error.context_mark) if mark]
    return next((place for place in marks if place < end), end)


#: Text goes on after the quote that began it is closed.
_AFTER_QUOTE = re.compile(r"""(?:: |- )(?:"[^"]*"|'[^']*')\s*[^\s,\]}#:]""")
#: A list item without a key, where another line then begins with one.
_BARE_ITEM = re.compile(r"\s*- [^\s:\[{\"'][^:\[{]*")


def _explain(error: yaml.MarkedYAMLError, line: str, above: str) -> tuple[str, str, str]:
    """The parser's complaint about a line: rule id, what is wrong and what to write, in an author's words."""
    problem = error.problem or "this is not YAML"
    if "nesting depth" in problem:
        return (
            "yaml-depth",
            f"nested more than {MAX_DEPTH} levels deep",
            "no entry needs this; flatten it",
        )
    message, help = (
        problem,
        "see the YAML line above it too; indentation and quotes are the usual cause",
    )
    if line.startswith("```") or above.startswith("```"):
        message, help = "a fence of Markdown stands here", "delete the lines that begin with ```"
    elif re.match(r"\s*[–—•·●] ", line):
        message, help = (
            f"`{line.strip()[0]}` begins no entry of a list",
            "begin it with a plain hyphen and a space: `- `",
        )
    elif _AFTER_QUOTE.search(line) and "did not find expected" in problem:
        message, help = (
            "text goes on after the quote is closed",
            "put the whole value in quotes of the other kind, or begin it with another word",
        )
    elif "mapping values are not allowed" in problem and _BARE_ITEM.fullmatch(above):
        message, help = (
            "the line above has no key, and this one has",
            "write its key there, as its neighbours do: `- key: text`",
        )
    elif re.match(r"[-?: ]*\t", line):
        message, help = "a tab cannot indent YAML", "indent with spaces, two per level"
    elif "mapping values are not allowed" in problem:
        message, help = (
            "a second `: ` on one line",
            'put the text in quotes: key: "text: more text"',
        )
    elif "could not find expected ':'" in problem:
        message, help = (
            "this line has no `key:` or does not line up with the lines above",
            "check the indentation and the colon",
        )
    elif "cannot start any token" in problem or "expected alphabetic or numeric" in problem:
        message, help = "a value may not start with this character", "put the value in quotes"
    elif "unexpected end of stream" in problem:
        message, help = "this is never closed", "close the quote or bracket that opens here"
    elif "did not find expected" in problem:
        message, help = (
            f"the structure breaks here ({problem})",
            "line up this entry with its neighbours; close every quote and bracket",
        )
    elif "another document" in problem:
        message, help = "a second document starts here", "remove the `---`; a file holds one entry"
    return "yaml-syntax", message, help
