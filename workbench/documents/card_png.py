"""Pages of a PDF as pictures."""

from __future__ import annotations

from io import BytesIO

DPI = 150
POINTS_PER_INCH = 72


def pages_png(pdf: bytes, dpi: int = DPI) -> tuple[bytes, ...]:
    """Return each page of a PDF as a PNG at some dots per inch."""
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    try:
        return tuple(_png(page, dpi) for page in document)
    finally:
        document.close()


def _png(page: object, dpi: int) -> bytes:
    out = BytesIO()
    bitmap = page.render(scale=dpi / POINTS_PER_INCH)  # type: ignore[attr-defined]
    bitmap.to_pil().save(out, format="PNG")
    return out.getvalue()
