"""What the cells of the sheet search as the maker types."""

from __future__ import annotations

from workbench.ui.editors.name_editor import Choice, Finder
from workbench.ui.places.desk.purposes import purposes_like
from workbench.ui.places.desk.work import DeskWork


def finders(work: DeskWork) -> dict[str, Finder]:
    """Return the search of each kind of cell: ingredients and stocks by name, purposes."""

    def named(text: str, limit: int) -> tuple[Choice, ...]:
        stock = work.words.say("sheet-stock")
        only_on_hand = work.studio.settings.load().on_hand_only
        hits = work.studio.search(text, limit, on_hand=only_on_hand)
        return tuple(Choice(hit.key, hit.name, stock if hit.is_stock else hit.inci) for hit in hits)

    return {
        "name": named,
        "purpose": lambda text, limit: purposes_like(text, work.words, limit),
    }
