"""The allergen list of a delivery, typed from its certificate."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from PySide6.QtWidgets import QCheckBox

from workbench.formula.ingredient import Ingredient
from workbench.formula.ingredient_check import check_fractions
from workbench.formula.substance_names import SubstanceNames
from workbench.formula.supply import Allergen, Supply, certified
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.editor_page import EditorPage
from workbench.ui.places.shelf.form_fields import MIDDLE, LineField
from workbench.ui.places.shelf.part_faults import part_errors
from workbench.ui.places.shelf.parts_editor import PartsEditor
from workbench.ui.places.shelf.resolvers import AllergenResolver
from workbench.ui.theme import Theme


class CertificateEditor(EditorPage):
    """Type the list, or take it away so that the typical values count again."""

    def __init__(self, work: DeskWork, theme: Theme, names: SubstanceNames) -> None:
        super().__init__(work, theme, "certificate")
        self._names = names
        self._item = Ingredient("", "", "")
        self._supply = Supply("")
        words = work.words
        self._resolver = AllergenResolver(
            names, {key for rule in work.rules.labelling.allergens for key in rule.substances}
        )
        self.date = LineField("certificate_date", words.say("shelf-certificate-date"), MIDDLE)
        self.lot = LineField("certificate_lot", words.say("shelf-certificate-lot"), MIDDLE)
        self._flow = FlowLayout(16, 10)
        for field in (self.date, self.lot):
            field.changed.connect(self.check)
            self._flow.addWidget(field)
        self.has_none = QCheckBox(words.say("shelf-certificate-empty"))
        self.has_none.setObjectName("shelf_certificate_empty")
        self.without = QCheckBox(words.say("shelf-certificate-without"))
        self.without.setObjectName("shelf_certificate_without")
        self.parts = PartsEditor(
            "certificate",
            words,
            self._resolver,
            decimal_comma=work.decimal_comma,
            heading=words.say("shelf-certificate-heading"),
        )
        for box in (self.has_none, self.without):
            box.toggled.connect(lambda _on: self._on_ticked())
        self.parts.changed.connect(self.check)
        self.form.addLayout(self._flow)
        self.form.addWidget(self.parts)
        self.form.addWidget(self.has_none)
        self.form.addWidget(self.without)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        super().set_theme(theme)
        self._flow.set_gaps(theme.px(16), theme.px(10))
        for field in (self.date, self.lot):
            field.set_theme(theme)
        self.parts.set_theme(theme)
        self.parts.setMaximumWidth(theme.px(560))

    def begin(self, item: Ingredient, supply: Supply) -> None:
        """Show the list of an ingredient as it is stored."""
        self._item, self._supply = item, supply
        words = self.work.words
        self.title.setText(words.say("shelf-certificate-title", name=item.name))
        self.lead.setText(words.say("shelf-certificate-lead"))
        listed = supply.allergens or ()
        self.date.set_value(supply.certificate_date)
        self.lot.set_value(supply.certificate_lot)
        for box, is_on in ((self.has_none, supply.allergens == ()), (self.without, False)):
            box.blockSignals(True)  # noqa: FBT003
            box.setChecked(is_on)
            box.blockSignals(False)  # noqa: FBT003
        self.without.setVisible(supply.allergens is not None)
        self.parts.set_parts(tuple((line.substance, line.fraction * 100) for line in listed))
        self._on_ticked()
        self.order_tabs()
        self.parts.focus_first()

    def candidate(self) -> Ingredient | None:
        """Return the ingredient as it would count with this list, None while it is not whole."""
        return None if self.faults() else certified(self._item, self._typed())

    def faults(self) -> int:
        """Show what is wrong with each row, and return how much is."""
        if not self.parts.isEnabled():
            return 0
        rows = self.parts.parts
        listed = [(row.key or row.text, (row.percent or Decimal(0)) / 100) for row in rows]
        found = check_fractions("certificate", listed, self._names.substances)
        errors = part_errors(found, "certificate", rows, self._resolver, self.work.words)
        self.parts.show_errors(errors)
        total = sum((fraction for _, fraction in listed), Decimal(0))
        said = ""
        if total > 1:
            said = self.work.words.say("shelf-certificate-over", total=total * 100)
        elif not rows and self._supply.allergens:
            said = self.work.words.say("shelf-certificate-none-typed")
        self.parts.show_total(said, is_right=not said)
        return len(errors) + bool(said)

    def is_changed(self) -> bool:
        """Tell whether the list differs from the stored one; nothing typed is no list."""
        if self.parts.isEnabled() and not self.parts.parts:
            return False
        return self._typed() != self._supply

    def store(self) -> str:
        """Store the list with how the ingredient is bought."""
        self._supply = self.work.studio.supplies.save(self._typed())
        return self._supply.ingredient

    def _typed(self) -> Supply:
        if self.without.isChecked():
            return replace(self._supply, allergens=None, certificate_date="", certificate_lot="")
        paper = replace(
            self._supply, certificate_date=self.date.value, certificate_lot=self.lot.value
        )
        if self.has_none.isChecked():
            return replace(paper, allergens=())
        listed = tuple(
            Allergen(row.key or row.text, (row.percent or Decimal(0)) / 100)
            for row in self.parts.parts
        )
        return replace(paper, allergens=listed)

    def _on_ticked(self) -> None:
        if self.sender() is self.without and self.without.isChecked():
            self.has_none.setChecked(False)
        elif self.sender() is self.has_none and self.has_none.isChecked():
            self.without.setChecked(False)
        self.parts.setEnabled(not (self.has_none.isChecked() or self.without.isChecked()))
        self.check()
