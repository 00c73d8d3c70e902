"""Sheets of labels as millimetres, and how high type must be on them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

ROUND, RECTANGLE = "round", "rectangle"
X_HEIGHT, CAPITAL, FIGURE, SMALL_O = "x", "capital", "figure", "o"
TEXT, NET = "text", "net"
_ZERO = Decimal(0)
# The seam of a label around a bottle must not meet itself.
SEAM_MM = Decimal(3)
PI = Decimal("3.14159265")


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """Hold one sheet of labels; every length in millimetres.

    Parameters
    ----------
    key : str
        Size by which it is asked for, as "38.1x21.2" or "round 40"; empty for a free geometry.
    page : str
        Name of the page, as A4; empty for any other.
    page_w, page_h : Decimal
        Page, upright.
    cell_w, cell_h : Decimal
        One label; of a round one both are its diameter.
    columns, rows : int
        Labels across and down.
    gap_x, gap_y, left, top : Decimal
        Between labels, and from the edge of the page to the first one.
    shape : str
        "rectangle" or "round".
    """

    key: str
    page: str
    page_w: Decimal
    page_h: Decimal
    cell_w: Decimal
    cell_h: Decimal
    columns: int
    rows: int
    gap_x: Decimal = _ZERO
    gap_y: Decimal = _ZERO
    left: Decimal = _ZERO
    top: Decimal = _ZERO
    shape: str = RECTANGLE
    source: str = ""
    confidence: str = "memory"

    @property
    def count(self) -> int:
        """Return how many labels are on a sheet."""
        return self.columns * self.rows

    @property
    def is_round(self) -> bool:
        """Tell whether the labels are circles."""
        return self.shape == ROUND

    @property
    def area_cm2(self) -> Decimal:
        """Return the area of one label [cm2]."""
        square = self.cell_w * self.cell_h / 100
        return square * PI / 4 if self.is_round else square

    def corner(self, place: int) -> tuple[Decimal, Decimal]:
        """Return the left and top edge of a label, counted from 0 along the rows [mm]."""
        row, column = divmod(place, self.columns)
        return (
            self.left + column * (self.cell_w + self.gap_x),
            self.top + row * (self.cell_h + self.gap_y),
        )

    def faults(self) -> tuple[str, ...]:
        """Return what makes no sense: "not-positive", "too-wide", "too-high", "not-round"."""
        return tuple(self._faults())

    def _faults(self) -> Iterator[str]:
        lengths = (self.page_w, self.page_h, self.cell_w, self.cell_h)
        if min(lengths) <= 0 or min(self.columns, self.rows) < 1:
            yield "not-positive"
            return
        if min(self.gap_x, self.gap_y, self.left, self.top) < 0:
            yield "not-positive"
        if self.left + self._across(self.cell_w, self.gap_x, self.columns) > self.page_w:
            yield "too-wide"
        if self.top + self._across(self.cell_h, self.gap_y, self.rows) > self.page_h:
            yield "too-high"
        if self.is_round and self.cell_w != self.cell_h:
            yield "not-round"

    @staticmethod
    def _across(cell: Decimal, gap: Decimal, count: int) -> Decimal:
        return cell * count + gap * (count - 1)


@dataclass(frozen=True, slots=True)
class HeightRule:
    """Hold how high letters must be at least in one case.

    Parameters
    ----------
    key : str
        Name of the row.
    kinds : tuple of str
        Kinds of label it is for.
    what : str
        "text" for the list and the warnings, "net" for the net content.
    measures : str
        Which height is measured: "x", "o", "capital" or "figure".
    least_mm : Decimal
        [mm].
    content_over, content_to : Decimal or None
        Net content it is for [g or ml]: over the one, up to the other.
    panel_over, panel_to : Decimal or None
        Area it is for [cm2]: over the one, up to the other.
    is_small_pack : bool
        Whether it holds only for packs so small that the source lets letters be lower.
    is_law : bool
        Whether law for cosmetics says so; else it is a yardstick.
    """

    key: str
    kinds: tuple[str, ...]
    what: str
    measures: str
    least_mm: Decimal
    content_over: Decimal | None = None
    content_to: Decimal | None = None
    panel_over: Decimal | None = None
    panel_to: Decimal | None = None
    is_small_pack: bool = False
    is_law: bool = False
    source: str = ""
    confidence: str = "memory"


def text_rule(
    rules: tuple[HeightRule, ...], kind: str, surface_cm2: Decimal | None
) -> HeightRule | None:
    """Return the rule for the list and the warnings on a pack of a surface [cm2].

    Notes
    -----
    As long as the surface is not known, the rule for packs that are not small holds.
    """
    found = [rule for rule in rules if rule.what == TEXT and kind in rule.kinds]
    small = [rule for rule in found if rule.is_small_pack and _within(rule, surface_cm2)]
    usual = [rule for rule in found if not rule.is_small_pack]
    return next(iter(small or usual), None)


def small_pack_rule(rules: tuple[HeightRule, ...], kind: str) -> HeightRule | None:
    """Return the rule that would hold if the pack were small enough."""
    return next((r for r in rules if r.what == TEXT and kind in r.kinds and r.is_small_pack), None)


def net_rule(
    rules: tuple[HeightRule, ...], kind: str, content: Decimal, panel_cm2: Decimal
) -> HeightRule | None:
    """Return the rule for the net content, of a content [g or ml] on a front of an area [cm2]."""
    for rule in rules:
        if rule.what != NET or kind not in rule.kinds:
            continue
        if _between(content, rule.content_over, rule.content_to) and _between(
            panel_cm2, rule.panel_over, rule.panel_to
        ):
            return rule
    return None


def goes_around(width_mm: Decimal, diameter_mm: Decimal) -> bool:
    """Tell whether a label goes around a bottle of a diameter without meeting itself [mm]."""
    return width_mm <= PI * diameter_mm - SEAM_MM


def _within(rule: HeightRule, surface: Decimal | None) -> bool:
    return surface is not None and rule.panel_to is not None and surface < rule.panel_to


def _between(value: Decimal, over: Decimal | None, to: Decimal | None) -> bool:
    return (over is None or value > over) and (to is None or value <= to)
