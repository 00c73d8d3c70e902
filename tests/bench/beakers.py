"""Virtual beakers: products whose true pH PHREEQC knows, to try the pH guide on.

The guide knows the recipe. The beaker holds it with strengths off by up to 30 %, acid that no
paper names up to 50 mmol/kg, adjusters off by a few percent, drops that cannot be split, a meter
that scatters by 0.03. Every pH comes from a PHREEQC run of its own: no curve is interpolated.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field

from tests.chemistry.acids import acids, molar_masses
from tests.chemistry.phreeqc_engine import Phreeqc
from workbench.bench.ph_log import PhAddition, PhAdjuster, PhLog, PhReading
from workbench.bench.ph_values import Window
from workbench.chemistry.facts import EXACT, Gift, Spread
from workbench.chemistry.mixture import Mixture, Portion
from workbench.chemistry.system import Solution, StrongIon

SEED = 4107
NOISE = 0.03
ASSAY = 0.30
MOST_UNKNOWN = 0.050
ADJUSTER_OFF = 0.03
DROP_G = 0.03
SAMPLE_G = 2.0
WIDTH = 0.6
# More alkaline than this no product comes to the pH meter.
MOST_PH = 9.5
BATCHES = (250.0, 500.0, 1000.0)
UNKNOWN = ("malic", "citric", "lactic", "acetic", "gluconic", "succinic", "levulinic", "phosphoric")
# Molality in one kilogram of product: what each recipe draws from, low and high [mol/kg].
SOUR = {
    "lactic": (0.02, 0.5),
    "glycolic": (0.02, 0.6),
    "citric": (0.005, 0.15),
    "mandelic": (0.02, 0.3),
    "gluconic": (0.01, 0.3),
    "benzoic": (0.01, 0.04),
}
MILD = {
    "lactic": (0.005, 0.15),
    "citric": (0.002, 0.05),
    "benzoic": (0.01, 0.05),
    "phosphoric": (0.002, 0.05),
    "tris": (0.005, 0.08),
    "arginine": (0.003, 0.06),
    "pca": (0.01, 0.1),
    "boric": (0.002, 0.03),
}


def _adjuster(key: str, acid: str, *, is_base: bool) -> PhAdjuster:
    """Return ten parts of an acid or base in ninety of water."""
    amount = 0.1 / molar_masses()[acid]
    return PhAdjuster(key, Gift(((acids()[acid], amount),)), 0.9, is_base, _BOTTLE)


_BOTTLE = Spread(0.95, 1.0, 1.05)
ADJUSTERS = (
    PhAdjuster("sodium_hydroxide_10", Gift(ions=((1, 0.1 / 39.9971),)), 0.9, True, _BOTTLE),
    _adjuster("arginine_10", "arginine", is_base=True),
    _adjuster("citric_acid_10", "citric", is_base=False),
    _adjuster("lactic_acid_10", "lactic", is_base=False),
)


@dataclass(frozen=True, slots=True)
class Recipe:
    """Hold what the guide is told: one kilogram of product, the adjuster, the window."""

    mixture: Mixture
    adjuster: PhAdjuster
    window: Window
    batch_g: float


@dataclass(slots=True)
class Beaker:
    """Hold one beaker: what is truly in it, and what happened to it so far."""

    recipe: Recipe
    acids: dict[str, float]
    charge: float
    strength: dict[str, float]
    chance: random.Random
    mass_g: float
    water_g: float
    added: dict[str, float] = field(default_factory=dict)
    product_g: float = 0.0

    def solution(self) -> Solution:
        """Return what one kilogram of its water has dissolved."""
        product = self.product_g / 1000.0
        totals = {acids()[key]: amount * product for key, amount in self.acids.items()}
        positive = max(self.charge, 0.0) * product
        negative = max(-self.charge, 0.0) * product
        for adjuster in ADJUSTERS:
            grams = self.added.get(adjuster.key, 0.0) * self.strength[adjuster.key]
            for acid, amount in adjuster.gift.acids:
                totals[acid] = totals.get(acid, 0.0) + amount * grams
            for _, amount in adjuster.gift.ions:
                positive += amount * grams
        water = self.water_g / 1000.0
        return Solution(
            tuple((acid, amount / water) for acid, amount in totals.items() if amount > 0),
            (StrongIon(1, positive / water), StrongIon(-1, negative / water)),
        )

    def read(self, truth: Phreeqc) -> PhReading:
        """Read the meter in a sample, which is not put back."""
        shown = truth.ph(self.solution()) + self.chance.gauss(0.0, NOISE)
        self._lose(SAMPLE_G)
        return PhReading(round(shown, 2), sample_g=SAMPLE_G)

    def pour(self, key: str, mass_g: float, fold: float) -> PhAddition:
        """Pour what was advised as nearly as drops allow, and weigh the bottle."""
        poured = max(mass_g + self.chance.uniform(-0.5, 0.5) * DROP_G, 0.0)
        stated = poured / fold
        self.added[key] = self.added.get(key, 0.0) + stated
        self.mass_g += poured
        self.water_g += 0.9 * stated + poured - stated
        before = round(self.chance.uniform(40.0, 90.0), 2)
        return PhAddition(key, before, round(before - poured, 2), fold)

    def _lose(self, sample_g: float) -> None:
        stays = 1.0 - sample_g / self.mass_g
        self.mass_g *= stays
        self.water_g *= stays
        self.product_g *= stays
        self.added = {key: grams * stays for key, grams in self.added.items()}


def beakers(count: int, truth: Phreeqc, seed: int = SEED) -> list[Beaker]:
    """Return beakers that stand outside their window, on the side their adjuster comes from."""
    chance = random.Random(seed)
    found: list[Beaker] = []
    while len(found) < count:
        adjuster = ADJUSTERS[len(found) % len(ADJUSTERS)]
        beaker = _drawn(adjuster, chance)
        if _is_task(beaker, truth):
            found.append(beaker)
    return found


def truth_engine() -> Phreeqc:
    """Return PHREEQC with the acids of every beaker."""
    keys = dict.fromkeys((*SOUR, *MILD, *UNKNOWN, "arginine", "lactic", "citric"))
    return Phreeqc(acids()[key] for key in keys)


def _drawn(adjuster: PhAdjuster, chance: random.Random) -> Beaker:
    kinds = SOUR if adjuster.is_base else MILD
    keys = chance.sample(sorted(kinds), chance.randint(1, 3))
    known = {key: _between(kinds[key], chance) for key in keys}
    # Salts of the acids, so that a sour product is partly neutralised, and a mild one fully.
    share = chance.uniform(0.0, 0.4) if adjuster.is_base else chance.uniform(0.9, 1.4)
    salt = share * sum(
        known[key] * sum(1 for pka in acids()[key].pkas if pka < 7.5)
        for key in keys
        if acids()[key].charge == 0
    )
    water = chance.uniform(0.6, 0.95)
    portions = [_portion(key, amount) for key, amount in known.items()]
    if salt:
        portions.append(Portion("salt", Gift(ions=((1, salt),)), EXACT))
    middle = chance.uniform(3.5, 5.2) if adjuster.is_base else chance.uniform(4.8, 6.2)
    window = Window(round(middle - WIDTH / 2, 2), round(middle + WIDTH / 2, 2))
    batch = chance.choice(BATCHES)
    recipe = Recipe(Mixture(tuple(portions), water, {}), adjuster, window, batch)
    true = {key: amount * _off(ASSAY, chance) for key, amount in known.items()}
    unknown = chance.choice(UNKNOWN)
    true[unknown] = true.get(unknown, 0.0) + chance.uniform(0.0, MOST_UNKNOWN)
    return Beaker(
        recipe,
        true,
        salt * _off(ADJUSTER_OFF, chance),
        {one.key: _off(ADJUSTER_OFF, chance) for one in ADJUSTERS},
        chance,
        batch,
        batch * water,
        product_g=batch,
    )


def _portion(key: str, amount: float) -> Portion:
    return Portion(key, Gift(((acids()[key], amount),)), EXACT)


def _is_task(beaker: Beaker, truth: Phreeqc) -> bool:
    """Tell whether a beaker is outside its window, and its adjuster leads there at all."""
    recipe = beaker.recipe
    start = truth.ph(beaker.solution())
    if start > MOST_PH:
        return False
    if recipe.adjuster.is_base:
        if not start < recipe.window.low - 0.05:
            return False
    elif not start > recipe.window.high + 0.05:
        return False
    trial = Beaker(
        recipe,
        beaker.acids,
        beaker.charge,
        beaker.strength,
        beaker.chance,
        beaker.mass_g,
        beaker.water_g,
        {recipe.adjuster.key: 0.3 * recipe.batch_g},
        beaker.product_g,
    )
    trial.water_g += 0.27 * recipe.batch_g
    end = truth.ph(trial.solution())
    return end > recipe.window.high if recipe.adjuster.is_base else end < recipe.window.low


def _between(ends: tuple[float, float], chance: random.Random) -> float:
    low, high = ends
    return float(low * (high / low) ** chance.random())


def _off(most: float, chance: random.Random) -> float:
    return 1.0 + chance.uniform(-most, most)


def begun(beaker: Beaker) -> PhLog:
    """Return the empty log of a beaker."""
    return PhLog(beaker.recipe.batch_g)
