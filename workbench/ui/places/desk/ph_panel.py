"""The pH of the draft: the ladder of windows, the estimate, and what an adjuster would take."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from workbench.checks.assessment import Assessment
from workbench.checks.ph_values import PhEstimate
from workbench.checks.ph_windows import PhWindows
from workbench.formula.absent import Absent
from workbench.formula.shelf import Shelf
from workbench.ui.places.desk.column_panel import ColumnPanel
from workbench.ui.places.desk.doses_view import DosesView, put_text, small_label
from workbench.ui.places.desk.ladder_rungs import ladder_with, window_rungs
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme
from workbench.ui.widgets.ph_ladder import PhLadder, Rung
from workbench.words.ph import estimate_text, reason_text, window_label

_SAID = 2


class PhPanel(ColumnPanel):
    """Show where the pH may be, where it will land, and how to move it."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        words = work.words
        self._heading = small_label("ph_heading", "heading", words.say("ph-ladder"))
        self.ladder = PhLadder(words.say("ph-ladder"), theme)
        self._chosen = small_label("ph_chosen", "small")
        self._said = small_label("ph_estimate", "")
        self._meet = small_label("ph_meet", "secondary")
        self._why = LinkButton(words.say("ph-why"), "ph_why")
        self._why.setCheckable(True)
        self._reasons = small_label("ph_reasons", "small")
        self._reasons.hide()
        self._doses = DosesView(work, theme)
        self._windows: tuple[PhWindows, Shelf, tuple[Rung, ...]] | None = None
        self._build()
        self._why.toggled.connect(self._on_why)
        self.ladder.chosen.connect(self._on_chosen)
        self.set_theme(theme)
        work.assessed.connect(self.show_assessment)
        self.show_assessment(work.assessment)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self.ladder.set_theme(theme)
        self._doses.set_theme(theme)
        self._column.setContentsMargins(theme.px(4), theme.px(10), theme.px(4), theme.px(4))
        self._column.setSpacing(theme.px(4))

    def show_assessment(self, assessment: Assessment) -> None:
        """Show the windows, the estimate and the doses of an assessment."""
        windows, ph = assessment.ph_windows, assessment.ph
        self.ladder.show_ladder(ladder_with(self._rungs(windows), windows, ph, self._work.words))
        is_dry = not windows.rows and isinstance(ph, Absent)
        self.ladder.setVisible(not is_dry)
        put_text(self._said, self._ph_text(ph))
        put_text(self._meet, self._meet_text(windows))
        reasons = () if isinstance(ph, Absent) else ph.reasons
        said = [reason_text(reason, self._work.shelf, self._work.words) for reason in reasons]
        self._reasons.setText("\n".join(said))
        self._why.setVisible(bool(said))
        self._reasons.setVisible(bool(said) and self._why.isChecked())
        self._doses.show_doses(assessment)

    def _build(self) -> None:
        self._column = QVBoxLayout(self)
        for part in (self._heading, self.ladder, self._chosen, self._said, self._meet):
            self._column.addWidget(part)
        self._column.addWidget(self._why, 0, Qt.AlignmentFlag.AlignLeft)
        self._column.addWidget(self._reasons)
        self._column.addWidget(self._doses)
        self._chosen.hide()

    # The ladder.

    def _rungs(self, windows: PhWindows) -> tuple[Rung, ...]:
        """Return the rungs of the windows, which few edits change."""
        words, shelf, known = self._work.words, self._work.shelf, self._windows
        if known is not None and known[0] == windows and known[1] is shelf:
            return known[2]
        rungs = window_rungs(windows, shelf, words)
        self._windows = (windows, shelf, rungs)
        return rungs

    def _ph_text(self, ph: PhEstimate | Absent) -> str:
        words = self._work.words
        return words.say(ph.reason_id) if isinstance(ph, Absent) else estimate_text(ph, words)

    def _meet_text(self, windows: PhWindows) -> str:
        words, shelf = self._work.words, self._work.shelf
        if windows.disagree is not None:
            one, other = (window_label(window, shelf, words) for window in windows.disagree)
            return words.say("ph-meet-nowhere", one=one, other=other)
        if windows.overlap is None or len(windows.rows) < _SAID:
            return ""
        low, high = windows.overlap
        if low is None or high is None:
            name, end = ("up-to", high) if low is None else ("from", low)
            return "" if end is None else words.say(f"ph-meet-{name}", low=end, high=end)
        return words.say("ph-meet-only" if low == high else "ph-meet", low=low, high=high)

    def _on_why(self, is_shown: bool) -> None:  # noqa: FBT001
        self._reasons.setVisible(is_shown)
        self._why.setText(self._work.words.say("ph-why-hide" if is_shown else "ph-why"))

    def _on_chosen(self, sentence: str) -> None:
        put_text(self._chosen, sentence)
