"""What a batch of a formula needs from the shelf, and what of it is to be bought."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QAbstractItemView,
    QLabel,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from workbench.errors import WorkbenchError
from workbench.formula.formula import Formula
from workbench.formula.scale import batch_mass
from workbench.formula.shelf import Shelf
from workbench.formula.shopping import Need, ShoppingList, shopping_list
from workbench.ui.models.value_table import ValueTableModel
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.form_inputs import Choice, TextInput
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.typed import NotTaken, positive, read_mass
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.fact_rows import plain_label
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
NAME, COLUMNS = 160, (96, 140, 92, 110)


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
        self.table.verticalHeader().setDefaultSectionSize(theme.px(30))
        self._header.fit()
        self._fit()
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
        words = self._work.words
        mass = mass_text(self._shopping.batch_g, words)
        title = words.say("shelf-need-title", name=self._formula.name, mass=mass)
        text = shopping_text(self._shopping, title, words, self._name)
        QGuiApplication.clipboard().setText(text)
        self._work.notices.inform(words.say("shelf-need-copied"))

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
        self._fit()
        texts = summary_texts(self._shopping, self._work.words, self._name)
        self._summary.setText("\n".join(texts))
        self._copy.setEnabled(True)

    def _fit(self) -> None:
        rows = self.model.rowCount() * self.table.verticalHeader().defaultSectionSize()
        self.table.setMaximumHeight(rows + self.table.horizontalHeader().height() + 2)

    def _share(self) -> None:
        """Give the names what the other columns leave, and never too little to read."""
        widths = [self._theme.px(width) for width in COLUMNS]
        room = self.width() - 2 * self._theme.px(20) - self._theme.px(12)
        self._header.resizeSection(0, max(self._theme.px(NAME), room - sum(widths)))
        for place, width in enumerate(widths, 1):
            self._header.resizeSection(place, width)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share the width out again."""
        super().resizeEvent(event)
        self._share()

    def _show_nothing(self) -> None:
        self._shopping = None
        self.model.set_rows(())
        self.table.hide()
        self._summary.setText(self._work.words.say("shelf-need-no-formula"))
        self._copy.setEnabled(False)

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
        self._ways = FlowLayout(20, 4)
        self._ways.addWidget(self._copy)
        self._ways.addWidget(self._back)
        self._column = QVBoxLayout(self)
        self._column.addWidget(self._title)
        self._column.addLayout(self._flow)
        self._column.addWidget(self._error)
        self._column.addWidget(table, 1)
        self._column.addWidget(self._summary)
        self._column.addLayout(self._ways)
        self._column.addStretch(0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc goes back."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)
