"""The handbook's sign as an address: read back by the standard library, as browsers read it."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from urllib.request import urlopen

from build_tools.site.sign import BARS, address


def test_the_address_holds_the_drawing_in_its_colour() -> None:
    at = address("#8a2f55")
    assert '"' not in at and "#" not in at, "it stands in an attribute, and begins no fragment"
    with urlopen(at) as answer:
        assert answer.headers.get_content_type() == "image/svg+xml"
        drawn = ET.fromstring(answer.read())
    [path] = drawn
    assert path.get("stroke") == "#8a2f55" and path.get("d") == BARS
