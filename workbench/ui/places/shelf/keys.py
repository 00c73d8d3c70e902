"""The keys of the Shelf: which job listens to which, known before the place is made."""

from __future__ import annotations

SHELF_KEYS = {
    "search": "Ctrl+L",
    "change": "F2",
    "copy-to-change": "Ctrl+Shift+D",
    "new": "Ctrl+Shift+N",
    "new-blend": "Ctrl+Shift+B",
    "shopping": "Ctrl+Shift+L",
}
"""Job, of which `shelf-<job>` is what it is called, and its keys."""
