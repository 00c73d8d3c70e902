"""Where the pH of a formula will land, with the reasons for the width."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from workbench.checks.ph_reasons import confidence_of, reasons_of
from workbench.checks.ph_situation import PhSituation, situation_of
from workbench.checks.ph_values import PhEstimate
from workbench.checks.rules import Rules
from workbench.chemistry.acid_base import solve
from workbench.chemistry.facts import ChemistryFacts
from workbench.chemistry.mixture import Mixture, typical_solution
from workbench.chemistry.system import OutOfRange, Solution
from workbench.formula.absent import Absent
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf

if TYPE_CHECKING:
    from workbench.chemistry.interval import PhInterval, Work

_MOST_TURNS = 3
# What dissolves is not known closer than this, so nor is what makes it.
_SAME_SHARE = 0.03


class ChemistrySituation:
    """Hold what estimate, doses and curves share, for as long as one answer is worked out.

    Attributes
    ----------
    situation : PhSituation
        What is in the water.
    work : Work
        The mixture at its balance; what of an acid does not dissolve is uncertain in it.
    interval : PhInterval
        Where its pH lies.
    undissolved : tuple of str
        Acids of which more is there than dissolves at the estimate.
    """

    def __init__(self, situation: PhSituation, facts: ChemistryFacts) -> None:
        """Work a mixture out; raise OutOfRange where the engine refuses it."""
        from workbench.chemistry.interval import Work, bounds_of, ph_interval

        self.situation = situation
        self.facts = facts
        self._bounds = bounds_of(facts.figures)
        self._typical = typical_solution(situation.mixture)
        shares = dissolved_shares(self._typical, _solubilities(facts))
        self.undissolved = tuple(shares)
        self.work: Work = Work(_partly_dissolved(situation.mixture, shares), self._bounds)
        self.interval: PhInterval = ph_interval(self.work)

    def work_at(self, ph: float) -> Work:
        """Return the mixture as it is at a pH, where more of an acid may dissolve."""
        if not self.undissolved:
            return self.work
        from workbench.chemistry.interval import Work

        shares = _shares_at(self._typical, _solubilities(self.facts), ph)
        return Work(_partly_dissolved(self.situation.mixture, shares), self._bounds)


def chemistry_situation(
    formula: Formula, shelf: Shelf, rules: Rules
) -> ChemistrySituation | Absent:
    """Work out the water of a formula once, or say why there is no pH to speak of."""
    facts = rules.chemistry
    if not facts.gifts:
        return Absent("absent-ph-no-tables")
    situation = situation_of(formula, shelf, facts)
    if isinstance(situation, Absent):
        return situation
    try:
        return ChemistrySituation(situation, facts)
    except OutOfRange as refused:
        return _refused(refused)


def ph_estimate(situation: ChemistrySituation | Absent) -> PhEstimate | Absent:
    """Return the interval of the pH at 25 °C with its confidence, or why there is none."""
    if isinstance(situation, Absent):
        return situation
    found = situation.interval
    return PhEstimate(
        low=found.low,
        estimate=found.estimate,
        high=found.high,
        ionic_strength=found.ionic_strength,
        confidence=confidence_of(
            found, situation.situation, situation.undissolved, situation.facts.figures
        ),
        reasons=reasons_of(found, situation.situation, situation.undissolved, situation.facts),
        before_adjusting=bool(situation.situation.reserved),
    )


def dissolved_shares(solution: Solution, soluble: Mapping[str, float]) -> dict[str, float]:
    """Return the share of each acid that dissolves, for those that do not dissolve in full.

    Parameters
    ----------
    solution : Solution
        Everything as if it were dissolved.
    soluble : mapping of str to float
        What dissolves of an uncharged acid [mol/kg water], by acid.

    Returns
    -------
    dict of str to float
        Between 0 and 1 [-].

    Notes
    -----
    What is dissolved makes the pH, and the pH what dissolves; the two are taken in turn.
    """
    whole = {acid.key: amount for acid, amount in solution.totals if acid.key in soluble}
    if not any(amount > soluble[key] for key, amount in whole.items()):
        return {}
    shares: dict[str, float] = {}
    for _ in range(_MOST_TURNS):
        balance = solve(solution)
        last = dict(shares)
        for (acid, _), states in zip(solution.totals, balance.shares, strict=True):
            if acid.key in whole and acid.charge == 0 and states[0] > 0:
                share = soluble[acid.key] / (states[0] * whole[acid.key])
                shares[acid.key] = min(share, 1.0)
        if all(abs(share - last.get(key, 0.0)) < _SAME_SHARE for key, share in shares.items()):
            break
        solution = replace(
            solution,
            totals=tuple(
                (acid, whole[acid.key] * shares[acid.key] if acid.key in shares else amount)
                for acid, amount in solution.totals
            ),
        )
    return {key: share for key, share in shares.items() if share < 1.0}


def _shares_at(solution: Solution, soluble: Mapping[str, float], ph: float) -> dict[str, float]:
    found: dict[str, float] = {}
    for acid, amount in solution.totals:
        if acid.key in soluble and acid.charge == 0:
            uncharged = amount / (1.0 + 10.0 ** (ph - acid.pkas[0]))
            if uncharged > soluble[acid.key]:
                found[acid.key] = soluble[acid.key] / uncharged
    return found


def _partly_dissolved(mixture: Mixture, shares: Mapping[str, float]) -> Mixture:
    if not shares:
        return mixture
    # Solvents, oils and soaps dissolve what water does not, so both ends are possible.
    narrowed = {
        key: replace(mixture.ranges[key], stays_low=mixture.ranges[key].stays_low * share)
        for key, share in shares.items()
    }
    return replace(mixture, ranges={**mixture.ranges, **narrowed})


def _solubilities(facts: ChemistryFacts) -> dict[str, float]:
    return dict(_each_soluble(facts))


def _each_soluble(facts: ChemistryFacts) -> Iterator[tuple[str, float]]:
    for key, found in facts.ranges.items():
        if found.soluble is not None:
            yield key, found.soluble


def _refused(refusal: OutOfRange) -> Absent:
    if refusal.reason_id == "ph-no-water":
        return Absent("absent-ph-no-water")
    if refusal.reason_id == "ph-too-salty":
        return Absent("absent-ph-too-salty")
    return Absent("absent-ph-no-balance")
