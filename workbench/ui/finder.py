"""Find anything: one line over the window for ingredients, formulas, actions and settings."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QKeyEvent, QPainter
from PySide6.QtWidgets import (
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from workbench.ui.finder_sources import Found
from workbench.ui.sheet_over import SheetOver
from workbench.ui.theme import Role, Theme
from workbench.words.catalogue import Words

Find = Callable[[str], tuple[Found, ...]]
Index = QModelIndex | QPersistentModelIndex

_WIDTH, _ROW, _SHOWN = 620, 44, 8
_STEPS = {
    Qt.Key.Key_Up: -1,
    Qt.Key.Key_Down: 1,
    Qt.Key.Key_PageUp: -_SHOWN,
    Qt.Key.Key_PageDown: _SHOWN,
}


class Finder(SheetOver):
    """Show what fits as the maker types; arrows choose, Enter goes there, Esc leaves."""

    def __init__(self, find: Find, words: Words, theme: Theme, parent: QWidget) -> None:
        super().__init__("finder", words.say("find-name"), theme, parent)
        self._find = find
        self._words = words
        self._found: tuple[Found, ...] = ()
        self.line = QLineEdit()
        self.line.setObjectName("finder_line")
        self.line.setAccessibleName(words.say("find-line"))
        self.line.setPlaceholderText(words.say("find-line"))
        self.line.textChanged.connect(self._search)
        self.hits = _Hits()
        self.hits.setObjectName("finder_hits")
        self.hits.setAccessibleName(words.say("find-hits"))
        self.hits.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.hits.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.hits.itemClicked.connect(lambda _item: self.take())
        self._nothing = QLabel(words.say("find-nothing"))
        self._nothing.setProperty("role", "secondary")
        self._hint = QLabel(words.say("find-hint"))
        self._hint.setProperty("role", "small")
        self._column = QVBoxLayout(self)
        for widget in (self.line, self.hits, self._nothing, self._hint):
            self._column.addWidget(widget)
        self.set_theme(theme)

    @property
    def found(self) -> tuple[Found, ...]:
        """What fits, best first."""
        return self._found

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self._delegate = _HitDelegate(theme, self)
        self.hits.setItemDelegate(self._delegate)
        pad = theme.px(14)
        self._column.setContentsMargins(pad, pad, pad, theme.px(10))
        self._column.setSpacing(theme.px(8))
        self.dress(theme, _WIDTH)
        self.line.setFont(theme.font(Role.TOTAL))

    def begin(self) -> None:
        """Show the line, empty, over the window."""
        self.line.clear()
        self._search("")
        self.rise(self.line)

    def take(self) -> None:
        """Do what the chosen thing is for."""
        row = self.hits.currentRow()
        if not 0 <= row < len(self._found):
            return
        act = self._found[row].act
        if not self._found[row].is_ready:
            return
        self.leave()
        act()

    def _search(self, typed: str) -> None:
        self._found = self._find(typed)
        self.hits.clear()
        for one in self._found:
            item = QListWidgetItem(one.name)
            item.setData(Qt.ItemDataRole.UserRole, one)
            said = self._words.say("find-said", name=one.name, under=one.under)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, said)
            self.hits.addItem(item)
        self.hits.setCurrentRow(0)
        self.hits.setVisible(bool(self._found))
        self._nothing.setVisible(not self._found)
        self._tell_current()
        self._fit()

    def _tell_current(self) -> None:
        # The focus stays in the line, so the line says on what the list stands.
        item = self.hits.currentItem()
        said = item.data(Qt.ItemDataRole.AccessibleTextRole) if item else self._nothing.text()
        self.line.setAccessibleDescription(said)

    def _fit(self) -> None:
        self.hits.tall = min(len(self._found), _SHOWN) * self._theme.px(_ROW) + 2
        self.hits.updateGeometry()
        self.place()

    def _step(self, step: int) -> None:
        last = len(self._found) - 1
        if last < 0:
            return
        row = self.hits.currentRow()
        wrapped = (row + step) % (last + 1) if abs(step) == 1 else min(max(row + step, 0), last)
        self.hits.setCurrentRow(wrapped)
        self._tell_current()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows choose, Enter takes, Esc leaves."""
        step = _STEPS.get(Qt.Key(event.key()))
        if step is not None:
            self._step(step)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.take()
        else:
            super().keyPressEvent(event)


class _Hits(QListWidget):
    """Be as tall as the things found, or as there is room."""

    tall = 0

    def sizeHint(self) -> QSize:
        """Return the height of what is shown."""
        return QSize(100, self.tall)

    def minimumSizeHint(self) -> QSize:
        """Return room for one thing."""
        return QSize(40, min(self.tall, self.fontMetrics().height() * 2))


class _HitDelegate(QStyledItemDelegate):
    """Paint a name over what it is, in words."""

    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme = theme

    def sizeHint(self, _option: QStyleOptionViewItem, _index: Index) -> QSize:
        """Return the height of a row."""
        return QSize(10, self._theme.px(_ROW))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one thing found."""
        one, theme = index.data(Qt.ItemDataRole.UserRole), self._theme
        rect = QRect(option.rect)
        painter.save()
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, theme.colour("wash"))
            mark = QRect(rect.topLeft(), QSize(theme.px(3), rect.height()))
            painter.fillRect(mark, theme.colour("accent"))
        inner = rect.adjusted(theme.px(10), theme.px(3), -theme.px(8), -theme.px(3))
        half = inner.height() // 2
        upper = inner.adjusted(0, 0, 0, half - inner.height())
        self._write(painter, upper, one.name, Role.BODY, is_quiet=not one.is_ready)
        self._write(painter, inner.adjusted(0, half, 0, 0), one.under, Role.SMALL, is_quiet=True)
        painter.restore()

    def _write(
        self, painter: QPainter, rect: QRect, text: str, role: Role, *, is_quiet: bool
    ) -> None:
        font = self._theme.font(role)
        metrics = QFontMetrics(font)
        painter.setFont(font)
        painter.setPen(self._theme.colour("secondary" if is_quiet else "ink"))
        cut = metrics.elidedText(text, Qt.TextElideMode.ElideRight, rect.width())
        side = Qt.AlignmentFlag.AlignLeft
        painter.drawText(rect, side | Qt.AlignmentFlag.AlignVCenter, cut)
