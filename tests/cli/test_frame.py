from __future__ import annotations

import sys
from datetime import date
from decimal import Decimal
from pathlib import Path
from types import ModuleType

import pytest

from workbench import cli
from workbench.__main__ import COMMANDS
from workbench.cli.asked_formula import asked_markets
from workbench.cli.parser import build_parser
from workbench.errors import WorkbenchError

ASKED = {
    "sample": ["sample", "there"],
    "assess": ["assess", "f.formula.json"],
    "worksheet": ["worksheet", "f.formula.json", "--out", "x.pdf"],
    "label": ["label", "f.formula.json", "--out", "x.pdf"],
    "card": ["card", "f.formula.json", "--out", "x.pdf"],
    "assessor": ["assessor", "f.formula.json", "--out", "x.pdf"],
    "import": ["import", "f.formula.json", "--studio", "s.studio"],
    "export": ["export", "Harbour Fog lotion", "--studio", "s.studio", "--out", "f.json"],
    "check-studio": ["check-studio", "s.studio"],
    "backup": ["backup", "s.studio", "--out", "b.studio"],
}


def parsed(*words: str):
    return build_parser().parse_args(words)


@pytest.fixture
def sample_command(monkeypatch):
    """Put a command module of the test's own in the place of `sample`."""

    def put(run) -> None:
        module = ModuleType("workbench.cli.sample")
        module.run = run
        monkeypatch.setitem(sys.modules, "workbench.cli.sample", module)

    return put


def raising(error: BaseException):
    def run(asked) -> int:
        raise error

    return run


def test_that_the_starter_knows_every_command_of_the_parser():
    assert set(ASKED) == set(COMMANDS)


@pytest.mark.parametrize("words", ASKED.values(), ids=ASKED)
def test_that_each_command_is_run_by_a_module_of_its_own(words):
    module = parsed(*words).module
    others = {parsed(*other).module for other in ASKED.values() if other != words}
    assert module.isidentifier()
    assert module not in others


def test_that_the_module_gets_what_was_asked_and_gives_the_exit_code(sample_command):
    got = []
    sample_command(lambda asked: got.append(asked.folder) or 1)
    assert cli.main(["sample", "there"]) == 1
    assert got == [Path("there")]


def test_that_an_error_of_the_outside_is_one_line_and_exit_two(sample_command, capsys):
    sample_command(raising(WorkbenchError("The disk\nis full.", "Free some space.", "errno 28")))
    assert cli.main(["sample", "there"]) == 2
    out, err = capsys.readouterr()
    assert (out, err) == ("", "formulation-workbench: The disk is full. Free some space.\n")


def test_that_an_interruption_is_quiet(sample_command, capsys):
    sample_command(raising(KeyboardInterrupt()))
    assert cli.main(["sample", "there"]) == 130
    assert capsys.readouterr() == ("", "")


def test_that_our_own_bugs_are_not_hidden(sample_command):
    sample_command(raising(ZeroDivisionError()))
    with pytest.raises(ZeroDivisionError):
        cli.main(["sample", "there"])


@pytest.mark.skipif(sys.platform == "win32", reason="asks a shell with head")
def test_that_a_reader_who_stops_early_hears_no_complaint(run_python):
    code = (
        "import sys, types; m = types.ModuleType('workbench.cli.sample');"
        "m.run = lambda asked: print('line\\n' * 100_000) or 0;"
        "sys.modules['workbench.cli.sample'] = m;"
        "from workbench import cli; sys.exit(cli.main(['sample', 'x']))"
    )
    shell = "import subprocess, sys; subprocess.run(sys.argv[1], shell=True)"
    ended = run_python("-c", shell, f'{sys.executable} -c "{code}" | head -1')
    assert ended.stdout == "line\n"
    assert ended.stderr == ""


def test_that_letters_the_terminal_lacks_are_replaced(run_python):
    code = (
        "import sys, types; m = types.ModuleType('workbench.cli.sample');"
        "m.run = lambda asked: print('5 \\u00b5g \\u2265') or 0;"
        "sys.modules['workbench.cli.sample'] = m;"
        "from workbench import cli; sys.exit(cli.main(['sample', 'x']))"
    )
    ended = run_python("-c", code, environment={"PYTHONIOENCODING": "ascii"})
    assert (ended.returncode, ended.stdout.strip()) == (0, "5 ?g ?")


def test_that_the_batch_mass_is_read_with_its_unit():
    words = [*ASKED["worksheet"], "--batch", "1.2 kg"]
    assert parsed(*words).batch == Decimal(1200)


def test_that_a_worksheet_without_a_batch_leaves_it_to_the_formula():
    asked = parsed(*ASKED["worksheet"])
    assert (asked.batch, asked.paper) == (None, "A4")


@pytest.mark.parametrize(
    ("batch", "said"),
    [
        ("500", "not a mass"),
        ("0 g", "not a mass"),
        ("-5 g", "not a mass"),
        ("500 ml", "not a mass"),
        ("nan g", "not a mass"),
        ("1,234 g", "1.234 or as 1234"),
    ],
)
def test_that_a_batch_that_is_no_mass_is_refused_in_words(capsys, batch, said):
    with pytest.raises(SystemExit) as ended:
        parsed(*ASKED["worksheet"], f"--batch={batch}")
    assert ended.value.code == 2
    assert said in capsys.readouterr().err


def test_that_markets_can_be_listed_and_repeated():
    asked = parsed(*ASKED["assess"], "--market", "EU,UK", "US", "--market", "EU", "--json")
    assert asked_markets(asked.markets) == ("EU", "UK", "US")
    assert asked.json


def test_that_a_market_off_the_list_is_refused_in_words():
    with pytest.raises(WorkbenchError, match="'CA' is not a market") as refused:
        asked_markets(parsed(*ASKED["assess"], "--market", "EU,CA").markets)
    assert "EU, UK, US" in refused.value.remedy


def test_that_an_exposure_off_the_list_is_refused_in_words(capsys):
    assert parsed(*ASKED["assess"], "--exposure", "rinse-off").exposure == "rinse-off"
    with pytest.raises(SystemExit):
        parsed(*ASKED["assess"], "--exposure", "sometimes")
    assert "leave-on" in capsys.readouterr().err


def test_that_the_day_of_the_rules_is_a_date():
    assert parsed(*ASKED["assess"], "--date", "2026-03-01").date == date(2026, 3, 1)


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["assess"],
        ["worksheet", "f"],
        ["assess", "f", "--date", "soon"],
        ["worksheet", "f", "--out", "x", "--paper", "A3"],
        ["import", "f"],
        ["export", "n", "--out", "f"],
        ["assess", "f", "--js"],
    ],
    ids=str,
)
def test_that_what_is_missing_or_unknown_ends_with_two(words):
    with pytest.raises(SystemExit) as ended:
        parsed(*words)
    assert ended.value.code == 2
