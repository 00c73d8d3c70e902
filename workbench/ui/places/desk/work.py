"""The work on one draft: its session, its shelf, and the assessment of every change."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from PySide6.QtCore import QObject, Signal

from workbench.checks.assess import assess
from workbench.checks.assessment import Assessment
from workbench.checks.finding import Remedy
from workbench.checks.rules import Rules
from workbench.errors import WorkbenchError
from workbench.formula.edits import EditRefused
from workbench.formula.formula import Formula
from workbench.formula.scope import scope_of
from workbench.formula.shelf import Shelf
from workbench.storage.studio import Studio
from workbench.ui.notices import Notices, Offer
from workbench.ui.session import Session
from workbench.ui.tasks import Tasks
from workbench.words.catalogue import Words
from workbench.words.findings import named, remedy_text
from workbench.words.numbers import NumberStyle

Change = Callable[[Formula], Formula]


@dataclass(slots=True)
class _Stored:
    """Hold the counter a draft was stored with last; each open draft has its own."""

    counter: int = 0


class DeskWork(QObject):
    """Hold the open draft; edits go in by `edit`, everything computed comes out by `assessed`."""

    assessed = Signal(object)
    """The new Assessment, after every change of the draft."""
    opened = Signal(str)
    """The key of the draft that is now open; `assessed` follows."""
    storing = Signal(str)
    """The key of a draft that was changed and is about to be stored."""
    saved = Signal(str)
    """The key of a draft that was stored."""
    not_stored = Signal(str)
    """The key of a draft whose change could not be stored; why was told."""

    def __init__(
        self,
        studio: Studio,
        rules: Rules,
        words: Words,
        tasks: Tasks,
        notices: Notices,
        clock: Callable[[], datetime],
    ) -> None:
        super().__init__()
        self.studio = studio
        self.rules = rules
        self.words = words
        self.tasks = tasks
        self.notices = notices
        self.clock = clock
        self.key = ""
        self.session: Session[Formula] = Session(Formula(name=""), self)
        self.shelf: Shelf = studio.shelf_for(self.session.value)
        self._stored = _Stored()
        self._is_loading = False
        self._assessment = self._assess()
        self.session.changed.connect(self._on_changed)

    @property
    def formula(self) -> Formula:
        """The draft as it is now."""
        return self.session.value

    @property
    def assessment(self) -> Assessment:
        """What is computed about the draft as it is now."""
        return self._assessment

    @property
    def decimal_comma(self) -> bool:
        """Whether the maker writes the decimal mark as a comma."""
        return self.words.style is NumberStyle.COMMA

    def open(self, key: str) -> None:
        """Open the draft of a formula; the one before is stored already."""
        self.tasks.flush()
        formula, counter = self.studio.formulas.draft(key)
        self.key = key
        self._stored = _Stored(counter)
        self.opened.emit(key)
        self._is_loading = True
        try:
            self.session.load(formula)
        finally:
            self._is_loading = False

    def close(self) -> None:
        """Leave the draft, which may be gone; none is open then."""
        self.key = ""
        self._is_loading = True
        try:
            self.session.load(Formula(name=""))
        finally:
            self._is_loading = False
        self.opened.emit("")

    def renew(self) -> None:
        """Read the shelf again and compute anew, after prices, balances or numbers changed."""
        self.shelf = self.studio.shelf_for(self.formula)
        self._assessment = self._assess()
        self.assessed.emit(self._assessment)

    def take_rules(self, rules: Rules) -> None:
        """Check against other rules from now on, and compute anew."""
        self.rules = rules
        self.renew()

    def edit(self, text: str, change: Change, *, merge_key: str | None = None) -> bool:
        """Change the draft as one undo step; a refused edit is told and changes nothing."""
        if self.studio.read_only:
            self.notices.inform(self.words.say("edit-read-only"))
            return False
        try:
            return self.session.edit(text, change, merge_key=merge_key)
        except EditRefused as refused:
            values = named(refused.values.items(), self.shelf)
            self.notices.inform(self.words.say(refused.reason_id, **values))
            return False

    def begin_with_notes(self, notes: str) -> None:
        """Give the formula just begun its notes, and read it again with them."""
        try:
            self.studio.formulas.set_notes(self.key, notes, "")
            self.open(self.key)
        except WorkbenchError as error:
            self.notices.tell(error)

    def apply(self, remedy: Remedy) -> bool:
        """Apply the remedy of a finding as one undo step."""
        return self.edit(self.remedy_text(remedy), remedy.action.applied)

    def remedy_text(self, remedy: Remedy) -> str:
        """Return what a remedy does, in words."""
        return remedy_text(remedy, self.shelf, self.words)

    def _assess(self) -> Assessment:
        return assess(
            self.formula, self.shelf, scope_of(self.formula, self.clock().date()), self.rules
        )

    def _on_changed(self, before: Formula, after: Formula) -> None:
        wanted = {line.ingredient for line in after.lines()}
        held = self.shelf.ingredients.keys() | self.shelf.stocks.keys()
        if not wanted <= held:
            self.shelf = self.studio.shelf_for(after)
        self._assessment = self._assess()
        self.assessed.emit(self._assessment)
        if self.key and before is not after and not self._is_loading:
            self._store(after)

    def _store(self, formula: Formula) -> None:
        key, stored = self.key, self._stored
        self.storing.emit(key)

        def work() -> None:
            # Counted where it is stored: the next store may begin before this one is answered.
            stored.counter = self.studio.formulas.save_draft(key, formula, stored.counter)

        def done(_answer: None) -> None:
            self.saved.emit(key)

        def failed(error: WorkbenchError) -> None:
            self.not_stored.emit(key)
            self.notices.tell(error, self._offer(key))

        self.tasks.rested(("draft", key), work, done, failed)

    def load_newer(self) -> None:
        """Take the draft another window stored; undo brings back what was here."""
        try:
            newer, counter = self.studio.formulas.draft(self.key)
        except WorkbenchError as error:
            self.notices.tell(error)
            return
        self._stored.counter = counter
        self.session.edit(self.words.say("load-newer"), lambda _mine: newer)

    def _offer(self, key: str) -> Offer | None:
        """Offer the newer draft where another window was first."""
        try:
            _, counter = self.studio.formulas.draft(key)
        except WorkbenchError:
            return None
        if key != self.key or counter == self._stored.counter:
            return None
        return Offer(self.words.say("load-newer"), self.load_newer)
