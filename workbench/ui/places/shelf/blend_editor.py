"""The editor of a blend: an own ingredient mixed of others on the shelf."""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import Qt

from workbench.formula.blend import BlendPart, blended
from workbench.formula.ingredient import Ingredient
from workbench.formula.ingredient_check import check_fractions, check_ingredient
from workbench.storage.keys import key_from
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.editor_page import EditorPage
from workbench.ui.places.shelf.fact_rows import FactGroup
from workbench.ui.places.shelf.facts_shown import FactsShown
from workbench.ui.places.shelf.form_fields import ChoiceField, LineField
from workbench.ui.places.shelf.ingredient_form import NOT_KNOWN, Vocabulary
from workbench.ui.places.shelf.part_faults import part_errors, sentence_of, total_text
from workbench.ui.places.shelf.parts_editor import PartsEditor
from workbench.ui.places.shelf.resolvers import IngredientResolver
from workbench.ui.theme import Theme

NAME_WIDTH, FUNCTION_WIDTH = 416, 200


class BlendEditor(EditorPage):
    """Name a blend and say what it is mixed of; the rest is worked out."""

    def __init__(self, work: DeskWork, theme: Theme, vocabulary: Vocabulary) -> None:
        super().__init__(work, theme, "blend")
        words = work.words
        self._taken: frozenset[str] = frozenset()
        self._resolver = IngredientResolver(work.studio)
        self.name = LineField("blend_name", words.say("shelf-field-name"), NAME_WIDTH)
        unknown = (NOT_KNOWN, words.say("shelf-unknown"))
        options = [unknown, *vocabulary.options("functions", words)]
        label = words.say("shelf-field-purpose")
        self.purpose = ChoiceField("blend_purpose", label, FUNCTION_WIDTH, options)
        self.parts = PartsEditor(
            "blend",
            words,
            self._resolver,
            decimal_comma=work.decimal_comma,
            heading=words.say("shelf-blend-parts"),
        )
        self._flow = FlowLayout(16, 10)
        self._made = FactGroup(
            "blend", words.say("shelf-blend-made"), words, theme, is_listing=True
        )
        for field in (self.name, self.purpose):
            self._flow.addWidget(field)
            field.changed.connect(self.check)
        self.parts.changed.connect(self.check)
        self.title.setText(words.say("shelf-new-blend"))
        self.lead.setText(words.say("shelf-blend-lead"))
        self.form.addLayout(self._flow)
        self.form.addWidget(self.parts)
        self.form.addWidget(self._made)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        super().set_theme(theme)
        self._flow.set_gaps(theme.px(16), theme.px(10))
        for field in (self.name, self.purpose):
            field.set_theme(theme)
        self.parts.set_theme(theme)
        self.parts.setMaximumWidth(theme.px(620))
        self._made.set_theme(theme)

    def begin(self) -> None:
        """Show an empty blend."""
        self._taken = self.work.studio.ingredients.taken_keys()
        self.name.set_value("")
        self.purpose.set_value(NOT_KNOWN)
        self.parts.set_parts(())
        self.check()
        self.order_tabs()
        self.name.setFocus(Qt.FocusReason.OtherFocusReason)

    def candidate(self) -> Ingredient | None:
        """Return the blend as an ingredient, None while it is not whole."""
        return self._blend() if not self.faults() else None

    def faults(self) -> int:
        """Show what is wrong, and what the blend is made of when nothing is."""
        words, rows = self.work.words, self.parts.parts
        text, is_right = total_text(rows, words)
        self.parts.show_total(text, is_right=is_right)
        keys = {row.key or row.text: row for row in rows}
        found = check_fractions(
            "blend",
            ((row.key or row.text, (row.percent or Decimal(0)) / 100) for row in rows),
            {key for key, row in keys.items() if row.key},
        )
        errors = part_errors(found, "blend", rows, None, words)
        self.parts.show_errors(errors)
        blend = self._blend() if not errors and is_right else None
        of_whole = check_ingredient(
            blend or self._base(), self.work.studio.substances, taken=self._taken
        )
        said = {fault.field: sentence_of(fault, words) for fault in of_whole}
        self.name.show_error(said.get("name", said.get("key", "")))
        self.purpose.show_error(said.get("functions", ""))
        self._show_made(blend)
        wrong = [field for field in ("name", "key", "functions") if field in said]
        return len(errors) + (not is_right) + len(wrong)

    def is_changed(self) -> bool:
        """Tell whether there is anything to store."""
        return True

    def store(self) -> str:
        """Store the blend as an ingredient of the maker's own."""
        return self.work.studio.ingredients.add_own(self._blend())

    def _base(self) -> Ingredient:
        name, purpose = self.name.value, self.purpose.value
        return Ingredient(
            key=key_from(name, self._taken),
            name=name,
            inci="",
            functions=(purpose,) if purpose else (),
            is_own=True,
        )

    def _blend(self) -> Ingredient:
        rows = [(row.key, row.percent) for row in self.parts.parts]
        held = self.work.studio.ingredients.get(key for key, _ in rows if key)
        parts = [
            BlendPart(held[key], percent)
            for key, percent in rows
            if key in held and percent is not None
        ]
        words = self.work.words
        shares = tuple(
            words.say("shelf-blend-share", name=part.ingredient.name, percent=part.percent)
            for part in parts
        )
        return blended(parts, self._base(), words.say("shelf-blend-source", parts=shares))

    def _show_made(self, blend: Ingredient | None) -> None:
        self._made.setVisible(blend is not None)
        if blend is not None:
            shown = FactsShown(blend, None, self.work.studio.substances, self.work.words)
            self._made.show_facts(shown.composition())
