"""The balances of the studio: each with what it weighs well beside it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from workbench.formula.weighability import Balance
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.form_inputs import TextInput
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.typed import NotTaken
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.studio.effects import balance_effect
from workbench.ui.places.studio.held import HeldSettings
from workbench.ui.places.studio.reading import read_balance
from workbench.ui.theme import Theme

FIELDS = (("name", 190), ("readability", 110), ("capacity", 110), ("repeatability", 150))
FIRST = Balance("", Decimal("0.01"), Decimal(200))


class BalanceRows(QWidget):
    """Add, change and remove balances."""

    def __init__(self, work: DeskWork, held: HeldSettings, theme: Theme) -> None:
        super().__init__()
        self._work = work
        self._held = held
        self._theme = theme
        self._rows: list[_BalanceRow] = []
        self.setObjectName("studio_balances")
        self.setAccessibleName(work.words.say("studio-balances"))
        self._list = QVBoxLayout()
        self._none = QLabel(work.words.say("studio-balances-none"))
        self._none.setProperty("role", "caution")
        self._none.setWordWrap(True)
        self._add = LinkButton(work.words.say("studio-balance-add"), "balance_add")
        self._add.clicked.connect(lambda *_checked: self.add())
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        hint = QLabel(work.words.say("studio-balances-hint"))
        hint.setProperty("role", "small")
        hint.setWordWrap(True)
        self._column.addWidget(hint)
        self._column.addLayout(self._list)
        self._column.addWidget(self._none)
        self._column.addWidget(self._add, 0, Qt.AlignmentFlag.AlignLeft)
        held.changed.connect(self.refresh)
        self.refresh()

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._theme = theme
        self._list.setSpacing(theme.px(12))
        self._column.setSpacing(theme.px(10))
        for row in self._rows:
            row.set_theme(theme)

    def refresh(self) -> None:
        """Show the balances that are stored."""
        balances = self._held.value.balances
        while len(self._rows) > len(balances):
            gone = self._rows.pop()
            gone.hide()
            gone.deleteLater()
        while len(self._rows) < len(balances):
            row = _BalanceRow(self, len(self._rows))
            row.set_theme(self._theme)
            self._rows.append(row)
            self._list.addWidget(row)
        for row, balance in zip(self._rows, balances, strict=True):
            row.show_balance(balance, self._work)
        self._none.setVisible(not balances)

    def add(self) -> None:
        """Add a balance under a name no other has, to be changed."""
        names = {balance.name for balance in self._held.value.balances}
        number = 1
        while (name := self._work.words.say("studio-balance-new", number=number)) in names:
            number += 1
        self._held.change_balances(
            (*self._held.value.balances, replace(FIRST, name=name)), merge_key=f"add {name}"
        )
        if self._rows:
            self._rows[-1].focus_name()

    def remove(self, place: int) -> None:
        """Take a balance out."""
        balances = self._held.value.balances
        kept = balances[:place] + balances[place + 1 :]
        self._held.change_balances(kept, merge_key=f"remove {place} of {len(balances)}")
        self._add.setFocus(Qt.FocusReason.OtherFocusReason)

    def type_in(self, place: int, field: str, text: str) -> str:
        """Take what was typed, or return the sentence that says why not."""
        balances, words = self._held.value.balances, self._work.words
        comma = self._work.decimal_comma
        try:
            changed = read_balance(balances[place], field, text, decimal_comma=comma)
        except NotTaken as refused:
            return words.say(refused.reason_id, **refused.values)
        others = {item.name for number, item in enumerate(balances) if number != place}
        if changed.name in others:
            return words.say("studio-balance-name-twice")
        new = (*balances[:place], changed, *balances[place + 1 :])
        self._held.change_balances(new, merge_key=f"balance {place} {field}")
        return ""


class _BalanceRow(QWidget):
    """Hold the fields of one balance, what follows from them, and the way to take it out."""

    def __init__(self, owner: BalanceRows, place: int) -> None:
        super().__init__()
        self._owner = owner
        self._place = place
        say = owner._work.words.say  # noqa: SLF001
        self._inputs: dict[str, TextInput] = {}
        self._flow = FlowLayout(16, 4)
        for field, width in FIELDS:
            label = say(f"studio-balance-{field}")
            text = TextInput(f"balance_{place}_{field}", label, width)
            text.edit.textEdited.connect(partial(self._on_edited, field))
            text.edit.editingFinished.connect(partial(self._on_left, field))
            self._inputs[field] = text
            self._flow.addWidget(text)
        self._remove = LinkButton(say("studio-balance-remove"), f"balance_{place}_remove")
        self._remove.clicked.connect(lambda *_checked: owner.remove(place))
        self._flow.addWidget(self._remove)
        self._effect, self._error = QLabel(), QLabel()
        self._effect.setObjectName(f"balance_{place}_effect")
        self._effect.setProperty("role", "secondary")
        self._error.setObjectName(f"balance_{place}_error")
        self._error.setProperty("role", "stop")
        self._error.hide()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addLayout(self._flow)
        for label_ in (self._effect, self._error):
            label_.setWordWrap(True)
            column.addWidget(label_)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._flow.set_gaps(theme.px(16), theme.px(4))
        for text in self._inputs.values():
            text.set_theme(theme)

    def focus_name(self) -> None:
        """Put the cursor into the name."""
        self._inputs["name"].edit.setFocus(Qt.FocusReason.OtherFocusReason)
        self._inputs["name"].edit.selectAll()

    def show_balance(self, balance: Balance, work: DeskWork) -> None:
        """Show a balance, but leave what is being typed."""
        shown = {
            "name": balance.name,
            "readability": self._mass(balance.readability, work),
            "capacity": self._mass(balance.capacity, work),
            "repeatability": self._mass(balance.repeatability, work),
        }
        for field, text in shown.items():
            if not self._inputs[field].edit.hasFocus():
                self._inputs[field].edit.setText(text)
            self._inputs[field].show_text(text)
        self._remove.setAccessibleName(
            work.words.say("studio-balance-remove-name", name=balance.name)
        )
        self._effect.setText(balance_effect(balance, work.rules.weighing, work.words))

    def _mass(self, mass: Decimal | None, work: DeskWork) -> str:
        if mass is None:
            return ""
        return work.words.say("form-plan-batch-mass-value", value=mass)

    def _on_edited(self, field: str, text: str) -> None:
        self._say_error(field, self._owner.type_in(self._place, field, text))

    def _on_left(self, field: str) -> None:
        self._inputs[field].take_back()
        self._say_error(field, "")

    def _say_error(self, field: str, sentence: str) -> None:
        self._inputs[field].refuse(sentence)
        self._error.setText(sentence)
        self._error.setVisible(bool(sentence))
