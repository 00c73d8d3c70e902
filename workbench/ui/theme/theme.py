"""A theme: palette, type and sizes together, and the Qt palette and style sheet made of them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from string import Template
from typing import TYPE_CHECKING

from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette

if TYPE_CHECKING:
    from pathlib import Path

    from workbench.ui.theme.palette import Palette

FONT_FILES = (
    "Lato-Regular.ttf",
    "Lato-Italic.ttf",
    "Lato-Medium.ttf",
    "Lato-Semibold.ttf",
    "Lato-Bold.ttf",
)


class Role(Enum):
    """What a piece of text is; the value is its size in pixels at scale 1 and its weight."""

    SMALL = (12, QFont.Weight.Normal)
    BODY = (14, QFont.Weight.Normal)
    STRONG = (14, QFont.Weight.Bold)
    COLUMN = (13, QFont.Weight.Normal)
    HEADING = (13, QFont.Weight.Bold)
    TOTAL = (15, QFont.Weight.Bold)
    TITLE = (24, QFont.Weight.Bold)
    FIGURE = (64, QFont.Weight.DemiBold)


@dataclass(frozen=True, slots=True)
class Theme:
    """Hold what every painted thing needs; scale is the maker's text size, not the screen's."""

    palette: Palette
    family: str
    scale: float = 1.0

    def px(self, length: float) -> int:
        """Return a length of the design, at scale 1, in pixels; never less than one."""
        return max(1, round(length * self.scale))

    def colour(self, name: str) -> QColor:
        """Return a colour of the palette by its name."""
        return QColor(getattr(self.palette, name))

    def font(self, role: Role = Role.BODY) -> QFont:
        """Return the font for a role; figures in it are of one width."""
        size, weight = role.value
        font = QFont(self.family)
        font.setPixelSize(self.px(size))
        font.setWeight(weight)
        return font

    def qt_palette(self) -> QPalette:
        """Return the colours as Qt's own roles, for what no style sheet reaches."""
        shade = self.palette
        roles = {
            QPalette.ColorRole.Window: shade.paper,
            QPalette.ColorRole.WindowText: shade.ink,
            QPalette.ColorRole.Base: shade.surface,
            QPalette.ColorRole.AlternateBase: shade.wash,
            QPalette.ColorRole.Text: shade.ink,
            QPalette.ColorRole.Button: shade.paper,
            QPalette.ColorRole.ButtonText: shade.ink,
            QPalette.ColorRole.BrightText: shade.stop,
            QPalette.ColorRole.PlaceholderText: shade.secondary,
            QPalette.ColorRole.ToolTipBase: shade.surface,
            QPalette.ColorRole.ToolTipText: shade.ink,
            QPalette.ColorRole.Highlight: shade.accent,
            QPalette.ColorRole.HighlightedText: shade.on_accent,
            QPalette.ColorRole.Accent: shade.accent,
            QPalette.ColorRole.Link: shade.accent,
            QPalette.ColorRole.LinkVisited: shade.accent,
            QPalette.ColorRole.Light: shade.surface,
            QPalette.ColorRole.Midlight: shade.wash,
            QPalette.ColorRole.Mid: shade.rule,
            QPalette.ColorRole.Dark: shade.secondary,
            QPalette.ColorRole.Shadow: shade.rule,
        }
        palette = QPalette()
        for role, colour in roles.items():
            palette.setColor(role, QColor(colour))
        for role in (
            QPalette.ColorRole.WindowText,
            QPalette.ColorRole.Text,
            QPalette.ColorRole.ButtonText,
        ):
            palette.setColor(QPalette.ColorGroup.Disabled, role, QColor(shade.secondary))
        return palette

    def style_sheet(self, template: str) -> str:
        """Fill the style sheet: `$ink` is a colour, `$px_8` eight pixels at scale 1."""
        sheet = Template(template)
        lengths = {
            name: f"{self.px(float(name[3:]))}px"
            for name in sheet.get_identifiers()
            if name.startswith("px_")
        }
        return sheet.substitute(self.palette.colours(), family=self.family, **lengths)


def load_fonts(resources: Path) -> str:
    """Give Qt the shipped fonts, once per start, and return their family name."""
    families: list[str] = []
    for name in FONT_FILES:
        number = QFontDatabase.addApplicationFont(str(resources / "fonts" / name))
        if number < 0:
            raise ValueError(f"{name} is not a font Qt can read")
        families.extend(QFontDatabase.applicationFontFamilies(number)[:1])
    return families[0]
