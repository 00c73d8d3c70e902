"""The editor of how much to make: a mass, or packs from which the mass follows."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from PySide6.QtWidgets import QLabel

from workbench.formula.formula import Formula, Plan
from workbench.ui.places.desk.form_editors import FieldEditor
from workbench.ui.places.desk.form_inputs import TextInput
from workbench.ui.places.desk.form_words import needed_text
from workbench.ui.places.desk.typed import (
    NotTaken,
    positive,
    read_count,
    read_density,
    read_mass,
    read_percent,
    read_volume,
)
from workbench.ui.places.desk.work import DeskWork

WIDTHS = {"batch-mass": 120, "units": 70, "fill": 90, "density": 110, "hold-up": 100}
_USUAL_WIDTH = 90


class BatchEditor(FieldEditor):
    """Type the batch mass, or packs, fill, density, hold-up, retains and test samples."""

    def __init__(self, work: DeskWork) -> None:
        super().__init__(work)
        self._texts: dict[str, TextInput] = {}
        for name in ("batch-mass", "units", "fill", "density", "hold-up", "retains", "tests"):
            label = self.words.say(f"form-plan-{name}-label")
            text = TextInput(name.replace("-", "_"), label, WIDTHS.get(name, _USUAL_WIDTH))
            text.typed.connect(lambda typed, name=name: self._on_typed(name, typed))
            self._texts[name] = text
            self.flow.addWidget(text)
        self._needed = QLabel()
        self._needed.setObjectName("form_needed")
        self._needed.setWordWrap(True)
        self._needed.setProperty("role", "secondary")
        self.column.addWidget(self._needed)
        self.refresh()

    def field(self) -> str:
        """Return the key of the field."""
        return "batch"

    def refresh(self) -> None:
        """Show what the draft holds."""
        plan = self.work.formula.plan
        for name, text in self._texts.items():
            text.show_text(self._shown(name, plan))
        self._needed.setText(needed_text(plan, self.words))

    def _shown(self, name: str, plan: Plan) -> str:
        value: Decimal | int | None = {
            "batch-mass": plan.batch_mass,
            "units": plan.units,
            "fill": plan.fill,
            "density": plan.density,
            "hold-up": plan.hold_up_percent or None,
            "retains": plan.retains or None,
            "tests": plan.tests_g or None,
        }[name]
        if value is None:
            return ""
        said = self.words.number(Decimal(value))
        return self.words.say(f"form-plan-{name}-value", value=said)

    def _on_typed(self, name: str, text: str) -> None:
        plan = self.work.formula.plan
        try:
            changed = planned(plan, name, text, decimal_comma=self.work.decimal_comma)
        except NotTaken as refused:
            self.say_why(self._texts[name], refused)
            return
        self._texts[name].accept()
        self.show_errors()
        self.change(_with_plan(changed))


def planned(plan: Plan, name: str, text: str, *, decimal_comma: bool) -> Plan:
    """Return a plan with one field as typed; an empty text takes the field out.

    Raises
    ------
    NotTaken
        If the text is no such amount.
    """
    if not text.strip():
        return _CLEARED[name](plan)
    return _READ[name](plan, text, decimal_comma)


def _with_units(plan: Plan, text: str, comma: bool) -> Plan:  # noqa: FBT001
    units = read_count(text, decimal_comma=comma)
    positive(Decimal(units))
    return replace(plan, units=units)


_READ: dict[str, Callable[[Plan, str, bool], Plan]] = {
    "batch-mass": lambda plan, text, comma: replace(
        plan, batch_mass=positive(read_mass(text, decimal_comma=comma))
    ),
    "units": _with_units,
    "fill": lambda plan, text, comma: replace(
        plan, fill=positive(read_volume(text, decimal_comma=comma))
    ),
    "density": lambda plan, text, comma: replace(
        plan, density=read_density(text, decimal_comma=comma)
    ),
    "hold-up": lambda plan, text, comma: replace(
        plan, hold_up_percent=read_percent(text, decimal_comma=comma)
    ),
    "retains": lambda plan, text, comma: replace(
        plan, retains=read_count(text, decimal_comma=comma)
    ),
    "tests": lambda plan, text, comma: replace(plan, tests_g=read_mass(text, decimal_comma=comma)),
}
_CLEARED: dict[str, Callable[[Plan], Plan]] = {
    "batch-mass": lambda plan: replace(plan, batch_mass=None),
    "units": lambda plan: replace(plan, units=None),
    "fill": lambda plan: replace(plan, fill=None),
    "density": lambda plan: replace(plan, density=None),
    "hold-up": lambda plan: replace(plan, hold_up_percent=Decimal(0)),
    "retains": lambda plan: replace(plan, retains=0),
    "tests": lambda plan: replace(plan, tests_g=Decimal(0)),
}


def _with_plan(plan: Plan) -> Callable[[Formula], Formula]:
    return lambda formula: replace(formula, plan=plan)
