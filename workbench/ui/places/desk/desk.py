"""The Desk: formula list, the sheet under its head, and what to look at."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import (
    QFrame,
    QLabel,
    QPushButton,
    QScrollArea,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from workbench.ui.places.desk.figures_panel import FiguresPanel
from workbench.ui.places.desk.findings_panel import FindingsPanel
from workbench.ui.places.desk.form_row import FormRow
from workbench.ui.places.desk.list_panel import NEW_KEY, FormulaList
from workbench.ui.places.desk.sheet import SheetView
from workbench.ui.places.desk.title_row import TitleRow
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Appearance, Theme

LIST_WIDTH, SIDE_WIDTH = 190, 345
_LIST_SHARE, _SIDE_SHARE = 0.18, 0.30


class Desk(QWidget):
    """Compose the panels around the sheet of one draft."""

    worksheet_asked = Signal()

    def __init__(
        self, work: DeskWork, appearance: Appearance, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        theme = appearance.theme
        self._work = work
        self._theme = theme
        self._is_parted_by_hand = False
        self.list = FormulaList(work, theme)
        self.title = TitleRow(work, theme)
        self.form = FormRow(work, theme)
        self.sheet = SheetView(work, theme)
        self.findings = FindingsPanel(work, theme)
        self.figures = FiguresPanel(work, theme)
        self._build()
        self.set_theme(theme)
        appearance.changed.connect(self.set_theme)
        self.title.worksheet_asked.connect(self.worksheet_asked)
        self.findings.line_wanted.connect(self.sheet.focus_line)
        self.list.version_read.connect(self.title.set_version)
        self.list.created.connect(lambda _key: self.title.name.begin())
        work.opened.connect(lambda _key: self._show_state())
        shortcut = QShortcut(QKeySequence(NEW_KEY), self)
        shortcut.activated.connect(self.list.make_new)
        self._show_state()

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        for panel in (self.list, self.title, self.form, self.sheet, self.findings, self.figures):
            panel.set_theme(theme)
        side = theme.px(20)
        self._centre_column.setContentsMargins(side, theme.px(12), side, 0)
        self._centre_column.setSpacing(theme.px(10))
        self._side_column.setContentsMargins(theme.px(16), theme.px(12), theme.px(12), theme.px(8))
        self._empty_column.setContentsMargins(side, theme.px(48), side, side)
        self._part()

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
        self._centre_column.addWidget(self.form)
        self._centre_column.addWidget(self.sheet, 1)
        self._pages = QStackedWidget()
        self._pages.addWidget(centre)
        self._pages.addWidget(self._empty_page())
        self._splitter = QSplitter(Qt.Orientation.Horizontal)
        self._splitter.setHandleWidth(1)
        self._splitter.setChildrenCollapsible(False)
        for panel in (self.list, self._pages, self._side()):
            self._splitter.addWidget(panel)
        for place, share in enumerate((0, 1, 0)):
            self._splitter.setStretchFactor(place, share)
        self._splitter.splitterMoved.connect(self._on_parted)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self._splitter)

    def _side(self) -> QScrollArea:
        side = QWidget()
        self._side_column = QVBoxLayout(side)
        self._side_column.addWidget(self.findings)
        self._side_column.addWidget(self.figures)
        self._side_column.addStretch(1)
        self._scroll = QScrollArea()
        self._scroll.setObjectName("desk_side")
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setWidget(side)
        return self._scroll

    def _empty_page(self) -> QWidget:
        words = self._work.words
        page = QWidget()
        title = QLabel(words.say("desk-empty-title"))
        title.setProperty("role", "title")
        text = QLabel(words.say("desk-empty-text"))
        text.setProperty("role", "secondary")
        button = QPushButton(words.say("desk-new-formula"))
        button.setObjectName("desk_empty_new")
        button.setProperty("role", "primary")
        button.clicked.connect(lambda *_checked: self.list.make_new())
        self._empty_column = QVBoxLayout(page)
        for label in (title, text):
            label.setWordWrap(True)
            self._empty_column.addWidget(label)
        self._empty_column.addSpacing(self._theme.px(12))
        self._empty_column.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)
        self._empty_column.addStretch(1)
        return page

    def _show_state(self) -> None:
        is_open = bool(self._work.key)
        self._pages.setCurrentIndex(0 if is_open else 1)
        self._scroll.setVisible(is_open)

    def _part(self) -> None:
        if self._is_parted_by_hand:
            return
        width = self.width()
        left = min(self._theme.px(LIST_WIDTH), round(width * _LIST_SHARE))
        right = min(self._theme.px(SIDE_WIDTH), round(width * _SIDE_SHARE))
        self._splitter.setSizes([left, max(width - left - right, 1), right])

    def _on_parted(self) -> None:
        self._is_parted_by_hand = True

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the sheet what the panels at its sides leave."""
        super().resizeEvent(event)
        self._part()
