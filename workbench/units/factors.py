"""Exact factors of the units makers write, and the spellings each unit owns."""

from __future__ import annotations

from decimal import Decimal
from types import MappingProxyType

PERCENT = "%"
US_FLUID_OUNCE = "US fl oz"
IMPERIAL_FLUID_OUNCE = "imp fl oz"
BARE_FLUID_OUNCE = "fl oz"

#: Grams in one unit. The pound is 0.45359237 kg by definition, the ounce a sixteenth of it.
GRAMS = MappingProxyType(
    {
        "mg": Decimal("0.001"),
        "g": Decimal(1),
        "kg": Decimal(1000),
        "oz": Decimal("28.349523125"),
        "lb": Decimal("453.59237"),
    }
)

#: Millilitres in one unit. The US gallon is 231 cubic inches, the imperial one 4.54609 l.
MILLILITRES = MappingProxyType(
    {
        "ml": Decimal(1),
        "l": Decimal(1000),
        US_FLUID_OUNCE: Decimal("29.5735295625"),
        IMPERIAL_FLUID_OUNCE: Decimal("28.4130625"),
    }
)

#: Measures whose size depends on the country, the spoon or the trade; "gr" is gram and grain.
VARYING = frozenset(
    {"tsp", "teaspoon", "teaspoons", "tbsp", "tablespoon", "tablespoons", "dash", "pinch"}
    | {"cup", "cups", "gill", "gills", "pt", "pint", "pints", "qt", "quart", "quarts"}
    | {"gal", "gallon", "gallons", "dr", "dram", "drams", "minim", "minims", "gr", "ton", "tons"}
)
DROPS = frozenset({"drop", "drops", "gtt"})

_SPELLINGS = {
    PERCENT: "%",
    "mg": "mg|milligram|milligrams|milligramme|milligrammes",
    "g": "g|gm|gms|gram|grams|gramme|grammes",
    "kg": "kg|kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes",
    "oz": "oz|ozs|ounce|ounces",
    "lb": "lb|lbs|pound|pounds",
    "ml": "ml|mls|cc|millilitre|millilitres|milliliter|milliliters",
    "l": "l|litre|litres|liter|liters",
    BARE_FLUID_OUNCE: "fl oz|floz|fl ozs|fluid ounce|fluid ounces",
    US_FLUID_OUNCE: "us fl oz|fl oz us|us floz|us fluid ounce|us fluid ounces",
    IMPERIAL_FLUID_OUNCE: (
        "imp fl oz|imperial fl oz|uk fl oz|fl oz imp|fl oz imperial|fl oz uk"
        "|imperial fluid ounce|imperial fluid ounces|uk fluid ounce|uk fluid ounces"
    ),
}
_UNIT_OF = {
    spelling: unit for unit, spellings in _SPELLINGS.items() for spelling in spellings.split("|")
}


def folded(text: str) -> str:
    """Return a unit's text without points, doubled blanks and capitals."""
    return " ".join(text.replace(".", " ").split()).lower()


def unit_named(text: str) -> str:
    """Return the unit a spelling stands for, or the text itself where it is not a common one.

    >>> unit_named("Fl. oz. US")
    'US fl oz'
    """
    return _UNIT_OF.get(folded(text), " ".join(text.split()))
