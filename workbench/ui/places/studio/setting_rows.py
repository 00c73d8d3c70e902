"""Rows of the studio page: a setting, what it does beside it, and why a text is not taken."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from workbench.ui.places.desk.form_inputs import Choice, TextInput
from workbench.ui.places.desk.typed import NotTaken
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words

_FIELD = 300

Read = Callable[[str], object]


class SettingRow(QWidget):
    """Hold a field at the left, its effect at the right, and an error under both."""

    taken = Signal(object)
    """What the maker set."""

    def __init__(self, name: str, field: QWidget) -> None:
        super().__init__()
        self.name = name
        self.field = field
        self.effect = QLabel()
        self.effect.setObjectName(f"effect_{name}")
        self.effect.setProperty("role", "secondary")
        self.effect.setWordWrap(True)
        self.effect.setTextFormat(Qt.TextFormat.PlainText)
        self.error = QLabel()
        self.error.setObjectName(f"error_{name}")
        self.error.setProperty("role", "stop")
        self.error.setWordWrap(True)
        self.error.hide()
        self._row = QHBoxLayout()
        self._row.addWidget(field, 0, Qt.AlignmentFlag.AlignTop)
        self._row.addWidget(self.effect, 1, Qt.AlignmentFlag.AlignBottom)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addLayout(self._row)
        column.addWidget(self.error)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._row.setSpacing(theme.px(24))
        self.field.setFixedWidth(theme.px(_FIELD))

    def say_effect(self, text: str) -> None:
        """Say what the setting does."""
        self.effect.setText(text)

    def refuse(self, sentence: str) -> None:
        """Say why what is typed is not taken; nothing takes that back."""
        self.error.setText(sentence)
        self.error.setVisible(bool(sentence))


class TextRow(SettingRow):
    """Take a line of text, judged at every letter."""

    def __init__(self, name: str, words: Words, read: Read) -> None:
        self._input = TextInput(f"studio_{name}", words.say(f"studio-{name}"), _FIELD)
        super().__init__(name, self._input)
        self._words = words
        self._read = read
        self._input.edit.textEdited.connect(self._on_edited)
        self._input.edit.editingFinished.connect(self._on_left)

    def show_value(self, text: str) -> None:
        """Show what is stored, unless it is being typed."""
        if not self._input.edit.hasFocus() or not self.error.isVisible():
            if self._input.edit.text().strip() != text:
                self._input.edit.setText(text)
            self._input.show_text(text)
            self._refuse("")

    def _on_edited(self, text: str) -> None:
        try:
            value = self._read(text)
        except NotTaken as refused:
            self._refuse(self._words.say(refused.reason_id, **refused.values))
            return
        self._refuse("")
        self.taken.emit(value)

    def _on_left(self) -> None:
        if self.error.isVisible():
            self._input.take_back()
            self._refuse("")

    def _refuse(self, sentence: str) -> None:
        self._input.refuse(sentence)
        self.refuse(sentence)


class ChoiceRow(SettingRow):
    """Take one of several."""

    def __init__(self, name: str, words: Words, options: Sequence[tuple[str, str]]) -> None:
        self._choice = Choice(f"studio_{name}", words.say(f"studio-{name}"))
        super().__init__(name, self._choice)
        self._options = options
        self._choice.chosen.connect(self._on_chosen)

    def show_value(self, value: str) -> None:
        """Show what is stored."""
        self._choice.show_options(self._options, value)

    def _on_chosen(self, value: str) -> None:
        self.taken.emit(value)


class TicksRow(SettingRow):
    """Take any of several, but at least one."""

    def __init__(self, name: str, words: Words, options: Sequence[tuple[str, str]]) -> None:
        held = QWidget()
        super().__init__(name, held)
        self._words = words
        self._boxes: dict[str, QCheckBox] = {}
        column = QVBoxLayout(held)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        label = QLabel(words.say(f"studio-{name}"))
        label.setProperty("role", "small")
        column.addWidget(label)
        for value, text in options:
            box = QCheckBox(text)
            box.setObjectName(f"studio_{name}_{value}")
            box.clicked.connect(lambda *_checked: self._on_ticked())
            self._boxes[value] = box
            column.addWidget(box)

    def show_value(self, values: tuple[str, ...]) -> None:
        """Show what is stored."""
        for value, box in self._boxes.items():
            box.setChecked(value in values)
        self.refuse("")

    def _on_ticked(self) -> None:
        values = tuple(value for value, box in self._boxes.items() if box.isChecked())
        if not values:
            self.refuse(self._words.say(f"studio-{self.name}-none"))
            return
        self.refuse("")
        self.taken.emit(values)
