"""What may stand in a row of parts: the substances of the tables, or what is on the shelf."""

from __future__ import annotations

from collections.abc import Collection

from workbench.formula.substance_names import SubstanceNames
from workbench.storage.studio import Studio

MOST_SUGGESTIONS = 8


class SubstanceResolver:
    """Know substances by key, label name and CAS number."""

    def __init__(self, names: SubstanceNames) -> None:
        """Take the names."""
        self._names = names

    def find(self, typed: str) -> str | None:
        """Return the key of the substance a text names, or None."""
        return self._names.find(typed)

    def label(self, key: str) -> str:
        """Return the label name of a substance."""
        return self._names.label(key)

    def suggestions(self, typed: str) -> tuple[str, ...]:
        """Return label names that a text may have meant."""
        return self._names.suggestions(typed)


class AllergenResolver(SubstanceResolver):
    """Know every substance, and offer those that label rules name as allergens."""

    def __init__(self, names: SubstanceNames, allergens: Collection[str]) -> None:
        """Take the names, and the keys of the substances to offer."""
        super().__init__(names)
        self._allergens = allergens

    def suggestions(self, typed: str) -> tuple[str, ...]:
        """Return label names of allergens that a text may have meant."""
        return self._names.suggestions(typed, self._allergens)


class IngredientResolver:
    """Know the ingredients of the shelf by key and name; stocks are none of them."""

    def __init__(self, studio: Studio) -> None:
        """Take the studio and read the names once."""
        self._studio = studio
        listed = studio.ingredients.listed()
        self._names = {item.key: item.name for item in listed}
        self._keys: dict[str, list[str]] = {}
        for item in listed:
            self._keys.setdefault(item.name.casefold(), []).append(item.key)

    def find(self, typed: str) -> str | None:
        """Return the key of the one ingredient of this name or key, or None."""
        text = typed.strip()
        if text in self._names:
            return text
        keys = self._keys.get(text.casefold(), [])
        return keys[0] if len(keys) == 1 else None

    def label(self, key: str) -> str:
        """Return the name of an ingredient."""
        return self._names.get(key, key)

    def suggestions(self, typed: str) -> tuple[str, ...]:
        """Return names that fit, best first."""
        hits = self._studio.search(typed, 2 * MOST_SUGGESTIONS)
        names = dict.fromkeys(hit.name for hit in hits if not hit.is_stock)
        return tuple(names)[:MOST_SUGGESTIONS]
