"""Every test of a command meets it as a person does."""

import pytest


@pytest.fixture(autouse=True)
def _at_the_command_line(command_line: None) -> None:
    pass
