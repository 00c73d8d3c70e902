"""What can be asked on the command line."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from workbench.cli.paper_arguments import assessor_arguments, card_arguments, label_arguments
from workbench.formula.formula import EXPOSURES
from workbench.units import Ambiguous, Unreadable, parse_mass

_DESCRIPTION = """\
Draft skincare formulas in percent, see what is wrong with them, and print the worksheet.

Without a command the window opens: formulation-workbench [STUDIO | --sample]
The commands below need no display."""
_EXITS = "Exit code: 0 done, 1 done and a stop was found (assess), 2 bad input."

AddCommand = Callable[..., argparse.ArgumentParser]


def build_parser() -> argparse.ArgumentParser:
    """Return the parser; its result names the module that runs the command."""
    parser = argparse.ArgumentParser(
        prog="formulation-workbench",
        description=_DESCRIPTION,
        epilog=_EXITS,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"%(prog)s {_version()}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for add in (_sample, _assess, _worksheet, *_PAPERS, _import, _export, _check_studio, _backup):
        add(commands.add_parser)
    return parser


def _sample(add: AddCommand) -> None:
    command = _command(add, "sample", "write the sample studio and its formulas into a folder")
    command.add_argument("folder", metavar="DIR", type=Path)


def _assess(add: AddCommand) -> None:
    command = _command(add, "assess", "tell what there is to look at in a formula")
    _takes_formula(command)
    command.add_argument("--json", action="store_true", help="write the assessment as JSON")
    command.add_argument(
        "--market",
        dest="markets",
        metavar="M",
        nargs="+",
        action="extend",
        type=_markets,
        help="judge by these markets instead of the formula's own, as EU,UK",
    )
    command.add_argument(
        "--exposure", choices=EXPOSURES, help="judge as this instead of what the formula says"
    )
    command.add_argument(
        "--date", metavar="D", type=_day, help="the day whose rules hold, as 2026-03-01"
    )


def _worksheet(add: AddCommand) -> None:
    command = _command(add, "worksheet", "make the worksheet of a batch as PDF")
    _takes_formula(command)
    _writes(command, "X.pdf")
    command.add_argument("--batch", metavar="MASS", type=_mass_g, help='batch mass, as "500 g"')
    command.add_argument("--paper", choices=("A4", "Letter"), default="A4", help="default: A4")


def _label(add: AddCommand) -> None:
    command = _command(add, "label", "make labels on a sheet as PDF")
    _takes_formula(command)
    _writes(command, "X.pdf")
    label_arguments(command, _day)


def _card(add: AddCommand) -> None:
    command = _command(add, "card", "make the card for sharing a formula")
    _takes_formula(command)
    _writes(command, "X.pdf|.png|.md|.txt")
    card_arguments(command)


def _assessor(add: AddCommand) -> None:
    command = _command(add, "assessor", "make the sheet for a safety assessor as PDF")
    _takes_formula(command)
    _writes(command, "X.pdf")
    assessor_arguments(command, _day)


_PAPERS = (_label, _card, _assessor)


def _import(add: AddCommand) -> None:
    command = _command(
        add, "import", "take a formula document or a sheet into a studio", "import_formula"
    )
    command.add_argument(
        "file", metavar="FILE", type=Path, help="a *.formula.json document, or CSV, TSV, XLSX"
    )
    command.add_argument("--studio", metavar="S", type=Path, required=True)
    sheets = command.add_argument_group("of a sheet")
    sheets.add_argument(
        "--accept", action="store_true", help="take what is doubtful as the report says"
    )
    sheets.add_argument(
        "--table", metavar="N", type=int, help="which formula, where it holds several"
    )
    sheets.add_argument("--name", metavar="NAME", help="what the formula is called")


def _export(add: AddCommand) -> None:
    command = _command(add, "export", "write a formula of a studio to a file", "export_formula")
    command.add_argument("name", metavar="NAME")
    command.add_argument("--studio", metavar="S", type=Path, required=True)
    _writes(command, "F", "ends in .csv, .tsv or .xlsx for a sheet, else a document")


def _check_studio(add: AddCommand) -> None:
    command = _command(add, "check-studio", "tell whether a studio is whole")
    command.add_argument("studio", metavar="STUDIO", type=Path)


def _backup(add: AddCommand) -> None:
    command = _command(add, "backup", "copy a studio, even while it is open")
    command.add_argument("studio", metavar="STUDIO", type=Path)
    _writes(command, "FILE")


def _command(add: AddCommand, name: str, does: str, module: str = "") -> argparse.ArgumentParser:
    command = add(name, help=does, description=f"{does.capitalize()}.", allow_abbrev=False)
    command.set_defaults(module=module or name.replace("-", "_"))
    return command


def _takes_formula(command: argparse.ArgumentParser) -> None:
    command.add_argument("file", metavar="FILE", type=Path, help="a *.formula.json document")
    command.add_argument(
        "--studio", metavar="S", type=Path, help="also know the ingredients of this studio"
    )


def _writes(command: argparse.ArgumentParser, metavar: str, about: str | None = None) -> None:
    command.add_argument("--out", metavar=metavar, type=Path, required=True, help=about)


def _markets(text: str) -> list[str]:
    return [market for market in text.split(",") if market]


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"'{text}' is not a day such as 2026-03-01") from None


def _mass_g(text: str) -> Decimal:
    mass = parse_mass(text, decimal_comma=False)
    if isinstance(mass, Ambiguous):
        first, second = (reading.value for reading in mass.readings)
        raise argparse.ArgumentTypeError(f"'{text}' can be read as {first} or as {second}")
    if isinstance(mass, Unreadable) or mass == 0:
        raise argparse.ArgumentTypeError(f"'{text}' is not a mass such as '500 g' or '1.2 kg'")
    return mass


def _version() -> str:
    try:
        return version("formulation-workbench")
    except PackageNotFoundError:  # run from a tree that is not installed
        return "(not installed)"
