"""The head of the Desk: name, state, what was found, and the way to the worksheet."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QMouseEvent
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QSizePolicy,
    QStackedLayout,
    QWidget,
)

from workbench.checks.assessment import Assessment
from workbench.checks.finding import Severity
from workbench.errors import WorkbenchError
from workbench.formula.totals import WHOLE
from workbench.ui.places.desk.elided import ElidedLabel
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words

WORKSHEET_KEY = "Ctrl+P"  # the menu of the window listens to it
LONGEST_NAME = 200


class TitleRow(QWidget):
    """Show the name, which double click or F2 changes, and ask for the worksheet."""

    worksheet_asked = Signal()
    formulas_asked = Signal()
    """The list of formulas, which is put away where the window is narrow."""
    bring_back_asked = Signal()
    """The open formula is wanted back from the archive."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._version: int | None = None
        self._is_low = False
        self._shown: tuple[str, str, str] | None = None
        self.name = _Name(work, self)
        self._state = QLabel()
        self._state.setObjectName("draft_state")
        self._state.setProperty("role", "secondary")
        self._state.setWordWrap(True)
        self.formulas = LinkButton(work.words.say("desk-list-name"), "show_formulas")
        self.formulas.hide()
        self._is_archived = False
        self._back = LinkButton(work.words.say("list-archived-back"), "bring_back")
        self._back.hide()
        self._back.clicked.connect(lambda *_checked: self.bring_back_asked.emit())
        self.formulas.clicked.connect(lambda *_checked: self.formulas_asked.emit())
        self._button = QPushButton(work.words.say("desk-worksheet"))
        self._button.setObjectName("worksheet")
        self._button.setProperty("role", "primary")
        self._button.clicked.connect(lambda *_checked: self.ask_worksheet())
        self._beside = QLabel()
        self._beside.setObjectName("worksheet_reason")
        self._beside.setProperty("role", "small")
        self._beside.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self._build(theme)
        work.opened.connect(self._on_opened)
        work.assessed.connect(self.show_assessment)
        self.show_assessment(work.assessment)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._grid.setHorizontalSpacing(theme.px(14))
        self._grid.setVerticalSpacing(theme.px(2))
        self._lower.setSpacing(theme.px(16))

    def set_low(self, *, is_low: bool) -> None:
        """Take one line where the place is low; the state is then said with the name."""
        if is_low == self._is_low:
            return
        self._is_low = is_low
        for item in (self._lower, self._button):
            if isinstance(item, QWidget):
                self._grid.removeWidget(item)
            else:
                self._grid.removeItem(item)
        self._grid.removeWidget(self.name)
        self._lay()

    def _lay(self) -> None:
        is_low = self._is_low
        row = 0 if is_low else 1
        self._grid.addWidget(self.name, 0, 0, 1, 1 if is_low else 3)
        self._grid.addLayout(self._lower, row, 1 if is_low else 0)
        self._grid.addWidget(self._button, row, 2)
        self._state.setVisible(not is_low)
        self._beside.setVisible(not is_low)

    def ask_worksheet(self) -> None:
        """Ask for the worksheet, or say why there can be none."""
        if self._button.isEnabled():
            self.worksheet_asked.emit()
        else:
            self._work.notices.inform(self._beside.text())

    def set_version(self, version: int | None) -> None:
        """Take the latest version of the open draft, None before the first."""
        if version != self._version:
            self._version = version
            self.show_assessment(self._work.assessment)

    def set_archived(self, is_archived: bool) -> None:  # noqa: FBT001
        """Say in the head whether the open formula is in the archive, with the way back."""
        if is_archived != self._is_archived:
            self._is_archived = is_archived
            self._back.setVisible(is_archived)
            self.show_assessment(self._work.assessment)

    def show_assessment(self, assessment: Assessment) -> None:
        """Show name, state and counts of the draft, and whether a worksheet can be made."""
        words = self._work.words
        name = self._work.formula.name
        state = words.say("desk-state", version=self._version or 0)
        if self._is_archived:
            state = f"{words.say('list-archived-state')}, {state}"
        said = f"{state}   {counts_text(assessment, words)}"
        reason = blocked_text(assessment, self._work)
        if (name, said, reason) == self._shown:
            return
        self._shown = (name, said, reason)
        self.name.show_name(name)
        self._state.setText(said)
        self.name.setToolTip(said)
        self._button.setEnabled(not reason)
        self._button.setAccessibleDescription(reason)
        self._beside.setText(reason or self._key_text())
        self._beside.setWordWrap(bool(reason))
        self._grid.setColumnStretch(1, 1 if reason else 0)

    def _build(self, theme: Theme) -> None:
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._lower = QHBoxLayout()
        self._lower.addWidget(self.formulas)
        self._lower.addWidget(self._state, 1)
        self._lower.addWidget(self._back)
        self._grid.addWidget(self._beside, 1, 1)
        self._lay()
        self._grid.setColumnStretch(0, 1)
        self.set_theme(theme)

    def _key_text(self) -> str:
        return QKeySequence(WORKSHEET_KEY).toString(QKeySequence.SequenceFormat.NativeText)

    def _on_opened(self, key: str) -> None:
        try:
            numbers = self._work.studio.versions.numbers(key)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            numbers = ()
        self._version = numbers[-1] if numbers else None


class _Name(QWidget):
    """Show the name, and an editor in its place while it is changed."""

    def __init__(self, work: DeskWork, parent: QWidget) -> None:
        super().__init__(parent)
        self._work = work
        self._is_renaming = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self._label = ElidedLabel()
        self._label.setObjectName("formula_name")
        self._label.setProperty("role", "title")
        self._edit = QLineEdit()
        self._edit.setObjectName("formula_name_edit")
        self._edit.setMaxLength(LONGEST_NAME)
        self._edit.setAccessibleName(work.words.say("desk-name"))
        self._edit.editingFinished.connect(self._on_finished)
        self._edit.returnPressed.connect(self._on_return)
        self._is_return_taken = False
        self._layers = QStackedLayout(self)
        self._layers.addWidget(self._label)
        self._layers.addWidget(self._edit)
        self.setAccessibleDescription(work.words.say("desk-name-hint"))

    def show_name(self, name: str) -> None:
        """Show a name."""
        self._label.setText(name)
        self.setAccessibleName(name)

    def begin(self) -> None:
        """Put the editor in the place of the name."""
        self._is_renaming = True
        self._edit.setFont(self._label.font())
        self._edit.setText(self._label.text())
        self._layers.setCurrentWidget(self._edit)
        self._edit.setFocus(Qt.FocusReason.OtherFocusReason)
        self._edit.selectAll()

    def _end(self) -> None:
        self._is_renaming = False
        had_focus = self._edit.hasFocus()
        self._layers.setCurrentWidget(self._label)
        if had_focus:
            self.setFocus(Qt.FocusReason.OtherFocusReason)

    def _on_return(self) -> None:
        # The line hands the key on to what it lies in, where it would begin anew.
        self._is_return_taken = True

    def _on_finished(self) -> None:
        if not self._is_renaming:
            return
        name = " ".join(self._edit.text().split())
        self._end()
        words = self._work.words
        if not name:
            self._work.notices.inform(words.say("desk-name-empty"))
        elif name != self._work.formula.name:
            text = words.say("desk-undo-rename", name=name)
            self._work.edit(text, lambda formula: replace(formula, name=name))

    def mouseDoubleClickEvent(self, _event: QMouseEvent) -> None:
        """Change the name."""
        self.begin()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """F2 or Enter changes the name, Esc leaves it as it was."""
        if self._is_return_taken:
            self._is_return_taken = False
        elif event.key() == Qt.Key.Key_Escape and self._is_renaming:
            self._end()
        elif event.key() in (Qt.Key.Key_F2, Qt.Key.Key_Return) and not self._is_renaming:
            self.begin()
        else:
            super().keyPressEvent(event)


def counts_text(assessment: Assessment, words: Words) -> str:
    """Return in words how much was found: 1 stop, 2 cautions."""
    counts = [(severity.word, assessment.count(severity)) for severity in Severity]
    counts.append(("accepted", len(assessment.accepted)))
    said = [words.say(f"desk-count-{word}", count=count) for word, count in counts if count]
    return ", ".join(said) or words.say("desk-count-none")


def blocked_text(assessment: Assessment, work: DeskWork) -> str:
    """Return in words why no worksheet can be made, or nothing when it can."""
    words, batch = work.words, assessment.batch_g
    if not assessment.lines:
        return words.say("desk-blocked-empty")
    if not assessment.totals.is_whole:
        rest = assessment.totals.rest
        if rest is not None:
            return words.say("desk-blocked-rest", excess=-rest)
        return words.say("desk-blocked-total", total=assessment.totals.percent)
    for line in assessment.lines:
        if line.percent > WHOLE:
            return words.say("desk-blocked-line", ingredient=work.shelf.name(line.ingredient))
    return words.say("desk-blocked-no-batch") if batch is None or batch <= 0 else ""
