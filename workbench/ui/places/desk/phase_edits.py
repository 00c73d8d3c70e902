"""What the maker does to phases of the sheet, each as one undo step with its menu phrase."""

from __future__ import annotations

from collections.abc import Callable

from workbench.formula import edits, phases
from workbench.formula.edits import EditRefused
from workbench.formula.formula import PHASE_KINDS, Formula, Phase, Step
from workbench.formula.line_moves import phase_of_id
from workbench.ui.places.desk.rows import letter_of
from workbench.ui.places.desk.work import DeskWork
from workbench.words.catalogue import Words


def kind_words(words: Words) -> dict[str, str]:
    """Return the word for each kind of phase, as it may stand in a name."""
    named = [kind for kind in PHASE_KINDS if kind != phases.NO_KIND]
    return {kind: words.say(f"phase-kind-{kind}").casefold() for kind in named}


def named_by_letters(formula: Formula, words: Words) -> Formula:
    """Return the formula with phases called by a mere letter named in words: A becomes Phase A."""
    for phase in formula.phases:
        if len(phase.name) == 1:
            name = words.say("sheet-phase", letter=phase.name.upper())
            formula = edits.phase_renamed(formula, phase.id, name)
    return formula


class PhaseEdits:
    """Turn what is pressed on the heads of the sheet into edits of the draft."""

    def __init__(self, work: DeskWork) -> None:
        self._work = work

    def name(self, phase_id: int) -> str:
        """Return what a phase is called, or its letter where it has no name."""
        formula = self._work.formula
        phase = phase_of_id(formula, phase_id)
        return phase.name or self._lettered(formula.phases.index(phase))

    def add(self, after: int) -> int:
        """Add an empty phase after another (0: at the end), and return its id; 0 if refused."""
        new = self._work.formula.next_phase_id()
        known = [phase.id for phase in self._work.formula.phases]
        place = known.index(after) + 1 if after in known else len(known)
        name = self._lettered(place)
        done = self._edit(
            self._work.words.say("phase-undo-add"),
            lambda one: phases.phase_put_in(
                one, name, phases.NO_KIND, after if after in known else None
            ),
        )
        return new if done else 0

    def begin_at(self, line: int) -> int:
        """Let a new phase begin at a line, and return its id; 0 if refused."""
        new = self._work.formula.next_phase_id()
        old = self._work.formula.phase_of(line)
        name = self._lettered(self._work.formula.phases.index(old) + 1)
        done = self._edit(
            self._work.words.say("phase-undo-begin"),
            lambda one: phases.phase_begun_at(one, line, name, old.kind),
        )
        return new if done else 0

    def rename(self, phase_id: int, name: str) -> bool:
        """Give a phase another name; an empty one gives it its letter."""
        place = [phase.id for phase in self._work.formula.phases].index(phase_id)
        name = name.strip() or self._lettered(place)
        text = self._say("phase-undo-rename", phase_id)
        kinds = kind_words(self._work.words)
        return self._edit(
            text,
            lambda one: phases.kinds_by_name(edits.phase_renamed(one, phase_id, name), kinds),
        )

    def set_kind(self, phase_id: int, kind: str) -> bool:
        """Set what a phase is."""
        text = self._say("phase-undo-kind", phase_id)
        return self._edit(text, lambda one: phases.with_phase_kind(one, phase_id, kind))

    def set_steps(self, phase_id: int, steps: tuple[Step, ...]) -> bool:
        """Set the steps of a phase."""
        text = self._say("phase-undo-steps", phase_id)
        return self._edit(text, lambda one: phases.with_steps(one, phase_id, steps))

    def move(self, phase_id: int, step: int) -> bool:
        """Move a phase with its lines up (-1) or down (+1)."""
        text = self._say("phase-undo-move", phase_id, way="up" if step < 0 else "down")
        return self._edit(text, lambda one: phases.phase_moved_by(one, phase_id, step))

    def remove(self, phase_id: int) -> bool:
        """Take a phase out; where it held lines, say where they went and offer the way back."""
        formula = self._work.formula
        phase, heir = phase_of_id(formula, phase_id), phases.heir_of(formula, phase_id)
        name = self.name(phase_id)
        text = self._say("phase-undo-remove", phase_id)
        if not self._edit(text, lambda one: phases.phase_merged(one, phase_id)):
            return False
        if heir is not None and (phase.lines or phase.steps):
            self._tell_where(phase, name, heir)
        return True

    def _tell_where(self, phase: Phase, name: str, heir: Phase) -> None:
        said = self._work.words.say(
            "phase-merged",
            phase=name,
            heir=self.name(heir.id),
            lines=len(phase.lines),
            steps=len(phase.steps),
        )
        after = self._work.formula
        stack = self._work.session.stack

        def undo() -> None:
            if self._work.formula is after:  # what came later is not to be taken back with it
                stack.undo()

        self._work.notices.inform(said, undo)

    def _edit(self, text: str, change: Callable[[Formula], Formula]) -> bool:
        before = self._work.formula
        return self._work.edit(text, change) or self._is_same(before, change)

    def _is_same(self, before: Formula, change: Callable[[Formula], Formula]) -> bool:
        """Tell whether an edit that made no step was possible and changed nothing."""
        if self._work.studio.read_only:
            return False
        try:
            return change(before) == before
        except EditRefused:
            return False

    def _say(self, message: str, phase_id: int, **values: str) -> str:
        return self._work.words.say(message, phase=self.name(phase_id), **values)

    def _lettered(self, place: int) -> str:
        return self._work.words.say("sheet-phase", letter=letter_of(place))
