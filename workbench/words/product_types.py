"""The texts of a draft made from a product type."""

from __future__ import annotations

from workbench.formula.skeleton import TypeLine
from workbench.words.catalogue import Words


class TypeWording:
    """Word phases, steps and starting ranges in the maker's language."""

    def __init__(self, words: Words) -> None:
        """Take the catalogue."""
        self._words = words

    def phase(self, name: str) -> str:
        """Return the name of a phase."""
        return self._words.say("type-phase", phase=name)

    def step(self, step: str) -> str:
        """Return the text of a step."""
        return self._words.say("type-step", step=step)

    def note(self, line: TypeLine) -> str:
        """Return the starting range of a line, or nothing where there is none."""
        if line.low is None or line.high is None:
            return ""
        return self._words.say("type-range", low=line.low, high=line.high, basis=line.basis)
