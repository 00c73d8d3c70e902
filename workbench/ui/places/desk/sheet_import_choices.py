"""What can be said about an old sheet as a whole: which formula, its mark, its columns."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from workbench.formula.old_sheet import place_text
from workbench.formula.old_sheet_columns import SHARE, Column, Kind
from workbench.formula.pasted_guess import COMMA, POINT
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.form_inputs import Choice, TextInput
from workbench.ui.places.desk.sheet_import_model import SheetImport
from workbench.ui.theme import Theme
from workbench.units.factors import PERCENT
from workbench.words.catalogue import Words

_UNSURE = ""
_LONGEST = 18
_NAME_WIDTH = 260
KINDS: dict[str, tuple[Kind, str]] = {
    "name": (Kind.NAME, ""),
    "inci": (Kind.INCI, ""),
    "cas": (Kind.CAS, ""),
    "percent": (Kind.PERCENT, PERCENT),
    "share": (Kind.PERCENT, SHARE),
    "gram": (Kind.MASS, "g"),
    "ounce": (Kind.MASS, "oz"),
    "amount": (Kind.AMOUNT, ""),
    "unit": (Kind.UNIT, ""),
    "phase": (Kind.PHASE, ""),
    "note": (Kind.NOTE, ""),
    "other": (Kind.OTHER, ""),
}
"""What can be chosen for a column; a mass in another unit keeps it until another is chosen."""


class SheetChoices(QWidget):
    """Show what was taken for what, and let the maker change it."""

    changed = Signal()
    """Something was chosen by which the sheet reads otherwise."""

    def __init__(self, words: Words, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words = words
        self._theme = theme
        self._state: SheetImport | None = None
        self._usual_name = ""
        self._columns: list[Choice] = []
        self.name = TextInput("sheet_import_name", words.say("sheet-import-name"), _NAME_WIDTH)
        self._which = Choice("sheet_import_which", words.say("sheet-import-which"))
        self._which.chosen.connect(self._on_which)
        self._mark = Choice("sheet_import_mark", words.say("sheet-import-mark"))
        self._mark.chosen.connect(self._on_mark)
        self._flow = FlowLayout(theme.px(18), theme.px(6))
        for widget in (self.name, self._which, self._mark):
            self._flow.addWidget(widget)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(self._flow)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._theme = theme
        self._flow.set_gaps(theme.px(18), theme.px(6))
        self.name.set_theme(theme)

    def begin(self, state: SheetImport, name: str = "") -> None:
        """Show the choices of another sheet; the name is for one that has none itself."""
        self._state = state
        self._usual_name = name
        self._show_tables(state)
        self._begin_table()

    def show_mark(self, mark: str | None) -> None:
        """Show the decimal mark the sheet was read with; None where it is open."""
        say = self._words.say
        marks = [(POINT, say("sheet-import-mark-point")), (COMMA, say("sheet-import-mark-comma"))]
        if mark is None:
            marks.insert(0, (_UNSURE, say("sheet-import-mark-ask")))
        self._mark.show_options(marks, mark or _UNSURE)

    def _show_tables(self, state: SheetImport) -> None:
        options = [
            (
                str(place),
                self._words.say(
                    "sheet-import-which-one", number=place + 1, title=state.title_of(place)
                ),
            )
            for place in range(len(state.tables))
        ]
        self._which.show_options(options, str(state.place))
        self._which.setVisible(len(options) > 1)

    def _begin_table(self) -> None:
        state = self._state
        if state is None:
            return
        title = state.tables[state.place][1].title
        self.name.show_text(title or self._usual_name or state.title_of(state.place))
        for choice in self._columns:
            self._flow.removeWidget(choice)
            choice.hide()
            choice.deleteLater()
        self._columns = []
        for place in state.places():
            choice = self._column_choice(state, place)
            self._columns.append(choice)
            self._flow.addWidget(choice)
            choice.show()
        before: QWidget = self._mark.box
        for choice in self._columns:
            QWidget.setTabOrder(before, choice.box)
            before = choice.box

    def _column_choice(self, state: SheetImport, place: int) -> Choice:
        heading = state.heading(place)
        if len(heading) > _LONGEST:
            heading = heading[: _LONGEST - 1] + "\u2026"
        label = self._words.say("sheet-import-column", letter=_letters(place), heading=heading)
        choice = Choice(f"sheet_import_column_{place}", label)
        choice.chosen.connect(lambda value: self._on_column(place, value))
        self._show_column(choice, state.column(place))
        return choice

    def _show_column(self, choice: Choice, column: Column) -> None:
        options = [(key, self._words.say(f"sheet-import-kind-{key}")) for key in KINDS]
        key = kind_key(column)
        if key not in KINDS:
            options.append((key, column.unit))
        choice.show_options(options, key)

    def _on_which(self, value: str) -> None:
        if self._state is not None:
            self._state.choose_table(int(value))
            self._begin_table()
            self.changed.emit()

    def _on_mark(self, mark: str) -> None:
        if self._state is not None and mark:
            self._state.set_mark(mark)
            self.changed.emit()

    def _on_column(self, place: int, value: str) -> None:
        state = self._state
        if state is None or value not in KINDS:
            return
        state.set_column(place, *KINDS[value])
        for at, choice in zip(state.places(), self._columns, strict=False):
            self._show_column(choice, state.column(at))
        self.changed.emit()


def kind_key(column: Column) -> str:
    """Return under which key a column is offered; its unit where that is another mass."""
    for key, (kind, unit) in KINDS.items():
        if column.kind is kind and (kind is not Kind.MASS or column.unit == unit):
            is_share = column.unit == SHARE
            if kind is Kind.PERCENT and is_share != (key == "share"):
                continue
            return key
    return column.unit or "other"


def _letters(place: int) -> str:
    return place_text((0, place)).rstrip("1")
