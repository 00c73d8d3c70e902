"""Mixtures on which the engine stands beside PHREEQC: the shipped ones, and seeded ones."""

from __future__ import annotations

import random

from tests.chemistry.acids import acids, shipped_rows
from workbench.chemistry.acid_base import solve
from workbench.chemistry.system import AcidBase, OutOfRange, Solution, StrongIon

SEED = 20261
SHIPPED = ("lactic", "glycolic", "citric", "benzoic", "sorbic", "arginine")
# What a formula may hold beside them; phytic acid is left out, its constants being guesses.
OTHERS = (
    *("carbonic", "phosphoric", "boric", "malic", "tartaric", "succinic", "ascorbic", "salicylic"),
    *("mandelic", "gluconic", "azelaic", "levulinic", "anisic", "dehydroacetic", "edta", "glda"),
    *("glycine", "lysine", "histidine", "glutamic", "pca", "niacinamide", "tea", "tris", "amp"),
    *("ammonia", "kojic", "allantoin", "tranexamic", "acetic", "formic", "propionic", "sulfuric"),
)


def shipped_mixture(row: dict[str, str]) -> Solution:
    """Return one row of the shipped table of mixtures as a solution."""
    totals = [(acids()[key], float(row[f"m_{key}"] or 0)) for key in SHIPPED]
    strong = [StrongIon(1, float(row["m_Na"] or 0)), StrongIon(1, float(row["m_K"] or 0))]
    return Solution(tuple(pair for pair in totals if pair[1]), tuple(strong))


def compared_mixtures(seeded: int = 160) -> list[tuple[str, Solution]]:
    """Return the shipped mixtures and seeded ones, pH 2 to 11 and ionic strength up to 1."""
    shipped = [
        (row["mixture"], shipped_mixture(row)) for row in shipped_rows("phreeqc_mixtures.csv")
    ]
    found = [(name, mixture) for name, mixture in shipped if is_compared(mixture)]
    chance = random.Random(SEED)
    while seeded:
        name, mixture = _seeded(chance)
        if is_compared(mixture):
            found.append((name, mixture))
            seeded -= 1
    return found


def compared_acids() -> tuple[AcidBase, ...]:
    """Return every acid of the compared mixtures."""
    return tuple(acids()[key] for key in (*SHIPPED, *OTHERS))


def is_compared(mixture: Solution) -> bool:
    """Say whether a mixture lies in the range that is compared."""
    try:
        answer = solve(mixture)
    except OutOfRange:
        return False
    return 2.0 <= answer.ph <= 11.0 and answer.ionic_strength <= 1.0


def _seeded(chance: random.Random) -> tuple[str, Solution]:
    keys = chance.sample((*SHIPPED, *OTHERS), chance.randint(1, 5))
    if chance.random() < 0.5:
        keys[0] = chance.choice(("carbonic", "phosphoric", "boric", "citric"))
    keys = list(dict.fromkeys(keys))
    totals = tuple((acids()[key], 10.0 ** chance.uniform(-3.3, -0.6)) for key in keys)
    lowest = sum(acid.charges[-1] * amount for acid, amount in totals)
    highest = sum(acid.charges[0] * amount for acid, amount in totals)
    # Enough lye or hydrochloric acid to stand somewhere between all protons held and all lost.
    charge = -(lowest + (highest - lowest) * chance.random())
    salt = chance.choice((0.0, 0.0, 10.0 ** chance.uniform(-3.0, -0.1)))
    strong = (StrongIon(1, salt + max(charge, 0.0)), StrongIon(-1, salt + max(-charge, 0.0)))
    neutral = chance.choice((0.0, 0.0, chance.uniform(0.0, 2.0)))
    return " + ".join(keys), Solution(totals, strong, neutral)
