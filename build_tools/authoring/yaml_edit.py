"""Small edits of YAML text that leave every other character as it stands: comments, quotes, order and blank lines."""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import yaml

from ..catalog import yaml_file

Path = tuple[str | int, ...]


@dataclass(frozen=True)
class TextPlace:
    """A value in the text, with the key or list it stands in."""

    path: Path
    node: yaml.Node
    parent: yaml.Node | None
    key: yaml.ScalarNode | None
    """The key that the value (or its list) belongs to."""


@dataclass(frozen=True)
class YamlText:
    """A text and its nodes. Edits give back a new text, or ``None`` where they would touch more than is meant.

    Raises ``yaml.MarkedYAMLError`` when nodes are asked for of a text that is no YAML.
    """

    text: str

    @cached_property
    def root(self) -> yaml.Node | None:
        """The outermost node."""
        return yaml_file.compose(self.text)

    @cached_property
    def data(self) -> Any:
        """Plain data; of a key that stands twice the later value."""
        return _plain(self.root)

    def at(self, line: int, column: int) -> list[TextPlace]:
        """Values that begin, or whose keys begin, at a place (both from 1), the outermost first."""
        return [
            place
            for place in _places(self.root, (), None, None)
            if (line - 1, column - 1) in (_start(place.node), place.path and _start_of_key(place))
        ]

    def source(self, node: yaml.Node) -> str:
        """How a node is written."""
        return self.text[node.start_mark.index : node.end_mark.index]

    def with_source(self, node: yaml.Node, source: str) -> str:
        """The text with a node written otherwise."""
        return self.text[: node.start_mark.index] + source + self.text[node.end_mark.index :]

    def without_item(self, place: TextPlace) -> str | None:
        """The text without one entry of a list."""
        parent, index = place.parent, place.path[-1]
        assert isinstance(parent, yaml.SequenceNode) and isinstance(index, int)
        if not parent.flow_style:
            return self._without_lines(place.node, place)
        before = parent.value[index - 1] if index else None
        after = parent.value[index + 1] if index + 1 < len(parent.value) else None
        if before is not None:
            begin, end = before.end_mark.index, place.node.end_mark.index
            gap = self.text[begin : place.node.start_mark.index]
        elif after is not None:
            begin, end = place.node.start_mark.index, after.start_mark.index
            gap = self.text[place.node.end_mark.index : end]
        else:
            return self.with_source(place.node, "")
        return self.text[:begin] + self.text[end:] if re.fullmatch(r"\s*,\s*", gap) else None

    def without_pair(self, key: yaml.Node, value: yaml.Node, flow: bool) -> str | None:
        """The text without one key of a mapping, which is not its first."""
        if not flow:
            return self._without_lines(key, None, self._end(value))
        begin = self.text.rfind(",", 0, key.start_mark.index)
        if begin < 0 or self.text[begin + 1 : key.start_mark.index].strip():
            return None
        return self.text[:begin] + self.text[self._end(value) :]

    def _without_lines(
        self, node: yaml.Node, item: TextPlace | None, end: int | None = None
    ) -> str | None:
        """Without the lines from a node's start to its end, where nothing else stands on them."""
        begin = self.text.rfind("\n", 0, node.start_mark.index) + 1
        head = self.text[begin : node.start_mark.index]
        end = self._end(node) if end is None else end
        stop = self.text.find("\n", end)
        stop = len(self.text) if stop < 0 else stop + 1
        if not re.fullmatch(r" *- +" if item else r" *", head):
            return None
        if not re.fullmatch(r"[ \t]*(#[^\n]*)?\n?", self.text[end:stop]):
            return None
        left = self.text[:begin] + self.text[stop:]
        parent = item.parent if item else None
        if item and isinstance(parent, yaml.SequenceNode) and len(parent.value) == 1:
            # Nothing is left: an empty list says so, a bare key would say nothing.
            colon = re.match(r" *:", self.text[item.key.end_mark.index :]) if item.key else None
            if item.key is None or colon is None:
                return None
            after = item.key.end_mark.index + colon.end()
            return f"{left[:after]} []{left[after:]}"
        return left

    def _end(self, node: yaml.Node) -> int:
        """Where what a node says ends: blocks are told to go on to the next one, over comments that are not theirs."""
        if isinstance(node, yaml.CollectionNode) and not node.flow_style and node.value:
            last = node.value[-1]
            return max(map(self._end, last)) if isinstance(last, tuple) else self._end(last)
        return len(self.text[: node.end_mark.index].rstrip())


def without(data: Any, path: Path) -> Any:
    """Plain data without what stands at a path."""
    made, *_, last = copy.deepcopy(data), *path
    del _at(made, path[:-1])[last]
    return made


def replaced(data: Any, path: Path, value: Any, key: str | None = None) -> Any:
    """Plain data with another value at a path, under another key if one is given."""
    made = copy.deepcopy(data)
    inner = _at(made, path[:-1])
    if key is None:
        inner[path[-1]] = value
    else:
        del inner[path[-1]]
        inner[key] = value
    return made


def _at(data: Any, path: Path) -> Any:
    for step in path:
        data = data[step]
    return data


def _plain(node: yaml.Node | None) -> Any:
    if isinstance(node, yaml.MappingNode):
        return {key.value: _plain(value) for key, value in node.value}
    if isinstance(node, yaml.SequenceNode):
        return [_plain(item) for item in node.value]
    return yaml_file.scalar(node) if isinstance(node, yaml.ScalarNode) else None


def _places(
    node: yaml.Node | None, path: Path, parent: yaml.Node | None, key: yaml.ScalarNode | None
) -> Iterator[TextPlace]:
    if node is None:
        return
    yield TextPlace(path, node, parent, key)
    if isinstance(node, yaml.MappingNode):
        for name, value in node.value:
            yield from _places(value, (*path, name.value), node, name)
    elif isinstance(node, yaml.SequenceNode):
        for index, item in enumerate(node.value):
            yield from _places(item, (*path, index), node, key)


def _start(node: yaml.Node) -> tuple[int, int]:
    return node.start_mark.line, node.start_mark.column


def _start_of_key(place: TextPlace) -> tuple[int, int] | None:
    return _start(place.key) if place.key and isinstance(place.parent, yaml.MappingNode) else None
