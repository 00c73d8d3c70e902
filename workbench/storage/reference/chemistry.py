"""Read the tables of acids, bases and salts, and how sure they are."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from workbench.chemistry.facts import (
    AcidRange,
    ChemistryFacts,
    Gift,
    KnownAdjuster,
    Spread,
    UnknownSolute,
)
from workbench.chemistry.mixture import mean_charge
from workbench.chemistry.system import AcidBase
from workbench.errors import WorkbenchError
from workbench.storage.reference.rows import Row, items, read_rows

T = TypeVar("T")

MMOL = 1e-3
MOST_PKAS = 12
STRONG, NEUTRAL, NOT_MODELLED = "strong ion", "neutral", "none"
FALLBACK, AS_SUPPLIED = "fallback", "as supplied"
AS_READ, FROM_MEMORY, PROPOSED = "default-read", "default-memory", "default-proposed"

Acids = Mapping[str, AcidBase]


def load_chemistry(folder: Path) -> ChemistryFacts:
    """Return what the pH of a mixture is worked out from.

    Raises
    ------
    WorkbenchError
        A row cannot be read; the detail names file, line and reason.
    """
    listed = _acids(folder)
    ranges = _ranges(folder, listed)
    acids = {key: _apparent(one.acid, ranges[key][1]) for key, one in listed.items()}
    gifts, unmodelled = _gifts(folder, acids)
    return ChemistryFacts(
        acids=MappingProxyType(acids),
        gifts=gifts,
        ranges=MappingProxyType({key: found for key, (found, _) in ranges.items()}),
        reach=MappingProxyType(dict(_each(folder, "solute_ranges.csv", _reach))),
        unknown=MappingProxyType(
            dict(_each(folder, "unknown_acids.csv", lambda row: _unknown(row, acids)))
        ),
        unmodelled=MappingProxyType(
            {**unmodelled, **dict(_each(folder, "unmodelled.csv", _unmodelled))}
        ),
        adjusters=tuple(_each(folder, "adjusters.csv", _adjuster)),
        figures=MappingProxyType(dict(_each(folder, "chemistry_figures.csv", _figure))),
    )


def load_adjuster_keys(folder: Path) -> frozenset[str]:
    """Return the ingredients that a pH can be moved with, whatever is in the formula."""
    return frozenset(row["ingredient_key"] for row in read_rows(folder, "adjusters.csv"))


def _each(folder: Path, table: str, made_of: Callable[[Row], T]) -> list[T]:
    made: list[T] = []
    # The header is line 1 of the file.
    for line, row in enumerate(read_rows(folder, table), start=2):
        try:
            made.append(made_of(row))
        except (ValueError, KeyError, TypeError) as fault:
            raise _unreadable(f"{table}, line {line}: {_reason(fault)}") from fault
    return made


def _unreadable(detail: str) -> WorkbenchError:
    return WorkbenchError(
        "A table of the chemistry cannot be read.",
        "Install the program again, or mend the row.",
        detail,
    )


def _reason(fault: Exception) -> str:
    if isinstance(fault, KeyError):
        return f"{fault.args[0]!r} is missing, or in no table that has to know it"
    return str(fault)


@dataclass(frozen=True, slots=True)
class _Listed:
    acid: AcidBase
    default: str
    molar_mass: float | None


def _acids(folder: Path) -> dict[str, _Listed]:
    found = [
        *_each(folder, "acids_bases.csv", _acid),
        *_each(folder, "acids_bases_proposed.csv", _proposed),
    ]
    return {listed.acid.key: listed for listed in found}


def _acid(row: Row) -> _Listed:
    cells = [row[f"pKa{step}"] for step in range(1, MOST_PKAS + 1)]
    pkas = tuple(float(cell) for cell in cells if cell)
    charge = int(row["charge_of_fully_protonated_species"])
    return _Listed(
        AcidBase(_named(row["key"]), pkas, charge),
        FROM_MEMORY if row["confidence"] == "memory" else AS_READ,
        _optional(row["molar_mass_g_mol"]),
    )


def _proposed(row: Row) -> _Listed:
    pkas = tuple(float(cell) for cell in items(row["pKa"]))
    charge = int(row["charge_of_fully_protonated_species"])
    return _Listed(AcidBase(_named(row["key"]), pkas, charge), PROPOSED, None)


def _ranges(
    folder: Path, listed: Mapping[str, _Listed]
) -> dict[str, tuple[AcidRange, float | None]]:
    rows = dict(_each(folder, "acid_ranges.csv", lambda row: _range(row, listed)))
    missing = sorted({one.default for one in listed.values()} - set(rows))
    if missing:
        raise _unreadable(f"acid_ranges.csv: no row {', '.join(missing)}")
    return {key: rows.get(key) or rows[one.default] for key, one in listed.items()}


def _range(row: Row, listed: Mapping[str, _Listed]) -> tuple[str, tuple[AcidRange, float | None]]:
    key = row["acid_key"]
    if key not in listed and key not in {AS_READ, FROM_MEMORY, PROPOSED}:
        raise KeyError(key)
    _sourced(row)
    dissolves = _optional(row["soluble_g_per_kg_water"])
    mass = listed[key].molar_mass if key in listed else None
    if dissolves is not None and mass is None:
        raise ValueError(f"{key} has a solubility and no molar mass")
    return key, (
        AcidRange(
            pka_shift=_positive(row["pka_shift"]),
            stays_low=1.0 if row["stays_low"] == "" else _positive(row["stays_low"]),
            soluble=None if dissolves is None or mass is None else dissolves / mass,
            note=row["note_id"],
        ),
        _optional(row["apparent_pka"]),
    )


def _apparent(acid: AcidBase, pka: float | None) -> AcidBase:
    return acid if pka is None else AcidBase(acid.key, (pka,), acid.charge)


def _gifts(folder: Path, acids: Acids) -> tuple[Mapping[str, Gift], dict[str, str]]:
    given: dict[str, tuple[list[tuple[AcidBase, float]], list[tuple[int, float]]]] = {}
    unmodelled: dict[str, str] = {}

    def take(row: Row) -> None:
        key = _named(row["substance_key"])
        if row["model"] == NOT_MODELLED:
            unmodelled[key] = _kind(row["note"])
            return
        if row["model"] == FALLBACK or row["species_kind"] == NEUTRAL:
            return
        brought = given.setdefault(key, ([], []))
        per_gram = _positive(row["mmol_per_g"]) * MMOL
        if row["species_kind"] == STRONG:
            brought[1].append((int(row["charge"]), per_gram))
            return
        # What a substance turns into in the water counts in place of what it is weighed as.
        if row["state"] != AS_SUPPLIED:
            brought[0].clear()
        brought[0].append((acids[row["acids_bases_key"] or row["species"]], per_gram))

    _each(folder, "acid_links.csv", take)
    gifts = {key: Gift(tuple(found), tuple(ions)) for key, (found, ions) in given.items()}
    return MappingProxyType(gifts), unmodelled


def _kind(note: str) -> str:
    for kind in ("clay", "polymer", "extract"):
        if kind in note:
            return kind
    return "extract" if "supplier analysis" in note else "matter"


def _reach(row: Row) -> tuple[str, Spread]:
    return _named(row["key"]), Spread(
        float(row["low"]),
        float(row["typical"]),
        float(row["high"]),
        row["note_id"],
        _sourced(row),
    )


def _unknown(row: Row, acids: Acids) -> tuple[str, UnknownSolute]:
    kind = row["kind"]
    if kind not in {"acid", "alkali", "trace"}:
        raise ValueError(f"{kind!r} is no kind of unknown solute")
    acid = acids[row["stand_in"]] if kind != "alkali" else None
    low, typical, high = (
        float(row[f"{which}_mmol_per_kg"]) * MMOL * MMOL for which in ("low", "typical", "high")
    )
    ions, shift = (1.0, 0.0) if acid is None else _counter_ions(row, acid)
    return _named(row["ingredient_key"]), UnknownSolute(
        acid, Spread(low, typical, high, confidence=_sourced(row)), ions, shift, kind == "trace"
    )


def _counter_ions(row: Row, acid: AcidBase) -> tuple[float, float]:
    own = _optional(row["own_ph"])
    if own is None:
        return 0.0, 0.0
    return -mean_charge(acid, own), float(row["own_ph_half_width"])


def _unmodelled(row: Row) -> tuple[str, str]:
    _sourced(row)
    return _named(row["key"]), _named(row["kind"])


def _adjuster(row: Row) -> KnownAdjuster:
    if row["direction"] not in {"up", "down"}:
        raise ValueError(f"{row['direction']!r} is neither up nor down")
    _sourced(row)
    return KnownAdjuster(
        _named(row["ingredient_key"]),
        row["direction"] == "up",
        _optional(row["most_g_per_g_water"]),
        row["note_id"],
    )


def _figure(row: Row) -> tuple[str, float]:
    _sourced(row)
    return _named(row["key"]), _positive(row["value"])


def _named(cell: str) -> str:
    if not cell:
        raise ValueError("a key is empty")
    return cell


def _positive(cell: str) -> float:
    value = float(cell)
    if not value > 0:
        raise ValueError(f"{cell} is not above zero")
    return value


def _optional(cell: str) -> float | None:
    return _positive(cell) if cell else None


def _sourced(row: Row) -> str:
    if not row["source"] or not row["confidence"]:
        raise ValueError("the row names no source or no confidence")
    return row["confidence"]
