"""What an adjuster would take to the target: one row each, and its curve where it is asked for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QGridLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from workbench.checks.assessment import Assessment
from workbench.checks.ph_values import PER_100_G, AdjusterDose, PhEstimate
from workbench.checks.titration import titration_of
from workbench.formula.absent import Absent
from workbench.ui.places.desk.column_panel import ColumnPanel
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.titration_view import TitrationView
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme
from workbench.words.ph import dose_range_text, dose_text, grams_text, ph_text, reason_text

_FEW = 4


@dataclass(frozen=True, slots=True)
class _DoseRow:
    name: QLabel
    curve: LinkButton
    mass: QLabel
    span: QLabel
    why: QLabel

    @property
    def parts(self) -> tuple[QWidget, ...]:
        return self.name, self.curve, self.mass, self.span, self.why


class DosesView(ColumnPanel):
    """Show the dose of each adjuster, or why none is called for."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        words = work.words
        self._state = small_label("ph_doses_state", "")
        self._held = small_label("ph_held_back", "")
        self._heading = small_label("ph_doses_heading", "small")
        self._grid = QGridLayout()
        self._grid.setColumnStretch(0, 1)
        self._titration = TitrationView(words, theme)
        self._titration.closed.connect(self._on_closed)
        self._read = ""
        self._all = LinkButton(words.say("ph-doses-all"), "ph_doses_all")
        self._all.setCheckable(True)
        self._all.toggled.connect(self._on_all)
        self._rows: list[_DoseRow] = []
        self._keys: list[str] = []
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        for part in (self._state, self._held, self._heading):
            self._column.addWidget(part)
        self._column.addLayout(self._grid)
        self._column.addWidget(self._all, 0, Qt.AlignmentFlag.AlignLeft)
        self._column.addWidget(self._titration)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._titration.set_theme(theme)
        self._column.setSpacing(theme.px(4))
        self._grid.setHorizontalSpacing(theme.px(12))
        self._grid.setVerticalSpacing(theme.px(4))

    def show_doses(self, assessment: Assessment) -> None:
        """Show the doses of an assessment."""
        doses = assessment.adjusters
        offered: tuple[AdjusterDose, ...] = () if isinstance(doses, Absent) else doses
        put_text(self._state, self._state_text(assessment))
        put_text(self._held, "\n".join(self._held_texts(assessment, offered)))
        # What needs handling of its own, such as pellets, comes after ready solutions.
        offered = tuple(sorted(offered, key=lambda dose: (not dose.fits, bool(dose.reason))))
        shown = offered if self._all.isChecked() else offered[:_FEW]
        self._all.setVisible(len(offered) > _FEW)
        put_text(self._heading, self._heading_text(assessment, shown))
        self._keys = [dose.ingredient for dose in shown]
        if self._titration.isVisible():
            self._read_curve(self._read)
        while len(self._rows) < len(shown):
            self._add_row()
        for place, row in enumerate(self._rows):
            self._fill_row(row, shown[place] if place < len(shown) else None)
        self._name_links()

    # Words.

    def _state_text(self, assessment: Assessment) -> str:
        ph, target = assessment.ph, self._work.formula.target_ph
        if not isinstance(ph, PhEstimate):
            return ""
        if target is None:
            return self._work.words.say("dose-no-target")
        is_inside = float(target[0]) <= ph.estimate <= float(target[1])
        return self._work.words.say("dose-none-needed") if is_inside else ""

    def _held_texts(self, assessment: Assessment, doses: tuple[AdjusterDose, ...]) -> Iterator[str]:
        """Yield for each line held back what it is, against what the estimate calls for."""
        if isinstance(assessment.adjusters, Absent):
            return
        words, shelf = self._work.words, self._work.shelf
        batch = assessment.batch_g or Decimal(int(PER_100_G))
        called = {dose.ingredient: dose for dose in doses}
        for line in self._work.formula.lines():
            percent = assessment.totals.percents.get(line.id)
            if not line.to_ph or not percent:
                continue
            held = grams_text(float(percent * batch / 100), words)
            name = shelf.name(line.ingredient)
            dose = called.get(line.ingredient)
            if dose is None:
                yield words.say("dose-held-back-none", held=held, name=name)
            elif dose.estimate is not None and dose.fits:
                about = grams_text(dose.estimate, words)
                yield words.say("dose-held-back", held=held, name=name, estimate=about)

    def _heading_text(self, assessment: Assessment, shown: tuple[AdjusterDose, ...]) -> str:
        if not shown:
            return ""
        words = self._work.words
        return words.say(
            "ph-doses",
            ph=ph_text(shown[0].to_ph, words),
            mass=grams_text(shown[0].per_g, words),
            batch="yes" if assessment.batch_g else "no",
        )

    # Rows.

    def _fill_row(self, row: _DoseRow, dose: AdjusterDose | None) -> None:
        for part in row.parts:
            part.setVisible(dose is not None)
        if dose is None:
            return
        words, shelf = self._work.words, self._work.shelf
        row.name.setText(shelf.name(dose.ingredient))
        row.mass.setText(dose_text(dose, words))
        put_text(row.span, dose_range_text(dose, words))
        said = f"{row.name.text()}: {row.mass.text()} ({row.span.text()})"
        row.mass.setAccessibleName(said)
        put_text(row.why, "" if dose.reason is None else reason_text(dose.reason, shelf, words))

    def _add_row(self) -> None:
        place = len(self._rows)
        curve = LinkButton("", "ph_dose_curve")
        curve.clicked.connect(lambda *_checked: self._toggle_curve(self._keys[place]))
        name = small_label("ph_dose_name", "")
        mass = small_label("ph_dose", "strong")
        span = small_label("ph_dose_range", "small")
        why = small_label("ph_dose_reason", "small")
        for label in (mass, span):
            label.setWordWrap(False)
            label.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self._grid.addWidget(name, 2 * place, 0)
        self._grid.addWidget(curve, 2 * place, 1)
        self._grid.addWidget(mass, 2 * place, 2)
        self._grid.addWidget(why, 2 * place + 1, 0, 1, 2, Qt.AlignmentFlag.AlignTop)
        self._grid.addWidget(span, 2 * place + 1, 2, Qt.AlignmentFlag.AlignTop)
        self._rows.append(_DoseRow(name, curve, mass, span, why))

    def _on_all(self, is_shown: bool) -> None:  # noqa: FBT001
        self._all.setText(self._work.words.say("ph-doses-fewer" if is_shown else "ph-doses-all"))
        self.show_doses(self._work.assessment)

    # The curve.

    def _name_links(self) -> None:
        """Let the link of the open curve close it, and every other one open its own."""
        words = self._work.words
        for key, row in zip(self._keys, self._rows, strict=False):
            is_open = self._titration.isVisibleTo(self) and key == self._read
            text = words.say("ph-dose-curve-hide" if is_open else "ph-dose-curve")
            if text != row.curve.text():
                row.curve.setText(text)
            message = "ph-dose-curve-close" if is_open else "ph-dose-curve-of"
            row.curve.setAccessibleName(words.say(message, name=self._work.shelf.name(key)))

    def _toggle_curve(self, key: str) -> None:
        if self._titration.isVisible() and key == self._read:
            self._titration.close_curve()
        elif self._read_curve(key):
            self._titration.focus_plot()
            self._name_links()
            QTimer.singleShot(0, self._bring_into_view)  # once the column has made room for it

    def _bring_into_view(self) -> None:
        parent = self.parentWidget()
        while parent is not None and not isinstance(parent, QScrollArea):
            parent = parent.parentWidget()
        if parent is not None and self._titration.isVisible():
            parent.ensureWidgetVisible(self._titration, 0, 0)

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

    def _on_closed(self) -> None:
        """Give the keys back to the link the curve was opened by."""
        self._name_links()
        if self._read in self._keys:
            row = self._rows[self._keys.index(self._read)]
            row.curve.setFocus(Qt.FocusReason.OtherFocusReason)


def put_text(label: QLabel, text: str) -> None:
    """Show a text, or no label where there is none."""
    label.setText(text)
    label.setVisible(bool(text))


def small_label(name: str, role: str, text: str = "") -> QLabel:
    """Return a label that wraps and never asks for width."""
    label = QLabel(text)
    label.setObjectName(name)
    if role:
        label.setProperty("role", role)
    label.setWordWrap(True)
    label.setMinimumWidth(1)
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label
