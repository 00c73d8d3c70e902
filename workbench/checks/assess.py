"""The one pure call behind every panel, document and command."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from functools import partial

from workbench.checks.acceptance import with_acceptances
from workbench.checks.adjusters import adjuster_doses
from workbench.checks.allergens import check_allergens
from workbench.checks.assessed_lines import (
    assessed_lines,
    column_step,
    lines_at_maximum,
    marked,
    weighing_of,
)
from workbench.checks.assessment import Assessment
from workbench.checks.basics import check_known, check_listed, check_total
from workbench.checks.checked import Done, checked
from workbench.checks.checked_values import Checked
from workbench.checks.compatibility import check_compatibility
from workbench.checks.compatibility_mixture import Mixture, mixture_of
from workbench.checks.figures import figures_of
from workbench.checks.finding import Finding, in_order
from workbench.checks.labelled import Labelled, label_facts, labelled
from workbench.checks.late import Late
from workbench.checks.limit_ph import limit_windows
from workbench.checks.limit_survey import Surveyed, surveyed
from workbench.checks.limit_warnings import required_warnings
from workbench.checks.limits import check_limits, legal_maxima
from workbench.checks.opened import Opened, opened
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
from workbench.checks.said_once import lines_over_in_law, said_once
from workbench.checks.tables_used import Answers, tables_used
from workbench.checks.use_levels import check_use_levels
from workbench.checks.weighing import check_weighing
from workbench.formula.absent import Absent
from workbench.formula.cost import Cost, cost
from workbench.formula.formula import Formula
from workbench.formula.scale import batch_mass
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf


def assess(formula: Formula, shelf: Shelf, scope: Scope, rules: Rules) -> Assessment:
    """Compute everything about a formula: totals, grams, composition, findings, figures.

    Notes
    -----
    Pure and quick enough to run on every change. A stock is no finished product, so what law
    and trade ask of products is not held against it.
    """
    looked = _looked(formula, shelf, scope, rules)
    known = looked.known
    batch = batch_mass(formula.plan)
    priced = _priced(formula, shelf, batch)
    maxima = legal_maxima(known.sums, looked.seen)
    at_maximum = lines_at_maximum(known.sums, maxima)
    weighing = weighing_of(formula, batch, column_step(shelf, rules), at_maximum)
    lines = assessed_lines(formula, shelf, known.sums, weighing, priced, rules)
    water = _in_water(looked)
    found = said_once(_found(looked, water))
    found += check_weighing(lines, rules)
    found += check_allergens(known.items, shelf, scope, rules.labelling)
    findings = in_order(with_acceptances(found, formula))
    doses = adjuster_doses(formula, water.situation, shelf, batch)
    given = Answers(findings, water.windows, water.situation, doses, water.preservatives)

    def page(label: Labelled) -> Checked:
        done = Done(label, findings, tables_used(known, rules, given))
        return checked(known.parts, shelf, scope, rules, done)

    return Assessment(
        totals=known.sums,
        batch_g=batch,
        lines=marked(lines, findings),
        composition=known.parts,
        findings=findings,
        figures=figures_of(known, rules, priced),
        cost=priced,
        maxima=maxima,
        ph=water.ph,
        ph_windows=water.windows,
        adjusters=doses,
        preservatives=water.preservatives,
        late=Late(partial(_label, looked, water.ph), page),
    )


@dataclass(frozen=True, slots=True)
class _Looked:
    """Hold what every check looks at; the rows of the law are held against products alone."""

    known: Opened
    scope: Scope
    rules: Rules
    seen: Surveyed


@dataclass(frozen=True, slots=True)
class _Water:
    """Hold what goes on in the water of a formula."""

    situation: ChemistrySituation | Absent
    ph: PhEstimate | Absent
    mixture: Mixture
    windows: PhWindows
    preservatives: tuple[PreservativeShare, ...]


def _looked(formula: Formula, shelf: Shelf, scope: Scope, rules: Rules) -> _Looked:
    known = opened(formula, shelf)
    is_product = known.is_product
    seen = surveyed(known.parts, known.items, scope, rules) if is_product else Surveyed()
    return _Looked(known, scope, rules, seen)


def _in_water(looked: _Looked) -> _Water:
    known, rules = looked.known, looked.rules
    formula, shelf = known.formula, known.shelf
    situation = chemistry_situation(formula, shelf, rules)
    ph = ph_estimate(situation)
    mixture = mixture_of(formula, known.items, looked.scope, rules.compatibility, ph)
    return _Water(
        situation=situation,
        ph=ph,
        mixture=mixture,
        windows=ph_windows(formula, mixture, rules, limit_windows(looked.seen)),
        preservatives=preservative_shares(
            formula, known.parts, known.items, shelf.substances, rules, ph
        ),
    )


def _found(looked: _Looked, water: _Water) -> Iterator[Finding]:
    known, rules = looked.known, looked.rules
    formula, shelf, parts = known.formula, known.shelf, known.parts
    yield from check_total(formula, known.sums)
    yield from check_known(formula, shelf)
    yield from check_listed(parts, shelf)
    yield from check_preserved(known, rules)
    if known.is_product:
        limits = check_limits(known, looked.scope, looked.seen, water.ph)
        over = lines_over_in_law(limits)
        yield from limits
        yield from check_use_levels(formula, known.items, shelf, known.sums, over)
        yield from check_ph_windows(water.windows, water.ph, shelf)
        yield from check_preservative_levels(water.preservatives, shelf)
    yield from check_compatibility(formula, water.mixture, rules.compatibility)


def _label(looked: _Looked, ph: PhEstimate | Absent) -> Labelled:
    known = looked.known
    prescribed = required_warnings(looked.seen, looked.scope)
    estimate = None if isinstance(ph, Absent) else ph
    facts = label_facts(known.formula, known.shelf, known.items, prescribed, estimate)
    return labelled(known.parts, known.shelf, looked.scope, looked.rules, facts)


def _priced(formula: Formula, shelf: Shelf, batch: Decimal | None) -> Cost | Absent:
    if batch is None:
        return Absent("absent-no-batch")
    return cost(formula, shelf, batch) or Absent("absent-no-price")
