"""Editors that the form row opens under a field; each change is one undo step."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtWidgets import QCheckBox, QLabel, QVBoxLayout, QWidget

from workbench.formula.edits import with_percent, with_rest_line
from workbench.formula.formula import (
    AREAS,
    EXPOSURES,
    FORMS,
    MARKETS,
    PRODUCT_TYPES,
    USERS,
    Formula,
)
from workbench.formula.totals import totals
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.form_inputs import Choice, TextInput
from workbench.ui.places.desk.form_words import window_text
from workbench.ui.places.desk.typed import NotTaken, read_window
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme

NO_REST = ""
# field of the formula, message of its options, options
CHOICES = (
    ("product_type", "type", PRODUCT_TYPES),
    ("exposure", "exposure", EXPOSURES),
    ("area", "area", AREAS),
    ("users", "users", USERS),
    ("form", "form", FORMS),
)


class FieldEditor(QWidget):
    """Hold the inputs of one field; made when it is opened, kept in step with the draft."""

    def __init__(self, work: DeskWork) -> None:
        super().__init__()
        self.work = work
        self.words = work.words
        self.flow = FlowLayout(24, 8)
        self._errors = QLabel()
        self._errors.setObjectName("form_error")
        self._errors.setProperty("role", "stop")
        self._errors.setWordWrap(True)
        self._errors.hide()
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.addLayout(self.flow)
        self.column.addWidget(self._errors)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self.flow.set_gaps(theme.px(24), theme.px(8))
        for text in self.findChildren(TextInput):
            text.set_theme(theme)

    def refresh(self) -> None:
        """Show what the draft holds."""

    def take_back(self) -> None:
        """Forget what was typed and not taken."""
        for text in self.findChildren(TextInput):
            text.take_back()
        self.show_errors()

    def show_errors(self) -> None:
        """Say under the inputs what could not be taken, and why."""
        refused = [text for text in self.findChildren(TextInput) if text.error]
        self._errors.setText("\n".join(f"{text.label}: {text.error}" for text in refused))
        self._errors.setVisible(bool(refused))

    def change(self, change: Callable[[Formula], Formula]) -> None:
        """Change the draft, and show again what it holds."""
        self.work.edit(self.words.say("form-undo", field=self.field()), change)
        self.refresh()

    def field(self) -> str:
        """Return the key of the field, which the undo step is named by."""
        raise NotImplementedError

    def say_why(self, text: TextInput, refused: NotTaken) -> None:
        """Put the reason under the input; what was typed stays to be mended."""
        text.refuse(self.words.say(refused.reason_id, **refused.values))
        self.show_errors()


class ProductEditor(FieldEditor):
    """Choose type, exposure, area, users and form."""

    def __init__(self, work: DeskWork) -> None:
        super().__init__(work)
        self._choices: dict[str, Choice] = {}
        for name, message, options in CHOICES:
            choice = Choice(name, self.words.say(f"form-{message}-label"))
            said = [(o, self.words.say(f"form-{message}", **{message: o})) for o in options]
            choice.show_options(said, getattr(work.formula, name))
            choice.chosen.connect(lambda value, name=name: self._on_chosen(name, value))
            self._choices[name] = choice
            self.flow.addWidget(choice)

    def field(self) -> str:
        """Return the key of the field."""
        return "product"

    def refresh(self) -> None:
        """Show what the draft holds."""
        for name, choice in self._choices.items():
            choice.box.setCurrentIndex(choice.box.findData(getattr(self.work.formula, name)))

    def _on_chosen(self, name: str, value: str) -> None:
        self.change(lambda formula: with_choice(formula, name, value))


class MarketEditor(FieldEditor):
    """Tick the markets."""

    def __init__(self, work: DeskWork) -> None:
        super().__init__(work)
        self._boxes: dict[str, QCheckBox] = {}
        for market in MARKETS:
            box = QCheckBox(self.words.say("form-market-long", market=market))
            box.setObjectName(f"form_market_{market}")
            box.clicked.connect(lambda *_checked: self._on_ticked())
            self._boxes[market] = box
            self.flow.addWidget(box)
        self.refresh()

    def field(self) -> str:
        """Return the key of the field."""
        return "market"

    def refresh(self) -> None:
        """Show what the draft holds."""
        for market, box in self._boxes.items():
            box.setChecked(market in self.work.formula.markets)

    def _on_ticked(self) -> None:
        markets = tuple(market for market, box in self._boxes.items() if box.isChecked())
        if not markets:  # with no market there is no rule to hold the draft against
            self.work.notices.inform(self.words.say("form-market-one"))
            self.refresh()
            return
        self.change(lambda formula: replace(formula, markets=markets))


class PhEditor(FieldEditor):
    """Type the lowest and the highest pH."""

    def __init__(self, work: DeskWork) -> None:
        super().__init__(work)
        self._text = TextInput("ph", self.words.say("form-ph-label"), 240)
        self._text.edit.setPlaceholderText(self.words.say("form-ph-example"))
        self._text.typed.connect(self._on_typed)
        self.flow.addWidget(self._text)
        self.refresh()

    def field(self) -> str:
        """Return the key of the field."""
        return "ph"

    def refresh(self) -> None:
        """Show what the draft holds."""
        self._text.show_text(window_text(self.work.formula, self.words))

    def _on_typed(self, text: str) -> None:
        try:
            window = read_window(text, decimal_comma=self.work.decimal_comma)
        except NotTaken as refused:
            self.say_why(self._text, refused)
            return
        self._text.accept()
        self.show_errors()
        self.change(lambda formula: replace(formula, target_ph=window))


class RestEditor(FieldEditor):
    """Choose the line that takes the rest."""

    def __init__(self, work: DeskWork) -> None:
        super().__init__(work)
        self._choice = Choice("rest", self.words.say("form-rest-label"))
        self._choice.chosen.connect(self._on_chosen)
        self.flow.addWidget(self._choice)
        self.refresh()

    def field(self) -> str:
        """Return the key of the field."""
        return "rest"

    def refresh(self) -> None:
        """Show what the draft holds."""
        formula, shelf = self.work.formula, self.work.shelf
        lines = [(str(line.id), shelf.name(line.ingredient)) for line in formula.lines()]
        rest = formula.rest_line
        none = (NO_REST, self.words.say("form-no-rest"))
        self._choice.show_options([none, *lines], str(rest.id) if rest else NO_REST)

    def _on_chosen(self, line: str) -> None:
        if line == NO_REST:
            self.change(without_rest_line)
        else:
            self.change(lambda formula: with_rest_line(formula, int(line)))


def with_choice(formula: Formula, name: str, value: str) -> Formula:
    """Return the formula with one of the chosen facts of the product changed."""
    match name:
        case "product_type":
            return replace(formula, product_type=value)
        case "exposure":
            return replace(formula, exposure=value)
        case "area":
            return replace(formula, area=value)
        case "users":
            return replace(formula, users=value)
    return replace(formula, form=value)


def without_rest_line(formula: Formula) -> Formula:
    """Return the formula with the rest line fixed at the percent it shows."""
    rest = formula.rest_line
    if rest is None:
        return formula
    return with_percent(formula, rest.id, totals(formula).percents[rest.id])
