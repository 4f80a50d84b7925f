"""YAML text of the catalog: read safely, with a line and column for every node.

The dialect is the core schema of YAML 1.2 (section 10.3) read with PyYAML's C
parser, made stricter where authors get hurt: ``no`` and ``1:30`` stay text,
``010`` stays text (so a number field refuses it instead of reading 8), dates
stay text until a date field asks for one, and duplicate keys, anchors, aliases
and tags are refused. Positions cost time, so they are composed only for a file
that something points into.
"""

from __future__ import annotations

import re
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
#: Below this bound on nesting the C composer, which recurses, cannot exhaust the stack.
_SAFE_DEPTH_BOUND = 1000

_MAYBE_ANCHOR_OR_TAG = re.compile(r"(?:^|[\s\[{,:?-])[&*!]\S", re.MULTILINE)


class _Loader(yaml.CSafeLoader):
    """C parser with the YAML 1.2 core schema and without duplicate keys."""

    yaml_implicit_resolvers: dict = {}

    def construct_mapping(self, node: yaml.MappingNode, deep: bool = False) -> dict[str, Any]:
        # Keys are taken as written (never typed), so `no:` is the key "no".
        mapping: dict[str, Any] = {}
        for key_node, value_node in node.value:
            if not isinstance(key_node, yaml.ScalarNode):
                raise _Refused("yaml-key", key_node.start_mark, "this key is not plain text",
                               "write `key: value` with a one-word key")
            key = key_node.value
            if key in mapping:
                raise _Refused("duplicate-key", key_node.start_mark, f"the key `{key}` stands here a second time",
                               "keep one of the two; the earlier one would be lost")
            mapping[key] = self.construct_object(value_node, deep=True)
        return mapping


_Loader.add_constructor("tag:yaml.org,2002:map", lambda loader, node: loader.construct_mapping(node, deep=True))
for _tag, _pattern, _first in (
    ("bool", r"^(?:true|True|TRUE|false|False|FALSE)$", "tTfF"),
    ("null", r"^(?:~|null|Null|NULL|)$", ["~", "n", "N", ""]),
    ("int", r"^(?:0|[-+]?[1-9][0-9]*)$", "-+0123456789"),
    ("float", r"^[-+]?(?:(?:0|[1-9][0-9]*)\.[0-9]+|\.[0-9]+|(?:0|[1-9][0-9]*)(?:\.[0-9]*)?[eE][-+]?[0-9]+)$", "-+.0123456789"),
):
    _Loader.add_implicit_resolver(f"tag:yaml.org,2002:{_tag}", re.compile(_pattern), list(_first))
_Loader.add_constructor("tag:yaml.org,2002:float", lambda loader, node: float(node.value))
_Loader.add_constructor("tag:yaml.org,2002:int", lambda loader, node: int(node.value))


class _Refused(Exception):
    """Raised inside the reader; becomes a finding."""

    def __init__(self, rule: str, mark: Any, message: str, help: str) -> None:
        super().__init__(message)
        self.rule, self.message, self.help = rule, message, help
        self.line, self.column = (mark.line + 1, mark.column + 1) if mark else (1, 1)


@dataclass(eq=False)
class Source:
    """One file of the catalog: its text, its plain data and the way back from data to text."""

    path: Path
    label: str
    """Path as shown to people, with forward slashes, relative to where they stand."""
    text: str = field(repr=False)

    @cached_property
    def _root(self) -> yaml.Node | None:
        return yaml.compose(self.text, _Loader)

    def position(self, path: tuple[str | int, ...], key: bool = False) -> tuple[int, int]:
        """Line and column (both from 1) of the node at ``path``; of its key with ``key=True``.

        A path that leads further than the text goes (a missing key) answers with the
        nearest enclosing node.
        """
        try:
            node = self._root
        except yaml.YAMLError:
            return 1, 1
        mark = node.start_mark if node is not None else None
        for step in path:
            if isinstance(node, yaml.MappingNode):
                pair = next(((k, v) for k, v in node.value if k.value == str(step)), None)
                if pair is None:
                    break
                node = pair[1]
                # An empty value has no place of its own: point at its key.
                at_key = key or (isinstance(node, yaml.ScalarNode) and node.start_mark.index == node.end_mark.index)
                mark = pair[0].start_mark if at_key else node.start_mark
            elif isinstance(node, yaml.SequenceNode) and isinstance(step, int) and step < len(node.value):
                node = node.value[step]
                mark = node.start_mark
            else:
                break
        return (mark.line + 1, mark.column + 1) if mark else (1, 1)


def read(path: Path, label: str) -> tuple[Source, Any, list[Finding]]:
    """Read one YAML file: its source, its plain data (``None`` when unreadable) and what is wrong with it."""
    source = Source(path, label, "")

    def refuse(rule: str, message: str, help: str, line: int = 1, column: int = 1) -> tuple[Source, None, list[Finding]]:
        return source, None, [Finding(rule, Spot(label, line, column), message, help)]

    try:
        size = path.stat().st_size
        if size > MAX_BYTES:
            return refuse("file-size", f"the file has {size:,} bytes, more than the {MAX_BYTES:,} a catalog file may have",
                          "split it: one file per exercise, muscle or study")
        source.text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        return refuse("file-encoding", f"the file is not UTF-8 text (byte {error.start})", "save it as UTF-8")
    except OSError as error:
        return refuse("file-unreadable", f"the file cannot be read: {error.strerror}", "check its permissions and that it is a plain file")
    try:
        _refuse_bombs(source.text)
        return source, yaml.load(source.text, _Loader), []  # noqa: S506 - _Loader is a safe loader
    except _Refused as refused:
        return refuse(refused.rule, refused.message, refused.help, refused.line, refused.column)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        message, help = _explain(error, source.text)
        return refuse("yaml-syntax", message, help, *((mark.line + 1, mark.column + 1) if mark else (1, 1)))
    except (yaml.YAMLError, ValueError) as error:
        return refuse("yaml-syntax", f"this is not YAML: {error}".splitlines()[0], "remove control characters; keep plain UTF-8 text")


def _refuse_bombs(text: str) -> None:
    """Refuse anchors, aliases, tags and deep nesting before anything recursive sees the text."""
    longest = max((len(line) for line in text.splitlines()), default=0)
    bound = text.count("[") + text.count("{") + 2 * longest
    if bound < _SAFE_DEPTH_BOUND and not _MAYBE_ANCHOR_OR_TAG.search(text):
        return
    depth = 0
    for event in yaml.parse(text, _Loader):
        mark = event.start_mark
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise _Refused("yaml-alias", mark, "anchors (&) and aliases (*) are not part of the catalog's YAML",
                           "write the value out; put text that starts with & or * in quotes")
        if getattr(event, "tag", None):
            raise _Refused("yaml-tag", mark, f"tags such as `{event.tag}` are not part of the catalog's YAML",
                           "remove the tag; put text that starts with ! in quotes")
        if isinstance(event, yaml.CollectionStartEvent):
            depth += 1
            if depth > MAX_DEPTH:
                raise _Refused("yaml-depth", mark, f"nested more than {MAX_DEPTH} levels deep", "no entry needs this; flatten it")
        elif isinstance(event, yaml.CollectionEndEvent):
            depth -= 1


def _explain(error: yaml.MarkedYAMLError, text: str) -> tuple[str, str]:
    """The parser's complaint in an author's words."""
    problem = error.problem or "not YAML"
    mark = error.problem_mark
    lines = text.splitlines()
    line = lines[mark.line] if mark and mark.line < len(lines) else ""
    if "\t" in line and ("\\t" in problem or "tab" in problem or line[: len(line) - len(line.lstrip())].count("\t")):
        return "a tab cannot indent YAML", "indent with spaces, two per level"
    if "mapping values are not allowed" in problem:
        return "a second `: ` on one line", 'put the text in quotes: key: "text: more text"'
    if "could not find expected ':'" in problem:
        return "this line has no `key:` or does not line up with the lines above", "check the indentation and the colon"
    if "cannot start any token" in problem:
        return f"a value may not start with this character ({problem})", "put the value in quotes"
    if "did not find expected" in problem:
        return f"the structure breaks here ({problem})", "line up this entry with its neighbours; close every quote and bracket"
    return problem, "see the YAML line above it too; indentation and quotes are the usual cause"
