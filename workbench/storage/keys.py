"""Keys made from names."""

from __future__ import annotations

from collections.abc import Container

from workbench.storage.folding import folded

LONGEST_KEY = 60


def key_from(name: str, taken: Container[str]) -> str:
    """Return a key that reads like a name and that nothing has.

    >>> key_from("Oat milk (mine)", {"oat-milk-mine"})
    'oat-milk-mine-2'
    """
    stem = folded(name).replace(" ", "-")[:LONGEST_KEY].strip("-") or "ingredient"
    place, key = 1, stem
    while key in taken:
        place += 1
        key = f"{stem}-{place}"
    return key
