"""Where everything on a label stands: the largest type that fits, or why nothing does."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.bench.label_sheets import (
    X_HEIGHT,
    HeightRule,
    LabelSheet,
    net_rule,
    small_pack_rule,
    text_rule,
)
from workbench.bench.label_wants import FRONT_AND_BACK, LEAFLET, WHOLE_LABEL, LabelTables
from workbench.documents.label_content import LabelContent
from workbench.documents.label_face import Face, Sizes
from workbench.documents.label_faces import Draw, Faces
from workbench.documents.type_height import Heights, heights, size_for

LARGEST, STEP = 10.5, 0.05
PAIR = 2
MOST_SIZES = 4


@dataclass(frozen=True, slots=True)
class Layout:
    """Hold the faces of one label and the heights of its type.

    `faces` are one, or front and back; `size` is the smallest type and `net_size` that of the
    net content [pt], each with the rule it was held to, None where there is none.
    """

    sheet: LabelSheet
    faces: tuple[Face, ...]
    size: float
    net_size: float
    rule: HeightRule | None
    net_rule: HeightRule | None

    @property
    def heights(self) -> Heights:
        """Return the heights of the smallest type [mm]."""
        return heights(self.size)


@dataclass(frozen=True, slots=True)
class Choice:
    """Hold one way out: its code, and sizes of sheets, a rule of height, or how many panels."""

    code: str
    sizes: tuple[str, ...] = ()
    rule: HeightRule | None = None
    panels: int = 0


@dataclass(frozen=True, slots=True)
class Refusal:
    """Hold why a label cannot be laid out, and the ways out."""

    sheet: LabelSheet
    least: float
    rule: HeightRule | None
    choices: tuple[Choice, ...]


def lay_out(content: LabelContent, sheet: LabelSheet, tables: LabelTables) -> Layout | Refusal:
    """Return where everything stands at the largest type that fits, or a refusal with choices."""
    found = _laid(content, sheet, tables)
    if found is not None:
        return found
    rule = text_rule(tables.heights, content.order.kind, content.order.surface_cm2)
    return Refusal(sheet, _least(rule), rule, _choices(content, sheet, tables))


def _laid(content: LabelContent, sheet: LabelSheet, tables: LabelTables) -> Layout | None:
    order = content.order
    rule = text_rule(tables.heights, order.kind, order.surface_cm2)
    least = _least(rule)
    net = _net_rule(content, sheet, tables)
    net_size = _net_size(net)
    best: tuple[float, tuple[Face, ...]] | None = None
    faces = Faces(content, sheet)
    for ways in (faces.arrangements(), faces.last_resort()):
        if best is None:
            best = _best(ways, net_size, least)
    if best is None:
        return None
    size, drawn = best
    return Layout(sheet, drawn, size, max(net_size, size), rule, net)


def _best(
    ways: Iterator[Draw], net_size: float, least: float
) -> tuple[float, tuple[Face, ...]] | None:
    """Return the way that holds the largest type."""
    best: tuple[float, tuple[Face, ...]] | None = None
    for draw in ways:
        floor = best[0] + STEP if best else least
        if best is None or floor <= LARGEST:
            best = _largest(draw, net_size, floor) or best
    return best


def _largest(
    draw: Callable[[Sizes], tuple[Face, ...] | None], net_size: float, least: float
) -> tuple[float, tuple[Face, ...]] | None:
    """Search the largest type size at which an arrangement fits, in steps of 0.05 pt."""
    low, high = round(least / STEP), round(max(LARGEST, least) / STEP)
    found = draw(Sizes(round(low * STEP, 2), net_size))
    if found is None:
        return None
    while low < high:
        middle = (low + high + 1) // 2
        tried = draw(Sizes(round(middle * STEP, 2), net_size))
        if tried is None:
            high = middle - 1
        else:
            low, found = middle, tried
    return round(low * STEP, 2), found


def _net_rule(content: LabelContent, sheet: LabelSheet, tables: LabelTables) -> HeightRule | None:
    order = content.order
    if order.net is None or not content.net:
        return None
    return net_rule(tables.heights, order.kind, order.net, sheet.area_cm2)


def _net_size(rule: HeightRule | None) -> float:
    return size_for(float(rule.least_mm), rule.measures) if rule else 0


def _least(rule: HeightRule | None) -> float:
    return size_for(float(rule.least_mm), rule.measures) if rule else size_for(0.9, X_HEIGHT)


def _choices(content: LabelContent, sheet: LabelSheet, tables: LabelTables) -> tuple[Choice, ...]:
    def fits(changed: LabelContent) -> bool:
        return _laid(changed, sheet, tables) is not None

    found = [_larger(content, sheet, tables)]
    order = content.order
    if order.placed == WHOLE_LABEL and fits(_placed(content, FRONT_AND_BACK)):
        found.append(Choice("pair"))
    panels = _panels(content, sheet, tables)
    if panels > PAIR:
        found.append(Choice("fold-out", panels=panels))
    leaflet = _placed(content, LEAFLET)
    takes_leaflet = order.placed != LEAFLET and fits(leaflet)
    if takes_leaflet:
        found.append(Choice("leaflet"))
    small = small_pack_rule(tables.heights, order.kind)
    if small is None or small.panel_to is None or order.surface_cm2 is not None:
        return tuple(found)
    under = small.panel_to - Decimal("0.01")
    if fits(_of_surface(content, under)):
        found.append(Choice("small", rule=small))
    elif not takes_leaflet and fits(_of_surface(leaflet, under)):
        found.append(Choice("leaflet-small", rule=small))
    return tuple(found)


def _larger(content: LabelContent, sheet: LabelSheet, tables: LabelTables) -> Choice:
    """Return the smallest of the larger sheets that hold it."""
    sizes = tuple(
        each.key
        for each in sorted(tables.sheets, key=lambda each: each.area_cm2)
        if each.area_cm2 > sheet.area_cm2 and _laid(content, each, tables) is not None
    )
    return Choice("larger", sizes[:MOST_SIZES]) if sizes else Choice("larger-none")


def _placed(content: LabelContent, where: str) -> LabelContent:
    return replace(content, order=replace(content.order, placed=where))


def _of_surface(content: LabelContent, surface: Decimal) -> LabelContent:
    return replace(content, order=replace(content.order, surface_cm2=surface))


def _panels(content: LabelContent, sheet: LabelSheet, tables: LabelTables) -> int:
    order = content.order
    rule = text_rule(tables.heights, order.kind, order.surface_cm2)
    return Faces(content, sheet).panels(
        Sizes(_least(rule), _net_size(_net_rule(content, sheet, tables)))
    )
