"""One way to change several lines at once, with the numbers it asks for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from workbench.formula.formula import Formula
from workbench.formula.line_change import Rework
from workbench.formula.shelf import Shelf


@dataclass(frozen=True, slots=True)
class Asked:
    """Hold the numbers given to a way: what was typed, what stays, whether a surplus stands."""

    numbers: tuple[Decimal, ...] = ()
    keep: str = ""
    stands: bool = False


Make = Callable[[Formula, Asked], Rework]


@dataclass(frozen=True, slots=True)
class Way:
    """Hold one way.

    Parameters
    ----------
    text, undo : str
        What it is called, and its undo step.
    make : callable of Formula and Asked
        Returns the Rework, or raises EditRefused.
    shelf : Shelf
        Where everything that comes is known.
    inputs : tuple of (label, number)
        The numbers it asks for, and what stands there at first.
    keeps : tuple of (value, words)
        What may stay, the first one at first; empty where there is no choice.
    note : str
        What it does beside the lines.
    """

    text: str
    undo: str
    make: Make
    shelf: Shelf
    inputs: tuple[tuple[str, Decimal], ...] = ()
    keeps: tuple[tuple[str, str], ...] = ()
    note: str = ""
