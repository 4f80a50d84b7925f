"""Findings that are let through, each with its reason (``exceptions.yaml``)."""

from __future__ import annotations

from pydantic import Field

from .base import Entry, Id, Line


class Exception_(Entry):
    """One finding that is let through, with the reason (``exceptions.yaml``)."""

    rule: Id = Field(description="Id of the rule; `handbook rules` lists them.")
    file: Line = Field(description="File below the catalog folder, e.g. exercises/seated-row.yaml.")
    because: Line = Field(description="Why it is let through.")


class Exceptions(Entry):
    """All findings that are let through. One that is no longer needed is itself an error."""

    exceptions: list[Exception_] = Field(default=[], description="One line for each rule and file.")
