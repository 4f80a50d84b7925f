"""The functions of the pages Lagging part and Week answer as the Python reference does, over generated cases in one page each.

The reference itself is held against published values in tests/planning.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import client_pages
import pytest
from handout_site import visit
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from site_building import ROOT
from site_serving import serve

from build_tools.catalog.entries import Programme
from build_tools.catalog.load import Catalog, load
from build_tools.evidence.conclude import conclude
from build_tools.movement.course import Courses
from build_tools.movement.length.length import means
from build_tools.movement.load.body_weight import total_load
from build_tools.planning import additions, loads, plan_export, plan_file
from build_tools.planning import planner_data as data
from build_tools.planning.facts import ExerciseFacts, facts
from build_tools.planning.order import Place
from build_tools.planning.relax import relaxed
from build_tools.planning.shortlist import Shortlists, Wish
from build_tools.planning.warnings import warnings
from build_tools.planning.week import Entry, Week, count, duration, seconds, standing
from build_tools.site.client import handout_page
from build_tools.site.planner.page import scripts
from build_tools.site.publication import UNPUBLISHED

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser
CASES = 400
PAGE = b"<!doctype html><link rel=icon href=data:,><title>Week</title>"
#: Everything that the page's scripts answer to a list of cases: one function of each page for each kind of case.
IN_PAGE = """async ([kind, cases]) => {
    const from = (name) => import(new URL(`../planner/${name}.js`, location.href));
    const [{ shortlist }, { relaxed }, week, loads, files] = await Promise.all(
        ['shortlist', 'relax', 'count', 'loads', 'plan_file'].map(from));
    const data = await (await fetch('../data/planner.json')).json();
    const { rules } = await (await fetch('../handout/data.json')).json();
    const answers = {
        wish: (wish) => [shortlist(data, wish), relaxed(data, wish, wish.parts[0])],
        plan: ({ plan, monday, stamp }) => {
            const counts = week.count(plan.days, data.exercises), range = data.goals[plan.goal].weekly_sets;
            return { counts, standings: Object.entries(counts).map(([part, held]) => week.standing(part, held, range)),
                additions: Object.entries(counts).map(([part, { sets }]) => week.toAdd(part, sets, data.goals[plan.goal])),
                warnings: week.warnings(plan.days, counts, data.exercises, range),
                seconds: plan.days.map((day) => week.duration(day, data.exercises, data.seconds[plan.goal])),
                file: files.write(plan, data), again: files.read(files.write(plan, data), data, rules),
                link: files.unpacked(files.packed(plan, data), data, rules),
                csv: files.table(plan, data),
                calendar: files.calendar(plan, data, new Date(`${monday}T00:00:00Z`), new Date(stamp), 'id') };
        },
        text: (text) => { try { return files.read(text, data, rules); } catch (bad) {
            if (bad instanceof files.BadPlan) return bad.message; throw bad; } },
        load: ({ exercise, done, load, planned, bar, pairs }) => ({
            total: loads.totalLoad(bar, 0.955, load), hung: loads.toHang(load, bar, 0.955),
            guesses: loads.guesses(data.equations, exercise, done, load, planned),
            bar: loads.onBar(load, bar, pairs), rack: loads.neighbours(load, [bar, ...pairs]), told: loads.told(load) }),
    };
    return cases.map(answers[kind]);
}"""


@pytest.fixture(scope="module")
def catalog() -> Catalog:
    return load(ROOT / "catalog", "catalog")


@pytest.fixture(scope="module")
def programme(catalog: Catalog) -> Programme:
    assert catalog.programme
    return catalog.programme.data


@pytest.fixture(scope="module")
def known(catalog: Catalog) -> dict[str, ExerciseFacts]:
    return facts(catalog, Courses(catalog))


@pytest.fixture(scope="module")
def planning(catalog: Catalog, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The scripts of the working pages and their data alone, without a site around them."""
    folder = tmp_path_factory.mktemp("planning")
    shelf = client_pages.shelf(catalog, UNPUBLISHED)
    made = data.planner(catalog, conclude(catalog, means(catalog)), Courses(catalog))
    rules = handout_page.data(shelf)
    written = {**dict(scripts()), "data/planner.json": json.dumps(made).encode(), "handout/data.json": json.dumps(rules).encode(),
               "handout/fragment.js": dict(handout_page.files(shelf))["handout/fragment.js"], "week/index.html": PAGE}
    for uri, content in written.items():
        (folder / uri).parent.mkdir(parents=True, exist_ok=True)
        (folder / uri).write_bytes(content)
    return folder


@pytest.fixture
def page(browser: Browser, planning: Path) -> Iterator[Page]:
    with serve(planning) as address, visit(browser) as page:
        page.goto(f"{address}week/")
        yield page


def drawn(strategy: st.SearchStrategy[Any], number: int = CASES) -> list[Any]:
    found: list[Any] = []

    @settings(max_examples=number, database=None, phases=[Phase.generate], suppress_health_check=list(HealthCheck), deadline=None)
    @given(strategy)
    def collect(example: Any) -> None:
        found.append(example)

    collect()
    return found


def plain(value: Any) -> Any:
    """As JSON has it."""
    return json.loads(json.dumps(value))


def plans(known: dict[str, ExerciseFacts]) -> st.SearchStrategy[plan_file.Plan]:
    spans = st.tuples(st.integers(1, 400), st.integers(1, 400)).map(lambda ends: f"{ends[0]}-{ends[0] + ends[1]}")
    repetitions = st.builds(str.__add__, st.integers(1, 999).map(str) | spans, st.sampled_from(["", "s"]))
    entry = st.builds(Entry, st.sampled_from(sorted(known)), st.integers(1, 20), repetitions, st.none() | st.integers(0, 10),
                      st.none() | st.integers(0, 900))
    day = st.lists(entry, max_size=5).map(tuple)
    return st.builds(plan_file.Plan, st.sampled_from(plan_file.GOALS), st.builds(Week, st.lists(day, min_size=7, max_size=7).map(tuple)))


def as_page(plan: plan_file.Plan) -> dict[str, Any]:
    return plain({"goal": plan.goal, "days": [[asdict(entry) for entry in day] for day in plan.week.days]})


def test_shortlists(page: Page, planning: Path, known: dict[str, ExerciseFacts]) -> None:
    given = json.loads((planning / "data/planner.json").read_text(encoding="utf-8"))
    orders = {part: [Place(place["kind"], tuple(place["exercises"])) for place in places] for part, places in given["orders"].items()}
    kit = sorted(given["equipment"])
    some = st.frozensets(st.sampled_from(kit)) | st.frozensets(st.sampled_from(kit), max_size=3).map(lambda few: frozenset(kit) - few)
    wishes = drawn(st.builds(
        Wish, st.lists(st.sampled_from(sorted(orders)), min_size=1, max_size=3, unique=True).map(tuple), some,
        st.frozensets(st.sampled_from(sorted(given["concerns"])), max_size=2), st.frozensets(st.sampled_from(sorted(known)), max_size=8),
        st.integers(1, 6)))
    asked = [{key: sorted(value) if isinstance(value, frozenset) else value for key, value in asdict(wish).items()} for wish in wishes]
    lists = Shortlists(known, orders)
    wanted = [plain([asdict(lists.of(wish)), asdict(relaxed(wish, wish.parts[0], known, orders))]) for wish in wishes]
    assert sum(bool(found["proposals"]) for found, _ in wanted) > CASES // 4
    assert any(not found["proposals"] and ways["equipment"] for found, ways in wanted)
    for wish, answer, expected in zip(asked, page.evaluate(IN_PAGE, ["wish", asked]), wanted, strict=True):
        assert answer == expected, wish


def test_weeks(page: Page, known: dict[str, ExerciseFacts], programme: Programme) -> None:
    stamp = datetime(2026, 11, 25, 14, 5, 9)
    cases = drawn(st.tuples(plans(known), st.dates(date(2000, 1, 1), date(2100, 1, 1))))
    answers = page.evaluate(IN_PAGE, ["plan", [
        {"plan": as_page(plan), "monday": f"{on}", "stamp": f"{stamp.isoformat()}Z"} for plan, on in cases]])
    for (plan, on), answer in zip(cases, answers, strict=True):
        counts, doses, times = count(plan.week, known), programme.goals[plan.goal], seconds(programme, plan.goal)
        assert answer["counts"] == plain({part: asdict(held) for part, held in counts.items()})
        assert answer["standings"] == [standing(part, held, doses.weekly_sets) for part, held in counts.items()]
        assert answer["additions"] == [additions.sets(part, held.sets, doses) for part, held in counts.items()]
        assert answer["warnings"] == plain([asdict(found) for found in warnings(plan.week, counts, known, doses)])
        assert answer["seconds"] == pytest.approx([duration(day, known, times) for day in plan.week.days], abs=1e-6)
        assert answer["file"] == plan_file.write(plan)
        assert answer["again"] == answer["link"] == as_page(plan)
        assert answer["csv"] == plan_export.table(plan, known)
        assert answer["calendar"] == plan_export.calendar(plan, known, on, stamp, "id")


def test_files_from_elsewhere(page: Page, known: dict[str, ExerciseFacts]) -> None:
    """One value of a sound file is exchanged for anything, or the file is cut."""
    anything = st.none() | st.booleans() | st.integers(-2, 30) | st.text(max_size=4) | st.just([]) | st.just({})

    def changed(plan: plan_file.Plan, place: int, value: Any, row: bool) -> str:
        data = json.loads(plan_file.write(plan))
        rows = [entry for day in data["days"] for entry in day]
        target = rows[place % len(rows)] if row and rows else data
        target[[*target, "more"][place % (len(target) + 1)]] = value
        return json.dumps(data)

    texts = drawn(st.builds(changed, plans(known), st.integers(0, 50), anything, st.booleans())
                  | st.builds(lambda plan, n: plan_file.write(plan)[:n], plans(known), st.integers(0, 300)))
    for text, answer in zip(texts, page.evaluate(IN_PAGE, ["text", texts]), strict=True):
        try:
            expected = as_page(plan_file.read(text, known))
        except plan_file.BadPlan as bad:
            expected = str(bad)
        assert answer == expected, text


def test_starting_loads(page: Page, known: dict[str, ExerciseFacts], programme: Programme) -> None:
    plates = st.sampled_from([0.5, 1.25, 2.5, 5, 10, 15, 20, 25, 45])
    cases = drawn(st.fixed_dictionaries({
        "exercise": st.sampled_from(["leg-press", "machine-chest-press", *sorted(known)]), "done": st.integers(1, 14),
        "load": st.integers(1, 600).map(lambda half: half / 2), "planned": st.integers(1, 14), "bar": st.sampled_from([5, 10, 15, 20, 45]),
        "pairs": st.lists(plates, max_size=7)}))
    equations = programme.load_prediction.equations
    for case, answer in zip(cases, page.evaluate(IN_PAGE, ["load", cases]), strict=True):
        told = loads.guesses(equations, case["exercise"], loads.Set(case["done"]), case["load"], loads.Set(case["planned"]))
        assert [one["equation"] for one in answer["guesses"]] == [guess.equation for guess in told]
        for found, guess in zip(answer["guesses"], told, strict=True):
            for key in ("maximum", "load"):
                wanted = getattr(guess, key)
                assert found[key] == (None if wanted is None else pytest.approx(wanted, rel=1e-12)), (case, guess)
        assert answer["bar"] == loads.on_bar(case["load"], loads.Bar(case["bar"], tuple(case["pairs"]))), case
        assert answer["rack"] == loads.on_rack(case["load"], [case["bar"], *case["pairs"]]), case
        assert answer["total"] == pytest.approx(total_load(case["bar"], 0.955, case["load"]), rel=1e-12)
        assert answer["hung"] == pytest.approx(loads.to_add(case["load"], case["bar"], 0.955), rel=1e-12, abs=1e-9)
        assert answer["told"] == loads.told(case["load"])
