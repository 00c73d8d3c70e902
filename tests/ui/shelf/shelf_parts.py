"""The Shelf on the studio of the panels' tests."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from tests.ui.desk.panels import Parts, make_parts
from workbench.paths import resources
from workbench.ui.places.shelf.place import ShelfPlace
from workbench.ui.theme import Appearance

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

LAVENDER = "eo_lavender"


def make_shelf(folder, **options) -> tuple[Parts, ShelfPlace]:
    parts = make_parts(folder, **options)
    return parts, ShelfPlace(parts.work, Appearance(resources()))


def names(place: ShelfPlace) -> list[str]:
    return [row.name for row in place.list.model.rows]


def spoken(place: ShelfPlace) -> list[str]:
    model, role = place.list.model, Qt.ItemDataRole.AccessibleTextRole
    return [model.index(row, 0).data(role) for row in range(model.rowCount())]


def stops(place: QWidget) -> list[QWidget]:
    """Return what Tab can reach, in order, while it is on screen."""
    found: list[QWidget] = []
    widget = place.nextInFocusChain()
    while widget is not place:
        is_seen = place.isAncestorOf(widget) and widget.isVisible() and widget.isEnabled()
        is_stop = bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus)
        if is_seen and is_stop and widget.focusProxy() is None:
            found.append(widget)
        widget = widget.nextInFocusChain()
    return found
