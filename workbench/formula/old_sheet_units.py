"""What bare numbers of an old sheet count, and which of its lines takes the rest."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.formula.old_sheet import Amount, Remark
from workbench.formula.old_sheet_row_kinds import RawLine
from workbench.formula.totals import WHOLE

_ZERO = Decimal(0)
_SHARE_WITHIN = (Decimal("0.97"), Decimal("1.03"))
_PERCENT_WITHIN = (Decimal(98), Decimal(102))


@dataclass(slots=True)
class WeighedLine:
    """Hold a line on its way: one amount that counts, and the mass beside it."""

    raw: RawLine
    amount: Amount
    mass: Amount | None


def weighed(line: RawLine, chosen: Mapping[int, Amount]) -> WeighedLine:
    """Return a line with the amount that counts: the chosen one, the percent, or the mass."""
    if line.row in chosen:
        return WeighedLine(line, chosen[line.row], None)
    first, second = line.percent, line.mass
    if first is not None and (first.is_read or second is None or not second.is_read):
        return WeighedLine(line, first, second)
    if second is not None:
        return WeighedLine(line, second, second)
    return WeighedLine(line, first or Amount(doubt="sheet-no-amount"), None)


def with_unit_assumed(
    items: Sequence[WeighedLine], units: frozenset[str], remarks: list[Remark]
) -> list[WeighedLine]:
    """Decide what bare numbers are: per cent, parts of one, or masses."""
    bare = [
        item
        for item in items
        if item.amount.is_read and item.amount.percent is not None and "%" not in item.raw.written
    ]
    total = sum((item.amount.percent or _ZERO for item in bare), _ZERO)
    has_rest = any(item.amount.is_rest for item in items)
    is_whole = _PERCENT_WITHIN[0] <= total <= _PERCENT_WITHIN[1]
    if len(bare) > 1 and not has_rest and _SHARE_WITHIN[0] <= total <= _SHARE_WITHIN[1]:
        remarks.append(Remark("sheet-percent-assumed", values=(("kind", "share"),)))
        return [_scaled(item) if item in bare else item for item in items]
    if "none" not in units or not bare or len(bare) < len(items) / 2:
        return list(items)
    masses = [item for item in items if item.amount.mass_g is not None]
    if not masses and (is_whole or (has_rest and total < WHOLE)):
        remarks.append(Remark("sheet-percent-assumed", values=(("kind", "percent"),)))
        return list(items)
    remarks.append(Remark("sheet-unit-assumed", is_doubtful=True))
    return [_as_mass(item) if item in bare else item for item in items]


def _scaled(item: WeighedLine) -> WeighedLine:
    value = (item.amount.percent or _ZERO) * WHOLE
    return WeighedLine(
        item.raw, replace(item.amount, percent=value, step=item.amount.step * WHOLE), item.mass
    )


def _as_mass(item: WeighedLine) -> WeighedLine:
    return WeighedLine(
        item.raw, replace(item.amount, percent=None, mass_g=item.amount.percent), item.mass
    )


def with_one_rest(items: Sequence[WeighedLine]) -> list[WeighedLine]:
    """Let one line take the rest: one that says so plainly before one that only says q.s."""
    asking = [item for item in items if item.amount.is_rest]
    plain = [item for item in asking if not item.amount.is_soft]
    takes = (plain or asking)[:1]
    for item in asking:
        if item not in takes:
            item.amount = Amount(doubt="sheet-second-rest", options=(Amount(percent=_ZERO),))
    return list(items)
