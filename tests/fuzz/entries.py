"""Typed mutations of a YAML file: of one value, key or item at its place in the text, so that all else stays as it was."""

from __future__ import annotations

import re
from random import Random

import yaml

from build_tools.catalog.yaml_file import compose

from . import texts

_NUMBER = re.compile(r"[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]+)?")


def mutated(text: str, random: Random, grafts: dict[str, list[str]]) -> bytes:
    """The text with one to three mutations. ``grafts``: values that keys have elsewhere, as they are written in one line."""
    for _ in range(random.choices((1, 2, 3), (7, 2, 1))[0]):
        try:
            places = _Places(text)
        except yaml.YAMLError:
            break  # what was done to it before left no structure
        how = random.choices(
            (_number, _value, _delete, _again, _swap, _rename, _graft, _empty, _letters),
            (30, 12, 10, 5, 8, 4, 14, 5, 2),
        )[0]
        text = how(text, places, random, grafts)
    data = text.encode("utf-8", "surrogatepass")
    return data if random.random() > 0.02 else texts.mutated(text, random)


def values(text: str) -> dict[str, list[str]]:
    """Key -> its values, of those that stand in one line: what may be grafted elsewhere."""
    found: dict[str, list[str]] = {}
    for key, node in _Places(text).pairs:
        written = text[node.start_mark.index : node.end_mark.index].strip()
        if written and "\n" not in written:
            found.setdefault(key.value, []).append(written)
    return found


class _Places:
    """All pairs, items and plain values of a file."""

    def __init__(self, text: str) -> None:
        self.pairs: list[tuple[yaml.Node, yaml.Node]] = []
        self.items: list[yaml.Node] = []
        self.scalars: list[yaml.Node] = []
        self.collections: list[yaml.Node] = []
        self._walk(compose(text))
        self.numbers = [node for node in self.scalars if _NUMBER.fullmatch(node.value)]

    def _walk(self, node: yaml.Node | None) -> None:
        if isinstance(node, yaml.MappingNode):
            self.collections.append(node)
            for key, value in node.value:
                if isinstance(key, yaml.ScalarNode):
                    self.pairs.append((key, value))
                self._walk(value)
        elif isinstance(node, yaml.SequenceNode):
            self.collections.append(node)
            for item in node.value:
                self.items.append(item)
                self._walk(item)
        elif isinstance(node, yaml.ScalarNode):
            self.scalars.append(node)


Grafts = dict[str, list[str]]


def _put(text: str, node: yaml.Node, value: str) -> str:
    begin, end = node.start_mark.index, node.end_mark.index
    kept = text[begin:end]
    # A block collection ends where the next thing begins: its line break and indentation stay.
    tail = kept[len(kept.rstrip()) :] if "\n" in kept else ""
    gap = " " if text[begin - 1 : begin] == ":" else ""
    return text[:begin] + gap + value + tail + text[end:]


def _number(text: str, places: _Places, random: Random, grafts: Grafts) -> str:
    if not places.numbers:
        return text
    node = random.choice(places.numbers)
    if random.random() < 0.3:  # near what it was
        put = f"{float(node.value) * random.choice((-1, 0.1, 0.5, 0.99, 1.01, 2, 10, 1000)):.6g}"
        if "." not in node.value:
            put = put.split(".")[0]
    else:
        put = texts.number(random)
    return _put(text, node, put)


def _value(text: str, places: _Places, random: Random, grafts: Grafts) -> str:
    pool = places.scalars if random.random() < 0.8 else places.collections
    if not pool:
        return text
    word = random.choice(texts.WORDS)
    quoted = f'"{word}"' if random.random() < 0.3 and not set(word) & set('"\\\n') else word
    return _put(text, random.choice(pool), quoted)


def _delete(text: str, places: _Places, random: Random, grafts: Grafts) -> str:
    if not places.pairs:
        return ""
    if places.items and random.random() < 0.3:
        return _put(text, random.choice(places.items), "")
    key, value = random.choice(places.pairs)
    begin, end = key.start_mark.index, max(value.end_mark.index, key.end_mark.index + 1)
    rest = re.compile(r"[ \t]*(?:,[ \t]*|\n[ \t]*)?").match(text, end)
    return text[:begin] + text[rest.end() if rest else end :]


def _again(text: str, places: _Places, random: Random, grafts: Grafts) -> str:
    """An item or a pair a second time, or a list very often."""
    if places.items and random.random() < 0.7:
        node = random.choice(places.items)
        written = text[node.start_mark.index : node.end_mark.index].strip()
        if "\n" not in written:
            times = random.choice((2, 2, 3, 500))
            return _put(text, node, ", ".join([written] * times))
        begin, end = node.start_mark.index, node.end_mark.index
        return text[:end] + "- " + text[begin:end] + text[end:]
    key, value = random.choice(places.pairs) if places.pairs else (None, None)
    if key is None or value is None:
        return text
    written = text[key.start_mark.index : value.end_mark.index]
    return text[: key.start_mark.index] + written + "\n" + text[key.start_mark.index :]


def _swap(text: str, places: _Places, random: Random, grafts: Grafts) -> str:
    if len(places.scalars) < 2:
        return text
    pool = places.numbers if len(places.numbers) > 1 and random.random() < 0.5 else places.scalars
    first, second = sorted(random.sample(pool, 2), key=lambda node: node.start_mark.index)
    one, other = (text[node.start_mark.index : node.end_mark.index] for node in (first, second))
    return _put(_put(text, second, one), first, other)


def _rename(text: str, places: _Places, random: Random, grafts: Grafts) -> str:
    if not places.pairs:
        return text
    put = (
        random.choice(places.pairs)[0].value
        if random.random() < 0.6
        else random.choice(texts.WORDS)
    )
    return _put(text, random.choice(places.pairs)[0], put)


def _graft(text: str, places: _Places, random: Random, grafts: Grafts) -> str:
    """A value that this key has elsewhere, or a key that its neighbours have elsewhere."""
    if not places.pairs:
        return text
    key, value = random.choice(places.pairs)
    if random.random() < 0.7 and key.value in grafts:
        return _put(text, value, random.choice(grafts[key.value]))
    name = random.choice(sorted(grafts))
    line, column = key.start_mark.index, key.start_mark.column
    added = f"{name}: {random.choice(grafts[name])}"
    begins = text.rfind("\n", 0, line) + 1
    flow = text[begins:line].strip(" -")
    return text[:line] + added + (", " if flow else "\n" + " " * column) + text[line:]


def _empty(text: str, places: _Places, random: Random, grafts: Grafts) -> str:
    if not places.collections:
        return text
    return _put(
        text,
        random.choice(places.collections),
        random.choice(("[]", "{}", "", "[[]]", "0", "null")),
    )


def _letters(text: str, places: _Places, random: Random, grafts: Grafts) -> str:
    return texts.mutated(text, random).decode("utf-8", "replace")
