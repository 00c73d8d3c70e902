"""Light or dark, as the system has it or as the maker chose, and the news of a change."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QStyleFactory

from workbench.ui.theme.palette import Scheme, load_palette
from workbench.ui.theme.theme import Theme, load_fonts

if TYPE_CHECKING:
    from pathlib import Path


class SchemeChoice(Enum):
    """What the maker chose."""

    SYSTEM = "system"
    LIGHT = "light"
    DARK = "dark"


class Appearance(QObject):
    """Dress the application in a theme and dress it anew when scheme or text size change."""

    changed = Signal(object)
    """The new theme; a widget that paints itself repaints on it."""

    def __init__(
        self,
        resources: Path,
        choice: SchemeChoice = SchemeChoice.SYSTEM,
        scale: float = 1.0,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._resources = resources
        self._family = load_fonts(resources)
        self._template = (resources / "styles" / "workbench.qss").read_text(encoding="utf-8")
        self._choice = choice
        self._scale = scale
        self._theme = self._made()
        QGuiApplication.styleHints().colorSchemeChanged.connect(self._on_system_scheme_changed)

    @property
    def theme(self) -> Theme:
        """The theme as it is now."""
        return self._theme

    @property
    def choice(self) -> SchemeChoice:
        """What the maker chose."""
        return self._choice

    def apply(self) -> None:
        """Dress the application; called once before the window is made."""
        self._tell_system()
        QApplication.setStyle(QStyleFactory.create("Fusion"))
        self._dress()

    def choose(self, choice: SchemeChoice) -> None:
        """Take the maker's choice of scheme."""
        self._choice = choice
        self._tell_system()
        self._renew()

    def set_scale(self, scale: float) -> None:
        """Take the maker's text size, 1 being the size of the design."""
        self._scale = scale
        self._renew()

    def _made(self) -> Theme:
        palette = load_palette(self._scheme(), self._resources)
        return Theme(palette, self._family, self._scale)

    def _scheme(self) -> Scheme:
        if self._choice is SchemeChoice.SYSTEM:
            is_dark = QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark
            return "dark" if is_dark else "light"
        return "dark" if self._choice is SchemeChoice.DARK else "light"

    def _tell_system(self) -> None:
        wanted = {
            SchemeChoice.SYSTEM: Qt.ColorScheme.Unknown,
            SchemeChoice.LIGHT: Qt.ColorScheme.Light,
            SchemeChoice.DARK: Qt.ColorScheme.Dark,
        }
        QGuiApplication.styleHints().setColorScheme(wanted[self._choice])

    def _renew(self) -> None:
        theme = self._made()
        if theme != self._theme:
            self._theme = theme
            self._dress()
            self.changed.emit(theme)

    def _dress(self) -> None:
        QApplication.setPalette(self._theme.qt_palette())
        QApplication.setFont(self._theme.font())
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.setStyleSheet(self._theme.style_sheet(self._template))

    def _on_system_scheme_changed(self) -> None:
        self._renew()
