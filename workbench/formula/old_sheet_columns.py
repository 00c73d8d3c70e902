"""What the headings of an old sheet call its columns."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from enum import Enum
from functools import lru_cache
from itertools import pairwise

from workbench.formula.old_sheet_texts import is_total_text
from workbench.units.factors import GRAMS, MILLILITRES, PERCENT, unit_named

SHARE = "share"
_LONGEST_HEADING = 48


class Kind(Enum):
    """What a column of an old sheet holds."""

    NAME = "name"
    INCI = "inci"
    CAS = "cas"
    PERCENT = "percent"
    MASS = "mass"
    AMOUNT = "amount"
    UNIT = "unit"
    PHASE = "phase"
    NOTE = "note"
    OTHER = "other"


AMOUNTS = (Kind.PERCENT, Kind.MASS, Kind.AMOUNT)


@dataclass(frozen=True, slots=True)
class Column:
    """Hold what one column is; `unit` is that of its amounts, "" where none is said."""

    place: int
    kind: Kind
    unit: str = ""


# Words that make a column something else, whatever unit stands beside them: prices, limits,
# shares of a part, what was weighed in the end.
_OTHER = re.compile(
    r"cost|price|preis|prix|[\u00a3$\u20ac]|per\s?kg|/\s?kg|\bactive|\bmax|\bmin\b|limit"
    r"|recommend|usage|use (?:rate|level)|of (?:the )?(?:phase|oils?|water)|in (?:the )?phase"
    r"|actual|weighed|stock|on hand|supplier|vendor|lot\b|batch (?:no|number|code)|hlb|\bph\b"
    r"|density|\u00b0|temp|minutes|\btime\b|date|expiry"
)
_INCI = re.compile(r"\binci\b|label name|inci-")
_CAS = re.compile(r"\bcas\b")
_PERCENT = re.compile(r"%|\bper ?cent(?:age)?\b|\bpct\b|\bprozent\b|\bw/w\b|\bpourcent")
_SHARE = re.compile(r"\bfraction\b|\bshare\b|part of 1\b|\bratio\b")
_UNIT = re.compile(r"(?:unit|units|uom|measure|einheit|unit of measure)")
_PHASE = re.compile(r"(?:phases?|part|stage|phasen?|phase (?:id|name|no)|phase ?/.*)")
_NOTE = re.compile(
    r"\b(?:notes?|comments?|remarks?|remarques?|tips?|hinweise?|bemerkung(?:en)?|anmerkung(?:en)?)\b"
)
_NAME = re.compile(
    r"\b(?:ingredients?|names?|(?:raw )?materials?|components?|items?|zutat(?:en)?|rohstoffe?"
    r"|inhaltsstoffe?|ingr\u00e9dients?|description|substance|what|stuff)\b"
)
# "ingredeint", and what other languages make of the word.
_MISSPELT = ("ingredient", "ingredients")
_CLOSE = 0.85
_NAME_ALONE = re.compile(r"oils|butters|products?|chemicals?|waxes")
_AMOUNT = re.compile(
    r"\b(?:amounts?|amt|dosage|rate|anteil|portion|volume|parts|quantity|quantities|qty|weights?|mass|wt|menge|gewicht|quantit\u00e9|dose"
    r"|how much|batch|recipe|parts by weight)\b"
)
_UNIT_WORD = re.compile(
    r"(?<![a-z])(?:fl\.? ?oz|kg|kilos?|kilograms?|grammes?|gramm|grams?|gms?|g|mg|oz|ounces?"
    r"|lbs?|pounds?|millilit(?:re|er)s?|ml|lit(?:re|er)s?|l|drops?|tsp|tbsp|teaspoons?)(?![a-z])"
)
_BESIDE_UNITS = frozenset(
    {
        "",
        "in",
        "per",
        "batch",
        "perbatch",
        "total",
        "each",
        "for",
        "trial",
        "needed",
        "used",
        "to",
        "x",
    }
    | {"toweigh", "required", "perjar", "ofeach"}
)
_FIGURE = re.compile(r"[0-9]*[.,]?[0-9]+")
_UNDER_16 = re.compile(r"(?:[0-9]|1[0-5])?(?:[.,][0-9]+)?")
_SIZE = re.compile(
    r"(?:for |x )?[0-9][0-9.,]* ?(?:g|kg|oz|lb|lbs|ml|grams?)(?: (?:batch|trial|test|lot))?"
)


@lru_cache(maxsize=8192)
def column_kind(heading: str) -> tuple[Kind, str] | None:
    """Return what a heading says its column holds, with the unit; None where it says nothing.

    >>> column_kind("Weight (oz)")
    (<Kind.MASS: 'mass'>, 'oz')
    """
    text = " ".join(heading.casefold().strip(" :*#").split())
    if not text or len(text) > _LONGEST_HEADING:
        return None
    if _OTHER.search(text):
        return Kind.OTHER, ""
    simple = _simple(text)
    return simple if simple is not None else _amount(text)


def _simple(text: str) -> tuple[Kind, str] | None:
    for kind, pattern, is_whole in (
        (Kind.INCI, _INCI, False),
        (Kind.CAS, _CAS, False),
        (Kind.UNIT, _UNIT, True),
        (Kind.PHASE, _PHASE, True),
        (Kind.NOTE, _NOTE, False),
    ):
        if pattern.fullmatch(text) if is_whole else pattern.search(text):
            return kind, ""
    if _NAME_ALONE.fullmatch(text) or get_close_matches(text, _MISSPELT, 1, _CLOSE):
        return Kind.NAME, ""
    if _NAME.search(text) and not _PERCENT.search(text) and not _AMOUNT.search(text):
        return Kind.NAME, ""
    return None


def _amount(text: str) -> tuple[Kind, str] | None:
    if _PERCENT.search(text):
        return Kind.PERCENT, PERCENT
    unit = _UNIT_WORD.search(text)
    if unit and (_AMOUNT.search(text) or _SIZE.fullmatch(text) or _is_mostly(text, unit)):
        return Kind.MASS, unit_named(unit[0])
    if _SHARE.search(text):
        return Kind.PERCENT, SHARE
    return (Kind.AMOUNT, "") if _AMOUNT.search(text) else None


def _is_mostly(text: str, unit: re.Match[str]) -> bool:
    """Tell whether a heading is little more than its unit: "g", "in g", "(grams)", "g / batch"."""
    rest = re.sub(r"[^a-z]", "", _UNIT_WORD.sub("", text.replace(unit[0], "", 1)))
    return rest in _BESIDE_UNITS


def segments(row: Sequence[str]) -> tuple[tuple[Column, ...], ...]:
    """Return the tables whose headings stand in one row, each with its columns.

    Notes
    -----
    A row is one of headings when one of them names ingredients and one an amount. A second
    name with an amount of its own behind it begins a second table beside the first.
    """
    found: list[list[Column]] = [[]]
    for place, text in enumerate(row):
        if not text:
            continue
        said = column_kind(text) or (Kind.OTHER, "")
        column = Column(place, *said)
        if said[0] in (Kind.NAME, Kind.PHASE) and is_table(found[-1]):
            found.append([])
        found[-1].append(column)
    merged: list[list[Column]] = []
    for group in found:
        if merged and not is_table(group):
            kinds = {one.kind for one in merged[-1]} - {Kind.NOTE, *AMOUNTS}
            merged[-1] += [
                Column(one.place, Kind.OTHER) if one.kind in kinds else one for one in group
            ]
        else:
            merged.append(group)
    return tuple(tuple(group) for group in merged if is_table(group))


def is_table(columns: Sequence[Column]) -> bool:
    """Tell whether columns make a table: something named, and an amount of it."""
    kinds = {column.kind for column in columns}
    return bool(kinds & {Kind.NAME, Kind.INCI}) and bool(kinds.intersection(AMOUNTS))


def is_unit_row(row: Sequence[str]) -> bool:
    """Tell whether a row only says the units of the headings above it."""
    filled = [text.strip("()[] ").casefold() for text in row if text]
    units = {*GRAMS, *MILLILITRES, PERCENT}
    return bool(filled) and all(
        unit_named(text) in units or text in ("w/w", "% w/w") for text in filled
    )


def with_units(columns: Sequence[Column], row: Sequence[str]) -> tuple[Column, ...]:
    """Return columns with the units a row below their headings says."""
    changed = []
    for column in columns:
        text = row[column.place].strip("()[] ").casefold()
        if column.kind in AMOUNTS and text:
            unit = PERCENT if "w/w" in text else unit_named(text)
            kind = Kind.PERCENT if unit == PERCENT else Kind.MASS
            changed.append(Column(column.place, kind, unit))
        else:
            changed.append(column)
    return tuple(changed)


def parted_units(columns: Sequence[Column], body: Sequence[Sequence[str]]) -> int | None:
    """Return the column of ounces that belongs to one of pounds before it: "5 | 8" is 5 lb 8 oz.

    Where both columns say the same mass, pounds are no whole figures or ounces reach sixteen;
    then there is none.
    """
    masses = [one for one in columns if one.kind is Kind.MASS]
    for big, small in pairwise(masses):
        if (big.unit, small.unit, small.place) != ("lb", "oz", big.place + 1):
            continue
        both = [
            (row[big.place], row[small.place])
            for row in body
            if _FIGURE.fullmatch(row[big.place])
            and _FIGURE.fullmatch(row[small.place])
            and not any(map(is_total_text, row))
        ]
        if all(first.isdecimal() and _UNDER_16.fullmatch(last) for first, last in both):
            return small.place
    return None


def once(columns: Sequence[Column], parted: int | None = None) -> tuple[Column, ...]:
    """Let each kind but notes be one column's; the first percent and the first mass count.

    `parted` is a column of a smaller unit that counts with the mass before it.
    """
    kept: list[Column] = []
    for column in columns:
        is_free = column.kind in (Kind.NOTE, Kind.OTHER) or column.place == parted
        if not is_free and any(column.kind is one.kind for one in kept):
            kept.append(Column(column.place, Kind.OTHER, column.unit))
        else:
            kept.append(column)
    return tuple(kept)
