"""The tables of the data set: what a row is, what each column holds, and how it is had."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from pydantic import BaseModel

from ...catalog import entries
from ...catalog.bibliography.references import Reference
from ...committed.conclusions import ANSWER_KEYS, CLAIM_KEYS, PAIR_KEYS
from ..context import RenderContext
from . import edition, whole
from .cell import Value, written
from .whole import REFERENCE_KEYS


class Column(NamedTuple):
    """One column."""

    name: str
    holds: str
    """What it holds, for the page."""
    of: Callable[[Any], Value]
    """Its value, from what the table's ``rows`` yield."""


@dataclass(frozen=True)
class Table:
    """One table."""

    name: str
    row: str
    """What a row is."""
    columns: list[Column]
    rows: Callable[[RenderContext], Iterable[Any]]

    @property
    def uri(self) -> str:
        """Where it is published."""
        return f"{edition.FOLDER}/{self.name}.csv"

    def content(self, shelf: RenderContext) -> bytes:
        """The file."""
        rows = ([column.of(row) for column in self.columns] for row in self.rows(shelf))
        return written([column.name for column in self.columns], rows)


def _fields(model: type[BaseModel], names: str, of: Callable[[Any], Any]) -> list[Column]:
    """Columns of an entry's own fields, each with the description that editors show."""

    def column(name: str) -> Column:
        field = model.model_fields[name]
        return Column(
            field.alias or name, field.description or "", lambda row: getattr(of(row), name)
        )

    return [column(name) for name in names.split()]


def _keys(described: Mapping[str, str], names: Iterable[str]) -> list[Column]:
    """Columns of what is a mapping already."""

    def column(name: str) -> Column:
        return Column(name.replace(" ", "_"), described[name], lambda row: row.get(name))

    return [column(name) for name in names]


def _page(of: Callable[[Any], str]) -> Column:
    return Column("page", "Address of its page.", lambda row: edition.address(row[0], of(row)))


def _exercises(shelf: RenderContext) -> Iterator[tuple[RenderContext, str, entries.Exercise]]:
    for id, entry in shelf.catalog.exercises.items():
        yield shelf, id, entry.data


def _credited(kind: str) -> Callable[[Any], Value]:
    return lambda row: [part for part, credit in row[2].set_credit.items() if credit == kind]


EXERCISES = Table(
    "exercises",
    "an exercise",
    [
        Column("id", "Its id, for good.", lambda row: row[1]),
        *_fields(
            entries.Exercise, "name also_called equipment sides main_lift", lambda row: row[2]
        ),
        Column("position", "Id of its position.", lambda row: row[2].movement.position),
        Column("direct", "Parts for which a set counts in full.", _credited("direct")),
        Column("indirect", "Parts for which a set counts in part.", _credited("indirect")),
        *_fields(entries.Exercise, "swaps", lambda row: row[2]),
        Column("reviewed", "Day of the last look at it.", lambda row: row[2].reviewed.isoformat()),
        _page(lambda row: f"exercises/{row[1]}.md"),
    ],
    _exercises,
)


def _parts(shelf: RenderContext) -> Iterator[tuple[RenderContext, str, Any, str]]:
    for id, entry in shelf.catalog.muscles.items():
        yield shelf, id, entry.data, entry.data.region
        for part, data in entry.data.parts.items():
            yield shelf, f"{id}/{part}", data, entry.data.region


PARTS = Table(
    "parts",
    "a muscle, or a part of one",
    [
        Column("id", "`muscle` or `muscle/part`, for good.", lambda row: row[1]),
        *_fields(entries.Muscle, "name everyday coaches also_called", lambda row: row[2]),
        Column(
            "latin",
            "Latin term of Terminologia Anatomica, of a part.",
            lambda row: getattr(row[2], "latin", None),
        ),
        Column("region", "Id of the region of the body.", lambda row: row[3]),
        _page(lambda row: f"muscles/{row[1]}.md"),
    ],
    _parts,
)


def _studies(shelf: RenderContext) -> Iterator[tuple[RenderContext, str, entries.Study]]:
    for key, entry in shelf.catalog.studies.items():
        yield shelf, key, entry.data


STUDIES = Table(
    "studies",
    "a study with numbers",
    [
        Column("key", "Its key, as in `references`.", lambda row: row[1]),
        *_fields(
            entries.Study,
            "design allocation same_people weeks same_sample_as says limits",
            lambda row: row[2],
        ),
        *_fields(entries.People, "n women age trained", lambda row: row[2].people),
        _page(lambda row: f"sources/{row[1]}.md"),
    ],
    _studies,
)


class ResultRow(NamedTuple):
    """A result of a study."""

    study: str
    number: int
    result: entries.Result


def _results(shelf: RenderContext) -> Iterator[ResultRow]:
    for key, entry in shelf.catalog.studies.items():
        for number, result in enumerate(entry.data.results, 1):
            yield ResultRow(key, number, result)


def _values(shelf: RenderContext) -> Iterator[tuple[ResultRow, str, entries.Arm, entries.Value]]:
    for row in _results(shelf):
        arms = shelf.catalog.studies[row.study].data.arms
        for arm, value in row.result.values.items():
            yield row, arm, arms[arm], value


def _contrasts(shelf: RenderContext) -> Iterator[tuple[ResultRow, entries.Contrast]]:
    for row in _results(shelf):
        for contrast in row.result.contrasts:
            yield row, contrast


_OF_RESULT = [
    Column("study", "Key of the study.", lambda row: row[0].study),
    Column("result", "Number of the result on its page, from 1.", lambda row: row[0].number),
    *_fields(
        entries.Result,
        "parts measured relative_to measure strength_test phase unit doubt",
        lambda row: row[0].result,
    ),
    Column("read_at", "Where the number was read.", lambda row: row[0].result.place),
]


def _ends(holds: str, name: str, of: Callable[[Any], Any]) -> list[Column]:
    """The two ends of an interval."""
    return [
        Column(
            f"{name}_lower", f"{holds}: lower end.", lambda row: of(row)[0] if of(row) else None
        ),
        Column(
            f"{name}_upper", f"{holds}: upper end.", lambda row: of(row)[1] if of(row) else None
        ),
    ]


def _moment(when: str) -> list[Column]:
    def of(row: Any) -> Any:
        return getattr(row[3], when)

    said = "Before training" if when == "pre" else "After training"
    return [
        Column(f"{when}_mean", f"{said}: the mean.", lambda row: of(row) and of(row).mean),
        Column(f"{when}_sd", f"{said}: standard deviation.", lambda row: of(row) and of(row).sd),
        Column(f"{when}_se", f"{said}: standard error.", lambda row: of(row) and of(row).se),
    ]


VALUES = Table(
    "values",
    "what one arm of a study showed in one result",
    [
        *_OF_RESULT,
        Column("arm", "Id of the arm within the study.", lambda row: row[1]),
        *_fields(entries.Arm, "called exercise version differs", lambda row: row[2]),
        Column("n", "People behind the number.", lambda row: row[3].n or row[2].n),
        *_fields(entries.Value, "mean median change change_percent sd se", lambda row: row[3]),
        *_ends("95% interval", "ci95", lambda row: row[3].ci95),
        *_ends("Quartiles", "quartile", lambda row: row[3].quartiles),
        *_moment("pre"),
        *_moment("post"),
    ],
    _values,
)


def _within(name: str, key: str) -> Callable[[Any], Value]:
    return lambda row: getattr(getattr(row[1], name), key) if getattr(row[1], name) else None


CONTRASTS = Table(
    "contrasts",
    "what a paper says of one arm against another, or of two parts",
    [
        *_OF_RESULT,
        *_fields(
            entries.Contrast,
            "of against of_part against_part test favours p p_below p_above t",
            lambda row: row[1],
        ),
        *(
            Column(name, entries.Contrast.model_fields[name].description or "", _within(name, "value"))
            for name in ("difference", "ratio", "standardised")
        ),
        Column("difference_unit", "Unit of the difference.", _within("difference", "unit")),
        Column("standardised_kind", "Which one, as the paper names it.", _within("standardised", "kind")),
        *_ends("95% interval of the difference", "difference_ci95", _within("difference", "ci95")),
        *_ends("95% interval of the ratio", "ratio_ci95", _within("ratio", "ci95")),
    ],
    _contrasts,
)  # fmt: skip

_PLACE = Column("page", "Address of its place.", lambda row: row["page"])
_NUMBERS = ("ratio", "chance of more", "studies", "people", "rests on", "certainty")


def _claims(shelf: RenderContext) -> Iterator[dict[str, Any]]:
    for claim in whole.claims(shelf):
        for answer in claim["parts"]:
            # The claim's own finding and certainty stand beside those of the part.
            own = {"claim finding": claim["finding"], "claim certainty": claim.get("certainty")}
            exercise, _, number = claim["claim"].partition("/")
            page = edition.address(shelf, f"exercises/{exercise}.md") + f"#claim-{number}"
            yield {**claim, **own, **answer, "certainty": answer.get("certainty"), "page": page}


CLAIMS = Table(
    "claims",
    "the answer to a claim for one of its parts",
    [
        *_keys(CLAIM_KEYS, ("claim", "outcome", "relative to", "says", "basis", "sentence")),
        Column("claim_finding", CLAIM_KEYS["finding"], lambda row: row["claim finding"]),
        Column("claim_certainty", CLAIM_KEYS["certainty"], lambda row: row["claim certainty"]),
        *_keys(ANSWER_KEYS, ("part", "finding", "side", "mean length", "measured", "dimension")),
        *_keys(ANSWER_KEYS, _NUMBERS),
        *_ends(ANSWER_KEYS["interval"].rstrip("."), "interval", lambda row: row.get("interval")),
        _PLACE,
    ],
    _claims,
)


def _pairs(shelf: RenderContext) -> Iterator[dict[str, Any]]:
    for pair in whole.pairs(shelf):
        yield {**pair, "page": edition.address(shelf, f"muscles/{pair['part']}.md")}


PAIRS = Table(
    "pairs",
    "two exercises, for one part and one outcome",
    [
        *_keys(ANSWER_KEYS, ("part",)),
        *_keys(CLAIM_KEYS, ("outcome", "relative to")),
        *_keys(PAIR_KEYS, ("pair", "sentence")),
        *_keys(ANSWER_KEYS, ("finding", "side", "measured", "dimension", *_NUMBERS)),
        *_ends(ANSWER_KEYS["interval"].rstrip("."), "interval", lambda row: row.get("interval")),
        _PLACE,
    ],
    _pairs,
)


def _references(shelf: RenderContext) -> Iterator[tuple[RenderContext, str, Reference]]:
    for key, reference in shelf.catalog.references.items():
        yield shelf, key, reference


REFERENCES = Table(
    "references",
    "a publication",
    [
        Column("key", "Its key, for good.", lambda row: row[1]),
        Column("authors", "Family name and initials, in their order.", lambda row: [" ".join(filter(None, name)) for name in row[2].authors]),
        Column("title", "Title.", lambda row: row[2].title),
        Column("year", "Year.", lambda row: row[2].year),
        Column("journal", "Journal, or the book it stands in.", lambda row: row[2].journal or row[2].booktitle),
        Column("doi", "Digital object identifier.", lambda row: row[2].doi),
        Column("pmid", "Number in PubMed.", lambda row: row[2].pmid),
        Column("link", "Where to read it.", lambda row: row[2].link),
        Column("read", REFERENCE_KEYS["read"], lambda row: row[2].read),
        Column("read_at", REFERENCE_KEYS["read at"], lambda row: row[2].readat),
        Column("to_confirm", REFERENCE_KEYS["to confirm"], lambda row: row[2].recheck),
        Column("notices", REFERENCE_KEYS["notices"], lambda row: [f"{n.kind} {n.doi}" for n in row[2].notices]),
        _page(lambda row: f"sources/{row[1]}.md"),
    ],
    _references,
)  # fmt: skip

TABLES = (EXERCISES, PARTS, STUDIES, VALUES, CONTRASTS, CLAIMS, PAIRS, REFERENCES)
