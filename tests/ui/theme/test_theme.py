from __future__ import annotations

import pytest
from PySide6.QtGui import QFont, QFontInfo, QFontMetricsF, QPalette, QRawFont
from PySide6.QtWidgets import QLabel, QLineEdit, QPushButton, QTableView, QVBoxLayout, QWidget

from workbench.paths import resources
from workbench.ui.theme import Appearance, Role, SchemeChoice, Theme, load_fonts, load_palette
from workbench.ui.theme.theme import FONT_FILES

FIGURES = "0123456789"


@pytest.fixture
def theme(qapp) -> Theme:
    return Theme(load_palette("light", resources()), load_fonts(resources()))


@pytest.fixture
def dressed(qapp):
    """Let a test dress the application, and undress it for the tests after it."""
    before = qapp.palette(), qapp.font(), qapp.styleSheet(), qapp.style().objectName()
    made = []

    def dress(choice: SchemeChoice, scale: float = 1.0) -> Appearance:
        appearance = Appearance(resources(), choice, scale)
        made.append(appearance)
        appearance.apply()
        return appearance

    yield dress
    for appearance in made:
        appearance.deleteLater()
    qapp.styleHints().unsetColorScheme()
    qapp.setStyleSheet(before[2])
    qapp.setStyle(before[3])
    qapp.setPalette(before[0])
    qapp.setFont(before[1])


# The slanted 1 is narrower, so figures in a column are never set in italics.
@pytest.mark.parametrize("name", [name for name in FONT_FILES if "Italic" not in name])
def test_that_upright_figures_of_the_shipped_fonts_are_of_one_width(qapp, name):
    font = QRawFont(str(resources() / "fonts" / name), 1000)
    widths = {
        round(advance.x(), 3)
        for advance in font.advancesForGlyphIndexes(font.glyphIndexesForString(FIGURES))
    }
    assert len(widths) == 1


@pytest.mark.parametrize("name", FONT_FILES)
def test_that_the_shipped_fonts_hold_the_signs_of_the_trade(qapp, name):
    font = QRawFont(str(resources() / "fonts" / name), 12)
    assert [sign for sign in "%°µ±×·–−≤≥½éüñłőčαβ" if not font.supportsCharacter(ord(sign))] == []


@pytest.mark.parametrize("name", FONT_FILES)
def test_that_the_shipped_fonts_are_truetype(name):
    # OpenType specification, "Table Directory": 0x00010000 marks TrueType outlines.
    assert (resources() / "fonts" / name).read_bytes()[:4] == b"\x00\x01\x00\x00"


def test_that_the_licence_of_the_fonts_is_shipped_whole():
    text = (resources() / "fonts" / "OFL.txt").read_text(encoding="utf-8")
    for part in ("Reserved Font Name", "Version 1.1", "PERMISSION & CONDITIONS", "DISCLAIMER"):
        assert part in text


@pytest.mark.parametrize("role", Role)
def test_that_every_role_is_set_in_the_shipped_family(theme, role):
    font = theme.font(role)
    assert QFontInfo(font).family() == theme.family == "Lato"
    metrics = QFontMetricsF(font)
    assert len({metrics.horizontalAdvance(figure) for figure in FIGURES}) == 1


def test_that_a_bold_column_of_figures_is_as_wide_as_a_regular_one(theme):
    regular = QFontMetricsF(theme.font(Role.BODY)).horizontalAdvance("1000.00")
    bold = QFontMetricsF(theme.font(Role.STRONG)).horizontalAdvance("1000.00")
    assert bold == pytest.approx(regular, abs=0.5)


def test_that_weights_differ_on_the_screen(theme):
    weights = {QFontInfo(theme.font(role)).weight() for role in (Role.BODY, Role.TITLE)}
    assert weights == {QFont.Weight.Normal, QFont.Weight.Bold}


def test_that_the_makers_text_size_scales_type_and_lengths(theme):
    large = Theme(theme.palette, theme.family, 1.5)
    assert large.font(Role.BODY).pixelSize() == 21
    assert large.px(8) == 12
    assert large.px(0.1) == 1


def test_that_the_style_sheet_is_filled_with_colours_and_lengths(theme):
    sheet = Theme(theme.palette, "Lato", 2.0).style_sheet("a { color: $ink; padding: $px_8 }")
    assert sheet == "a { color: #1E2A2E; padding: 16px }"
    with pytest.raises(KeyError):
        theme.style_sheet("a { color: $inc }")


def test_that_disabled_text_is_no_paler_than_secondary_text(theme):
    palette = theme.qt_palette()
    colour = palette.color(QPalette.ColorGroup.Disabled, QPalette.ColorRole.Text)
    assert colour.name().upper() == theme.palette.secondary


@pytest.mark.parametrize("choice", [SchemeChoice.LIGHT, SchemeChoice.DARK])
@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_that_widgets_are_dressed_without_a_warning_from_qt(qtbot, dressed, choice, scale):
    appearance = dressed(choice, scale)
    window = QWidget()
    column = QVBoxLayout(window)
    label = QLabel("Target pH")
    label.setProperty("role", "heading")
    for widget in (label, QLineEdit("5.0"), QPushButton("Swap"), QTableView()):
        column.addWidget(widget)
    qtbot.addWidget(window)
    window.show()
    shown = window.grab().toImage().pixelColor(2, 2).name().upper()
    assert shown == appearance.theme.palette.paper


def test_that_a_choice_of_scheme_is_told_once(qtbot, dressed):
    appearance = dressed(SchemeChoice.LIGHT)
    with qtbot.waitSignal(appearance.changed, timeout=0) as told:
        appearance.choose(SchemeChoice.DARK)
    assert told.args[0].palette == load_palette("dark", resources())
    with qtbot.assertNotEmitted(appearance.changed):
        appearance.choose(SchemeChoice.DARK)


def test_that_the_scheme_of_the_system_is_the_default(qapp, qtbot):
    appearance = Appearance(resources())
    assert appearance.choice is SchemeChoice.SYSTEM
    is_dark = qapp.styleHints().colorScheme().name == "Dark"
    expected = load_palette("dark" if is_dark else "light", resources())
    assert appearance.theme.palette == expected


def test_that_a_larger_text_size_is_told(qtbot, dressed):
    appearance = dressed(SchemeChoice.LIGHT)
    with qtbot.waitSignal(appearance.changed, timeout=0) as told:
        appearance.set_scale(1.25)
    assert told.args[0].px(8) == 10
