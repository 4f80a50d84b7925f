"""A page as a screen reader is handed it: Chromium's own accessibility tree, written as indented lines of role, name and states.

Roles and states are those of WAI-ARIA 1.2 (W3C), names and descriptions those of Accessible Name and Description Computation 1.2 (W3C),
mapped from HTML and SVG by HTML-AAM and SVG-AAM; Chromium computes all of them. What it keeps for its own use is left out here: boxes of
text, groups without a meaning, the roles that it names otherwise than the standards.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Page

#: What Chromium calls otherwise -> the word of the standards.
_ROLES = {
    "DisclosureTriangle": "summary",
    "DisclosureTriangleGrouped": "summary",
    "Details": "group",
    "RootWebArea": "document",
    "SvgRoot": "graphics-document",
    "image": "img",
    "FooterAsNonLandmark": "generic",
    "HeaderAsNonLandmark": "generic",
    "Figcaption": "caption",
    "ComboBoxSelect": "combobox",
    "ComboBoxMenuButton": "combobox",
    "TextFieldWithComboBox": "combobox",
    "Date": "date",
    "time": "generic",
    "strong": "generic",
    "emphasis": "generic",
    "DescriptionList": "generic",
    "MenuListPopup": "generic",
    "Section": "generic",
    "Canvas": "canvas",
}
#: Without a meaning of their own: what they hold is said in their place.
_PASSED = {
    "none",
    "generic",
    "LabelText",
    "form",
    "LayoutTable",
    "LayoutTableRow",
    "LayoutTableCell",
    "rowgroup",
    "Legend",
}
#: Whose contents are presentation only (WAI-ARIA 1.2, 5.2.8).
_LEAVES = {"img", "radio", "checkbox", "option", "meter", "progressbar", "slider", "switch", "tab"}
_DROPPED = {"InlineTextBox", "ListMarker", "LineBreak"}
#: Told as one with what they hold, if that is text alone.
_NAMED_BY_TEXT = {
    "button", "caption", "cell", "columnheader", "definition", "heading", "link", "listitem", "option", "paragraph", "row", "rowheader",
    "summary", "term", "menuitem", "tab", "blockquote", "code", "math", "mark", "time", "superscript", "subscript",
}  # fmt: skip
#: States as they are told, where they are so; values besides are told with their name.
_STATES = {
    "checked": {"true": "checked", "mixed": "partly checked"},
    "expanded": {True: "expanded", False: "collapsed"},
    "pressed": {"true": "pressed", "false": "not pressed"},
    "selected": {True: "selected"},
    "disabled": {True: "disabled"},
    "required": {True: "required"},
    "invalid": {"true": "invalid"},
    "modal": {True: "modal"},
    "focused": {True: "focused"},
}


def spoken(page: Page, selector: str = "body") -> str:
    """The part of ``page`` at ``selector``, one line a node, in reading order."""
    session = page.context.new_cdp_session(page)
    try:
        session.send("Accessibility.enable")
        session.send("DOM.enable")
        root = session.send("DOM.getDocument", {"depth": 0})["root"]["nodeId"]
        found = session.send("DOM.querySelector", {"nodeId": root, "selector": selector})
        wanted = session.send("DOM.describeNode", {"nodeId": found["nodeId"]})["node"]
        nodes = session.send("Accessibility.getFullAXTree")["nodes"]
    finally:
        session.detach()
    by_id = {node["nodeId"]: node for node in nodes}
    top = next(node for node in nodes if node.get("backendDOMNodeId") == wanted["backendNodeId"])
    return "".join(f"{line}\n" for line in _lines(top, by_id, 0))


def _value(node: dict[str, Any], key: str) -> str:
    return _plain(str(node.get(key, {}).get("value", "")))


def _plain(text: str) -> str:
    """Without the blanks that pieces put together leave before a point or a comma."""
    return re.sub(r" +(?=[,.:;!?](\s|$))", "", " ".join(text.split()))


def _role(node: dict[str, Any]) -> str:
    if node.get("ignored"):
        return "generic"
    role = _value(node, "role")
    return _ROLES.get(role, role)


def _states(node: dict[str, Any], role: str) -> list[str]:
    told = []
    for one in node.get("properties", []):
        name, value = one["name"], one["value"].get("value")
        if name in _STATES:
            told.append(_STATES[name].get(value))
        elif name == "level" and role == "heading":
            told.append(f"level {value}")
        elif name == "hasPopup" and value != "false" and role != "combobox":
            told.append(f"opens a {value}")
        elif name == "live" and role not in ("status", "alert"):
            told.append(f"live {value}")
    return [word for word in told if word]


def _lines(node: dict[str, Any], by_id: dict[str, Any], depth: int) -> Iterator[str]:
    role, name = _role(node), _value(node, "name")
    if role in _DROPPED:
        return
    children = list(_children(node, by_id))
    if role == "StaticText":
        if name:
            yield f"{'  ' * depth}text: {name}"
        return
    if role == "LabelText" or (role in _PASSED and not name):
        yield from _merged(children, by_id, depth)
        return
    inside = [] if role in _LEAVES else list(_merged(children, by_id, depth + 1))
    texts = [line.strip().removeprefix("text: ") for line in inside]
    is_text = all(line.strip().startswith("text: ") for line in inside)
    if role in _NAMED_BY_TEXT and is_text:
        name, inside = name or _plain(" ".join(texts)), []
    elif role in ("cell", "columnheader", "rowheader", "row", "listitem", "caption"):
        name = ""  # from what it holds, which follows
    value, description = _value(node, "value"), _value(node, "description")
    if (
        description in name
    ):  # `desc` of a drawing, which stands in its name for readers that tell no descriptions
        description = ""
    if not (name or inside) and role in ("paragraph", "list", "caption"):
        return
    states = _states(node, role)
    if value and role in ("combobox", "textbox", "searchbox", "spinbutton", "slider"):
        states.append(f"value {value}")
    told = f": {name}" if name else ""
    told += f" ({', '.join(states)})" if states else ""
    told += f" [{description}]" if description else ""
    yield f"{'  ' * depth}{role}{told}"
    yield from inside


def _children(node: dict[str, Any], by_id: dict[str, Any]) -> Iterator[dict[str, Any]]:
    for id in node.get("childIds", []):
        if id in by_id:
            yield by_id[id]


def _merged(children: list[dict[str, Any]], by_id: dict[str, Any], depth: int) -> Iterator[str]:
    """Lines of the children; neighbouring texts are one."""
    held: str | None = None
    head = f"{'  ' * depth}text: "
    for child in children:
        for line in _lines(child, by_id, depth):
            if line.startswith(head):
                held = (
                    head + _plain(f"{held.removeprefix(head)} {line.removeprefix(head)}")
                    if held
                    else line
                )
                continue
            if held:
                yield held
                held = None
            yield line
    if held:
        yield held
