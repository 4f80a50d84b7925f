"""The `handbook` command as people, pipes, terminals and CI meet it."""

import os
import subprocess
import sys
import tomllib

import pytest
from command import COMMAND
from folders import ROOT

from build_tools import cli
from build_tools.commands import COMMANDS

pytestmark = pytest.mark.usefixtures("command_line")


@pytest.mark.parametrize(
    "arguments, complaint",
    [
        (
            ["check", "--catalog", "nowhere"],
            "there is no folder `nowhere`; name the folder that holds handbook.yaml: --catalog DIR",
        ),
        (
            ["check", "--catalog", "catalog/handbook.yaml"],
            "there is no folder `catalog/handbook.yaml`",
        ),
        (["check", "--format", "xml"], "invalid choice: 'xml'"),
        (["check", "--stric", "--nonsense"], "unrecognized arguments: --nonsense"),
        (["chek"], "there is no command `chek`; did you mean `check`?"),
        ([], "required: COMMAND"),
        (["rules", "unknow-key"], "there is no rule `unknow-key`; did you mean `unknown-key`?"),
        (["schema", "excercises"], "there is no kind `excercises`; did you mean `exercises`?"),
    ],
)
def test_could_not_run(here, capsys, arguments, complaint):
    assert cli.main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == "" and complaint in err


def test_a_day_that_is_none_could_not_run(here, capsys, monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "yesterday")
    assert cli.main(["check"]) == 2
    assert (
        "SOURCE_DATE_EPOCH is `yesterday`; it should be whole seconds since 1970"
        in capsys.readouterr().err
    )


def test_a_fault_of_the_program_is_not_a_finding(here, capsys, monkeypatch):
    monkeypatch.setattr("build_tools.catalog.load.load", lambda *_: 1 / 0)
    assert cli.main(["check"]) == 2
    assert "ZeroDivisionError" in capsys.readouterr().err


ends_as_posix_says = pytest.mark.skipif(
    os.name != "posix", reason="elsewhere programs are not ended by signals"
)


@ends_as_posix_says
@pytest.mark.parametrize(
    "arguments",
    [
        ["schema", "studies"],
        ["check"],
        ["rules"],
        ["conclude", "--check"],
        ["explain", "crate-curl/1"],
    ],
)
def test_a_closed_pipe_ends_quietly(here, arguments):
    process = subprocess.Popen(
        [*COMMAND, *arguments], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    process.stdout.close()  # the reader goes away before anything is written
    assert process.stderr.read() == b""
    assert process.wait(30) == 141


@ends_as_posix_says
def test_an_interrupt_ends_quietly(here):
    program = (
        "import os, signal, sys, time; from build_tools import cli; from build_tools.catalog import load\n"
        # A shell that runs the tests in the background hands on an ignored interrupt.
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        "load.load = lambda *_: (os.kill(os.getpid(), signal.SIGINT), time.sleep(30))\n"
        "sys.exit(cli.main(['check']))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, timeout=60)
    assert (done.returncode, done.stdout, done.stderr) == (130, b"", b"")


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_help(capsys, name):
    assert cli.main([name, "--help"]) == 0
    assert f"usage: handbook {name}" in capsys.readouterr().out


def test_the_version_is_that_of_the_project(capsys):
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert cli.main(["--version"]) == 0
    assert capsys.readouterr().out == f"handbook {project['version']}\n"


def test_help_lists_the_commands_and_imports_none():
    program = (
        "import sys; from build_tools import cli; cli.main(['--help'])\n"
        "print([m for m in sys.modules if m.startswith(('build_tools.', 'pydantic', 'yaml'))])"
    )
    out = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, timeout=60
    ).stdout
    assert all(f"\n  {name} " in out for name in COMMANDS)
    assert (
        out.splitlines()[-1]
        == "['build_tools.collector', 'build_tools.catalog', 'build_tools.catalog.invocation', 'build_tools.commands', 'build_tools.cli']"
    )
