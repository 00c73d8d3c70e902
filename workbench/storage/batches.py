"""Batch numbers: given once, kept for ever."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from sqlalchemy import Connection, func, insert, select

from workbench.storage.folding import folded
from workbench.storage.schema import BatchRow, FormulaRow, VersionRow
from workbench.storage.sentences import refusal
from workbench.storage.settings import StudioSettings, read_settings
from workbench.storage.studio_file import StudioFile
from workbench.storage.versions import version_id

_COUNT = "{count}"
_INITIALS = 2


@dataclass(frozen=True, slots=True)
class NumberedBatch:
    """Hold a batch number and what it stands for; mass in grams."""

    number: str
    formula: str
    version: int
    batch_mass_g: Decimal
    made_at: datetime


class Batches:
    """Give the numbers of batches."""

    def __init__(self, file: StudioFile) -> None:
        """Take the file they are in."""
        self._file = file

    def next_number(self, initials: str, yymm: str) -> str:
        """Return the number the next batch of these initials and this month would get."""
        with self._file.reading() as connection:
            return _next(connection, initials, yymm)[0]

    def take_number(
        self, key: str, version: int, batch_mass_g: Decimal, made_at: datetime
    ) -> NumberedBatch:
        """Give the next number to a batch of a version; `made_at` decides its month.

        Raises
        ------
        WorkbenchError
            If there is no such version, or the mass is not more than nothing.
        """
        if batch_mass_g <= 0:
            raise refusal("batch-needs-mass")
        with self._file.writing() as connection:
            version_row = version_id(connection, key, version)
            name = connection.scalar(select(FormulaRow.name).where(FormulaRow.key == key)) or key
            number, series, place = _next(connection, initials_of(name), made_at.strftime("%y%m"))
            connection.execute(
                insert(BatchRow).values(
                    number=number,
                    series=series,
                    place=place,
                    version_id=version_row,
                    batch_mass_g=batch_mass_g,
                    made_at=made_at,
                )
            )
        return NumberedBatch(number, key, version, batch_mass_g, made_at)

    def get(self, number: str) -> NumberedBatch:
        """Return the batch of a number."""
        with self._file.reading() as connection:
            row = connection.execute(_BATCHES.where(BatchRow.number == number)).one_or_none()
        if row is None:
            raise refusal("no-such-batch", number=number)
        return NumberedBatch(*row)

    def of_formula(self, key: str) -> tuple[NumberedBatch, ...]:
        """Return the batches of a formula, the first one first."""
        query = _BATCHES.where(FormulaRow.key == key).order_by(BatchRow.id)
        with self._file.reading() as connection:
            return tuple(NumberedBatch(*row) for row in connection.execute(query))


def initials_of(name: str) -> str:
    """Return the initials that stand in a batch number: of two words, or two letters of one.

    >>> initials_of("Oat & quince gel")
    'OQ'
    """
    words = [word for word in folded(name).split() if word[0].isalpha()]
    if not words:
        return "B"
    text = "".join(word[0] for word in words[:_INITIALS]) if len(words) > 1 else words[0]
    return text[:_INITIALS].upper()


def _next(connection: Connection, initials: str, yymm: str) -> tuple[str, str, int]:
    pattern = read_settings(connection).numbering
    if _COUNT not in pattern:
        pattern = StudioSettings().numbering
    series = pattern.replace("{initials}", initials).replace("{yymm}", yymm)
    used = connection.scalar(select(func.max(BatchRow.place)).where(BatchRow.series == series))
    place = (used or 0) + 1
    # A changed way of numbering can arrive at a number that is given already.
    while connection.scalar(select(BatchRow.id).where(BatchRow.number == _number(series, place))):
        place += 1
    return _number(series, place), series, place


def _number(series: str, place: int) -> str:
    return series.replace(_COUNT, f"{place:02}")


_BATCHES = (
    select(
        BatchRow.number,
        FormulaRow.key,
        VersionRow.number,
        BatchRow.batch_mass_g,
        BatchRow.made_at,
    )
    .join(VersionRow, VersionRow.id == BatchRow.version_id)
    .join(FormulaRow, FormulaRow.id == VersionRow.formula_id)
)
