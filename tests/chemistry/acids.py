"""The shipped acids and bases, and solutions written as text, for the tests of the engine."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

from workbench import paths
from workbench.chemistry.activity import Activity
from workbench.chemistry.system import AcidBase, Solution, StrongIon, dissolved

# No activity correction, Kw 1e-14: the model of textbook examples.
IDEAL = Activity(debye_hueckel=0.0, linear=0.0, neutral=0.0, water=0.0, pkw=14.0)
TRUTH = Path(__file__).resolve().parents[1] / "truth"
IONS = {"Na": 1, "K": 1, "Cl": -1}


@cache
def shipped_rows(name: str) -> tuple[dict[str, str], ...]:
    """Return the rows of a shipped table."""
    with (paths.resources() / "reference" / name).open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))


def truth_rows(name: str) -> tuple[dict[str, str], ...]:
    """Return the rows of a table of truths."""
    with (TRUTH / name).open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file, delimiter="\t"))


@cache
def acids() -> dict[str, AcidBase]:
    """Return every shipped acid, base and ampholyte by key."""
    found = {}
    for row in shipped_rows("acids_bases.csv"):
        pkas = tuple(float(row[f"pKa{n}"]) for n in range(1, 13) if row[f"pKa{n}"])
        if pkas:
            charge = int(row["charge_of_fully_protonated_species"])
            found[row["key"]] = AcidBase(row["key"], pkas, charge)
    return found


@cache
def molar_masses() -> dict[str, float]:
    """Return molar masses of the shipped acids and bases [g/mol]."""
    return {
        row["key"]: float(row["molar_mass_g_mol"])
        for row in shipped_rows("acids_bases.csv")
        if row["molar_mass_g_mol"]
    }


def solution(text: str) -> Solution:
    """Return the solution written as `acetic 0.1; Na 0.05`, molalities [mol/kg]."""
    amounts = [part.split() for part in text.split(";") if part.strip()]
    return Solution(
        tuple((acids()[key], float(amount)) for key, amount in amounts if key not in IONS),
        tuple(StrongIon(IONS[key], float(amount)) for key, amount in amounts if key in IONS),
    )


SALTS = {
    "sodium_benzoate": ("benzoic", "Na", 144.1035),
    "potassium_sorbate": ("sorbic", "K", 150.2171),
}


def in_100_g(text: str) -> Solution:
    """Return the mixture written as `lactic 1; Na 0.5 of lactic`, grams in 100 g, water the rest.

    `Na 0.5 of lactic` is sodium hydroxide, 0.5 mol for a mole of the acid. The water it forms is
    left uncounted, as a formula's worksheet counts it: 1 g of lye is 1 g less of water.
    """
    totals: dict[str, float] = {}
    ions: list[tuple[str, float]] = []
    water = 100.0
    for part in text.split(";"):
        key, amount, *of = part.split()
        if of:
            moles = float(amount) * totals[of[1]]
            ions.append((key, moles))
            water -= moles * 39.9971
        elif key in SALTS:
            acid, ion, mass = SALTS[key]
            totals[acid] = totals.get(acid, 0.0) + float(amount) / mass
            ions.append((ion, float(amount) / mass))
            water -= float(amount)
        else:
            totals[key] = totals.get(key, 0.0) + float(amount) / molar_masses()[key]
            water -= float(amount)
    return dissolved(
        [(acids()[key], amount) for key, amount in totals.items()],
        [StrongIon(IONS[key], amount) for key, amount in ions],
        0.0,
        water / 1000,
    )
