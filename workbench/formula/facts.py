"""The facts a version froze, as plain data and back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from decimal import Decimal

from workbench.formula.ingredient import Constituent, Ingredient, Part

Plain = str | int | bool | None | list["Plain"] | dict[str, "Plain"]

_DECIMALS = frozenset(
    {
        "use_min",
        "use_max",
        "ph_min",
        "ph_max",
        "max_process_temp_c",
        "density",
        "water_percent",
        "active_percent",
        "hlb",
        "required_hlb",
        "melts_at_c",
        "log_p",
        "dermal_max",
    }
)
# Left out where false, so that facts written before the field was there read the same.
_WHERE_TRUE = frozenset({"is_certified"})


def ingredient_facts(item: Ingredient) -> dict[str, Plain]:
    """Return an ingredient as plain data; decimals become text, unknown stays out."""
    facts: dict[str, Plain] = {}
    for field in fields(Ingredient):
        value = getattr(item, field.name)
        if value == field.default and (value in (None, "", ()) or field.name in _WHERE_TRUE):
            continue
        if field.name == "composition":
            facts[field.name] = [_part_facts(part) for part in item.composition]
        elif field.name == "constituents":
            facts[field.name] = [_constituent_facts(inside) for inside in item.constituents]
        elif isinstance(value, Decimal):
            facts[field.name] = str(value)
        else:
            facts[field.name] = list(value) if isinstance(value, tuple) else value
    return facts


def ingredient_from_facts(facts: Mapping[str, Plain]) -> Ingredient:
    """Return the ingredient that `ingredient_facts` described."""
    values: dict[str, object] = {}
    for name, value in facts.items():
        if name == "composition" and isinstance(value, list):
            values[name] = tuple(_part(part) for part in value if isinstance(part, dict))
        elif name == "constituents" and isinstance(value, list):
            values[name] = tuple(_constituent(each) for each in value if isinstance(each, dict))
        elif name in _DECIMALS:
            values[name] = Decimal(str(value))
        else:
            values[name] = tuple(value) if isinstance(value, list) else value
    return Ingredient(**values)  # type: ignore[arg-type]


def _part_facts(part: Part) -> dict[str, Plain]:
    facts: dict[str, Plain] = {"substance": part.substance, "fraction": str(part.fraction)}
    if part.water:
        facts["water"] = str(part.water)
    if part.purpose:
        facts["purpose"] = part.purpose
    return facts


def _part(facts: Mapping[str, Plain]) -> Part:
    return Part(
        substance=str(facts["substance"]),
        fraction=Decimal(str(facts["fraction"])),
        water=Decimal(str(facts.get("water", "0"))),
        purpose=str(facts.get("purpose", "")),
    )


def _constituent_facts(inside: Constituent) -> dict[str, Plain]:
    facts: dict[str, Plain] = {"substance": inside.substance, "fraction": str(inside.fraction)}
    if inside.source:
        facts["source"] = inside.source
    facts["confidence"] = inside.confidence
    return facts


def _constituent(facts: Mapping[str, Plain]) -> Constituent:
    return Constituent(
        substance=str(facts["substance"]),
        fraction=Decimal(str(facts["fraction"])),
        source=str(facts.get("source", "")),
        confidence=str(facts.get("confidence", "memory")),
    )
