"""What a batch of a formula needs from the shelf, and what of it is to be bought."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFileDialog,
    QFrame,
    QLabel,
    QScrollArea,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from workbench.errors import WorkbenchError
from workbench.formula.formula import Formula
from workbench.formula.scale import batch_mass
from workbench.formula.shelf import Shelf
from workbench.formula.shopping import Need, ShoppingList, shopping_list
from workbench.storage.text_file import write_text_file
from workbench.ui.models.value_table import ValueTableModel
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.form_inputs import Choice, TextInput
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.typed import NotTaken, positive, read_mass
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.fact_rows import ScrolledPage, plain_label
from workbench.ui.places.shelf.ruled_cells import RuledCells, RuledHeader
from workbench.ui.places.shelf.shopping_table import (
    mass_text,
    shopping_columns,
    shopping_text,
    summary_texts,
)
from workbench.ui.theme import Theme

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QResizeEvent

USUAL_BATCH_G = Decimal(1000)
NAME, MOST_WIDTH = 104, 190
_LEAST = {2: 74, 3: 54}
_NEEDED = ("ingredient", "mass", "packs")
_TEXT_SUFFIX = "txt"


class ShoppingPage(QWidget):
    """Choose a formula and a batch; read the list, copy it as text."""

    left = Signal()
    """The maker goes back."""

    def __init__(self, work: DeskWork, theme: Theme) -> None:
        super().__init__()
        self._work = work
        self._theme = theme
        self._formula = Formula(name="")
        self._shelf: Shelf | None = None
        self._batch_g = USUAL_BATCH_G
        self._shopping: ShoppingList | None = None
        words = work.words
        self.setObjectName("shelf_shopping_page")
        self._title = QLabel(words.say("shelf-shopping"))
        self._title.setProperty("role", "title")
        self._choice = Choice("shopping_formula", words.say("shelf-need-formula"))
        self._choice.chosen.connect(self._open)
        self._mass = TextInput("shopping_mass", words.say("shelf-need-batch"), 130)
        self._mass.typed.connect(self._take_mass)
        self._error = plain_label("stop")
        self._error.hide()
        self._flow = FlowLayout(20, 8)
        self._flow.addWidget(self._choice)
        self._flow.addWidget(self._mass)
        self.model: ValueTableModel[Need] = ValueTableModel(
            shopping_columns(words, self._name), lambda need: need.ingredient, self
        )
        self.table = QTableView()
        self._delegate = RuledCells(theme, self)
        self._header = RuledHeader(self._delegate, self.table)
        self._summary = plain_label("")
        self._summary.setObjectName("shelf_shopping_summary")
        self._summary.setWordWrap(True)
        self._copy = LinkButton(words.say("shelf-need-copy"), "shelf_shopping_copy")
        self._copy.clicked.connect(lambda *_checked: self.copy_text())
        self._save = LinkButton(words.say("shelf-need-save"), "shelf_shopping_save")
        self._save.clicked.connect(lambda *_checked: self.save())
        self._back = LinkButton(words.say("shelf-back"), "shelf_shopping_back")
        self._back.clicked.connect(lambda *_checked: self.left.emit())
        self._build()
        self.set_theme(theme)

    @property
    def summary(self) -> str:
        """What stands under the table."""
        return self._summary.text()

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        side = theme.px(20)
        self._column.setContentsMargins(side, theme.px(14), side, theme.px(14))
        self._column.setSpacing(theme.px(10))
        self._flow.set_gaps(theme.px(20), theme.px(8))
        self._ways.set_gaps(theme.px(20), theme.px(4))
        self._mass.set_theme(theme)
        self._delegate.theme = theme
        self._header.fit()
        self._theme = theme
        self._share()

    def begin(self, key: str = "") -> None:
        """Show the list of a formula: the one asked for, the open one, or the first."""
        entries = self._work.studio.formulas.entries()
        keys = [entry.key for entry in entries]
        wanted = next((k for k in (key, self._work.key, *keys) if k in keys), "")
        self._choice.show_options([(entry.key, entry.name) for entry in entries], wanted)
        self._choice.setEnabled(bool(keys))
        if wanted:
            self._open(wanted)
        else:
            self._show_nothing()
        self._choice.box.setFocus(Qt.FocusReason.OtherFocusReason)

    def copy_text(self) -> None:
        """Put the list on the clipboard as text, cells parted by tabs."""
        if self._shopping is None:
            return
        QGuiApplication.clipboard().setText(self.text)
        self._work.notices.inform(self._work.words.say("shelf-need-copied"))

    @property
    def text(self) -> str:
        """The list as text; nothing while no formula is chosen."""
        if self._shopping is None:
            return ""
        words = self._work.words
        mass = mass_text(self._shopping.batch_g, words)
        title = words.say("shelf-need-title", name=self._formula.name, mass=mass)
        return shopping_text(self._shopping, title, words, self._name)

    def save(self) -> None:
        """Ask for a file, without blocking the window, and write the list to it."""
        words = self._work.words
        title = words.say("shelf-need-save").rstrip("…")
        dialog = QFileDialog(self, title, "", words.say("shelf-need-kind"))
        dialog.setObjectName("shelf_shopping_dialog")
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setDefaultSuffix(_TEXT_SUFFIX)
        named = words.say("shelf-need-file", name=self._formula.name).replace("/", "-")
        dialog.selectFile(f"{named}.{_TEXT_SUFFIX}")
        dialog.fileSelected.connect(lambda path: self.save_to(Path(path)))
        dialog.open()

    def save_to(self, path: Path) -> None:
        """Write the list to a file."""
        words, text = self._work.words, self.text
        if not text:
            return
        self._work.tasks.run(
            lambda: write_text_file(path, text),
            lambda _nothing: self._work.notices.inform(
                words.say("shelf-need-saved", place=str(path))
            ),
            self._work.notices.tell,
        )

    def _open(self, key: str) -> None:
        self._work.tasks.flush()
        try:
            self._formula, _ = self._work.studio.formulas.draft(key)
            self._shelf = self._work.studio.shelf_for(self._formula)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return
        self._batch_g = batch_mass(self._formula.plan) or USUAL_BATCH_G
        self._mass.take_back()
        self._mass.show_text(mass_text(self._batch_g, self._work.words))
        self._show()

    def _take_mass(self, text: str) -> None:
        words = self._work.words
        try:
            self._batch_g = positive(read_mass(text, decimal_comma=self._work.decimal_comma))
        except NotTaken as refused:
            self._mass.refuse(words.say(refused.reason_id, **refused.values))
        else:
            self._mass.accept()
            self._show()
        self._error.setText(self._mass.error)
        self._error.setVisible(bool(self._mass.error))

    def _show(self) -> None:
        if self._shelf is None:
            return
        supplies = self._work.studio.supplies.all()
        self._shopping = shopping_list(self._formula, self._shelf, self._batch_g, supplies)
        self.model.set_rows(self._shopping.needs)
        self.table.setVisible(bool(self._shopping.needs))
        self._hide_empty()
        self._share()
        texts = summary_texts(self._shopping, self._work.words, self._name)
        self._summary.setText("\n".join(texts))
        for link in (self._copy, self._save):
            link.setEnabled(True)

    def _hide_empty(self) -> None:
        """Take away the columns in which nothing stands."""
        for place, column in enumerate(shopping_columns(self._work.words, self._name)):
            is_empty = not any(column.text(need) for need in self.model.rows)
            self.table.setColumnHidden(place, is_empty and column.key not in _NEEDED)

    def _share(self) -> None:
        """Give the names what the other columns leave, and each row the height of its text."""
        rest = [place for place in range(1, self.model.columnCount()) if self._is_shown(place)]
        widths = {place: self._wanted_width(place) for place in rest}
        room = self.width() - 2 * self._theme.px(20) - self._theme.px(12)
        over = sum(widths.values()) + self._theme.px(NAME) - room
        for place, least in _LEAST.items():  # several lines are read, what is cut is not
            if over > 0 and place in widths:
                narrow = min(widths[place], max(self._theme.px(least), widths[place] - over))
                over -= widths[place] - narrow
                widths[place] = narrow
        widths[0] = max(self._theme.px(NAME), room - sum(widths.values()))
        for place, width in widths.items():
            self._header.resizeSection(place, width)
        height = self._header.height() + 2
        for row in range(self.model.rowCount()):
            tall = max(
                self._delegate.height_of(self._cell(row, place), width)
                for place, width in widths.items()
            )
            self.table.setRowHeight(row, tall)
            height += tall
        if sum(widths.values()) > room:
            height += self.table.horizontalScrollBar().sizeHint().height()
        self.table.setFixedHeight(height)

    def _wanted_width(self, place: int) -> int:
        cells = [self._delegate.width_of(self._cell(row, place)) for row in range(self._rows)]
        widest = min(max(cells, default=0), self._theme.px(MOST_WIDTH))
        return max(widest, self._header.width_of(place))

    @property
    def _rows(self) -> int:
        return self.model.rowCount()

    def _cell(self, row: int, place: int) -> str:
        return str(self.model.index(row, place).data() or "")

    def _is_shown(self, place: int) -> bool:
        return not self.table.isColumnHidden(place)

    def _show_row(self, row: int) -> None:
        """Scroll the page so far that a row is seen."""
        top = self.table.y() + self._header.height() + self.table.rowViewportPosition(row)
        self._scroll.ensureVisible(0, top + self.table.rowHeight(row) // 2, 0, self._theme.px(40))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share the width out again."""
        super().resizeEvent(event)
        self._share()

    def _show_nothing(self) -> None:
        self._shopping = None
        self.model.set_rows(())
        self.table.hide()
        self._summary.setText(self._work.words.say("shelf-need-no-formula"))
        for link in (self._copy, self._save):
            link.setEnabled(False)

    def _name(self, key: str) -> str:
        return key if self._shelf is None else self._shelf.name(key)

    def _build(self) -> None:
        table = self.table
        table.setObjectName("shelf_shopping_table")
        table.setAccessibleName(self._work.words.say("shelf-shopping"))
        table.setModel(self.model)
        table.setItemDelegate(self._delegate)
        table.setHorizontalHeader(self._header)
        table.setShowGrid(False)
        table.setAlternatingRowColors(False)
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setTabKeyNavigation(False)
        table.setWordWrap(False)
        table.verticalHeader().hide()
        table.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        table.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        table.selectionModel().currentRowChanged.connect(
            lambda index, _before: self._show_row(index.row())
        )
        self._ways = FlowLayout(20, 4)
        for link in (self._copy, self._save, self._back):
            self._ways.addWidget(link)
        inside = ScrolledPage()
        self._column = QVBoxLayout(inside)
        self._column.addWidget(self._title)
        self._column.addLayout(self._flow)
        self._column.addWidget(self._error)
        self._column.addWidget(table)
        self._column.addWidget(self._summary)
        self._column.addLayout(self._ways)
        self._column.addStretch(1)
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setWidget(inside)
        outside = QVBoxLayout(self)
        outside.setContentsMargins(0, 0, 0, 0)
        outside.addWidget(self._scroll)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc goes back."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)
