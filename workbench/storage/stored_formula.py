"""A formula as the text of a column, and back."""

from __future__ import annotations

from workbench.formula.document import formula_data, formula_from_data
from workbench.formula.formula import Formula
from workbench.storage.json_text import to_mapping, to_text
from workbench.storage.sentences import refusal

# What reading damaged plain data can raise, whichever field it meets first.
UNREADABLE = (ValueError, KeyError, TypeError, AttributeError, ArithmeticError)


def formula_text(formula: Formula) -> str:
    """Return a formula as JSON text."""
    return to_text(formula_data(formula))


def formula_of(text: str, name: str) -> Formula:
    """Return the formula a JSON text holds, or refuse naming which one cannot be read."""
    try:
        return formula_from_data(dict(to_mapping(text)))
    except UNREADABLE as error:
        raise refusal("unreadable-formula", detail=repr(error), name=name) from error
