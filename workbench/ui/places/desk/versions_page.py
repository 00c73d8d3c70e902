"""The page of versions: the list, what differs, and the ways back to one."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from workbench.checks.assess import assess
from workbench.errors import WorkbenchError
from workbench.formula.scope import scope_of
from workbench.formula.versions import Version
from workbench.ui.places.desk.difference_text import Side
from workbench.ui.places.desk.difference_view import DifferenceView
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.version_rows import DRAFT, VersionRow, read_rows, version_name
from workbench.ui.places.desk.version_table import VersionTable
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QResizeEvent

_LIST_SHARE = 0.32
_LEAST_LIST = 90
_ROOM_FOR_HINT = 420


class VersionsPage(QWidget):
    """Show the versions of the open formula in the place of the sheet; none can be changed."""

    left = Signal()
    """The maker goes back to the sheet."""
    keep_asked = Signal()
    """The maker wants to keep a version."""
    branched = Signal(object, str)
    """A formula to begin anew from a version, and its notes."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._words = work.words
        self._theme = theme
        self._marked: int | None = None
        self._known: dict[tuple[str, int], Version] = {}
        self.setObjectName("versions_page")
        # Another page of the Desk may be narrower: this one must not widen it.
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Ignored)
        self.table = VersionTable(work.words, theme)
        self.difference = DifferenceView(work.words, theme)
        self._build()
        self.set_theme(theme)
        self.table.chosen.connect(self._compare)
        self.table.marked.connect(self._mark)
        self.table.wanted.connect(lambda: self.difference.setFocus(Qt.FocusReason.OtherFocusReason))
        work.assessed.connect(lambda _assessment: self._renew())
        work.saved.connect(lambda _key: self._renew())

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        side = theme.px(20)
        self._column.setContentsMargins(side, theme.px(12), side, theme.px(8))
        self._column.setSpacing(theme.px(8))
        self._ways.set_gaps(theme.px(12), theme.px(6))
        self.table.set_theme(theme)
        self.difference.set_theme(theme)
        self._fit()

    def begin(self) -> None:
        """Show the versions of the open formula, the cursor on the draft."""
        self._marked = None
        self._known.clear()
        self._show()
        self.table.go_to(DRAFT)
        self._compare()
        self.focus_first()

    def focus_first(self) -> None:
        """Put the focus on the list."""
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def restore(self) -> None:
        """Make the chosen version the draft, as one undo step."""
        version = self._chosen_version()
        if version is None:
            return
        work, words = self._work, self._words
        name = work.formula.name
        text = words.say("versions-undo-restore", number=version.number)
        restored = replace(version.formula, name=name)
        if work.edit(text, lambda _draft: restored):
            said = words.say("versions-restored", number=version.number)
            work.notices.inform(said, work.session.stack.undo)
        self.left.emit()

    def branch(self) -> None:
        """Begin a new formula with the chosen version."""
        version = self._chosen_version()
        if version is None:
            return
        say, name, number = self._words.say, self._work.formula.name, version.number
        called = say("versions-branch-name", name=name, number=number)
        notes = say("versions-branch-notes", name=name, number=number, reason=version.reason)
        self.branched.emit(replace(version.formula, name=called), notes)

    def _build(self) -> None:
        say = self._words.say
        self._title = QLabel()
        self._title.setProperty("role", "title")
        self._title.setWordWrap(True)
        self._back = LinkButton(say("versions-back"), "versions_back")
        self._back.clicked.connect(lambda *_checked: self.left.emit())
        head = QHBoxLayout()
        head.addWidget(self._title, 1)
        head.addWidget(self._back, 0, Qt.AlignmentFlag.AlignBottom)
        self._keep = self._button("keep", self.keep_asked.emit)
        self._restore = self._button("restore", self.restore)
        self._branch = self._button("branch", self.branch)
        self._ways = FlowLayout(0, 0)
        for button in (self._keep, self._restore, self._branch):
            self._ways.addWidget(button)
        self._hint = QLabel(say("versions-hint"))
        self._hint.setProperty("role", "small")
        self._hint.setWordWrap(True)
        self.table.setAccessibleDescription(self._hint.text())
        self._column = QVBoxLayout(self)
        self._column.addLayout(head)
        self._column.addWidget(self.table)
        self._column.addWidget(self._hint)
        self._column.addLayout(self._ways)
        self._column.addWidget(self.difference, 1)
        order = (
            self.table,
            self._keep,
            self._restore,
            self._branch,
            self.difference,
            self._back,
        )
        for before, after in pairwise(order):
            QWidget.setTabOrder(before, after)

    def _button(self, name: str, act: object) -> QPushButton:
        button = QPushButton(self._words.say(f"versions-{name}"))
        button.setObjectName(f"versions_{name}")
        button.clicked.connect(lambda *_checked: act())  # type: ignore[operator]
        return button

    # What is shown.

    def _renew(self) -> None:
        if self.isVisible():  # nobody reads it otherwise, and every edit would pay for it
            self._show()
            self._compare()

    def _show(self) -> None:
        work = self._work
        try:
            rows = read_rows(work, self._marked) if work.key else ()
        except WorkbenchError as error:
            work.notices.tell(error)
            rows = ()
        self._title.setText(self._words.say("versions-title", name=work.formula.name))
        self.table.show_rows(rows)
        self._fit()

    def _mark(self, number: int) -> None:
        self._marked = None if number == self._marked else number
        self._show()
        self._compare()

    def _compare(self) -> None:
        row = self.table.current()
        is_version = row is not None and row.number != DRAFT
        is_read_only = self._work.studio.read_only
        self._keep.setEnabled(not is_read_only)
        for button in (self._restore, self._branch):
            button.setEnabled(is_version and not is_read_only)
        if row is None:
            self.difference.show_nothing()
            return
        try:
            before, after = self._pair(row)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            self.difference.show_nothing()
            return
        self.difference.show_sides(before, after)

    def _pair(self, row: VersionRow) -> tuple[Side | None, Side]:
        """Return the earlier and the later of the chosen row and what it is compared with."""
        numbers = [one.number for one in reversed(self.table.rows) if one.number != DRAFT]
        order = [*numbers, DRAFT]
        place = order.index(row.number)
        if self._marked in order and self._marked != row.number:
            other = order.index(self._marked)
        elif place:
            other = place - 1
        else:
            return None, self._side(row.number)
        earlier, later = sorted((place, other))
        return self._side(order[earlier]), self._side(order[later])

    def _side(self, number: int) -> Side:
        work = self._work
        name = version_name(number, self._words)
        if number == DRAFT:
            return Side(name, work.formula, work.shelf, work.assessment)
        version = self._version(number)
        formula = replace(version.formula, name=work.formula.name)
        scope = scope_of(formula, work.clock().date())
        return Side(name, formula, version.shelf, assess(formula, version.shelf, scope, work.rules))

    def _version(self, number: int) -> Version:
        asked = (self._work.key, number)
        if asked not in self._known:
            self._known[asked] = self._work.studio.versions.get(*asked)
        return self._known[asked]

    def _chosen_version(self) -> Version | None:
        row = self.table.current()
        if row is None or row.number == DRAFT:
            return None
        try:
            return self._version(row.number)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return None

    def _fit(self) -> None:
        self._hint.setVisible(self.height() >= self._theme.px(_ROOM_FOR_HINT))
        most = max(round(self.height() * _LIST_SHARE), self._theme.px(_LEAST_LIST))
        self.table.setFixedHeight(min(self.table.full_height(), most))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the list no more than its share."""
        super().resizeEvent(event)
        self._fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc goes back to the list, and from the list to the sheet."""
        if event.key() != Qt.Key.Key_Escape:
            super().keyPressEvent(event)
        elif self.focusWidget() is self.difference:
            self.focus_first()
        else:
            self.left.emit()
