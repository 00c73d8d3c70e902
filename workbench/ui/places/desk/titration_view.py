"""The titration of the draft with one adjuster, read off its curve."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from workbench.checks.ph_values import Titration
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.theme import Theme
from workbench.ui.widgets.curve import Curve, CurvePlot, Point, Wording
from workbench.words.catalogue import Words
from workbench.words.ph import grams_text, ph_text

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent


class TitrationView(QWidget):
    """Show what each gram of an adjuster does to the pH, and read the curve."""

    closed = Signal()
    """The curve was put away by the maker."""

    def __init__(self, words: Words, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words = words
        self.setObjectName("titration")
        self._heading = QLabel()
        self._heading.setProperty("role", "heading")
        self._heading.setWordWrap(True)
        self._reading = QLabel()
        self._reading.setObjectName("titration_reading")
        self._hint = QLabel(words.say("ph-titration-hint"))
        self._hint.setProperty("role", "small")
        self._hint.setWordWrap(True)
        self._plot = CurvePlot(
            words.say("ph-titration"),
            theme,
            Wording(self._mass, self._ph, self._read, words.say("ph-titration-y")),
        )
        self._plot.moved.connect(self._reading.setText)
        self._close = LinkButton(words.say("ph-titration-close"), "titration_close")
        self._close.clicked.connect(lambda *_checked: self.close_curve())
        self._column = QVBoxLayout(self)
        for part in (self._heading, self._reading, self._plot, self._hint):
            self._column.addWidget(part)
        self._column.addWidget(self._close, 0, Qt.AlignmentFlag.AlignLeft)
        self.set_theme(theme)
        self.hide()

    @property
    def reading(self) -> str:
        """What the cursor reads, in words."""
        return self._plot.reading

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._plot.set_theme(theme)
        self._column.setContentsMargins(0, theme.px(8), 0, theme.px(4))
        self._column.setSpacing(theme.px(4))

    def show_titration(self, found: Titration, name: str, dose: float | None) -> None:
        """Show a curve of an adjuster, the cursor at its dose."""
        self._heading.setText(
            self._words.say(
                "ph-titration-axis", name=name, mass=grams_text(found.per_g, self._words)
            )
        )
        points = tuple(
            Point(point.mass_g, point.low, point.estimate, point.high) for point in found.points
        )
        self._plot.show_curve(Curve(points, found.target), dose or 0.0)
        self.show()

    def focus_plot(self) -> None:
        """Give the curve the keyboard."""
        self._plot.setFocus(Qt.FocusReason.OtherFocusReason)

    def close_curve(self) -> None:
        """Put the curve away."""
        self.hide()
        self.closed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Put the curve away on Escape."""
        if event.key() == Qt.Key.Key_Escape:
            self.close_curve()
        else:
            super().keyPressEvent(event)

    def _mass(self, value: float) -> str:
        return grams_text(value, self._words)

    def _ph(self, value: float) -> str:
        return self._words.number(Decimal(str(value)))

    def _read(self, point: Point) -> str:
        return self._words.say(
            "ph-titration-read",
            mass=grams_text(point.x, self._words),
            low=ph_text(point.low, self._words),
            middle=ph_text(point.middle, self._words),
            high=ph_text(point.high, self._words),
        )
