"""The page on which a formula is begun: from a product type, or blank."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QListWidgetItem,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from workbench import paths
from workbench.formula.formula import (
    AREAS,
    EXPOSURES,
    MARKETS,
    PRODUCT_TYPES,
    Formula,
    Line,
    Phase,
    Plan,
)
from workbench.formula.skeleton import ProductType, skeleton
from workbench.storage.reference.product_types import load_product_types
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.form_inputs import Choice, TextInput
from workbench.ui.places.desk.ticks import Ticks
from workbench.ui.places.desk.type_preview import TypePreview, preview_rows
from workbench.ui.places.desk.typed import NotTaken, positive, read_mass
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme
from workbench.ui.widgets.choice_list import ChoiceList
from workbench.words.product_types import TypeWording

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

BLANK = "other"
FIRST_BATCH = Decimal(100)
_LIST_WIDTH = 190


class NewPage(QWidget):
    """Choose what to begin with: typing chooses, Enter begins, Esc leaves."""

    begun = Signal(object)
    """The Formula to store and open."""
    left = Signal()
    """The maker does not want a new formula after all."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._words = work.words
        self._theme = theme
        self._set_by_hand: set[str] = set()
        self.setObjectName("new_page")
        self._build()
        self.set_theme(theme)

    @cached_property
    def _types(self) -> dict[str, ProductType]:
        return dict(load_product_types(paths.resources() / "reference"))

    def begin(self) -> None:
        """Show the page anew, with the cursor on the blank formula."""
        self._name.edit.clear()
        self._name.accept()
        self._batch.edit.setText(self._words.say("types-batch-value", value=FIRST_BATCH))
        self._batch.accept()
        self._error.hide()
        self._set_by_hand.clear()
        self._markets.show_values(self._work.studio.settings.load().markets)
        self.list.setCurrentRow(0)
        self._show_type()
        self.list.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self.list.setFixedWidth(theme.px(_LIST_WIDTH))
        self.list.set_theme(theme)
        self._side_column.setSpacing(theme.px(8))
        self._side_column.setContentsMargins(0, 0, theme.px(10), 0)
        self._preview.set_theme(theme)
        self._fields.set_gaps(theme.px(20), theme.px(8))
        side = theme.px(20)
        self._column.setContentsMargins(side, theme.px(12), side, theme.px(12))
        self._column.setSpacing(theme.px(10))
        self._row.setSpacing(theme.px(24))
        for text in (self._name, self._batch, self._markets):
            text.set_theme(theme)

    def start(self) -> None:
        """Begin the formula, or say what cannot be taken."""
        formula = self._formula()
        try:
            mass = positive(
                read_mass(self._batch.edit.text(), decimal_comma=self._work.decimal_comma)
            )
        except NotTaken as refused:
            said = self._words.say(refused.reason_id, **refused.values)
            self._batch.refuse(said)
            self._error.setText(f"{self._batch.label}: {said}")
            self._error.show()
            self._batch.edit.setFocus()
            return
        self.begun.emit(replace(formula, plan=Plan(batch_mass=mass)))

    def _formula(self) -> Formula:
        key = self._key()
        name = " ".join(self._name.edit.text().split())
        if key in self._types:
            made = skeleton(self._types[key], name, TypeWording(self._words))
        else:
            made = blank(name, self._words.say("desk-first-phase"))
        return replace(
            made,
            exposure=self._exposure.box.currentData() or made.exposure,
            area=self._area.box.currentData() or made.area,
            markets=self._markets.values or made.markets,
        )

    def _key(self) -> str:
        item = self.list.currentItem()
        return str(item.data(Qt.ItemDataRole.UserRole)) if item else BLANK

    def _show_type(self) -> None:
        key, say = self._key(), self._words.say
        product = self._types.get(key)
        for choice, name, options in (
            (self._exposure, "exposure", EXPOSURES),
            (self._area, "area", AREAS),
        ):
            said = [(one, say(f"form-{name}", **{name: one})) for one in options]
            proposed = getattr(product, name) if product else options[0]
            is_set = name in self._set_by_hand
            choice.show_options(said, str(choice.box.currentData()) if is_set else proposed)
        self._proposed.setText(self._proposal(product))
        if product is None:
            self._title.setText(say("types-blank"))
            self._note.setText(say("types-blank-note"))
            self._ph.setText("")
        else:
            self._title.setText(say("form-type", type=key))
            self._note.setText(say("type-note", note=product.note))
            self._ph.setText(self._ph_text(product))
        formula = self._formula()
        shelf = self._work.studio.shelf_for(formula)
        self._preview.show_rows(preview_rows(formula, shelf, self._words))

    def _proposal(self, product: ProductType | None) -> str:
        """Return in words which fields follow the type, and which stay as they were set."""
        if product is None:
            return ""
        say = self._words.say
        fields = ("exposure", "area")
        untouched = tuple(name for name in fields if name not in self._set_by_hand)
        said = [say("types-proposed", fields="-".join(untouched))] if untouched else []
        for name, choice in (("exposure", self._exposure), ("area", self._area)):
            chosen, usual = str(choice.box.currentData()), str(getattr(product, name))
            if name in self._set_by_hand and chosen != usual:
                words = {one: say(f"form-{name}", **{name: one}) for one in (chosen, usual)}
                said.append(say(f"types-kept-{name}", chosen=words[chosen], usual=words[usual]))
        return " ".join(said)

    def _on_set(self, name: str) -> None:
        self._set_by_hand.add(name)
        self._proposed.setText(self._proposal(self._types.get(self._key())))

    def _ph_text(self, product: ProductType) -> str:
        if product.usual_ph is None or product.target_ph is None:
            return self._source(product)
        ends = (*product.usual_ph, *product.target_ph)
        low, high, from_ph, to_ph = (self._words.number(end, 1) for end in ends)
        ph = self._words.say("types-ph", low=low, high=high, from_ph=from_ph, to_ph=to_ph)
        return f"{ph} {self._source(product)}"

    def _source(self, product: ProductType) -> str:
        return self._words.say("types-source", source=product.source, confidence=product.confidence)

    def _build(self) -> None:
        say = self._words.say
        head = QLabel(say("types-title"))
        head.setProperty("role", "title")
        hint = QLabel(say("types-hint"))
        hint.setProperty("role", "secondary")
        hint.setWordWrap(True)
        self._row = QHBoxLayout()
        self._row.addWidget(self._build_list())
        self._row.addWidget(self._build_side(), 1)
        self._column = QVBoxLayout(self)
        self._column.addWidget(head)
        self._column.addWidget(hint)
        self._column.addLayout(self._row, 1)

    def _build_list(self) -> ChoiceList:
        say = self._words.say
        self.list = ChoiceList(self._theme)
        self.list.setObjectName("type_list")
        self.list.setAccessibleName(say("types-list"))
        keys = (BLANK, *(key for key in PRODUCT_TYPES if key != BLANK))
        for key in keys:
            item = QListWidgetItem(
                say("types-blank") if key == BLANK else say("form-type", type=key)
            )
            item.setData(Qt.ItemDataRole.UserRole, key)
            self.list.addItem(item)
        self.list.currentRowChanged.connect(lambda _row: self._show_type())
        self.list.itemDoubleClicked.connect(lambda _item: self.start())
        return self.list

    def _build_side(self) -> QWidget:
        say = self._words.say
        side = QWidget()
        self._side_column = column = QVBoxLayout(side)
        self._title, self._note, self._ph, self._error = QLabel(), QLabel(), QLabel(), QLabel()
        self._title.setProperty("role", "strong")
        self._ph.setProperty("role", "small")
        self._error.setProperty("role", "stop")
        self._error.setObjectName("new_error")
        for label in (self._title, self._note, self._ph, self._error):
            label.setWordWrap(True)
        self._name = TextInput("new_name", say("types-name"), 240)
        self._name.edit.setPlaceholderText(say("desk-new-formula-name"))
        self._exposure = Choice("new_exposure", say("form-exposure-label"))
        self._area = Choice("new_area", say("form-area-label"))
        self._exposure.chosen.connect(lambda _value: self._on_set("exposure"))
        self._area.chosen.connect(lambda _value: self._on_set("area"))
        self._proposed = QLabel()
        self._proposed.setObjectName("new_proposed")
        self._proposed.setProperty("role", "small")
        self._proposed.setWordWrap(True)
        self._batch = TextInput("new_batch", say("form-plan-batch-mass-label"), 110)
        self._fields = FlowLayout(20, 8)
        markets = [
            (one, say("form-market-name", market=one), say("form-market-long", market=one))
            for one in MARKETS
        ]
        self._markets = Ticks("new_market", say("form-market"), markets)
        for field in (self._name, self._exposure, self._area, self._markets, self._batch):
            self._fields.addWidget(field)
        self._preview = TypePreview(self._theme, say("types-preview"))
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(side)
        column.addWidget(self._title)
        column.addWidget(self._note)
        column.addWidget(self._ph)
        column.addLayout(self._fields)
        column.addWidget(self._proposed)
        column.addWidget(self._error)
        column.addLayout(self._buttons())
        column.addWidget(self._preview)
        column.addStretch(1)
        return scroll

    def _buttons(self) -> QHBoxLayout:
        say = self._words.say
        begin = QPushButton(say("types-begin"))
        begin.setObjectName("new_begin")
        begin.setProperty("role", "primary")
        begin.clicked.connect(lambda *_checked: self.start())
        leave = QPushButton(say("types-leave"))
        leave.setObjectName("new_leave")
        leave.clicked.connect(lambda *_checked: self.left.emit())
        row = QHBoxLayout()
        row.addWidget(begin)
        row.addWidget(leave)
        row.addStretch(1)
        return row

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter begins, Esc leaves."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.start()
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)


def blank(name: str, phase_name: str) -> Formula:
    """Return a formula of water alone, whose line takes the rest."""
    water = Line(id=1, ingredient="water", percent=None)
    phase = Phase(id=1, name=phase_name, kind="water", lines=(water,))
    return Formula(name=name, phases=(phase,))
