"""A formula as the text of a column, and back."""

from __future__ import annotations

from workbench.formula.document import formula_data, formula_from_data
from workbench.formula.document_values import DocumentFault
from workbench.formula.formula import Formula
from workbench.storage.json_text import to_mapping, to_text
from workbench.storage.sentences import refusal

# What reading damaged plain data can raise, whichever field it meets first.
UNREADABLE = (ValueError, KeyError, TypeError, AttributeError, ArithmeticError)


def formula_text(formula: Formula) -> str:
    """Return a formula as JSON text, or refuse what could not be read back.

    The draft stored before is then kept: it is better than one that nobody can open.
    """
    data = formula_data(formula)
    try:
        formula_from_data(data)
    except DocumentFault as error:
        from workbench.storage.formula_document import place_in_words

        where = place_in_words(error.path)
        raise refusal("unstorable", detail=repr(error), name=formula.name, where=where) from error
    return to_text(data)


def formula_of(text: str, name: str) -> Formula:
    """Return the formula a JSON text holds, or refuse naming which one cannot be read."""
    try:
        return formula_from_data(dict(to_mapping(text)))
    except UNREADABLE as error:
        raise refusal("unreadable-formula", detail=repr(error), name=name) from error
