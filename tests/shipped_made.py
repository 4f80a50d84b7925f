"""The shipped catalog and what is made of it, made once in a process. Who changes something loads a catalog of its own."""

from __future__ import annotations

from functools import cache
from typing import Any

from folders import ROOT, SHIPPED

from build_tools.catalog.entries import Vocabulary
from build_tools.catalog.load import Catalog, load
from build_tools.checks.profile import load_profile
from build_tools.evidence.claims.conclude import conclude
from build_tools.evidence.claims.conclusions import Conclusions
from build_tools.movement.course import Courses
from build_tools.movement.length.length import means
from build_tools.planning.planner_data import planner
from build_tools.site import book as handbook


@cache
def catalog() -> Catalog:
    return load(SHIPPED, "catalog")


def vocabulary() -> Vocabulary:
    known = catalog().vocabulary
    assert known
    return known.data


@cache
def conclusions() -> Conclusions:
    return conclude(catalog(), means(catalog()))


@cache
def courses() -> Courses:
    return Courses(catalog())


@cache
def planner_data() -> dict[str, Any]:
    return planner(catalog(), conclusions(), courses())


@cache
def book() -> handbook.Book:
    return handbook.render(
        catalog(), conclusions(), load_profile(), written=handbook.hand_written(ROOT / "content")
    )
