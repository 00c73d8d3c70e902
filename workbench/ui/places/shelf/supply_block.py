"""How an ingredient is bought: in the house, from whom, and what a pack costs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QCheckBox, QVBoxLayout, QWidget

from workbench.formula.supply import Supply
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.form_inputs import TextInput
from workbench.ui.places.desk.typed import NotTaken, positive, read_mass, read_number
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.fact_rows import plain_label
from workbench.ui.places.shelf.supply_steps import SupplySteps
from workbench.ui.theme import Theme
from workbench.words.numbers import decimal_text

if TYPE_CHECKING:
    from PySide6.QtGui import QHideEvent

_WIDTHS = {
    "supplier": 210,
    "order_code": 120,
    "pack_g": 90,
    "pack_price": 90,
    "freight": 90,
    "currency": 70,
}
_LONGEST_CURRENCY = 8
_MONEY_PLACES = 2


class SupplyBlock(QWidget):
    """Edit a supply field by field; each is stored when it is left and makes sense."""

    def __init__(self, work: DeskWork, theme: Theme, steps: SupplySteps) -> None:
        super().__init__()
        self._work = work
        self._steps = steps
        self._supply = Supply("")
        words = work.words
        self.there = QCheckBox(words.say("shelf-filter-there"))
        self.there.setObjectName("shelf_there")
        self.there.clicked.connect(lambda on: self._store(replace(self._supply, on_hand=on)))
        self._inputs: dict[str, TextInput] = {}
        self._flow = FlowLayout(16, 8)
        for name, width in _WIDTHS.items():
            text = TextInput(f"supply_{name}", words.say(f"shelf-supply-{name}"), width)
            text.typed.connect(lambda typed, name=name: self._take(name, typed))
            self._inputs[name] = text
            self._flow.addWidget(text)
        self._price = plain_label("strong")
        self._price.setObjectName("shelf_price")
        self._error = plain_label("stop")
        self._error.setObjectName("shelf_supply_error")
        self._error.setWordWrap(True)
        self._column = QVBoxLayout(self)
        self._column.addWidget(self.there)
        self._column.addLayout(self._flow)
        self._column.addWidget(self._error)
        self._column.addWidget(self._price)
        self.set_theme(theme)

    @property
    def supply(self) -> Supply:
        """The supply as it is stored."""
        return self._supply

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._flow.set_gaps(theme.px(16), theme.px(8))
        self._column.setContentsMargins(theme.px(8), theme.px(6), 0, theme.px(2))
        self._column.setSpacing(theme.px(8))
        for text in self._inputs.values():
            text.set_theme(theme)

    def keep_typed(self) -> None:
        """Store what stands typed in the fields and makes sense, before they show another."""
        supply = self._supply
        for name, text in self._inputs.items():
            if not text.edit.isModified() or self._work.studio.read_only:
                continue
            try:
                taken = self._changed(name, text.edit.text())
            except NotTaken:
                continue
            text.accept()
            supply = replace(supply, currency=taken.currency, **{name: getattr(taken, name)})
        if supply != self._supply:
            self._store(supply)

    def hideEvent(self, event: QHideEvent) -> None:
        """Keep what is typed when the page is left."""
        self.keep_typed()
        super().hideEvent(event)

    def show_supply(self, supply: Supply) -> None:
        """Show how an ingredient is bought; what was typed and not taken for another goes."""
        if supply.ingredient != self._supply.ingredient:
            for text in self._inputs.values():
                text.take_back()
        self._supply = supply
        self.there.setChecked(supply.on_hand)
        for name, text in self._inputs.items():
            text.show_text(self._shown(name))
            if not text.edit.hasFocus():
                text.edit.setCursorPosition(0)  # of a long text the start is shown
        for widget in (self.there, *(text.edit for text in self._inputs.values())):
            widget.setEnabled(not self._work.studio.read_only)
        self._price.setText(self._price_text())
        self._show_errors()

    def _shown(self, name: str) -> str:
        value = getattr(self._supply, name)
        if name == "currency":
            return str(value) or self._work.studio.settings.load().currency
        if isinstance(value, Decimal):
            places = _MONEY_PLACES if name in ("pack_price", "freight") else None
            return self._work.words.number(value, places)
        return str(value or "")

    def _price_text(self) -> str:
        price, words = self._supply.price, self._work.words
        if price is None:
            return words.say("shelf-price-none")
        per_kg = decimal_text(price.per_kg, words.style, _MONEY_PLACES)
        return words.say("shelf-price", price=per_kg, currency=price.currency)

    def _take(self, name: str, typed: str) -> None:
        try:
            changed = self._changed(name, typed)
        except NotTaken as refused:
            self._inputs[name].refuse(self._work.words.say(refused.reason_id, **refused.values))
            self._show_errors()
            return
        self._inputs[name].accept()
        self._store(changed)

    def _changed(self, name: str, typed: str) -> Supply:
        if name in ("supplier", "order_code"):
            return replace(self._supply, **{name: typed.strip()})  # type: ignore[arg-type]
        if name == "currency":
            return replace(self._supply, currency=_currency(typed))
        value = _READERS[name](typed, self._work.decimal_comma) if typed.strip() else None
        currency = self._supply.currency or self._work.studio.settings.load().currency
        return replace(self._supply, currency=currency, **{name: value})  # type: ignore[arg-type]

    def _store(self, supply: Supply) -> None:
        if not supply.ingredient:
            return
        self._steps.store(supply)

    def _show_errors(self) -> None:
        wrong = [text for text in self._inputs.values() if text.error]
        self._error.setText("\n".join(f"{text.label}: {text.error}" for text in wrong))
        self._error.setVisible(bool(wrong))


def _currency(typed: str) -> str:
    text = typed.strip()
    if not 0 < len(text) <= _LONGEST_CURRENCY:
        raise NotTaken("shelf-refused-currency")
    return text.upper() if text.isascii() else text


def _mass(typed: str, decimal_comma: bool) -> Decimal:  # noqa: FBT001
    return positive(read_mass(typed, decimal_comma=decimal_comma))


def _money(typed: str, decimal_comma: bool) -> Decimal:  # noqa: FBT001
    value = read_number(typed, decimal_comma=decimal_comma)
    if value < 0:
        raise NotTaken("shelf-refused-money")
    return value


_READERS: dict[str, Callable[[str, bool], Decimal]] = {
    "pack_g": _mass,
    "pack_price": _money,
    "freight": _money,
}
