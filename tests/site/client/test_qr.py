"""QR codes: ISO/IEC 18004 for the size (17 + 4 x version modules) and the quiet zone of four modules (from memory)."""

from __future__ import annotations

import re
import struct

from build_tools.site.client.qr import Qr


def test_a_qr_code_is_as_the_standard_wants_it() -> None:
    qr = Qr("https://handbook.lantern-yard.example/strength/cues/crate-curl/")
    side = int(re.search(r'viewBox="0 0 (\d+) \1"', qr.drawing)[1])
    assert (side - 2 * 4 - 17) % 4 == 0
    assert (
        f'fill="#fff" d="M0 0h{side}v{side}h-{side}z"' in qr.drawing
        and 'stroke="#000" d="M4 4.5h7' in qr.drawing
    )
    assert qr.svg.startswith(b"<?xml") and qr.svg == Qr(qr.address).svg
    width, height = struct.unpack(">II", qr.png[16:24])  # the first chunk of a PNG (W3C) holds them
    assert width == height == side * 12
