"""The studio page: every setting of the work, each with what it does beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QScrollArea,
    QStackedLayout,
    QVBoxLayout,
    QWidget,
)

from workbench.formula.formula import MARKETS
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.studio import effects
from workbench.ui.places.studio.balance_rows import BalanceRows
from workbench.ui.places.studio.head_preview import HeadPreview
from workbench.ui.places.studio.held import HeldSettings
from workbench.ui.places.studio.logo_row import LogoRow
from workbench.ui.places.studio.reading import (
    read_contact,
    read_currency,
    read_name,
    read_numbering,
)
from workbench.ui.places.studio.rules_page import RulesPage
from workbench.ui.places.studio.setting_rows import ChoiceRow, SettingRow, TextRow, TicksRow
from workbench.ui.theme import Appearance, Theme
from workbench.words.numbers import NumberStyle

if TYPE_CHECKING:
    from PySide6.QtGui import QShowEvent, QUndoStack

PAPERS = ("A4", "Letter")
_WIDEST = 900


class StudioPlace(QWidget):
    """Edit name, contact, picture, money, markets, paper, numbers and balances."""

    def __init__(
        self, work: DeskWork, appearance: Appearance, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._work = work
        self._words = work.words
        self.setObjectName("studio_place")
        self.held = HeldSettings(work, self)
        self._rows: dict[str, SettingRow] = {}
        self._sections: list[QVBoxLayout] = []
        self._build(appearance.theme)
        self.set_theme(appearance.theme)
        appearance.changed.connect(self.set_theme)
        self.held.changed.connect(self.refresh)
        self.held.session.stack.indexChanged.connect(self._on_step)
        self.refresh()

    @property
    def undo_stack(self) -> QUndoStack:
        """The steps that undo takes back while the maker is here."""
        return self.held.session.stack

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        for row in self._rows.values():
            row.set_theme(theme)
        self._preview.set_theme(theme)
        self._balances.set_theme(theme)
        self.rules.set_theme(theme)
        side = theme.px(20)
        self._column.setContentsMargins(side, theme.px(16), side, side)
        self._column.setSpacing(theme.px(22))
        self._body.setMaximumWidth(theme.px(_WIDEST))
        for section in self._sections:
            section.setSpacing(theme.px(12))

    def focus_place(self) -> None:
        """Put the focus on the first setting, and read anew what another window stored."""
        if not self.held.session.stack.count():
            self.held.load()
        self.show_setting("name")

    def show_rules(self) -> None:
        """Show the rules of the trade in the place of the settings."""
        self._pages.setCurrentWidget(self.rules)
        self.rules.begin()

    def leave_rules(self) -> None:
        """Go back to the settings."""
        self._pages.setCurrentWidget(self._scroll)
        self._open_rules.setFocus(Qt.FocusReason.OtherFocusReason)

    def show_setting(self, name: str) -> None:
        """Bring a setting into view and put the focus on it."""
        self._pages.setCurrentWidget(self._scroll)
        held: QWidget = self._balances if name == "balances" else self._logo
        held = self._rows.get(name, held)
        first = next(
            (
                child
                for kind in (QLineEdit, QComboBox, QAbstractButton)
                for child in held.findChildren(kind)
                if child.isEnabled()
            ),
            held,
        )
        first.setFocus(Qt.FocusReason.OtherFocusReason)
        self._scroll.ensureWidgetVisible(held)

    def refresh(self) -> None:
        """Show the settings as they are, and what each does."""
        held, words = self.held.value, self._words
        settings = held.settings
        shown: dict[str, object] = {
            "name": settings.name,
            "contact": settings.contact,
            "currency": settings.currency,
            "markets": settings.markets,
            "paper": settings.paper,
            "decimals": settings.decimal_style.value,
            "numbering": settings.numbering,
        }
        for name, value in shown.items():
            self._rows[name].show_value(value)  # type: ignore[attr-defined]
        formula = self._work.formula.name or words.say("desk-new-formula-name")
        said = {
            "name": words.say("studio-name-effect"),
            "contact": words.say("studio-contact-effect"),
            "currency": effects.currency_effect(settings, words),
            "markets": effects.markets_effect(settings, words),
            "paper": words.say("studio-paper-effect", paper=settings.paper),
            "decimals": effects.decimals_effect(settings.decimal_style, words),
            "numbering": effects.numbering_effect(
                settings, formula, self._work.clock().date(), words
            ),
        }
        for name, text in said.items():
            self._rows[name].say_effect(text)
        empty = words.say("studio-head-empty")
        self._preview.show_block(settings.name, settings.contact, held.logo, empty)
        shipped = sum(not rule.is_own for rule in self._work.rules.compatibility.rules)
        count = words.say("own-rules-count", shipped=shipped, own=len(held.rules))
        self._rules_said.setText(count)
        self._logo.remove.setEnabled(bool(held.logo))
        self._show_undo()

    def showEvent(self, event: QShowEvent) -> None:
        """Show the effects for the formula that is open now."""
        self.refresh()
        super().showEvent(event)

    def _on_step(self, _place: int) -> None:
        self._show_undo()
        self.rules.show_undo()

    def _show_undo(self) -> None:
        stack = self.held.session.stack
        self._undo.setVisible(stack.canUndo())
        self._undo.setText(self._words.say("studio-undo-link", step=stack.undoText()))

    def _build(self, theme: Theme) -> None:
        say = self._words.say
        self._body = QWidget()
        self._column = QVBoxLayout(self._body)
        self._column.addLayout(self._head())
        self._logo = LogoRow(self._words, self._work.notices)
        self._logo.picked.connect(self.held.change_logo)
        self._preview = HeadPreview(theme, say("studio-head"))
        self._balances = BalanceRows(self._work, self.held, theme)
        self._make_rows()
        self._section("who", self._rows["name"], self._rows["contact"], self._logo, self._preview)
        self._section("checks", self._rows["markets"], self._rows["currency"])
        self._section("numbers", *(self._rows[name] for name in ("decimals", "paper", "numbering")))
        self._section("balances", self._balances)
        self._add_rules()
        self._column.addStretch(1)
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setWidget(self._body)
        self._pages = QStackedLayout(self)
        self._pages.setContentsMargins(0, 0, 0, 0)
        self._pages.addWidget(self._scroll)
        self._pages.addWidget(self.rules)

    def _add_rules(self) -> None:
        self._rules_said = QLabel()
        self._rules_said.setProperty("role", "secondary")
        self._rules_said.setWordWrap(True)
        self._open_rules = LinkButton(self._words.say("own-rules-open"), "studio_open_rules")
        self._open_rules.clicked.connect(lambda *_checked: self.show_rules())
        self._section("rules", self._rules_said, self._open_rules)
        self.rules = RulesPage(self._work, self.held)
        self.rules.left.connect(self.leave_rules)

    def _head(self) -> QVBoxLayout:
        title = QLabel(self._words.say("studio-title"))
        title.setProperty("role", "title")
        is_read_only = self._work.studio.read_only
        text = "studio-text-read-only" if is_read_only else "studio-text"
        said = QLabel(self._words.say(text))
        said.setProperty("role", "secondary")
        said.setWordWrap(True)
        self._undo = LinkButton("", "studio_undo")
        self._undo.clicked.connect(lambda *_checked: self.held.session.stack.undo())
        row = QHBoxLayout()
        row.addWidget(said, 1)
        row.addWidget(self._undo)
        head = QVBoxLayout()
        head.addWidget(title)
        head.addLayout(row)
        return head

    def _make_rows(self) -> None:
        words, change = self._words, self.held.change
        markets = [(one, words.say("form-market-long", market=one)) for one in MARKETS]
        papers = [(one, words.say("studio-paper-name", paper=one)) for one in PAPERS]
        styles = [
            (style.value, words.say("studio-decimals-name", style=style.name.lower()))
            for style in NumberStyle
        ]
        rows: tuple[SettingRow, ...] = (
            TextRow("name", words, read_name),
            TextRow("contact", words, read_contact),
            TextRow("currency", words, read_currency),
            TextRow("numbering", words, read_numbering),
            TicksRow("markets", words, markets),
            ChoiceRow("paper", words, papers),
            ChoiceRow("decimals", words, styles),
        )
        for row in rows:
            self._rows[row.name] = row
            if row.name == "decimals":
                row.taken.connect(
                    lambda value: change("decimals", decimal_style=NumberStyle(value))
                )
            else:
                row.taken.connect(lambda value, name=row.name: change(name, **{name: value}))

    def _section(self, name: str, *widgets: QWidget) -> None:
        column = QVBoxLayout()
        head = QLabel(self._words.say(f"studio-section-{name}"))
        head.setProperty("role", "heading")
        rule = QFrame()
        rule.setProperty("role", "rule")
        column.addWidget(head)
        column.addWidget(rule)
        for widget in widgets:
            column.addWidget(widget)
        self._sections.append(column)
        self._column.addLayout(column)
