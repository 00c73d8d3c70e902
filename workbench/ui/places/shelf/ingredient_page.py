"""The page of one ingredient: every fact with its confidence, and all that belongs to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QVBoxLayout, QWidget

from workbench.formula.ingredient import Ingredient
from workbench.formula.ingredient_fields import GROUPS
from workbench.formula.supply import CERTIFICATE, Supply, certified
from workbench.storage.where_used import Use
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.fact_rows import FactGroup, ScrolledPage, plain_label
from workbench.ui.places.shelf.facts_shown import FactsShown
from workbench.ui.places.shelf.files_block import FilesBlock
from workbench.ui.places.shelf.supply_block import SupplyBlock
from workbench.ui.places.shelf.supply_steps import SupplySteps
from workbench.ui.places.shelf.uses_block import UsesBlock
from workbench.ui.theme import Theme

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

_ACTIONS = ("copy-to-change", "edit", "delete")
_LISTS = ("composition", "constituents", "cautions", "source")


class IngredientPage(QWidget):
    """Show an ingredient; what changes it is asked for, except how it is bought."""

    copy_wanted = Signal(str)
    edit_wanted = Signal(str)
    delete_wanted = Signal(str)
    certificate_wanted = Signal(str)
    draft_wanted = Signal(str)
    left = Signal()
    """The maker goes back to the list."""

    def __init__(self, work: DeskWork, theme: Theme, steps: SupplySteps) -> None:
        super().__init__()
        self._work = work
        self._item: Ingredient | None = None
        words = work.words
        self.setObjectName("shelf_page")
        self._title = QLabel()
        self._title.setObjectName("shelf_page_title")
        self._title.setProperty("role", "title")
        self._title.setTextFormat(Qt.TextFormat.PlainText)
        self._title.setWordWrap(True)
        self._lead = plain_label("secondary")
        self._lead.setObjectName("shelf_page_lead")
        self._lead.setWordWrap(True)
        self._confirmed = plain_label("small")
        self._confirmed.setObjectName("shelf_page_confirmed")
        self._confirmed.setWordWrap(True)
        self._links = {
            name: LinkButton(words.say(f"shelf-{name}"), f"shelf_{name}") for name in _ACTIONS
        }
        self._actions = FlowLayout(16, 6)
        names = (*(name for name, _ in GROUPS), *_LISTS)
        self.groups = {
            name: FactGroup(
                name,
                words.say(f"shelf-group-{name}"),
                words,
                theme,
                is_listing=name in ("composition", "constituents"),
            )
            for name in names
        }
        self.groups["cautions"].set_lead_role("")
        self.supply = SupplyBlock(work, theme, steps)
        self.uses = UsesBlock(work, theme)
        self.files = FilesBlock(work, theme)
        self._certificate = LinkButton(
            words.say("shelf-certificate-type"), "shelf_certificate_link"
        )
        self._headings = {
            name: FactGroup(name, words.say(f"shelf-group-{name}"), words, theme)
            for name in ("supply", "certificate", "files", "used")
        }
        self._build()
        self.set_theme(theme)

    @property
    def key(self) -> str:
        """The key of the ingredient that is shown, or nothing."""
        return self._item.key if self._item is not None else ""

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        side = theme.px(20)
        self._column.setContentsMargins(side, theme.px(14), side, theme.px(24))
        self._actions.set_gaps(theme.px(16), theme.px(6))
        for group in (*self.groups.values(), *self._headings.values()):
            group.set_theme(theme)
        for block in (self.supply, self.uses, self.files):
            block.set_theme(theme)
        self._certificate_row.setContentsMargins(theme.px(8), theme.px(6), 0, 0)
        self._confirmed.setContentsMargins(0, theme.px(3), 0, 0)
        self._inside.setMaximumWidth(theme.px(860))

    def show_ingredient(
        self,
        item: Ingredient,
        original: Ingredient | None,
        supply: Supply,
        uses: tuple[Use, ...],
    ) -> None:
        """Show an ingredient with what it was copied from, how it is bought, and where it goes."""
        is_other = self._item is None or item.key != self._item.key
        if is_other:
            self.supply.keep_typed()
        self._item = item
        words = self._work.words
        counted = certified(item, supply)
        shown = FactsShown(counted, original, self._work.studio.substances, words)
        self._title.setText(item.name)
        self.setAccessibleName(words.say("shelf-page-name", name=item.name))
        self._lead.setText(self._lead_text(item, original, len(shown.changes)))
        is_shut = self._work.studio.read_only
        for name, link in self._links.items():
            link.setVisible(name == "copy-to-change" or item.is_own)
            link.setEnabled(not is_shut)
        count = shown.count()
        rest = count.all - count.confirmed - count.own
        self._confirmed.setText(
            words.say(
                "shelf-confirmed", count=count.confirmed, all=count.all, own=count.own, rest=rest
            )
        )
        for group in shown.groups():
            foot = words.say("shelf-not-known", facts=", ".join(group.unknown))
            self.groups[group.name].show_facts(group.facts, "", foot if group.unknown else "")
        self._show_lists(shown, item, supply)
        self.supply.show_supply(supply)
        self.uses.show_uses(uses)
        self.files.show_files(item.key)
        self._show_certificate(supply)
        if is_other:
            self._to_top()

    def focus_first(self) -> None:
        """Put the focus on the first thing that can be done here."""
        self._links["copy-to-change"].setFocus(Qt.FocusReason.OtherFocusReason)

    def _to_top(self) -> None:
        self._scroll.verticalScrollBar().setValue(0)
        # Rows of another height are laid out later, and the page may then stand elsewhere.
        QTimer.singleShot(0, self._scroll, lambda: self._scroll.verticalScrollBar().setValue(0))

    def show_supply(self, supply: Supply) -> None:
        """Show how the ingredient is bought, after it was stored elsewhere."""
        if supply.ingredient == self.key:
            self.supply.show_supply(supply)

    def _show_lists(self, shown: FactsShown, item: Ingredient, supply: Supply) -> None:
        words = self._work.words
        parts = shown.composition()
        none = words.say("shelf-composition-none")
        self.groups["composition"].show_facts(parts, "" if parts else none)
        inside = shown.constituents()
        is_certified = supply.allergens is not None
        lead = words.say(
            "shelf-constituents-lead", **{"from": CERTIFICATE if is_certified else "typical"}
        )
        if not inside:
            lead = words.say(
                "shelf-certificate-nothing" if is_certified else "shelf-constituents-none"
            )
        self.groups["constituents"].show_facts(inside, lead)
        cautions = item.cautions or words.say("shelf-cautions-none")
        self.groups["cautions"].show_facts((), cautions, words.say("shelf-safety-standing"))
        source = (
            words.say("shelf-source", source=item.source)
            if item.source
            else words.say("shelf-source-none")
        )
        self.groups["source"].show_facts((), source)

    def _show_certificate(self, supply: Supply) -> None:
        words = self._work.words
        listed = supply.allergens
        if listed is None:
            said = words.say("shelf-certificate-missing")
        elif not listed:
            said = words.say("shelf-certificate-nothing")
        else:
            said = words.say("shelf-certificate-count", count=len(listed))
        day, lot = supply.certificate_date, supply.certificate_lot
        if listed is not None and (day or lot):
            said += " " + words.say("shelf-certificate-paper", day=day or "none", lot=lot or "none")
        self._headings["certificate"].show_facts((), said)
        key = "shelf-certificate-type" if listed is None else "shelf-certificate-change"
        self._certificate.setText(words.say(key))
        self._certificate.setEnabled(not self._work.studio.read_only)

    def _lead_text(self, item: Ingredient, original: Ingredient | None, differing: int) -> str:
        words = self._work.words
        if not item.is_own:
            return words.say("shelf-shipped")
        if original is not None:
            return words.say("shelf-copy", name=original.name, count=differing)
        if item.based_on:
            return words.say("shelf-copy-gone", name=item.based_on)
        return words.say("shelf-own")

    def _build(self) -> None:
        for name, signal in zip(
            _ACTIONS, (self.copy_wanted, self.edit_wanted, self.delete_wanted), strict=True
        ):
            link = self._links[name]
            link.clicked.connect(lambda *_checked, signal=signal: signal.emit(self.key))
            self._actions.addWidget(link)
        self._certificate.clicked.connect(lambda *_checked: self.certificate_wanted.emit(self.key))
        self.uses.draft_wanted.connect(self.draft_wanted)
        self._certificate_row = QVBoxLayout()
        self._certificate_row.addWidget(self._certificate, 0, Qt.AlignmentFlag.AlignLeft)
        self._inside = ScrolledPage()
        # A click beside the fields ends the typing there, and what was typed is stored.
        self._inside.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self._column = QVBoxLayout(self._inside)
        self._column.setSpacing(0)
        self._column.addWidget(self._title)
        self._column.addSpacing(6)
        self._column.addWidget(self._lead)
        self._column.addSpacing(4)
        self._column.addWidget(self._confirmed)
        self._column.addSpacing(8)
        self._column.addLayout(self._actions)
        for name in ("cautions", *(name for name, _ in GROUPS), "composition", "constituents"):
            self._column.addWidget(self.groups[name])
        for name, block in (
            ("supply", self.supply),
            ("certificate", self._certificate_row),
            ("files", self.files),
            ("used", self.uses),
        ):
            self._column.addWidget(self._headings[name])
            if isinstance(block, QWidget):
                self._column.addWidget(block)
            else:
                self._column.addLayout(block)
        self._column.addWidget(self.groups["source"])
        self._column.addStretch(1)
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setWidget(self._inside)
        outside = QVBoxLayout(self)
        outside.setContentsMargins(0, 0, 0, 0)
        outside.addWidget(self._scroll)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc goes back to the list; Page Down and Page Up read on."""
        bar = self._scroll.verticalScrollBar()
        steps = {Qt.Key.Key_PageDown: bar.pageStep(), Qt.Key.Key_PageUp: -bar.pageStep()}
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif event.key() in steps:
            bar.setValue(bar.value() + steps[Qt.Key(event.key())])
        else:
            super().keyPressEvent(event)
