"""A page on which a fact is changed: a form, what is wrong with it, and what would follow."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QLabel,
    QLayout,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from workbench.errors import WorkbenchError
from workbench.formula.ingredient import Ingredient
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.consequences_panel import (
    Consequences,
    ConsequencesPanel,
    consequences_of,
)
from workbench.ui.places.shelf.fact_rows import ScrolledPage, plain_label
from workbench.ui.theme import Theme

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent


class EditorPage(QWidget):
    """Hold a form; nothing is stored before it is whole and its consequences were shown."""

    stored = Signal(str)
    """The key of the ingredient that was stored."""
    left = Signal()
    """The maker goes back without storing."""

    def __init__(self, work: DeskWork, theme: Theme, name: str) -> None:
        super().__init__()
        self.work = work
        self.theme = theme
        self._looked_at: Ingredient | None = None
        self._is_to_scroll = False
        self.setObjectName(f"shelf_{name}")
        self.title = QLabel()
        self.title.setProperty("role", "title")
        self.title.setTextFormat(Qt.TextFormat.PlainText)
        self.title.setWordWrap(True)
        self.lead = plain_label("secondary")
        self.lead.setWordWrap(True)
        self.form = QVBoxLayout()
        self.consequences = ConsequencesPanel(work, theme)
        self._state = plain_label("secondary")
        self._state.setObjectName(f"shelf_{name}_state")
        self.save = QPushButton()
        self.save.setObjectName(f"shelf_{name}_save")
        self.save.setProperty("role", "primary")
        self.save.clicked.connect(lambda *_checked: self.ask_to_store())
        self.cancel = QPushButton(work.words.say("shelf-cancel"))
        self.cancel.setObjectName(f"shelf_{name}_cancel")
        self.cancel.clicked.connect(lambda *_checked: self.left.emit())
        self._build()

    def candidate(self) -> Ingredient | None:
        """Return the ingredient as it would count after storing, None while it is not whole."""
        raise NotImplementedError

    def faults(self) -> int:
        """Show at each field what is wrong with it, and return how much is."""
        raise NotImplementedError

    def is_changed(self) -> bool:
        """Tell whether there is anything to store."""
        raise NotImplementedError

    def store(self) -> str:
        """Store, and return the key of the ingredient.

        Raises
        ------
        WorkbenchError
            If another window was first, or the disk refuses.
        """
        raise NotImplementedError

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self.theme = theme
        side = theme.px(20)
        self._body.setContentsMargins(side, theme.px(14), side, theme.px(14))
        self._body.setSpacing(theme.px(8))
        self.form.setSpacing(theme.px(10))
        self._foot_row.setContentsMargins(side, theme.px(8), side, theme.px(8))
        self._foot.set_gaps(theme.px(14), theme.px(6))
        self._state.setMinimumHeight(self.save.sizeHint().height())
        self.consequences.set_theme(theme)

    def check(self) -> None:
        """Look at the form again after a change."""
        self._looked_at = None
        self._is_to_scroll = False
        self.consequences.hide()
        count = self.faults()
        words = self.work.words
        if count:
            self._state.setText(words.say("shelf-faults", count=count))
        else:
            key = "shelf-ready" if self.is_changed() else "shelf-unchanged"
            self._state.setText(words.say(key))
        is_ready = not count and self.is_changed() and not self.work.studio.read_only
        self.save.setText(words.say("shelf-save"))
        self.save.setEnabled(is_ready)

    def ask_to_store(self) -> None:
        """Show what would follow, and store at once where nothing would or it was shown."""
        item = self.candidate()
        if item is None or not self.save.isEnabled():
            return
        if self._looked_at == item:
            self._store()
            return
        studio, rules, today = self.work.studio, self.work.rules, self.work.clock().date()
        self.save.setEnabled(False)
        self.work.tasks.run(
            lambda: consequences_of(studio, rules, item, today),
            lambda found: self._show(item, found),
            self._told,
        )

    def _show(self, item: Ingredient, found: Consequences) -> None:
        if self.candidate() != item:  # typed on meanwhile
            self.check()
            return
        self.save.setEnabled(True)
        self._looked_at = item
        if not found.differing:
            self._store()
            return
        self.consequences.show_consequences(found)
        self.save.setText(self.work.words.say("shelf-save-anyway", count=len(found.differing)))
        self._state.setText(self.work.words.say("shelf-look-first"))
        self.save.setFocus(Qt.FocusReason.OtherFocusReason)
        self._is_to_scroll = True
        self._scroll_to_consequences()

    def _scroll_to_consequences(self) -> None:
        # Asked again whenever the layout has given the list more height, until it is changed.
        if self._is_to_scroll:
            self._scroll.verticalScrollBar().setValue(self.consequences.y())

    def _store(self) -> None:
        try:
            key = self.store()
        except WorkbenchError as error:
            self._told(error)
            return
        self.stored.emit(key)

    def _told(self, error: WorkbenchError) -> None:
        self.work.notices.tell(error)
        self.check()

    def _build(self) -> None:
        self._inside = ScrolledPage()
        self._body = QVBoxLayout(self._inside)
        self._body.addWidget(self.title)
        self._body.addWidget(self.lead)
        self._body.addLayout(self.form)
        self._body.addWidget(self.consequences)
        self._body.addStretch(1)
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setWidget(self._inside)
        self._scroll.verticalScrollBar().rangeChanged.connect(
            lambda *_range: self._scroll_to_consequences()
        )
        rule = QFrame()
        rule.setProperty("role", "rule")
        self._foot = FlowLayout(12, 8)
        for widget in (self.save, self.cancel, self._state):
            self._foot.addWidget(widget)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._scroll, 1)
        column.addWidget(rule)
        self._foot_row = QVBoxLayout()
        self._foot_row.addLayout(self._foot)
        column.addLayout(self._foot_row)

    def order_tabs(self) -> None:
        """Let Tab go through the form as it is read, and then to the foot."""
        before: QWidget | None = None
        for widget in (*_in_order(self._body), self.save, self.cancel):
            is_stop = bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus)
            if not is_stop or widget.focusProxy() is not None:
                continue
            if before is not None:
                QWidget.setTabOrder(before, widget)
            before = widget

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc goes back, Ctrl+Enter stores."""
        is_enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif is_enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.ask_to_store()
        else:
            super().keyPressEvent(event)


def _in_order(layout: QLayout) -> Iterator[QWidget]:
    """Yield the widgets of a layout as they are read, those inside others too."""
    for place in range(layout.count()):
        item = layout.itemAt(place)
        widget = item.widget() if item is not None else None
        inner = widget.layout() if widget is not None else item.layout() if item else None
        if widget is not None:
            yield widget
        if inner is not None:
            yield from _in_order(inner)
