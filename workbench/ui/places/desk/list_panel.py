"""The list of formulas at the left of the Desk."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from itertools import pairwise

from PySide6.QtCore import QModelIndex, QPoint, Qt, QTimer, Signal
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QLabel, QLineEdit, QListView, QMenu, QVBoxLayout, QWidget

from workbench.errors import WorkbenchError
from workbench.formula.formula import Formula
from workbench.ui.places.desk.entries import (
    ListedFormula,
    ListReader,
    Order,
    Section,
    Wanted,
    chosen,
    listed_of,
    tags_in,
)
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.list_actions import ListActions
from workbench.ui.places.desk.list_model import ListModel
from workbench.ui.places.desk.list_paint import ListDelegate
from workbench.ui.places.desk.list_view import ListView
from workbench.ui.places.desk.new_page import blank
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme

NEW_KEY = "Ctrl+N"
TYPING_MS = 120

Both = tuple[tuple[ListedFormula, ...], tuple[ListedFormula, ...]]


class FormulaList(QWidget):
    """List drafts, formulas and stocks; Enter or a click opens one."""

    created = Signal(str)
    """The key of a formula that was just made and opened."""
    new_wanted = Signal()
    """The maker wants to begin a new formula."""
    listed = Signal()
    """The list was read."""
    version_read = Signal(object)
    """The latest version of the open draft as the list has it, None before the first."""
    archive_read = Signal(bool)
    """Whether the open formula is in the archive."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._reader = ListReader(work.studio)
        self._formulas: tuple[ListedFormula, ...] = ()
        self._wanted = Wanted()
        self._told: tuple[object, ...] | None = None
        self._followed = ""
        self._model = ListModel(work.words, self)
        self._delegate = ListDelegate(work.words, theme, self)
        self._view = ListView()
        self._timer = QTimer(self, singleShot=True, interval=TYPING_MS)
        self._timer.timeout.connect(self.refresh)
        self._build()
        self.actions_of_list = ListActions(work, self._view, self.opened)
        self.actions_of_list.changed.connect(self.refresh)
        self.actions_of_list.made.connect(self._open)
        self._view.menu_asked.connect(self._show_menu_of)
        self.set_theme(theme)
        work.saved.connect(self._on_saved)
        work.opened.connect(self._on_opened)
        self.refresh()

    @property
    def find_line(self) -> QLineEdit:
        """The line in which the list is sought through, its first stop."""
        return self._find

    @property
    def view(self) -> ListView:
        """The list itself."""
        return self._view

    @property
    def formulas(self) -> tuple[ListedFormula, ...]:
        """Every formula of the studio, as the list was read last."""
        return self._formulas

    def opened(self) -> ListedFormula | None:
        """Return the open formula as the list has it, None while none is open."""
        key = self._work.key
        return next((row for row in self._formulas if row.key == key), None) if key else None

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._delegate.set_theme(theme)
        side, top = theme.px(12), theme.px(12)
        self._column.setContentsMargins(side, top, side, top)
        self._column.setSpacing(theme.px(6))
        self._top.setContentsMargins(theme.px(8), 0, theme.px(8), 0)
        self._top.setSpacing(theme.px(6))
        self._foot.setContentsMargins(theme.px(8), 0, 0, 0)
        self._view.scheduleDelayedItemsLayout()
        self._view.viewport().update()

    def refresh(self) -> None:
        """Read the list again, behind the window."""
        wanted = self._wanted
        self._work.tasks.latest(
            ("formula list", id(self)),
            lambda: self._reader.read_wanted(wanted),
            self._show,
            self._work.notices.tell,
        )

    def begin_find(self) -> None:
        """Put the cursor where the list is sought through."""
        self._find.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self._find.selectAll()

    def make_new(self) -> None:
        """Make a formula of water alone, whose line takes the rest, and open it."""
        self.make(blank("", self._work.words.say("desk-first-phase")))

    def make(self, formula: Formula) -> bool:
        """Store a new formula under its name, or the next free one, and open it."""
        work, words = self._work, self._work.words
        if work.studio.read_only:
            work.notices.inform(words.say("desk-new-read-only"))
            return False
        work.tasks.flush()
        name = self.free_name(formula.name or words.say("desk-new-formula-name"))
        try:
            key = work.studio.formulas.create(name, replace(formula, name=name))
            work.open(key)
        except WorkbenchError as error:
            work.notices.tell(error)
            return False
        self.created.emit(key)
        return True

    def free_name(self, wish: str) -> str:
        """Return a name no formula has: the wish, or the wish with a number."""
        taken = {formula.name for formula in self._formulas}
        number, name = 1, wish
        while name in taken:
            number += 1
            name = f"{wish} {number}"
        return name

    def _show(self, both: Both) -> None:
        self._formulas, shown = both
        current = self._view.current()
        # What was opened before the list was read, a new formula say, is followed now.
        is_following, self._followed = bool(self._followed), ""
        if self._model.set_formulas(shown) or is_following:
            self._make_current(current.key if current and not is_following else self._work.key)
        self.actions_of_list.refresh()
        self._tell_version()
        self._say_what_is_held_back(shown)
        self._say_archive()
        self.listed.emit()

    def _tell_version(self) -> None:
        row = self.opened()
        if row is not None:
            self.version_read.emit(row.version)
        self.archive_read.emit(row is not None and row.section is Section.ARCHIVED)

    def _say_what_is_held_back(self, shown: tuple[ListedFormula, ...]) -> None:
        say = self._work.words.say
        self._empty.setVisible(not shown)
        self._view.setVisible(bool(shown))
        self._empty.setText(
            say("desk-list-empty" if self._wanted.is_everything else "list-nothing-fits")
        )
        order = say("list-order", order=self._wanted.order.value)
        tag = self._wanted.tag
        self._order.setText(say("list-order-tag", order=order, tag=tag) if tag else order)

    def _make_current(self, key: str) -> None:
        row = self._model.row_of(key)
        self._view.setCurrentIndex(QModelIndex() if row is None else self._model.index(row, 0))

    def _open(self, key: str) -> None:
        if key == self._work.key:
            return
        try:
            self._work.open(key)
        except WorkbenchError as error:
            self._work.notices.tell(error)

    def _on_saved(self, key: str) -> None:
        # One line is read, not thousands, and only where it would read otherwise: this follows
        # every edit.
        told = self._told_of(key)
        if told is not None and told == self._told:
            return
        self._told = told
        try:
            entry = self._work.studio.formulas.entry(key)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return
        if entry is None or not self._wanted.is_everything:
            self.refresh()
            return
        others = [formula for formula in self._formulas if formula.key != key]
        everything = sorted([*others, listed_of(entry)], key=lambda row: (row.folded_name, row.key))
        self._show((tuple(everything), chosen(tuple(everything), self._wanted, frozenset())))

    def _told_of(self, key: str) -> tuple[object, ...] | None:
        """Return what the line of the open draft is made from; None where it must be read."""
        row = self._model.row_of(key)
        if key != self._work.key or row is None or not self._wanted.is_everything:
            return None
        listed, formula = self._model.rows[row], self._work.formula
        if not isinstance(listed, ListedFormula) or not listed.is_changed:
            return None
        stocks = frozenset(line.ingredient for line in formula.lines()) & set(
            self._work.shelf.stocks
        )
        return key, listed.version, formula.name, formula.product_type, stocks

    def _on_opened(self, key: str) -> None:
        self._delegate.open_key = self._followed = key
        self.refresh()
        self._make_current(key)
        self._view.viewport().update()

    def _on_chosen(self, index: QModelIndex) -> None:
        self._view.setCurrentIndex(index)
        current = self._view.current()
        if current is not None:
            self._open(current.key)

    def _on_typed(self, text: str) -> None:
        self._wanted = replace(self._wanted, typed=text)
        self._timer.start()

    def _want(self, **changes: object) -> None:
        self._wanted = replace(self._wanted, **changes)  # type: ignore[arg-type]
        self.refresh()

    def _show_menu(self) -> None:
        self._fill_menu()
        self._menu.popup(self._order.mapToGlobal(self._order.rect().bottomLeft()))

    def _fill_menu(self) -> None:
        menu, say = self._menu, self._work.words.say
        menu.clear()
        orders = QActionGroup(menu)
        for order in Order:
            action = self._choice(say("list-order", order=order.value), self._wanted.order is order)
            action.triggered.connect(partial(self._want, order=order))
            orders.addAction(action)
        menu.addSeparator()
        for tag in tags_in(self._formulas):
            action = self._choice(say("list-tagged", tag=tag), self._wanted.tag == tag)
            wish = "" if self._wanted.tag == tag else tag
            action.triggered.connect(partial(self._want, tag=wish))

    def _show_menu_of(self, row: ListedFormula, place: QPoint) -> None:
        self.actions_of_list.menu_of(row).popup(place)

    def _toggle_archive(self) -> None:
        self._want(is_archive_shown=not self._wanted.is_archive_shown)

    def _say_archive(self) -> None:
        count = sum(row.section is Section.ARCHIVED for row in self._formulas)
        is_shown = self._wanted.is_archive_shown
        said = self._work.words.say(
            "list-archived-count", count=count, is_shown="yes" if is_shown else "no"
        )
        self._archived.setText(said)
        self._archived.setVisible(count > 0)

    def _choice(self, text: str, is_chosen: bool) -> QAction:  # noqa: FBT001
        action = self._menu.addAction(text)
        action.setCheckable(True)
        action.setChecked(is_chosen)
        return action

    def _build(self) -> None:
        words = self._work.words
        self._find = QLineEdit()
        self._find.setObjectName("formula_list_find")
        self._find.setAccessibleName(words.say("list-find"))
        self._find.setPlaceholderText(words.say("list-find-example"))
        self._find.setClearButtonEnabled(True)
        self._find.textChanged.connect(self._on_typed)
        self._find.returnPressed.connect(self._view.setFocus)
        self._order = LinkButton("", "formula_list_order")
        self._order.clicked.connect(lambda *_checked: self._show_menu())
        self._menu = QMenu(self)
        self._view.setObjectName("formula_list")
        self._view.setAccessibleName(words.say("desk-list-name"))
        self._view.setLayoutMode(QListView.LayoutMode.Batched)
        self._view.setModel(self._model)
        self._view.setItemDelegate(self._delegate)
        self._view.clicked.connect(self._on_chosen)
        self._view.entered_key.connect(self._on_chosen)
        self._empty = QLabel(words.say("desk-list-empty"))
        self._empty.setObjectName("formula_list_empty")
        self._empty.setProperty("role", "secondary")
        self._empty.setWordWrap(True)
        self._new = LinkButton(words.say("desk-new-formula"), "new_formula")
        self._new.clicked.connect(lambda *_checked: self.new_wanted.emit())
        self._key = QLabel(QKeySequence(NEW_KEY).toString(QKeySequence.SequenceFormat.NativeText))
        self._key.setProperty("role", "small")
        self._archived = LinkButton("", "formula_list_archived")
        self._archived.clicked.connect(lambda *_checked: self._toggle_archive())
        self._archived.hide()
        self._column = QVBoxLayout(self)
        self._top = QVBoxLayout()
        self._top.addWidget(self._find)
        self._top.addWidget(self._order, 0, Qt.AlignmentFlag.AlignLeft)
        self._top.addWidget(self._empty)
        self._column.addLayout(self._top)
        self._column.addWidget(self._view, 1)
        self._column.addStretch(0)
        self._foot = QVBoxLayout()
        self._foot.setSpacing(2)
        self._foot.addWidget(self._archived, 0, Qt.AlignmentFlag.AlignLeft)
        self._foot.addWidget(self._new, 0, Qt.AlignmentFlag.AlignLeft)
        self._foot.addWidget(self._key)
        self._column.addLayout(self._foot)
        for before, after in pairwise(
            (self._find, self._order, self._view, self._archived, self._new)
        ):
            QWidget.setTabOrder(before, after)
