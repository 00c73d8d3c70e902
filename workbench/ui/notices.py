"""What the program tells without being asked: errors of the world outside, and what was done."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Protocol

from PySide6.QtCore import QEvent, QObject, QRect, Qt, QTimer
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QEnterEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from workbench.errors import WorkbenchError
from workbench.words.catalogue import Words

Undo = Callable[[], None]
KEPT_TIMES = 6
"""What is kept is shown so many times as long as other news: a minute."""


@dataclass(frozen=True, slots=True)
class Offer:
    """Hold a way out of an error: what its button says, and what it does."""

    text: str
    act: Callable[[], None] = field(compare=False)


class Notices(Protocol):
    """Tell the maker something, without a dialog that blocks the work."""

    def tell(self, error: WorkbenchError, offer: Offer | None = None) -> None:
        """Show an error until the maker puts it away, with a way out where there is one."""

    def inform(self, text: str, undo: Undo | None = None, *, is_kept: bool = False) -> None:
        """Show for a while what was done, with a way to take it back where there is one.

        What is kept stays longer, and comes back after shorter news.
        """

    def withdraw(self, undo: Undo) -> None:
        """Put away the notice with this way back, which was gone already."""


@dataclass(frozen=True, slots=True)
class _Notice:
    text: str
    remedy: str = ""
    detail: str = ""
    undo: Undo | None = None
    is_error: bool = False
    is_kept: bool = False
    offer: Offer | None = None


class NoticeBar(QFrame):
    """A quiet bar at the foot of the window; hidden while there is nothing to tell."""

    def __init__(
        self, words: Words, parent: QWidget | None = None, *, shown_ms: int = 10_000
    ) -> None:
        super().__init__(parent)
        self._shown_ms = shown_ms
        self._words = words
        self._shown: _Notice | None = None
        self._waiting: deque[_Notice] = deque()
        self._host: QWidget | None = None
        self._under: QWidget | None = None
        self._timer = QTimer(self, singleShot=True, interval=shown_ms)
        self._timer.timeout.connect(self.dismiss)
        self.setObjectName("notice_bar")
        self.setAccessibleName(words.say("notices-name"))
        self._build()
        self.hide()
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._on_focus_changed)

    @property
    def text(self) -> str:
        """What stands on the bar now; empty when it is hidden."""
        return self._label.text() if self._shown else ""

    def tell(self, error: WorkbenchError, offer: Offer | None = None) -> None:
        """Show an error until the maker puts it away; errors wait for each other."""
        notice = _Notice(error.what, error.remedy, error.detail, is_error=True, offer=offer)
        if self._shown is not None and self._shown.is_error:
            if notice not in (self._shown, *self._waiting):
                self._waiting.append(notice)
            return
        self._show(notice)

    def inform(self, text: str, undo: Undo | None = None, *, is_kept: bool = False) -> None:
        """Show what was done; the newest takes the place of the one before, never of an error.

        What is kept, a deletion, comes back after news without a way back of its own.
        """
        notice = _Notice(text, undo=undo, is_kept=is_kept)
        if self._shown is not None and self._shown.is_error:
            self._waiting = deque(kept for kept in self._waiting if kept.is_error)
            self._waiting.append(notice)
            return
        if undo is not None:
            self._waiting.clear()
        elif self._shown is not None and self._shown.is_kept:
            self._waiting.append(self._shown)
        self._show(notice)

    def withdraw(self, undo: Undo) -> None:
        """Put away the notice with this way back, which was gone already."""
        self._waiting = deque(kept for kept in self._waiting if kept.undo != undo)
        if self._shown is not None and self._shown.undo == undo:
            self.dismiss()

    def dismiss(self) -> None:
        """Put away what is shown, and show what waits."""
        self._timer.stop()
        self._shown = None
        if self._waiting:
            self._show(self._waiting.popleft())
        else:
            self.hide()

    def float_over(self, host: QWidget, foot: QWidget) -> None:
        """Lie over the foot of a window, which keeps room for a line of it: nothing moves."""
        self._host, self._under = host, foot
        self.setParent(host)
        self.setAutoFillBackground(True)
        self.hide()
        host.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Stay at the foot of a window that changes its size."""
        if watched is self._host and event.type() is QEvent.Type.Resize:
            self._place()
        return super().eventFilter(watched, event)

    def event(self, event: QEvent) -> bool:
        """Take the height of the sentences when they or the sizes change."""
        taken = super().event(event)
        if event.type() in (QEvent.Type.LayoutRequest, QEvent.Type.StyleChange):
            self._place()
        return taken

    def _place(self) -> None:
        layout = self.layout()
        if self._host is None or self._under is None or layout is None:
            return
        buttons = [button.sizeHint().height() for button in (self._undo, self._close)]
        margins = layout.contentsMargins()
        line = max(*buttons, self._label.fontMetrics().height())
        self._under.setMinimumHeight(line + margins.top() + margins.bottom())
        room = self._host.rect()
        wanted = layout.totalHeightForWidth(room.width())
        height = max(wanted, self._under.minimumHeight())
        self.setGeometry(QRect(0, room.height() - height, room.width(), height))

    def _build(self) -> None:
        self._label = _sentence("notice_text")
        self._remedy = _sentence("notice_remedy")
        self._detail = _sentence("notice_detail")
        self._remedy.setProperty("role", "secondary")
        self._detail.setProperty("role", "small")
        self._detail.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse
            | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self._undo = self._button("notice_undo", self._words.say("notices-undo"))
        self._undo.clicked.connect(self._on_undo_clicked)
        self._details = self._button("notice_details", self._words.say("notices-details"))
        self._details.clicked.connect(self._on_details_clicked)
        self._close = self._button("notice_close", self._words.say("notices-close"))
        self._close.clicked.connect(self.dismiss)
        row = QHBoxLayout()
        row.setSpacing(16)
        sentences = QVBoxLayout()
        sentences.setSpacing(2)
        for label in (self._label, self._remedy, self._detail):
            sentences.addWidget(label)
        row.addLayout(sentences, 1)
        for button in (self._undo, self._details, self._close):
            row.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)
        self.setLayout(row)
        row.setContentsMargins(20, 8, 20, 8)

    def _button(self, name: str, text: str) -> QPushButton:
        button = QPushButton(text, self)
        button.setObjectName(name)
        button.setProperty("role", "link")
        button.setCursor(Qt.CursorShape.PointingHandCursor)
        return button

    def _show(self, notice: _Notice) -> None:
        self._shown = notice
        self._timer.stop()
        self._label.setText(notice.text)
        self._remedy.setText(notice.remedy)
        self._remedy.setVisible(bool(notice.remedy))
        self._detail.setText(notice.detail)
        self._unfold(unfolded=False)
        self._details.setVisible(bool(notice.detail))
        self._undo.setVisible(notice.undo is not None or notice.offer is not None)
        self._undo.setText(notice.offer.text if notice.offer else self._words.say("notices-undo"))
        self.setProperty("kind", "error" if notice.is_error else "news")
        self.style().unpolish(self)
        self.style().polish(self)
        self.show()
        self.raise_()
        self._place()
        self._announce(f"{notice.text} {notice.remedy}".rstrip(), is_urgent=notice.is_error)
        self._start_waiting()

    def _announce(self, text: str, *, is_urgent: bool) -> None:
        self.setAccessibleDescription(text)
        event = QAccessibleAnnouncementEvent(self, text)
        politeness = QAccessible.AnnouncementPoliteness
        event.setPoliteness(politeness.Assertive if is_urgent else politeness.Polite)
        QAccessible.updateAccessibility(event)

    def _unfold(self, *, unfolded: bool) -> None:
        self._detail.setVisible(unfolded)
        self._details.setText(
            self._words.say("notices-hide-details" if unfolded else "notices-details")
        )

    def _start_waiting(self) -> None:
        # Who reads it with the pointer on it, or has the focus in it, is not hurried.
        is_in_use = self.underMouse() or self.isAncestorOf(QApplication.focusWidget() or self)
        if self._shown is None or self._shown.is_error or is_in_use:
            self._timer.stop()
        elif not self._timer.isActive():
            self._timer.start(self._shown_ms * (KEPT_TIMES if self._shown.is_kept else 1))

    def _on_undo_clicked(self) -> None:
        shown = self._shown
        undo = shown.undo if shown else None
        if shown is not None and shown.offer is not None:
            undo = shown.offer.act
        self.dismiss()
        if undo is not None:
            undo()

    def _on_details_clicked(self) -> None:
        self._unfold(unfolded=not self._detail.isVisible())

    def _on_focus_changed(self) -> None:
        self._start_waiting()

    def enterEvent(self, event: QEnterEvent) -> None:
        """Stay while the pointer is on the bar."""
        self._timer.stop()
        super().enterEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        """Hide after a while again."""
        self._start_waiting()
        super().leaveEvent(event)


def _sentence(name: str) -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setWordWrap(True)
    # What comes from outside (a file name, an error) is shown as it is, never as markup.
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label
