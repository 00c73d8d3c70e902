"""Figures: what is computed about the draft, one number to a row."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from workbench.checks.assessment import Assessment, Figure
from workbench.formula.absent import Absent
from workbench.formula.cost import Cost
from workbench.ui.places.desk.column_panel import ColumnPanel
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words

PLACES = {"percent": 2, "percent-of-oils": 1, "gram": 1, "money": 2}
_NAMES_SHOWN = 3


class FiguresPanel(ColumnPanel):
    """Show every figure of the assessment, or in words why there is none."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._rows: list[_Row] = []
        self._heading = QLabel(work.words.say("desk-figures"))
        self._heading.setProperty("role", "heading")
        self._missing = QLabel()
        self._missing.setObjectName("figures_missing")
        self._missing.setProperty("role", "small")
        self._missing.setWordWrap(True)
        self._grid = QGridLayout()
        self._grid.setColumnStretch(0, 1)
        self._column = QVBoxLayout(self)
        self._column.setSpacing(0)
        self._column.addWidget(self._heading)
        self._column.addLayout(self._grid)
        self._column.addWidget(self._missing)
        self.set_theme(theme)
        work.assessed.connect(self.show_assessment)
        self.show_assessment(work.assessment)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._heading.setContentsMargins(0, 0, 0, theme.px(4))
        self._column.setContentsMargins(theme.px(4), theme.px(14), theme.px(4), theme.px(8))
        self._grid.setHorizontalSpacing(theme.px(12))
        self._grid.setVerticalSpacing(theme.px(4))
        self._missing.setContentsMargins(0, theme.px(4), 0, 0)

    def show_assessment(self, assessment: Assessment) -> None:
        """Show the figures of an assessment."""
        figures = assessment.figures
        while len(self._rows) < len(figures):
            self._rows.append(_Row(self._grid, len(self._rows)))
        for row, figure in zip(self._rows, figures, strict=False):
            row.show_figure(figure, self._work.words)
        for row in self._rows[len(figures) :]:
            row.hide()
        self._heading.setVisible(bool(figures))
        missing = self._missing_text(assessment.cost)
        self._missing.setText(missing)
        self._missing.setVisible(bool(missing))

    def _missing_text(self, cost: Cost | Absent) -> str:
        if isinstance(cost, Absent) or cost.is_complete:
            return ""
        names = tuple(self._work.shelf.name(key) for key in cost.missing)
        return self._work.words.say(
            "desk-cost-incomplete",
            names=names[:_NAMES_SHOWN],
            more=max(len(names) - _NAMES_SHOWN, 0),
        )


class _Row:
    """Hold the label and the value of one figure, in a row of the grid."""

    def __init__(self, grid: QGridLayout, place: int) -> None:
        self._shown: Figure | None = None
        self._label = QLabel()
        self._label.setObjectName("figure_label")
        self._label.setWordWrap(True)
        self._label.setMinimumWidth(1)
        self._value = QLabel()
        self._value.setObjectName("figure_value")
        self._value.setProperty("role", "strong")
        self._value.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        self._reason = QLabel()
        self._reason.setObjectName("figure_reason")
        self._reason.setProperty("role", "secondary")
        self._reason.setWordWrap(True)
        grid.addWidget(self._label, 2 * place, 0)
        grid.addWidget(self._value, 2 * place, 1)
        grid.addWidget(self._reason, 2 * place + 1, 0, 1, 2)

    def show_figure(self, figure: Figure, words: Words) -> None:
        """Show a figure."""
        if figure == self._shown:
            return
        self._shown = figure
        self._label.setText(words.say(f"figure-{figure.key}", **dict(figure.values)))
        is_absent = isinstance(figure.value, Absent)
        text = figure_text(figure, words)
        self._value.setText("" if is_absent else text)
        self._reason.setText(text if is_absent else "")
        self._value.setAccessibleName(f"{self._label.text()}: {text}")
        self._label.show()
        self._value.setVisible(not is_absent)
        self._reason.setVisible(is_absent)

    def hide(self) -> None:
        """Show nothing."""
        self._shown = None
        for label in (self._label, self._value, self._reason):
            label.hide()


def figure_text(figure: Figure, words: Words) -> str:
    """Return the value of a figure with its unit, or why there is none."""
    if isinstance(figure.value, Absent):
        return words.say(figure.value.reason_id)
    value = words.number(figure.value, PLACES.get(figure.unit))
    return words.say(f"unit-{figure.unit}", value=value, **dict(figure.values))
