"""Which substance a typed name means, and which are meant where none fits."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from workbench.formula.substance import Substance

_MOST = 6
_LEAST_LIKENESS = 0.6
_FEWEST_LETTERS = 2


@dataclass(frozen=True, slots=True)
class SubstanceNames:
    """Hold every substance by key, and the key each lower-case label name belongs to.

    A CAS number is a way to find a substance while typing; what is stored is its key.
    """

    substances: Mapping[str, Substance]
    names: Mapping[str, str]

    def find(self, typed: str) -> str | None:
        """Return the key of the substance a text names: by key, label name or CAS number.

        A number that several substances share names none of them.
        """
        text = typed.strip()
        if text in self.substances:
            return text
        low = text.lower()
        if low in self.names:
            return self.names[low]
        by_label = {
            key
            for key, item in self.substances.items()
            if low and low in (item.inci.lower(), item.inci_us.lower())
        }
        found = by_label or {key for key, item in self.substances.items() if text in item.cas}
        return next(iter(found)) if len(found) == 1 else None

    def label(self, key: str) -> str:
        """Return the label name of a substance, or the text itself where no table has it."""
        known = self.substances.get(key)
        return known.inci if known and known.inci else key

    def suggestions(self, typed: str, among: Collection[str] | None = None) -> tuple[str, ...]:
        """Return label names that a text may have meant, the likeliest first.

        Names that begin with the text come first, then those with a word that does; those spelt
        nearly so only where there is neither. `among` are the keys that may be meant, None for
        all.
        """
        low = typed.strip().lower()
        if len(low) < _FEWEST_LETTERS:
            return ()
        names = [n for n, key in self.names.items() if among is None or key in among]
        starts = sorted((n for n in names if n.startswith(low)), key=lambda n: (len(n), n))
        words = sorted((n for n in names if f" {low}" in n), key=lambda n: (len(n), n))
        fitting = (*starts, *words) or get_close_matches(low, names, _MOST, _LEAST_LIKENESS)
        labels = dict.fromkeys(self.label(self.names[name]) for name in fitting)
        return tuple(labels)[:_MOST]
