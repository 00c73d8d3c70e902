"""Facts on ruled lines: what it is called, its value, and how far it was confirmed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QGridLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from workbench.ui.theme import Theme
from workbench.words.catalogue import Words

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent, QResizeEvent

LABEL_WIDTH, MARK_WIDTH = 150, 122
NARROWEST = 420
"""Under this width of the design a value stands below its label."""
NO_CONFIDENCE = "none"
# A word longer than any line, such as an address, is let break.
_BREAKS = re.compile(r"(\S{32})(?=\S{8})")


@dataclass(frozen=True, slots=True)
class ShownFact:
    """Hold one line: label, value, confidence id, and what it was in the original.

    `was` is a ready phrase, empty where nothing differs.
    """

    label: str
    value: str
    confidence: str = NO_CONFIDENCE
    was: str = ""


class FactRow(QWidget):
    """Show one fact on a rule; one that differs from its original carries a mark at the side."""

    def __init__(self, words: Words, theme: Theme, *, is_listing: bool = False) -> None:
        super().__init__()
        self._words = words
        self._theme = theme
        self._is_listing = is_listing
        self._fact: ShownFact | None = None
        self._label = plain_label("" if is_listing else "secondary")
        self._label.setWordWrap(True)
        self._value = plain_label("")
        self._value.setWordWrap(True)
        self._value.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._was = plain_label("small")
        self._was.setWordWrap(True)
        self._mark = plain_label("small")
        self._mark.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        self._texts = QVBoxLayout()
        self._texts.addWidget(self._value)
        self._texts.addWidget(self._was)
        self._texts.addStretch(1)
        self._row = QGridLayout(self)
        for label in (self._label, self._value):
            label.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self._is_narrow = False
        self._place()
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.set_theme(theme)

    @property
    def fact(self) -> ShownFact | None:
        """The fact that is shown."""
        return self._fact

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self._row.setColumnMinimumWidth(0, self._label_width())
        self._mark.setFixedWidth(theme.px(MARK_WIDTH))
        self._texts.setSpacing(theme.px(1))
        self._row.setHorizontalSpacing(theme.px(12))
        self._row.setVerticalSpacing(theme.px(1))
        self._row.setContentsMargins(theme.px(8), theme.px(4), 0, theme.px(5))

    def show_fact(self, fact: ShownFact) -> None:
        """Show a fact."""
        if fact == self._fact:
            return
        self._fact = fact
        self._label.setText(fact.label)
        self._value.setText(_BREAKS.sub("\\1\u200b", fact.value))
        self._was.setText(fact.was)
        self._was.setVisible(bool(fact.was))
        has_mark = fact.confidence != NO_CONFIDENCE
        said = self._words.say(f"shelf-confidence-{fact.confidence}") if has_mark else ""
        self._mark.setText(said)
        self.setAccessibleName(
            self._words.say(
                "shelf-row-read",
                label=fact.label,
                value=fact.value,
                confidence=fact.confidence,
                was=fact.was or "none",
            )
        )
        self.update()

    def _label_width(self) -> int:
        if self._is_listing or self._is_narrow:
            return 0
        return self._theme.px(LABEL_WIDTH)

    def _place(self) -> None:
        """Set label, value and mark side by side, or the value under them where room is scarce."""
        top = Qt.AlignmentFlag.AlignTop
        for item in (self._label, self._texts, self._mark):
            if isinstance(item, QWidget):
                self._row.removeWidget(item)
            else:
                self._row.removeItem(item)
        self._row.addWidget(self._label, 0, 0)
        self._row.addWidget(self._mark, 0, 2, top)
        if self._is_narrow:
            self._row.addLayout(self._texts, 1, 0, 1, 3)
        else:
            self._row.addLayout(self._texts, 0, 1)
        for column, stretch in enumerate((3, 2) if self._is_listing else (0, 1)):
            self._row.setColumnStretch(column, stretch)
        if self._is_narrow:
            self._row.setColumnStretch(0, 1)
        self._row.setColumnMinimumWidth(0, self._label_width())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Set the value under its label where room is scarce."""
        super().resizeEvent(event)
        is_narrow = not self._is_listing and self.width() < self._theme.px(NARROWEST)
        if is_narrow != self._is_narrow:
            self._is_narrow = is_narrow
            self._place()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Rule off the line, and mark what differs."""
        painter = QPainter(self)
        painter.setPen(QPen(self._theme.colour("rule"), 1))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)
        if self._fact is not None and self._fact.was:
            bar = QRect(0, self._theme.px(4), self._theme.px(3), self.height() - self._theme.px(9))
            painter.fillRect(bar, self._theme.colour("accent"))
        painter.end()


class FactGroup(QWidget):
    """Hold a heading and the facts under it; the rows are kept and shown again.

    With `is_listing` the rows name things of any length, each with a share.
    """

    def __init__(
        self, name: str, heading: str, words: Words, theme: Theme, *, is_listing: bool = False
    ) -> None:
        super().__init__()
        self._words = words
        self._is_listing = is_listing
        self._theme = theme
        self._rows: list[FactRow] = []
        self.setObjectName(f"shelf_group_{name}")
        self._heading = plain_label("heading")
        self._heading.setText(heading)
        self._lead = plain_label("small")
        self._lead.setWordWrap(True)
        self._foot = plain_label("small")
        self._foot.setWordWrap(True)
        self._column = QVBoxLayout(self)
        self._column.addWidget(self._heading)
        self._column.addWidget(self._lead)
        self._column.addWidget(self._foot)
        self.set_theme(theme)
        self.show_facts(())

    @property
    def facts(self) -> tuple[ShownFact, ...]:
        """The facts that are shown."""
        return tuple(row.fact for row in self._rows if row.fact is not None and not row.isHidden())

    @property
    def texts(self) -> tuple[str, ...]:
        """The sentences above and below the facts, those that are shown."""
        shown = (self._lead, self._foot)
        return tuple(label.text() for label in shown if not label.isHidden())

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self._column.setContentsMargins(0, theme.px(16), 0, 0)
        self._column.setSpacing(0)
        for label in (self._lead, self._foot):
            label.setContentsMargins(theme.px(8), theme.px(4), 0, theme.px(2))
        self._heading.setContentsMargins(theme.px(8), 0, 0, theme.px(4))
        for row in self._rows:
            row.set_theme(theme)

    def set_lead_role(self, role: str) -> None:
        """Show the sentence above the facts as a text of another role."""
        self._lead.setProperty("role", role)

    def show_facts(self, facts: tuple[ShownFact, ...], lead: str = "", foot: str = "") -> None:
        """Show facts, with a sentence above and one below them."""
        while len(self._rows) < len(facts):
            row = FactRow(self._words, self._theme, is_listing=self._is_listing)
            self._rows.append(row)
            self._column.insertWidget(self._column.count() - 1, row)
        for place, row in enumerate(self._rows):
            row.setVisible(place < len(facts))
            if place < len(facts):
                row.show_fact(facts[place])
        for label, text in ((self._lead, lead), (self._foot, foot)):
            label.setText(text)
            label.setVisible(bool(text))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Rule the heading off in ink."""
        painter = QPainter(self)
        painter.setPen(QPen(self._theme.colour("ink"), 1))
        foot = self._heading.geometry().bottom()
        painter.drawLine(0, foot, self.width(), foot)
        painter.end()


class WrappedLabel(QLabel):
    """Ask for no more height than its text takes at the width it gets."""

    def minimumSizeHint(self) -> QSize:
        """Return room for one line; the rest follows from the width."""
        return QSize(1, self.fontMetrics().height())


class ScrolledPage(QWidget):
    """Be as tall as its texts are at the width it has, so that nothing empty is scrolled to."""

    def minimumSizeHint(self) -> QSize:
        """Leave the height to the width; wrapped lines would ask for that of a narrow page."""
        return QSize(super().minimumSizeHint().width(), 1)


def plain_label(role: str) -> QLabel:
    """Return a label of a role that takes its text as it is."""
    label = WrappedLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    if role:
        label.setProperty("role", role)
    return label
