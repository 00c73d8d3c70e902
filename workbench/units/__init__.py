"""Masses, volumes and what is typed into a number cell: exact factors, readings, no sentences."""

from __future__ import annotations

from workbench.units.cell import parse_mass, parse_quantity, parse_volume
from workbench.units.convert import to_grams, to_millilitres
from workbench.units.factors import GRAMS, MILLILITRES
from workbench.units.quantity import REASONS, Ambiguous, Quantity, Unreadable

__all__ = [
    "GRAMS",
    "MILLILITRES",
    "REASONS",
    "Ambiguous",
    "Quantity",
    "Unreadable",
    "parse_mass",
    "parse_quantity",
    "parse_volume",
    "to_grams",
    "to_millilitres",
]
