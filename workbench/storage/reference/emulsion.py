"""Read the tables that the emulsion and density figures rest on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from pathlib import Path
from types import MappingProxyType

from workbench.checks.density_facts import DensityFacts, Points
from workbench.checks.emulsion_facts import EmulsionFacts
from workbench.checks.preservative_values import Range
from workbench.storage.reference.cells import TableRow, table_rows

WATER = "water"
_TABLE_C = 20
_ROOM_C = 30


def load_emulsion(folder: Path) -> EmulsionFacts:
    """Return the spread of required HLB values, and usual contents of active surfactant.

    Raises
    ------
    WorkbenchError
        A row is malformed; file, line and reason are told.
    """
    return EmulsionFacts(
        required=_spans(folder, "required_hlb.csv", "ingredient_key"),
        bands=_spans(folder, "surfactant_bands.csv", "product_type"),
    )


def load_densities(folder: Path) -> DensityFacts:
    """Return the densities of water, of solutions at 20 °C, of liquids and of classes.

    Raises
    ------
    WorkbenchError
        A row is malformed; file, line and reason are told.
    """
    rows = tuple(table_rows(folder, "density.csv"))
    substances = _substances(folder)
    return DensityFacts(
        water=_points(row for row in rows if row.text("substance") == WATER),
        solutions=_solutions(rows, substances),
        materials=_materials(rows, substances),
        classes=MappingProxyType(
            {
                row.text("density_class"): Range(
                    *(float(value) for value in row.rising("low", "estimate", "high"))
                )
                for row in table_rows(folder, "density_classes.csv")
            }
        ),
    )


def _spans(folder: Path, table: str, key: str) -> Mapping[str, tuple[Decimal, Decimal]]:
    found: dict[str, tuple[Decimal, Decimal]] = {}
    for row in table_rows(folder, table):
        low, high = row.rising("low", "high")
        found[row.text(key)] = (low, high)
    return MappingProxyType(found)


def _substances(folder: Path) -> Mapping[str, str]:
    return {
        row.text("name"): row.text("target_key")
        for row in table_rows(folder, "reference_names.csv")
        if row.text("table") == "density.csv" and row.text("target_kind") == "substance"
    }


def _points(rows: Iterable[TableRow]) -> Points:
    return tuple(
        sorted((float(row.number("temp_C")), float(row.number("density_g_mL"))) for row in rows)
    )


def _solutions(rows: tuple[TableRow, ...], substances: Mapping[str, str]) -> Mapping[str, Points]:
    found: dict[str, list[tuple[float, float]]] = {}
    for row in rows:
        name = row.text("substance")
        in_water = name.endswith((" solution", "-water"))
        if in_water and name in substances and row.number("temp_C") == _TABLE_C:
            found.setdefault(substances[name], []).append(
                (float(row.number("wt_percent")), float(row.number("density_g_mL")))
            )
    return MappingProxyType({key: tuple(sorted(points)) for key, points in found.items()})


def _materials(rows: tuple[TableRow, ...], substances: Mapping[str, str]) -> Mapping[str, Range]:
    found: dict[str, Range] = {}
    for row in rows:
        name = row.text("substance")
        is_melt = row.number("temp_C") > _ROOM_C
        if name in substances and row.optional("low") and not is_melt:
            values = row.rising("low", "density_g_mL", "high")
            found[substances[name]] = Range(*(float(value) for value in values))
    return MappingProxyType(found)
