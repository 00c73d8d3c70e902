"""What the amount of a row in an old sheet says: a percent, a mass, the rest, or a doubt."""

from __future__ import annotations

import re
from decimal import Decimal
from functools import lru_cache

from workbench.formula.old_sheet import Amount
from workbench.formula.pasted_guess import COMMA, POINT, is_rest, quantity_of
from workbench.units.factors import (
    BARE_FLUID_OUNCE,
    DROPS,
    GRAMS,
    MILLILITRES,
    PERCENT,
    VARYING,
    folded,
    unit_named,
)

_NUMBER = r"[0-9](?:[0-9.,'\u2019\u00a0\u202f ]*[0-9])?|[.,][0-9]+"
_PLAIN = re.compile(rf"(?:\+\s*)?(?P<number>{_NUMBER})[.,]?\s*(?P<unit>%?[^0-9+*/()=]*)")
_RANGE = re.compile(
    rf"(?P<low>{_NUMBER})\s*(?P<first>[^\d\s]*)\s*(?:-|\u2013|\u2014|to|bis|\.\.)\s*"
    rf"(?P<high>{_NUMBER})\s*(?P<unit>[^0-9]*)",
    re.IGNORECASE,
)
_FRACTION = re.compile(
    r"(?:(?P<whole>[0-9]{1,4})\s*)?(?:(?P<top>[0-9]{1,4})\s*[/\u2044]\s*(?P<under>[0-9]{1,4})"
    r"|(?P<sign>[\u00bc\u00bd\u00be\u2153\u2154\u215b]))\s*(?P<unit>[^0-9]*)"
)
_SIGNS = {"¼": (1, 4), "½": (1, 2), "¾": (3, 4), "⅓": (1, 3), "⅔": (2, 3), "⅛": (1, 8)}
_ABOUT = re.compile(
    r"(?P<sign>~|\u2248|<|>|\u2264|\u2265|\u00b1|about|approx\.?|ca\.?|circa|max\.?|min\.?"
    r"|up to|less than)\s*(?P<amount>.+)"
    r"|(?P<before>.+?)\s*(?:\?+|\*+|approx\.?|max\.?|or so|ish|\+/-)",
    re.IGNORECASE,
)
_ASIDE = re.compile(r"\([^()]*\)|\[[^\[\]]*\]")
_COMPOUND = re.compile(
    rf"(?P<big>{_NUMBER})\s*(?P<unit>lbs?|pounds?|kg|kilos?)\.?\s*(?:,|and)?\s*"
    rf"(?P<small>{_NUMBER})\s*(?P<part>oz|ounces?|g|grams?)\.?",
    re.IGNORECASE,
)
_TRACE = frozenset(
    {
        "trace",
        "traces",
        "tr",
        "tr.",
        "pinch",
        "a pinch",
        "dash",
        "a dash",
        "as needed",
        "as desired",
    }
    | {
        "to taste",
        "optional",
        "a little",
        "a few",
        "tbd",
        "n/a",
        "na",
        "-",
        "\u2013",
        "\u2014",
        "?",
    }
    | {"as required", "touch", "smidge", "bit", "some"}
)
_VAGUE = re.compile(
    r"(?:an? )?(?:few|little|bit|pinch|dash|drop|splash|handful|squeeze|touch|couple)(?: [a-z ]*)?"
)
_REST = re.compile(
    r"(?:(?:q\.?\s*s\.?(?:\s*p\.?)?|ad|add|up|make up|top up|makes?|fill)\s*)?"
    rf"(?:up\s*)?(?:to|ad|for)\s*(?P<whole>{_NUMBER})\s*(?P<unit>[%a-z]*)\.?|q\.?\s*s\.?(?:\s*p\.?)?\s*(?P<bare>100)\s*%?",
    re.IGNORECASE,
)
_REST_WORDS = frozenset({"balance", "bal", "bal.", "remainder", "the rest", "remaining", "reste"})
_SOFT_REST = frozenset({"qs", "q.s.", "q.s", "q. s.", "qsp", "q.s.p.", "q.s.p"})
_TO_PH = re.compile(
    r"(?:q\.?\s*s\.?\s*)?(?:to|for|adjust(?:ed)?\s*(?:to)?)\s*(?:adjust\s*)?ph\b.*|ph\b.*",
    re.IGNORECASE,
)
# Measures of volume besides the common ones; a mass of them needs a density.
_VOLUMES = frozenset({"ml", "l", "cl", "dl", "\u00b5l", "ul", "fl", "cc"})
_LONGEST = 60
_NEGATIVE = re.compile(r"[-\u2212]\s*[0-9.,]+.*|\([0-9.,]+\)")
_HUNDRED = Decimal(100)


def amount_of(text: str, unit: str, mark: str | None) -> Amount:
    """Return what an amount cell says.

    Parameters
    ----------
    text
        The cell.
    unit
        The unit of the column or row, "" where none is said, "share" for parts of one.
    mark
        The decimal mark of the sheet; None where both readings are possible.
    """
    bare = text.strip()
    lower = bare.casefold()
    if not bare:
        return Amount(doubt="sheet-no-amount")
    if len(bare) > _LONGEST:
        return Amount(doubt="sheet-not-a-number")
    special = _special(lower, unit, mark)
    if special is not None:
        return special
    compound = _COMPOUND.fullmatch(bare)
    if compound:
        return _compound(compound, mark or POINT)
    plain = None if _ABOUT.fullmatch(bare) else _PLAIN.fullmatch(bare)
    if plain:
        return _plain(plain["number"], plain["unit"].strip(), unit, mark)
    return _doubtful(bare, unit, mark)


@lru_cache(maxsize=8192)
def is_amount_like(text: str) -> bool:
    """Tell whether a cell could be an amount: a figure with a unit, the rest, a range, a trace."""
    for mark in (POINT, COMMA):
        read = amount_of(text, "", mark)
        if read.doubt not in ("sheet-no-amount", "sheet-not-a-number", "sheet-unknown-unit"):
            return True
    return False


def together(big: Amount, small: Amount) -> Amount:
    """Return the mass of two columns that belong together: pounds, and the ounces beside them."""
    if big.mass_g is None or small.mass_g is None or big.doubt or small.doubt:
        return Amount(doubt=big.doubt or small.doubt or "sheet-not-a-number")
    return Amount(mass_g=big.mass_g + small.mass_g, step=small.step)


def _special(lower: str, unit: str, mark: str | None) -> Amount | None:
    if lower in _SOFT_REST:
        return Amount(is_rest=True, is_soft=True)
    if is_rest(lower) or lower in _REST_WORDS:
        return Amount(is_rest=True)
    if _TO_PH.fullmatch(lower):
        return Amount(doubt="sheet-to-ph", options=(Amount(percent=Decimal(0)),))
    filled = _REST.fullmatch(lower)
    if filled:
        return _filled_up(filled, unit, mark or POINT)
    if lower in _TRACE or _VAGUE.fullmatch(lower):
        return Amount(doubt="sheet-trace", options=(Amount(percent=Decimal(0)),))
    return Amount(doubt="sheet-negative") if _NEGATIVE.fullmatch(lower) else None


def _filled_up(found: re.Match[str], unit: str, mark: str) -> Amount:
    """Return the rest of "to 500 g": what it fills up to is the batch where that is a mass."""
    read = quantity_of(found["whole"] or found["bare"], mark)
    if read is None:
        return Amount(doubt="sheet-not-a-number")
    said = unit_named(found["unit"] or "") or unit
    if said in GRAMS:
        return Amount(is_rest=True, whole_g=read.value * GRAMS[said])
    if said in ("", PERCENT, "share") and read.value == _HUNDRED:
        return Amount(is_rest=True)
    is_bare = said in ("", PERCENT, "share")
    return Amount(doubt="sheet-not-a-number" if is_bare else _unit_doubt(said))


def _compound(found: re.Match[str], mark: str) -> Amount:
    total = Decimal(0)
    for number, unit in ((found["big"], found["unit"]), (found["small"], found["part"])):
        read = quantity_of(number, mark)
        if read is None:
            return Amount(doubt="sheet-not-a-number")
        total += read.value * GRAMS[unit_named(unit)]
    return Amount(mass_g=total)


def _plain(number: str, said: str, unit: str, mark: str | None) -> Amount:
    """Read a number with the unit behind it, or of its column; with no mark it may be two."""
    if mark is None:
        readings = {
            read.value: read
            for one in (POINT, COMMA)
            if (read := quantity_of(number, one)) is not None
        }
        if len(readings) > 1:
            options = tuple(_sized(read.value, said, unit, number) for read in readings.values())
            return Amount(doubt="sheet-two-readings", options=options)
        values = list(readings.values())
        read = values[0] if values else None
    else:
        read = quantity_of(number, mark)
        if read is None:  # the other mark is the only one that makes a number of it
            read = quantity_of(number, COMMA if mark == POINT else POINT)
            if read is not None:
                options = (_sized(read.value, said, unit, number),)
                return Amount(doubt="sheet-two-readings", options=options)
    if read is None:
        return Amount(doubt="sheet-not-a-number")
    return _sized(read.value, said, unit, number)


def _sized(value: Decimal, said: str, unit: str, number: str) -> Amount:
    named = unit_named(said.strip(" .,;:")) or unit
    if "%" in said:
        named = PERCENT
    step = _step(number)
    if named == "share":
        return _percent(value * _HUNDRED, step * _HUNDRED)
    if named in ("", PERCENT):
        return _percent(value, step)
    if named not in GRAMS:
        return Amount(doubt=_unit_doubt(named))
    return Amount(mass_g=value * GRAMS[named], step=step * GRAMS[named])


def _percent(value: Decimal, step: Decimal) -> Amount:
    return Amount(percent=value, step=step)


def _step(number: str) -> Decimal:
    """Return what one in the last place of a written number is worth."""
    tail = re.search(r"[.,]([0-9]*)$", number)
    return Decimal(1).scaleb(-len(tail[1])) if tail else Decimal(1)


def _unit_doubt(unit: str) -> str:
    first = folded(unit).split(" ")[0]
    if first in DROPS:
        return "sheet-drops"
    if first in VARYING:
        return "sheet-spoon"
    is_volume = unit in MILLILITRES or unit == BARE_FLUID_OUNCE or first in _VOLUMES
    return "sheet-volume" if is_volume else "sheet-unknown-unit"


def _doubtful(text: str, unit: str, mark: str | None) -> Amount:
    span = _RANGE.fullmatch(text)
    if span:
        said = (span["unit"] or span["first"]).strip()
        low, high = (_plain(span[end], said, unit, mark or POINT) for end in ("low", "high"))
        options = (low, *_middle(low, high), high)
        return Amount(doubt=low.doubt or "sheet-range", options=_read(options))
    part = _FRACTION.fullmatch(text)
    if part:
        return _fraction(part, unit)
    about = _ABOUT.fullmatch(text)
    aside = _ASIDE.sub(" ", text).strip()
    if about or aside != text:
        inner = (about["amount"] or about["before"]).strip() if about else aside
        plain = _PLAIN.fullmatch(inner)
        if plain:
            read = _plain(plain["number"], plain["unit"].strip(), unit, mark or POINT)
            return Amount(doubt=read.doubt or "sheet-about", options=_read((read,)))
    return Amount(doubt="sheet-not-a-number")


def _fraction(found: re.Match[str], unit: str) -> Amount:
    top, under = _SIGNS.get(found["sign"] or "", (0, 0))
    if found["top"]:
        top, under = int(found["top"]), int(found["under"])
    if not under:
        return Amount(doubt="sheet-not-a-number")
    value = Decimal(int(found["whole"] or 0)) + Decimal(top) / Decimal(under)
    read = _sized(value.quantize(Decimal("0.0001")), found["unit"].strip(), unit, "1")
    return Amount(doubt=read.doubt or "sheet-fraction", options=_read((read,)))


def _middle(low: Amount, high: Amount) -> tuple[Amount, ...]:
    if low.percent is not None and high.percent is not None:
        return (Amount(percent=(low.percent + high.percent) / 2),)
    if low.mass_g is not None and high.mass_g is not None:
        return (Amount(mass_g=(low.mass_g + high.mass_g) / 2),)
    return ()


def _read(amounts: tuple[Amount, ...]) -> tuple[Amount, ...]:
    return tuple(one for one in amounts if one.is_read)
