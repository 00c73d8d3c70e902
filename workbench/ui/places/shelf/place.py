"""The Shelf: the list of ingredients, and beside it the page of one or what is done with it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from workbench.errors import WorkbenchError
from workbench.formula.supply import Supply
from workbench.storage.shelf_list import ListedIngredient
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.changing import Changing
from workbench.ui.places.shelf.ingredient_page import IngredientPage
from workbench.ui.places.shelf.keys import SHELF_KEYS
from workbench.ui.places.shelf.list_pane import ListPane
from workbench.ui.places.shelf.shopping_page import ShoppingPage
from workbench.ui.places.shelf.supply_steps import SupplySteps
from workbench.ui.theme import Appearance, Theme

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent, QShowEvent

LIST_WIDTH = 370
_LIST_SHARE = 0.42
# So long the list may be walked through before a page is read; a held key passes many rows.
_REST_MS = 60


class ShelfPlace(QWidget):
    """Find an ingredient, read what is known of it, and change what is one's own."""

    draft_wanted = Signal(str)
    """The key of a formula to open on the Desk."""

    def __init__(
        self, work: DeskWork, appearance: Appearance, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        theme = appearance.theme
        self._work = work
        self._theme = theme
        self._wanted = ""
        self.setObjectName("shelf_place")
        self.list = ListPane(work, theme)
        self.steps = SupplySteps(work, self)
        self.undo_stack = self.steps.stack
        self.page = IngredientPage(work, theme, self.steps)
        self.shopping = ShoppingPage(work, theme)
        self.pages = QStackedWidget()
        self._resting = QTimer(self, singleShot=True, interval=_REST_MS)
        self._resting.timeout.connect(self._show_current)
        self.changing = Changing(work, theme, self.pages)
        self._build()
        self._connect()
        self.set_theme(theme)
        appearance.changed.connect(self.set_theme)

    @property
    def key(self) -> str:
        """The key of the ingredient whose page was shown last, or nothing."""
        return self.page.key

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        for part in (self.list, self.page, self.shopping, self.changing):
            part.set_theme(theme)
        side = theme.px(16)
        self._foot.setContentsMargins(side, theme.px(8), theme.px(8), theme.px(10))
        self._foot.setSpacing(theme.px(6))
        self._ways.set_gaps(theme.px(16), theme.px(5))
        self._empty_column.setContentsMargins(theme.px(20), theme.px(48), side, side)
        self._part()

    def show_ingredient(self, key: str) -> None:
        """Show the page of an ingredient, and stand on it in the list."""
        self._wanted = key
        self._read_list()

    def show_shopping(self, key: str = "") -> None:
        """Show what a batch of a formula needs."""
        self.pages.setCurrentWidget(self.shopping)
        self.shopping.begin(key)

    def keep_typed(self) -> None:
        """Store what stands typed in a field, before the studio is closed."""
        self.page.supply.keep_typed()

    def focus_place(self) -> None:
        """Put the focus where it was, at first on what is looked for."""
        (self.focusWidget() or self.list.search).setFocus(Qt.FocusReason.OtherFocusReason)

    def refresh(self) -> None:
        """Read the list and the page again, after something was stored from elsewhere."""
        self._read_list()

    def _build(self) -> None:
        words = self._work.words
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.list, 1)
        self._ways = FlowLayout(16, 5)
        self._buttons = {
            name: LinkButton(words.say(f"shelf-{name}"), f"shelf_{name.replace('-', '_')}")
            for name in ("new", "new-blend", "shopping")
        }
        for button in self._buttons.values():
            self._ways.addWidget(button)
        self._only = QCheckBox(words.say("shelf-on-hand-only"))
        self._only.setObjectName("shelf_on_hand_only")
        self._foot = QVBoxLayout()
        self._foot.addLayout(self._ways)
        self._foot.addWidget(self._only)
        column.addLayout(self._foot)
        for page in (self._empty_page(), self.page, self.shopping):
            self.pages.addWidget(page)
        self._splitter = QSplitter(Qt.Orientation.Horizontal)
        self._splitter.setHandleWidth(1)
        self._splitter.setChildrenCollapsible(False)
        self._splitter.addWidget(left)
        self._splitter.addWidget(self.pages)
        self._splitter.setStretchFactor(1, 1)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self._splitter)

    def _empty_page(self) -> QWidget:
        words = self._work.words
        page = QWidget()
        self._empty_column = QVBoxLayout(page)
        for key, role in (("shelf-empty-title", "title"), ("shelf-empty-text", "secondary")):
            label = QLabel(words.say(key))
            label.setProperty("role", role)
            label.setWordWrap(True)
            self._empty_column.addWidget(label)
        self._empty_column.addStretch(1)
        return page

    def _connect(self) -> None:
        self.list.current_changed.connect(lambda _key: self._resting.start())
        self.list.entered.connect(self._go_to_page)
        self.list.there_toggled.connect(self._set_there)
        self.page.left.connect(self._go_to_list)
        self.page.copy_wanted.connect(self.changing.copy)
        self.page.edit_wanted.connect(self.changing.edit)
        self.page.delete_wanted.connect(self.changing.delete)
        self.page.certificate_wanted.connect(self.changing.certificate)
        self.page.draft_wanted.connect(self.draft_wanted)
        self.steps.stored.connect(self._on_supply_stored)
        self.shopping.left.connect(self._leave)
        self.changing.stored.connect(self._on_stored)
        self.changing.left.connect(self._leave)
        self.changing.deleted.connect(lambda _key: self._on_stored(""))
        self._buttons["new"].clicked.connect(lambda *_checked: self.changing.make_new())
        self._buttons["new-blend"].clicked.connect(lambda *_checked: self.changing.blend())
        self._buttons["shopping"].clicked.connect(lambda *_checked: self.show_shopping())
        self._only.clicked.connect(self._set_only)
        jobs = {
            "search": self._go_to_search,
            "change": self._change_current,
            "copy-to-change": self._copy_current,
            "new": self.changing.make_new,
            "new-blend": self.changing.blend,
            "shopping": self.show_shopping,
        }
        for name, keys in SHELF_KEYS.items():
            do = jobs[name]
            action = QAction(self._work.words.say(f"shelf-{name}"), self)
            action.setObjectName(f"shelf-action-{name}")
            action.setShortcut(QKeySequence(keys))
            action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            action.triggered.connect(lambda *_checked, do=do: do())
            self.addAction(action)

    def _read_list(self) -> None:
        work = self._work
        work.tasks.latest(
            ("shelf list", id(self)), work.studio.ingredients.listed, self._take, work.notices.tell
        )

    def _take(self, rows: tuple[ListedIngredient, ...]) -> None:
        self.list.set_rows(rows)
        wanted, self._wanted = self._wanted, ""
        if wanted:
            self.list.show_key(wanted)
            self._open(wanted)
        elif self.page.key:
            self._open(self.page.key, is_turning=False)

    def _show_current(self) -> None:
        key = self.list.current_key
        if key and (key != self.page.key or self.pages.currentWidget() is not self.page):
            if self.changing.is_open:  # what is typed there is not thrown away by walking the list
                return
            self._open(key)

    def _open(self, key: str, *, is_turning: bool = True) -> None:
        studio = self._work.studio
        try:
            found = studio.ingredients.get([key])
            if key not in found:
                self.pages.setCurrentIndex(0)
                return
            item = found[key]
            original = studio.ingredients.get([item.based_on]).get(item.based_on)
            supply, uses = studio.supplies.get(key), studio.ingredients.used_in(key)
            self.page.show_ingredient(item, original, supply, uses)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return
        self.list.mark_open(key)
        if is_turning:
            self.pages.setCurrentWidget(self.page)

    def _set_there(self, key: str, is_there: bool) -> None:  # noqa: FBT001
        if self._work.studio.read_only:
            self._work.notices.inform(self._work.words.say("shelf-read-only"))
            return
        self.steps.set_there(key, is_there=is_there)

    def _on_supply_stored(self, supply: Supply) -> None:
        self.page.show_supply(supply)
        self._work.renew()
        self._read_list()

    def _on_stored(self, key: str) -> None:
        self._work.renew()
        self.pages.setCurrentIndex(0)
        self.show_ingredient(key or self.list.current_key)
        self._go_to_list()

    def _leave(self) -> None:
        if self.page.key:
            self.pages.setCurrentWidget(self.page)
        else:
            self.pages.setCurrentIndex(0)
        self._go_to_list()

    def _set_only(self, is_on: bool) -> None:  # noqa: FBT001
        settings = self._work.studio.settings
        try:
            settings.save(replace(settings.load(), on_hand_only=is_on))
        except WorkbenchError as error:
            self._only.setChecked(not is_on)
            self._work.notices.tell(error)
            return
        said = self._work.words.say("shelf-on-hand-only-told", on="yes" if is_on else "no")
        self._work.notices.inform(said)

    def _change_current(self) -> None:
        if self.page.key:
            self.changing.change(self.page.key)

    def _copy_current(self) -> None:
        if self.page.key:
            self.changing.copy(self.page.key)

    def _go_to_page(self) -> None:
        self._show_current()
        if self.pages.currentWidget() is self.page:
            self.page.focus_first()

    def _go_to_list(self) -> None:
        self.list.view.setFocus(Qt.FocusReason.OtherFocusReason)

    def _go_to_search(self) -> None:
        self.list.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.list.search.selectAll()

    def _part(self) -> None:
        left = min(self._theme.px(LIST_WIDTH), round(self.width() * _LIST_SHARE))
        self._splitter.setSizes([left, max(self.width() - left, 1)])

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the page what the list leaves."""
        super().resizeEvent(event)
        self._part()

    def showEvent(self, event: QShowEvent) -> None:
        """Read the list when the place is first seen, and what else may have changed."""
        super().showEvent(event)
        self._only.setChecked(self._work.studio.settings.load().on_hand_only)
        self._only.setEnabled(not self._work.studio.read_only)
        self._read_list()
