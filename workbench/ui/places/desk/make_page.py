"""Choose a version to make and see its worksheet, in the window."""

from __future__ import annotations

from dataclasses import dataclass, replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from workbench.bench.batch import BatchOrder
from workbench.checks.assess import assess
from workbench.errors import WorkbenchError
from workbench.formula.formula import Formula
from workbench.formula.scope import scope_of
from workbench.formula.shelf import Shelf, shelf_of
from workbench.storage.settings import StudioSettings
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.preview import PaperPreview
from workbench.ui.theme import Theme
from workbench.ui.widgets.combo import Combo

DRAFT = 0
PAPERS = ("A4", "Letter")


@dataclass(frozen=True, slots=True)
class _Choice:
    formula: Formula
    shelf: Shelf
    version: int
    number: str


class MakePage(QWidget):
    """Show the worksheet of the draft or a version; a batch number is taken on request."""

    closed = Signal()

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._words = work.words
        self._settings = StudioSettings()
        self._logo = b""
        self._number = ""
        self.setObjectName("make_page")
        self.preview = PaperPreview(work.tasks, work.notices, work.words, theme)
        self.preview.closed.connect(self.closed)
        self._build(theme)

    def begin(self) -> None:
        """Show the worksheet of the open draft."""
        self._settings = self._work.studio.settings.load()
        self._logo = self._work.studio.settings.logo()
        self._papers.setCurrentText(self._settings.paper)
        self._number = ""
        self._list_versions(DRAFT)
        self._reason.clear()
        self._refresh()
        self.preview.setFocus()

    def set_theme(self, theme: Theme) -> None:
        """Take another theme."""
        self.preview.set_theme(theme)

    def take_number(self) -> None:
        """Give the chosen version a batch number; the draft is saved as a version first."""
        work, words = self._work, self._words
        if not work.assessment.totals.is_whole:
            work.notices.inform(words.say("make-not-whole"))
            return
        version = self._version()
        if version == DRAFT and not self._reason.text().strip():
            work.notices.inform(words.say("make-needs-reason"))
            self._reason.setFocus()
            return
        work.tasks.flush()
        now, key = work.clock().astimezone(), work.key
        reason, shelf = self._reason.text().strip(), work.shelf
        batch = work.assessment.batch_g

        def take() -> tuple[int, str]:
            number = version
            if number == DRAFT:
                number = work.studio.versions.make_version(key, reason, now, shelf).number
            if batch is None:
                return number, ""
            return number, work.studio.batches.take_number(key, number, batch, now).number

        def taken(answer: tuple[int, str]) -> None:
            made, self._number = answer
            self._list_versions(made)
            self._reason.clear()
            self._refresh()
            work.saved.emit(key)

        work.tasks.run(take, taken, work.notices.tell)

    def _build(self, theme: Theme) -> None:
        self._versions = Combo()
        self._versions.setObjectName("version_choice")
        self._versions.activated.connect(self._on_version_chosen)
        self._reason = QLineEdit()
        self._reason.setObjectName("version_reason")
        self._reason.setPlaceholderText(self._words.say("make-reason-hint"))
        self._reason.returnPressed.connect(self.take_number)
        self._papers = Combo()
        self._papers.setObjectName("paper_choice")
        self._papers.addItems(PAPERS)
        self._papers.activated.connect(self._refresh)
        self._take = QPushButton(self._words.say("make-take-number"))
        self._take.setObjectName("take_number")
        self._take.setProperty("role", "primary")
        self._take.clicked.connect(self.take_number)
        row = QHBoxLayout()
        row.setContentsMargins(theme.px(20), theme.px(10), theme.px(20), theme.px(10))
        row.setSpacing(theme.px(12))
        for name, field in (
            ("make-version", self._versions),
            ("make-reason", self._reason),
            ("make-paper", self._papers),
        ):
            label = QLabel(self._words.say(name))
            label.setProperty("role", "secondary")
            label.setBuddy(field)
            field.setAccessibleName(self._words.say(name))
            row.addWidget(label)
            row.addWidget(field, 1 if field is self._reason else 0)
        row.addWidget(self._take)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(row)
        column.addWidget(self.preview, 1)

    def _list_versions(self, chosen: int) -> None:
        self._versions.clear()
        self._versions.addItem(self._words.say("make-draft"), DRAFT)
        for entry in reversed(self._work.studio.versions.entries(self._work.key)):
            text = self._words.say("make-version-entry", number=entry.number, reason=entry.reason)
            self._versions.addItem(text[:80], entry.number)
        self._versions.setCurrentIndex(max(self._versions.findData(chosen), 0))
        self._reason.setEnabled(self._version() == DRAFT)

    def _version(self) -> int:
        return int(self._versions.currentData() or DRAFT)

    def _on_version_chosen(self) -> None:
        self._number = ""
        self._reason.setEnabled(self._version() == DRAFT)
        self._refresh()

    def _chosen(self) -> _Choice:
        work = self._work
        version = self._version()
        if version == DRAFT:
            return _Choice(work.formula, work.shelf, DRAFT, self._number)
        frozen = work.studio.versions.get(work.key, version)
        shelf = shelf_of(
            frozen.shelf.ingredients,
            frozen.shelf.stocks,
            frozen.shelf.substances,
            dict(work.shelf.prices),
            work.shelf.balances,
        )
        formula = replace(frozen.formula, plan=work.formula.plan)
        return _Choice(formula, shelf, version, self._number)

    def _refresh(self) -> None:
        work, words = self._work, self._words
        try:
            choice = self._chosen()
        except WorkbenchError as error:
            work.notices.tell(error)
            return
        scope = scope_of(choice.formula, work.clock().date())
        assessment = assess(choice.formula, choice.shelf, scope, work.rules)
        if assessment.batch_g is None:
            work.notices.inform(words.say("make-no-batch"))
            return
        paper, settings, today = self._papers.currentText(), self._settings, work.clock().date()
        logo = self._logo
        label = (
            words.say("make-draft-label")
            if choice.version == DRAFT
            else words.say("make-version-label", number=choice.version)
        )

        order = BatchOrder(choice.number, label, assessment.batch_g, today)

        def draw() -> bytes:
            from workbench.documents.making import worksheet_bytes
            from workbench.documents.sheet import Paper
            from workbench.documents.worksheet_content import Print, StudioBlock

            block = StudioBlock(settings.name, settings.contact, logo)
            made = Print(block, words, work.rules.accept_bands)
            return worksheet_bytes(
                order, choice.formula, choice.shelf, assessment, made, Paper[paper.upper()]
            )

        title = words.say("make-title", name=choice.formula.name)
        file = f"{choice.number or choice.formula.name} worksheet.pdf".replace("/", "-")
        work.tasks.run(draw, lambda pdf: self.preview.show_pdf(pdf, title, file), work.notices.tell)
