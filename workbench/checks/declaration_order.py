"""The order of an ingredient list: descending, the free part, colourants last."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from functools import lru_cache

from workbench.checks.label_rules import MarketLabel
from workbench.checks.label_values import Declared
from workbench.formula.compare import exceeds, falls_below, significant

# The same few percents are compared on every change of the sheet, once for each market.
_exceeds = lru_cache(maxsize=4096)(exceeds)
_falls_below = lru_cache(maxsize=4096)(falls_below)
_rounded = lru_cache(maxsize=4096)(significant)


def is_free(percent: Decimal, label: MarketLabel) -> bool:
    """Tell whether a content lets a name stand in any order.

    Notes
    -----
    Below 1 % in the EU and the UK (Reg. (EC) 1223/2009 Art. 19(1)(g)), at not more than 1 % in
    the US (21 CFR 701.3(f)); compared as limits are, to four significant figures.
    """
    if label.is_free_at_limit:
        return not _exceeds(percent, label.free_percent)
    return _falls_below(percent, label.free_percent)


def ordered(entries: Iterable[Declared]) -> tuple[Declared, ...]:
    """Return names in the order of a label.

    Notes
    -----
    The free part keeps the descending order, which is one of the orders allowed; allergens that
    are part of others close it. Names of equal content keep the order of the sheet.
    """
    return tuple(sorted(entries, key=_place))


def _place(entry: Declared) -> tuple[bool, bool, bool, Decimal]:
    is_late = entry.is_under_one and not entry.substances
    return entry.is_colourant, entry.is_under_one, is_late, -_rounded(entry.percent)
