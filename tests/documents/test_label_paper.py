"""Labels on paper: geometry, heights of type, refusals, the same bytes."""

from __future__ import annotations

import io
import re
import struct
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest
from pypdf import PdfReader

from tests.documents.labels import MM, TABLES, WORDS, content_of, thirty_names, toner
from workbench import paths
from workbench.bench.label_sheets import LabelSheet
from workbench.bench.label_wants import FRONT_AND_BACK, KINDS, LEAFLET, OWN, SALE_US
from workbench.documents.fonts import missing_signs, width
from workbench.documents.label_layout import Layout, Refusal, lay_out
from workbench.documents.label_pdf import LabelRun, labels_pdf
from workbench.documents.label_rub import rub_pdf
from workbench.documents.label_sheets import leaflet_pdf, ruler_pdf
from workbench.documents.label_told import choices_text, measured_lines, refusal_text
from workbench.documents.sheet import Upright
from workbench.documents.type_height import contrast, heights, size_for
from workbench.errors import WorkbenchError

SHEETS = [pytest.param(sheet, id=sheet.key) for sheet in TABLES.sheets]
QUIET = 2.0
FULL = LabelRun()


def preset(key: str) -> LabelSheet:
    sheet = TABLES.sheet(key)
    assert sheet is not None
    return sheet


def laid(key: str = "63.5x38.1", **changes: object) -> Layout:
    layout = lay_out(content_of(**changes), preset(key), TABLES)
    assert isinstance(layout, Layout), layout
    return layout


def pdf_of(key: str = "63.5x38.1", run: LabelRun = FULL, **changes: object) -> bytes:
    content = content_of(**changes)
    layout = lay_out(content, preset(key), TABLES)
    assert isinstance(layout, Layout), layout
    return labels_pdf(content, layout, run, WORDS)


def spots(pdf: bytes, page: int = 0) -> list[tuple[float, float, str]]:
    """Return left edge and base line of every text, from the top left of the page [mm]."""
    seen: list[tuple[float, float, str]] = []
    read = PdfReader(io.BytesIO(pdf)).pages[page]
    high = float(read.mediabox.height)

    def visit(text: str, _matrix: object, at: list[float], *_: object) -> None:
        if text.strip():
            seen.append((at[4] / MM, (high - at[5]) / MM, text.strip()))

    read.extract_text(visitor_text=visit)
    return seen


@pytest.mark.parametrize("sheet", SHEETS)
def test_that_the_outlines_of_the_ruler_page_are_those_of_the_table(sheet: LabelSheet) -> None:
    page = PdfReader(io.BytesIO(ruler_pdf(sheet, LabelRun(), WORDS))).pages[0]
    assert float(page.mediabox.width) / MM == pytest.approx(float(sheet.page_w), abs=0.1)
    assert float(page.mediabox.height) / MM == pytest.approx(float(sheet.page_h), abs=0.1)
    data = page.get_contents()
    assert data is not None
    if sheet.is_round:
        found = re.findall(rb"n\n([\d.]+) ([\d.]+) m\n", data.get_data())
        assert len(found) == sheet.count
        right = [(float(x) / MM, float(y) / MM) for x, y in found]
        expected = [
            (left + sheet.cell_w, sheet.page_h - top - sheet.cell_h / 2)
            for left, top in map(sheet.corner, range(sheet.count))
        ]
        for seen, wanted in zip(right, expected, strict=True):
            assert seen == pytest.approx(tuple(map(float, wanted)), abs=0.1)
        return
    found = re.findall(rb"([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+) re S", data.get_data())
    for place in range(sheet.count):
        x, y, wide, high = (float(value) / MM for value in found[place])
        left, top = sheet.corner(place)
        assert (x, wide, high) == pytest.approx(
            (float(left), float(sheet.cell_w), float(sheet.cell_h)), abs=0.1
        )
        assert float(sheet.page_h) - y - high == pytest.approx(float(top), abs=0.1)


@pytest.mark.parametrize("sheet", SHEETS)
def test_that_every_text_stands_inside_its_label(sheet: LabelSheet) -> None:
    changes = {"kind": OWN, "use": "", "who": "", "made_on": None, "lasts_months": None}
    content = content_of(**changes)
    layout = lay_out(content, sheet, TABLES)
    assert isinstance(layout, Layout)
    wide, high = float(sheet.cell_w), float(sheet.cell_h)
    for run in layout.faces[0].runs:
        right = (run.x + width(run.text, run.font, run.size)) / MM
        top = (run.y - heights(run.size).capital * MM) / MM
        corners = [(run.x / MM, top), (right, top), (run.x / MM, run.y / MM), (right, run.y / MM)]
        for x, y in corners:
            if sheet.is_round:
                away = ((x - wide / 2) ** 2 + (y - high / 2) ** 2) ** 0.5
                assert away <= wide / 2 - QUIET + 0.05, run.text
            else:
                assert QUIET - 0.05 <= x <= wide - QUIET + 0.05, run.text
                assert QUIET - 0.05 <= y <= high - QUIET + 0.05, run.text


def test_that_labels_stand_one_cell_apart() -> None:
    names = [(x, y) for x, y, text in spots(pdf_of()) if text.startswith("Reedling")]
    assert len(names) == 21
    # 63.5 mm and a gap of 2.5 mm across, 38.1 mm down
    assert names[1][0] - names[0][0] == pytest.approx(66.0, abs=0.1)
    assert names[3][1] - names[0][1] == pytest.approx(38.1, abs=0.1)
    assert names[0][0] == pytest.approx(7.25 + QUIET, abs=0.1)


def test_that_printing_begins_at_a_cell_and_goes_on_over_the_page() -> None:
    pdf = pdf_of(run=LabelRun(copies=4, start=20))
    first, second = (
        [spot for spot in spots(pdf, page) if spot[2].startswith("Reedling")] for page in (0, 1)
    )
    assert (len(first), len(second)) == (2, 2)
    assert first[0][0] == pytest.approx(7.25 + 66.0 + QUIET, abs=0.1)
    assert second[0][0] == pytest.approx(7.25 + QUIET, abs=0.1)


def test_that_the_printer_offset_moves_everything() -> None:
    plain = spots(pdf_of())
    moved = spots(pdf_of(run=LabelRun(offset_x=Decimal("-0.5"), offset_y=Decimal("1.5"))))
    for (x, y, text), (to_x, to_y, same) in zip(plain, moved, strict=True):
        assert text == same
        assert (to_x - x, to_y - y) == pytest.approx((-0.5, 1.5), abs=0.01)


def test_that_a_cell_that_is_not_on_the_sheet_is_refused() -> None:
    with pytest.raises(WorkbenchError, match="Cell 22 is not on a sheet of 21 labels"):
        pdf_of(run=LabelRun(start=22))


def test_that_heights_are_those_of_the_font() -> None:
    # OS/2 table of the font, version 2 and on: sxHeight at byte 86, sCapHeight at 88.
    from reportlab.pdfbase.ttfonts import TTFontFile

    file = TTFontFile(str(paths.resources() / "fonts" / "Lato-Regular.ttf"))
    x, capital = struct.unpack(">hh", file.get_table("OS/2")[86:90])
    units = struct.unpack(">H", file.get_table("head")[18:20])[0]
    found = heights(10)
    assert found.x == pytest.approx(10 * x / units / MM, rel=0.001)
    assert found.capital == pytest.approx(10 * capital / units / MM, rel=0.001)


@pytest.mark.parametrize(
    ("least", "measures"), [(1.2, "x"), (0.9, "x"), (1.5875, "o"), (2, "figure")]
)
def test_that_the_smallest_size_is_just_high_enough(least: float, measures: str) -> None:
    size = size_for(least, measures)
    assert getattr(heights(size), measures) >= least
    assert getattr(heights(size - 0.05), measures) < least


def test_that_contrast_is_that_of_the_web_guidelines() -> None:
    # WCAG 2: black on white 21, #767676 on white 4.54
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#767676", "#FFFFFF") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("kind", KINDS)
def test_that_no_type_is_lower_than_its_rule(kind: str) -> None:
    layout = laid("99.1x67.7", kind=kind)
    assert layout.rule is not None
    assert getattr(layout.heights, layout.rule.measures) >= float(layout.rule.least_mm)
    assert all(run.size >= layout.size for run in layout.faces[0].runs)
    if layout.net_rule is not None:
        net = heights(layout.net_size)
        assert getattr(net, layout.net_rule.measures) >= float(layout.net_rule.least_mm)


def test_that_the_measured_height_its_rule_and_its_source_are_told() -> None:
    text = " ".join(measured_lines(content_of(), laid(), WORDS))
    assert "At least 1.2 mm, measured on the small x" in text
    assert "Reg. (EU) 1169/2011" in text
    assert "contrast 21 to 1" in text


def test_that_a_label_too_long_for_its_bottle_is_told() -> None:
    # pi times 20 mm less a seam of 3 mm: 59.8 mm, and the label is 63.5 mm
    told = measured_lines(content_of(bottle_mm=Decimal(20)), laid(), WORDS)
    assert any("at most 59.8 mm" in line for line in told)
    told = measured_lines(content_of(bottle_mm=Decimal(22)), laid(), WORDS)
    assert not any("go around" in line for line in told)


def test_that_thirty_names_are_refused_on_the_smallest_label_with_ways_out() -> None:
    formula, shelf = thirty_names()
    content = content_of(formula, shelf)
    assert len(content.names) == 30
    refusal = lay_out(content, preset("38.1x21.2"), TABLES)
    assert isinstance(refusal, Refusal)
    codes = {choice.code for choice in refusal.choices}
    assert codes == {"larger", "fold-out", "leaflet-small"}
    assert "38.1 × 21.2 mm" in refusal_text(refusal, WORDS)
    assert "leaflet" in choices_text(refusal, WORDS)
    for choice in refusal.choices:
        for key in choice.sizes:
            assert isinstance(lay_out(content, preset(key), TABLES), Layout)


def test_that_each_way_out_leads_out() -> None:
    formula, shelf = thirty_names()
    content = content_of(formula, shelf)
    on = preset("38.1x21.2")
    small = replace(content.order, placed=LEAFLET, surface_cm2=Decimal(60))
    leaflet = replace(content, order=small)
    assert isinstance(lay_out(leaflet, on, TABLES), Layout)
    text = PdfReader(io.BytesIO(leaflet_pdf(leaflet, on, WORDS))).pages[0].extract_text()
    assert content.names[-1] in " ".join(text.split())


def test_that_a_pair_holds_the_front_and_the_list() -> None:
    layout = laid("66.7x25.4", placed=FRONT_AND_BACK)
    front, back = (" ".join(run.text for run in face.runs) for face in layout.faces)
    assert "Reedling toner" in front
    assert "Ingredients:" in back
    texts = [text for _, _, text in spots(pdf_of("66.7x25.4", placed=FRONT_AND_BACK))]
    assert sum(text.startswith("Ingredients:") for text in texts) == 15


def test_that_a_name_is_never_broken_where_a_line_could_hold_it() -> None:
    layout = laid("63.5x38.1")
    lines = [run.text for run in layout.faces[0].runs]
    assert any("Ethylhexylglycerin," in line for line in lines)
    assert any("Linalyl Acetate," in line for line in lines)


@pytest.mark.parametrize("kind", KINDS)
def test_that_the_text_of_a_label_is_as_agreed(
    kind: str, golden: Callable[[str, str], None]
) -> None:
    pdf = pdf_of("99.1x67.7", LabelRun(copies=1), kind=kind, ph="5.2, citric acid")
    golden(f"label-{kind}", PdfReader(io.BytesIO(pdf)).pages[0].extract_text())


def test_that_the_text_of_a_round_label_is_as_agreed(golden: Callable[[str, str], None]) -> None:
    pdf = pdf_of("round 40", LabelRun(copies=1), kind=OWN, who="", use="")
    golden("label-round", PdfReader(io.BytesIO(pdf)).pages[0].extract_text())


def test_that_the_same_label_gives_the_same_bytes_in_another_process() -> None:
    code = (
        "import sys; from tests.documents.test_label_paper import *;"
        "sys.stdout.buffer.write(pdf_of())"
    )
    other = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True)
    assert other.stdout == pdf_of()


def test_that_sixty_five_labels_take_half_a_second() -> None:
    changes = {"kind": OWN, "use": "", "who": "", "made_on": None, "lasts_months": None}
    content = content_of(**changes)
    begun = time.perf_counter()
    layout = lay_out(content, preset("38.1x21.2"), TABLES)
    assert isinstance(layout, Layout)
    pdf = labels_pdf(content, layout, LabelRun(), WORDS)
    assert time.perf_counter() - begun < 1.0  # 0.5 s wanted
    assert sum(text.startswith("Reedling") for _, _, text in spots(pdf)) == 65


def test_that_labels_are_black_only() -> None:
    data = PdfReader(io.BytesIO(pdf_of())).pages[0].get_contents()
    assert data is not None
    assert not re.search(
        rb"[\d.]+ [\d.]+ [\d.]+ (rg|RG)\b", data.get_data().replace(b"0 0 0 rg", b"")
    )


@pytest.mark.parametrize("text", ["<b>bold</b> & co", "a\x07b\nc", "%(x)s \\n )(", "{ $x }"])
def test_that_the_makers_text_is_data(text: str) -> None:
    pdf = pdf_of(
        "99.1x67.7", kind=SALE_US, use=text, function=text, formula=replace(toner(), name=text)
    )
    seen = " ".join(PdfReader(io.BytesIO(pdf)).pages[0].extract_text().split())
    assert " ".join(text.replace("\x07", " ").split()) in seen


def test_that_five_thousand_characters_are_refused_not_cut() -> None:
    layout = lay_out(content_of(use="long " * 1000), preset("99.1x67.7"), TABLES)
    assert isinstance(layout, Refusal)


def test_that_a_sign_the_font_lacks_is_never_a_box() -> None:
    content = content_of(use="Rub in 🌿")
    layout = lay_out(content, preset("99.1x67.7"), TABLES)
    assert isinstance(layout, Layout)
    with pytest.raises(WorkbenchError, match="no sign for '🌿'"):
        labels_pdf(content, layout, LabelRun(), WORDS)


@pytest.mark.parametrize("topic", ["label", "card", "assessor"])
def test_that_the_font_has_every_sign_of_the_words_of_a_paper(topic: str) -> None:
    text = (paths.resources() / "words" / "en" / f"{topic}.ftl").read_text(encoding="utf-8")
    assert missing_signs(text) == ()


def test_that_the_record_of_a_rub_test_has_its_steps() -> None:
    text = PdfReader(io.BytesIO(rub_pdf(None, Upright.A4, WORDS))).pages[0].extract_text()
    for step in ("24 hours", "60 seconds", "10 minutes", "5 minutes"):
        assert step in text
