"""Molar masses from molecular formulas, with atomic weights from outside."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping
from decimal import Decimal
from types import MappingProxyType

# A charge is written after the formula: `NH4+`, `SO4-2` or `SO4^2-`. The digits of `SO42-`
# could belong to the oxygen, so that spelling means forty-two of it.
_CHARGE = re.compile(r"(\^\d*[+-]|[+-]\d*)$")
_TOKEN = re.compile(r"(?P<symbol>[A-Z][a-z]?)(?P<count>\d*)|(?P<open>[(\[])|[)\]](?P<times>\d*)")
_MULTIPLE = re.compile(r"\d+(\.\d+)?")
_DOTS = ("·", "•", "∙")


def element_counts(formula: str) -> Mapping[str, Decimal]:
    """Count the atoms of a formula.

    Parameters
    ----------
    formula : str
        Element symbols with counts, parentheses or brackets, hydrate parts after a dot with
        their multiple (`MgSO4·7H2O`, `CaSO4·0.5H2O`, `MgSO4.7H2O`) and a charge at the end.

    Returns
    -------
    mapping of str to Decimal
        Atoms by element symbol [-].

    Raises
    ------
    ValueError
        The text is no formula.

    Examples
    --------
    >>> sorted(element_counts("Al2(OH)5Cl").items())
    [('Al', Decimal('2')), ('Cl', Decimal('1')), ('H', Decimal('5')), ('O', Decimal('5'))]
    """
    total: dict[str, Decimal] = {}
    for part in _parts(_CHARGE.sub("", formula.strip())):
        multiple = _MULTIPLE.match(part)
        times = Decimal(multiple.group()) if multiple else Decimal(1)
        counts = _atoms(part[multiple.end() :] if multiple else part)
        for symbol, count in counts.items():
            total[symbol] = total.get(symbol, Decimal(0)) + times * count
    return MappingProxyType(total)


def molar_mass(formula: str, weights: Mapping[str, Decimal]) -> Decimal:
    """Return the mass of one mole of a formula.

    Parameters
    ----------
    formula : str
        As `element_counts` reads it.
    weights : mapping of str to Decimal
        Atomic weights by element symbol [g/mol].

    Returns
    -------
    Decimal
        Molar mass [g/mol]; a charge changes it by less than the weights are known to.

    Raises
    ------
    ValueError
        The text is no formula, or an element has no weight.

    Examples
    --------
    >>> molar_mass("H2O", {"H": Decimal("1.0080"), "O": Decimal("15.999")})
    Decimal('18.0150')
    """
    counts = element_counts(formula)
    unknown = sorted(set(counts) - set(weights))
    if unknown:
        raise ValueError(f"{formula}: no atomic weight for {', '.join(unknown)}")
    return sum((count * weights[symbol] for symbol, count in counts.items()), Decimal(0))


def _parts(body: str) -> list[str]:
    for dot in _DOTS:
        body = body.replace(dot, _DOTS[0])
    # A full stop is a hydrate dot only where no real one is: `CaSO4·0.5H2O` needs its stop.
    return body.split(_DOTS[0] if _DOTS[0] in body else ".")


def _atoms(text: str) -> Counter[str]:
    levels: list[Counter[str]] = [Counter()]
    place = 0
    while place < len(text):
        token = _TOKEN.match(text, place)
        if token is None:
            raise ValueError(f"{text}: not a formula from {text[place:]!r} on")
        if token["symbol"]:
            levels[-1][token["symbol"]] += int(token["count"] or 1)
        elif token["open"]:
            levels.append(Counter())
        else:
            _close(levels, int(token["times"] or 1), text)
        place = token.end()
    if len(levels) > 1 or not levels[0]:
        raise ValueError(f"{text or 'an empty part'}: not a whole formula")
    return levels[0]


def _close(levels: list[Counter[str]], times: int, text: str) -> None:
    if len(levels) == 1:
        raise ValueError(f"{text}: a parenthesis closes that never opened")
    inner = levels.pop()
    for symbol, count in inner.items():
        levels[-1][symbol] += count * times
