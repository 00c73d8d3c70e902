"""Read the lists of fragrance allergens and the substances each name covers."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from types import MappingProxyType

from workbench.checks.label_rules import AllergenRule
from workbench.storage.reference.cells import TableRow, table_rows
from workbench.storage.reference.labelling import day, unique

FIRST, ADDED = "first", "added"
_PROHIBITED = "original, now PROHIBITED"
_LISTS = {
    "original (Dir. 2003/15/EC list)": FIRST,
    "original, entry rewritten by 2023/1545": FIRST,
    "new (2023/1545)": ADDED,
    "UNCERTAIN: rewritten entry": ADDED,
}


def load_allergens(folder: Path) -> tuple[AllergenRule, ...]:
    """Return the allergens that are label names, in the order of the table.

    Raises
    ------
    WorkbenchError
        A row is malformed, stands twice, or names a status or an allergen that is not known.
    """
    rows = tuple(unique(table_rows(folder, "allergens.csv"), "label_name"))
    covered = _covered(folder, frozenset(row.text("label_name") for row in rows))
    return tuple(
        _rule(row, covered) for row in rows if row.text("status") != _PROHIBITED
    )  # what is prohibited is no label name; the limits speak of it


def allergens_by_substance(
    rules: tuple[AllergenRule, ...],
) -> Mapping[str, tuple[AllergenRule, ...]]:
    """Return the allergen rules that cover each substance."""
    found: dict[str, tuple[AllergenRule, ...]] = {}
    for rule in rules:
        for substance in rule.substances:
            found[substance] = (*found.get(substance, ()), rule)
    return MappingProxyType(found)


def _covered(folder: Path, labels: frozenset[str]) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    rows = table_rows(folder, "allergen_links.csv")
    for row in unique(rows, "allergen_label", "substance_key"):
        label = row.text("allergen_label")
        if label not in labels:
            row.refuse(f"{label!r} is no allergen of allergens.csv")
        found[label] = (*found.get(label, ()), row.text("substance_key"))
    return found


def _rule(row: TableRow, covered: Mapping[str, tuple[str, ...]]) -> AllergenRule:
    label, status = row.text("label_name"), row.text("status")
    if status not in _LISTS:
        row.refuse(f"status is {status!r}, which is none of the lists")
    if label not in covered:
        row.refuse(f"{label!r} covers no substance in allergen_links.csv")
    leave_on = row.number("threshold_leave_on_percent")
    rinse_off = row.number("threshold_rinse_off_percent")
    placing, available = _dates(row, is_added=_LISTS[status] == ADDED)
    return AllergenRule(
        label=label,
        listed=_LISTS[status],
        substances=covered[label],
        leave_on=leave_on,
        rinse_off=rinse_off,
        placing=placing,
        making_available=available,
        is_doubtful=status.startswith("UNCERTAIN"),
        source=row.text("source"),
        confidence=row.text("confidence"),
    )


def _dates(row: TableRow, *, is_added: bool) -> tuple[date | None, date | None]:
    placing = day(row, "placing_deadline")
    available = day(row, "making_available_deadline")
    if not is_added:
        return None, None  # the dates of a rewritten entry are of what changed, not of the name
    if placing is None or available is None:
        row.refuse("an added allergen needs both its dates")
    if available < placing:
        row.refuse("making_available_deadline is before placing_deadline")
    return placing, available
