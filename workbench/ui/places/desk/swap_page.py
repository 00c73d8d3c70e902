"""The page of a swap: what could come at the left, before and after at the right."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from workbench.errors import WorkbenchError
from workbench.formula.swaps import TYPED, Ratio
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.form_inputs import Choice, TextInput
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.swap_effect_view import EffectView
from workbench.ui.places.desk.swap_list import CandidateList
from workbench.ui.places.desk.swap_model import CandidateRow, CandidateSource
from workbench.ui.places.desk.swap_trial import SwapTrials, Trial
from workbench.ui.places.desk.typed import NotTaken, positive, read_number
from workbench.words.rework import ratio_text

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

    from workbench.ui.places.desk.work import DeskWork
    from workbench.ui.theme import Theme

_STEPS = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1, Qt.Key.Key_PageUp: -5, Qt.Key.Key_PageDown: 5}
_ROOMY = 520  # a lower page, at scale 1, shows what is said of a candidate in its row only
_FACTOR_PLACES = Decimal("0.0001")


class SwapPage(QWidget):
    """Choose what comes and by how much; Enter applies, Ctrl+Enter keeps it apart, Esc leaves."""

    left = Signal()
    """The maker goes back to the sheet; nothing was changed."""
    applied = Signal(int)
    """The line on which the swap was made, as one undo step."""
    kept = Signal(object)
    """The Formula to store as a draft of its own."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._line = 0
        self._is_applying = False
        self._source = CandidateSource(work)
        self._trials: SwapTrials | None = None
        self._theme = theme
        self._ratios: tuple[Ratio, ...] = ()
        self._factor: Decimal | None = None
        self.trial: Trial | None = None
        """What the chosen candidate would give."""
        self.setObjectName("swap_page")
        self._build(theme)
        self.set_theme(theme)
        work.assessed.connect(lambda _assessment: self._on_assessed())

    def begin(self, line_id: int) -> None:
        """Show what could come onto a line."""
        work = self._work
        self._line = line_id
        name = work.shelf.name(work.formula.line(line_id).ingredient)
        self._title.setText(work.words.say("swap-title", ingredient=name))
        self._trials = SwapTrials(work, line_id)
        self.search.clear()
        try:
            self._source.rank(line_id)
        except WorkbenchError as error:
            work.notices.tell(error)
        self._show_rows()
        self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)

    @property
    def line(self) -> int:
        """The line on which a swap is looked for."""
        return self._line

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self.list.set_theme(theme)
        self.effect.set_theme(theme)
        self._theme = theme
        self._ratio_row.set_gaps(theme.px(14), theme.px(6))
        self._parts.set_theme(theme)
        side = theme.px(20)
        self._column.setContentsMargins(side, theme.px(12), side, theme.px(10))
        self._column.setSpacing(theme.px(8))
        self._body.setSpacing(theme.px(24))
        for column in (self._left, self._right):
            column.setSpacing(theme.px(8))
        self._buttons.setSpacing(theme.px(12))
        self._fit()

    def apply(self) -> None:
        """Make the swap as one undo step, where it can be made."""
        row, trial = self.list.row, self.trial
        if row is None or trial is None or trial.rework is None:
            return
        work, after = self._work, trial.rework.formula
        before = work.shelf.name(work.formula.line(self._line).ingredient)
        text = work.words.say("swap-undo", before=before, ingredient=row.name)
        self._is_applying = True
        try:
            if work.edit(text, lambda _formula: after):
                self.applied.emit(self._line)
        finally:
            self._is_applying = False

    def keep(self) -> None:
        """Ask for the swap as a draft of its own; this draft stays as it is."""
        row, trial = self.list.row, self.trial
        if row is None or trial is None or trial.rework is None:
            return
        words, formula = self._work.words, trial.rework.formula
        if self._work.studio.read_only:
            self._work.notices.inform(words.say("edit-read-only"))
            return
        name = words.say("swap-variant-name", name=formula.name, ingredient=row.name)
        self.kept.emit(replace(formula, name=name))

    # The candidates.

    def _show_rows(self) -> None:
        typed = self.search.text()
        rows = self._source.rows(typed)
        words = self._work.words
        none = words.say("swap-none", text=typed) if typed else words.say("swap-none-ranked")
        self._none.setText("" if rows else none)
        self._none.setVisible(not rows)
        self.list.setVisible(bool(rows))
        self.list.show_rows(rows)

    def _on_chosen(self, row: CandidateRow | None) -> None:
        self._stands.setChecked(False)
        is_there = row is not None and self._trials is not None
        for part in (self._ratio, self._parts):
            part.setVisible(is_there)
        self._why.setText(
            "" if row is None else "\n".join(part for part in (row.why, row.differs) if part)
        )
        self._fit()
        if row is None or self._trials is None:
            self._show_trial(None)
            return
        self._ratios = self._trials.ratios(row.key)
        kind = self._trials.first_kind(row.ratio_kind, self._ratios)
        self._ratio.show_options(
            [(each.kind, self._ratio_text(each)) for each in self._ratios], kind
        )
        self._choose_ratio(kind)

    def _ratio_text(self, ratio: Ratio) -> str:
        words = self._work.words
        return words.say("swap-ratio-typed") if ratio.kind == TYPED else ratio_text(ratio, words)

    def _choose_ratio(self, kind: str) -> None:
        if kind == TYPED:
            self._parts.edit.setFocus(Qt.FocusReason.OtherFocusReason)
            self._parts.edit.selectAll()
            return
        ratio = next(each for each in self._ratios if each.kind == kind)
        self._factor = ratio.factor
        shown = ratio.factor.quantize(_FACTOR_PLACES)
        self._parts.edit.setText(self._work.words.number(shown))
        self._parts.accept()
        self._try()

    def _on_parts(self, text: str) -> None:
        self._ratio.box.setCurrentIndex(self._ratio.box.findData(TYPED))
        try:
            self._factor = positive(read_number(text, decimal_comma=self._work.decimal_comma))
            self._parts.refuse("")
        except NotTaken:
            self._factor = None
            self._parts.refuse(self._work.words.say("swap-parts-none"))
        self._try()

    # Before and after.

    def _try(self) -> None:
        row = self.list.row
        if row is None or self._trials is None or self._factor is None:
            self._show_trial(None)
        else:
            self._show_trial(
                self._trials.swap(row.key, self._factor, stands=self._stands.isChecked())
            )

    def _show_trial(self, trial: Trial | None) -> None:
        self.trial = trial
        words = self._work.words
        said = self._parts.error if trial is None else trial.refusal
        role = "stop"
        if trial is not None and trial.rework is not None:
            role = "caution"
            said = " ".join(
                words.say(
                    "rework-stands",
                    ingredient=trial.shelf.name(each.ingredient),
                    percent=each.percent,
                )
                for each in trial.rework.stands
            )
        self._said.setProperty("role", role)
        self._said.style().polish(self._said)
        self._said.setText(said)
        self._said.setVisible(bool(said))
        may_stand = trial is not None and trial.may_stand
        self._stands.setVisible(may_stand or self._stands.isChecked())
        is_possible = trial is not None and trial.rework is not None
        self._apply.setEnabled(is_possible)
        self._keep.setEnabled(is_possible)
        effect = self._trials.effect(trial) if trial is not None and self._trials else None
        if effect is None or trial is None:
            self.effect.show_none()
        else:
            self.effect.show_effect(effect, trial.shelf)

    def _on_assessed(self) -> None:
        if self._is_applying or not self.isVisible():
            return
        if self._work.key and any(line.id == self._line for line in self._work.formula.lines()):
            self.begin(self._line)
        else:
            self.left.emit()

    # Building, and the keys.

    def _build(self, theme: Theme) -> None:
        say = self._work.words.say
        self._title = QLabel()
        self._hint = hint = QLabel(say("swap-hint"))
        self._title.setProperty("role", "title")
        self._title.setWordWrap(True)
        hint.setProperty("role", "secondary")
        hint.setWordWrap(True)
        self._back = LinkButton(say("swap-leave"), "swap_leave")
        self._back.clicked.connect(lambda *_checked: self.left.emit())
        head = QHBoxLayout()
        head.addWidget(self._title, 1)
        head.addWidget(self._back, 0, Qt.AlignmentFlag.AlignBottom)
        self._body = QHBoxLayout()
        self._body.addLayout(self._build_left(theme), 2)
        self._body.addLayout(self._build_right(theme), 3)
        self._column = QVBoxLayout(self)
        self._column.addLayout(head)
        self._column.addWidget(hint)
        self._column.addLayout(self._body, 1)
        inputs = (self.search, self.list, self._ratio.box, self._parts.edit, self._stands)
        stops: list[QWidget] = [*inputs, self.effect, *self.effect.ladders]
        stops += [self._apply, self._keep, self._back]
        for before, after in pairwise(stops):
            QWidget.setTabOrder(before, after)

    def _build_left(self, theme: Theme) -> QVBoxLayout:
        say = self._work.words.say
        self.search = QLineEdit()
        self.search.setObjectName("swap_search")
        self.search.setPlaceholderText(say("swap-search"))
        self.search.setAccessibleName(say("swap-search"))
        self.search.setClearButtonEnabled(False)
        self.search.textEdited.connect(lambda _text: self._show_rows())
        self.search.installEventFilter(self)
        self.list = CandidateList(self._work.words, theme)
        self.list.chosen.connect(self._on_chosen)
        self._none, self._why = QLabel(), QLabel()
        self._none.setObjectName("swap_none")
        self._why.setObjectName("swap_why")
        self._why.setProperty("role", "small")
        for label in (self._none, self._why):
            label.setWordWrap(True)
            label.setMinimumWidth(1)
            label.setTextFormat(Qt.TextFormat.PlainText)
        self._ratio = Choice("swap_ratio", say("swap-ratio"))
        self._ratio.chosen.connect(self._choose_ratio)
        self._ratio.box.setMinimumWidth(1)
        self._parts = TextInput("swap_parts", say("swap-parts"), 110)
        self._parts.edit.textEdited.connect(self._on_parts)
        self._ratio_row = FlowLayout(14, 4)
        self._ratio_row.addWidget(self._ratio)
        self._ratio_row.addWidget(self._parts)
        self._left = QVBoxLayout()
        self._left.addWidget(self.search)
        self._left.addWidget(self._none)
        self._left.addWidget(self.list, 1)
        self._left.addWidget(self._why)
        self._left.addLayout(self._ratio_row)
        return self._left

    def _build_right(self, theme: Theme) -> QVBoxLayout:
        say = self._work.words.say
        self.effect = EffectView(self._work.words, theme)
        self._said = QLabel()
        self._said.setObjectName("swap_said")
        self._said.setWordWrap(True)
        self._stands = QCheckBox(say("swap-stands"))
        self._stands.setObjectName("swap_stands")
        self._stands.clicked.connect(lambda *_checked: self._try())
        self._apply = QPushButton(say("swap-apply"))
        self._apply.setObjectName("swap_apply")
        self._apply.setProperty("role", "primary")
        self._apply.clicked.connect(lambda *_checked: self.apply())
        self._keep = QPushButton(say("swap-keep"))
        self._keep.setObjectName("swap_keep")
        self._keep.clicked.connect(lambda *_checked: self.keep())
        self._buttons = QHBoxLayout()
        self._buttons.addWidget(self._apply)
        self._buttons.addWidget(self._keep)
        self._buttons.addStretch(1)
        self._right = QVBoxLayout()
        self._right.addWidget(self._said)
        self._right.addWidget(self._stands)
        self._right.addWidget(self.effect, 1)
        self._right.addLayout(self._buttons)
        return self._right

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave the room to the candidates where there is little of it."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        has_room = self.height() >= self._theme.px(_ROOMY)
        self._hint.setVisible(has_room)
        self._why.setVisible(has_room and bool(self._why.text()))

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        """Let the arrow keys of the search go through the candidates."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            step = _STEPS.get(Qt.Key(event.key()))
            if step is not None:
                self.list.step(step)
                return True
        return False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter applies, Ctrl+Enter keeps it as a variant, Esc leaves."""
        focus = self.focusWidget()
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
        elif isinstance(focus, QAbstractButton):
            focus.click()
        elif event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.keep()
        else:
            self.apply()
