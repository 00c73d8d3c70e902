"""What the list of formulas shows, read from the studio."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from workbench.storage.formulas import FormulaEntry
from workbench.storage.studio import Studio


class Section(Enum):
    """Under which heading a formula stands."""

    DRAFTS = "drafts"
    FORMULAS = "formulas"
    STOCKS = "stocks"


@dataclass(frozen=True, slots=True)
class ListedFormula:
    """Hold one formula of the list.

    `version` is the latest, None before the first; `is_changed` tells whether the draft was
    edited since; `used_in` counts the formulas that use it, for a stock.
    """

    key: str
    name: str
    section: Section
    version: int | None
    is_changed: bool
    used_in: int = 0


class ListReader:
    """Read the list; when a version was made never changes, so it is asked for once."""

    def __init__(self, studio: Studio) -> None:
        """Take the studio."""
        self._studio = studio
        self._made: dict[tuple[str, int], float] = {}

    def read(self) -> tuple[ListedFormula, ...]:
        """Return the formulas by section and name."""
        listed = [self._listed(entry) for entry in self._studio.formulas.entries()]
        return tuple(_by_section(listed))

    def _listed(self, entry: FormulaEntry) -> ListedFormula:
        is_changed = self._is_changed(entry)
        section = Section.DRAFTS if is_changed else Section.FORMULAS
        used_in = 0
        if entry.is_stock:
            section = Section.STOCKS
            used_in = len(self._studio.formulas.used_in(entry.key))
        return ListedFormula(
            entry.key, entry.name, section, entry.latest_version, is_changed, used_in
        )

    def _is_changed(self, entry: FormulaEntry) -> bool:
        if entry.latest_version is None:
            return True
        place = (entry.key, entry.latest_version)
        if place not in self._made:
            for version in self._studio.versions.entries(entry.key):
                self._made[entry.key, version.number] = version.made_at.timestamp()
        return entry.edited_at.timestamp() > self._made[place]


def _by_section(listed: list[ListedFormula]) -> Iterable[ListedFormula]:
    for section in Section:
        yield from (formula for formula in listed if formula.section is section)
