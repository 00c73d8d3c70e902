"""Which ingredients the list shows: the filters, and what is found by the typed words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from workbench.storage.folding import folded
from workbench.storage.search import Hit
from workbench.storage.shelf_list import ListedIngredient
from workbench.words.catalogue import Words
from workbench.words.ingredients import function_name

MOST_FOUND = 200
"""So many are shown of what the typed words find; more nobody reads."""


@dataclass(frozen=True, slots=True)
class Filters:
    """Hold what the list is narrowed to; empty text lets everything through.

    `functions` are the ids of one name in words: a thickener is a gum, a polymer or a clay.
    """

    functions: frozenset[str] = frozenset()
    solubility: str = ""
    charge: str = ""
    only_there: bool = False
    only_own: bool = False

    @property
    def is_open(self) -> bool:
        """Whether everything is let through."""
        return self == Filters()

    def lets(self, item: ListedIngredient) -> bool:
        """Tell whether an ingredient is let through."""
        return (
            (not self.functions or not self.functions.isdisjoint(item.functions))
            and self.solubility in ("", item.solubility)
            and self.charge in ("", item.charge)
            and (item.is_there or not self.only_there)
            and (item.is_own or not self.only_own)
        )


def shown_rows(
    rows: Mapping[str, ListedIngredient], filters: Filters, hits: Iterable[Hit] | None
) -> tuple[ListedIngredient, ...]:
    """Return what the filters let through of ingredients by key.

    Without `hits` that is all of them, as they stand; else what was found, best first.
    """
    if hits is None:
        return tuple(item for item in rows.values() if filters.is_open or filters.lets(item))
    found = (rows[hit.key] for hit in hits if hit.key in rows)
    return tuple(item for item in found if filters.lets(item))


def best_first(
    rows: Iterable[ListedIngredient], typed: str, words: Words
) -> tuple[ListedIngredient, ...]:
    """Return what was found in the order of fit, then by name.

    The whole name comes first, then its start, the start of a word in it, the INCI name, the
    main function, another function, and what only holds the words. What begins with a digit
    is a number, for which the order found is kept.
    """
    asked = folded(typed)
    if not asked or asked[0].isdigit():
        return tuple(rows)
    return tuple(sorted(rows, key=lambda row: (_fit(row, asked, words), row.name.casefold())))


def _fit(row: ListedIngredient, asked: str, words: Words) -> int:
    name = folded(row.name)
    functions = [_begins(folded(function_name(f, words)), asked) for f in row.functions]
    fits = (
        name == asked,
        name.startswith(asked),
        _begins(name, asked),
        _begins(folded(row.inci), asked),
        any(functions[:1]),
        any(functions),
    )
    return fits.index(True) if any(fits) else len(fits)


def _begins(text: str, asked: str) -> bool:
    return f" {text}".find(f" {asked}") >= 0


def function_choices(
    rows: Iterable[ListedIngredient], words: Words
) -> Mapping[str, frozenset[str]]:
    """Return the functions there are, those that have one name in words together, by name."""
    named: dict[str, set[str]] = {}
    for function in {function for item in rows for function in item.functions}:
        named.setdefault(function_name(function, words), set()).add(function)
    return {name: frozenset(named[name]) for name in sorted(named, key=str.casefold)}
