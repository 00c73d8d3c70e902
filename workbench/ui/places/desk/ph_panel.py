"""The pH of the draft: the ladder of windows, the estimate, and what an adjuster would take."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from workbench.checks.assessment import Assessment
from workbench.checks.ph_values import AdjusterDose, PhEstimate
from workbench.checks.ph_windows import TARGET, PhWindows
from workbench.checks.titration import titration_of
from workbench.formula.absent import Absent
from workbench.formula.shelf import Shelf
from workbench.ui.places.desk.column_panel import ColumnPanel
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.titration_view import TitrationView
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme
from workbench.ui.widgets.ph_ladder import Kind, Ladder, PhLadder, Rung
from workbench.words.ph import (
    dose_range_text,
    dose_text,
    estimate_text,
    grams_text,
    ph_text,
    reason_text,
    window_label,
    window_text,
)

_SAID = 2
_FEW = 4


@dataclass(frozen=True, slots=True)
class _DoseRow:
    name: LinkButton
    mass: QLabel
    span: QLabel
    why: QLabel


class PhPanel(ColumnPanel):
    """Show where the pH may be, where it will land, and how to move it."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        words = work.words
        self._heading = _label("ph_heading", "heading", words.say("ph-ladder"))
        self.ladder = PhLadder(words.say("ph-ladder"), theme)
        self._chosen = _label("ph_chosen", "small")
        self._said = _label("ph_estimate", "")
        self._meet = _label("ph_meet", "secondary")
        self._why = LinkButton(words.say("ph-why"), "ph_why")
        self._why.setCheckable(True)
        self._reasons = _label("ph_reasons", "small")
        self._reasons.hide()
        self._doses_heading = _label("ph_doses_heading", "small")
        self._doses = QGridLayout()
        self._doses.setColumnStretch(0, 1)
        self._titration = TitrationView(words, theme)
        self._read = ""
        self._all = LinkButton(words.say("ph-doses-all"), "ph_doses_all")
        self._all.setCheckable(True)
        self._all.toggled.connect(self._on_all)
        self._rows: list[_DoseRow] = []
        self._windows: tuple[PhWindows, Shelf, tuple[Rung, ...]] | None = None
        self._keys: list[str] = []
        self._build()
        self._why.toggled.connect(self._on_why)
        self.ladder.chosen.connect(self._on_chosen)
        self.set_theme(theme)
        work.assessed.connect(self.show_assessment)
        self.show_assessment(work.assessment)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self.ladder.set_theme(theme)
        self._titration.set_theme(theme)
        self._column.setContentsMargins(theme.px(4), theme.px(10), theme.px(4), theme.px(4))
        self._column.setSpacing(theme.px(4))
        self._doses.setHorizontalSpacing(theme.px(12))
        self._doses.setVerticalSpacing(theme.px(4))

    def show_assessment(self, assessment: Assessment) -> None:
        """Show the windows, the estimate and the doses of an assessment."""
        windows, ph = assessment.ph_windows, assessment.ph
        self.ladder.show_ladder(self._ladder(windows, ph))
        is_dry = not windows.rows and isinstance(ph, Absent)
        self.ladder.setVisible(not is_dry)
        self._put(self._said, self._ph_text(ph))
        self._put(self._meet, self._meet_text(windows))
        reasons = () if isinstance(ph, Absent) else ph.reasons
        said = [reason_text(reason, self._work.shelf, self._work.words) for reason in reasons]
        self._reasons.setText("\n".join(said))
        self._why.setVisible(bool(said))
        self._reasons.setVisible(bool(said) and self._why.isChecked())
        self._show_doses(assessment)

    def _build(self) -> None:
        self._column = QVBoxLayout(self)
        for part in (self._heading, self.ladder, self._chosen, self._said, self._meet):
            self._column.addWidget(part)
        self._column.addWidget(self._why, 0, Qt.AlignmentFlag.AlignLeft)
        self._column.addWidget(self._reasons)
        self._column.addWidget(self._doses_heading)
        self._column.addLayout(self._doses)
        self._column.addWidget(self._all, 0, Qt.AlignmentFlag.AlignLeft)
        self._column.addWidget(self._titration)
        self._chosen.hide()

    # The ladder.

    def _ladder(self, windows: PhWindows, ph: PhEstimate | Absent) -> Ladder:
        words = self._work.words
        rungs = self._rungs(windows)
        if isinstance(ph, PhEstimate):
            label = words.say("ph-estimate-label")
            text = estimate_text(ph, words)
            rung = Rung(Kind.ESTIMATE, label, ph.low, ph.high, text, mark=ph.estimate)
            rungs = (*rungs, rung)
        overlap = None
        if windows.overlap is not None:
            low, high = windows.overlap
            overlap = (None if low is None else float(low), None if high is None else float(high))
        return Ladder(rungs, overlap)

    def _rungs(self, windows: PhWindows) -> tuple[Rung, ...]:
        """Return the rungs of the windows, which few edits change."""
        words, shelf, known = self._work.words, self._work.shelf, self._windows
        if known is not None and known[0] == windows and known[1] is shelf:
            return known[2]
        at_odds = windows.disagree or ()
        rungs = tuple(
            Rung(
                kind=Kind.TARGET if window.kind == TARGET else Kind.WINDOW,
                label=window_label(window, shelf, words),
                low=None if window.low is None else float(window.low),
                high=None if window.high is None else float(window.high),
                sentence=window_text(window, shelf, words),
                is_at_odds=window in at_odds,
            )
            for window in windows.rows
        )
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
        return words.say("ph-meet", low=low, high=high)

    # The doses.

    def _show_doses(self, assessment: Assessment) -> None:
        doses = assessment.adjusters
        offered: tuple[AdjusterDose, ...] = () if isinstance(doses, Absent) else doses
        # What needs handling of its own, such as pellets, comes after ready solutions.
        offered = tuple(sorted(offered, key=lambda dose: (not dose.fits, bool(dose.reason))))
        shown = offered if self._all.isChecked() else offered[:_FEW]
        self._all.setVisible(len(offered) > _FEW)
        self._doses_heading.setVisible(bool(shown))
        if shown:
            words = self._work.words
            self._doses_heading.setText(
                words.say(
                    "ph-doses",
                    ph=ph_text(shown[0].to_ph, words),
                    mass=grams_text(shown[0].per_g, words),
                    batch="yes" if assessment.batch_g else "no",
                )
            )
        self._keys = [dose.ingredient for dose in shown]
        if self._titration.isVisible():
            self._read_curve(self._read)
        while len(self._rows) < len(shown):
            self._add_row()
        for place, row in enumerate(self._rows):
            self._fill_row(row, shown[place] if place < len(shown) else None)

    def _fill_row(self, row: _DoseRow, dose: AdjusterDose | None) -> None:
        for part in (row.name, row.mass, row.span, row.why):
            part.setVisible(dose is not None)
        if dose is None:
            return
        words, shelf = self._work.words, self._work.shelf
        row.name.setText(shelf.name(dose.ingredient))
        row.mass.setText(dose_text(dose, words))
        self._put(row.span, dose_range_text(dose, words))
        said = f"{row.name.text()}: {row.mass.text()} ({row.span.text()})"
        row.mass.setAccessibleName(said)
        self._put(row.why, "" if dose.reason is None else reason_text(dose.reason, shelf, words))

    def _add_row(self) -> None:
        place = len(self._rows)
        name = LinkButton("", "ph_dose_name")
        name.clicked.connect(lambda *_checked: self._show_titration(self._keys[place]))
        mass = _label("ph_dose", "strong")
        span = _label("ph_dose_range", "small")
        why = _label("ph_dose_reason", "small")
        for label in (mass, span):
            label.setWordWrap(False)
            label.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self._doses.addWidget(name, 2 * place, 0, Qt.AlignmentFlag.AlignLeft)
        self._doses.addWidget(mass, 2 * place, 1)
        self._doses.addWidget(why, 2 * place + 1, 0, Qt.AlignmentFlag.AlignTop)
        self._doses.addWidget(span, 2 * place + 1, 1, Qt.AlignmentFlag.AlignTop)
        self._rows.append(_DoseRow(name, mass, span, why))

    def _on_all(self, is_shown: bool) -> None:  # noqa: FBT001
        self._all.setText(self._work.words.say("ph-doses-fewer" if is_shown else "ph-doses-all"))
        self._show_doses(self._work.assessment)

    def _show_titration(self, key: str) -> None:
        if self._titration.isVisible() and key == self._read:
            self._titration.hide()
        elif self._read_curve(key):
            self._titration.focus_plot()

    def _read_curve(self, key: str) -> bool:
        work = self._work
        batch = work.assessment.batch_g
        found = titration_of(work.formula, work.shelf, work.rules, key, batch)
        if isinstance(found, Absent):
            self._titration.hide()
            return False
        self._read = key
        doses = work.assessment.adjusters
        known = () if isinstance(doses, Absent) else doses
        dose = next((one.estimate for one in known if one.ingredient == key), None)
        self._titration.show_titration(found, work.shelf.name(key), dose)
        return True

    @staticmethod
    def _put(label: QLabel, text: str) -> None:
        label.setText(text)
        label.setVisible(bool(text))

    def _on_why(self, is_shown: bool) -> None:  # noqa: FBT001
        self._reasons.setVisible(is_shown)
        self._why.setText(self._work.words.say("ph-why-hide" if is_shown else "ph-why"))

    def _on_chosen(self, sentence: str) -> None:
        self._put(self._chosen, sentence)


def _label(name: str, role: str, text: str = "") -> QLabel:
    label = QLabel(text)
    label.setObjectName(name)
    if role:
        label.setProperty("role", role)
    label.setWordWrap(True)
    label.setMinimumWidth(1)
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label
