"""The editor of an ingredient of the maker's own; everything is checked while it is typed."""

from __future__ import annotations

from dataclasses import dataclass, replace

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame

from workbench.formula.ingredient import Ingredient, Part
from workbench.formula.ingredient_check import Fault, check_ingredient
from workbench.formula.ingredient_fields import restated
from workbench.formula.substance_names import SubstanceNames
from workbench.formula.supply import certified
from workbench.storage.keys import key_from
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.editor_page import EditorPage
from workbench.ui.places.shelf.fact_rows import plain_label
from workbench.ui.places.shelf.following import Following
from workbench.ui.places.shelf.form_fields import FormField, LineField
from workbench.ui.places.shelf.ingredient_form import (
    SECTIONS,
    Typed,
    Vocabulary,
    field_texts,
    form_fields,
    typed_composition,
    typed_constituents,
    typed_ingredient,
)
from workbench.ui.places.shelf.part_faults import part_errors, sentence_of, total_text
from workbench.ui.places.shelf.parts_editor import PartsEditor, TypedPart
from workbench.ui.places.shelf.resolvers import SubstanceResolver
from workbench.ui.theme import Theme


@dataclass(frozen=True, slots=True)
class Edited:
    """Hold what is edited: an ingredient as it was, its counter (0 for a new one), its original.

    `base` carries what the form does not show.
    """

    base: Ingredient
    counter: int = 0
    original: Ingredient | None = None


class IngredientEditor(EditorPage):
    """Edit every fact of one ingredient."""

    def __init__(
        self, work: DeskWork, theme: Theme, names: SubstanceNames, vocabulary: Vocabulary
    ) -> None:
        super().__init__(work, theme, "editor")
        self._names = names
        self._edited = Edited(Ingredient("", "", ""))
        self._taken: frozenset[str] = frozenset()
        self._is_key_typed = False
        self._fields = form_fields(work.words, vocabulary)
        self._flows: list[FlowLayout] = []
        self._resolver = SubstanceResolver(names)
        self.composition = self._parts("composition")
        self.composition.may_keep_as_typed = True
        self.constituents = self._parts("constituents")
        self._following = Following(
            self._fields, names.label, work.words, decimal_comma=work.decimal_comma
        )
        self._following.diluted.connect(self._on_diluted)
        self._lay()
        self.set_theme(theme)
        for field in self._fields.values():
            field.changed.connect(self._on_changed)
        for parts in (self.composition, self.constituents):
            parts.changed.connect(self._on_changed)
        self._name.edit.textEdited.connect(lambda _text: self._follow_name())
        self._key.edit.textEdited.connect(lambda _text: self._keep_key())

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        super().set_theme(theme)
        for flow in self._flows:
            flow.set_gaps(theme.px(16), theme.px(10))
        for field in self._fields.values():
            field.set_theme(theme)
        for parts in (self.composition, self.constituents):
            parts.set_theme(theme)
            parts.setMaximumWidth(theme.px(560))

    def begin(self, edited: Edited) -> None:
        """Show an ingredient to be changed, or a new one to be filled in."""
        self._edited = edited
        words, base = self.work.words, edited.base
        is_new = not edited.counter
        self._taken = self.work.studio.ingredients.taken_keys() if is_new else frozenset()
        self._is_key_typed = not is_new
        self.title.setText(base.name or words.say("shelf-new"))
        original = edited.original
        self.lead.setText(
            words.say("shelf-editor-copy", name=original.name)
            if original is not None
            else words.say("shelf-editor-own")
        )
        texts = field_texts(base, words)
        for name, field in self._fields.items():
            field.set_value(texts[name])
        self._key.edit.setEnabled(is_new)
        if is_new and base.name:
            self._follow_name()
        self.composition.set_parts(tuple((p.substance, p.fraction * 100) for p in base.composition))
        self.constituents.set_parts(
            tuple((p.substance, p.fraction * 100) for p in base.constituents)
        )
        self._following.begin(base)
        self.check()
        self.order_tabs()
        self._name.setFocus(Qt.FocusReason.OtherFocusReason)
        self._name.edit.selectAll()

    def candidate(self) -> Ingredient | None:
        """Return the ingredient as it would count, its certificate included."""
        typed = self._typed()
        if typed.refused or self._found(typed.item):
            return None
        supply = self.work.studio.supplies.get(typed.item.key)
        return certified(self._stated(typed.item), supply)

    def faults(self) -> int:
        """Show what is wrong at each field, and return how much is."""
        self._following.take_parts(self._typed().item.composition)
        typed = self._typed()
        words = self.work.words
        found = self._found(typed.item)
        errors = {
            name: words.say(refused.reason_id, **refused.values)
            for name, refused in typed.refused.items()
        }
        for fault in found:
            if fault.field in self._fields and fault.field not in errors:
                errors[fault.field] = sentence_of(fault, words)
        if "functions" in errors:  # the main function is the one that is missing
            errors["purpose"] = errors.pop("functions")
        for name, field in self._fields.items():
            field.show_error(errors.get(name, ""))
        count = len(errors)
        for name, parts in (("composition", self.composition), ("constituents", self.constituents)):
            of_rows = part_errors(found, name, parts.parts, self._resolver, words)
            parts.show_errors(of_rows)
            count += len(of_rows)
        text, is_right = total_text(self.composition.parts, words)
        self.composition.show_total(text, is_right=is_right)
        return count + (not is_right)

    def is_changed(self) -> bool:
        """Tell whether the fields hold anything but what was stored."""
        return not self._edited.counter or self._stated(self._typed().item) != self._edited.base

    def store(self) -> str:
        """Store the ingredient, as a new one or over the state that was opened."""
        item = self._stated(self._typed().item)
        ingredients = self.work.studio.ingredients
        if self._edited.counter:
            ingredients.update_own(item, self._edited.counter)
            return item.key
        return ingredients.add_own(item)

    @property
    def _name(self) -> LineField:
        field = self._fields["name"]
        assert isinstance(field, LineField)
        return field

    @property
    def _key(self) -> LineField:
        field = self._fields["key"]
        assert isinstance(field, LineField)
        return field

    def field(self, name: str) -> FormField:
        """Return the field of a fact."""
        return self._fields[name]

    def _parts(self, name: str) -> PartsEditor:
        words = self.work.words
        return PartsEditor(
            name,
            words,
            self._resolver,
            decimal_comma=self.work.decimal_comma,
            heading=words.say(f"shelf-editor-{name}"),
        )

    def _lay(self) -> None:
        for name, fields in SECTIONS:
            self._head(name)
            flow = FlowLayout(16, 10)
            for field in fields:
                flow.addWidget(self._fields[field])
            self._flows.append(flow)
            self.form.addLayout(flow)
            if name == "identity":
                for parts in (self.composition, self.constituents):
                    self._head(parts.objectName().rpartition("_")[2])
                    self.form.addWidget(parts)

    def _head(self, name: str) -> None:
        heading = plain_label("heading")
        heading.setText(self.work.words.say(f"shelf-group-{name}"))
        rule = QFrame()
        rule.setProperty("role", "ink-rule")
        self.form.addSpacing(6)
        self.form.addWidget(heading)
        self.form.addWidget(rule)

    def _typed(self) -> Typed:
        texts = {name: field.value for name, field in self._fields.items()}
        base = self._edited.base
        typed = typed_ingredient(base, texts, decimal_comma=self.work.decimal_comma)
        item = replace(
            typed.item,
            composition=typed_composition(self._rows(), base, self._names.substances),
            constituents=typed_constituents(self.constituents.parts, base),
        )
        return Typed(item, typed.refused)

    def _rows(self) -> tuple[TypedPart, ...]:
        return self.composition.parts

    def _stated(self, item: Ingredient) -> Ingredient:
        return restated(item, self._edited.original)

    def _found(self, item: Ingredient) -> tuple[Fault, ...]:
        kept = {row.text for row in self._rows() if row.as_typed}
        kept |= {part.substance for part in self._edited.base.composition}
        return check_ingredient(item, self._names.substances, taken=self._taken, as_typed=kept)

    def _on_changed(self) -> None:
        self.check()

    def _on_diluted(self, parts: tuple[Part, ...]) -> None:
        self.composition.set_parts(tuple((part.substance, part.fraction * 100) for part in parts))
        self.order_tabs()
        self.check()

    def _follow_name(self) -> None:
        if not self._is_key_typed:
            self._key.set_value(key_from(self._name.value, self._taken))
            self.check()

    def _keep_key(self) -> None:
        self._is_key_typed = bool(self._key.value)
