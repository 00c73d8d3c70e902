"""The right of the Desk: what to look at above, the instruments below, each with its own room."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QSplitter, QVBoxLayout, QWidget

from workbench.ui.places.desk.figures_panel import FiguresPanel
from workbench.ui.places.desk.findings_panel import FindingsPanel
from workbench.ui.places.desk.ph_panel import PhPanel
from workbench.ui.places.desk.preservation_panel import PreservationPanel
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme

_FINDINGS_SHARE, _LEAST = 0.5, 120


class Side(QSplitter):
    """Hold findings and instruments; neither can push the other out of sight."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Vertical, parent)
        self._theme = theme
        self._is_parted_by_hand = False
        self.setObjectName("desk_side")
        self.findings = FindingsPanel(work, theme)
        self.ph = PhPanel(work, theme)
        self.preservation = PreservationPanel(work, theme)
        self.figures = FiguresPanel(work, theme)
        self._upper_inside = _column(self.findings)
        self._lower_inside = _column(self.ph, self.preservation, self.figures)
        self._upper = _scrolling("desk_findings_scroll", self._upper_inside)
        self._lower = _scrolling("desk_instruments_scroll", self._lower_inside)
        self.addWidget(self._upper)
        self.addWidget(self._lower)
        self.setHandleWidth(1)
        self.setChildrenCollapsible(False)
        self.splitterMoved.connect(self._on_parted)
        self.findings.installEventFilter(self)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        for panel in (self.findings, self.ph, self.preservation, self.figures):
            panel.set_theme(theme)
        for inside in (self._upper_inside, self._lower_inside):
            inside.setContentsMargins(theme.px(16), theme.px(12), theme.px(12), theme.px(8))
        self._part()

    def _part(self) -> None:
        # Few findings leave their room to the instruments; many take half and scroll.
        if self._is_parted_by_hand:
            return
        height = self.height()
        wanted = self._upper_inside.heightForWidth(self._upper.viewport().width())
        most = round(height * _FINDINGS_SHARE)
        upper = max(min(wanted, most), min(self._theme.px(_LEAST), most))
        self.setSizes([upper, max(height - upper, 1)])

    def _on_parted(self) -> None:
        self._is_parted_by_hand = True

    def eventFilter(self, _watched: object, event: QEvent) -> bool:
        """Part the room anew when the findings ask for another height."""
        if event.type() == QEvent.Type.LayoutRequest:
            self._part()
        return False

    def event(self, event: QEvent) -> bool:
        """Part the room anew when there is more or less of it."""
        handled = super().event(event)
        if event.type() == QEvent.Type.Resize:
            self._part()
        return handled


def _column(*panels: QWidget) -> QVBoxLayout:
    column = QVBoxLayout()
    column.setSpacing(0)
    for panel in panels:
        column.addWidget(panel)
    column.addStretch(1)
    return column


def _scrolling(name: str, column: QVBoxLayout) -> QScrollArea:
    inside = QWidget()
    inside.setLayout(column)
    area = QScrollArea()
    area.setObjectName(name)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setWidget(inside)
    return area
