"""The difference of two formulas, to read and to copy."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame, QTextBrowser, QWidget

from workbench.ui.places.desk.difference_text import Side, difference_page, first_page
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words


class DifferenceView(QTextBrowser):
    """Show what differs, both sides beside each other."""

    def __init__(self, words: Words, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words = words
        self._html = ""
        self.setObjectName("versions_difference")
        self.setAccessibleName(words.say("versions-difference"))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setOpenLinks(False)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self.document().setDefaultStyleSheet(_style(theme))
        self.setHtml(self._html)

    def show_sides(self, before: Side | None, after: Side) -> None:
        """Show what differs from one to the other; without one, what the other holds."""
        self._html = (
            first_page(after, self._words)
            if before is None
            else difference_page(before, after, self._words)
        )
        self.setHtml(self._html)

    def show_nothing(self) -> None:
        """Show an empty page."""
        self._html = ""
        self.clear()

    @property
    def text(self) -> str:
        """What the page says, as plain text."""
        return self.toPlainText()


def _style(theme: Theme) -> str:
    palette, px = theme.palette, theme.px
    return (
        f"body, p, td {{ font-size: {px(14)}px; color: {palette.ink}; }}"
        f"p {{ margin-top: {px(2)}px; margin-bottom: {px(4)}px; }}"
        f"p.title {{ font-size: {px(17)}px; font-weight: 700; margin-bottom: {px(2)}px; }}"
        f"p.head {{ font-size: {px(15)}px; font-weight: 700; color: {palette.accent};"
        f" margin-top: {px(16)}px; margin-bottom: {px(2)}px; }}"
        f"p.strong {{ font-weight: 700; margin-top: {px(6)}px; }}"
        f"p.small, span.small {{ font-size: {px(12)}px; color: {palette.secondary}; }}"
        f"p.small {{ margin-top: {px(6)}px; }}"
        f"table {{ border-collapse: collapse; }}"
        f"td {{ padding: {px(4)}px {px(6)}px {px(4)}px 0; vertical-align: top;"
        f" border-bottom: 1px solid {palette.rule}; }}"
        f"td.top {{ font-size: {px(13)}px; color: {palette.secondary};"
        f" border-bottom: 1px solid {palette.ink}; }}"
    )
