"""catalog/model/README.md: its notice and its table of checks are those of muscles.yaml and the tables.

After a change that is meant: ``GOLDEN=write pytest tests/shipped/test_model_readme.py`` writes the
generated passages anew; read the difference before committing it.
"""

from __future__ import annotations

import os
import re

from folders import SHIPPED
from shipped_lengths import muscle
from shipped_made import catalog

from build_tools.catalog import muscle_path
from build_tools.movement.length.published import ANATOMY, checks

README = SHIPPED / "model" / "README.md"
MODEL = catalog().model.data


def source(id: str) -> str:
    if id == ANATOMY:
        return id
    given = MODEL.sources[id]
    return f"{given.says}; doi:{given.doi}" if given.doi else given.says


def table() -> str:
    lines = [
        "| muscle | check | published | in the tables | moves | result | source |",
        "| --- | --- | --- | --- | --- | --- | --- |",
    ]
    for id, entry in MODEL.muscles.items():
        for check in checks(muscle(id)):
            moves = f"{100 * check.moves:.0f}%" if check.what.startswith("arm") else ""
            lines.append(
                f"| {entry.name} | {check.what} | {check.published} | {check.ours} | {moves} | "
                f"{'pass' if check.passed else 'fail'} | {source(check.source)} |"
            )
    return "\n".join(lines)


def left_out() -> str:
    return "\n".join(f"- **{given.name}**: {given.because}" for given in MODEL.left_out)


def filled(text: str) -> str:
    for name, passage in (("checks", table()), ("left out", left_out())):
        marked = rf"(<!-- {name}: [^>]*-->\n).*?(<!-- end of {name} -->)"
        text = re.sub(marked, lambda m, p=passage: f"{m[1]}\n{p}\n\n{m[2]}", text, flags=re.DOTALL)
    return text


def test_the_table_of_checks_is_what_the_checks_say() -> None:
    text = README.read_text(encoding="utf-8")
    if os.environ.get("GOLDEN") == "write":
        README.write_text(text := filled(text), encoding="utf-8")
    assert filled(text) == text and text.count("| pass |") > 40 and "| fail |" not in text


def test_the_notice_names_every_model_table_hash_licence_and_author() -> None:
    text = README.read_text(encoding="utf-8")
    for model in MODEL.models.values():
        assert all(
            word in text for word in (model.file, model.sha256, model.licence, model.licence_url)
        )
        surnames = re.findall(r"\b[A-Z][a-z]+\b(?=,? [A-Z]\b)", model.credit)
        assert surnames and all(name in text for name in surnames)
    files = [*(f"{id}.csv" for id in MODEL.tables), *map(muscle_path.file, MODEL.models)]
    assert all(f"`{name}`" in text for name in files) and "sampled to tables" in text


def test_what_failed_or_has_no_check_is_in_no_table() -> None:
    """Rectus femoris, gluteus maximus and the short head of biceps brachii by their names in the models; no muscle of the shoulder."""
    columns = {column for grid in catalog().length_tables.values() for column in grid.lengths}
    assert columns == {entry.column for entry in MODEL.muscles.values()}
    assert not {"rect_fem", "glut_max1", "glut_max2", "glut_max3", "BICshort"} & columns
