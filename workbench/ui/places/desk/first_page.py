"""What the Desk shows while no formula is open: three ways to begin."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from workbench.ui.theme import Theme
from workbench.words.catalogue import Words

WAYS = ("new", "import", "sample")


class FirstPage(QWidget):
    """Offer a new formula, a formula document, or the sample studio."""

    new_wanted = Signal()
    import_wanted = Signal()
    sample_wanted = Signal()

    def __init__(self, words: Words, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words = words
        self._title, self._text = QLabel(), QLabel()
        self._title.setProperty("role", "title")
        self._text.setProperty("role", "secondary")
        held = QWidget()
        self._column = QVBoxLayout(held)
        for label in (self._title, self._text):
            label.setWordWrap(True)
            self._column.addWidget(label)
        self._grid = QGridLayout()
        self._grid.setColumnStretch(1, 1)
        signals = {
            "new": self.new_wanted,
            "import": self.import_wanted,
            "sample": self.sample_wanted,
        }
        self._buttons = {way: QPushButton(words.say(f"first-{way}")) for way in WAYS}
        for row, (way, button) in enumerate(self._buttons.items()):
            button.setObjectName(f"first_{way}")
            button.clicked.connect(lambda _checked=False, signal=signals[way]: signal.emit())
            said = QLabel(words.say(f"first-{way}-text"))
            said.setWordWrap(True)
            said.setProperty("role", "secondary")
            button.setAccessibleDescription(said.text())
            self._grid.addWidget(button, row, 0)
            self._grid.addWidget(said, row, 1)
        self._buttons["new"].setProperty("role", "primary")
        self._column.addLayout(self._grid)
        self._column.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(held)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(scroll)
        self.set_theme(theme)
        self.show_state(is_first=True, read_only=False)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        side = theme.px(20)
        self._column.setContentsMargins(side, theme.px(48), side, side)
        self._column.setSpacing(theme.px(10))
        self._grid.setHorizontalSpacing(theme.px(20))
        self._grid.setVerticalSpacing(theme.px(12))
        self._grid.setContentsMargins(0, theme.px(16), 0, 0)

    def show_state(self, *, is_first: bool, read_only: bool) -> None:
        """Show the words of a studio without a formula, or of one where none is open."""
        say = self._words.say
        self._title.setText(say("first-title" if is_first else "desk-empty-title"))
        text = "first-text" if is_first else "desk-empty-text"
        self._text.setText(say("first-read-only" if read_only else text))
        for way in ("new", "import"):
            self._buttons[way].setEnabled(not read_only)

    def focus_first(self) -> None:
        """Put the focus on the first way."""
        self._buttons["new"].setFocus(Qt.FocusReason.OtherFocusReason)
