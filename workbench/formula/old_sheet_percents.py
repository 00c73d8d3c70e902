"""From what the rows of an old sheet say to per cent of the whole."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import ROUND_FLOOR, Decimal

from workbench.formula.edits import PERCENT_STEP
from workbench.formula.old_sheet import Amount, Doubt, Remark, SheetRow
from workbench.formula.old_sheet_rows import RawTable
from workbench.formula.old_sheet_units import (
    WeighedLine,
    weighed,
    with_one_rest,
    with_unit_assumed,
)
from workbench.formula.totals import WHOLE

_ZERO = Decimal(0)
_WHOLE_WITHIN = Decimal(1)
_HALF = Decimal("0.5")
_SLACK = Decimal("0.02")
_LEAST_STEP = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Percents:
    """Hold the lines in per cent, what there is to know of the whole, and its mass [g]."""

    rows: tuple[SheetRow, ...]
    remarks: tuple[Remark, ...]
    total: Decimal
    batch_g: Decimal | None
    is_of_mass: bool


def percents_of(table: RawTable, units: frozenset[str], chosen: dict[int, Amount]) -> Percents:
    """Return the lines of a table in per cent.

    Parameters
    ----------
    table
        What the rows say.
    units
        "percent" where a heading says so, "none" where an amount column names no unit.
    chosen
        By row the amount the maker chose for it.

    Notes
    -----
    Percents win over masses beside them; a line whose two differ by more than both are rounded
    to is doubtful. Masses become per cent of their sum, or of the whole that is said to be
    filled up to, rounded to 0.0001 so that they add up.
    """
    items = [weighed(line, chosen) for line in table.lines]
    remarks: list[Remark] = []
    items = with_unit_assumed(items, units, remarks)
    items = with_one_rest(items)
    is_of_mass = _is_of_mass(items)
    whole_g = _whole_g(items, table)
    if is_of_mass:
        rows = _of_masses(items, whole_g)
        remarks.append(Remark("sheet-of-masses"))
    else:
        rows = _of_percents(items, _usual_whole_g(items) or whole_g)
    total = sum((row.percent or _ZERO for row in rows), _ZERO)
    remarks += _total_remarks(table, rows, total, is_of_mass=is_of_mass)
    return Percents(tuple(rows), tuple(remarks), total, whole_g, is_of_mass)


def _is_of_mass(items: Sequence[WeighedLine]) -> bool:
    percents = sum(item.amount.is_read and item.amount.percent is not None for item in items)
    masses = sum(item.amount.is_read and item.amount.mass_g is not None for item in items)
    return masses > percents


def _whole_g(items: Sequence[WeighedLine], table: RawTable) -> Decimal | None:
    """Return what everything weighs [g]: as said by the rest line, by the masses, by a total."""
    filled = next((one.amount.whole_g for one in items if one.amount.whole_g is not None), None)
    if filled:
        return filled
    masses = [_mass(item) for item in items]
    if masses and all(mass is not None for mass in masses):
        return sum((mass or _ZERO for mass in masses), _ZERO) or None
    has_rest = any(item.amount.is_rest for item in items)
    if _is_of_mass(items) and not has_rest:
        return sum((mass or _ZERO for mass in masses), _ZERO) or None
    stated = [mass.mass_g for _, mass in table.totals if mass is not None and mass.mass_g]
    stated += [one.mass_g for one, _ in table.totals if one is not None and one.mass_g]
    if stated:
        return stated[-1]
    return table.made.mass_g if table.made is not None else None


def _usual_whole_g(items: Sequence[WeighedLine]) -> Decimal | None:
    """Return the whole that most lines with both a percent and a mass speak of [g].

    One slip in the masses shifts their sum, but not what the other lines speak of.
    """
    spoken = sorted(
        item.mass.mass_g * WHOLE / item.amount.percent
        for item in items
        if item.mass is not None and item.mass.mass_g and item.amount.percent
    )
    return spoken[len(spoken) // 2] if spoken else None


def _mass(item: WeighedLine) -> Decimal | None:
    amount = item.mass if item.mass is not None and item.mass.is_read else item.amount
    return amount.mass_g if amount.is_read else None


def _row(item: WeighedLine, percent: Decimal | None, doubt: Doubt | None) -> SheetRow:
    raw = item.raw
    if percent is not None and percent > WHOLE:
        percent, doubt = _ZERO, Doubt("sheet-above-whole")
    if doubt is not None:
        may_be = tuple(one for one in doubt.choices if (one.percent or _ZERO) <= WHOLE)
        doubt = replace(doubt, choices=may_be)
    return SheetRow(
        row=raw.row,
        name=raw.name,
        percent=percent,
        amount=raw.written,
        inci=raw.inci,
        cas=raw.cas,
        phase=raw.phase,
        note=raw.note,
        mass_g=_mass(item),
        doubt=doubt,
    )


def _of_masses(items: Sequence[WeighedLine], whole_g: Decimal | None) -> list[SheetRow]:
    masses = [
        item.amount.mass_g if item.amount.is_read and not item.amount.is_rest else None
        for item in items
    ]
    shares = _shares([mass or _ZERO for mass in masses], whole_g)
    rows = []
    for item, share in zip(items, shares, strict=True):
        amount = item.amount
        if amount.doubt:
            rows.append(_row(item, _ZERO, Doubt(amount.doubt, amount.options)))
        elif amount.is_rest:
            has_room = whole_g is not None and sum(m or _ZERO for m in masses) < whole_g
            doubt = None if has_room else Doubt("sheet-rest-of-mass")
            rows.append(_row(item, None if has_room else _ZERO, doubt))
        elif amount.mass_g is None:
            doubt = Doubt("sheet-percent-among-masses", (amount,))
            rows.append(_row(item, amount.percent, doubt))
        else:
            rows.append(_row(item, share, None if share else Doubt("sheet-zero")))
    return rows


def _shares(masses: Sequence[Decimal], whole_g: Decimal | None) -> list[Decimal]:
    """Return masses in per cent of the whole, by the largest remainder where they are all."""
    whole = whole_g or sum(masses, _ZERO)
    if not whole:
        return [_ZERO for _ in masses]
    exact = [mass * WHOLE / whole for mass in masses]
    shares = [value.quantize(PERCENT_STEP, ROUND_FLOOR) for value in exact]
    aim = sum(exact, _ZERO).quantize(PERCENT_STEP)
    left = int((aim - sum(shares, _ZERO)) / PERCENT_STEP)
    for place in sorted(range(len(masses)), key=lambda at: shares[at] - exact[at])[:left]:
        shares[place] += PERCENT_STEP
    return shares


def _of_percents(items: Sequence[WeighedLine], whole_g: Decimal | None) -> list[SheetRow]:
    others = sum((item.amount.percent or _ZERO for item in items), _ZERO)
    rows = []
    for item in items:
        amount = item.amount
        if amount.doubt:
            rows.append(_row(item, _ZERO, Doubt(amount.doubt, amount.options)))
        elif amount.is_rest:
            rows.append(_row(item, None, _disagreement(item, WHOLE - others, whole_g)))
        elif amount.percent is None:
            rows.append(_of_odd_mass(item, whole_g))
        else:
            doubt = _disagreement(item, amount.percent, whole_g)
            zero = None if amount.percent or item.raw.row < 0 else Doubt("sheet-zero", (amount,))
            rows.append(_row(item, amount.percent, doubt or zero))
    return rows


def _of_odd_mass(item: WeighedLine, whole_g: Decimal | None) -> SheetRow:
    """Return a line that gives a mass where the others give percents."""
    mass = item.amount.mass_g or _ZERO
    if not whole_g or mass > whole_g:
        return _row(item, _ZERO, Doubt("sheet-percent-among-masses"))
    percent = (mass * WHOLE / whole_g).quantize(PERCENT_STEP)
    return _row(item, percent, Doubt("sheet-percent-among-masses", (Amount(percent=percent),)))


def _disagreement(item: WeighedLine, percent: Decimal, whole_g: Decimal | None) -> Doubt | None:
    """Return a doubt where percent and mass of a line differ by more than their rounding."""
    mass = item.mass
    if mass is None or mass.mass_g is None or not mass.is_read or not whole_g:
        return None
    by_mass = mass.mass_g * WHOLE / whole_g
    step = max(item.amount.step, _LEAST_STEP) if not item.amount.is_rest else _HALF
    room = _HALF * step + _HALF * mass.step * WHOLE / whole_g + _SLACK
    if abs(by_mass - percent) <= room:
        return None
    other = Amount(percent=by_mass.quantize(PERCENT_STEP))
    mine = Amount(is_rest=True) if item.amount.is_rest else Amount(percent=percent)
    return Doubt("sheet-disagrees", (mine, other))


def _total_remarks(
    table: RawTable, rows: Sequence[SheetRow], total: Decimal, *, is_of_mass: bool
) -> list[Remark]:
    remarks: list[Remark] = []
    has_rest = any(row.percent is None for row in rows)
    for percent, mass in table.totals[-1:]:
        said = percent.percent if percent is not None and percent.is_read else None
        if said is not None and not is_of_mass:
            remarks.append(_compared(said, WHOLE if has_rest else total, "%"))
        one = mass if mass is not None else percent
        said_g = one.mass_g if one is not None and one.is_read else None
        if is_of_mass and said_g is None and said is not None:
            said_g = said
        masses = [row.mass_g for row in rows]
        if said_g is not None and all(mass is not None for mass in masses):
            remarks.append(_compared(said_g, sum((m or _ZERO for m in masses), _ZERO), "g"))
    if rows and not has_rest and not is_of_mass and total != WHOLE:
        is_far = abs(total - WHOLE) > _WHOLE_WITHIN
        remarks.append(Remark("sheet-not-whole", is_doubtful=is_far, values=(("total", total),)))
    return remarks


def _compared(said: Decimal, found: Decimal, unit: str) -> Remark:
    values: tuple[tuple[str, str | Decimal], ...] = (
        ("said", said),
        ("found", found),
        ("unit", unit),
    )
    room = max(abs(said) / 200, _SLACK)
    differs = abs(said - found) > room
    return Remark(
        "sheet-total-differs" if differs else "sheet-total-agrees",
        is_doubtful=differs,
        values=values,
    )
