"""The one pure call behind every panel, document and command."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from workbench.checks.acceptance import with_acceptances
from workbench.checks.adjusters import adjuster_doses
from workbench.checks.assessed_lines import (
    assessed_lines,
    column_step,
    lines_at_maximum,
    marked,
    weighing_of,
)
from workbench.checks.assessment import Assessment
from workbench.checks.basics import check_known, check_listed, check_total, check_use_levels
from workbench.checks.checked import Done, checked
from workbench.checks.compatibility import check_compatibility
from workbench.checks.compatibility_mixture import Mixture, mixture_of
from workbench.checks.figures import figures_of
from workbench.checks.finding import Finding, in_order
from workbench.checks.labelled import Labelled, label_facts, labelled
from workbench.checks.limit_warnings import required_warnings
from workbench.checks.limits import check_limits, legal_maxima
from workbench.checks.ph import ChemistrySituation, chemistry_situation, ph_estimate
from workbench.checks.ph_findings import check_ph_windows
from workbench.checks.ph_overlap import ph_windows
from workbench.checks.ph_values import PhEstimate
from workbench.checks.ph_windows import PhWindows
from workbench.checks.preservation import check_preserved
from workbench.checks.preservative_levels import check_preservative_levels
from workbench.checks.preservative_values import PreservativeShare
from workbench.checks.preservatives import preservative_shares
from workbench.checks.rules import Rules
from workbench.checks.weighing import check_weighing
from workbench.formula.absent import Absent
from workbench.formula.composition import Composition, composition
from workbench.formula.cost import Cost, cost
from workbench.formula.formula import Formula
from workbench.formula.scale import batch_mass
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf
from workbench.formula.totals import Totals, totals

STOCK = "stock"


def assess(formula: Formula, shelf: Shelf, scope: Scope, rules: Rules) -> Assessment:
    """Compute everything about a formula: totals, grams, composition, findings, figures.

    Notes
    -----
    Pure and quick enough to run on every change. A stock is no finished product, so what law
    and trade ask of products is not held against it.
    """
    looked = _Looked(formula, shelf, scope, rules, totals(formula), composition(formula, shelf))
    batch = batch_mass(formula.plan)
    priced = _priced(formula, shelf, batch)
    maxima = legal_maxima(formula, looked.parts, scope, rules) if looked.is_product else {}
    at_maximum = lines_at_maximum(looked.sums, maxima)
    weighing = weighing_of(formula, batch, column_step(shelf, rules), at_maximum)
    lines = assessed_lines(formula, shelf, looked.sums, weighing, priced, rules)
    water = _in_water(looked)
    label = _label(looked, water.ph)
    found = [*_of_formula(looked), *check_weighing(lines, rules), *_of_water(looked, water)]
    found.extend(label.findings)
    findings = in_order(with_acceptances(found, formula))
    return Assessment(
        totals=looked.sums,
        batch_g=batch,
        lines=marked(lines, findings),
        composition=looked.parts,
        findings=findings,
        figures=figures_of(formula, looked.sums, looked.parts, shelf, rules, priced),
        cost=priced,
        maxima=maxima,
        ph=water.ph,
        ph_windows=water.windows,
        adjusters=adjuster_doses(formula, water.situation, shelf, batch),
        preservatives=water.preservatives,
        label=label,
        checked=checked(looked.parts, shelf, scope, rules, Done(label, findings)),
    )


@dataclass(frozen=True, slots=True)
class _Looked:
    """Hold what every check looks at."""

    formula: Formula
    shelf: Shelf
    scope: Scope
    rules: Rules
    sums: Totals
    parts: Composition

    @property
    def is_product(self) -> bool:
        return self.formula.product_type != STOCK


@dataclass(frozen=True, slots=True)
class _Water:
    """Hold what goes on in the water of a formula."""

    situation: ChemistrySituation | Absent
    ph: PhEstimate | Absent
    mixture: Mixture
    windows: PhWindows
    preservatives: tuple[PreservativeShare, ...]


def _in_water(looked: _Looked) -> _Water:
    formula, shelf, rules = looked.formula, looked.shelf, looked.rules
    situation = chemistry_situation(formula, shelf, rules)
    ph = ph_estimate(situation)
    mixture = mixture_of(formula, shelf, looked.sums, looked.scope, rules.compatibility, ph)
    return _Water(
        situation=situation,
        ph=ph,
        mixture=mixture,
        windows=ph_windows(formula, mixture, rules),
        preservatives=preservative_shares(formula, looked.parts, shelf, rules, ph),
    )


def _of_formula(looked: _Looked) -> Iterable[Finding]:
    yield from check_total(looked.formula, looked.sums)
    yield from check_known(looked.formula, looked.shelf)
    yield from check_listed(looked.parts, looked.shelf)
    yield from check_use_levels(looked.formula, looked.shelf, looked.sums)
    yield from check_preserved(looked.formula, looked.parts, looked.shelf, looked.rules)


def _of_water(looked: _Looked, water: _Water) -> Iterable[Finding]:
    formula, shelf, rules = looked.formula, looked.shelf, looked.rules
    if looked.is_product:
        yield from check_limits(formula, looked.parts, shelf, looked.scope, rules, water.ph)
        yield from check_ph_windows(water.windows, water.ph, shelf)
        yield from check_preservative_levels(water.preservatives, shelf)
    yield from check_compatibility(formula, water.mixture, rules.compatibility)


def _label(looked: _Looked, ph: PhEstimate | Absent) -> Labelled:
    formula, shelf, scope, rules = looked.formula, looked.shelf, looked.scope, looked.rules
    prescribed = (
        required_warnings(formula, looked.parts, shelf, scope, rules) if looked.is_product else ()
    )
    estimate = None if isinstance(ph, Absent) else ph
    facts = label_facts(formula, shelf, looked.sums, prescribed, estimate)
    return labelled(looked.parts, shelf, scope, rules, facts)


def _priced(formula: Formula, shelf: Shelf, batch: Decimal | None) -> Cost | Absent:
    if batch is None:
        return Absent("absent-no-batch")
    return cost(formula, shelf, batch) or Absent("absent-no-price")
