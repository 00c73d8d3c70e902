"""Arithmetic on decimals by recursive descent: + - * / and brackets, nothing else."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Context, Decimal, DivisionByZero, InvalidOperation, Overflow, localcontext

from workbench.units import quantity as reasons

MAX_DEPTH = 20
LIMIT = Decimal("1e12")

# What stands between groups of three digits, besides the mark that is not the decimal one.
_GROUP_SPACES = "\u00a0\u2009\u202f'\u2019"
_OPERATORS = {"+": "+", "-": "-", "\u2212": "-", "*": "*", "\u00d7": "*", "/": "/", "\u00f7": "/"}
_CHUNK = re.compile(rf"[0-9.,{_GROUP_SPACES}]*[0-9][0-9.,{_GROUP_SPACES}]*")


@dataclass(frozen=True, slots=True)
class Refused:
    """Say why an expression has no value in one reading."""

    reason_id: str


class _StopReading(Exception):
    def __init__(self, reason_id: str) -> None:
        super().__init__(reason_id)
        self.reason_id = reason_id


def evaluated(text: str, decimal_mark: str) -> Decimal | Refused:
    """Return the value of an expression whose numbers use one decimal mark.

    >>> evaluated("(1+2)*1,5", ",")
    Decimal('4.5')
    """
    context = Context(prec=28, traps=[DivisionByZero, InvalidOperation, Overflow])
    with localcontext(context):
        try:
            return _Reader(_tokens(text, decimal_mark)).result()
        except _StopReading as stop:
            return Refused(stop.reason_id)
        except (DivisionByZero, InvalidOperation):
            return Refused(reasons.DIVISION_BY_ZERO)
        except Overflow:
            return Refused(reasons.TOO_LARGE)


def plain(value: Decimal) -> Decimal:
    """Return the value without a power of ten: arithmetic gives 7E+1 for 35/0.5.

    >>> plain(Decimal("7E+1"))
    Decimal('70')
    """
    exponent = value.as_tuple().exponent
    has_power = isinstance(exponent, int) and exponent > 0
    return Decimal(format(value, "f")) if has_power else value


def _tokens(text: str, decimal_mark: str) -> list[str | Decimal]:
    tokens: list[str | Decimal] = []
    place = 0
    while place < len(text):
        chunk = _CHUNK.match(text, place)
        if chunk is not None:
            tokens.append(_number(chunk.group(), decimal_mark))
            place = chunk.end()
            continue
        sign = text[place]
        place += 1
        if sign in _OPERATORS or sign in "()":
            tokens.append(_OPERATORS.get(sign, sign))
        elif not sign.isspace():
            raise _StopReading(reasons.NOT_A_NUMBER)
    return tokens


def _number(text: str, decimal_mark: str) -> Decimal:
    group = "[" + re.escape("," if decimal_mark == "." else ".") + _GROUP_SPACES + "]"
    mark = re.escape(decimal_mark)
    grouped = rf"[1-9][0-9]{{0,2}}({group})[0-9]{{3}}(?:\1[0-9]{{3}})*"
    if not re.fullmatch(rf"(?:{grouped}|[0-9]+)(?:{mark}[0-9]*)?|{mark}[0-9]+", text):
        raise _StopReading(reasons.MIXED_MARKS)
    whole, _, fraction = text.partition(decimal_mark)
    digits = re.sub(group, "", whole) or "0"
    return Decimal(f"{digits}.{fraction}" if fraction else digits)


class _Reader:
    """Read tokens by the grammar sum = product (+|- product)*, product = atom (*|/ atom)*."""

    def __init__(self, tokens: list[str | Decimal]) -> None:
        self._tokens = tokens
        self._place = 0
        self._depth = 0

    def result(self) -> Decimal:
        value = self._sum()
        if self._place < len(self._tokens):
            raise _StopReading(reasons.NOT_A_NUMBER)
        if value < 0:
            raise _StopReading(reasons.NEGATIVE)
        if value >= LIMIT:
            raise _StopReading(reasons.TOO_LARGE)
        return plain(value)

    def _sum(self) -> Decimal:
        value = self._product()
        while self._next() in ("+", "-"):
            value = value + self._product() if self._take() == "+" else value - self._product()
        return value

    def _product(self) -> Decimal:
        value = self._atom()
        while self._next() in ("*", "/"):
            value = value * self._atom() if self._take() == "*" else value / self._atom()
        return value

    def _atom(self) -> Decimal:
        token = self._take()
        if isinstance(token, Decimal):
            return token
        if token == "-":
            raise _StopReading(reasons.NEGATIVE)
        if token != "(":
            raise _StopReading(reasons.NOT_A_NUMBER)
        self._depth += 1
        if self._depth > MAX_DEPTH:
            raise _StopReading(reasons.TOO_DEEP)
        value = self._sum()
        self._depth -= 1
        if self._take() != ")":
            raise _StopReading(reasons.NOT_A_NUMBER)
        return value

    def _next(self) -> str | Decimal | None:
        return self._tokens[self._place] if self._place < len(self._tokens) else None

    def _take(self) -> str | Decimal | None:
        token = self._next()
        self._place += 1
        return token
