"""The reference tables as values of the pure rooms: substances, names, ingredients."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path
from types import MappingProxyType

from workbench.formula.ingredient import Constituent, Ingredient, Part
from workbench.formula.substance import Substance
from workbench.storage.reference.rows import Row, amount, items, read_rows


@dataclass(frozen=True, slots=True)
class ReferenceSet:
    """Name the set of tables a figure came from."""

    id: str
    date: date
    title: str


def load_reference_set(folder: Path) -> ReferenceSet:
    """Return which set of tables a folder holds."""
    facts = json.loads((folder / "set.json").read_text(encoding="utf-8"))
    return ReferenceSet(facts["id"], date.fromisoformat(facts["date"]), facts["title"])


def load_atomic_weights(folder: Path) -> Mapping[str, Decimal]:
    """Return atomic weights by element symbol [g/mol]."""
    rows = read_rows(folder, "atomic_weights.csv")
    return MappingProxyType({row["symbol"]: Decimal(row["weight"]) for row in rows})


def load_substances(folder: Path) -> Mapping[str, Substance]:
    """Return every substance by its key."""
    rows = read_rows(folder, "substances.csv")
    return MappingProxyType({row["key"]: _substance(row) for row in rows})


def load_names(folder: Path) -> Mapping[str, str]:
    """Return substance keys by lower-case name."""
    rows = read_rows(folder, "names.csv")
    return MappingProxyType({row["name"]: row["substance_key"] for row in rows})


def load_ingredients(folder: Path) -> Mapping[str, Ingredient]:
    """Return every ingredient by its key, with its composition in substances."""
    rows = read_rows(folder, "ingredients.csv")
    compositions = _compositions(rows, read_rows(folder, "composition_long.csv"))
    insides = _constituents(read_rows(folder, "constituents_long.csv"))
    return MappingProxyType(
        {row["key"]: _ingredient(row, compositions, insides.get(row["key"], ())) for row in rows}
    )


def _substance(row: Row) -> Substance:
    return Substance(
        key=row["key"],
        inci=row["inci"],
        inci_us=row["inci_us"],
        cas=items(row["cas"]),
        formula=row["formula"],
        molar_mass=amount(row["molar_mass_g_mol"]),
        kind=row["kind"],
        counts_as=row["parent"],
        water_fraction=amount(row["water_mass_fraction"]) or Decimal(0),
        is_colourant=row["colourant"] == "y",
        is_declared=row["declared"] == "y",
        source=row["source"],
        confidence=row["confidence"],
    )


def _compositions(
    ingredients: Iterable[Row], parts: Iterable[Row]
) -> Mapping[str, tuple[Part, ...]]:
    purposes = {row["key"]: row["functions"].partition(";")[0] for row in ingredients}
    parts = tuple(parts)
    preservatives = {
        row["substance_key"]
        for row in parts
        if row["how"] == "single" and purposes[row["ingredient_key"]] == "preservative"
    }
    found: defaultdict[str, list[Part]] = defaultdict(list)
    for row in parts:
        key, substance = row["ingredient_key"], row["substance_key"]
        # A preservative that another material carries keeps it from spoiling, whatever the
        # material itself is there for; limits on preservatives count it as one.
        is_carried = substance in preservatives and purposes[key] != "preservative"
        found[key].append(
            Part(
                substance=substance,
                fraction=Decimal(row["mass_fraction"]),
                water=Decimal(row["water_fraction"]),
                purpose="preservative" if is_carried else "",
            )
        )
    return {key: tuple(made_of) for key, made_of in found.items()}


def _constituents(rows: Iterable[Row]) -> Mapping[str, tuple[Constituent, ...]]:
    found: defaultdict[str, list[Constituent]] = defaultdict(list)
    for row in rows:
        if row["already_in_composition"] != "y":
            found[row["ingredient_key"]].append(
                Constituent(
                    substance=row["substance_key"],
                    fraction=Decimal(row["mass_fraction"]),
                    source=row["source"],
                    confidence=row["confidence"],
                )
            )
    return {key: tuple(inside) for key, inside in found.items()}


def _ingredient(
    row: Row, compositions: Mapping[str, tuple[Part, ...]], inside: tuple[Constituent, ...]
) -> Ingredient:
    months = row["shelf_life_months"]
    return Ingredient(
        key=row["key"],
        name=row["common_name"],
        inci=row["inci"],
        cas=items(row["cas"]),
        functions=items(row["functions"]),
        form=row["form"],
        solubility=row["solubility"],
        charge=row["ionic_charge"],
        use_min=amount(row["use_min_percent"]),
        use_max=amount(row["use_max_percent"]),
        use_note=row["use_note"],
        ph_min=amount(row["ph_min"]),
        ph_max=amount(row["ph_max"]),
        max_process_temp_c=amount(row["max_process_temp_c"]),
        density=amount(row["density_g_ml"]),
        water_percent=amount(row["water_percent"]),
        active_percent=amount(row["active_percent"]),
        composition=compositions.get(row["key"], ()),
        hlb=amount(row["hlb"]),
        required_hlb=amount(row["required_hlb_ow"]),
        shelf_life_months=int(months) if months else None,
        incompatibilities=items(row["incompatibilities"]),
        cautions=row["cautions"],
        tags=items(row["tags"]),
        spectrum=items(row["spectrum"]),
        source=row["source"],
        confidence=row["confidence"],
        verified_fields=items(row["verified_fields"]),
        ec_numbers=items(row["ec_number"]),
        origin=row["origin"],
        is_heat_sensitive=row["heat_sensitive"] == "y",
        is_electrolyte_sensitive=row["electrolyte_sensitive"] == "y",
        melts_at_c=amount(row["melts_at_c"]),
        log_p=amount(row["log_p"]),
        is_phototoxic={"y": True, "n": False}.get(row["phototoxic"]),
        dermal_max=amount(row["dermal_max_percent"]),
        constituents=inside,
    )
