"""What the actions of the sheet do, on the lines or the phase the cursor stands in."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence

from workbench.formula.tab_text import tab_text
from workbench.ui.places.desk.columns import INGREDIENT, KEYS, PERCENT
from workbench.ui.places.desk.line_edits import LineEdits
from workbench.ui.places.desk.phase_edits import PhaseEdits
from workbench.ui.places.desk.rows import Kind, RowId, SheetRow
from workbench.ui.places.desk.work import DeskWork

if TYPE_CHECKING:
    from PySide6.QtCore import QModelIndex

COPIED = ("name", "inci", "percent", "grams", "phase", "note")


class CommandedSheet(Protocol):
    """What the commands need of the sheet."""

    @property
    def current_row(self) -> SheetRow | None:
        """The row the cursor stands in."""

    @property
    def focused_line(self) -> int:
        """The line the cursor stands in, or 0."""

    def currentIndex(self) -> QModelIndex:  # noqa: N802 (Qt's own)
        """Return the cell of the cursor."""

    def selectAll(self) -> None:  # noqa: N802 (Qt's own)
        """Choose every row."""

    def selected_rows(self) -> tuple[SheetRow, ...]:
        """Return the chosen lines in the order of the sheet."""

    def selected_lines(self) -> frozenset[int]:
        """Return the ids of the chosen lines."""

    def holds(self, row_id: RowId) -> bool:
        """Tell whether a row is shown."""

    def choose(self, lines: frozenset[int], row_id: RowId) -> None:
        """Choose lines, with the cursor in a row."""

    def go_near(self, place: int, column: int) -> None:
        """Put the cursor on the line nearest to a place."""

    def edit_here(self) -> None:
        """Open the cell of the cursor."""

    def begin_below(self, line: int) -> None:
        """Go to the empty row to add below a line."""

    def edit_at(self, row_id: RowId, key: str) -> None:
        """Open a cell."""

    def edit_note(self, line: int) -> None:
        """Open the note of a line."""

    def open_phase(self, phase: int) -> None:
        """Open the steps of a phase."""

    def show_column(self, key: str, *, shown: bool) -> None:
        """Show or hide a column."""

    def move_column(self, step: int) -> None:
        """Move the column of the cursor."""

    def paste(self) -> None:
        """Take what is on the clipboard."""

    def ask_rework(self, name: str) -> None:
        """Ask for a change of several lines."""


class SheetCommands:
    """Act on the sheet; each act is one undo step and leaves the cursor where it was."""

    def __init__(self, view: CommandedSheet, work: DeskWork) -> None:
        self._view = view
        self._work = work
        self.lines = LineEdits(work)
        self.phases = PhaseEdits(work)

    def acts(self) -> dict[str, Callable[[], object]]:
        """Return what each action does, by its name."""
        view = self._view
        return {
            "edit": view.edit_here,
            "below": lambda: self._view.begin_below(self._view.focused_line),
            "note": self._note,
            "lock": lambda: self._on_chosen(self.lines.toggle_lock),
            "rest": lambda: self._on_line(self.lines.make_rest),
            "to-ph": lambda: self._on_line(self.lines.toggle_to_ph),
            "short": lambda: self._on_line(self.lines.take_short),
            "scale": self.lines.scale_to_whole,
            "up": lambda: self._on_chosen(lambda lines: self.lines.move(lines, -1)),
            "down": lambda: self._on_chosen(lambda lines: self.lines.move(lines, 1)),
            "phase-before": lambda: self._on_chosen(
                lambda lines: self.lines.move_to_neighbour(lines, -1)
            ),
            "phase-after": lambda: self._on_chosen(
                lambda lines: self.lines.move_to_neighbour(lines, 1)
            ),
            "swap": lambda: view.ask_rework("swap"),
            "stock": lambda: view.ask_rework("stock"),
            "rebalance": lambda: view.ask_rework("rebalance"),
            "delete": self._delete,
            "select-all": view.selectAll,
            "cut": self._cut,
            "copy": self._copy,
            "copy-cell": self._copy_cell,
            "paste": view.paste,
            "steps": self._steps,
            "phase-add": self._add_phase,
            "phase-begin": self._begin_phase,
            "phase-up": lambda: self._on_phase(lambda phase: self.phases.move(phase, -1)),
            "phase-down": lambda: self._on_phase(lambda phase: self.phases.move(phase, 1)),
            "phase-remove": lambda: self._on_phase(self.phases.remove),
            "column-left": lambda: view.move_column(-1),
            "column-right": lambda: view.move_column(1),
        }

    def on_history_key(self, event: QKeyEvent) -> bool:
        """Undo or redo where a key asks for it; tell whether it did."""
        stack = self._work.session.stack
        is_ctrl_y = event.key() == Qt.Key.Key_Y and (
            event.modifiers() == Qt.KeyboardModifier.ControlModifier
        )
        if event.matches(QKeySequence.StandardKey.Undo):
            stack.undo()
        elif event.matches(QKeySequence.StandardKey.Redo) or is_ctrl_y:
            stack.redo()
        else:
            return False
        return True

    def drop(self, lines: frozenset[int], phase: int, place: int) -> bool:
        """Put dragged lines where they were let go."""
        return self._keeping_cursor(lambda: self.lines.move_to(lines, phase, place))

    def _on_chosen(self, act: Callable[[frozenset[int]], object]) -> None:
        lines = self._view.selected_lines()
        if lines:
            self._keeping_cursor(lambda: bool(act(lines)))

    def _on_line(self, act: Callable[[int], object]) -> None:
        line = self._view.focused_line
        if line:
            self._keeping_cursor(lambda: bool(act(line)))

    def _on_phase(self, act: Callable[[int], object]) -> None:
        row = self._view.current_row
        if row is not None and row.phase:
            self._keeping_cursor(lambda: bool(act(row.phase)))

    def _keeping_cursor(self, act: Callable[[], bool]) -> bool:
        """Do it; lines that moved stay chosen, and the cursor stays in view."""
        chosen = self._view.selected_lines()
        row = self._view.current_row
        done = act()
        if row is not None and self._view.holds(row.id):
            self._view.choose(chosen, row.id)
        return done

    def _note(self) -> None:
        if self._view.focused_line:
            self._view.edit_note(self._view.focused_line)

    def _delete(self) -> None:
        row, lines, here = self._view.current_row, self._view.selected_lines(), self._here()
        if row is not None and row.kind is Kind.HEAD and not lines:
            self._on_phase(self.phases.remove)
        elif self.lines.delete(lines):
            self._view.go_near(*here)

    def _here(self) -> tuple[int, int]:
        index = self._view.currentIndex()
        return index.row(), index.column()

    def _steps(self) -> None:
        row = self._view.current_row
        if row is not None and row.phase:
            self._view.open_phase(row.phase)

    def _add_phase(self) -> None:
        row = self._view.current_row
        phase = self.phases.add(row.phase if row is not None else 0)
        self._name(phase)

    def _begin_phase(self) -> None:
        line = self._view.focused_line
        if line:
            self._name(self.phases.begin_at(line))

    def _name(self, phase: int) -> None:
        if phase:
            self._view.edit_at(("phase", phase), INGREDIENT)

    # The clipboard.

    def _copy(self) -> None:
        rows = self._view.selected_rows()
        if rows:
            QGuiApplication.clipboard().setText(tab_text(self._table(rows)))

    def _cut(self) -> None:
        lines, here = self._view.selected_lines(), self._here()
        self._copy()
        if self.lines.delete(lines, is_cut=True):
            self._view.go_near(*here)

    def _copy_cell(self) -> None:
        index = self._view.currentIndex()
        if index.isValid():
            text = str(index.data() or "")
            QGuiApplication.clipboard().setText(tab_text([(text,)]).rstrip("\n"))

    def _table(self, rows: tuple[SheetRow, ...]) -> list[tuple[str, ...]]:
        words = self._work.words
        head = tuple(words.say(f"sheet-copied-{name}") for name in COPIED)
        body = [
            (
                row.name,
                row.inci,
                row.percent,
                row.grams,
                self.phases.name(row.phase),
                row.note,
            )
            for row in rows
        ]
        return [head, *body]


def near_cell(rows: tuple[SheetRow, ...], before: int, column: int) -> tuple[RowId, str]:
    """Return the row nearest to a place, and the column, after rows were taken out there."""
    places = [at for at, row in enumerate(rows) if row.kind in (Kind.LINE, Kind.NEW)]
    place = min(places, key=lambda at: (abs(at - before), -at))
    key = KEYS[column] if column >= 0 else PERCENT
    return rows[place].id, key
