"""Read the tables that the preservative figures rest on."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from workbench.checks.preservation_facts import Acid, Form, PreservationFacts
from workbench.checks.preservative_values import Basis, Range, Wanted
from workbench.storage.reference.cells import TableRow, table_rows

FORMS = "preservative_forms.csv"

T = TypeVar("T")


def load_preservation(folder: Path) -> PreservationFacts:
    """Return every fact the preservative figures need.

    Raises
    ------
    WorkbenchError
        A row is malformed; file, line and reason are told.
    """
    forms = tuple(table_rows(folder, FORMS))
    return PreservationFacts(
        forms=MappingProxyType({row.text("substance_key"): _form(row) for row in forms}),
        acids=_acids(forms, _pkas(folder)),
        oil_classes=MappingProxyType(
            {
                row.text("ingredient_key"): row.text("oil_class")
                for row in table_rows(folder, "oil_classes.csv")
            }
        ),
        partitions=_partitions(folder),
        bindings=_bindings(folder),
        solubilities=MappingProxyType(
            {
                row.text("substance_key"): _range(row, "low", "percent", "high")
                for row in table_rows(folder, "solubility.csv")
            }
        ),
        wanted=MappingProxyType(
            {
                row.text("substance_key"): _wanted(row)
                for row in table_rows(folder, "preservative_levels.csv")
            }
        ),
    )


def _form(row: TableRow) -> Form:
    moles = row.number("moles")
    if moles != int(moles):
        row.refuse(f"moles is {moles}, no whole number")
    return Form(row.text("active_key"), int(moles), row.optional("acid_key"))


def _pkas(folder: Path) -> Mapping[str, float]:
    return {
        row.text("key"): float(row.real("pKa1"))
        for row in table_rows(folder, "acids_bases.csv")
        if row.optional("pKa1")
    }


def _acids(forms: tuple[TableRow, ...], pkas: Mapping[str, float]) -> Mapping[str, Acid]:
    acids: dict[str, Acid] = {}
    for row in forms:
        key = row.optional("acid_key")
        if not key:
            continue
        if key not in pkas:
            row.refuse(f"acid_key {key!r} is in no row of acids_bases.csv")
        acids[key] = Acid(pkas[key], float(row.number("pka_spread")))
    return MappingProxyType(acids)


def _partitions(folder: Path) -> Mapping[str, Mapping[str, Range]]:
    found: dict[str, dict[str, Range]] = {}
    for row in table_rows(folder, "partition.csv"):
        by_class = found.setdefault(row.text("substance_key"), {})
        by_class[row.text("oil_class")] = _range(row, "low", "estimate", "high")
    return _frozen(found)


def _bindings(folder: Path) -> Mapping[str, Mapping[str, float]]:
    found: dict[str, dict[str, float]] = {}
    for row in table_rows(folder, "binding.csv"):
        by_surfactant = found.setdefault(row.text("substance_key"), {})
        by_surfactant[row.text("surfactant_key")] = float(row.number("k_per_percent"))
    return _frozen(found)


def _frozen(found: dict[str, dict[str, T]]) -> Mapping[str, Mapping[str, T]]:
    return MappingProxyType({key: MappingProxyType(inner) for key, inner in found.items()})


def _range(row: TableRow, low: str, estimate: str, high: str) -> Range:
    return Range(*(float(value) for value in row.rising(low, estimate, high)))


def _wanted(row: TableRow) -> Wanted:
    word = row.text("basis")
    if word not in {basis.value for basis in Basis}:
        row.refuse(f"basis is {word!r}, none of the known ones")
    level, upper = row.rising("level", "upper")
    return Wanted(level, upper, Basis(word), row.text("source"), row.text("confidence"))
