"""Labels as PDF: each face in its cell of the sheet, at true size."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from io import BytesIO

from reportlab.lib.units import mm
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from workbench.bench.label_sheets import LabelSheet
from workbench.documents.fonts import BOLD, missing_signs, registered, width
from workbench.documents.label_content import LabelContent, texts_of
from workbench.documents.label_face import Face, Shape
from workbench.documents.label_layout import Layout
from workbench.documents.type_height import share
from workbench.errors import WorkbenchError
from workbench.words.catalogue import Words

HAIR, LINE = 0.3, 0.5
_ZERO = Decimal(0)


@dataclass(frozen=True, slots=True)
class LabelRun:
    """Hold how labels are printed.

    Parameters
    ----------
    copies : int
        How many labels, or pairs of them; 0 fills what is left of the first sheet.
    start : int
        Cell to begin at, counted along the rows from 1.
    offset_x, offset_y : Decimal
        By how much the printer is to be corrected to the right and down [mm].
    """

    copies: int = 0
    start: int = 1
    offset_x: Decimal = _ZERO
    offset_y: Decimal = _ZERO


def labels_pdf(content: LabelContent, layout: Layout, run: LabelRun, words: Words) -> bytes:
    """Return labels as PDF bytes: the same content gives the same bytes.

    Raises
    ------
    WorkbenchError
        If the font lacks a letter, or the first cell is not on the sheet.
    """
    registered()
    for text in texts_of(content):
        for sign in missing_signs(text):
            raise WorkbenchError(
                words.say("label-missing-glyph", sign=sign, text=text[:60]),
                words.say("label-missing-glyph-remedy"),
            )
    sheet = layout.sheet
    if not 1 <= run.start <= sheet.count:
        raise WorkbenchError(
            words.say("label-start-beyond", start=str(run.start), count=str(sheet.count)),
            words.say("label-start-remedy"),
        )
    out = BytesIO()
    canvas = label_canvas(out, sheet, content.name)
    logo = _picture(content.studio.logo)
    page = 0
    for place, face in _placed(layout, run):
        while place // sheet.count > page:
            canvas.showPage()
            page += 1
        _draw(canvas, face, _origin(sheet, place % sheet.count, run), logo)
    canvas.showPage()
    canvas.save()
    return out.getvalue()


def label_canvas(out: BytesIO, sheet: LabelSheet, title: str) -> Canvas:
    """Return an empty document of the page of a sheet; viewers are asked not to scale it."""
    size = (float(sheet.page_w) * mm, float(sheet.page_h) * mm)
    canvas = Canvas(out, pagesize=size, invariant=1, pageCompression=1)
    canvas.setTitle(title)
    canvas.setCreator("Formulation Workbench")
    canvas.setViewerPreference("PrintScaling", "None")
    return canvas


def _placed(layout: Layout, run: LabelRun) -> Iterator[tuple[int, Face]]:
    first, each = run.start - 1, len(layout.faces)
    copies = run.copies or max((layout.sheet.count - first) // each, 1)
    for number in range(copies * each):
        yield first + number, layout.faces[number % each]


def _origin(sheet: LabelSheet, place: int, run: LabelRun) -> tuple[float, float]:
    left, top = sheet.corner(place)
    x = float(left + run.offset_x) * mm
    return x, float(sheet.page_h - top - run.offset_y) * mm


def _draw(
    canvas: Canvas, face: Face, origin: tuple[float, float], logo: ImageReader | None
) -> None:
    x, y = origin
    for each in face.runs:
        canvas.setFont(each.font, each.size)
        canvas.drawString(x + each.x, y - each.y, each.text)
    for shape in face.shapes:
        if shape.kind == "jar":
            _jar(canvas, shape, x + shape.x, y - shape.y - shape.high)
        elif shape.kind == "logo" and logo is not None:
            _logo(canvas, logo, shape, (x + shape.x, y - shape.y - shape.high))
        elif shape.kind == "rule":
            canvas.setLineWidth(HAIR)
            left, top = x + shape.x, y - shape.y
            canvas.line(left, top, left + shape.wide, top - shape.high)


def _jar(canvas: Canvas, shape: Shape, x: float, y: float) -> None:
    """Draw an open jar with its months inside."""
    wide, high = shape.wide, shape.high
    canvas.setLineWidth(max(LINE, shape.size * 0.09))
    body = high * 0.60
    canvas.roundRect(x + wide * 0.08, y + 0.4, wide * 0.84, body, wide * 0.10, stroke=1, fill=0)
    canvas.line(x + wide * 0.16, y + body + high * 0.07, x + wide * 0.84, y + body + high * 0.07)
    lid = canvas.beginPath()
    lid.moveTo(x + wide * 0.20, y + high * 0.80)
    lid.lineTo(x + wide * 0.82, y + high * 0.99)
    lid.lineTo(x + wide * 0.86, y + high * 0.87)
    lid.lineTo(x + wide * 0.24, y + high * 0.68)
    lid.close()
    canvas.drawPath(lid, stroke=1, fill=0)
    size = min(shape.size, shape.size * wide * 0.74 / width(shape.text, BOLD, shape.size))
    canvas.setFont(BOLD, size)
    middle = x + wide / 2 - width(shape.text, BOLD, size) / 2
    canvas.drawString(middle, y + 0.4 + (body - size * share("capital", BOLD)) / 2, shape.text)


def _picture(data: bytes) -> ImageReader | None:
    if not data:
        return None
    try:
        read = ImageReader(BytesIO(data))
        read.getSize()
    except (OSError, ValueError):
        return None
    return read


def _logo(canvas: Canvas, logo: ImageReader, shape: Shape, at: tuple[float, float]) -> None:
    canvas.drawImage(
        logo,
        *at,
        shape.wide,
        shape.high,
        mask="auto",
        preserveAspectRatio=True,
        anchor="nw",
    )
