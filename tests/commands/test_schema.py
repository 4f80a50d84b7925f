"""`handbook schema` prints what the library makes."""

import json

import pytest

from build_tools import cli
from build_tools.catalog import json_schema


@pytest.mark.parametrize("kind", json_schema.KINDS)
def test_schema_prints_what_the_library_makes(capsys, kind):
    assert cli.main(["schema", kind]) == 0
    assert json.loads(capsys.readouterr().out) == json_schema.schema(kind)


def test_schema_lists_the_kinds(capsys):
    assert cli.main(["schema"]) == 0
    assert "exercises   exercises/<id>.yaml\n" in capsys.readouterr().out
