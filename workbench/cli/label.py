"""The command `label`: labels of a formula on a sheet as PDF, or the ruler page of the sheet."""

from __future__ import annotations

import argparse
import sys
from decimal import Decimal

from workbench import paths
from workbench.bench.label_sheets import LabelSheet
from workbench.bench.label_wants import KINDS, LabelOrder, LabelTables
from workbench.cli.asked_formula import Asked, asked_formula
from workbench.cli.studio_block import asked_studio_block
from workbench.documents.label_content import LabelContent, LabelMaking, label_content
from workbench.documents.label_layout import Refusal, lay_out
from workbench.documents.label_pdf import LabelRun, labels_pdf
from workbench.documents.label_sheets import leaflet_pdf, ruler_pdf
from workbench.documents.label_told import measured_lines, refusal_error
from workbench.errors import WorkbenchError
from workbench.storage.reference.label_sheets import load_label_tables
from workbench.storage.text_file import write_bytes_file
from workbench.words.catalogue import Words

LEAFLET = "leaflet"


def run(asked: argparse.Namespace) -> int:
    """Name what is missing, write the labels, and print how high their type is."""
    found = asked_formula(asked.file, asked.studio)
    tables = load_label_tables(paths.resources() / "reference")
    sheet = asked_sheet(asked.sheet, tables, found.words)
    offset = asked.offset or (Decimal(0), Decimal(0))
    run_of = LabelRun(asked.copies, asked.start, *offset)
    if asked.ruler:
        write_bytes_file(asked.out, ruler_pdf(sheet, run_of, found.words))
        sys.stdout.write(f"{asked.out}\n")
        return 0
    content = _content(asked, found, tables)
    layout = lay_out(content, sheet, tables)
    if isinstance(layout, Refusal):
        raise refusal_error(layout, found.words)
    write_bytes_file(asked.out, labels_pdf(content, layout, run_of, found.words))
    said = [field.text for field in content.missing]
    said += [*content.notes, *measured_lines(content, layout, found.words), str(asked.out)]
    if asked.placed == LEAFLET:
        beside = asked.out.with_name(f"{asked.out.stem}-leaflet.pdf")
        write_bytes_file(beside, leaflet_pdf(content, sheet, found.words))
        said.append(str(beside))
    sys.stdout.write("\n".join(said) + "\n")
    return 0


def asked_sheet(asked: str, tables: LabelTables, words: Words) -> LabelSheet:
    """Return a sheet by its size, or from a geometry of the maker's own.

    Raises
    ------
    WorkbenchError
        If there is no such sheet, or its labels do not fit its page.
    """
    known = tables.sheet(asked)
    if known is not None:
        return known
    own = _own_sheet(asked)
    if own is None:
        raise WorkbenchError(
            words.say("label-sheet-unknown", key=asked[:60]),
            words.say("label-sheet-known", keys=tuple(sheet.key for sheet in tables.sheets)),
        )
    for fault in own.faults():
        raise WorkbenchError(
            words.say("label-sheet-fault", fault=fault), words.say("label-sheet-fault-remedy")
        )
    return own


def _own_sheet(asked: str) -> LabelSheet | None:
    """Read page, label, counts, gaps and edges in mm, as 210x297,40x30,4x8,5x2,10x12[,round]."""
    parts = asked.split(",")
    shape = "round" if parts[-1] == "round" else "rectangle"
    pairs = [part.split("x") for part in parts if part != "round"]
    try:
        (page_w, page_h), (wide, high), counts, (gap_x, gap_y), (left, top) = (
            (Decimal(one), Decimal(two)) for one, two in pairs
        )
        columns, rows = (int(count) for count in counts if count == int(count))
    except (ValueError, ArithmeticError):
        return None
    lengths = (page_w, page_h, wide, high)
    if not all(each.is_finite() for each in (*lengths, gap_x, gap_y, left, top)):
        return None
    return LabelSheet("", "", *lengths, columns, rows, gap_x, gap_y, left, top, shape)


def _content(asked: argparse.Namespace, found: Asked, tables: LabelTables) -> LabelContent:
    order = LabelOrder(
        kind=asked.kind if asked.kind in KINDS else KINDS[0],
        function=asked.function,
        use=asked.use,
        storage=asked.keep,
        who=asked.who,
        origin=asked.origin,
        trial=asked.trial,
        net=asked.net[0] if asked.net else None,
        net_unit=asked.net[1] if asked.net else "g",
        batch=asked.number,
        made_on=asked.made,
        lasts_months=asked.months,
        opened_months=asked.opened,
        ph=asked.ph,
        placed=asked.placed,
        surface_cm2=asked.surface,
    )
    scope = found.scope((order.market,) if order.kind not in ("own", "gift") else ())
    made = LabelMaking(asked_studio_block(asked.studio), found.words, tables)
    return label_content(order, found.formula, found.shelf, found.assessed(scope), made)
