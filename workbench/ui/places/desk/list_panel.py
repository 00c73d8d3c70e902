"""The list of formulas at the left of the Desk."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QPersistentModelIndex,
    QRect,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QFontMetrics, QKeyEvent, QKeySequence, QPainter, QPen
from PySide6.QtWidgets import (
    QLabel,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from workbench.errors import WorkbenchError
from workbench.formula.formula import Formula, Line, Phase
from workbench.ui.places.desk.entries import ListedFormula, ListReader, Section
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Role, Theme
from workbench.words.catalogue import Words

NEW_KEY = "Ctrl+N"
FIRST_INGREDIENT = "water"

Index = QModelIndex | QPersistentModelIndex
Row = Section | ListedFormula
ROW_ROLE = Qt.ItemDataRole.UserRole


class FormulaList(QWidget):
    """List drafts, formulas and stocks; Enter or a click opens one."""

    created = Signal(str)
    """The key of a formula that was just made and opened."""
    version_read = Signal(object)
    """The latest version of the open draft as the list has it, None before the first."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._reader = ListReader(work.studio)
        self._model = _ListModel(work.words, self)
        self._delegate = _ListDelegate(work.words, theme, self)
        self._view = _ListView()
        self._view.setObjectName("formula_list")
        self._view.setAccessibleName(work.words.say("desk-list-name"))
        self._view.setModel(self._model)
        self._view.setItemDelegate(self._delegate)
        self._view.clicked.connect(self._on_chosen)
        self._view.entered_key.connect(self._on_chosen)
        self._empty = QLabel(work.words.say("desk-list-empty"))
        self._empty.setObjectName("formula_list_empty")
        self._empty.setProperty("role", "secondary")
        self._empty.setWordWrap(True)
        self._new = LinkButton(work.words.say("desk-new-formula"), "new_formula")
        self._new.clicked.connect(lambda *_checked: self.make_new())
        self._key = QLabel(QKeySequence(NEW_KEY).toString(QKeySequence.SequenceFormat.NativeText))
        self._key.setProperty("role", "small")
        self._column = QVBoxLayout(self)
        self._column.addWidget(self._empty)
        self._column.addWidget(self._view, 1)
        self._column.addStretch(0)
        self._foot = QVBoxLayout()
        self._foot.setSpacing(2)
        self._foot.addWidget(self._new, 0, Qt.AlignmentFlag.AlignLeft)
        self._foot.addWidget(self._key)
        self._column.addLayout(self._foot)
        self.set_theme(theme)
        work.saved.connect(lambda _key: self.refresh())
        work.opened.connect(self._on_opened)
        self.refresh()

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._delegate.theme = theme
        side, top = theme.px(12), theme.px(12)
        self._column.setContentsMargins(side, top, side, top)
        self._column.setSpacing(theme.px(6))
        self._empty.setContentsMargins(theme.px(8), 0, 0, 0)
        self._foot.setContentsMargins(theme.px(8), 0, 0, 0)
        self._view.scheduleDelayedItemsLayout()
        self._view.viewport().update()

    def refresh(self) -> None:
        """Read the list again, behind the window."""
        self._work.tasks.latest(
            ("formula list", id(self)), self._reader.read, self._show, self._work.notices.tell
        )

    def make_new(self) -> None:
        """Make a formula of water alone, whose line takes the rest, and open it."""
        words = self._work.words
        water = Line(id=1, ingredient=FIRST_INGREDIENT, percent=None)
        phase = Phase(id=1, name=words.say("desk-first-phase"), kind="water", lines=(water,))
        formula = Formula(name="", phases=(phase,))
        if self._work.studio.read_only:
            self._work.notices.inform(words.say("desk-new-read-only"))
            return
        self._work.tasks.flush()
        name = self._free_name(words.say("desk-new-formula-name"))
        try:
            key = self._work.studio.formulas.create(name, replace(formula, name=name))
            self._work.open(key)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return
        self.created.emit(key)

    def _free_name(self, wish: str) -> str:
        taken = {row.name for row in self._model.rows if isinstance(row, ListedFormula)}
        number, name = 1, wish
        while name in taken:
            number += 1
            name = f"{wish} {number}"
        return name

    def _show(self, formulas: tuple[ListedFormula, ...]) -> None:
        here = self._view.currentIndex().data(ROW_ROLE)
        if self._model.set_formulas(formulas):
            kept = here.key if isinstance(here, ListedFormula) else self._work.key
            self._make_current(kept)
        for formula in formulas:
            if formula.key == self._work.key:
                self.version_read.emit(formula.version)
        self._empty.setVisible(not formulas)
        self._view.setVisible(bool(formulas))

    def _make_current(self, key: str) -> None:
        row = self._model.row_of(key)
        if row is not None:
            self._view.setCurrentIndex(self._model.index(row, 0))

    def _on_opened(self, key: str) -> None:
        self._delegate.open_key = key
        self.refresh()
        self._make_current(key)
        self._view.viewport().update()

    def _on_chosen(self, index: QModelIndex) -> None:
        row = index.data(ROW_ROLE)
        if not isinstance(row, ListedFormula) or row.key == self._work.key:
            return
        try:
            self._work.open(row.key)
        except WorkbenchError as error:
            self._work.notices.tell(error)


class _ListView(QListView):
    """Walk over the headings with the keys of a list."""

    entered_key = Signal(QModelIndex)

    def __init__(self) -> None:
        super().__init__()
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setEditTriggers(QListView.EditTrigger.NoEditTriggers)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setUniformItemSizes(False)

    def _go(self, rows: range) -> None:
        model = self.model()
        for row in rows:
            index = model.index(row, 0)
            if model.flags(index) & Qt.ItemFlag.ItemIsEnabled:
                self.setCurrentIndex(index)
                return

    def _moves(self) -> dict[int, range]:
        count, row = self.model().rowCount(), self.currentIndex().row()
        return {
            Qt.Key.Key_Home: range(count),
            Qt.Key.Key_End: range(count - 1, -1, -1),
            Qt.Key.Key_Down: range(row + 1, count),
            Qt.Key.Key_Up: range(row - 1, -1, -1),
        }

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Move by arrows, Home and End; Enter opens."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.entered_key.emit(self.currentIndex())
            return
        rows = self._moves().get(event.key())
        if rows is None or event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
            super().keyPressEvent(event)
        else:
            self._go(rows)


class _ListModel(QAbstractListModel):
    """Hold headings and formulas in the order they are shown."""

    def __init__(self, words: Words, parent: QWidget) -> None:
        super().__init__(parent)
        self._words = words
        self.rows: tuple[Row, ...] = ()

    def set_formulas(self, formulas: tuple[ListedFormula, ...]) -> bool:
        """Take the formulas; tell whether anything is different."""
        rows: list[Row] = []
        for section in Section:
            under = [formula for formula in formulas if formula.section is section]
            rows.extend((section, *under) if under else ())
        if tuple(rows) == self.rows:
            return False
        self.beginResetModel()
        self.rows = tuple(rows)
        self.endResetModel()
        return True

    def row_of(self, key: str) -> int | None:
        """Return where a formula stands, or None."""
        for place, row in enumerate(self.rows):
            if isinstance(row, ListedFormula) and row.key == key:
                return place
        return None

    def rowCount(self, parent: Index | None = None) -> int:
        """Return how many rows there are."""
        return 0 if parent is not None and parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """Return the row, or its text."""
        if not index.isValid():
            return None
        row = self.rows[index.row()]
        answers: dict[int, Callable[[], object]] = {
            ROW_ROLE: lambda: row,
            Qt.ItemDataRole.DisplayRole: lambda: first_line(row, self._words),
            Qt.ItemDataRole.ToolTipRole: lambda: first_line(row, self._words),
            Qt.ItemDataRole.AccessibleTextRole: lambda: spoken(row, self._words),
        }
        return answers[role]() if role in answers else None

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Let only formulas be chosen."""
        if index.isValid() and isinstance(self.rows[index.row()], ListedFormula):
            return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        return Qt.ItemFlag.NoItemFlags


def first_line(row: Row, words: Words) -> str:
    """Return the heading, or the name of the formula."""
    return words.say(f"desk-list-{row.value}") if isinstance(row, Section) else row.name


def second_line(row: ListedFormula, words: Words) -> str:
    """Return in words what state a formula is in."""
    if row.section is Section.STOCKS:
        return words.say("desk-list-used", count=row.used_in)
    return words.say(
        "desk-list-state",
        state="draft" if row.is_changed else "version",
        version=row.version or 0,
    )


def spoken(row: Row, words: Words) -> str:
    """Return a row as it is read out."""
    if isinstance(row, Section):
        return first_line(row, words)
    return f"{row.name}, {second_line(row, words)}"


class _ListDelegate(QStyledItemDelegate):
    """Paint a heading, or a name over what state it is in."""

    def __init__(self, words: Words, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._words = words
        self.theme = theme
        self.open_key = ""

    def sizeHint(self, _option: QStyleOptionViewItem, index: Index) -> QSize:
        """Return the height of one line, or two."""
        small = QFontMetrics(self.theme.font(Role.SMALL)).height()
        if isinstance(index.data(ROW_ROLE), Section):
            above = self.theme.px(14) if index.row() else self.theme.px(2)
            return QSize(10, QFontMetrics(self.theme.font(Role.HEADING)).height() + above + 6)
        body = QFontMetrics(self.theme.font()).height()
        return QSize(10, body + small + self.theme.px(12))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one row."""
        row = index.data(ROW_ROLE)
        painter.save()
        rect = QRect(option.rect)
        if isinstance(row, Section):
            self._write(painter, self._inner(rect, 3), row, Role.HEADING)
        else:
            self._paint_formula(painter, option, row)
        painter.restore()

    def _paint_formula(
        self, painter: QPainter, option: QStyleOptionViewItem, row: ListedFormula
    ) -> None:
        rect = QRect(option.rect)
        state = option.state
        is_open = row.key == self.open_key
        if is_open:
            painter.fillRect(rect, self.theme.colour("surface"))
        if state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(self.theme.colour("accent"), 2))
            painter.drawRect(rect.adjusted(1, 1, -1, -1))
        inner = self._inner(rect, self.theme.px(6))
        body = Role.STRONG if is_open else Role.BODY
        height = QFontMetrics(self.theme.font(body)).height()
        self._write(painter, QRect(inner.topLeft(), QSize(inner.width(), height)), row, body)
        inner.setTop(inner.top() + height)
        self._write(painter, inner, second_line(row, self._words), Role.SMALL)

    def _inner(self, rect: QRect, above: int) -> QRect:
        side = self.theme.px(8)
        return rect.adjusted(side, above, -side, -above)

    def _write(self, painter: QPainter, rect: QRect, row: Row | str, role: Role) -> None:
        text = row if isinstance(row, str) else first_line(row, self._words)
        font = self.theme.font(role)
        is_quiet = role in (Role.SMALL, Role.HEADING)
        painter.setFont(font)
        painter.setPen(self.theme.colour("secondary" if is_quiet else "ink"))
        align = Qt.AlignmentFlag.AlignLeft | (
            Qt.AlignmentFlag.AlignBottom if role is Role.HEADING else Qt.AlignmentFlag.AlignTop
        )
        cut = QFontMetrics(font).elidedText(text, Qt.TextElideMode.ElideRight, rect.width())
        painter.drawText(rect, align, cut)
