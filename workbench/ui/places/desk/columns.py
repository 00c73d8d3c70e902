"""The columns of the sheet: how each reads a row, and what is read out in its place."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from workbench.ui.models.value_table import Column
from workbench.ui.places.desk.rows import Kind, SheetRow
from workbench.words.catalogue import Words

MARGIN, MARK, INGREDIENT, PURPOSE = "margin", "mark", "ingredient", "purpose"
PERCENT, GRAMS, RANGE, COST = "percent", "grams", "range", "cost"
PURE, INCI, NOTE = "pure", "inci", "note"
KEYS = (MARGIN, MARK, INGREDIENT, INCI, PURPOSE, PERCENT, PURE, GRAMS, RANGE, COST, NOTE)
"""Every column, in the order of the model."""
STOPS = KEYS[2:]
"""Columns the cursor stands in."""
FIGURES = (PERCENT, PURE, GRAMS, COST)
FIXED = (MARGIN, MARK)
"""Columns that stay at the left."""
ALWAYS = (*FIXED, INGREDIENT, PERCENT)
"""Columns that are always shown."""
NOTE_GAP = "; "
"""What parts a note from what is added to it."""
USUAL = (INGREDIENT, PURPOSE, PERCENT, GRAMS, RANGE, COST)
"""What is shown until the maker chooses, in this order."""

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
        column(
            MARGIN,
            lambda row: row.letter if row.kind in (Kind.HEAD, Kind.NEW) else "",
            look=_margin_look,
        ),
        column(MARK, lambda _row: "", look=_mark_look),
        column(
            INGREDIENT,
            lambda row: row.name,
            look=lambda row: (row.kind, row.secondary, row.alarm, row.note),
            typed=lambda row: row.phase_name if row.kind is Kind.HEAD else _line_name(row),
            commit=committing(INGREDIENT),
            editable=lambda row: row.kind is not Kind.TOTAL,
        ),
        column(INCI, lambda row: row.inci, look=lambda row: (row.kind,)),
        column(
            PURPOSE,
            lambda row: row.purpose,
            look=lambda row: (row.kind,),
            commit=committing(PURPOSE),
            editable=lambda row: row.kind is Kind.LINE,
        ),
        column(
            PERCENT,
            lambda row: row.percent,
            look=lambda row: (row.kind, row.pad, row.severity == "stop"),
            commit=committing(PERCENT),
            editable=lambda row: row.kind is Kind.LINE,
            is_numeric=True,
        ),
        column(
            PURE,
            lambda row: row.pure,
            look=lambda row: (row.kind, row.pure_pad, False),
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
            look=lambda row: (row.kind, row.use_range, row.severity == "stop", _is_said(row)),
        ),
        column(COST, lambda row: row.cost, look=lambda row: (row.kind, 0, False), is_numeric=True),
        column(
            NOTE,
            lambda row: row.note,
            look=lambda row: (row.kind,),
            commit=committing(NOTE),
            editable=lambda row: row.kind is Kind.LINE,
        ),
    )


def spoken(row: SheetRow, key: str, text: str, words: Words) -> str:
    """Return what is read out for a cell: whose it is, what it says, and what marks it."""
    if row.kind is Kind.NEW:
        return row.name
    parts = [row.name]
    if key in STOPS[1:]:
        empty = "sheet-spoken-none" if key in (INCI, PURPOSE, NOTE) else "sheet-spoken-empty"
        parts += [words.say(f"sheet-spoken-{key}"), text or words.say(empty)]
    elif row.kind is Kind.HEAD and row.secondary:
        parts.append(row.secondary)
    return ", ".join([*parts, *_marked(row, key, words)])


def _marked(row: SheetRow, key: str, words: Words) -> Iterator[str]:
    """Yield the phase of a row, and in words what its marks and its second text say."""
    if row.letter:
        yield words.say("sheet-spoken-phase", letter=row.letter, name=row.phase_name)
    if row.severity:
        word = words.say(f"severity-{row.severity}")
        yield f"{word}: {row.told}" if row.told else word
    if row.is_locked:
        yield words.say("sheet-spoken-locked")
    if key != RANGE and (row.is_rest or row.is_to_ph):
        yield words.say("sheet-takes-rest" if row.is_rest else "sheet-held-back")
    if row.alarm:
        yield row.alarm
    if row.note and key != NOTE:
        yield words.say("sheet-spoken-with-note", note=row.note)


def _line_name(row: SheetRow) -> str:
    return row.name if row.kind is Kind.LINE else ""


def _range_text(row: SheetRow, words: Words) -> str:
    if row.is_rest:
        return words.say("sheet-takes-rest")
    if row.is_to_ph:
        return words.say("sheet-held-back")
    if row.kind is Kind.HEAD:
        return words.say("sheet-steps")
    return row.use_range.said if row.use_range else ""


def _is_said(row: SheetRow) -> bool:
    """Tell whether words stand in the place of the range bar."""
    return row.is_rest or row.is_to_ph


def _margin_look(row: SheetRow) -> object:
    return (row.kind, row.is_last_of_phase)


def _mark_look(row: SheetRow) -> object:
    return (row.kind, row.severity, row.is_locked, row.is_rest)
