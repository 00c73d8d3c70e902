"""One view of before and after: lines, findings, pH, figures and ingredient lists."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from workbench.formula.absent import Absent
from workbench.ui.places.desk.effect_text import EffectText
from workbench.ui.places.desk.ladder_rungs import ladder_of
from workbench.ui.widgets.ph_ladder import PhLadder
from workbench.words.ph import estimate_text

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

    from workbench.checks.assessment import Assessment
    from workbench.checks.swap_effect import SwapEffect
    from workbench.formula.shelf import Shelf
    from workbench.ui.theme import Theme
    from workbench.words.catalogue import Words

_SIDES = ("before", "after")
_PARTS = ("lines", "findings", "figures", "declaration")


class EffectView(QScrollArea):
    """Show what a change would do; nothing is shown while there is no change."""

    def __init__(self, words: Words, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words = words
        self._theme = theme
        self._shown: tuple[SwapEffect, Shelf] | None = None
        self.setObjectName("effect_view")
        self.setAccessibleName(words.say("effect-name"))
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._texts = {part: _text(f"effect_{part}") for part in _PARTS}
        self.ladders = tuple(PhLadder(words.say(f"effect-ladder-{side}"), theme) for side in _SIDES)
        self._sides = tuple(QLabel(words.say(f"effect-{side}")) for side in _SIDES)
        self._estimates = tuple(_text(f"effect_ph_{side}") for side in _SIDES)
        self._ph = QLabel(words.say("effect-ph"))
        self._ph.setProperty("role", "heading")
        self._grid = QGridLayout()
        self._column = QVBoxLayout()
        self._build()
        self.set_theme(theme)

    @property
    def text(self) -> str:
        """What the view says, as its texts hold it."""
        return "\n".join(label.text() for label in self._texts.values())

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        for ladder in self.ladders:
            ladder.set_theme(theme)
        self._column.setSpacing(theme.px(14))
        self._column.setContentsMargins(0, 0, theme.px(14), theme.px(8))
        self._grid.setHorizontalSpacing(theme.px(16))
        self._grid.setVerticalSpacing(theme.px(2))
        if self._shown is not None:
            self.show_effect(*self._shown)

    def show_effect(self, effect: SwapEffect, shelf: Shelf) -> None:
        """Show what differs, with the names of a shelf that knows both sides."""
        self._shown = (effect, shelf)
        text = EffectText(effect, shelf, self._words, self._theme)
        for part, label in self._texts.items():
            label.setText(getattr(text, part)())
        sides = (effect.before, effect.after)
        ladders = tuple(ladder_of(side, shelf, self._words) for side in sides)
        for place, side in enumerate(sides):
            self.ladders[place].show_ladder(ladders[place], ladders[1 - place])
            self._estimates[place].setText(self._estimate(side))
        is_there = any(ladder.rungs for ladder in ladders)
        shown: tuple[QWidget, ...] = (self._ph, *self.ladders, *self._sides, *self._estimates)
        for each in shown:
            each.setVisible(is_there)
        self._inside.show()

    def show_none(self) -> None:
        """Show nothing: there is no change."""
        self._shown = None
        self._inside.hide()

    def _estimate(self, side: Assessment) -> str:
        if isinstance(side.ph, Absent):
            return self._words.say(side.ph.reason_id)
        return estimate_text(side.ph, self._words)

    def _build(self) -> None:
        for place, (head, ladder, said) in enumerate(
            zip(self._sides, self.ladders, self._estimates, strict=True)
        ):
            head.setProperty("role", "small")
            said.setProperty("role", "small")
            self._grid.addWidget(head, 0, place)
            self._grid.addWidget(ladder, 1, place)
            self._grid.addWidget(said, 2, place, Qt.AlignmentFlag.AlignTop)
            self._grid.setColumnStretch(place, 1)
        self._column.addWidget(self._texts["lines"])
        self._column.addWidget(self._texts["findings"])
        self._column.addWidget(self._ph)
        self._column.addLayout(self._grid)
        self._column.addWidget(self._texts["figures"])
        self._column.addWidget(self._texts["declaration"])
        self._column.addStretch(1)
        self._inside = QWidget()
        self._inside.setLayout(self._column)
        self.setWidget(self._inside)
        self._inside.hide()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Scroll on the arrow keys; Enter and Esc are for the page."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape):
            event.ignore()
        else:
            super().keyPressEvent(event)


def _text(name: str) -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setMinimumWidth(1)
    label.setTextFormat(Qt.TextFormat.RichText)
    return label
