"""The left of the Shelf: what is looked for, the filters, and the list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QListView,
    QVBoxLayout,
    QWidget,
)

from workbench.storage.search import Hit
from workbench.storage.shelf_list import ListedIngredient
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.form_inputs import Choice
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.filters import (
    MOST_FOUND,
    Filters,
    best_first,
    function_choices,
    shown_rows,
)
from workbench.ui.places.shelf.list_model import (
    ROW_ROLE,
    IngredientDelegate,
    IngredientListModel,
)
from workbench.ui.theme import Theme
from workbench.words.ingredients import value_text

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

CHOICE_WIDTH, MOST_CHOICE, ARROW = 104, 330, 28
_ANY = ""
_SHORT = QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
_DOWNWARDS = (Qt.Key.Key_Down, Qt.Key.Key_PageDown, Qt.Key.Key_Return, Qt.Key.Key_Enter)


class ListPane(QWidget):
    """Find an ingredient; the one that is current is told, the one entered is asked for."""

    current_changed = Signal(str)
    """The key of the ingredient the list stands on, empty where it stands on none."""
    entered = Signal()
    """The maker wants to go on to the page of the current ingredient."""
    there_toggled = Signal(str, bool)
    """The key of an ingredient, and whether it is on hand from now on."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._theme = theme
        self._rows: dict[str, ListedIngredient] = {}
        self._functions: dict[str, frozenset[str]] = {}
        self._is_showing = False
        words = work.words
        self.search = _SearchLine()
        self.search.setObjectName("shelf_search")
        self.search.setAccessibleName(words.say("shelf-search"))
        self.search.setPlaceholderText(words.say("shelf-search"))
        self.search.setClearButtonEnabled(False)
        self.search.textChanged.connect(lambda _text: self._show())
        self.search.left_down.connect(self._go_to_list)
        self._choices = {
            name: Choice(f"shelf_filter_{name}", words.say(f"shelf-filter-{name}"))
            for name in ("function", "solubility", "charge")
        }
        self._boxes = {name: QCheckBox(words.say(f"shelf-filter-{name}")) for name in _BOXES}
        self._clear = LinkButton(words.say("shelf-clear"), "shelf_clear")
        self._count = QLabel()
        self._count.setObjectName("shelf_count")
        self._count.setProperty("role", "small")
        self._empty = QLabel()
        self._empty.setObjectName("shelf_none")
        self._empty.setProperty("role", "secondary")
        self._empty.setWordWrap(True)
        self.model = IngredientListModel(words, self)
        self._delegate = IngredientDelegate(words, theme, self)
        self.view = _IngredientView()
        self._build()
        self.set_theme(theme)

    @property
    def filters(self) -> Filters:
        """What the list is narrowed to."""
        chosen = {
            name: str(choice.box.currentData() or _ANY) for name, choice in self._choices.items()
        }
        return Filters(
            functions=self._functions.get(chosen["function"], frozenset()),
            solubility=chosen["solubility"],
            charge=chosen["charge"],
            only_there=self._boxes["there"].isChecked(),
            only_own=self._boxes["own"].isChecked(),
        )

    @property
    def current_key(self) -> str:
        """The key of the ingredient the list stands on, or nothing."""
        row = self.view.currentIndex().data(ROW_ROLE)
        return row.key if isinstance(row, ListedIngredient) else ""

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._delegate.theme = theme
        side = theme.px(16)
        self._column.setContentsMargins(side, theme.px(14), theme.px(8), 0)
        self._column.setSpacing(theme.px(8))
        self._flow.set_gaps(theme.px(14), theme.px(6))
        self._theme = theme
        self._fit_choices()
        self._count.setMinimumHeight(self._boxes["own"].sizeHint().height())
        self._ticks.set_gaps(theme.px(16), theme.px(4))
        self.view.scheduleDelayedItemsLayout()
        self.view.viewport().update()

    def set_rows(self, rows: tuple[ListedIngredient, ...]) -> None:
        """Take every ingredient there is, and show those that are looked for."""
        self._rows = {row.key: row for row in rows}
        self._functions = dict(function_choices(rows, self._work.words))
        self._offer()
        self._show()

    def show_key(self, key: str) -> None:
        """Stand on an ingredient; filters that hide it are taken away."""
        if self.model.place_of(key) is None:
            self.clear()
        place = self.model.place_of(key)
        if place is not None:
            self.view.setCurrentIndex(self.model.index(place, 0))
            self.view.scrollTo(self.view.currentIndex())

    def mark_open(self, key: str) -> None:
        """Mark the ingredient whose page is shown."""
        self._delegate.open_key = key
        self.view.viewport().update()

    def clear(self) -> None:
        """Take every filter away, and the typed words."""
        self._is_showing = True
        try:
            self.search.clear()
            for choice in self._choices.values():
                choice.box.setCurrentIndex(0)
            for box in self._boxes.values():
                box.setChecked(False)
        finally:
            self._is_showing = False
        self._show()

    def _build(self) -> None:
        words = self._work.words
        self.view.setObjectName("shelf_list")
        self.view.setAccessibleName(words.say("shelf-list-name"))
        self.view.setModel(self.model)
        self.view.setItemDelegate(self._delegate)
        self.view.selectionModel().currentChanged.connect(lambda *_: self._tell_current())
        self.view.entered_key.connect(self.entered)
        self.view.left_up.connect(self.search.setFocus)
        self.view.ticked.connect(self._toggle_there)
        self.view.clicked.connect(lambda _index: self._tell_current())
        for name, box in self._boxes.items():
            box.setObjectName(f"shelf_filter_{name}")
            box.toggled.connect(lambda _on: self._show())
        for choice in self._choices.values():
            choice.chosen.connect(lambda _value: self._show())
        self._clear.clicked.connect(lambda *_checked: self.clear())
        for choice in self._choices.values():
            choice.box.setSizeAdjustPolicy(_SHORT)
            choice.box.setMinimumContentsLength(1)
        self._flow, self._ticks = FlowLayout(16, 6), FlowLayout(16, 4)
        for choice in self._choices.values():
            self._flow.addWidget(choice)
        for widget in (*self._boxes.values(), self._count, self._clear):
            self._ticks.addWidget(widget)
        self._column = QVBoxLayout(self)
        self._column.addWidget(self.search)
        self._column.addLayout(self._flow)
        self._column.addLayout(self._ticks)
        self._column.addWidget(self._empty)
        self._column.addWidget(self.view, 1)
        self._column.addStretch(0)

    def _offer(self) -> None:
        words = self._work.words
        any_ = (_ANY, words.say("shelf-filter-any"))
        for name, choice in self._choices.items():
            held = str(choice.box.currentData() or _ANY)
            if name == "function":
                options = [(said, said) for said in self._functions]
            else:
                values = {getattr(row, name) for row in self._rows.values()} - {""}
                options = [(value, value_text(name, value, words)) for value in sorted(values)]
            choice.show_options([any_, *options], held)
            if choice.box.currentIndex() < 0:
                choice.box.setCurrentIndex(0)

    def _fit_choices(self) -> None:
        """Give each choice room for what is chosen, and its list for the longest."""
        px = self._theme.px
        for choice in self._choices.values():
            box = choice.box
            said = box.fontMetrics().horizontalAdvance(box.currentText()) + px(ARROW)
            choice.setFixedWidth(min(max(px(CHOICE_WIDTH), said), px(MOST_CHOICE)))
            texts = (box.itemText(row) for row in range(box.count()))
            longest = max(map(box.fontMetrics().horizontalAdvance, texts), default=0)
            box.view().setMinimumWidth(longest + px(ARROW))

    def _show(self) -> None:
        if self._is_showing:
            return
        self._fit_choices()
        kept = self.current_key
        hits = self._found()
        rows = shown_rows(self._rows, self.filters, hits)
        if hits is not None:
            rows = best_first(rows, self.search.text(), self._work.words)
        self.model.set_rows(rows)
        shown = len(self.model.rows)
        self._count.setText(
            self._count_text(shown, is_cut=hits is not None and len(hits) >= MOST_FOUND)
        )
        is_narrowed = hits is not None or not self.filters.is_open
        self._clear.setVisible(is_narrowed)
        self._empty.setVisible(not shown and bool(self._rows))
        self._empty.setText(
            self._work.words.say("shelf-none" if hits is not None else "shelf-none-filtered")
        )
        self.view.setVisible(bool(shown))
        place = self.model.place_of(kept) if kept and hits is None else None
        if hits is not None:
            self.view.scrollToTop()  # the best is first, and is seen
        if shown and not self.view.currentIndex().isValid():
            self.view.setCurrentIndex(self.model.index(place or 0, 0))

    def _found(self) -> tuple[Hit, ...] | None:
        typed = self.search.text().strip()
        if not typed:
            return None
        # With filters the best hits may all be hidden, so more of them are asked for.
        most = MOST_FOUND if self.filters.is_open else 10 * MOST_FOUND
        return self._work.studio.search(typed, most, on_hand=self.filters.only_there)

    def _count_text(self, shown: int, *, is_cut: bool) -> str:
        words = self._work.words
        if shown == len(self._rows):
            return words.say("shelf-count-all", all=shown)
        return words.say(
            "shelf-count-most" if is_cut else "shelf-count", shown=shown, all=len(self._rows)
        )

    def _tell_current(self) -> None:
        if self.current_key:
            self.current_changed.emit(self.current_key)

    def _go_to_list(self) -> None:
        if self.model.rows:
            self.view.setFocus(Qt.FocusReason.OtherFocusReason)

    def _toggle_there(self, index: QModelIndex) -> None:
        row = index.data(ROW_ROLE)
        if isinstance(row, ListedIngredient):
            self.there_toggled.emit(row.key, not row.is_there)


_BOXES = ("there", "own")


class _SearchLine(QLineEdit):
    """Hand Down and Enter on to the list; Esc empties."""

    left_down = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Go down to the list, or empty the line."""
        if event.key() in _DOWNWARDS:
            self.left_down.emit()
        elif event.key() == Qt.Key.Key_Escape and self.text():
            self.clear()
        else:
            super().keyPressEvent(event)


class _IngredientView(QListView):
    """Walk through thousands of rows, each as high as the other."""

    entered_key = Signal()
    left_up = Signal()
    ticked = Signal(QModelIndex)

    def __init__(self) -> None:
        super().__init__()
        self.setUniformItemSizes(True)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setEditTriggers(QListView.EditTrigger.NoEditTriggers)
        self.setResizeMode(QListView.ResizeMode.Adjust)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter goes to the page, space ticks, Esc and Up at the top go to the search."""
        key, index = event.key(), self.currentIndex()
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Right):
            self.entered_key.emit()
        elif key == Qt.Key.Key_Space and index.isValid():
            self.ticked.emit(index)
        elif key == Qt.Key.Key_Escape or (key == Qt.Key.Key_Up and index.row() == 0):
            self.left_up.emit()
        else:
            super().keyPressEvent(event)
