"""The page of what was checked, as values."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

APPLIED, NOT_APPLICABLE, COVERS_NOTHING = "applied", "not-applicable", "covers-nothing"
NONE_WRITTEN = "none-written"


@dataclass(frozen=True, slots=True)
class Looked:
    """Say how far one table or rule was used on a formula.

    Parameters
    ----------
    topic : str
        Message id of the table or rule, without its "checked-".
    state : str
        "applied", "not-applicable", "covers-nothing" where it has nothing for this product, or
        "none-written" where it is the maker's to fill.
    rows, used : int
        Rows it holds for what was asked, and those of them that spoke of this formula.
    market : str
        Market it was used for; empty where it is no matter of markets.
    """

    topic: str
    state: str
    rows: int = 0
    used: int = 0
    market: str = ""


@dataclass(frozen=True, slots=True)
class LimitLook:
    """Say what became of one limit row that names a substance of the formula.

    Parameters
    ----------
    index : int
        Row of the table of limits.
    kind : str
        Kind of rule: law, future, law-by-claim, advice, labelling, raw-material, information.
    outcome : str
        "held" where its scope meets the product; "of-product" where it speaks of no substance
        at all; else why not: "other-market", "outside-program", "other-scope", "not-yet".
    substances : tuple of str
        Keys of the substances it counts here.
    """

    index: int
    kind: str
    outcome: str
    substances: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Checked:
    """Hold what was checked, what was not, and what always remains to be done.

    Parameters
    ----------
    reference_set, dated : str, date
        The tables, and the day to which they take the state of the law.
    on : date
        The day whose rules were applied.
    markets : tuple of str
        Markets asked for.
    looked : tuple of Looked
        Every table and rule.
    kinds : tuple of (str, int, int, int)
        By kind of limit row: the kind, its rows in the set, those that name a substance of the
        formula, and those held against it.
    limits : tuple of LimitLook
        The rows that name a substance of the formula, in the order of the table.
    uncovered : tuple of str
        Substances no table knows.
    without_rule : tuple of str
        Substances no limit row of these markets names, which is no permission.
    unknown_lines : tuple of int
        Lines whose contents are not known, left out of every check.
    gaps, cautions : tuple of str
        Message ids: what no check looks at, and what remains to be done.
    """

    reference_set: str
    dated: date
    on: date
    markets: tuple[str, ...]
    looked: tuple[Looked, ...]
    kinds: tuple[tuple[str, int, int, int], ...]
    limits: tuple[LimitLook, ...] = ()
    uncovered: tuple[str, ...] = ()
    without_rule: tuple[str, ...] = ()
    unknown_lines: tuple[int, ...] = ()
    gaps: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()

    @property
    def is_beyond_tables(self) -> bool:
        """Tell whether the day asked for is later than what the tables know."""
        return self.on > self.dated

    def limits_with(self, outcome: str) -> tuple[LimitLook, ...]:
        """Return the limit rows of one outcome."""
        return tuple(look for look in self.limits if look.outcome == outcome)
