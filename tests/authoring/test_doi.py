"""The record of a DOI from a registry on this machine, which answers as doi.org does (content negotiation)."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, HTTPServer

import pytest
from sample_exports import CSL, DOI

from build_tools.authoring import doi, exports


class Registry(BaseHTTPRequestHandler):
    """Knows one DOI."""

    def do_GET(self) -> None:
        found = self.path == f"/{DOI}" and "csl+json" in self.headers["Accept"]
        if self.path == "/10.1000/slow":
            threading.Event().wait(2)
        self.send_response(200 if found else 404)
        self.end_headers()
        if found:
            self.wfile.write(CSL.encode())

    def log_message(self, format: str, *args: object) -> None:
        """Quiet."""


@pytest.fixture
def address() -> Iterator[str]:
    server = HTTPServer(("127.0.0.1", 0), Registry)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()


@pytest.mark.parametrize("written", [DOI, f"https://doi.org/{DOI}", f"doi: {DOI}"])
def test_a_doi_gives_its_record(address: str, written: str) -> None:
    [record] = exports.read(doi.fetch(written, address))
    assert record.fields["doi"] == DOI and record.fields["year"] == "2021"


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("10.1000/none", "is not registered"),
        ("10.1000/slow", "no answer within"),
        ("hello", "is no DOI"),
    ],
)
def test_what_cannot_be_had_is_said(address: str, written: str, says: str) -> None:
    with pytest.raises(doi.NoRecord, match=says) as bad:
        doi.fetch(written, address, patience=0.5)
    assert bad.value.args[1]


def test_no_network_is_said() -> None:
    with pytest.raises(doi.NoRecord, match="no answer"):
        doi.fetch(DOI, "http://127.0.0.1:9/", patience=1)
