"""What can be asked of labels, cards and assessor's sheets on the command line."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from datetime import date
from decimal import Decimal, InvalidOperation

from workbench.bench.label_wants import FRONT_AND_BACK, KINDS, LEAFLET, WHOLE_LABEL

PARTS = 2


def label_arguments(command: argparse.ArgumentParser, day: Callable[[str], date]) -> None:
    """Add the options of `label`."""
    add = command.add_argument
    add(
        "--sheet",
        metavar="SIZE",
        default="63.5x38.1",
        help="label size in mm, as 38.1x21.2 or 'round 40'; or a geometry of your own: "
        "page,label,columns x rows,gaps,edges, as 210x297,40x30,4x8,5x2,10x12[,round]",
    )
    add("--kind", choices=KINDS, default=KINDS[0], help="default: own")
    add("--start", metavar="N", type=int, default=1, help="first cell to print, from 1")
    add("--copies", metavar="N", type=_count, default=0, help="default: what the sheet holds")
    add("--offset", metavar="X,Y", type=_offset, help="printer offset in mm, as -0.5,1")
    add("--ruler", action="store_true", help="make the ruler page of the sheet instead")
    add(
        "--placed",
        choices=(WHOLE_LABEL, FRONT_AND_BACK, LEAFLET),
        default=WHOLE_LABEL,
        help="all on one label, front and back as a pair, or the list on a leaflet",
    )
    add("--surface", metavar="CM2", type=_positive, help="largest surface of the pack in cm2")
    add("--net", metavar="CONTENT", type=_content, help='nominal content, as "50 ml"')
    add("--number", metavar="BATCH", default="", help="batch number")
    add("--made", metavar="D", type=day, help="day of making, as 2026-03-01")
    add("--months", metavar="N", type=_count, help="months it keeps unopened")
    add("--opened", metavar="N", type=_count, help="months it keeps once opened")
    for name, text in (
        ("function", "what it is, as 'hand cream'"),
        ("use", "how to use it"),
        ("keep", "how to keep it"),
        ("who", "name and address of who answers for it"),
        ("origin", "country of origin"),
        ("ph", "the pH that was read, with the adjuster"),
        ("trial", "number of the trial"),
    ):
        add(f"--{name}", metavar="TEXT", default="", help=text)


def card_arguments(command: argparse.ArgumentParser) -> None:
    """Add the options of `card`."""
    command.add_argument("--paper", choices=("A5", "A4"), default="A4", help="default: A4")
    command.add_argument("--grams", action="store_true", help="give grams of the batch too")
    command.add_argument(
        "--ph-method",
        metavar="TEXT",
        default="",
        help="how the pH is measured, as '10 %% in water'",
    )
    command.add_argument(
        "--equipment", metavar="TEXT", default="", help="what is needed to make it"
    )
    command.add_argument("--notes", metavar="TEXT", default="", help="notes of your own")


def assessor_arguments(command: argparse.ArgumentParser, day: Callable[[str], date]) -> None:
    """Add the options of `assessor`."""
    command.add_argument("--paper", choices=("A4", "Letter"), default="A4", help="default: A4")
    command.add_argument(
        "--date", metavar="D", type=day, help="the day whose rules hold, as 2026-03-01"
    )


def _number(text: str) -> Decimal:
    try:
        value = Decimal(text)
    except InvalidOperation:
        value = Decimal("NaN")
    if not value.is_finite():
        raise argparse.ArgumentTypeError(f"'{text}' is not a number")
    return value


def _positive(text: str) -> Decimal:
    value = _number(text)
    if value <= 0:
        raise argparse.ArgumentTypeError(f"'{text}' is not over 0")
    return value


def _count(text: str) -> int:
    try:
        value = int(text)
    except ValueError:
        value = 0
    if value < 1:
        raise argparse.ArgumentTypeError(f"'{text}' is not a count from 1 on")
    return value


def _offset(text: str) -> tuple[Decimal, Decimal]:
    parts = text.split(",")
    if len(parts) != PARTS:
        raise argparse.ArgumentTypeError(f"'{text}' is not two lengths such as -0.5,1")
    return _number(parts[0]), _number(parts[1])


def _content(text: str) -> tuple[Decimal, str]:
    for unit in ("ml", "g"):
        if text.strip().lower().endswith(unit):
            return _positive(text.strip()[: -len(unit)].strip()), unit
    raise argparse.ArgumentTypeError(f"'{text}' is not a content such as '50 ml' or '30 g'")
