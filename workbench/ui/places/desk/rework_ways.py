"""Swap, powder or stock, and rebalance: how the sheet leads to them and back."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, Signal

from workbench.errors import WorkbenchError
from workbench.ui.places.desk.rebalance_ways import rebalance_ways
from workbench.ui.places.desk.rework_panel import ReworkPanel
from workbench.ui.places.desk.stock_note import StockNote
from workbench.ui.places.desk.stock_ways import stock_ways
from workbench.ui.places.desk.swap_page import SwapPage

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from workbench.formula.formula import Formula
    from workbench.ui.places.desk.sheet import SheetView
    from workbench.ui.places.desk.work import DeskWork
    from workbench.ui.theme import Theme

_BOTH = 560  # the height, at scale 1, from which sheet and panel stand one over the other


class ReworkWays(QObject):
    """Hold the page and the panels on which several lines are changed at once."""

    page_wanted = Signal()
    """The page of a swap is to be shown in the place of the sheet."""
    left = Signal()
    """The maker goes back to the sheet."""

    def __init__(
        self,
        work: DeskWork,
        theme: Theme,
        sheet: SheetView,
        form: QWidget,
        make: Callable[[Formula], bool],
    ) -> None:
        super().__init__(sheet)
        self._work = work
        self._theme = theme
        self._sheet = sheet
        self._form = form
        self._make = make
        self.page = SwapPage(work, theme)
        self.panel = ReworkPanel(work, theme)
        self.note = StockNote(work, theme)
        self._acts = {"swap": self.swap, "stock": self.stock, "rebalance": self.rebalance}
        sheet.rework_asked.connect(lambda name: self._acts[name](sheet.focused_line))
        sheet.line_focused.connect(self._name_stock)
        self.page.left.connect(self._on_page_left)
        self.page.applied.connect(self._on_applied)
        self.page.kept.connect(self._on_kept)
        self.panel.turned.connect(self.fit)
        self.panel.left.connect(self._close_panel)
        self.panel.applied.connect(self._close_panel)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        for part in (self.page, self.panel, self.note):
            part.set_theme(theme)
        self.fit()

    def fit(self) -> None:
        """Put the sheet away while the panel is open, where both have no room."""
        around = self.panel.parentWidget()
        if around is None:
            return
        is_alone = not self.panel.isHidden() and around.height() < self._theme.px(_BOTH)
        self.panel.set_alone(is_alone=is_alone)
        for part in (self._form, self._sheet):
            part.setVisible(not is_alone)

    def swap(self, line_id: int) -> None:
        """Show what could come onto a line."""
        if line_id:
            self.panel.hide()
            self.page_wanted.emit()
            self.page.begin(line_id)

    def stock(self, line_id: int) -> None:
        """Show the ways to bring in what is on a line, as powder or as a stock."""
        if not line_id:
            return
        work = self._work
        name = work.shelf.name(work.formula.line(line_id).ingredient)
        try:
            ways = stock_ways(work, line_id)
        except WorkbenchError as error:
            work.notices.tell(error)
            return
        if ways:
            title = work.words.say("stock-title", ingredient=name)
            self.panel.begin(title, work.words.say("stock-options"), ways)
        else:
            work.notices.inform(work.words.say("stock-no-way", ingredient=name))

    def rebalance(self, line_id: int) -> None:
        """Show the ways to rebalance, for the line of the cursor and the chosen lines."""
        work = self._work
        ways = rebalance_ways(work, line_id, self._sheet.selected_lines())
        say = work.words.say
        self.panel.begin(say("rebalance-title"), say("rebalance-ways"), ways)

    def _name_stock(self, line_id: int) -> None:
        """Name what can be done: a stock goes back to powder, a powder may become one."""
        if not line_id:
            return
        is_stock = self._work.formula.line(line_id).ingredient in self._work.shelf.stocks
        text = self._work.words.say(f"sheet-action-stock-{'back' if is_stock else 'use'}")
        for action in self._sheet.sheet_actions():
            if action.objectName() == "sheet_stock":
                action.setText(text)

    def _on_page_left(self) -> None:
        line = self.page.line
        self.left.emit()
        self._to_line(line)

    def _on_applied(self, line_id: int) -> None:
        self.left.emit()
        self._to_line(line_id)

    def _to_line(self, line_id: int) -> None:
        if any(line.id == line_id for line in self._work.formula.lines()):
            self._sheet.focus_line(line_id)

    def _on_kept(self, formula: Formula) -> None:
        if self._make(formula):
            name = self._work.formula.name
            self.left.emit()
            self._to_line(self.page.line)
            self._work.notices.inform(self._work.words.say("swap-kept", name=name))

    def _close_panel(self) -> None:
        self.panel.hide()
        self._sheet.setFocus(Qt.FocusReason.OtherFocusReason)
        self._name_stock(self._sheet.focused_line)
