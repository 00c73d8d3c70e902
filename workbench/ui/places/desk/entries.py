"""What the list of formulas shows: read from the studio, sought through and put in order."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import UTC, datetime
from enum import Enum

from workbench.storage.folding import folded
from workbench.storage.formula_entries import FormulaEntry
from workbench.storage.studio import Studio


class Section(Enum):
    """Under which heading a formula stands."""

    DRAFTS = "drafts"
    FORMULAS = "formulas"
    STOCKS = "stocks"
    ARCHIVED = "archived"


class Order(Enum):
    """In which order formulas stand under their heading."""

    NAME = "name"
    EDITED = "edited"
    TYPE = "type"


_NEVER = datetime(1, 1, 1, tzinfo=UTC)


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
    is_stock: bool = False
    tags: tuple[str, ...] = ()
    product_type: str = "other"
    edited_at: datetime = _NEVER
    folded_name: str = ""


@dataclass(frozen=True, slots=True)
class Wanted:
    """Hold what the maker looks for in the list."""

    typed: str = ""
    tag: str = ""
    order: Order = Order.NAME
    is_archive_shown: bool = False

    @property
    def is_everything(self) -> bool:
        """Tell whether nothing is held back but the archive."""
        return not folded(self.typed) and not self.tag


class ListReader:
    """Read the list, and what is found in it by the name of an ingredient used."""

    def __init__(self, studio: Studio) -> None:
        """Take the studio."""
        self._studio = studio

    def read(self) -> tuple[ListedFormula, ...]:
        """Return the formulas by section and name, the archive last."""
        listed = [listed_of(entry) for entry in self._studio.formulas.entries(archived=True)]
        return tuple(_by_section(listed))

    def read_wanted(
        self, wanted: Wanted
    ) -> tuple[tuple[ListedFormula, ...], tuple[ListedFormula, ...]]:
        """Return all formulas, and those the maker looks for in the order asked for."""
        everything = self.read()
        using = self._studio.formulas.using(wanted.typed) if folded(wanted.typed) else frozenset()
        return everything, chosen(everything, wanted, using)


def listed_of(entry: FormulaEntry) -> ListedFormula:
    """Return an entry as the list shows it."""
    is_changed = entry.version_made_at is None or entry.edited_at > entry.version_made_at
    return ListedFormula(
        key=entry.key,
        name=entry.name,
        section=_section(entry, is_changed=is_changed),
        version=entry.latest_version,
        is_changed=is_changed,
        used_in=entry.used_in,
        is_stock=entry.is_stock,
        tags=entry.tags,
        product_type=entry.product_type,
        edited_at=entry.edited_at,
        folded_name=folded(entry.name),
    )


def chosen(
    formulas: tuple[ListedFormula, ...], wanted: Wanted, using: frozenset[str]
) -> tuple[ListedFormula, ...]:
    """Return the formulas that fit: by name, by tag, or by an ingredient they use."""
    asked = folded(wanted.typed)
    fitting = [
        formula
        for formula in formulas
        if (wanted.is_archive_shown or formula.section is not Section.ARCHIVED)
        and (not wanted.tag or wanted.tag in formula.tags)
        and (not asked or _fits(formula, asked) or formula.key in using)
    ]
    if wanted.order is not Order.NAME:
        fitting.sort(key=_SORTS[wanted.order])
    return tuple(_by_section(fitting))


def tags_in(formulas: Iterable[ListedFormula]) -> tuple[str, ...]:
    """Return every tag in use, in the order of the alphabet."""
    return tuple(sorted({tag for formula in formulas for tag in formula.tags}, key=folded))


def _section(entry: FormulaEntry, *, is_changed: bool) -> Section:
    if entry.archived:
        return Section.ARCHIVED
    if entry.is_stock:
        return Section.STOCKS
    return Section.DRAFTS if is_changed else Section.FORMULAS


def _fits(formula: ListedFormula, asked: str) -> bool:
    return asked in formula.folded_name or any(asked in folded(tag) for tag in formula.tags)


def _by_section(listed: list[ListedFormula]) -> Iterable[ListedFormula]:
    for section in Section:
        yield from (formula for formula in listed if formula.section is section)


_SORTS: dict[Order, Callable[[ListedFormula], tuple[float | str, str]]] = {
    Order.EDITED: lambda formula: (-formula.edited_at.timestamp(), formula.folded_name),
    Order.TYPE: lambda formula: (formula.product_type, formula.folded_name),
}
