"""PDF papers for the tests, drawn with known measures."""

from __future__ import annotations

from io import BytesIO

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

A4 = (210 * mm, 297 * mm)
LANDSCAPE = (297 * mm, 210 * mm)


def paper(*sizes: tuple[float, float]) -> bytes:
    """Draw pages of these sizes, each with a black square of 100 mm, 20 mm from the corner."""
    out = BytesIO()
    canvas = Canvas(out, invariant=1)
    for number, (width, height) in enumerate(sizes):
        canvas.setPageSize((width, height))
        canvas.drawString(20 * mm, 10 * mm, f"Harbour Fog lotion, sheet {number + 1}")
        canvas.rect(20 * mm, height - 120 * mm, 100 * mm, 100 * mm, stroke=0, fill=1)
        canvas.showPage()
    canvas.save()
    return out.getvalue()
