"""The preview of what is pasted: what each column is, what each row becomes, and the total."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from workbench.formula.edits import EditRefused
from workbench.formula.formula import Formula
from workbench.formula.pasted_guess import COMMA, POINT, Role
from workbench.formula.phase_sorting import COOL_DOWN, OIL, WATER
from workbench.formula.phases import kinds_by_name
from workbench.formula.tab_text import Cells
from workbench.formula.totals import Totals, totals
from workbench.ui.editors.name_editor import Choice as Found
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.form_inputs import Choice
from workbench.ui.places.desk.paste_matching import Fate, Match
from workbench.ui.places.desk.paste_state import REPLACE, PasteState, chosen
from workbench.ui.places.desk.paste_table import PasteTable, preview_row
from workbench.ui.places.desk.phase_edits import kind_words, named_by_letters
from workbench.ui.places.desk.rows import letter_of
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme
from workbench.words.numbers import percent_text

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

_WIDTH, _HEIGHT = 860, 600
_FATES = (Fate.UNLISTED, Fate.NOTE, Fate.OUT)
_SAMPLE = 16
_UNSURE = ""
_SORTED, _ONE = "sorted", "one"


class PasteDialog(QDialog):
    """Ask what is not plain in a pasted text, then put it in as one undo step."""

    pasted = Signal(int)
    """The first line that was put in."""

    def __init__(
        self, work: DeskWork, theme: Theme, cells: Cells, phase: int, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self._work = work
        self._words = work.words
        self._theme = theme
        self.state = PasteState(
            cells,
            work.formula,
            work.studio.search,
            shelf_for=work.studio.shelf_for,
            decimal_comma=work.decimal_comma,
            batch_g=work.assessment.batch_g,
        )
        if not self.state.is_replacing and phase:
            self.state.place = phase
        self.setObjectName("paste_dialog")
        self.setWindowTitle(self._words.say("paste-title"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._roles: list[Choice] = []
        self._build()
        self._fill()
        size = parent.window().size()
        self.resize(
            min(theme.px(_WIDTH), round(size.width() * 0.96)),
            min(theme.px(_HEIGHT), round(size.height() * 0.96)),
        )
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def _build(self) -> None:
        words, theme = self._words, self._theme
        self._title = QLabel()
        self._title.setProperty("role", "title")
        self._title.setWordWrap(True)
        self.table = PasteTable(words, theme, self._found, self)
        self.table.chosen.connect(self._on_chosen)
        self._sums = QLabel()
        self._sums.setObjectName("paste_sums")
        self._sums.setProperty("role", "strong")
        self._sums.setWordWrap(True)
        self._ask = QLabel()
        self._ask.setObjectName("paste_ask")
        self._ask.setProperty("role", "caution")
        self._ask.setWordWrap(True)
        column = QVBoxLayout(self)
        side = theme.px(20)
        column.setContentsMargins(side, theme.px(14), side, theme.px(14))
        column.setSpacing(theme.px(10))
        column.addWidget(self._title)
        column.addLayout(self._column_choices())
        column.addLayout(self._other_choices())
        column.addWidget(self.table, 1)
        column.addWidget(self._ask)
        column.addWidget(self._sums)
        column.addLayout(self._buttons())

    def _column_choices(self) -> FlowLayout:
        flow = FlowLayout(self._theme.px(18), self._theme.px(6))
        options = [(role.value, self._words.say(f"paste-role-{role.value}")) for role in Role]
        for place, role in enumerate(self.state.reading.roles):
            label = self._words.say(
                "paste-column-label", number=place + 1, sample=self._sample(place)
            )
            choice = Choice(f"paste_role_{place}", label)
            choice.show_options(options, role.value)
            choice.chosen.connect(lambda value, place=place: self._on_role(place, value))
            self._roles.append(choice)
            flow.addWidget(choice)
        return flow

    def _other_choices(self) -> FlowLayout:
        words = self._words
        flow = FlowLayout(self._theme.px(18), self._theme.px(6))
        self._mark = Choice("paste_mark", words.say("paste-mark"))
        self._mark.chosen.connect(self._on_mark)
        self._place = Choice("paste_place", words.say("paste-place"))
        self._place.show_options(self._places(), str(self.state.place))
        self._place.chosen.connect(self._on_place)
        self._header = QCheckBox(words.say("paste-header"))
        self._header.setObjectName("paste_header")
        self._header.setChecked(self.state.reading.has_header)
        self._header.toggled.connect(self._on_header)
        self._phases = Choice("paste_phases", words.say("paste-phases"))
        self._phases.show_options(
            [(way, words.say(f"paste-phases-{way}")) for way in (_SORTED, _ONE)], _SORTED
        )
        self._phases.chosen.connect(self._on_phases)
        self._rest = QCheckBox()
        self._rest.setObjectName("paste_water_rest")
        self._rest.toggled.connect(self._on_rest)
        for widget in (self._mark, self._place, self._header, self._phases, self._rest):
            flow.addWidget(widget)
        return flow

    def _buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        cancel = QPushButton(self._words.say("paste-cancel"))
        cancel.setObjectName("paste_cancel")
        cancel.setAutoDefault(False)
        cancel.clicked.connect(lambda *_checked: self.reject())
        self._put = QPushButton()
        self._put.setObjectName("paste_put_in")
        self._put.setProperty("role", "primary")
        self._put.setAutoDefault(False)
        self._put.clicked.connect(lambda *_checked: self.put_in())
        hint = QLabel(self._words.say("paste-hint"))
        hint.setProperty("role", "small")
        hint.setWordWrap(True)
        row.addWidget(hint, 1)
        row.addWidget(cancel)
        row.addWidget(self._put)
        return row

    def _places(self) -> list[tuple[str, str]]:
        places = [(str(REPLACE), self._words.say("paste-place-replace"))]
        for at, phase in enumerate(self._work.formula.phases):
            name = phase.name or self._words.say("sheet-phase", letter=letter_of(at))
            places.append((str(phase.id), self._words.say("paste-place-phase", phase=name)))
        return places

    def _sample(self, column: int) -> str:
        rows = self.state.cells[1 if self.state.reading.has_header else 0 :]
        text = next((row[column] for row in rows if row[column]), "")
        return text if len(text) <= _SAMPLE else text[: _SAMPLE - 1] + "\u2026"

    # What follows from the choices.

    def _fill(self) -> None:
        words, state = self._words, self.state
        for place, role in enumerate(state.reading.roles):
            self._roles[place].show_options(
                [(one.value, words.say(f"paste-role-{one.value}")) for one in Role], role.value
            )
        marks = [(POINT, words.say("paste-mark-point")), (COMMA, words.say("paste-mark-comma"))]
        if state.reading.mark is None:
            marks.insert(0, (_UNSURE, words.say("paste-mark-ask")))
        self._mark.show_options(marks, state.reading.mark or _UNSURE)
        seen = state.seen()
        rows = tuple(preview_row(one, words) for one in seen)
        self.table.show_rows(rows)
        self._show_phases_and_rest()
        count = sum(row.is_line for row in rows)
        look = sum(bool(row.severity) for row in rows)
        self._title.setText(words.say("paste-heading", count=count, rows=len(rows), look=look))
        self._put.setText(words.say("paste-put-in", count=count))
        self._show_sums(count)

    def _show_phases_and_rest(self) -> None:
        """Offer what the rows leave open: their phases, and who takes the rest."""
        state, words = self.state, self._words
        water = state.water_line()
        self._rest.blockSignals(True)  # noqa: FBT003 (Qt's own)
        self._rest.setChecked(state.takes_rest)
        self._rest.blockSignals(False)  # noqa: FBT003 (Qt's own)
        names = (one.match.name for one in state.seen() if one.match and one.match.key == water)
        self._rest.setText(words.say("paste-water-rest", name=next(names, water)))
        self._rest.setVisible(bool(water))
        self._phases.setVisible(state.can_sort(state.entries()))

    def _phases_text(self) -> str:
        """Say into which phases the rows go that name none."""
        state, words = self.state, self._words
        entries = state.entries()
        if not state.can_sort(entries):
            return ""
        if not state.is_sorted:
            return words.say("paste-into-one", phase=words.say("sheet-phase", letter="A"))
        kinds = state.kinds(entries)
        counted = [
            words.say("paste-phase-count", phase=name, count=kinds.count(kind))
            for kind, name in self._phase_names().items()
            if kind in kinds
        ]
        return words.say("paste-into-several", phases=", ".join(counted))

    def _phase_names(self) -> dict[str, str]:
        return {kind: self._words.say(f"paste-phase-{kind}") for kind in (WATER, OIL, COOL_DOWN)}

    def _show_sums(self, count: int) -> None:
        words, state = self._words, self.state
        after = state.after()
        questions = []
        if state.reading.mark is None:
            questions.append(words.say("paste-ask-mark"))
        if isinstance(after, EditRefused):
            questions.append(words.say(after.reason_id, **after.values))
        self._ask.setText(" ".join(questions))
        self._ask.setVisible(bool(questions))
        self._put.setEnabled(bool(count) and not questions)
        before = self._total(totals(state.formula))
        sums = state.totals_after()
        after_text = "" if sums is None else self._total(sums)
        sentence = words.say("paste-sums", before=before, after=after_text)
        said = [sentence, self._what_goes()]
        counted = " ".join(one for one in said if one)
        self._sums.setText("\n".join(one for one in (self._phases_text(), counted) if one))
        self._sums.setVisible(sums is not None)

    def _what_goes(self) -> str:
        """Say what of the draft would be lost, for undo to bring back."""
        formula = self.state.formula
        lines = len(list(formula.lines()))
        if not self.state.is_replacing or not lines:
            return ""
        steps = sum(len(phase.steps) for phase in formula.phases)
        return self._words.say("paste-goes", lines=lines, steps=steps)

    def _total(self, sums: Totals) -> str:
        words = self._words
        text = words.say("sheet-announced", percent=percent_text(sums.percent, words.style))
        if sums.rest is not None and sums.rest < 0:
            off = percent_text(-sums.rest, words.style)
            return f"{text}, {words.say('sheet-over', percent=off)}"
        if not sums.short or not sums.percents:
            return text
        message = "sheet-short" if sums.short > 0 else "sheet-over"
        return f"{text}, {words.say(message, percent=percent_text(abs(sums.short), words.style))}"

    def _found(self, text: str, limit: int) -> tuple[Found, ...]:
        hits = self._work.studio.search(text, limit) if text.strip() else ()
        stock = self._words.say("sheet-stock")
        found = [Found(hit.key, hit.name, stock if hit.is_stock else hit.inci) for hit in hits]
        fates = [Found(one.value, self._words.say(f"paste-fate-{one.value}"), "") for one in _FATES]
        room = max(limit - len(fates), 0)
        return (*found[:room], *fates)

    def _on_chosen(self, row: int, key: str, name: str) -> None:
        fates = {fate.value: fate for fate in _FATES}
        said = self._words.say(f"paste-fate-{key}") if key in fates else ""
        if key in fates and name == said:
            self.state.choose(row, Match(fates[key]))
        else:
            self.state.choose(row, chosen(key, name))
        self._fill()

    def _on_role(self, column: int, value: str) -> None:
        self.state.set_role(column, Role(value))
        self._fill()

    def _on_mark(self, mark: str) -> None:
        if mark:
            self.state.set_mark(mark)
            self._fill()

    def _on_place(self, place: str) -> None:
        self.state.place = int(place)
        self._fill()

    def _on_phases(self, way: str) -> None:
        self.state.is_sorted = way == _SORTED
        self._fill()

    def _on_rest(self, checked: bool) -> None:  # noqa: FBT001 (Qt's own)
        self.state.water_rest = checked
        self._fill()

    def _on_header(self, checked: bool) -> None:  # noqa: FBT001 (Qt's own)
        self.state.set_header(has_header=checked)
        self._fill()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Put the lines in on Ctrl+Enter, wherever the cursor is."""
        is_enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if is_enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.put_in()
        else:
            super().keyPressEvent(event)

    def put_in(self) -> None:
        """Put the lines in as one undo step and close."""
        if not self._put.isEnabled():
            return
        count = len(self.state.entries())
        name = self._words.say("sheet-phase", letter="A")
        known = {line.id for line in self._work.formula.lines()}
        put_in = self.state.change(name, self._phase_names())
        kinds = kind_words(self._words)

        def change(formula: Formula) -> Formula:
            return kinds_by_name(named_by_letters(put_in(formula), self._words), kinds)

        text = self._words.say("sheet-undo-paste", count=count)
        if not self._work.edit(text, change):
            return
        is_replacing = self.state.is_replacing
        self.accept()
        new = [
            line.id for line in self._work.formula.lines() if is_replacing or line.id not in known
        ]
        if new:
            self.pasted.emit(new[0])
