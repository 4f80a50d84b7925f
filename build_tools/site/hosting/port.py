"""Whether a preview can listen at its address, said before anything is built."""

from __future__ import annotations

import errno
import os
import socket

from ...catalog.invocation import typed


def refused(host: str, port: int) -> str | None:
    """Why nobody can listen there now, and what to do; None where one can."""
    error = _taken(host, port)
    if error is None:
        return None
    if error.errno not in (errno.EADDRINUSE, errno.EACCES):
        return f"{host}:{port} cannot be listened at: {error.strerror}"
    free = next(
        (other for other in range(port + 1, port + 20) if _taken(host, other) is None), None
    )
    instead = f"or use another: `mkdocs serve -a {host}:{free}`" if free else "or use another one"
    why = (
        "taken, perhaps by a preview that still runs"
        if error.errno == errno.EADDRINUSE
        else "not free to you"
    )
    return typed(f"port {port} is {why}; stop that program, {instead}")


def _taken(host: str, port: int) -> OSError | None:
    """Why nobody can listen there now."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    with socket.socket(family, socket.SOCK_STREAM) as probe:
        if os.name == "posix":  # elsewhere this option would take a port from its owner
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host, port))
        except OSError as error:
            return error
    return None
