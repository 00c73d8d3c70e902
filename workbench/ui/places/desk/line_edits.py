"""What the maker does to lines of the sheet, each as one undo step with its menu phrase."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from workbench.formula import edits, line_moves, rebalance
from workbench.formula.formula import Formula
from workbench.ui.places.desk.columns import NOTE_GAP
from workbench.ui.places.desk.work import DeskWork
from workbench.units import Ambiguous, Quantity, Unreadable, parse_quantity, to_grams
from workbench.units.factors import PERCENT

_REST_WORDS = ("rest", "q.s.", "q.s", "qs")


class LineEdits:
    """Turn what is typed and pressed on the sheet into edits of the draft."""

    def __init__(self, work: DeskWork) -> None:
        self._work = work

    def type_amount(self, line: int, text: str, *, bare_is_grams: bool) -> bool:
        """Set a line from typed text; tell whether the text was taken."""
        if text.strip().casefold() in _REST_WORDS:
            return self.make_rest(line)
        read = parse_quantity(text, decimal_comma=self._work.decimal_comma)
        if isinstance(read, Ambiguous):
            first, second = (self._quantity_text(reading) for reading in read.readings)
            return self._told("sheet-which", text=text, first=first, second=second)
        if isinstance(read, Unreadable):
            return self._told(read.reason_id)
        if read.unit is None:
            read = Quantity(read.value, "g" if bare_is_grams else PERCENT)
        return self._set_percent(line, read) if read.unit == PERCENT else self._set_mass(line, read)

    def make_rest(self, line: int) -> bool:
        """Let a line take the rest."""
        return self._edit(
            self._say("sheet-undo-rest", line), lambda one: edits.with_rest_line(one, line)
        )

    def toggle_lock(self, lines: frozenset[int]) -> bool:
        """Lock lines; when every one of them that can be locked is, unlock them."""
        chosen = [line for line in self._work.formula.lines() if line.id in lines]
        if len(chosen) == 1 and chosen[0].is_rest:
            line = chosen[0].id
            return self._edit("", lambda one: edits.with_lock(one, line, locked=True))
        locked = not all(line.locked for line in chosen if not line.is_rest)
        text = self._say_of("sheet-undo-lock", lines, locked="yes" if locked else "no")
        return self._edit(text, lambda one: edits.with_locks(one, lines, locked=locked))

    def toggle_to_ph(self, line: int) -> bool:
        """Hold a line back to adjust pH at the bench, or make it an ordinary one again."""
        to_ph = not self._work.formula.line(line).to_ph
        text = self._say("sheet-undo-to-ph", line, held="yes" if to_ph else "no")
        return self._edit(text, lambda one: edits.with_to_ph(one, line, to_ph=to_ph))

    def set_note(self, line: int, note: str) -> bool:
        """Set the note of a line; empty text takes it away."""
        text = self._say("sheet-undo-note", line)
        return self._edit(
            text,
            lambda one: edits.with_note(one, line, note.strip().removesuffix(NOTE_GAP.strip())),
        )

    def set_purpose(self, line: int, purpose: str) -> bool:
        """Set what a line is there for; empty text gives it its ingredient's own."""
        text = self._say("sheet-undo-purpose", line)
        return self._edit(text, lambda one: edits.with_purpose(one, line, purpose))

    def take_short(self, line: int) -> bool:
        """Add to a line what is short of 100, or take from it what is over."""
        text = self._say("sheet-undo-short", line)
        return self._edit(text, lambda one: rebalance.short_taken_from(one, line))

    def scale_to_whole(self) -> bool:
        """Scale every unlocked line so that the total is 100."""
        return self._edit(self._work.words.say("sheet-undo-scale"), rebalance.scaled_to_whole)

    def swap(self, line: int, ingredient: str, name: str) -> bool:
        """Put another ingredient on a line."""
        if not self._can_hold(ingredient):
            return False
        before = self._work.shelf.name(self._work.formula.line(line).ingredient)
        text = self._work.words.say("sheet-undo-swap", ingredient=name, before=before)
        return self._edit(text, lambda one: edits.with_ingredient(one, line, ingredient))

    def add(self, ingredient: str, name: str, phase: int, after: int = 0) -> int:
        """Add an ingredient at 0 % to a phase and return its line; 0 where that is refused.

        It stands after a line of that phase, or at the end. An unknown phase is the last one; a
        formula without phases gets its first.
        """
        if not self._can_hold(ingredient):
            return 0
        line = self._work.formula.next_line_id()
        first = self._work.words.say("sheet-phase", letter="A")

        def change(formula: Formula) -> Formula:
            if not formula.phases:
                formula = edits.phase_added(formula, first, "other")
            known = {one.id: one for one in formula.phases}
            target = known.get(phase, formula.phases[-1])
            ids = [one.id for one in target.lines]
            place = ids.index(after) + 1 if after in ids else None
            return edits.added(formula, ingredient, Decimal(0), target.id, place)

        text = self._work.words.say("sheet-undo-add", ingredient=name)
        return line if self._edit(text, change) else 0

    def delete(self, lines: frozenset[int], *, is_cut: bool = False) -> bool:
        """Take lines out."""
        if not lines:
            return False
        message = "sheet-undo-cut" if is_cut else "sheet-undo-delete"
        text = self._work.words.say(message, count=len(lines))
        return self._edit(text, lambda one: edits.removed(one, lines))

    def move(self, lines: frozenset[int], step: int) -> bool:
        """Move lines one place up (-1) or down (+1), over the heads of phases too."""
        text = self._say_of("sheet-undo-move", lines, way="up" if step < 0 else "down")
        return self._edit(text, lambda one: line_moves.lines_moved_by(one, lines, step))

    def move_to_neighbour(self, lines: frozenset[int], step: int) -> bool:
        """Move lines to the phase before (-1) or after (+1)."""
        text = self._say_of("sheet-undo-move", lines, way="up" if step < 0 else "down")
        return self._edit(text, lambda one: line_moves.lines_moved_to_neighbour(one, lines, step))

    def move_to(self, lines: frozenset[int], phase: int, place: int | None) -> bool:
        """Put lines at a place of a phase."""
        text = self._say_of("sheet-undo-move", lines, way="to")
        return self._edit(text, lambda one: line_moves.lines_moved(one, lines, phase, place))

    def _set_percent(self, line: int, read: Quantity) -> bool:
        percent = edits.to_percent_step(read.value)
        text = self._say("sheet-undo-percent", line, percent=percent)
        return self._edit(text, lambda one: edits.with_percent(one, line, read.value))

    def _set_mass(self, line: int, read: Quantity) -> bool:
        mass = to_grams(read)
        if isinstance(mass, Unreadable):
            return self._told(mass.reason_id)
        batch = self._work.assessment.batch_g or Decimal(0)
        text = self._say("sheet-undo-mass", line, mass=mass)
        return self._edit(text, lambda one: edits.with_mass(one, line, mass, batch))

    def _edit(self, text: str, change: Callable[[Formula], Formula]) -> bool:
        """Edit, and tell whether it was possible; an edit that changes nothing was."""
        done = False

        def noted(formula: Formula) -> Formula:
            nonlocal done
            after = change(formula)
            done = True
            return after

        self._work.edit(text, noted)
        return done

    def _can_hold(self, ingredient: str) -> bool:
        return ingredient != self._work.key or self._told("sheet-itself")

    def _told(self, message: str, **values: str) -> bool:
        self._work.notices.inform(self._work.words.say(message, **values))
        return False

    def _say(self, message: str, line: int, **values: str | Decimal) -> str:
        name = self._work.shelf.name(self._work.formula.line(line).ingredient)
        return self._work.words.say(message, ingredient=name, **values)

    def _say_of(self, message: str, lines: frozenset[int], **values: str) -> str:
        """Return a phrase about several lines, named by the first of them."""
        first = next(line for line in self._work.formula.lines() if line.id in lines)
        name = self._work.shelf.name(first.ingredient)
        return self._work.words.say(message, ingredient=name, count=len(lines), **values)

    def _quantity_text(self, read: Quantity) -> str:
        number = self._work.words.number(read.value)
        return f"{number} {read.unit}" if read.unit else number
