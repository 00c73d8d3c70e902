"""The facts of an ingredient in words, each with its unit."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from decimal import Decimal

from workbench.formula.ingredient import Ingredient
from workbench.formula.ingredient_fields import SPANS
from workbench.words.catalogue import Words

_JOINTS = {"tags": "; ", "incompatibilities": "; "}
_CHOICES = frozenset({"origin", "solubility", "charge", "use_basis"})
_USUAL = "usual"
_UNITS = {
    "dermal_max": "shelf-value-percent",
    "active_percent": "shelf-value-percent",
    "water_percent": "shelf-value-percent",
    "use_min": "shelf-value-percent",
    "use_max": "shelf-value-percent",
    "density": "shelf-value-density",
    "max_process_temp_c": "shelf-value-temperature",
    "melts_at_c": "shelf-value-temperature",
}
_SPAN_UNITS = {"use": "percent", "ph": "number"}


def function_name(function: str, words: Words) -> str:
    """Return what a function is called."""
    return _named("function", function, words)


def fact_text(item: Ingredient, field: str, words: Words) -> str:
    """Return a fact in words, empty where it is not known."""
    if field in SPANS:
        low, high = (getattr(item, name) for name in SPANS[field])
        return _span_text(low, high, _SPAN_UNITS[field], words)
    if field == "use_basis" and not item.use_basis:
        return words.say("shelf-value-use_basis", value=_USUAL)
    return value_text(field, getattr(item, field), words)


def value_text(field: str, value: object, words: Words) -> str:
    """Return one value of a field in words, empty where it is not known."""
    if value is None or value in ("", ()):
        return ""
    if isinstance(value, bool):
        return words.say("shelf-value-flag", flag="yes" if value else "no")
    if isinstance(value, int):
        return words.say("shelf-value-months", months=value)
    if isinstance(value, Decimal):
        unit = _UNITS.get(field)
        return words.say(unit, value=value) if unit else words.number(value)
    if isinstance(value, tuple):
        return _JOINTS.get(field, ", ").join(_item_texts(field, value, words))
    return _plain_text(field, str(value), words)


def fraction_text(fraction: Decimal, words: Words) -> str:
    """Return a mass fraction as a percent."""
    return words.say("shelf-value-percent", value=(fraction * 100).normalize())


def _plain_text(field: str, value: str, words: Words) -> str:
    if field in _CHOICES:
        return words.say(f"shelf-value-{field}", value=value)
    return value


def _item_texts(field: str, values: Iterable[object], words: Words) -> Iterable[str]:
    namers: dict[str, Callable[[str], str]] = {
        "functions": lambda value: function_name(value, words),
        "tags": lambda value: _named("shelf-tag", value, words),
        "incompatibilities": lambda value: _named("shelf-apart", value, words),
        "spectrum": lambda value: words.say("shelf-value-spectrum", value=value),
    }
    namer = namers.get(field, str)
    return dict.fromkeys(namer(str(value)) for value in values)


def _named(prefix: str, code: str, words: Words) -> str:
    # A maker's document may bring a word of its own, which then stands as it is.
    message = f"{prefix}-{code}"
    is_id = code.replace("-", "").replace("_", "").isalnum() and code.isascii()
    return words.say(message) if is_id and words.has(message) else code


def _span_text(low: Decimal | None, high: Decimal | None, unit: str, words: Words) -> str:
    if low is not None and high is not None:
        if low == high:
            return words.say(f"shelf-value-{unit}", value=low)
        return words.say(f"shelf-value-{unit}-span", low=low, high=high)
    if low is not None:
        return words.say(f"shelf-value-{unit}-from", low=low)
    return words.say(f"shelf-value-{unit}-to", high=high) if high is not None else ""


def long_function_name(function: str, words: Words) -> str:
    """Return what a function is called where those of one name have to be told apart."""
    name = function_name(function, words)
    return words.say("shelf-function-long", function=function, name=name)
