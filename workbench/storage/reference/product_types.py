"""The shipped product types: what a draft of each starts with."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from decimal import Decimal
from pathlib import Path
from types import MappingProxyType

from workbench.formula.skeleton import ProductType, TypeLine, TypePhase
from workbench.storage.reference.rows import Row, amount, read_rows

REST = "rest"


def load_product_types(folder: Path) -> Mapping[str, ProductType]:
    """Return every product type that has a skeleton, by its key."""
    lines: defaultdict[tuple[str, str], list[TypeLine]] = defaultdict(list)
    for row in read_rows(folder, "product_type_lines.csv"):
        lines[row["type"], row["phase_place"]].append(_line(row))
    phases: defaultdict[str, list[TypePhase]] = defaultdict(list)
    for row in read_rows(folder, "product_type_phases.csv"):
        phases[row["type"]].append(_phase(row, tuple(lines[row["type"], row["place"]])))
    rows = read_rows(folder, "product_types.csv")
    return MappingProxyType({row["key"]: _type(row, tuple(phases[row["key"]])) for row in rows})


def _type(row: Row, phases: tuple[TypePhase, ...]) -> ProductType:
    return ProductType(
        key=row["key"],
        exposure=row["exposure"],
        area=row["area"],
        usual_ph=_window(row["ph_low"], row["ph_high"]),
        target_ph=_window(row["target_ph_low"], row["target_ph_high"]),
        note=row["note"],
        phases=phases,
        source=row["source"],
        confidence=row["confidence"],
    )


def _phase(row: Row, lines: tuple[TypeLine, ...]) -> TypePhase:
    return TypePhase(
        name=row["phase"],
        kind=row["kind"],
        step=row["step"],
        target_c=amount(row["target_c"]),
        hold_min=amount(row["hold_min"]),
        lines=lines,
    )


def _line(row: Row) -> TypeLine:
    return TypeLine(
        ingredient=row["ingredient"],
        role=row["role"],
        percent=None if row["percent"] == REST else Decimal(row["percent"]),
        low=amount(row["low"]),
        high=amount(row["high"]),
        basis=row["basis"],
        to_ph=row["to_ph"] == "y",
        source=row["source"],
        confidence=row["confidence"],
    )


def _window(low: str, high: str) -> tuple[Decimal, Decimal] | None:
    return (Decimal(low), Decimal(high)) if low and high else None
