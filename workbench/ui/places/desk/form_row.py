"""Product, market, target pH, batch and rest line in one row, each edited in place."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QResizeEvent
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
from workbench.ui.places.desk.formula_notes import FormulaNotes
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.notes_editor import NotesEditor, notes_text
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Role, Theme

EDITORS: dict[str, Callable[[DeskWork], FieldEditor]] = {
    "product": ProductEditor,
    "market": MarketEditor,
    "ph": PhEditor,
    "batch": BatchEditor,
    "rest": RestEditor,
}
NOTES = "notes"
_WIDEST = 300
_LINES = 2


class FormRow(QWidget):
    """Show the fields; a click, Enter or space opens the editor of one under the row.

    Where they would take more than two lines, one line sums them up and opens them.
    """

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._theme = theme
        self._editor: FieldEditor | None = None
        self._is_unfolded = False
        self._is_low = False
        # The editor is put away first: what is typed in it belongs to the formula before.
        work.opened.connect(lambda _key: self.close_editor())
        self.kept = FormulaNotes(work, self)
        self._fields: dict[str, _Field] = {}
        self._flow = FlowLayout(1, 1)
        self._summary = _Field("summary", work.words.say("form-summary"), theme, widest=0)
        self._summary.clicked.connect(
            lambda *_checked: self._unfold(is_unfolded=not self._is_unfolded)
        )
        self._summary.hide()
        self._flow.addWidget(self._summary)
        for key in (*(key for key, _text in FIELDS), NOTES):
            field = _Field(key, work.words.say(f"form-{key}"), theme)
            field.clicked.connect(lambda *_checked, key=key: self._on_clicked(key))
            self._fields[key] = field
            self._flow.addWidget(field)
        ways = ("form-notes-none", "form-notes-written")
        self._fields[NOTES].keep_room(tuple(work.words.say(way) for way in ways))
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
        self.kept.changed.connect(self._show_notes)
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
        for field in (self._summary, *self._fields.values()):
            field.set_theme(theme)
        self._fold()
        if self._editor is not None:
            self._editor.set_theme(theme)

    def show_assessment(self, _assessment: Assessment) -> None:
        """Show what the draft holds."""
        formula, shelf, words = self._work.formula, self._work.shelf, self._work.words
        for key, text in FIELDS:
            self._fields[key].set_value(text(formula, shelf, words))
        self._show_notes()
        if self._editor is not None:
            self._editor.refresh()
        self._fold()

    def open_editor(self, key: str) -> None:
        """Open the editor of a field in the place of any other."""
        self.close_editor()
        if self._is_folding():
            self._unfold(is_unfolded=True)
        editor = self._made_editor(key)
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

    def _made_editor(self, key: str) -> FieldEditor:
        if key == NOTES:
            return NotesEditor(self._work, self.kept)
        return EDITORS[key](self._work)

    def _show_notes(self) -> None:
        self._fields[NOTES].set_value(notes_text(self.kept, self._work.words))
        self._show_summary()
        if isinstance(self._editor, NotesEditor):
            self._editor.refresh()

    def _show_summary(self) -> None:
        """Name each value in the one line that sums the fields up."""
        say, formula = self._work.words.say, self._work.formula
        is_set = {
            "ph": formula.target_ph is not None,
            "batch": self._fields["batch"].value != say("form-not-set"),
            "rest": formula.rest_line is not None,
        }
        parts = [
            say(
                "form-summary-part",
                field=key,
                value=field.value,
                is_set="yes" if is_set.get(key, True) else "no",
            )
            for key, field in self._fields.items()
        ]
        self._summary.set_value(say("form-summary-value", values=" · ".join(parts)))

    def set_low(self, *, is_low: bool) -> None:
        """Take whether the place is low, so that its height is kept for the sheet."""
        if is_low != self._is_low:
            self._is_low = is_low
            self._summary.set_plain(is_plain=is_low)
            self._fold()

    def _is_folding(self) -> bool:
        """Tell whether the fields need more lines than the row may take."""
        hints = [field.sizeHint() for field in self._fields.values()]
        gap, room, lines, x = self._theme.px(20), max(self.width(), 1), 1, 0
        for hint in hints:
            if x and x + hint.width() > room:
                lines, x = lines + 1, 0
            x += hint.width() + gap
        return self._is_low or lines > _LINES

    def _fold(self) -> None:
        is_folding = self._is_folding()
        are_shown = not is_folding or self._is_unfolded
        self._summary.setVisible(is_folding)
        self._summary.setChecked(self._is_unfolded)
        for field in self._fields.values():
            field.setVisible(are_shown)

    def _unfold(self, *, is_unfolded: bool) -> None:
        self._is_unfolded = is_unfolded
        if not is_unfolded:
            self.close_editor()
        self._fold()

    def _set_tab_order(self, editor: FieldEditor) -> None:
        QWidget.setTabOrder(list(self._fields.values())[-1], editor)
        QWidget.setTabOrder(editor, self._done)

    def _on_clicked(self, key: str) -> None:
        if self.opened_field == key:
            self.close_editor()
        else:
            self.open_editor(key)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc puts the editor away, then the fields where one line sums them up."""
        if event.key() == Qt.Key.Key_Escape and self._editor is not None:
            self.close_editor()
        elif event.key() == Qt.Key.Key_Escape and self._is_unfolded and self._is_folding():
            self._unfold(is_unfolded=False)
            self._summary.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Sum the fields up where they would take too many lines."""
        super().resizeEvent(event)
        self._fold()


class _Field(QAbstractButton):
    """Paint a small label over a value."""

    def __init__(self, key: str, label: str, theme: Theme, *, widest: int = _WIDEST) -> None:
        super().__init__()
        self._label = label
        self._widest = widest
        self._value = ""
        self._room_for: tuple[str, ...] = ()
        self._is_plain = False
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

    def keep_room(self, values: tuple[str, ...]) -> None:
        """Be wide enough for each of these, so that a change moves nothing."""
        self._room_for = values
        self.updateGeometry()

    def set_plain(self, *, is_plain: bool) -> None:
        """Show the value without its label, where every line of height counts."""
        self._is_plain = is_plain
        self.updateGeometry()
        self.update()

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
        texts = (self._value, *self._room_for)
        wanted = max(
            small.horizontalAdvance(self._label), *(body.horizontalAdvance(text) for text in texts)
        )
        pad = self._theme.px(4)
        width = wanted + 2 * pad + 2
        if self._widest:
            width = min(width, self._theme.px(self._widest))
        label = 0 if self._is_plain else small.height()
        return QSize(width, label + body.height() + 2 * pad)

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
        label, value = (self._label, Role.SMALL, "secondary"), (self._value, Role.BODY, "ink")
        for text, role, colour in (value,) if self._is_plain else (label, value):
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
