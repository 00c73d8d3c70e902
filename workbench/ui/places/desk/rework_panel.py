"""The panel under the sheet: ways to change several lines, and exactly what each would change."""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QAbstractButton,
    QBoxLayout,
    QCheckBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QListWidgetItem,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from workbench.formula.totals import totals
from workbench.ui.places.desk.before_after import BeforeAfter, Cells
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.form_inputs import Choice, TextInput
from workbench.ui.places.desk.rework_way import Asked, Way
from workbench.ui.places.desk.swap_trial import Trial, tried
from workbench.ui.places.desk.typed import NotTaken, read_number
from workbench.ui.widgets.choice_list import ChoiceList

if TYPE_CHECKING:
    from PySide6.QtGui import QHideEvent, QKeyEvent, QResizeEvent, QShowEvent

    from workbench.formula.line_change import LineChange, Rework
    from workbench.ui.places.desk.work import DeskWork
    from workbench.ui.theme import Theme

_HEIGHT, _WIDE = 250, 600
_INPUTS = 2
_ROW, _ROWS_ALONE = 28, 3
_UNBOUNDED = 16777215  # Qt's own widest measure


class ReworkPanel(QFrame):
    """Choose a way with the arrow keys, type its numbers; Enter applies, Esc leaves."""

    left = Signal()
    """The panel is to go; nothing was changed."""
    turned = Signal()
    """The panel came or went."""
    applied = Signal()
    """The change was made as one undo step."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._theme = theme
        self._ways: tuple[Way, ...] = ()
        self._is_applying = False
        self._is_alone = False
        self.trial: Trial | None = None
        """What the chosen way would give."""
        self.setObjectName("rework_panel")
        self._build(theme)
        self.set_theme(theme)
        self.hide()
        work.assessed.connect(lambda _assessment: self._on_assessed())
        work.opened.connect(lambda _key: self.hide())

    @property
    def text(self) -> str:
        """What the panel says of the chosen way, as its texts hold it."""
        return f"{self._said.text()}\n{self._note.text()}\n{self._preview.text()}"

    def begin(self, title: str, name: str, ways: tuple[Way, ...]) -> None:
        """Show ways under a title, the cursor on the first."""
        self._ways = ways
        self._title.setText(title)
        self.setAccessibleName(title)
        self.list.setAccessibleName(name)
        self.list.blockSignals(True)  # noqa: FBT003
        self.list.clear()
        for way in ways:
            self.list.addItem(QListWidgetItem(way.text))
        self.list.setCurrentRow(0)
        self.list.blockSignals(False)  # noqa: FBT003
        self.show()
        self._show_way()
        self.list.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self.set_alone(is_alone=self._is_alone)
        self.list.set_theme(theme)
        self._column.setContentsMargins(0, theme.px(8), 0, theme.px(8))
        self._column.setSpacing(theme.px(6))
        self._body.setSpacing(theme.px(20))
        self._right.setSpacing(theme.px(6))
        self._fields.set_gaps(theme.px(16), theme.px(4))
        self._foot.setSpacing(theme.px(12))
        for field in self.inputs:
            field.set_theme(theme)
        if self.isVisible():
            self._show_trial()

    def set_alone(self, *, is_alone: bool) -> None:
        """Take all the room there is, where the sheet would have none left beside the panel."""
        self._is_alone = is_alone
        self.setMaximumHeight(_UNBOUNDED if is_alone else self._theme.px(_HEIGHT))
        ways = QBoxLayout.Direction
        self._body.setDirection(ways.TopToBottom if is_alone else ways.LeftToRight)
        rows = self._theme.px(_ROW * min(self.list.count(), _ROWS_ALONE)) + 2
        self.list.setMaximumHeight(rows if is_alone else _UNBOUNDED)

    def apply(self) -> None:
        """Make the change as one undo step, where it can be made."""
        way, trial = self._way, self.trial
        if way is None or trial is None or trial.rework is None or not self._apply.isEnabled():
            return
        after = trial.rework.formula
        self._is_applying = True
        try:
            if self._work.edit(way.undo, lambda _formula: after):
                self.applied.emit()
        finally:
            self._is_applying = False

    # The chosen way.

    @property
    def _is_narrow(self) -> bool:
        """Tell whether there is no room for what each line gains beside before and after."""
        return not self._is_alone and self.width() < self._theme.px(_WIDE)

    @property
    def _way(self) -> Way | None:
        row = self.list.currentRow()
        return self._ways[row] if 0 <= row < len(self._ways) else None

    def _show_way(self) -> None:
        way = self._way
        self._stands.setChecked(False)
        asked = () if way is None else way.inputs
        for place, field in enumerate(self.inputs):
            field.setVisible(place < len(asked))
            if place < len(asked):
                label, number = asked[place]
                field.rename(label)
                field.edit.setText(self._work.words.number(number))
                field.accept()
        keeps = () if way is None else way.keeps
        self._keep.setVisible(bool(keeps))
        if keeps:
            self._keep.show_options(keeps, keeps[0][0])
        self._fields.invalidate()
        self._try()

    def _try(self) -> None:
        way = self._way
        self.trial = None
        if way is not None:
            asked = self._asked(way)
            if asked is not None:
                formula = self._work.formula
                self.trial = tried(lambda: way.make(formula, asked), way.shelf, self._work)
        self._show_trial()

    def _asked(self, way: Way) -> Asked | None:
        numbers: list[Decimal] = []
        for field in self.inputs[: len(way.inputs)]:
            try:
                number = read_number(field.edit.text(), decimal_comma=self._work.decimal_comma)
                field.refuse("")
            except NotTaken as refused:
                field.refuse(self._work.words.say(refused.reason_id, **refused.values))
                return None
            numbers.append(number)
        keep = str(self._keep.box.currentData() or "") if way.keeps else ""
        return Asked(tuple(numbers), keep, self._stands.isChecked())

    def _show_trial(self) -> None:
        way, trial = self._way, self.trial
        rework = trial.rework if trial is not None else None
        self._say(self._refusal(trial), "stop" if rework is None else "caution")
        self._note.setText("" if way is None or rework is None else way.note)
        self._note.setVisible(bool(self._note.text()))
        self._preview.setText("" if rework is None or trial is None else self._table(rework, trial))
        may_stand = trial is not None and trial.may_stand
        self._stands.setVisible(may_stand or self._stands.isChecked())
        self._apply.setEnabled(rework is not None and rework.formula != self._work.formula)

    def _refusal(self, trial: Trial | None) -> str:
        if trial is None:
            return next((field.error for field in self.inputs if field.error), "")
        if trial.rework is None:
            return trial.refusal
        return " ".join(
            self._work.words.say(
                "rework-stands", ingredient=trial.shelf.name(each.ingredient), percent=each.percent
            )
            for each in trial.rework.stands
        )

    def _say(self, text: str, role: str) -> None:
        self._said.setProperty("role", role)
        self._said.style().unpolish(self._said)
        self._said.style().polish(self._said)
        self._said.setText(text)
        self._said.setVisible(bool(text))

    def _table(self, rework: Rework, trial: Trial) -> str:
        say, text = self._work.words.say, BeforeAfter(self._work.words, self._theme)
        if not rework.changes:
            is_same = rework.formula == self._work.formula
            is_noted = self._way is not None and bool(self._way.note)
            message = "rebalance-nothing" if is_same else "rebalance-same"
            return "" if is_noted and not is_same else text.quiet(say(message))
        rows = [_cells(change, trial, text) for change in rework.changes]
        before, after = totals(self._work.formula).percent, totals(rework.formula).percent
        gain = text.gain(after - before) if after != before else ""
        rows.append(Cells(say("effect-total"), text.percent(before), text.percent(after), gain))
        return text.table(say("rework-lines"), rows, has_change=not self._is_narrow)

    def _on_assessed(self) -> None:
        if not self.isVisible() or self._is_applying:
            return
        self.left.emit()  # the sheet was changed elsewhere, so what is shown is not true any more

    # Building, and the keys.

    def _build(self, theme: Theme) -> None:
        say = self._work.words.say
        rule = QFrame()
        rule.setProperty("role", "ink-rule")
        self._title = QLabel()
        self._title.setObjectName("rework_title")
        self._title.setProperty("role", "strong")
        self.list = ChoiceList(theme)
        self.list.setObjectName("rework_ways")
        self.list.currentRowChanged.connect(lambda _row: self._show_way())
        self.inputs = tuple(_Number(f"rework_{place}", "", 130) for place in range(_INPUTS))
        self._fields = FlowLayout(16, 4)
        for field in self.inputs:
            field.edit.textEdited.connect(lambda _text: self._try())
            self._fields.addWidget(field)
        self._keep = Choice("rework_keep", say("rebalance-keep"))
        self._keep.chosen.connect(lambda _value: self._try())
        self._fields.addWidget(self._keep)
        self._said, self._note, self._preview = QLabel(), QLabel(), QLabel()
        names = ("rework_said", "rework_note", "rework_preview")
        for name, label in zip(names, (self._said, self._note, self._preview), strict=True):
            label.setObjectName(name)
            label.setWordWrap(True)
            label.setMinimumWidth(1)
        self._preview.setTextFormat(Qt.TextFormat.RichText)
        self._stands = QCheckBox(say("swap-stands"))
        self._stands.setObjectName("rework_stands")
        self._stands.clicked.connect(lambda *_checked: self._try())
        self._body = QHBoxLayout()
        self._body.addWidget(self.list, 4)
        self._body.addWidget(self._build_right(), 5)
        self._column = QVBoxLayout(self)
        for part in (rule, self._title):
            self._column.addWidget(part)
        self._column.addLayout(self._body, 1)
        self._column.addLayout(self._build_foot())
        edits = tuple(field.edit for field in self.inputs)
        stops = (self.list, *edits, self._keep.box, self._stands, self._apply, self._leave)
        for before, after in pairwise(stops):
            QWidget.setTabOrder(before, after)

    def _build_right(self) -> QScrollArea:
        inside = QWidget()
        self._right = QVBoxLayout(inside)
        self._right.setContentsMargins(0, 0, 0, 0)
        self._right.addLayout(self._fields)
        for part in (self._said, self._stands, self._note, self._preview):
            self._right.addWidget(part)
        self._right.addStretch(1)
        area = QScrollArea()
        area.setWidgetResizable(True)
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        area.setWidget(inside)
        return area

    def _build_foot(self) -> QHBoxLayout:
        say = self._work.words.say
        self._apply = QPushButton(say("rework-apply"))
        self._apply.setObjectName("rework_apply")
        self._apply.setProperty("role", "primary")
        self._apply.clicked.connect(lambda *_checked: self.apply())
        self._leave = QPushButton(say("rework-leave"))
        self._leave.setObjectName("rework_leave")
        self._leave.clicked.connect(lambda *_checked: self.left.emit())
        self._foot = QHBoxLayout()
        self._foot.addWidget(self._apply)
        self._foot.addWidget(self._leave)
        self._foot.addStretch(1)
        return self._foot

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave a column out where there is little room."""
        super().resizeEvent(event)
        if not self.isHidden():
            self._show_trial()

    def showEvent(self, event: QShowEvent) -> None:
        """Tell that there is less room for the sheet."""
        super().showEvent(event)
        self.turned.emit()

    def hideEvent(self, event: QHideEvent) -> None:
        """Tell that the sheet has its room again."""
        super().hideEvent(event)
        self.turned.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter applies, Esc leaves."""
        focus = self.focusWidget()
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
        elif isinstance(focus, QAbstractButton):
            focus.click()
        else:
            self.apply()


class _Number(TextInput):
    def rename(self, label: str) -> None:
        """Ask for another number."""
        self._label.setText(label)
        self._label.setWordWrap(True)
        self.edit.setAccessibleName(label)


def _cells(change: LineChange, trial: Trial, text: BeforeAfter) -> Cells:
    shelf = trial.shelf
    shown = change.to_ingredient or change.ingredient or ""
    return Cells(
        shelf.name(shown),
        "" if change.percent is None else text.percent(change.percent),
        "" if change.to_percent is None else text.percent(change.to_percent),
        text.gain(change.by) if change.by else "",
        shelf.name(change.ingredient or "") if change.is_swap else "",
    )
