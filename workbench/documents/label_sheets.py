"""The pages beside the labels: a ruler page, a wet-rub record, a leaflet."""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING

from reportlab.lib.units import mm

from workbench.bench.label_sheets import LabelSheet
from workbench.documents.fonts import BOLD, REGULAR, registered, width, wrapped
from workbench.documents.label_content import LabelContent
from workbench.documents.label_pdf import LabelRun, label_canvas
from workbench.words.catalogue import Words

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

HAIR, FINE = 0.3, 0.6
BAR_MM = 100
TEN, FIVE = 10, 5


def size_text(sheet: LabelSheet, words: Words) -> str:
    """Return the size of a label as it is written."""
    if sheet.is_round:
        return words.say("label-refused-round-size", size=sheet.cell_w)
    return words.say("label-refused-plain-size", wide=sheet.cell_w, high=sheet.cell_h)


def ruler_pdf(sheet: LabelSheet, run: LabelRun, words: Words) -> bytes:
    """Return a page of cell outlines and rulers, to lay over an empty sheet of labels."""
    registered()
    out = BytesIO()
    canvas = label_canvas(out, sheet, words.say("label-ruler-title", size=size_text(sheet, words)))
    high = float(sheet.page_h) * mm
    x, y = float(run.offset_x) * mm, high - float(run.offset_y) * mm
    canvas.setLineWidth(HAIR)
    for place in range(sheet.count):
        _outline(canvas, sheet, place, (x, y))
    _rulers(canvas, sheet, (x, y))
    _says(canvas, sheet, run, words)
    canvas.showPage()
    canvas.save()
    return out.getvalue()


def _outline(canvas: Canvas, sheet: LabelSheet, place: int, origin: tuple[float, float]) -> None:
    left, top = sheet.corner(place)
    wide, high = float(sheet.cell_w) * mm, float(sheet.cell_h) * mm
    x, y = origin[0] + float(left) * mm, origin[1] - float(top) * mm - high
    if sheet.is_round:
        canvas.circle(x + wide / 2, y + high / 2, wide / 2, stroke=1, fill=0)
    else:
        canvas.rect(x, y, wide, high, stroke=1, fill=0)
    canvas.setFont(REGULAR, 6)
    canvas.drawCentredString(x + wide / 2, y + high - 8, str(place + 1))


def _rulers(canvas: Canvas, sheet: LabelSheet, origin: tuple[float, float]) -> None:
    """Draw millimetres along the upper and the left edge of the page."""
    x, y = origin
    canvas.setFont(REGULAR, 5)
    for step in range(1, int(sheet.page_w)):
        tick = _tick(step)
        canvas.line(x + step * mm, y, x + step * mm, y - tick * mm)
        if step % TEN == 0:
            canvas.drawString(x + step * mm + 1, y - tick * mm, str(step))
    for step in range(1, int(sheet.page_h)):
        tick = _tick(step)
        canvas.line(x, y - step * mm, x + tick * mm, y - step * mm)
        if step % TEN == 0:
            canvas.drawString(x + tick * mm + 0.5, y - step * mm - 1.6, str(step))


def _tick(step: int) -> float:
    return 3.5 if step % TEN == 0 else 2.5 if step % FIVE == 0 else 1.5


def _says(canvas: Canvas, sheet: LabelSheet, run: LabelRun, words: Words) -> None:
    """Write what to do into a blank field in the middle of the page, with the bar to measure."""
    room = min(150.0, float(sheet.page_w) - 30) * mm
    texts = [
        (words.say("label-ruler-title", size=size_text(sheet, words)), BOLD, 11.0),
        (words.say("label-ruler-print"), REGULAR, 9.0),
        (words.say("label-ruler-lay"), REGULAR, 9.0),
        (words.say("label-ruler-offset", x=run.offset_x, y=run.offset_y), REGULAR, 9.0),
    ]
    lines = [
        (line, font, size) for text, font, size in texts for line in wrapped(text, font, size, room)
    ]
    high = 13.0 * len(lines) + 34
    page_w, page_h = float(sheet.page_w) * mm, float(sheet.page_h) * mm
    x, y = (page_w - room) / 2, (page_h + high) / 2
    canvas.setFillGray(1)
    canvas.rect(x - 10, y - high - 4, room + 20, high + 12, stroke=0, fill=1)
    canvas.setFillGray(0)
    canvas.setLineWidth(FINE)
    canvas.rect(x - 10, y - high - 4, room + 20, high + 12, stroke=1, fill=0)
    for line, font, size in lines:
        y -= 13
        canvas.setFont(font, size)
        canvas.drawString(x, y, line)
    bar = min(BAR_MM, room / mm)
    y -= 16
    canvas.line(x, y, x + bar * mm, y)
    for step in range(int(bar) + 1):
        canvas.line(x + step * mm, y, x + step * mm, y + _tick(step) * mm * 0.7)
    canvas.setFont(REGULAR, 7)
    label = f"{int(bar)} mm"
    canvas.drawString(x + bar * mm + 4, y, label if width(label, REGULAR, 7) else "")


def leaflet_pdf(content: LabelContent, sheet: LabelSheet, words: Words) -> bytes:
    """Return the list and the precautions of a label as a leaflet on the page of its sheet."""
    registered()
    out = BytesIO()
    title = words.say("label-leaflet-title", name=content.name[:200])
    canvas = label_canvas(out, sheet, title)
    edge, room = 20 * mm, min(float(sheet.page_w) - 40, 120) * mm
    top = float(sheet.page_h) * mm - edge
    y = top
    listed = f"{content.heading}: {content.list_text}." if content.names else ""
    texts = (listed, *content.cautions, *content.use, *content.who)
    lines = [(line, BOLD, 12.0) for line in wrapped(title, BOLD, 12, room)]
    for text in filter(None, texts):
        lines += [("", REGULAR, 4.0)]
        lines += [(line, REGULAR, 10.0) for line in wrapped(text, REGULAR, 10, room)]
    for line, font, size in lines:
        if y - size * 1.3 < edge:
            canvas.showPage()
            y = top
        y -= size * 1.3
        canvas.setFont(font, size)
        canvas.drawString(edge, y, line)
    canvas.showPage()
    canvas.save()
    return out.getvalue()
