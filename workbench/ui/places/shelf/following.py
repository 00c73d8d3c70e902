"""Facts that follow from what an ingredient is made of, while nobody types something else."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal

from PySide6.QtCore import QObject, Signal

from workbench.formula.from_composition import (
    active_percent,
    diluted,
    is_whole,
    joined_names,
    water_percent,
)
from workbench.formula.ingredient import Ingredient, Part
from workbench.ui.places.desk.typed import NotTaken, read_number
from workbench.ui.places.shelf.form_fields import FormField, LineField
from workbench.words.catalogue import Words

STRENGTH, WATER, INCI = "active_percent", "water_percent", "inci"
NAMES = (STRENGTH, WATER, INCI)


class Following(QObject):
    """Work out strength, water and INCI name; tell where a typed one says otherwise."""

    diluted = Signal(object)
    """The parts of a composition that was brought to the typed strength with water."""

    def __init__(
        self,
        fields: Mapping[str, FormField],
        label: Callable[[str], str],
        words: Words,
        *,
        decimal_comma: bool,
    ) -> None:
        super().__init__()
        self._label = label
        self._words = words
        self._decimal_comma = decimal_comma
        self._base = Ingredient("", "", "")
        self._parts: tuple[Part, ...] = ()
        self._typed: set[str] = set()
        self._fields = {name: _line(fields[name]) for name in NAMES}
        for name, field in self._fields.items():
            field.edit.textEdited.connect(lambda _text, name=name: self._typed.add(name))
            field.take.clicked.connect(lambda *_checked, name=name: self._take(name))
        self._fields[STRENGTH].other.clicked.connect(lambda *_checked: self._dilute())

    def begin(self, base: Ingredient) -> None:
        """Take the ingredient as it is stored; nothing is typed yet."""
        self._base, self._parts = base, base.composition
        self._typed.clear()
        for field in self._fields.values():
            field.show_note("")

    def take_parts(self, parts: tuple[Part, ...]) -> None:
        """Let what follows from the rows stand in its fields, and say so."""
        self._parts = parts
        if not parts or not is_whole(parts):
            for field in self._fields.values():
                field.show_note("")
            return
        for name, field in self._fields.items():
            wanted = self._wanted(name)
            if wanted is not None and name not in self._typed and field.value != wanted:
                field.set_value(wanted)
            self._say(name, wanted)

    @property
    def _is_changed(self) -> bool:
        held = {(part.substance, part.fraction) for part in self._base.composition}
        return {(part.substance, part.fraction) for part in self._parts} != held

    def _wanted(self, name: str) -> str | None:
        """Return what the rows say of a fact; what is stored counts until they are changed."""
        if not self._is_changed:
            value = getattr(self._base, name)
            return value if isinstance(value, str) else self._number(value)
        if name == INCI:
            named = joined_names(self._parts, self._label)
            same = named == joined_names(self._base.composition, self._label)
            return self._base.inci if same and self._base.inci else named
        water = water_percent(self._parts)
        if not water and getattr(self._base, name) is None:
            return ""  # without water nothing is said of a strength nobody stated
        return self._number(active_percent(self._parts) if name == STRENGTH else water)

    def _say(self, name: str, wanted: str | None) -> None:
        field, words = self._fields[name], self._words
        is_same = field.value == wanted or self._value(field.value) == self._value(wanted)
        if is_same and self._is_changed and wanted:
            field.show_note(words.say("shelf-follows"))
        elif is_same or not wanted:
            field.show_note("")
            self._offer_water(name)
        else:
            unit = "text" if name == INCI else "percent"
            said = words.say("shelf-follows-not", value=wanted, unit=unit)
            take = words.say("shelf-follow", value=wanted, unit=unit)
            field.show_note(said, take)
            self._offer_water(name)

    def _offer_water(self, name: str) -> None:
        if name != STRENGTH or STRENGTH not in self._typed:
            return
        field = self._fields[STRENGTH]
        strength = self._value(field.value)
        if not isinstance(strength, Decimal) or strength == active_percent(self._parts):
            return
        if diluted(self._parts, strength) is not None:
            field.show_other(self._words.say("shelf-rest-water"))

    def _take(self, name: str) -> None:
        self._typed.discard(name)
        self._fields[name].set_value(self._wanted(name) or "")
        self._fields[name].changed.emit()

    def _dilute(self) -> None:
        strength = self._value(self._fields[STRENGTH].value)
        parts = diluted(self._parts, strength) if isinstance(strength, Decimal) else None
        if parts is not None:
            self._typed -= {STRENGTH, WATER}
            self.diluted.emit(parts)

    def _number(self, value: Decimal | None) -> str:
        return "" if value is None else self._words.number(value)

    def _value(self, text: str | None) -> Decimal | str:
        try:
            return read_number(text or "", decimal_comma=self._decimal_comma)
        except NotTaken:
            return text or ""


def _line(field: FormField) -> LineField:
    assert isinstance(field, LineField)
    return field
