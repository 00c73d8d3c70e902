"""Fields of a form: a label, an input, and under it in words what cannot be taken."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)

from workbench.ui.places.desk.form_inputs import Choice
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.shelf.fact_rows import plain_label
from workbench.ui.theme import Theme

Options = Sequence[tuple[str, str]]
NARROW, MIDDLE, WIDE = 130, 200, 416
_LIST_ROWS = 5
_LEAST = 100


class FormField(QWidget):
    """Hold a label over an input, and room for one sentence under it."""

    changed = Signal()

    def __init__(self, name: str, label: str, width: int) -> None:
        super().__init__()
        self._width = self._wanted = width
        self.name = name
        self._label = plain_label("small")
        self._label.setText(label)
        self._error = plain_label("stop")
        self._error.setObjectName(f"shelf_error_{name}")
        self._error.setWordWrap(True)
        self._error.hide()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(1)
        self._column.addWidget(self._label)

    @property
    def error(self) -> str:
        """The sentence under the input, empty where all is well."""
        return self._error.text()

    @property
    def value(self) -> str:
        """What is typed or chosen."""
        raise NotImplementedError

    def set_value(self, value: str) -> None:
        """Show a value without telling of a change."""
        raise NotImplementedError

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._wanted = theme.px(self._width)
        self.setMinimumWidth(theme.px(_LEAST))
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        """Return the width of the design; a narrow row gives less."""
        return QSize(self._wanted, super().sizeHint().height())

    def show_error(self, sentence: str) -> None:
        """Say what is wrong, or that nothing is."""
        if sentence == self._error.text():
            return
        self._error.setText(sentence)
        self._error.setVisible(bool(sentence))
        widget = self._input()
        widget.setAccessibleDescription(sentence)
        widget.setProperty("invalid", bool(sentence))
        widget.style().unpolish(widget)
        widget.style().polish(widget)
        self.updateGeometry()

    def _hold(self, widget: QWidget) -> None:
        widget.setObjectName(f"shelf_field_{self.name}")
        widget.setAccessibleName(self._label.text())
        self._label.setBuddy(widget)
        self._column.addWidget(widget)
        self._column.addWidget(self._error)
        self._column.addStretch(1)
        self.setFocusProxy(widget)

    def _input(self) -> QWidget:
        widget = self.focusProxy()
        if widget is None:
            raise LookupError(self.name)
        return widget


class LineField(FormField):
    """Take one line of text."""

    def __init__(self, name: str, label: str, width: int, hint: str = "") -> None:
        super().__init__(name, label, width)
        self.edit = QLineEdit()
        self.edit.setPlaceholderText(hint)
        self.edit.textChanged.connect(lambda _text: self.changed.emit())
        self._note = plain_label("small")
        self._note.setObjectName(f"shelf_note_{name}")
        self._note.setWordWrap(True)
        self.take = LinkButton("", f"shelf_take_{name}")
        self.other = LinkButton("", f"shelf_other_{name}")
        self._hold(self.edit)
        for widget in (self._note, self.take, self.other):
            self._column.insertWidget(self._column.count() - 1, widget)
            widget.hide()

    @property
    def value(self) -> str:
        """What is typed."""
        return self.edit.text().strip()

    def set_value(self, value: str) -> None:
        """Show a text."""
        self.edit.blockSignals(True)  # noqa: FBT003
        self.edit.setText(value)
        self.edit.setCursorPosition(0)
        self.edit.blockSignals(False)  # noqa: FBT003

    def show_note(self, sentence: str, take: str = "") -> None:
        """Say something of what is typed, with a link that takes another value."""
        self._note.setText(sentence)
        self._note.setVisible(bool(sentence))
        self.take.setText(take)
        self.take.setVisible(bool(take))
        self.other.hide()
        self.updateGeometry()

    def show_other(self, text: str) -> None:
        """Offer a second way out."""
        self.other.setText(text)
        self.other.show()
        self.updateGeometry()

    @property
    def note(self) -> str:
        """The sentence under the input that is no fault."""
        return self._note.text()


class TextField(FormField):
    """Take a text of several lines; Tab goes on."""

    def __init__(self, name: str, label: str, width: int) -> None:
        super().__init__(name, label, width)
        self._edit = QPlainTextEdit()
        self._edit.setTabChangesFocus(True)
        self._edit.textChanged.connect(self.changed)
        self._hold(self._edit)

    @property
    def value(self) -> str:
        """What is typed."""
        return self._edit.toPlainText().strip()

    def set_value(self, value: str) -> None:
        """Show a text."""
        self._edit.blockSignals(True)  # noqa: FBT003
        self._edit.setPlainText(value)
        self._edit.blockSignals(False)  # noqa: FBT003

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        super().set_theme(theme)
        self._edit.setFixedHeight(theme.px(68))


class ChoiceField(FormField):
    """Choose one of several, or that it is not known."""

    def __init__(self, name: str, label: str, width: int, options: Options) -> None:
        super().__init__(name, label, width)
        choice = Choice(name, label)
        self._box: QComboBox = choice.box
        choice.show_options(options, options[0][0])
        self._box.currentIndexChanged.connect(lambda _row: self.changed.emit())
        self._hold(self._box)
        choice.deleteLater()

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme, and room for the longest words."""
        super().set_theme(theme)
        wanted = self._box.sizeHint().width() + theme.px(8)
        self._wanted = min(max(self._wanted, wanted), theme.px(WIDE))

    @property
    def value(self) -> str:
        """The id of what is chosen."""
        return str(self._box.currentData() or "")

    def set_value(self, value: str) -> None:
        """Show what is stored; a word of a maker's own document is offered too."""
        self._box.blockSignals(True)  # noqa: FBT003
        if self._box.findData(value) < 0:
            self._box.addItem(value, value)
        self._box.setCurrentIndex(self._box.findData(value))
        self._box.blockSignals(False)  # noqa: FBT003


class TicksField(FormField):
    """Tick any of many, in a list that scrolls."""

    def __init__(self, name: str, label: str, width: int, options: Options) -> None:
        super().__init__(name, label, width)
        self._list = QListWidget()
        self._list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._list.setTextElideMode(Qt.TextElideMode.ElideRight)
        self._list.itemChanged.connect(lambda _item: self.changed.emit())
        for value, text in options:
            self._add(value, text)
        self._hold(self._list)

    @property
    def values(self) -> tuple[str, ...]:
        """The ids of what is ticked, in the order of the list."""
        items = (self._list.item(row) for row in range(self._list.count()))
        return tuple(
            str(item.data(Qt.ItemDataRole.UserRole))
            for item in items
            if item.checkState() is Qt.CheckState.Checked
        )

    @property
    def value(self) -> str:
        """The ids of what is ticked, parted by semicolons."""
        return ";".join(self.values)

    def set_value(self, value: str) -> None:
        """Tick ids that are parted by semicolons."""
        wanted = {name for name in value.split(";") if name}
        self._list.blockSignals(True)  # noqa: FBT003
        held = set()
        for row in range(self._list.count()):
            item = self._list.item(row)
            held.add(str(item.data(Qt.ItemDataRole.UserRole)))
            is_on = item.data(Qt.ItemDataRole.UserRole) in wanted
            item.setCheckState(Qt.CheckState.Checked if is_on else Qt.CheckState.Unchecked)
        for name in sorted(wanted - held):
            self._add(name, name).setCheckState(Qt.CheckState.Checked)
        self._ticked_first()
        self._list.setCurrentRow(0)
        self._list.blockSignals(False)  # noqa: FBT003

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        super().set_theme(theme)
        self._list.setSpacing(theme.px(2))
        row = self._list.fontMetrics().height() + 2 * theme.px(2)
        most = min(_LIST_ROWS, self._list.count())
        self._list.setFixedHeight(most * row + theme.px(4))

    def _ticked_first(self) -> None:
        rows = range(self._list.count())
        items = [self._list.takeItem(0) for _ in rows]
        items.sort(
            key=lambda item: (
                item.checkState() is not Qt.CheckState.Checked,
                item.text().casefold(),
            )
        )
        for item in items:
            self._list.addItem(item)

    def _add(self, value: str, text: str) -> QListWidgetItem:
        item = QListWidgetItem(text, self._list)
        item.setData(Qt.ItemDataRole.UserRole, value)
        item.setToolTip(text)
        item.setFlags(
            Qt.ItemFlag.ItemIsEnabled
            | Qt.ItemFlag.ItemIsSelectable
            | Qt.ItemFlag.ItemIsUserCheckable
            | Qt.ItemFlag.ItemNeverHasChildren
        )
        item.setCheckState(Qt.CheckState.Unchecked)
        return item
