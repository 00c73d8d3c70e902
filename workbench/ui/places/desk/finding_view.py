"""One finding in words: shape, title, reason, source, and the ways out."""

from __future__ import annotations

import re

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from workbench.checks.acceptance import acceptance_of, may_be_accepted
from workbench.checks.finding import Finding, Remedy, Value
from workbench.formula.accepting import accepted, reopened
from workbench.ui.places.desk.accept_row import AcceptRow
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme
from workbench.ui.widgets.severity import SeverityMark
from workbench.words.findings import named
from workbench.words.sources import short_source

_BREAKS = re.compile(r"([_/])(?=\w)")  # where a key or an address may go on in the next line
_UNITS = ("gram", "ph")  # bases that say what the figures are measured in
_INGREDIENT_VALUES = ("ingredient", "ingredients")


class FindingView(QWidget):
    """Show one finding; a click or Enter asks for its first line."""

    line_wanted = Signal(int)
    swap_wanted = Signal(int)
    """The maker wants something else on the line the finding is about."""
    stepped = Signal(int)
    """The maker wants the finding before (-1) or after (+1) this one."""

    def __init__(
        self, work: DeskWork, found: Finding, theme: Theme, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._work = work
        self._theme = theme
        self._found: Finding | None = None
        self._remedies: tuple[Remedy, ...] = ()
        self._buttons: list[LinkButton] = []
        self.setObjectName("finding")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        word = work.words.say(f"severity-{found.severity.word}")
        self._mark = SeverityMark(found.severity.word, word, theme, self)
        self._title = _label("finding_title", "strong")
        self._detail = _label("finding_detail", "secondary")
        self._source = _label("finding_source", "small")
        self._why_text = _label("finding_why", "small")
        self._why_text.hide()
        self._why = self._link(work.words.say("desk-finding-why"), "finding_why_link")
        self._why.setCheckable(True)
        self._why.toggled.connect(self._on_why_toggled)
        self._links = FlowLayout(1, 1)
        self._swap = self._link(work.words.say("finding-swap"), "finding_swap")
        self._swap.clicked.connect(lambda *_checked: self._ask_for_swap())
        self._links.addWidget(self._swap)
        self._links.addWidget(self._why)
        self._accept = self._link("", "finding_accept")
        self._accept.clicked.connect(lambda *_checked: self._accept_or_reopen())
        self._links.addWidget(self._accept)
        self._accepted = _label("finding_accepted", "secondary")
        self._ask: AcceptRow | None = None
        self._build()
        self.set_theme(theme)
        self.show_finding(found)

    @property
    def finding(self) -> Finding | None:
        """The finding that is shown."""
        return self._found

    @property
    def sentence(self) -> str:
        """The finding as it is read out: its word, then its title."""
        return "" if self._found is None else finding_sentence(self._found, self._work)

    @property
    def last_stop(self) -> QWidget:
        """The widget at which Tab leaves the finding."""
        return self._accept if self._ask is None else self._ask.stops[-1]

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self._mark.set_theme(theme)
        self._links.set_gaps(theme.px(14), theme.px(4))
        if self._ask is not None:
            self._ask.set_gap(theme.px(10))
        self._row.setSpacing(theme.px(9))
        self._row.setContentsMargins(theme.px(4), theme.px(7), theme.px(4), theme.px(9))
        self._texts.setSpacing(theme.px(3))
        self.update()

    def show_finding(self, found: Finding) -> None:
        """Show a finding of the same key; what reads the same stays untouched."""
        if found == self._found:
            return
        words, values, is_open = self._work.words, named_all(found, self._work), not found.accepted
        if self._found is not None and found.key != self._found.key:
            self._begin_anew()
        self._found = found
        word = found.severity.word
        self._mark.show_severity(word, words.say(f"severity-{word}"))
        self._put(self._title, words.say(found.code, **values))
        detail = f"{found.code}-detail"
        said = words.say(detail, **values) if words.has(detail) else ""
        # What was looked at and accepted steps back; the computation holds the source in full.
        self._put(self._detail, said, is_shown=is_open)
        is_source_shown = is_open and not self._why.isChecked()
        self._put(self._source, self._source_text(found, is_short=True), is_shown=is_source_shown)
        if self._why.isChecked():
            self._put(self._why_text, self._computation(found))
        self._show_acceptance(found)
        self.setAccessibleName(self.sentence)
        self.setAccessibleDescription(said)
        self._show_remedies(found.remedies if is_open else ())
        self._show_swap(found if is_open else None)

    def _begin_anew(self) -> None:
        """Leave what was opened in the finding that was shown before."""
        self._why.setChecked(False)
        if self._ask is not None:
            self._ask.hide()

    def _show_acceptance(self, found: Finding) -> None:
        words, is_accepted = self._work.words, bool(found.accepted)
        said = words.say("desk-finding-accepted", reason=found.accepted) if is_accepted else ""
        self._put(self._accepted, said)
        self._accept.setText(words.say(f"desk-finding-{'reopen' if is_accepted else 'accept'}"))
        self._accept.setVisible(may_be_accepted(found))
        self._links.invalidate()

    def _accept_or_reopen(self) -> None:
        found = self._found
        if found is None:
            return
        if not found.accepted:
            self._asked().begin()
            return
        text = self._work.words.say("desk-undo-reopen")
        self._work.edit(text, lambda formula: reopened(formula, found.code, found.about))

    def _asked(self) -> AcceptRow:
        """Return the row that takes a reason, made when the first one is asked for."""
        if self._ask is None:
            self._ask = AcceptRow(self._work.words, self)
            self._ask.set_gap(self._theme.px(10))
            self._ask.given.connect(self._take_reason)
            self._ask.left.connect(lambda: self._accept.setFocus(Qt.FocusReason.OtherFocusReason))
            self._texts.insertWidget(self._texts.indexOf(self._why_text), self._ask)
            self.set_tab_order()
        return self._ask

    def _take_reason(self, reason: str) -> None:
        found = self._found
        if found is not None:
            word = acceptance_of(found, reason)
            text = self._work.words.say("desk-undo-accept")
            self._work.edit(text, lambda formula: accepted(formula, word))

    def _build(self) -> None:
        self._texts = QVBoxLayout()
        for label in (self._title, self._detail, self._source, self._accepted):
            self._texts.addWidget(label)
        self._texts.addLayout(self._links)
        self._texts.addWidget(self._why_text)
        self._row = QHBoxLayout(self)
        self._row.addWidget(self._mark, 0, Qt.AlignmentFlag.AlignTop)
        self._row.addLayout(self._texts, 1)

    @staticmethod
    def _put(label: QLabel, text: str, *, is_shown: bool = True) -> None:
        label.setText(_BREAKS.sub("\\1\u200b", text))
        label.setVisible(is_shown and bool(text))

    def _source_text(self, found: Finding, *, is_short: bool = False) -> str:
        if not found.source:
            return ""
        source = short_source(found.source) if is_short else found.source
        message = "desk-finding-source-short" if is_short else "desk-finding-source"
        return self._work.words.say(message, source=source, confidence=found.confidence or "read")

    def _computation(self, found: Finding) -> str:
        words = self._work.words
        unit = found.basis if found.basis in _UNITS else "percent"
        parts: list[str] = []
        if found.value is not None:
            parts.append(words.say("desk-finding-value", value=found.value, unit=unit))
        if found.limit is not None:
            parts.append(words.say("desk-finding-limit", limit=found.limit, unit=unit))
        if found.basis and found.basis not in _UNITS:
            parts.append(words.say("desk-finding-basis", basis=self._basis(found.basis)))
        for working in found.workings:
            parts.append(words.say(working.code, **named(working.values, self._work.shelf)))
        if found.lines and not found.workings:
            parts.append(words.say("desk-finding-lines", lines=self._lines(found)))
        source = self._source_text(found) or words.say("desk-finding-no-source")
        return "\n".join((*parts, source))

    def _basis(self, basis: str) -> str:
        words, name = self._work.words, f"basis-{basis}"
        # A basis is an id with words of its own, a substance, or as the text of the law has it.
        if " " not in basis and words.has(name):
            return words.say(name)
        return self._work.shelf.inci(basis)

    def _lines(self, found: Finding) -> tuple[str, ...]:
        by_id = {line.id: line.ingredient for line in self._work.formula.lines()}
        return tuple(self._work.shelf.name(by_id[line]) for line in found.lines if line in by_id)

    def _show_remedies(self, remedies: tuple[Remedy, ...]) -> None:
        if remedies == self._remedies:
            return
        self._remedies = remedies
        before = len(self._buttons)
        while len(self._buttons) > len(remedies):
            button = self._buttons.pop()
            self._links.removeWidget(button)
            button.hide()
            button.deleteLater()
        for place, remedy in enumerate(remedies):
            text = self._work.remedy_text(remedy)
            if place < len(self._buttons):
                self._buttons[place].setText(text)
            else:
                self._add_button(text, place)
        self._links.invalidate()
        if len(self._buttons) > before:
            self.set_tab_order()

    def _add_button(self, text: str, place: int) -> None:
        button = LinkButton(text, "finding_remedy", self, wraps=True)
        button.clicked.connect(lambda *_checked: self._work.apply(self._remedies[place]))
        self._buttons.append(button)
        self._links.insert_widget(place, button)
        button.show()

    def set_tab_order(self) -> None:
        """Let Tab go from the finding through its ways out."""
        before: QWidget = self
        asked = () if self._ask is None else self._ask.stops
        for button in (*self._buttons, self._swap, self._why, self._accept, *asked):
            QWidget.setTabOrder(before, button)
            before = button

    def _link(self, text: str, name: str) -> LinkButton:
        return LinkButton(text, name, self)

    def _on_why_toggled(self, is_shown: bool) -> None:  # noqa: FBT001
        if is_shown and self._found is not None:
            self._put(self._why_text, self._computation(self._found))
        self._why_text.setVisible(is_shown)
        self._source.setVisible(not is_shown and bool(self._source.text()))
        key = "desk-finding-hide-why" if is_shown else "desk-finding-why"
        self._why.setText(self._work.words.say(key))
        self._links.invalidate()

    def _show_swap(self, found: Finding | None) -> None:
        """Offer another ingredient where it is about one line."""
        names = self._lines(found) if found is not None and len(found.lines) == 1 else ()
        self._swap.setVisible(bool(names))
        if names:
            name = self._work.words.say("finding-swap-line", ingredient=names[0])
            self._swap.setAccessibleName(name)
            self._swap.setToolTip(name)
        self._links.invalidate()

    def _ask_for_swap(self) -> None:
        if self._found is not None and self._found.lines:
            self.swap_wanted.emit(self._found.lines[0])

    def _ask_for_line(self) -> None:
        if self._found is not None and self._found.lines:
            self.line_wanted.emit(self._found.lines[0])

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the press, so that the release comes here."""
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Ask for the line."""
        is_inside = self.rect().contains(event.position().toPoint())
        if event.button() is Qt.MouseButton.LeftButton and is_inside:
            self._ask_for_line()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter or space asks for the line; Up and Down go through the findings."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self._ask_for_line()
        elif event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self.stepped.emit(-1 if event.key() == Qt.Key.Key_Up else 1)
        else:
            super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Rule off the finding, and show the focus."""
        painter = QPainter(self)
        if self.hasFocus():
            painter.fillRect(self.rect(), self._theme.colour("surface"))
            painter.fillRect(0, 0, self._theme.px(2), self.height(), self._theme.colour("accent"))
        painter.setPen(QPen(self._theme.colour("rule"), 1))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)
        painter.end()


def named_all(found: Finding, work: DeskWork) -> dict[str, Value]:
    """Return the values of a finding with ingredient keys turned into names."""
    values: dict[str, Value] = dict(found.values)
    for name in _INGREDIENT_VALUES:
        value = values.get(name)
        if isinstance(value, tuple):
            values[name] = tuple(work.shelf.name(key) for key in value)
        elif value:
            values[name] = work.shelf.name(str(value))
    return values


def finding_sentence(found: Finding, work: DeskWork) -> str:
    """Return a finding as it is read out: its word, then its title."""
    word = work.words.say(f"severity-{found.severity.word}")
    return f"{word}: {work.words.say(found.code, **named_all(found, work))}"


def _label(name: str, role: str) -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setProperty("role", role)
    label.setWordWrap(True)
    label.setMinimumWidth(1)
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label
