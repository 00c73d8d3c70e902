"""Look of the program: colours, type and the style sheet, light and dark."""

from __future__ import annotations

from workbench.ui.theme.appearance import Appearance, SchemeChoice
from workbench.ui.theme.palette import Palette, Scheme, load_palette
from workbench.ui.theme.theme import Role, Theme, load_fonts

__all__ = [
    "Appearance",
    "Palette",
    "Role",
    "Scheme",
    "SchemeChoice",
    "Theme",
    "load_fonts",
    "load_palette",
]
