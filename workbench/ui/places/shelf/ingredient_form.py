"""The form of an own ingredient: an ingredient into its fields, and out of what is typed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, replace
from decimal import Decimal
from functools import partial

from workbench.checks.use_levels import USE_BASES
from workbench.formula.ingredient import Constituent, Ingredient, Part
from workbench.formula.substance import Substance
from workbench.ui.places.desk.typed import NotTaken, read_count, read_number
from workbench.ui.places.shelf.form_fields import (
    MIDDLE,
    NARROW,
    WIDE,
    ChoiceField,
    FormField,
    LineField,
    Options,
    TextField,
    TicksField,
)
from workbench.ui.places.shelf.parts_editor import TypedPart
from workbench.words.catalogue import Words
from workbench.words.ingredients import long_function_name, value_text

NOT_KNOWN = ""
YES, NO = "yes", "no"
_MINUS_SIGNS = "-\u2212"
NUMBERS = (
    "use_min",
    "use_max",
    "ph_min",
    "ph_max",
    "dermal_max",
    "active_percent",
    "water_percent",
    "density",
    "hlb",
    "required_hlb",
    "log_p",
    "max_process_temp_c",
    "melts_at_c",
)
SECTIONS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "identity",
        ("name", "active_percent", "key", "inci", "cas", "ec_numbers", "purpose", "functions"),
    ),
    (
        "use",
        (
            "use_min",
            "use_max",
            "use_basis",
            "ph_min",
            "ph_max",
            "dermal_max",
            "use_note",
            "spectrum",
        ),
    ),
    (
        "nature",
        (
            "solubility",
            "charge",
            "origin",
            "form",
            "water_percent",
            "density",
            "hlb",
            "required_hlb",
            "log_p",
        ),
    ),
    (
        "handling",
        (
            "max_process_temp_c",
            "melts_at_c",
            "shelf_life_months",
            "is_heat_sensitive",
            "is_electrolyte_sensitive",
            "is_phototoxic",
            "incompatibilities",
            "tags",
        ),
    ),
    ("cautions", ("cautions", "source")),
)
_LISTS = ("cas", "ec_numbers")
_TICKS = ("functions", "spectrum", "incompatibilities", "tags")
_FLAGS = ("is_heat_sensitive", "is_electrolyte_sensitive", "is_phototoxic")
_LONG = ("cautions", "use_note")
_CHOICES = ("solubility", "charge", "origin", "form")
_WIDTHS = {"name": WIDE, "active_percent": MIDDLE, "inci": WIDE, "source": WIDE}


@dataclass(frozen=True, slots=True)
class Typed:
    """Hold an ingredient as far as it is typed, and what could not be taken, by field."""

    item: Ingredient
    refused: Mapping[str, NotTaken]


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """Hold the ids that occur on the shelf, by field."""

    ids: Mapping[str, tuple[str, ...]]

    def options(self, field: str, words: Words) -> Options:
        """Return id and words of each, by words."""
        name = partial(long_function_name, words=words) if field == "functions" else None
        said = [
            (code, name(code) if name else value_text(field, _valued(field, code), words))
            for code in self.ids.get(field, ())
        ]
        return sorted(said, key=lambda option: option[1].casefold())


def vocabulary_of(items: Mapping[str, Ingredient]) -> Vocabulary:
    """Return the ids that ingredients use."""
    ids: dict[str, tuple[str, ...]] = {}
    for field in _TICKS:
        ids[field] = tuple(
            sorted({code for item in items.values() for code in getattr(item, field)})
        )
    for field in _CHOICES:
        ids[field] = tuple(sorted({getattr(item, field) for item in items.values()} - {""}))
    return Vocabulary(ids)


def form_fields(words: Words, vocabulary: Vocabulary) -> dict[str, FormField]:
    """Return an empty field of each fact."""
    return {name: _field(name, words, vocabulary) for _, names in SECTIONS for name in names}


def _field(name: str, words: Words, vocabulary: Vocabulary) -> FormField:
    label = words.say(f"shelf-field-{name}")
    if name in _TICKS:
        return TicksField(name, label, WIDE, vocabulary.options(name, words))
    if name in _LONG:
        return TextField(name, label, WIDE)
    if name in _FLAGS:
        return ChoiceField(name, label, NARROW, _flag_options(name, words))
    if name == "use_basis":
        return ChoiceField(name, label, WIDE, _basis_options(words))
    if name in _CHOICES or name == "purpose":
        known = vocabulary.options("functions" if name == "purpose" else name, words)
        unknown = (NOT_KNOWN, words.say("shelf-unknown"))
        return ChoiceField(name, label, MIDDLE, [unknown, *known])
    return LineField(name, label, _WIDTHS.get(name, NARROW if name in NUMBERS else MIDDLE))


def field_texts(item: Ingredient, words: Words) -> dict[str, str]:
    """Return what the fields of an ingredient show."""
    texts = {"purpose": item.purpose, "functions": ";".join(item.functions[1:])}
    for field in fields(Ingredient):
        name, value = field.name, getattr(item, field.name)
        if name in NUMBERS:
            texts[name] = "" if value is None else words.number(value)
        elif name in _LISTS:
            texts[name] = ", ".join(value)
        elif name in _FLAGS:
            texts[name] = NOT_KNOWN if value is None else (YES if value else NO)
        elif name == "shelf_life_months":
            texts[name] = "" if value is None else str(value)
        elif name in _TICKS:
            texts.setdefault(name, ";".join(value))
        elif isinstance(value, str):
            texts[name] = value
    return texts


def typed_ingredient(base: Ingredient, texts: Mapping[str, str], *, decimal_comma: bool) -> Typed:
    """Return a base with what the fields hold; what makes no sense keeps the base's value."""
    refused: dict[str, NotTaken] = {}
    values: dict[str, object] = {}
    readers: dict[str, Callable[[str], object]] = {
        **{name: partial(_signed, decimal_comma=decimal_comma) for name in NUMBERS},
        "shelf_life_months": partial(read_count, decimal_comma=decimal_comma),
    }
    for name, text in texts.items():
        if name in readers:
            try:
                values[name] = readers[name](text) if text else None
            except NotTaken as reason:
                refused[name] = reason
        elif name in _LISTS:
            values[name] = _parted(text)
        elif name in _FLAGS:
            values[name] = {YES: True, NO: False}.get(text)
        elif name in _TICKS:
            values[name] = _as_before(text, getattr(base, name))
        elif name != "purpose":
            values[name] = text
    others = [code for code in _codes(values.get("functions")) if code != texts["purpose"]]
    values["functions"] = tuple(code for code in (texts["purpose"], *others) if code)
    return Typed(replace(base, **values), refused)  # type: ignore[arg-type]


def typed_composition(
    parts: tuple[TypedPart, ...], before: Ingredient, substances: Mapping[str, Substance]
) -> tuple[Part, ...]:
    """Return the rows as a composition, each with the water that comes with its substance."""
    purposes = {part.substance: part.purpose for part in before.composition}
    same = {(part.substance, part.fraction): part for part in before.composition}
    composition = []
    for row in parts:
        key = row.key or row.text
        fraction = (row.percent or Decimal(0)) / 100
        known = substances.get(key)
        water = fraction * known.water_fraction if known else Decimal(0)
        part = Part(key, fraction, water, purposes.get(key, ""))
        composition.append(same.get((key, fraction), part))
    return tuple(composition)


def typed_constituents(parts: tuple[TypedPart, ...], before: Ingredient) -> tuple[Constituent, ...]:
    """Return the rows as what is inside; a row that did not change keeps its source."""
    known = {(inside.substance, inside.fraction): inside for inside in before.constituents}
    found = []
    for row in parts:
        key = row.key or row.text
        fraction = (row.percent or Decimal(0)) / 100
        found.append(known.get((key, fraction), Constituent(key, fraction)))
    return tuple(found)


def _as_before(text: str, before: tuple[str, ...]) -> tuple[str, ...]:
    """Return what is ticked in the order it had, what is new after it."""
    ticked = [code for code in text.split(";") if code]
    kept = [code for code in before if code in ticked]
    return tuple(dict.fromkeys((*kept, *ticked)))


def _signed(text: str, *, decimal_comma: bool) -> Decimal:
    # A number cell of the sheet takes none under zero; a melting point or log P may be one.
    bare = text.lstrip(_MINUS_SIGNS)
    value = read_number(bare, decimal_comma=decimal_comma)
    return -value if bare != text else value


def _parted(text: str) -> tuple[str, ...]:
    pieces = text.replace(";", ",").split(",")
    return tuple(dict.fromkeys(piece.strip() for piece in pieces if piece.strip()))


def _codes(value: object) -> tuple[str, ...]:
    return value if isinstance(value, tuple) else ()


def _flag_options(name: str, words: Words) -> Options:
    said = [(flag, words.say("shelf-value-flag", flag=flag)) for flag in (NO, YES)]
    unknown = (NOT_KNOWN, words.say("shelf-unknown"))
    return [unknown, *said] if name == "is_phototoxic" else said


def _basis_options(words: Words) -> Options:
    said = [(basis, value_text("use_basis", basis, words)) for basis in USE_BASES[1:]]
    return [("", words.say("shelf-value-use_basis", value="usual")), *said]


def _valued(field: str, code: str) -> object:
    return (code,) if field in _TICKS else code
