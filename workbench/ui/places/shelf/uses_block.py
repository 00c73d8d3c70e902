"""Which formulas an ingredient goes into, each a way to the Desk."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from workbench.storage.where_used import Use
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.fact_rows import plain_label
from workbench.ui.theme import Theme


class UsesBlock(QWidget):
    """List formulas, with the stock that brings the ingredient where one does."""

    draft_wanted = Signal(str)
    """The key of a formula to open on the Desk."""

    def __init__(self, work: DeskWork, theme: Theme) -> None:
        super().__init__()
        self._words = work.words
        self._theme = theme
        self._rows: list[QWidget] = []
        self._uses: tuple[Use, ...] = ()
        self._empty = plain_label("small")
        self._empty.setText(self._words.say("shelf-used-none"))
        self._column = QVBoxLayout(self)
        self._column.addWidget(self._empty)
        self.set_theme(theme)

    @property
    def uses(self) -> tuple[Use, ...]:
        """The formulas that are listed."""
        return self._uses

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._theme = theme
        self._column.setContentsMargins(theme.px(8), theme.px(6), 0, 0)
        self._column.setSpacing(theme.px(5))

    def show_uses(self, uses: tuple[Use, ...]) -> None:
        """List these formulas."""
        self._empty.setVisible(not uses)
        if uses == self._uses:
            return
        self._uses = uses
        for row in self._rows:
            self._column.removeWidget(row)
            row.hide()
            row.deleteLater()
        self._rows = [self._row(use) for use in uses]
        for row in self._rows:
            self._column.addWidget(row)

    def _row(self, use: Use) -> QWidget:
        words = self._words
        row = QWidget()
        line = QHBoxLayout(row)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(self._theme.px(12))
        link = LinkButton(use.name, "shelf_use")
        link.setAccessibleName(words.say("shelf-used-open", name=use.name))
        link.clicked.connect(lambda *_checked: self.draft_wanted.emit(use.key))
        line.addWidget(link)
        said = [words.say("shelf-used-through", stock=use.through)] if use.through else []
        if use.archived:
            said.append(words.say("shelf-used-archived"))
        how = plain_label("small")
        how.setText(", ".join(said))
        line.addWidget(how, 1)
        return row
