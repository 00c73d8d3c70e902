"""What to look at: every finding of the draft, kept in step with each edit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from workbench.checks.assessment import Assessment
from workbench.checks.finding import Finding
from workbench.ui.places.desk.column_panel import ColumnPanel
from workbench.ui.places.desk.finding_view import FindingView, finding_sentence
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme

STOCK = "stock"
_AT_ONCE, _LOT = 10, 4
"""So many findings come with the edit itself, more than fit in sight; the rest follows in lots."""
_REST_MS = 150
_SPARE, _READY, _READY_AFTER_MS = 12, 3, 300
_HEAD = 2  # what stands above the findings in the column
_ANNOUNCED_AFTER_MS = 400

Key = tuple[Hashable, int]


class FindingsPanel(ColumnPanel):
    """Show the findings; a finding that stays keeps its widget, so that nothing flickers.

    Widgets of findings that went are kept for others: to dress a new one takes far longer.
    """

    line_wanted = Signal(int)
    """The line a finding is about, which the maker wants to go to."""
    swap_wanted = Signal(int)
    """The line a finding is about, on which the maker wants something else."""
    page_wanted = Signal()
    """The maker wants to read the label and what was checked."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._theme = theme
        self._wanted: dict[Key, Finding] = {}
        self._views: dict[Key, FindingView] = {}
        self._spare: list[FindingView] = []
        self._is_new_draft = True
        self._rest = QTimer(self, singleShot=True)
        self._rest.timeout.connect(lambda: self._show_more(self._missing()[:_LOT], 0))
        self._idle = QTimer(self, singleShot=True, interval=_READY_AFTER_MS)
        self._idle.timeout.connect(self._make_ready)
        self._unsaid: dict[Key, str] = {}
        self._speech = QTimer(self, singleShot=True, interval=_ANNOUNCED_AFTER_MS)
        self._speech.timeout.connect(self._announce)
        self._heading = QLabel(work.words.say("desk-findings"))
        self._heading.setProperty("role", "heading")
        self._heading.setWordWrap(True)
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
        """Every finding as it is shown, in order."""
        self._show_more(self._missing(), 0)
        return tuple(self._views.values())

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self._heading.setContentsMargins(theme.px(4), 0, 0, theme.px(4))
        self._calm.setContentsMargins(theme.px(4), theme.px(4), 0, theme.px(8))
        for view in (*self._views.values(), *self._spare):
            view.set_theme(theme)

    def show_assessment(self, assessment: Assessment) -> None:
        """Show the findings of an assessment; only what changed is touched."""
        wanted = _keyed(assessment.findings)
        came = [key for key in wanted if key not in self._wanted]
        self._wanted = wanted
        self._column.setEnabled(False)  # laid out once, when every view stands in its place
        self._put_away([key for key in self._views if key not in wanted])
        for key, view in self._views.items():
            view.show_finding(wanted[key])
        self._show_calm(is_calm=not wanted)
        self._column.setEnabled(True)
        first = [key for key in (*list(wanted)[:_AT_ONCE], *came) if key not in self._views]
        self._show_more(
            list(dict.fromkeys(first))[:_AT_ONCE], 0 if self._is_new_draft else _REST_MS
        )
        self._note_unsaid(came)

    def _put_away(self, gone: list[Key]) -> None:
        for key in gone:
            view = self._views.pop(key)
            view.hide()
            self._column.removeWidget(view)
            if len(self._spare) < _SPARE:
                self._spare.append(view)
            else:
                view.deleteLater()

    def _missing(self) -> list[Key]:
        return [key for key in self._wanted if key not in self._views]

    def _show_more(self, keys: list[Key], rest_ms: int) -> None:
        """Show findings that have no view yet, and plan what is still missing then."""
        self._column.setEnabled(False)
        for key in keys:
            self._views[key] = self._made(self._wanted[key])
        if keys or list(self._views) != [key for key in self._wanted if key in self._views]:
            self._order()
        self._column.setEnabled(True)
        self._column.activate()
        if self._missing():
            self._rest.start(rest_ms)
        elif not self._idle.isActive():
            self._idle.start()

    def _make_ready(self) -> None:
        """Dress a widget for a finding to come, one at a time, while the maker thinks."""
        if self._wanted and len(self._spare) < _READY:
            view = self._new(next(iter(self._wanted.values())))
            for part in (view, *view.findChildren(QWidget)):
                part.ensurePolished()
            self._spare.append(view)
            self._idle.start()

    def _made(self, found: Finding) -> FindingView:
        if not self._spare:
            return self._new(found)
        view = self._spare.pop()
        view.show_finding(found)
        return view

    def _new(self, found: Finding) -> FindingView:
        view = FindingView(self._work, found, self._theme, self)
        view.hide()
        view.line_wanted.connect(self.line_wanted)
        view.swap_wanted.connect(self.swap_wanted)
        view.stepped.connect(lambda step: self._step(view, step))
        return view

    def _order(self) -> None:
        self._views = {key: self._views[key] for key in self._wanted if key in self._views}
        before: FindingView | None = None
        for place, view in enumerate(self._views.values(), start=_HEAD):
            item = self._column.itemAt(place)
            if item is None or item.widget() is not view:
                self._column.removeWidget(view)
                self._column.insertWidget(place, view)
                if before is not None:
                    QWidget.setTabOrder(before.last_stop, view)
                view.set_tab_order()
            if view.isHidden():
                view.resize(self.width(), view.height())  # so that its words are measured once
                view.show()
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

    def _note_unsaid(self, came: list[Key]) -> None:
        """Keep what came for when the keys rest; what goes again by then is never said."""
        if self._is_new_draft:
            self._is_new_draft = False
            return
        self._unsaid.update((key, finding_sentence(self._wanted[key], self._work)) for key in came)
        self._unsaid = {key: said for key, said in self._unsaid.items() if key in self._wanted}
        if self._unsaid:
            self._speech.start()

    def _announce(self) -> None:
        said, self._unsaid = ". ".join(self._unsaid.values()), {}
        if said:
            event = QAccessibleAnnouncementEvent(self, said)
            event.setPoliteness(QAccessible.AnnouncementPoliteness.Polite)
            QAccessible.updateAccessibility(event)

    def _on_opened(self, _key: str) -> None:
        self._is_new_draft = True
        self._unsaid.clear()


def _keyed(findings: tuple[Finding, ...]) -> dict[Key, Finding]:
    # Two rules may say the same of the same lines; the second is told from the first by count.
    seen: Counter[Hashable] = Counter()
    keyed: dict[Key, Finding] = {}
    for found in findings:
        key = found.key
        seen[key] += 1
        keyed[key, seen[key]] = found
    return keyed
