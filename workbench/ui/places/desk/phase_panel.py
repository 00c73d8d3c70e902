"""The panel under the head of a phase: its name, its kind and its steps."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from workbench.formula.edits import EditRefused
from workbench.formula.formula import PHASE_KINDS, Phase, Step
from workbench.formula.line_moves import phase_of_id
from workbench.formula.phases import with_steps
from workbench.ui.places.desk.form_inputs import Choice, TextInput
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.step_reading import read_minutes, read_temperature
from workbench.ui.places.desk.typed import NotTaken

if TYPE_CHECKING:
    from collections.abc import Callable
    from decimal import Decimal

    from PySide6.QtGui import QKeyEvent

    from workbench.ui.places.desk.phase_edits import PhaseEdits
    from workbench.ui.places.desk.work import DeskWork
    from workbench.ui.theme import Theme
    from workbench.words.catalogue import Words

FIELDS = ("text", "target", "hold", "speed", "below")
_WIDTHS = {"target": 76, "hold": 76, "speed": 96, "below": 86}
_WIDTH = 640


class PhasePanel(QFrame):
    """Change name, kind and steps of one phase; each change is one undo step."""

    left = Signal()
    """The panel went, and the sheet has the keys again."""

    def __init__(self, work: DeskWork, edits: PhaseEdits, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._work = work
        self._edits = edits
        self._theme = theme
        self._words: Words = work.words
        self._phase = 0
        self._fields: list[dict[str, QLineEdit]] = []
        self._removes: list[LinkButton] = []
        self._is_building = False
        self.setObjectName("phase_panel")
        self.setAccessibleName(self._words.say("phase-panel-name"))
        self._build()
        self.hide()
        work.assessed.connect(lambda _assessment: self._refresh())
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._on_focus_changed)

    @property
    def fields(self) -> tuple[dict[str, QLineEdit], ...]:
        """The inputs of every step that is shown, the empty one for a new step last."""
        return tuple(self._fields)

    def open_at(self, phase: int, corner: QPoint, theme: Theme) -> None:
        """Open below a point of the window, with the keys in the first step."""
        self._theme = theme
        self._phase = phase
        if self.parentWidget() is not self.window_of_sheet():
            self.setParent(self.window_of_sheet())
        self._dress()
        self._rebuild(0)
        self._refresh()
        self._put(corner)
        self.show()
        self.raise_()
        self._fields[0]["text"].setFocus(Qt.FocusReason.PopupFocusReason)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        if self.isVisible():
            self._dress()

    def window_of_sheet(self) -> QWidget:
        """Return the window the panel lies over."""
        parent = self.parentWidget()
        return parent.window() if parent is not None else self

    def _build(self) -> None:
        words = self._words
        self._name = TextInput("phase_name", words.say("phase-name"), 250)
        self._name.typed.connect(self._on_name)
        self._kind = Choice("phase_kind", words.say("phase-kind"))
        kinds = [(kind, words.say(f"phase-kind-{kind}")) for kind in PHASE_KINDS]
        self._kind.show_options(kinds, PHASE_KINDS[0])
        self._kind.chosen.connect(lambda kind: self._edits.set_kind(self._phase, kind))
        self._error = QLabel()
        self._error.setObjectName("phase_error")
        self._error.setProperty("role", "stop")
        self._error.setWordWrap(True)
        self._error.hide()
        self._grid = QGridLayout()
        for place, field in enumerate(FIELDS):
            label = QLabel(words.say(f"phase-step-{field}"))
            label.setProperty("role", "small")
            self._grid.addWidget(label, 0, place)
        self._grid.setColumnStretch(0, 1)
        self._done = QPushButton(words.say("phase-done"))
        self._done.setObjectName("phase_done")
        self._done.clicked.connect(lambda *_checked: self.close())
        head = QHBoxLayout()
        head.addWidget(self._name)
        head.addWidget(self._kind)
        head.addStretch(1)
        foot = QHBoxLayout()
        foot.addWidget(self._error, 1)
        foot.addWidget(self._done, 0, Qt.AlignmentFlag.AlignRight)
        self._column = QVBoxLayout(self)
        self._column.addLayout(head)
        self._column.addLayout(self._grid)
        self._column.addLayout(foot)
        self._layouts = (head, foot)

    def _dress(self) -> None:
        theme, shade = self._theme, self._theme.palette
        self.setStyleSheet(
            f"#phase_panel {{ background: {shade.surface}; border: 1px solid {shade.secondary}; }}"
        )
        side = theme.px(14)
        self._column.setContentsMargins(side, theme.px(10), side, theme.px(12))
        self._column.setSpacing(theme.px(10))
        for layout in self._layouts:
            layout.setSpacing(theme.px(16))
        self._grid.setHorizontalSpacing(theme.px(12))
        self._grid.setVerticalSpacing(theme.px(4))
        self._name.set_theme(theme)
        for fields in self._fields:
            for field, width in _WIDTHS.items():
                fields[field].setFixedWidth(theme.px(width))

    def _put(self, corner: QPoint) -> None:
        window = self.window_of_sheet()
        width = min(self._theme.px(_WIDTH), window.width() - self._theme.px(16))
        self.setFixedWidth(width)
        height = self.sizeHint().height()
        row = self._theme.px(32)
        top = corner.y() + 1
        if top + height > window.height():
            top = max(corner.y() - row - height, 0)
        left = max(min(corner.x(), window.width() - width - self._theme.px(8)), 0)
        self.setGeometry(left, top, width, height)

    # Showing.

    def _shown_phase(self) -> Phase | None:
        try:
            return phase_of_id(self._work.formula, self._phase)
        except KeyError:
            return None

    def _refresh(self) -> None:
        if not self._phase:
            return
        phase = self._shown_phase()
        if phase is None:
            self.close()
            return
        self._name.show_text(phase.name)
        self._name.edit.setPlaceholderText(self._edits.name(phase.id))
        self._kind.box.setCurrentIndex(self._kind.box.findData(phase.kind))
        if len(self._fields) != len(phase.steps) + 1:
            self._rebuild(len(phase.steps) + 1)
        for fields, step in zip(self._fields, (*phase.steps, Step("")), strict=True):
            for name, text in self._texts(step).items():
                if not fields[name].isModified():
                    fields[name].setText(text)

    def _texts(self, step: Step) -> dict[str, str]:
        def with_unit(message: str, value: Decimal | None) -> str:
            if value is None:
                return ""
            return self._words.say(message, value=self._words.number(value))

        return {
            "text": step.text,
            "target": with_unit("phase-step-degrees", step.target_c),
            "hold": with_unit("phase-step-minutes", step.hold_min),
            "speed": step.speed,
            "below": with_unit("phase-step-degrees", step.max_add_c),
        }

    def _rebuild(self, count: int) -> None:
        """Show so many rows; those that stay are left alone, as one of them is being typed in."""
        self._is_building = True
        while len(self._fields) > count:
            self._drop_row()
        while len(self._fields) < count:
            self._add_row(len(self._fields) + 1)
        for number, (fields, remove) in enumerate(zip(self._fields, self._removes, strict=True), 1):
            is_new = number == count
            if is_new and remove.hasFocus():
                fields["text"].setFocus(Qt.FocusReason.OtherFocusReason)
            remove.setVisible(not is_new)
            for field, edit in fields.items():
                example = self._words.say(f"phase-step-{field}-example") if is_new else ""
                edit.setPlaceholderText(example)
        self._order_tabs()
        self._is_building = False
        if self.isVisible():
            self._put(self.geometry().topLeft() - QPoint(0, 1))

    def _drop_row(self) -> None:
        fields, remove = self._fields.pop(), self._removes.pop()
        held = any(edit.hasFocus() for edit in fields.values())
        if held and self._fields:
            self._fields[-1]["text"].setFocus(Qt.FocusReason.OtherFocusReason)
        for widget in (*fields.values(), remove):
            self._grid.removeWidget(widget)
            widget.hide()
            widget.deleteLater()

    def _add_row(self, number: int) -> None:
        fields: dict[str, QLineEdit] = {}
        for place, field in enumerate(FIELDS):
            edit = QLineEdit()
            edit.setObjectName(f"phase_step_{number}_{field}")
            said = self._words.say(f"phase-step-{field}")
            edit.setAccessibleName(self._words.say("phase-step-cell", number=number, field=said))
            if field in _WIDTHS:
                edit.setFixedWidth(self._theme.px(_WIDTHS[field]))
            edit.editingFinished.connect(
                lambda edit=edit, field=field: self._on_typed(number - 1, field, edit)
            )
            fields[field] = edit
            self._grid.addWidget(edit, number, place)
        remove = LinkButton(self._words.say("phase-step-remove"), f"phase_remove_{number}")
        remove.setAccessibleName(self._words.say("phase-step-remove-spoken", number=number))
        remove.clicked.connect(lambda *_checked: self._remove(number - 1))
        self._grid.addWidget(remove, number, len(FIELDS))
        self._fields.append(fields)
        self._removes.append(remove)

    def _order_tabs(self) -> None:
        """Let Tab go through the steps row by row, then to Done."""
        chain: list[QWidget] = [self._name.edit, self._kind.box]
        for fields, remove in zip(self._fields, self._removes, strict=True):
            chain.extend((*fields.values(), remove))
        chain.append(self._done)
        for before, after in pairwise(chain):
            QWidget.setTabOrder(before, after)

    # Editing.

    def _on_name(self, text: str) -> None:
        self._name.accept()
        self._edits.rename(self._phase, text)

    def _remove(self, place: int) -> None:
        phase = self._shown_phase()
        if phase is not None:
            self._edits.set_steps(self._phase, (*phase.steps[:place], *phase.steps[place + 1 :]))

    def _on_typed(self, place: int, field: str, edit: QLineEdit) -> None:
        phase = self._shown_phase()
        if not edit.isModified() or phase is None:
            return
        steps = list(phase.steps)
        step = steps[place] if place < len(steps) else Step("")
        try:
            changed = self._changed(step, field, edit.text())
            new = (*steps[:place], changed, *steps[place + 1 :])
            with_steps(self._work.formula, self._phase, new)
        except NotTaken as refused:
            self._refuse(edit, self._words.say(refused.reason_id, **refused.values))
            return
        except EditRefused as refused:
            self._refuse(edit, self._words.say(refused.reason_id, **refused.values))
            return
        self._refuse(edit, "")
        edit.setModified(False)
        self._edits.set_steps(self._phase, new)
        self._refresh()

    def _changed(self, step: Step, field: str, text: str) -> Step:
        comma = self._work.decimal_comma
        change: dict[str, Callable[[], Step]] = {
            "text": lambda: replace(step, text=text.strip()),
            "speed": lambda: replace(step, speed=text.strip()),
            "target": lambda: replace(step, target_c=read_temperature(text, decimal_comma=comma)),
            "below": lambda: replace(step, max_add_c=read_temperature(text, decimal_comma=comma)),
            "hold": lambda: replace(step, hold_min=read_minutes(text, decimal_comma=comma)),
        }
        return change[field]()

    def _refuse(self, edit: QLineEdit, sentence: str) -> None:
        """Say why a text is not taken and leave it to be mended."""
        edit.setProperty("invalid", bool(sentence))
        edit.setAccessibleDescription(sentence)
        edit.style().unpolish(edit)
        edit.style().polish(edit)
        self._error.setText(sentence)
        self._error.setVisible(bool(sentence))

    def _on_focus_changed(self, _before: QWidget | None, now: QWidget | None) -> None:
        """Go when the maker works elsewhere in the window."""
        if now is None or self._is_building or not self.isVisible():
            return
        if now is not self and not self.isAncestorOf(now) and now.window() is self.window():
            if self._error.text():  # what was typed and not taken is not lost without a word
                self._work.notices.inform(self._error.text())
            self._phase = 0
            self._refuse_nothing()
            self.hide()

    def close(self) -> bool:
        """Put the panel away; what was typed and not taken goes."""
        was = self.isVisible()
        self.setFocus(Qt.FocusReason.OtherFocusReason)  # what is being typed is taken first
        self._phase = 0
        self._refuse_nothing()
        self.hide()
        if was:
            self.left.emit()
        return True

    def _refuse_nothing(self) -> None:
        self._error.setText("")
        self._error.hide()
        for fields in self._fields:
            for edit in fields.values():
                edit.setModified(False)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Close on Escape; Enter goes to the next field, as Tab does."""
        if event.key() == Qt.Key.Key_Escape:
            self._refuse_nothing()
            self.close()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.focusNextChild()
        else:
            super().keyPressEvent(event)
