"""The page beside the sheet: ingredient lists, warnings, and what was checked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QTextBrowser, QVBoxLayout, QWidget

from workbench.checks.checked import HELD
from workbench.checks.checked_values import Checked
from workbench.checks.label_values import Declaration, LabelWarning
from workbench.checks.rules import Rules
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words
from workbench.words.labels import (
    LabelWords,
    checked_title,
    kind_texts,
    limit_text,
    looked_text,
    required,
)

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent


class LabelPage(QWidget):
    """Show the label side of the draft as one page to read, copy or go back from."""

    left = Signal()
    """The maker goes back to the sheet."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._theme = theme
        self.setObjectName("label_page")
        self._title = QLabel(work.words.say("label-page-title"))
        self._title.setProperty("role", "title")
        self._back = LinkButton(work.words.say("label-page-back"), "label_page_back")
        self._back.clicked.connect(lambda *_checked: self.left.emit())
        self._text = QTextBrowser()
        self._text.setObjectName("label_page_text")
        self._text.setAccessibleName(work.words.say("label-page-title"))
        self._text.setFrameShape(QFrame.Shape.NoFrame)
        self._text.setOpenLinks(False)
        head = QHBoxLayout()
        head.addWidget(self._title, 1)
        head.addWidget(self._back, 0, Qt.AlignmentFlag.AlignBottom)
        self._column = QVBoxLayout(self)
        self._column.addLayout(head)
        self._column.addWidget(self._text, 1)
        self.set_theme(theme)
        work.assessed.connect(lambda _assessment: self._refresh())

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        side = theme.px(20)
        self._column.setContentsMargins(side, theme.px(12), side, theme.px(8))
        self._column.setSpacing(theme.px(8))
        self._text.document().setDefaultStyleSheet(_style(theme))
        self._refresh()

    def begin(self) -> None:
        """Show the page as the draft is now."""
        self._show()
        self._text.setFocus(Qt.FocusReason.OtherFocusReason)

    @property
    def text(self) -> str:
        """What the page says, as plain text."""
        return self._text.toPlainText()

    def _refresh(self) -> None:
        if self.isVisible():  # nobody reads it otherwise, and every edit would pay for it
            self._show()

    def _show(self) -> None:
        bar = self._text.verticalScrollBar()
        place = bar.value()
        self._text.setHtml("".join(_page(self._work)))
        bar.setValue(place)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc goes back to the sheet."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)


def _page(work: DeskWork) -> Iterator[str]:
    assessment, words = work.assessment, work.words
    say = LabelWords(words, work.formula, work.shelf)
    for declaration in assessment.label.declarations:
        yield from _declaration(declaration, say, words)
    yield from _warnings(assessment.label.warnings, say, words)
    risk = assessment.label.micro_risk
    yield _heading(words.say("micro-title"))
    yield _paragraph(say.verdict(risk), "strong")
    yield _list(say.risk_point(point) for point in risk.points)
    if risk.points:
        yield _paragraph(words.say("micro-not-seen"), "small")
    if assessment.checked is not None:
        yield from _checked(assessment.checked, work.rules, say, words)


def _declaration(declaration: Declaration, say: LabelWords, words: Words) -> Iterator[str]:
    yield _heading(words.say("declaration-title", market=declaration.market))
    if declaration.entries:
        yield _paragraph(f"{declaration.heading}: {declaration.text}")
    yield _paragraph(say.place_of_free(declaration), "small")
    for note in say.notes(declaration):
        yield _paragraph(note, "small")
    named = required(declaration.allergens)
    if named:
        yield _paragraph(words.say("allergens-title", market=declaration.market), "strong")
        yield _list(say.allergen(allergen) for allergen in named)


def _warnings(warnings: tuple[LabelWarning, ...], say: LabelWords, words: Words) -> Iterator[str]:
    yield _heading(words.say("warnings-title"))
    if not warnings:
        yield _paragraph(words.say("warning-none"))
    for warning in warnings:
        yield _paragraph(say.warning(warning), "strong")
        source = words.say("assess-source", source=warning.source)
        parts = (say.warning_kind(warning), say.warning_reason(warning), source)
        yield _paragraph(" · ".join(part for part in parts if part), "small")


def _checked(checked: Checked, rules: Rules, say: LabelWords, words: Words) -> Iterator[str]:
    yield _heading(words.say("checked-title"))
    yield _paragraph(checked_title(checked, words), "small")
    yield _list(looked_text(looked, words) for looked in checked.looked)
    yield _list(kind_texts(checked, words))
    for message, names in (
        ("checked-uncovered", say.substances(checked.uncovered)),
        ("checked-without-rule", say.substances(checked.without_rule)),
        ("checked-unknown-lines", say.lines(checked.unknown_lines)),
    ):
        if any(names):
            yield _paragraph(words.say(message, names=names))
    for heading, ids in (("checked-cautions", checked.cautions), ("checked-gaps", checked.gaps)):
        yield _paragraph(words.say(heading), "strong")
        yield _list(words.say(message) for message in ids)
    yield _paragraph(words.say("label-page-limits"), "strong")
    yield _list(
        f"{limit_text(look, rules, words)}: {words.say(f'checked-outcome-{look.outcome}')}"
        for look in sorted(checked.limits, key=lambda look: look.outcome != HELD)
    )


def _heading(text: str) -> str:
    return _paragraph(text, "head")


def _paragraph(text: str, role: str = "") -> str:
    kind = f' class="{role}"' if role else ""
    return f"<p{kind}>{escape(text)}</p>"


def _list(texts: Iterable[str]) -> str:
    items = "".join(f"<li>{escape(text)}</li>" for text in texts)
    return f"<ul>{items}</ul>" if items else ""


def _style(theme: Theme) -> str:
    palette = theme.palette
    return (
        f"body, p, li {{ font-size: {theme.px(14)}px; color: {palette.ink}; }}"
        f"p.head {{ font-size: {theme.px(15)}px; font-weight: 700; color: {palette.accent};"
        f" margin-top: {theme.px(16)}px; margin-bottom: {theme.px(4)}px; }}"
        f"p {{ margin-top: {theme.px(2)}px; margin-bottom: {theme.px(4)}px; }}"
        f"p.strong {{ font-weight: 700; margin-top: {theme.px(8)}px; }}"
        f"p.small {{ font-size: {theme.px(12)}px; color: {palette.secondary}; }}"
        f"ul {{ margin-left: {theme.px(2)}px; -qt-list-indent: 0; }}"
        f"li {{ margin-bottom: {theme.px(2)}px; margin-left: {theme.px(14)}px; }}"
    )
