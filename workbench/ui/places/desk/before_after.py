"""Rows of before and after as the text of a label: aligned figures over thin rules."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING

from workbench.words.numbers import percent_text

if TYPE_CHECKING:
    from collections.abc import Iterable
    from decimal import Decimal

    from workbench.ui.theme import Theme
    from workbench.words.catalogue import Words


@dataclass(frozen=True, slots=True)
class Cells:
    """Hold one row of before and after: what it is, both sides, and what changed."""

    name: str
    before: str
    after: str
    by: str = ""
    was: str = ""


class BeforeAfter:
    """Write rows of before and after."""

    def __init__(self, words: Words, theme: Theme) -> None:
        """Take how it is written."""
        self.words = words
        self.theme = theme

    def percent(self, percent: Decimal) -> str:
        """Return a percent as the sheet writes it."""
        return percent_text(percent, self.words.style)

    def gain(self, by: Decimal) -> str:
        """Return by how much a percent changes, with its sign."""
        return self.signed(by, self.percent(abs(by)))

    @staticmethod
    def signed(by: Decimal, text: str) -> str:
        """Return a text behind the sign of a change."""
        return f"{'+' if by > 0 else chr(0x2212)}{text}"

    def heading(self, text: str) -> str:
        """Return the heading of a part."""
        theme = self.theme
        return (
            f'<p style="font-size:{theme.px(13)}px; font-weight:700;'
            f' color:{theme.palette.secondary}">{escape(text)}</p>'
        )

    def quiet(self, text: str) -> str:
        """Return a sentence that steps back."""
        return f"<p>{self.grey(escape(text))}</p>"

    def grey(self, html: str) -> str:
        """Return a piece of text that steps back."""
        return f'<span style="color:{self.theme.palette.secondary}">{html}</span>'

    def table(self, heading: str, rows: Iterable[Cells], *, has_change: bool = True) -> str:
        """Return rows under their heading, both sides right under each other."""
        say, sides = (
            self.words.say,
            ("before", "after", "by") if has_change else ("before", "after"),
        )
        heads = "".join(
            self.cell(self.grey(f"<small>{escape(say(f'effect-{side}'))}</small>"), is_right=True)
            for side in sides
        )
        head = f"<tr>{self.cell(self.grey(f'<b>{escape(heading)}</b>'), is_wide=True)}{heads}</tr>"
        body = "".join(self.row(cells, len(sides)) for cells in rows)
        return f'<table width="100%" cellspacing="0">{head}{body}</table>'

    def row(self, cells: Cells, sides: int) -> str:
        """Return one row with so many figures."""
        name = escape(cells.name)
        if cells.was:
            name = f"{self.grey(escape(cells.was))}<br><b>{name}</b>"
        figures = (escape(cells.before), f"<b>{escape(cells.after)}</b>", escape(cells.by))
        shown = "".join(self.cell(text, is_right=True) for text in figures[:sides])
        return f"<tr>{self.cell(name, is_wide=True)}{shown}</tr>"

    def cell(self, html: str, *, is_right: bool = False, is_wide: bool = False) -> str:
        """Return one cell above its rule."""
        theme = self.theme
        style = (
            f"padding:{theme.px(3)}px {0 if is_wide and not is_right else theme.px(8)}px"
            f" {theme.px(3)}px 0; border-bottom:1px solid {theme.palette.rule};"
        )
        align = ' align="right"' if is_right else ""
        width = "" if is_wide else ' width="1"'
        held = html if is_wide else f'<p style="white-space:nowrap; margin:0">{html}</p>'
        return f'<td{align}{width} style="{style}">{held}</td>'
