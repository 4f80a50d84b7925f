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
from build_tools.movement.length.length import MeanLengths
from build_tools.planning.planner_data import planner
from build_tools.site import book as handbook
from build_tools.site import hand_written
from build_tools.site.addresses import Addresses
from build_tools.site.context import RenderContext
from build_tools.site.planner import found


@cache
def catalog() -> Catalog:
    return load(SHIPPED, "catalog")


def vocabulary() -> Vocabulary:
    known = catalog().vocabulary
    assert known
    return known.data


@cache
def conclusions() -> Conclusions:
    return conclude(catalog(), MeanLengths(catalog()))


@cache
def courses() -> Courses:
    return Courses(catalog())


@cache
def planner_data() -> dict[str, Any]:
    return planner(catalog(), conclusions(), courses())


@cache
def find_data() -> dict[str, Any]:
    """What the page Find works with: its file, the names, and the choices of its form."""
    made = found.exercises(RenderContext(catalog(), conclusions(), Addresses()))
    names = planner_data()["exercises"]
    exercises = {
        id: {**one, "name": names[id]["name"], "also": names[id]["also"]}
        for id, one in made["exercises"].items()
    }
    return {**planner_data(), **made, "exercises": exercises}


@cache
def book() -> handbook.Book:
    return handbook.render(
        catalog(), conclusions(), load_profile(), written=hand_written.pages(ROOT / "content")
    )
