"""The columns of the sheet: how each reads a row, and what is read out in its place."""

from __future__ import annotations

from collections.abc import Callable

from workbench.ui.models.value_table import Column
from workbench.ui.places.desk.rows import Kind, SheetRow
from workbench.words.catalogue import Words

MARGIN, MARK, INGREDIENT, PURPOSE = "margin", "mark", "ingredient", "purpose"
PERCENT, GRAMS, RANGE, COST = "percent", "grams", "range", "cost"
KEYS = (MARGIN, MARK, INGREDIENT, PURPOSE, PERCENT, GRAMS, RANGE, COST)
STOPS = (INGREDIENT, PURPOSE, PERCENT, GRAMS, RANGE, COST)
"""Columns the cursor stands in."""

Commit = Callable[[SheetRow, str, str], bool]


def sheet_columns(words: Words, commit: Commit) -> tuple[Column[SheetRow], ...]:
    """Return the columns from the left; `commit` takes row, column key and text."""

    def column(key: str, text: Callable[[SheetRow], str], **more: object) -> Column[SheetRow]:
        header = "" if key in (MARGIN, MARK) else words.say(f"sheet-column-{key}")
        return Column(
            key=key,
            header=header,
            text=text,
            accessible=lambda row: spoken(row, key, text(row), words),
            **more,  # type: ignore[arg-type]
        )

    def committing(key: str) -> Callable[[SheetRow, str], bool]:
        return lambda row, text: commit(row, key, text)

    return (
        column(MARGIN, lambda row: row.letter if row.kind is Kind.HEAD else "", look=_margin_look),
        column(MARK, lambda _row: "", look=_mark_look),
        column(
            INGREDIENT,
            lambda row: row.name,
            look=lambda row: (row.kind, row.secondary, row.alarm),
            typed=lambda row: row.name if row.kind is Kind.LINE else "",
            commit=committing(INGREDIENT),
            editable=lambda row: row.kind in (Kind.LINE, Kind.NEW),
        ),
        column(PURPOSE, lambda row: row.purpose, look=lambda row: (row.kind,)),
        column(
            PERCENT,
            lambda row: row.percent,
            look=lambda row: (row.kind, row.pad, row.severity == "stop"),
            commit=committing(PERCENT),
            editable=lambda row: row.kind is Kind.LINE,
            is_numeric=True,
        ),
        column(
            GRAMS,
            lambda row: row.grams,
            look=lambda row: (row.kind, 0, False),
            commit=committing(GRAMS),
            editable=lambda row: row.kind is Kind.LINE,
            is_numeric=True,
        ),
        column(
            RANGE,
            lambda row: _range_text(row, words),
            look=lambda row: (row.kind, row.use_range, row.severity == "stop", row.is_rest),
        ),
        column(COST, lambda row: row.cost, look=lambda row: (row.kind, 0, False), is_numeric=True),
    )


def spoken(row: SheetRow, key: str, text: str, words: Words) -> str:
    """Return what is read out for a cell: whose it is, what it says, and what marks it."""
    if row.kind is Kind.NEW:
        return row.name
    parts = [row.name]
    if key in (PURPOSE, PERCENT, GRAMS, RANGE, COST):
        parts += [
            words.say(f"sheet-spoken-{key}"),
            text or words.say("sheet-spoken-empty"),
        ]
    if row.letter:
        parts.append(words.say("sheet-spoken-phase", letter=row.letter))
    if row.severity:
        parts.append(words.say(f"severity-{row.severity}"))
    if row.is_locked:
        parts.append(words.say("sheet-spoken-locked"))
    if row.is_rest:
        parts.append(words.say("sheet-takes-rest"))
    if row.alarm:
        parts.append(row.alarm)
    return ", ".join(parts)


def _range_text(row: SheetRow, words: Words) -> str:
    if row.is_rest:
        return words.say("sheet-takes-rest")
    return row.use_range.text if row.use_range else ""


def _margin_look(row: SheetRow) -> object:
    return (row.kind, row.is_last_of_phase)


def _mark_look(row: SheetRow) -> object:
    return (row.kind, row.severity, row.is_locked, row.is_rest)
