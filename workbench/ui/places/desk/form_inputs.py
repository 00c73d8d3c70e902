"""The inputs of the form row: a labelled line of text, and a labelled choice."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QLineEdit, QVBoxLayout, QWidget

from workbench.ui.theme import Theme
from workbench.ui.widgets.combo import Combo


class TextInput(QWidget):
    """Show a label over a line of text, marked when it is not taken."""

    typed = Signal(str)
    """The text, when the maker has finished with it and it is another than before."""

    def __init__(self, name: str, label: str, width: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._width = width
        self._shown = ""
        self._label = QLabel(label)
        self._label.setProperty("role", "small")
        self.edit = QLineEdit()
        self.edit.setObjectName(f"form_{name}")
        self.edit.setAccessibleName(label)
        self.edit.editingFinished.connect(self._on_finished)
        self._label.setBuddy(self.edit)
        self.error = ""
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(1)
        for widget in (self._label, self.edit):
            column.addWidget(widget)

    @property
    def label(self) -> str:
        """What the input is called."""
        return self._label.text()

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self.setFixedWidth(theme.px(self._width))

    def show_text(self, text: str) -> None:
        """Show what is stored, unless the maker is typing or has to mend what was typed."""
        self._shown = text
        if not self.edit.isModified():
            self.edit.setText(text)

    def take_back(self) -> None:
        """Show what is stored in the place of what was typed."""
        self.edit.setText(self._shown)
        self.edit.setModified(False)
        self.refuse("")

    def refuse(self, sentence: str) -> None:
        """Keep why the text is not taken, and mark it; an empty sentence takes that back."""
        self.error = sentence
        self.edit.setAccessibleDescription(sentence)
        self.edit.setProperty("invalid", bool(sentence))
        self.edit.style().unpolish(self.edit)
        self.edit.style().polish(self.edit)

    def _on_finished(self) -> None:
        text = self.edit.text()
        if not self.edit.isModified():
            return
        if text == self._shown:
            self.take_back()
            return
        self.typed.emit(text)

    def accept(self) -> None:
        """Take the text as stored."""
        self.edit.setModified(False)
        self.refuse("")


class Choice(QWidget):
    """Show a label over a list to choose from."""

    chosen = Signal(str)

    def __init__(self, name: str, label: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._label = QLabel(label)
        self._label.setProperty("role", "small")
        self.box = Combo()
        self.box.setObjectName(f"form_{name}")
        self.box.setAccessibleName(label)
        self.box.activated.connect(lambda row: self.chosen.emit(self.box.itemData(row)))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(1)
        column.addWidget(self._label)
        column.addWidget(self.box)

    def show_options(self, options: Sequence[tuple[str, str]], chosen: str) -> None:
        """Offer (value, words) pairs and show which one is stored."""
        held = [(self.box.itemData(row), self.box.itemText(row)) for row in range(self.box.count())]
        if held != list(options):
            self.box.clear()
            for value, text in options:
                self.box.addItem(text, value)
        self.box.setCurrentIndex(self.box.findData(chosen))
