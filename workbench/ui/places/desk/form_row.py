"""Product, market, target pH, batch and rest line in one row, each edited in place."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QFrame,
    QHBoxLayout,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from workbench.checks.assessment import Assessment
from workbench.ui.places.desk.batch_editor import BatchEditor
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.form_editors import (
    FieldEditor,
    MarketEditor,
    PhEditor,
    ProductEditor,
    RestEditor,
)
from workbench.ui.places.desk.form_words import FIELDS
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Role, Theme

EDITORS: dict[str, Callable[[DeskWork], FieldEditor]] = {
    "product": ProductEditor,
    "market": MarketEditor,
    "ph": PhEditor,
    "batch": BatchEditor,
    "rest": RestEditor,
}
_WIDEST = 300


class FormRow(QWidget):
    """Show the five fields; a click, Enter or space opens the editor of one under the row."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._theme = theme
        self._editor: FieldEditor | None = None
        self._fields: dict[str, _Field] = {}
        self._flow = FlowLayout(1, 1)
        for key, _text in FIELDS:
            field = _Field(key, work.words.say(f"form-{key}"), theme)
            field.clicked.connect(lambda *_checked, key=key: self._on_clicked(key))
            self._fields[key] = field
            self._flow.addWidget(field)
        self._done = LinkButton(work.words.say("form-done"), "form_done")
        self._done.clicked.connect(lambda *_checked: self.close_editor())
        self._strip = QWidget()
        self._strip.hide()
        self._strip_row = QHBoxLayout(self._strip)
        self._strip_row.addWidget(self._done, 0, Qt.AlignmentFlag.AlignTop)
        self._column = QVBoxLayout(self)
        self._column.addWidget(_rule())
        self._column.addLayout(self._flow)
        self._column.addWidget(self._strip)
        self._column.addWidget(_rule())
        self.set_theme(theme)
        work.assessed.connect(self.show_assessment)
        work.opened.connect(lambda _key: self.close_editor())
        self.show_assessment(work.assessment)

    @property
    def opened_field(self) -> str:
        """The key of the field whose editor is open, or nothing."""
        return self._editor.field() if self._editor else ""

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self._flow.set_gaps(theme.px(20), theme.px(4))
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(theme.px(4))
        self._strip_row.setContentsMargins(theme.px(4), theme.px(2), 0, theme.px(8))
        self._strip_row.setSpacing(theme.px(16))
        for field in self._fields.values():
            field.set_theme(theme)
        if self._editor is not None:
            self._editor.set_theme(theme)

    def show_assessment(self, _assessment: Assessment) -> None:
        """Show what the draft holds."""
        formula, shelf, words = self._work.formula, self._work.shelf, self._work.words
        for key, text in FIELDS:
            self._fields[key].set_value(text(formula, shelf, words))
        if self._editor is not None:
            self._editor.refresh()

    def open_editor(self, key: str) -> None:
        """Open the editor of a field in the place of any other."""
        self.close_editor()
        editor = EDITORS[key](self._work)
        editor.setObjectName(f"form_editor_{key}")
        editor.set_theme(self._theme)
        self._editor = editor
        self._strip_row.insertWidget(0, editor, 1)
        self._strip.show()
        editor.show()
        self._fields[key].setChecked(True)
        self._set_tab_order(editor)
        _first_input(editor).setFocus(Qt.FocusReason.OtherFocusReason)

    def close_editor(self) -> None:
        """Put the editor away; what was typed and not taken is forgotten."""
        if self._editor is None:
            return
        editor, self._editor = self._editor, None
        editor.take_back()
        field = self._fields[editor.field()]
        field.setChecked(False)
        if editor.isAncestorOf(self.focusWidget() or self) or self._done.hasFocus():
            field.setFocus(Qt.FocusReason.OtherFocusReason)
        self._strip_row.removeWidget(editor)
        editor.hide()
        editor.deleteLater()
        self._strip.hide()

    def _set_tab_order(self, editor: FieldEditor) -> None:
        QWidget.setTabOrder(list(self._fields.values())[-1], editor)
        QWidget.setTabOrder(editor, self._done)

    def _on_clicked(self, key: str) -> None:
        if self.opened_field == key:
            self.close_editor()
        else:
            self.open_editor(key)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc puts the editor away."""
        if event.key() == Qt.Key.Key_Escape and self._editor is not None:
            self.close_editor()
        else:
            super().keyPressEvent(event)


class _Field(QAbstractButton):
    """Paint a small label over a value."""

    def __init__(self, key: str, label: str, theme: Theme) -> None:
        super().__init__()
        self._label = label
        self._value = ""
        self._theme = theme
        self.setObjectName(f"form_field_{key}")
        self.setCheckable(True)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    @property
    def value(self) -> str:
        """The value that is shown."""
        return self._value

    def set_value(self, value: str) -> None:
        """Show a value."""
        if value == self._value:
            return
        self._value = value
        self.setAccessibleName(f"{self._label}: {value}")
        self.setToolTip(value)
        self.updateGeometry()
        self.update()

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """Return room for the value, up to a share of the row."""
        small = QFontMetrics(self._theme.font(Role.SMALL))
        body = QFontMetrics(self._theme.font())
        wanted = max(small.horizontalAdvance(self._label), body.horizontalAdvance(self._value))
        pad = self._theme.px(4)
        width = min(wanted + 2 * pad + 2, self._theme.px(_WIDEST))
        return QSize(width, small.height() + body.height() + 2 * pad)

    def minimumSizeHint(self) -> QSize:
        """Return room for the label."""
        small = QFontMetrics(self._theme.font(Role.SMALL))
        return QSize(small.horizontalAdvance(self._label), self.sizeHint().height())

    def nextCheckState(self) -> None:
        """Leave the state to the row, which knows what is open."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter opens like space."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint label, value, and a line under the field in use."""
        painter = QPainter(self)
        theme, pad = self._theme, self._theme.px(4)
        if self.hasFocus() or self.underMouse():
            ground = "surface" if self.hasFocus() else "wash"
            painter.fillRect(self.rect(), theme.colour(ground))
        if self.hasFocus() or self.isChecked():
            thick = theme.px(2)
            foot = QRect(0, self.height() - thick, self.width(), thick)
            painter.fillRect(foot, theme.colour("accent"))
        inner = self.rect().adjusted(pad, pad, -pad, -pad)
        for text, role, colour in (
            (self._label, Role.SMALL, "secondary"),
            (self._value, Role.BODY, "ink"),
        ):
            font = theme.font(role)
            metrics = QFontMetrics(font)
            painter.setFont(font)
            painter.setPen(theme.colour(colour))
            cut = metrics.elidedText(text, Qt.TextElideMode.ElideRight, inner.width())
            painter.drawText(inner, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop, cut)
            inner.setTop(inner.top() + metrics.height())
        painter.end()


def _first_input(editor: FieldEditor) -> QWidget:
    return next(
        child
        for child in editor.findChildren(QWidget)
        if child.focusPolicy() & Qt.FocusPolicy.TabFocus
    )


def _rule() -> QFrame:
    rule = QFrame()
    rule.setProperty("role", "rule")
    return rule
