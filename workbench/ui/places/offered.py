"""Which places the window offers, and how each is made when it is shown first."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module

from PySide6.QtWidgets import QWidget

from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Appearance


@dataclass(frozen=True, slots=True)
class Place:
    """Hold the name of a place, its keys, where its class is, and whether it stands apart."""

    name: str
    keys: str
    module: str
    kind: str
    is_apart: bool = False


PLACES = (
    Place("desk", "Ctrl+1", "workbench.ui.places.desk.desk", "Desk"),
    Place("shelf", "Ctrl+2", "workbench.ui.places.shelf.place", "ShelfPlace"),
    Place("studio", "Ctrl+,", "workbench.ui.places.studio.studio", "StudioPlace", is_apart=True),
)


def made_place(place: Place, work: DeskWork, appearance: Appearance) -> QWidget:
    """Return a place; what it needs is loaded here, not when the window starts."""
    made = getattr(import_module(place.module), place.kind)(work, appearance)
    assert isinstance(made, QWidget)
    return made
