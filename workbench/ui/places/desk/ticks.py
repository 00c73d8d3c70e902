"""An input of the form row's kind: a label over boxes to tick."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from workbench.ui.theme import Theme


class Ticks(QWidget):
    """Let the maker tick any of several."""

    ticked = Signal(object)
    """The values that are ticked now, in the order they stand."""

    def __init__(self, name: str, label: str, options: Sequence[tuple[str, str, str]]) -> None:
        """Take (value, text, whole name); the whole name is what is read out."""
        super().__init__()
        said = QLabel(label)
        said.setProperty("role", "small")
        self._boxes: dict[str, QCheckBox] = {}
        self._row = QHBoxLayout()
        for value, text, whole in options:
            box = QCheckBox(text)
            box.setObjectName(f"form_{name}_{value}")
            box.setAccessibleName(f"{label}: {whole}")
            box.setToolTip(whole)
            box.clicked.connect(lambda *_checked: self.ticked.emit(self.values))
            self._boxes[value] = box
            self._row.addWidget(box)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(3)
        column.addWidget(said)
        column.addLayout(self._row)

    @property
    def values(self) -> tuple[str, ...]:
        """What is ticked."""
        return tuple(value for value, box in self._boxes.items() if box.isChecked())

    def show_values(self, values: tuple[str, ...]) -> None:
        """Tick these and no others."""
        for value, box in self._boxes.items():
            box.setChecked(value in values)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._row.setSpacing(theme.px(14))
