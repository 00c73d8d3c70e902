"""What to look at: every finding of the draft, kept in step with each edit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from workbench.checks.assessment import Assessment
from workbench.checks.finding import Finding
from workbench.ui.places.desk.finding_view import FindingView
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme

STOCK = "stock"

Key = tuple[Hashable, int]


class FindingsPanel(QWidget):
    """Show the findings; a finding that stays keeps its widget, so that nothing flickers."""

    line_wanted = Signal(int)
    """The line a finding is about, which the maker wants to go to."""
    page_wanted = Signal()
    """The maker wants to read the label and what was checked."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._theme = theme
        self._views: dict[Key, FindingView] = {}
        self._is_new_draft = True
        self._heading = QLabel(work.words.say("desk-findings"))
        self._heading.setProperty("role", "heading")
        self._calm = QLabel()
        self._calm.setObjectName("findings_empty")
        self._calm.setProperty("role", "secondary")
        self._calm.setWordWrap(True)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self._page = LinkButton(work.words.say("label-page-open"), "label_page_open")
        self._page.clicked.connect(lambda *_checked: self.page_wanted.emit())
        head = QHBoxLayout()
        head.addWidget(self._heading, 1)
        head.addWidget(self._page)
        self._column.addLayout(head)
        self._column.addWidget(self._calm)
        self.set_theme(theme)
        work.opened.connect(self._on_opened)
        work.assessed.connect(self.show_assessment)
        self.show_assessment(work.assessment)

    @property
    def views(self) -> tuple[FindingView, ...]:
        """What is shown, in order."""
        return tuple(self._views.values())

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self._heading.setContentsMargins(theme.px(4), 0, 0, theme.px(4))
        self._calm.setContentsMargins(theme.px(4), theme.px(4), 0, theme.px(8))
        for view in self._views.values():
            view.set_theme(theme)

    def show_assessment(self, assessment: Assessment) -> None:
        """Show the findings of an assessment; only what changed is touched."""
        wanted = _keyed(assessment.findings)
        gone = [key for key in self._views if key not in wanted]
        for key in gone:
            view = self._views.pop(key)
            self._column.removeWidget(view)
            view.hide()
            view.deleteLater()
        came = [key for key in wanted if key not in self._views]
        for key, found in wanted.items():
            if key in self._views:
                self._views[key].show_finding(found)
            else:
                self._views[key] = self._made(found)
        if list(self._views) != list(wanted):
            self._order(wanted)
        self._show_calm(is_calm=not wanted)
        if not self._is_new_draft:
            self._announce([self._views[key] for key in came])
        self._is_new_draft = False

    def _made(self, found: Finding) -> FindingView:
        view = FindingView(self._work, found, self._theme, self)
        view.line_wanted.connect(self.line_wanted)
        view.stepped.connect(lambda step: self._step(view, step))
        return view

    def _order(self, wanted: dict[Key, Finding]) -> None:
        self._views = {key: self._views[key] for key in wanted}
        before: QWidget | None = None
        for place, view in enumerate(self._views.values(), start=2):
            if self._column.indexOf(view) != place:
                self._column.removeWidget(view)
                self._column.insertWidget(place, view)
                view.show()
            if before is not None:
                QWidget.setTabOrder(before, view)
            before = view

    def _step(self, view: FindingView, step: int) -> None:
        views = self.views
        place = views.index(view) + step
        if 0 <= place < len(views):
            views[place].setFocus(Qt.FocusReason.OtherFocusReason)

    def _show_calm(self, *, is_calm: bool) -> None:
        if is_calm:
            self._calm.setText(self._checked_text())
        self._calm.setVisible(is_calm)

    def _checked_text(self) -> str:
        words, formula = self._work.words, self._work.formula
        if not any(formula.lines()):
            return words.say("desk-findings-no-lines")
        if formula.product_type == STOCK:
            return words.say("desk-findings-none-stock")
        markets = tuple(words.say("form-market-name", market=market) for market in formula.markets)
        return words.say("desk-findings-none", markets=markets)

    def _announce(self, views: list[FindingView]) -> None:
        if not views:
            return
        event = QAccessibleAnnouncementEvent(self, ". ".join(view.sentence for view in views))
        event.setPoliteness(QAccessible.AnnouncementPoliteness.Polite)
        QAccessible.updateAccessibility(event)

    def _on_opened(self, _key: str) -> None:
        self._is_new_draft = True


def _keyed(findings: tuple[Finding, ...]) -> dict[Key, Finding]:
    # Two rules may say the same of the same lines; the second is told from the first by count.
    seen: Counter[Hashable] = Counter()
    keyed: dict[Key, Finding] = {}
    for found in findings:
        seen[found.key] += 1
        keyed[found.key, seen[found.key]] = found
    return keyed
