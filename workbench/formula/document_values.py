"""Single values of plain data: decimals read from text, and what is wrong with them."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation

Path = tuple[str | int, ...]
# A decimal such as 1e-999999999 is short to write and fills the memory when written out.
MOST_PLACES = 30


class DocumentFault(ValueError):
    """Say what is wrong in plain data: a code, where, and the values of its sentence."""

    def __init__(self, code: str, path: Path, **values: str | int | Decimal) -> None:
        super().__init__(code, path, values)
        self.code = code
        self.path = path
        self.values = values


def decimal_in(value: object, path: Path, low: Decimal, high: Decimal) -> Decimal:
    """Return a decimal from text or a number, within two bounds."""
    number = _number(value, path)
    if not low <= number <= high:
        raise DocumentFault("out-of-bounds", path, text=str(value)[:40], low=low, high=high)
    exponent = number.as_tuple().exponent
    if isinstance(exponent, int) and exponent < -MOST_PLACES:
        raise DocumentFault("too-fine", path, text=str(value)[:40], limit=MOST_PLACES)
    return Decimal(format(number, "f"))


def _number(value: object, path: Path) -> Decimal:
    if isinstance(value, bool) or not isinstance(value, str | int | Decimal):
        raise DocumentFault("not-a-number", path, text=str(value)[:40])
    text = str(value).strip()
    try:
        number = Decimal(text)
    except InvalidOperation:
        raise DocumentFault("not-a-number", path, text=text[:40]) from None
    # Decimal takes 4_0 for 40, which a maker means as something else.
    if not number.is_finite() or "_" in text:
        raise DocumentFault("not-a-number", path, text=text[:40])
    return number
