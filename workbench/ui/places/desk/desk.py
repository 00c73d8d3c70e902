"""The Desk: formula list, the sheet under its head, and what to look at."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from workbench.formula.formula import Formula
from workbench.ui.places.desk.first_page import FirstPage
from workbench.ui.places.desk.form_row import FormRow
from workbench.ui.places.desk.label_page import LabelPage
from workbench.ui.places.desk.list_panel import FormulaList
from workbench.ui.places.desk.list_steps import DeskSteps
from workbench.ui.places.desk.new_page import NewPage
from workbench.ui.places.desk.rework_ways import ReworkWays
from workbench.ui.places.desk.sheet import SheetView
from workbench.ui.places.desk.sheet_import_ways import SheetImportWays
from workbench.ui.places.desk.side import Side
from workbench.ui.places.desk.title_row import TitleRow
from workbench.ui.places.desk.version_ways import VersionWays
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Appearance, Theme

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent, QUndoStack

LIST_WIDTH, SIDE_WIDTH = 190, 345
_LIST_SHARE, _SIDE_SHARE = 0.18, 0.30
NARROW = 800
"""Under this width, at scale 1, the list is put away until it is asked for."""
LOW = 400
"""Under this height, at scale 1, head and form row take one line each."""
_NARROW_SHARES = (0.30, 0.36)


class Desk(QWidget):
    """Compose the panels around the sheet of one draft."""

    worksheet_asked = Signal()
    import_asked = Signal()
    sample_asked = Signal()

    def __init__(
        self, work: DeskWork, appearance: Appearance, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        theme = appearance.theme
        self._work = work
        self._theme = theme
        self._is_parted_by_hand = False
        self._is_list_wanted = False
        self.list = FormulaList(work, theme)
        self.first = FirstPage(work.words, theme)
        self.new = NewPage(work, theme)
        self.title = TitleRow(work, theme)
        self.form = FormRow(work, theme)
        self.sheet = SheetView(work, theme)
        self.side = Side(work, theme)
        self.label = LabelPage(work, theme)
        self.versions = VersionWays(work, theme, self, self.list.make)
        self.old_sheets = SheetImportWays(work, theme, self, self.list.make)
        self.rework = ReworkWays(work, theme, self.sheet, self.form, self.list.make)
        self._build()
        self.set_theme(theme)
        appearance.changed.connect(self.set_theme)
        self.title.worksheet_asked.connect(self.worksheet_asked)
        self.side.findings.line_wanted.connect(self._go_to_line)
        self.side.findings.page_wanted.connect(self.show_label)
        self.label.left.connect(self._on_left)
        self.side.findings.swap_wanted.connect(self.rework.swap)
        self.rework.page_wanted.connect(self._show_swap)
        self.rework.left.connect(self._on_left)
        self.versions.page_wanted.connect(self._show_versions)
        self.versions.left.connect(self._on_left)
        self.versions.put_away.connect(self.focus_place)
        self.old_sheets.page_wanted.connect(self._show_old_sheet)
        self.old_sheets.left.connect(self._on_left)
        self.old_sheets.listen_for_paste(self.list.view)
        self.list.version_read.connect(self.title.set_version)
        self.list.archive_read.connect(self.title.set_archived)
        self.title.bring_back_asked.connect(self.list.actions_of_list.bring_back_open)
        self.steps = DeskSteps(work.session.stack, self.list.actions_of_list.steps.stack, self.list)
        self.title.formulas_asked.connect(self.show_list)
        self.list.new_wanted.connect(self.begin_new)
        self.list.listed.connect(self._show_first)
        self.list.actions_of_list.notes_wanted.connect(self._show_notes)
        self.first.new_wanted.connect(self.begin_new)
        self.first.import_wanted.connect(self.import_asked)
        self.first.sample_wanted.connect(self.sample_asked)
        self.new.begun.connect(self._on_begun)
        self.new.left.connect(self._on_left)
        work.opened.connect(lambda _key: self._show_state())
        self._show_state()

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        for panel in (self.list, self.title, self.form, self.sheet, self.side):
            panel.set_theme(theme)
        for page in (self.first, self.new, self.label, self.versions, self.old_sheets, self.rework):
            page.set_theme(theme)
        self._fit_height()
        self._part()

    @property
    def undo_stack(self) -> QUndoStack:
        """The steps that undo takes back now: of the draft, or of the list."""
        return self.steps.active

    def refresh(self) -> None:
        """Read the list again, after something was stored from elsewhere."""
        self.list.refresh()

    def ask_worksheet(self) -> None:
        """Ask for the worksheet of the open draft, or say why there can be none."""
        if self._work.key:
            self.title.ask_worksheet()

    def _build(self) -> None:
        centre = QWidget()
        self._centre_column = QVBoxLayout(centre)
        self._centre_column.addWidget(self.title)
        self._centre_column.addWidget(self.rework.note)
        self._centre_column.addWidget(self.form)
        self._centre_column.addWidget(self.sheet, 1)
        self._centre_column.addWidget(self.rework.panel)
        self._pages = QStackedWidget()
        self._pages.addWidget(centre)
        self._pages.addWidget(self.first)
        self._pages.addWidget(self.new)
        self._pages.addWidget(self.label)
        self._pages.addWidget(self.versions.page)
        self._pages.addWidget(self.rework.page)
        middle = QWidget()
        stacked = QVBoxLayout(middle)
        stacked.setContentsMargins(0, 0, 0, 0)
        stacked.setSpacing(0)
        stacked.addWidget(self.versions.keep)
        stacked.addWidget(self._pages, 1)
        self._splitter = QSplitter(Qt.Orientation.Horizontal)
        self._splitter.setHandleWidth(1)
        self._splitter.setChildrenCollapsible(False)
        for panel in (self.list, middle, self.side):
            self._splitter.addWidget(panel)
        for place, share in enumerate((0, 1, 0)):
            self._splitter.setStretchFactor(place, share)
        self._splitter.splitterMoved.connect(self._on_parted)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self._splitter)

    def begin_new(self) -> None:
        """Show the page on which a formula is begun."""
        if self._work.studio.read_only:
            self._work.notices.inform(self._work.words.say("desk-new-read-only"))
            return
        self._pages.setCurrentWidget(self.new)
        self.versions.keep.hide()
        self.side.hide()
        self.new.begin()

    def show_label(self) -> None:
        """Show the page of label and checks in place of the sheet."""
        if self._work.key:
            self._pages.setCurrentWidget(self.label)
            self.label.begin()

    def _show_swap(self) -> None:
        self._pages.setCurrentWidget(self.rework.page)
        self.side.hide()

    def _show_versions(self) -> None:
        self._pages.setCurrentWidget(self.versions.page)
        self.side.hide()

    def _show_old_sheet(self) -> None:
        page = self.old_sheets.page
        if self._pages.indexOf(page) < 0:
            self._pages.addWidget(page)
        self._pages.setCurrentWidget(page)
        self.versions.keep.hide()
        self.side.hide()

    def _go_to_line(self, line: int) -> None:
        self._pages.setCurrentIndex(0)
        self.sheet.focus_line(line)

    def focus_place(self) -> None:
        """Put the focus where work goes on: on the sheet, or on a way to begin."""
        page = self._pages.currentWidget()
        if page is self.new:
            self.new.list.setFocus(Qt.FocusReason.OtherFocusReason)
        elif page is self.first:
            self.first.focus_first()
        elif page is self.versions.page:
            self.versions.page.focus_first()
        elif self.old_sheets.is_page(page):
            self.old_sheets.page.focus_first()
        elif page is self.rework.page:
            self.rework.page.search.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.sheet.setFocus(Qt.FocusReason.OtherFocusReason)

    def show_list(self) -> None:
        """Show the list of formulas, and put the cursor where it is sought through."""
        self._is_list_wanted = True
        self._part()
        self.list.begin_find()

    def _on_begun(self, formula: Formula) -> None:
        if not self.list.make(formula):
            return
        if formula.name:
            self.sheet.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.title.name.begin()

    def _on_left(self) -> None:
        self._show_state()
        self.focus_place()

    def _show_notes(self, key: str) -> None:
        if key != self._work.key:
            self._work.open(key)
        self.form.open_editor("notes")

    def _show_state(self) -> None:
        is_open = bool(self._work.key)
        self._is_list_wanted = not is_open
        self._part()
        self._show_first()
        self._pages.setCurrentIndex(0 if is_open else 1)
        self.side.setVisible(is_open)

    def _show_first(self) -> None:
        read_only = self._work.studio.read_only
        self.first.show_state(is_first=not self.list.formulas, read_only=read_only)

    def _part(self) -> None:
        if self._is_parted_by_hand:
            return
        width = self.width()
        is_narrow = width < self._theme.px(NARROW)
        self.list.setVisible(not is_narrow or self._is_list_wanted)
        self.title.formulas.setVisible(is_narrow and not self._is_list_wanted)
        list_share, side_share = _NARROW_SHARES if is_narrow else (_LIST_SHARE, _SIDE_SHARE)
        left = min(self._theme.px(LIST_WIDTH), round(width * list_share))
        right = min(self._theme.px(SIDE_WIDTH), round(width * side_share))
        self._splitter.setSizes([left, max(width - left - right, 1), right])

    def _fit_height(self) -> None:
        """Keep the height of a low place for the lines of the sheet."""
        theme, is_low = self._theme, self.height() < self._theme.px(LOW)
        side, top = theme.px(20), theme.px(2 if is_low else 12)
        self._centre_column.setContentsMargins(side, top, side, 0)
        self._centre_column.setSpacing(theme.px(2 if is_low else 10))
        self.title.set_low(is_low=is_low)
        self.form.set_low(is_low=is_low)

    def _on_parted(self) -> None:
        self._is_parted_by_hand = True

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the sheet what the panels at its sides leave."""
        super().resizeEvent(event)
        self._part()
        self._fit_height()
        self.rework.fit()
