"""Preservation of the draft: what of each preservative is there, active, and in the water."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from workbench.checks.assessment import Assessment
from workbench.checks.preservative_values import PhBasis, PreservativeShare, Range, Wanted
from workbench.ui.places.desk.column_panel import ColumnPanel
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words
from workbench.words.ph import ph_text
from workbench.words.sources import short_source

_WIDE = 2
_GAP = 8
Row = tuple[str, str]
"""A label, and its value; without a value the label takes the whole width."""


class PreservationPanel(ColumnPanel):
    """Show each preservative by product and by water phase, with the level wanted."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._heading = QLabel(work.words.say("preservation-heading"))
        self._heading.setProperty("role", "heading")
        self._grid = QGridLayout()
        self._grid.setColumnStretch(0, 1)
        self._pairs: list[tuple[QLabel, QLabel]] = []
        self._filled: list[tuple[str, str, str] | None] = []
        self._gap = theme.px(_GAP)
        self._whole: dict[str, str] = {}
        self._shown: tuple[PreservativeShare, ...] | None = None
        self._column = QVBoxLayout(self)
        self._column.addWidget(self._heading)
        self._column.addLayout(self._grid)
        self.set_theme(theme)
        work.assessed.connect(self.show_assessment)
        self.show_assessment(work.assessment)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._gap = theme.px(_GAP)
        self._column.setContentsMargins(theme.px(4), theme.px(10), theme.px(4), theme.px(4))
        self._column.setSpacing(theme.px(4))
        self._grid.setHorizontalSpacing(theme.px(12))
        self._grid.setVerticalSpacing(theme.px(3))

    def show_assessment(self, assessment: Assessment) -> None:
        """Show the preservatives of an assessment."""
        shares = assessment.preservatives
        self.setVisible(bool(shares))
        if shares == self._shown:
            return
        self._shown = shares
        rows = [row for share in shares for row in self._rows(share)]
        if rows:
            rows.append((self._work.words.say("preservation-challenge"), "", "small"))
        self._whole = dict(_whole_sources(shares, self._work.words))
        while len(self._pairs) < len(rows):
            self._add_pair()
        for place, pair in enumerate(self._pairs):
            row = rows[place] if place < len(rows) else None
            if row != self._filled[place]:
                self._filled[place] = row
                self._fill(pair, row)
                if row is not None:
                    self._lay(place, row)

    def _rows(self, share: PreservativeShare) -> Iterator[tuple[str, str, str]]:
        words = self._work.words
        name = self._work.shelf.inci(share.substance)
        yield name, f"{words.number(share.percent, 2)} %", "strong"
        yield from preservative_rows(share, words)

    def _add_pair(self) -> None:
        place = len(self._pairs)
        label, value = QLabel(), QLabel()
        label.setObjectName("preservation_label")
        label.setWordWrap(True)
        label.setMinimumWidth(1)
        value.setObjectName("preservation_value")
        value.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        self._grid.addWidget(label, place, 0)
        self._grid.addWidget(value, place, 1)
        self._pairs.append((label, value))
        self._filled.append(("", "", ""))

    def _lay(self, place: int, row: tuple[str, str, str]) -> None:
        """Give a row without a value the whole width, and a new preservative some air."""
        label, value = self._pairs[place]
        above = self._gap if row[_WIDE] == "strong" and place else 0
        for part in (label, value):
            part.setContentsMargins(0, above, 0, 0)
        whole = self._whole.get(row[0], "")
        label.setToolTip(whole)
        label.setAccessibleDescription(whole)
        self._grid.removeWidget(label)
        self._grid.addWidget(label, place, 0, 1, 1 if row[1] else 2)

    @staticmethod
    def _fill(pair: tuple[QLabel, QLabel], row: tuple[str, str, str] | None) -> None:
        label, value = pair
        label.setVisible(row is not None)
        value.setVisible(row is not None and bool(row[1]))
        if row is None:
            return
        for part, text in zip(pair, row, strict=False):
            part.setText(text)
            if part.property("role") != row[_WIDE]:
                part.setProperty("role", row[_WIDE])
                part.style().unpolish(part)
                part.style().polish(part)
        value.setAccessibleName(f"{row[0]}: {row[1]}")


def preservative_rows(share: PreservativeShare, words: Words) -> Iterator[tuple[str, str, str]]:
    """Yield label, value and role of what is known of one preservative, its name left out."""
    if share.as_acid_percent is not None and share.carriers != (share.substance,):
        yield words.say("preservation-as-acid"), _percent(share.as_acid_percent, words), ""
    if share.undissociated_percent is not None:
        share_text = _range(share.undissociated_share, words, 0)
        basis = (share.ph_basis or PhBasis.ESTIMATE).value
        label = words.say("preservation-undissociated", share=share_text, basis=basis)
        yield label, f"{_range(share.undissociated_percent, words, 2)} %", ""
    if share.water_phase_percent is not None:
        capped = "yes" if share.is_capped else "no"
        label = words.say("preservation-water", capped=capped)
        yield label, f"{_range(share.water_phase_percent, words, 2)} %", ""
    if share.wanted is not None:
        wanted = share.wanted
        level = words.number(wanted.level)
        if wanted.upper != wanted.level:
            level = f"{level} – {words.number(wanted.upper)}"
        label = words.say("preservation-wanted", basis=wanted.basis.value)
        yield label, f"{level} %", ""
        yield _source_text(wanted, short_source(wanted.source), words), "", "small"
    if share.ph_for_wanted is not None:
        yield words.say("preservation-met-to"), f"pH {ph_text(share.ph_for_wanted, words)}", ""
    if share.not_modelled is not None:
        yield words.say(f"preservation-{share.not_modelled.value}"), "", "small"


def _whole_sources(
    shares: tuple[PreservativeShare, ...], words: Words
) -> Iterator[tuple[str, str]]:
    """Yield the line of each source with what it is short for."""
    for share in shares:
        if share.wanted is not None:
            source = share.wanted.source
            short = _source_text(share.wanted, short_source(source), words)
            yield short, _source_text(share.wanted, source, words)


def _source_text(wanted: Wanted, source: str, words: Words) -> str:
    return words.say("preservation-wanted-source", source=source, confidence=wanted.confidence)


def _percent(value: Decimal, words: Words) -> str:
    return f"{words.number(value, 2)} %"


def _range(found: Range | None, words: Words, places: int) -> str:
    if found is None:
        return ""
    low, high = (words.number(Decimal(str(end)), places) for end in (found.low, found.high))
    return low if low == high else f"{low} – {high}"
