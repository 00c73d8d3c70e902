"""Rows of a name and a percent: substances of a composition, parts of a blend, allergens."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from typing import Protocol

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.typed import NotTaken, read_number
from workbench.ui.places.shelf.fact_rows import plain_label
from workbench.ui.places.shelf.suggestions import Suggestions
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words

PERCENT_WIDTH = 86
_PERCENT_SIGN = "%"
_NUMBER_AT_END = re.compile(r"(?P<name>.*\S)\s+(?P<percent>[0-9][0-9.,]*\s*%?)")


class Resolver(Protocol):
    """Know the things that may stand in a row."""

    def find(self, typed: str) -> str | None:
        """Return the key a text names, None where it names nothing or several things."""

    def label(self, key: str) -> str:
        """Return what a key is called."""

    def suggestions(self, typed: str) -> tuple[str, ...]:
        """Return names that a text may have meant."""


@dataclass(frozen=True, slots=True)
class TypedPart:
    """Hold one row as it is typed: its text, the key it names, and its percent.

    `key` is None where nothing of that name is known; `percent` None where it is no number,
    with the reason in `refused`.
    """

    text: str
    key: str | None
    percent: Decimal | None
    refused: NotTaken | None = None
    as_typed: bool = False


class PartsEditor(QWidget):
    """Edit rows; an empty one at the end takes the next."""

    changed = Signal()

    def __init__(
        self, name: str, words: Words, resolver: Resolver, *, decimal_comma: bool, heading: str
    ) -> None:
        super().__init__()
        self._words = words
        self._resolver = resolver
        self._decimal_comma = decimal_comma
        self._name = name
        self._theme: Theme | None = None
        self._rows: list[_Row] = []
        self._is_filling = False
        self._errors: dict[int, str] = {}
        self.may_keep_as_typed = False
        self.setObjectName(f"shelf_parts_{name}")
        self._heading = plain_label("small")
        self._heading.setText(heading)
        self._heading.setWordWrap(True)
        self._total = plain_label("strong")
        self._total.setObjectName(f"shelf_total_{name}")
        self._total.setWordWrap(True)
        self._total.hide()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.addWidget(self._heading)
        self._column.addWidget(self._total)
        self._grow()

    @property
    def parts(self) -> tuple[TypedPart, ...]:
        """The rows that hold anything, from the top."""
        return tuple(row.part for row in self._filled())

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._theme = theme
        self._column.setSpacing(theme.px(2))
        for row in self._rows:
            row.set_theme(theme)

    def set_parts(self, parts: tuple[tuple[str, Decimal], ...]) -> None:
        """Show keys and percents in the place of every row."""
        self._is_filling = True
        try:
            while self._rows:
                self._drop(self._rows[-1])
            for key, percent in parts:
                self._grow().fill(self._resolver.label(key), self._words.number(percent), key)
            self._grow()
        finally:
            self._is_filling = False

    def focus_first(self) -> None:
        """Put the focus into the first row."""
        self._rows[0].name.setFocus(Qt.FocusReason.OtherFocusReason)

    def show_total(self, text: str, *, is_right: bool) -> None:
        """Show what the rows add up to, as right or as wrong."""
        self._total.setText(text)
        self._total.setVisible(bool(text))
        self._total.setProperty("role", "strong" if is_right else "stop")
        self._total.style().unpolish(self._total)
        self._total.style().polish(self._total)

    def show_errors(self, errors: dict[int, str]) -> None:
        """Say under each row what is wrong with it, once it is left.

        Rows count from 0 without the empty ones.
        """
        self._errors = errors
        for place, row in enumerate(self._filled()):
            row.show_error(errors.get(place, ""), may_keep=self.may_keep_as_typed)
        for row in self._rows:
            if row.part.text == "" and row.is_empty:
                row.show_error("", may_keep=False)

    def _filled(self) -> list[_Row]:
        return [row for row in self._rows if not row.is_empty]

    def _grow(self) -> _Row:
        row = _Row(
            f"{self._name}_{len(self._rows)}", self._words, self._resolver, self._decimal_comma
        )
        row.changed.connect(self._on_changed)
        row.removed.connect(lambda: self._on_removed(row))
        row.left.connect(lambda: self.show_errors(self._errors))
        row.name.pasted.connect(lambda text: self._on_pasted(row, text))
        self._rows.append(row)
        self._column.insertWidget(self._column.count() - 1, row)
        if self._theme is not None:
            row.set_theme(self._theme)
        if len(self._rows) > 1:
            row.set_tab_order_after(self._rows[-2].last_stop)
        return row

    def _drop(self, row: _Row) -> None:
        self._rows.remove(row)
        self._column.removeWidget(row)
        row.hide()
        row.deleteLater()

    def _on_changed(self) -> None:
        if self._is_filling:
            return
        if not self._rows[-1].is_empty:
            self._grow()
        self.changed.emit()

    def _on_pasted(self, row: _Row, text: str) -> None:
        """Put each pasted line into a row of its own, from this row on."""
        place = self._rows.index(row)
        for line in filter(None, map(str.strip, text.splitlines())):
            if place == len(self._rows):
                self._grow()
            name, percent = parted(line)
            self._rows[place].name.setText(name)
            self._rows[place].percent.setText(percent)
            place += 1

    def _on_removed(self, row: _Row) -> None:
        place = self._rows.index(row)
        if len(self._rows) > 1:
            self._drop(row)
        self._rows[min(place, len(self._rows) - 1)].name.setFocus()
        self._on_changed()


def parted(line: str) -> tuple[str, str]:
    """Return the name and the percent of a pasted line; without a number at its end all is name.

    >>> parted("Benzyl Alcohol 0.5 %"), parted("Limonene 0,04"), parted("Linalool")
    (('Benzyl Alcohol', '0.5 %'), ('Limonene', '0,04'), ('Linalool', ''))
    """
    name, _, percent = line.partition("\t")
    if percent:
        return name.strip(), percent.strip()
    found = _NUMBER_AT_END.fullmatch(line)
    return (found["name"], found["percent"]) if found else (line, "")


class _NameLine(QLineEdit):
    """Take a name; several lines pasted at once are handed on."""

    pasted = Signal(str)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Hand on a pasted list, take anything else as a line of text does."""
        text = QGuiApplication.clipboard().text()
        is_list = "\t" in text or "\n" in text.strip()
        if event.matches(QKeySequence.StandardKey.Paste) and is_list:
            self.pasted.emit(text)
        else:
            super().keyPressEvent(event)


class _Row(QWidget):
    """Hold a name with suggestions, a percent, and what is wrong with them."""

    changed = Signal()
    removed = Signal()
    left = Signal()
    """The focus went out of the row."""

    def __init__(self, name: str, words: Words, resolver: Resolver, decimal_comma: bool) -> None:  # noqa: FBT001
        super().__init__()
        self._words = words
        self._resolver = resolver
        self._decimal_comma = decimal_comma
        self._as_typed = ""
        self._known: tuple[str, str] = ("", "")
        self.name = _NameLine()
        self.name.setObjectName(f"shelf_part_{name}")
        self.name.setAccessibleName(words.say("shelf-part-name"))
        self.percent = QLineEdit()
        self.percent.setObjectName(f"shelf_percent_{name}")
        self.percent.setAccessibleName(words.say("shelf-part-percent"))
        self.percent.setAlignment(Qt.AlignmentFlag.AlignRight)
        self._sign = QLabel(_PERCENT_SIGN)
        self._sign.setProperty("role", "secondary")
        self._remove = LinkButton(words.say("shelf-part-remove"), f"shelf_remove_{name}")
        self._keep = LinkButton(words.say("shelf-part-keep"), f"shelf_keep_{name}")
        self._keep.hide()
        self._error = plain_label("stop")
        self._error.setWordWrap(True)
        self._error.hide()
        self._suggestions = Suggestions(self.name)
        self.name.textEdited.connect(self._suggest)
        self._build()

    @property
    def is_empty(self) -> bool:
        """Whether nothing is typed in it."""
        return not self.name.text().strip() and not self.percent.text().strip()

    @property
    def is_being_typed(self) -> bool:
        """Whether the focus is in it."""
        return self.name.hasFocus() or self.percent.hasFocus() or self._suggestions.is_open

    @property
    def last_stop(self) -> QWidget:
        """Where the focus is before it leaves the row."""
        return self._keep

    @property
    def part(self) -> TypedPart:
        """The row as it is typed."""
        text = self.name.text().strip()
        label, key = self._known
        found = key if text and text == label else self._resolver.find(text) if text else None
        is_kept = bool(text) and text == self._as_typed and found is None
        try:
            percent = read_number(
                self.percent.text().strip().removesuffix(_PERCENT_SIGN),
                decimal_comma=self._decimal_comma,
            )
        except NotTaken as refused:
            return TypedPart(text, found, None, refused, is_kept)
        return TypedPart(text, found, percent, None, is_kept)

    def fill(self, name: str, percent: str, key: str) -> None:
        """Show what is stored; a name of no table was kept as it was typed."""
        self._known = (name, key)
        if self._resolver.find(name) is None and name == key:
            self._known, self._as_typed = ("", ""), name
        self.name.setText(name)
        self.percent.setText(percent)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self.percent.setFixedWidth(theme.px(PERCENT_WIDTH))
        self._suggestions.set_theme(theme)
        self._line.setSpacing(theme.px(8))
        self._under.setSpacing(theme.px(12))
        self._column.setSpacing(theme.px(1))
        self._column.setContentsMargins(0, theme.px(2), 0, theme.px(2))

    def show_error(self, sentence: str, *, may_keep: bool) -> None:
        """Say what is wrong, and offer to keep a name that no table has; not while it is typed."""
        if self.is_being_typed:
            sentence = ""
        self._error.setText(sentence)
        self._error.setVisible(bool(sentence))
        part = self.part
        is_unknown = bool(part.text) and part.key is None and not part.as_typed
        self._keep.setVisible(may_keep and is_unknown and bool(sentence))
        for edit in (self.name, self.percent):
            edit.setAccessibleDescription(sentence)
        for edit, is_wrong in (
            (self.name, bool(sentence) and (is_unknown or not part.text)),
            (self.percent, bool(sentence) and part.percent is None),
        ):
            edit.setProperty("invalid", is_wrong)
            edit.style().unpolish(edit)
            edit.style().polish(edit)

    def _suggest(self, text: str) -> None:
        self._suggestions.offer(self._resolver.suggestions(text))

    def _build(self) -> None:
        self._line = QHBoxLayout()
        self._line.addWidget(self.name, 1)
        self._line.addWidget(self.percent)
        self._line.addWidget(self._sign)
        self._line.addWidget(self._remove)
        self._under = QHBoxLayout()
        self._under.addWidget(self._error, 1)
        self._under.addWidget(self._keep, 0, Qt.AlignmentFlag.AlignTop)
        self._column = QVBoxLayout(self)
        self._column.addLayout(self._line)
        self._column.addLayout(self._under)
        self._remove.clicked.connect(lambda *_checked: self.removed.emit())
        self._keep.clicked.connect(lambda *_checked: self._keep_it())
        for edit in (self.name, self.percent):
            edit.textChanged.connect(lambda _text: self._on_typed())
            edit.installEventFilter(self)
        self._remove.hide()

    def set_tab_order_after(self, before: QWidget) -> None:
        """Let Tab come to this row from a widget, and go through it."""
        for widget in (self.name, self.percent, self._remove, self._keep):
            QWidget.setTabOrder(before, widget)
            before = widget

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Tell when the focus has gone out of the row."""
        if event.type() is QEvent.Type.FocusOut and not self.is_being_typed:
            self.left.emit()
        return super().eventFilter(watched, event)

    def _on_typed(self) -> None:
        self._remove.setVisible(not self.is_empty)
        self.changed.emit()

    def _keep_it(self) -> None:
        self._as_typed = self.name.text().strip()
        self.changed.emit()
