"""The acid–base engine beside PHREEQC: the same mixtures, the same answers, in one run.

`phreeqc_engine` says how PHREEQC is given our constants; its stock database is run too, with no
limit, to show what its own ion pairs and coefficients change.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from dataclasses import dataclass
from statistics import median

from tests.chemistry.acids import IDEAL, acids, solution, truth_rows
from tests.chemistry.mixtures import SHIPPED, compared_acids, compared_mixtures, is_compared
from tests.chemistry.phreeqc_engine import Phreeqc
from workbench.chemistry.acid_base import solve
from workbench.chemistry.acid_base_arrays import gathered
from workbench.chemistry.acid_base_many import solved
from workbench.chemistry.activity import DAVIES
from workbench.chemistry.system import Solution, StrongIon
from workbench.chemistry.titration import Adjuster
from workbench.chemistry.titration_many import dose_many

ARRAY, SAMPLES, ROUNDS = 500, 64, 9


@dataclass(frozen=True, slots=True)
class Speeds:
    """Hold times for one solve [µs], and how far the answers lie apart [pH]."""

    single: float
    phreeqc_ph: float
    phreeqc_state: float
    array: float
    phreeqc_array: float
    most_off: float

    @property
    def single_times(self) -> float:
        """Return how many times faster a single solve is than PHREEQC asked for the pH alone."""
        return self.phreeqc_ph / self.single

    @property
    def array_times(self) -> float:
        """Return how many times faster a solve of the array is; PHREEQC has all in one run too."""
        return self.phreeqc_array / self.array


def chemistry_lines() -> list[str]:
    """Return the report."""
    return [*_accuracy(), *_standards(), *_speed(), *_editing()]


def speeds() -> Speeds:
    """Time the compared mixtures one by one, and 500 of the same six acids as an array."""
    mixtures = [mixture for _, mixture in compared_mixtures()]
    many = _alike(ARRAY)
    arrays = gathered(many)
    phreeqc = Phreeqc(compared_acids())
    # The best of rounds that take turns: what else the machine does falls on all alike.
    best = [float("inf")] * 5
    for _ in range(ROUNDS):
        found = (
            _each(mixtures, solve),
            _each(mixtures, phreeqc.ph),
            _each(mixtures, phreeqc.state),
            _time(lambda: solved(arrays)) / len(many),
            _time(lambda: phreeqc.ph_of_all(many)) / len(many),
        )
        best = [min(pair) for pair in zip(best, found, strict=True)]
    ph, _ = solved(arrays)
    off = [abs(solve(mixture).ph - phreeqc.ph(mixture)) for mixture in mixtures]
    off += [abs(a - phreeqc.ph(b)) for a, b in zip(ph.tolist(), many, strict=True)]
    return Speeds(*(each * 1e6 for each in best), max(off))


def _accuracy() -> list[str]:
    mixtures = compared_mixtures()
    same, stock = Phreeqc(compared_acids()), Phreeqc(compared_acids(), stock=True)
    ours = [solve(mixture).ph for _, mixture in mixtures]
    lines = [f"mixtures beside PHREEQC: {len(mixtures)}, pH {min(ours):.2f} to {max(ours):.2f}"]
    for name, engine, wanted in (
        ("our constants, Davies", same, "most <= 0.01"),
        ("stock database", stock, "no limit"),
    ):
        off = [
            (abs(found - engine.ph(mixture)), label)
            for found, (label, mixture) in zip(ours, mixtures, strict=True)
        ]
        most, worst = max(off)
        middle = median(each for each, _ in off)
        above = sum(each > 0.01 for each, _ in off)
        lines.append(
            f"  |ΔpH|, {name:<24} median {middle:.5f}   most {most:.4f} ({worst})"
            f"   above 0.01: {above}   wanted {wanted}"
        )
    return lines


def _standards() -> list[str]:
    rows = [row for row in truth_rows("ph_of_solutions.tsv") if row["model"] == "measured"]
    lines = []
    for name, tolerance in (
        ("NIST standards", "0.02"),
        ("acetate tables", "0.05"),
        ("citrate tables", "0.08"),
    ):
        chosen = [row for row in rows if row["tolerance"] == tolerance]
        off = [
            [abs(solve(solution(row["solution"]), model).ph - float(row["ph"])) for row in chosen]
            for model in (DAVIES, IDEAL)
        ]
        lines.append(
            f"{name}, {len(chosen)}: most {max(off[0]):.3f} pH off, without activities"
            f" {min(off[1]):.3f} to {max(off[1]):.3f}   wanted <= {tolerance}, and more without"
        )
    return lines


def _speed() -> list[str]:
    found = speeds()
    return [
        f"single solve: {found.single:.1f} µs; PHREEQC {found.phreeqc_ph:.1f} µs for the pH,"
        f" {found.phreeqc_state:.1f} µs for pH, ionic strength and species",
        f"  {found.single_times:.1f} times faster for the pH alone,"
        f" {found.phreeqc_state / found.single:.1f} times for all three   wanted >= 2",
        f"{ARRAY} solves as an array: {found.array:.2f} µs each; PHREEQC"
        f" {found.phreeqc_array:.1f} µs each, all in one run, pH alone",
        f"  {found.array_times:.1f} times faster   wanted >= 20",
        f"  all answers within {found.most_off:.4f} pH of PHREEQC",
    ]


def _editing() -> list[str]:
    samples = gathered(_alike(SAMPLES))
    adjusters = _adjusters()
    ph = min(_time(lambda: solved(samples)) for _ in range(ROUNDS))
    doses = min(_time(lambda: dose_many(samples, adjusters, 5.0)) for _ in range(ROUNDS))
    return [
        f"one edit: {SAMPLES} solves {ph * 1e3:.2f} ms, {SAMPLES} x {len(adjusters)} doses"
        f" {doses * 1e3:.2f} ms   wanted together about 3 ms"
    ]


def _alike(count: int) -> list[Solution]:
    """Return seeded mixtures of the same six acids, within the compared range."""
    chance = random.Random(count)
    chosen = [acids()[key] for key in SHIPPED]
    found: list[Solution] = []
    while len(found) < count:
        totals = tuple((acid, 10.0 ** chance.uniform(-3.0, -0.8)) for acid in chosen)
        most = sum(-acid.charges[-1] * amount for acid, amount in totals)
        mixture = Solution(totals, (StrongIon(1, most * chance.random()),))
        if is_compared(mixture):
            found.append(mixture)
    return found


def _adjusters() -> tuple[Adjuster, ...]:
    of_acid = {
        key: Solution(((acids()[key], 0.006),))
        for key in ("arginine", "tea", "tris", "citric", "lactic", "amp")
    }
    lye = Solution(strong=(StrongIon(1, 0.025),))
    return tuple(Adjuster(each, -0.001) for each in (lye, *of_acid.values(), lye))


def _each(mixtures: list[Solution], answer: Callable[[Solution], object]) -> float:
    return _time(lambda: [answer(mixture) for mixture in mixtures]) / len(mixtures)


def _time(work: Callable[[], object]) -> float:
    begun = time.perf_counter()
    work()
    return time.perf_counter() - begun
