"""Below the title of a stock: which formulas use it, and which would come out otherwise."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from workbench.errors import WorkbenchError
from workbench.formula.edits import to_percent_step
from workbench.formula.shelf import Shelf
from workbench.formula.stocks import StockUse, stock_change_effect, with_stock_changed
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.link_button import LinkButton

if TYPE_CHECKING:
    from workbench.checks.assessment import Assessment
    from workbench.formula.formula import Formula
    from workbench.ui.places.desk.work import DeskWork
    from workbench.ui.theme import Theme

MOST_LINKS = 6
_MOST_SUBSTANCES = 3


class StockNote(QWidget):
    """Tell what a changed stock would change in other drafts; it changes none of them.

    A stock is held against its latest version, or, before the first, against what it was when
    it was opened.
    """

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._users: dict[str, Formula] = {}
        self._before: Formula | None = None
        self.uses: tuple[StockUse, ...] = ()
        """The drafts that would come out otherwise."""
        self.setObjectName("stock_note")
        self._text = QLabel()
        self._text.setObjectName("stock_note_text")
        self._text.setProperty("role", "secondary")
        self._text.setWordWrap(True)
        self._more = QLabel()
        self._more.setObjectName("stock_note_more")
        self._more.setProperty("role", "secondary")
        self._links: list[LinkButton] = []
        self._flow = FlowLayout(14, 4)
        self._flow.addWidget(self._more)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.addWidget(self._text)
        self._column.addLayout(self._flow)
        self.hide()
        self.set_theme(theme)
        work.opened.connect(self._on_opened)
        work.assessed.connect(self._on_assessed)

    @property
    def text(self) -> str:
        """What the note says."""
        return self._text.text()

    @property
    def links(self) -> tuple[LinkButton, ...]:
        """The links to the drafts that would differ."""
        return tuple(self._links)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._column.setSpacing(theme.px(4))
        self._flow.set_gaps(theme.px(14), theme.px(4))

    def _on_opened(self, key: str) -> None:
        self._before = None
        self._users = self._read_users(key) if key else {}

    def _read_users(self, key: str) -> dict[str, Formula]:
        studio = self._work.studio
        try:
            found = {
                entry.key: studio.formulas.draft(entry.key)[0]
                for entry in studio.formulas.used_in(key)
            }
            if found:
                numbers = studio.versions.numbers(key)
                if numbers:
                    self._before = studio.versions.get(key, numbers[-1]).formula
        except WorkbenchError:
            return {}  # gone meanwhile: there is nothing to tell
        return found

    def _on_assessed(self, _assessment: Assessment) -> None:
        formula = self._work.formula
        if not self._users:
            self.hide()
            return
        if self._before is None:
            self._before = formula
        self.uses = self._differing(self._before, formula) if formula != self._before else ()
        self._show()

    def _differing(self, before: Formula, now: Formula) -> tuple[StockUse, ...]:
        key, found = self._work.key, list[StockUse]()
        for user, formula in self._users.items():
            shelf = self._shelf_of(formula, now)
            known = with_stock_changed(shelf, key, before)
            found.extend(stock_change_effect(key, now, {user: formula}, known))
        return tuple(found)

    def _shelf_of(self, formula: Formula, now: Formula) -> Shelf:
        also = frozenset(line.ingredient for line in now.lines())
        return self._work.studio.shelf_for(formula, also=also)

    def _show(self) -> None:
        say = self._work.words.say
        differing = len(self.uses)
        self._text.setText(
            say("stock-in-formulas", count=len(self._users))
            + say("stock-would-differ", differing=differing, changed=self._is_changed())
        )
        while len(self._links) < min(differing, MOST_LINKS):
            self._add_link()
        for place, link in enumerate(self._links):
            link.setVisible(place < differing)
            if place < differing:
                link.setText(self._users[self.uses[place].draft].name)
                link.setAccessibleDescription(self._substances(self.uses[place]))
                link.setToolTip(self._substances(self.uses[place]))
        self._more.setText(say("stock-more", count=max(differing - MOST_LINKS, 0)))
        self._more.setVisible(differing > MOST_LINKS)
        self._flow.invalidate()
        self.show()

    def _is_changed(self) -> str:
        return "no" if self._work.formula == self._before else "yes"

    def _substances(self, use: StockUse) -> str:
        say, shelf = self._work.words.say, self._work.shelf
        named = [
            say(
                "stock-substance",
                name=shelf.inci(name),
                before=to_percent_step(old),
                after=to_percent_step(new),
            )
            for name, old, new in use.substances[:_MOST_SUBSTANCES]
        ]
        more = len(use.substances) - len(named)
        return "; ".join((*named, *([say("stock-more", count=more)] if more > 0 else [])))

    def _add_link(self) -> None:
        place = len(self._links)
        link = LinkButton("", "stock_user")
        link.clicked.connect(lambda *_checked: self._work.open(self.uses[place].draft))
        self._links.append(link)
        self._flow.insert_widget(place, link)
