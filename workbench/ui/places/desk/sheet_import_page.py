"""The page on which an old sheet becomes a draft: what was read, what not, what is open."""

from __future__ import annotations

from functools import partial
from html import escape
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from workbench.formula.old_sheet import Grid
from workbench.formula.phases import kinds_by_name
from workbench.storage.name_matching import NameMatching
from workbench.ui.editors.name_editor import Choice
from workbench.ui.places.desk.phase_edits import kind_words
from workbench.ui.places.desk.sheet_import_choices import SheetChoices
from workbench.ui.places.desk.sheet_import_model import Answer, SheetImport, answered
from workbench.ui.places.desk.sheet_import_options import RowOptions
from workbench.ui.places.desk.sheet_import_table import SheetImportTable, import_row
from workbench.ui.places.desk.sheet_import_text import ImportText
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

_LEAST_TABLE, _LEAST_REPORT = 150, 110


class SheetImportPage(QWidget):
    """Show an old sheet and what it becomes; nothing is stored before the draft is made."""

    left = Signal()
    """The maker leaves the sheet."""
    begun = Signal(object, str)
    """The formula that was read, and its notes."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._words = work.words
        self.state: SheetImport | None = None
        self._options: RowOptions | None = None
        self._matching = NameMatching(work.studio)
        self._looks: dict[str, QCheckBox] = {}
        self.setObjectName("sheet_import_page")
        # Another page of the Desk may be narrower: this one must not widen it.
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Ignored)
        self._build(theme)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        side = theme.px(20)
        self._column.setContentsMargins(side, theme.px(12), side, theme.px(8))
        self._column.setSpacing(theme.px(8))
        self._foot.setContentsMargins(side, 0, side, theme.px(10))
        self._foot.setSpacing(theme.px(12))
        self.choices.set_theme(theme)
        self.table.set_theme(theme)
        self.table.setMinimumHeight(theme.px(_LEAST_TABLE))
        self._report.setMinimumHeight(theme.px(_LEAST_REPORT))
        self._report.document().setDefaultStyleSheet(_style(theme))
        self._show()

    def begin(self, file: str, grids: tuple[Grid, ...], name: str = "") -> None:
        """Show the sheets of a file, or of what was pasted."""
        self.state = SheetImport(file, grids, decimal_comma=self._work.decimal_comma)
        self._options = RowOptions(self.state, self._words, self._work.studio.search)
        self._matching = NameMatching(self._work.studio)
        self._title.setText(self._words.say("sheet-import-title", file=file))
        self.choices.name.take_back()
        self.choices.begin(self.state, name)
        self.table.show_rows(())
        self._read()
        self.focus_first()

    def focus_first(self) -> None:
        """Put the focus on the table, or where a table can be made out."""
        has_rows = bool(self.table.rows)
        place = self.table if has_rows else self.choices.name.edit
        place.setFocus(Qt.FocusReason.OtherFocusReason)
        self._scroll.ensureWidgetVisible(place, 0, 0)

    def make(self) -> None:
        """Make the draft, if nothing is open any more."""
        state = self.state
        if state is None or not self._make.isEnabled():
            self._work.notices.inform(self._ask.text())
            return
        say = self._words.say
        name = " ".join(self.choices.name.edit.text().split()) or state.title_of(state.place)
        formula = state.formula(name, say("sheet-cli-phase"))
        formula = kinds_by_name(formula, kind_words(self._words))
        day = self._work.clock().date().isoformat()
        self.begun.emit(formula, self._text().notes(day))

    @property
    def report(self) -> str:
        """What is told of the sheet, as plain text."""
        return self._report.toPlainText()

    @property
    def open_text(self) -> str:
        """What stands in the way of the draft, empty where nothing does."""
        return self._ask.text()

    # Building.

    def _build(self, theme: Theme) -> None:
        say = self._words.say
        self._title = QLabel()
        self._title.setProperty("role", "title")
        self._title.setWordWrap(True)
        self._heading = QLabel()
        self._heading.setObjectName("sheet_import_heading")
        self._heading.setProperty("role", "secondary")
        self._heading.setWordWrap(True)
        self.choices = SheetChoices(self._words, theme)
        self.choices.changed.connect(self._read)
        self.table = SheetImportTable(self._words, theme, self._found, self._amounts, self)
        self.table.name_chosen.connect(self._on_name)
        self.table.amount_chosen.connect(self._on_amount)
        self.table.stood_on.connect(self._show_doubt)
        self._doubt = QLabel()
        self._doubt.setObjectName("sheet_import_doubt")
        self._doubt.setProperty("role", "secondary")
        self._doubt.setWordWrap(True)
        self._asked = QVBoxLayout()
        self._report = QTextBrowser()
        self._report.setObjectName("sheet_import_report")
        self._report.setAccessibleName(say("sheet-import-report"))
        self._report.setFrameShape(QFrame.Shape.NoFrame)
        self._report.setOpenLinks(False)
        held = QWidget()
        self._column = QVBoxLayout(held)
        for widget in (self._title, self._heading, self.choices):
            self._column.addWidget(widget)
        self._column.addWidget(self.table, 3)
        self._column.addWidget(self._doubt)
        self._column.addLayout(self._asked)
        self._column.addWidget(self._report, 2)
        self._scroll = scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(held)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(scroll, 1)
        outer.addLayout(self._made_foot())

    def _made_foot(self) -> QHBoxLayout:
        say = self._words.say
        self._sums = QLabel()
        self._sums.setObjectName("sheet_import_sums")
        self._sums.setProperty("role", "strong")
        self._ask = QLabel()
        self._ask.setObjectName("sheet_import_ask")
        self._ask.setProperty("role", "caution")
        self._hint = QLabel(say("sheet-import-hint"))
        self._hint.setProperty("role", "small")
        said = QVBoxLayout()
        said.setSpacing(2)
        for label in (self._sums, self._ask, self._hint):
            label.setWordWrap(True)
            said.addWidget(label)
        self._back = QPushButton(say("sheet-import-back"))
        self._back.setObjectName("sheet_import_back")
        self._back.clicked.connect(lambda *_checked: self.left.emit())
        self._make = QPushButton(say("sheet-import-make"))
        self._make.setObjectName("sheet_import_make")
        self._make.setProperty("role", "primary")
        self._make.clicked.connect(lambda *_checked: self.make())
        self._foot = QHBoxLayout()
        self._foot.addLayout(said, 1)
        self._foot.addWidget(self._back, 0, Qt.AlignmentFlag.AlignBottom)
        self._foot.addWidget(self._make, 0, Qt.AlignmentFlag.AlignBottom)
        return self._foot

    # Reading and showing.

    def _read(self) -> None:
        state = self.state
        if state is None:
            return
        asked, matching = state.asked(), self._matching

        def read(answer: Answer) -> None:
            if state is self.state:
                state.take(answer)
                self._show()

        self._heading.setText(self._words.say("sheet-import-reading"))
        self._make.setEnabled(False)
        self._work.tasks.latest(
            ("sheet import", id(self)),
            lambda: answered(asked, matching),
            read,
            self._work.notices.tell,
        )

    def _show(self) -> None:
        state = self.state
        if state is None or state.answer is None:
            return
        seen = state.seen()
        had_rows = bool(self.table.rows)
        self.table.show_rows(tuple(import_row(one, self._words) for one in seen))
        self.table.setVisible(bool(seen))
        self._show_doubt()
        self.choices.show_mark(state.answer.mark)
        count, say = sum(one.is_line for one in seen), self._words.say
        text = self._text()
        self._heading.setText(
            say("sheet-import-heading", count=count, open=state.open_count())
            if seen
            else say("sheet-import-nothing")
        )
        self._show_looks()
        self._report.setHtml(_page(text.report()))
        self._sums.setText(text.sums())
        self._show_open()
        if not had_rows and self.table.rows and self.isVisible():
            self.focus_first()

    def _show_doubt(self) -> None:
        """Say in full why the row the cursor stands on is doubtful."""
        row = self.table.current()
        said = self._words.say("sheet-import-doubt", name=row.name, reason=row.sure) if row else ""
        self._doubt.setText(said if row is not None and row.is_open else "")

    def _show_open(self) -> None:
        state, say = self.state, self._words.say
        if state is None:
            return
        count = state.open_count()
        has_line = any(one.is_line for one in state.seen())
        asked = say("sheet-import-make-open", count=count) if count else ""
        self._ask.setText(asked if has_line else say("sheet-import-make-none"))
        self._ask.setVisible(bool(self._ask.text()))
        self._make.setEnabled(has_line and not count)
        self._make.setAccessibleDescription(self._ask.text())

    def _show_looks(self) -> None:
        """Show a box to tick for each thing about the whole that is to be looked at."""
        state = self.state
        doubts = dict(state.doubts()) if state is not None else {}
        for code in [code for code in self._looks if code not in doubts]:
            box = self._looks.pop(code)
            self._asked.removeWidget(box)
            box.hide()
            box.deleteLater()
        for code, values in doubts.items():
            text = self._words.say(code, **values)  # type: ignore[arg-type]
            if code not in self._looks:
                box = self._looks[code] = QCheckBox()
                box.setObjectName(f"sheet_import_look_{code}")
                box.toggled.connect(partial(self._on_looked, code))
                self._asked.addWidget(box)
                box.show()
            self._looks[code].setText(self._words.say("sheet-import-looked", text=text))
            self._looks[code].setChecked(state is not None and state.is_confirmed(code))
        order = (self.table, *self._looks.values(), self._report, self._back, self._make)
        for before, after in pairwise(order):
            QWidget.setTabOrder(before, after)

    def _text(self) -> ImportText:
        assert self.state is not None
        return ImportText(self.state, self._words)

    # Decisions.

    def _on_name(self, row: int, key: str, name: str) -> None:
        if self._options is not None:
            self._options.take_name(row, key, name)
            self._show()

    def _on_amount(self, row: int, key: str, _text: str) -> None:
        if self._options is not None and self._options.take_amount(row, key):
            self._read()

    def _found(self, row: int, text: str, limit: int) -> tuple[Choice, ...]:
        return self._options.names(row, text, limit) if self._options is not None else ()

    def _amounts(self, row: int, text: str, limit: int) -> tuple[Choice, ...]:
        return self._options.amounts(row, text, limit) if self._options is not None else ()

    def _on_looked(self, code: str, is_looked: bool) -> None:  # noqa: FBT001 (Qt's own)
        if self.state is not None:
            self.state.confirm(code, is_confirmed=is_looked)
            self._show()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Make the draft on Ctrl+Enter, leave on Esc."""
        is_enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if is_enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.make()
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)


def _page(parts: tuple[tuple[str, tuple[str, ...]], ...]) -> str:
    said = []
    for heading, texts in parts:
        said.append(f'<p class="strong">{escape(heading)}</p>')
        said += [f"<p>{escape(text)}</p>" for text in texts]
    return "".join(said)


def _style(theme: Theme) -> str:
    palette, px = theme.palette, theme.px
    return (
        f"body, p {{ font-size: {px(13)}px; color: {palette.ink}; }}"
        f"p {{ margin-top: 0; margin-bottom: {px(2)}px; }}"
        f"p.strong {{ font-weight: 700; margin-top: {px(8)}px; }}"
    )
