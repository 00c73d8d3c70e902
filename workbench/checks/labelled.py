"""Everything a formula needs on its label, in one go."""

from __future__ import annotations

from dataclasses import dataclass, field

from workbench.checks.allergens import check_allergens
from workbench.checks.carried import Carried
from workbench.checks.declaration import declarations
from workbench.checks.finding import Finding
from workbench.checks.label_values import Declaration, LabelWarning, MicroRisk
from workbench.checks.micro_risk import NOT_JUDGED, KnownPh, known_ph, micro_risk
from workbench.checks.ph_values import PhEstimate
from workbench.checks.rules import Rules
from workbench.checks.warnings import Handled, merged_words, usual_warnings, without_doubles
from workbench.formula.composition import Composition
from workbench.formula.formula import Formula
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf


@dataclass(frozen=True, slots=True)
class Labelled:
    """Hold what belongs on the label, by market where markets differ, and how microbes fare.

    `warnings` hold the law's own words first; `findings` are what stands in the way of a label;
    `materials` are the raw materials through all stocks.
    """

    declarations: tuple[Declaration, ...] = ()
    warnings: tuple[LabelWarning, ...] = ()
    micro_risk: MicroRisk = field(default_factory=lambda: MicroRisk(NOT_JUDGED))
    findings: tuple[Finding, ...] = ()
    materials: tuple[Carried, ...] = ()

    def declaration(self, market: str) -> Declaration | None:
        """Return the ingredient list for a market, None where there is none."""
        return next((each for each in self.declarations if each.market == market), None)


@dataclass(frozen=True, slots=True)
class LabelFacts:
    """Hold what is already known of a formula when its label is made.

    `materials` are its raw materials through all stocks, `from_stock` the lines of ready-made
    stocks, `prescribed` the words that limit rows ask for, `ph` the pH to judge microbes at.
    """

    materials: tuple[Carried, ...]
    from_stock: frozenset[int] = frozenset()
    prescribed: tuple[LabelWarning, ...] = ()
    ph: KnownPh | None = None


def label_facts(
    formula: Formula,
    shelf: Shelf,
    materials: tuple[Carried, ...],
    prescribed: tuple[LabelWarning, ...] = (),
    estimate: PhEstimate | None = None,
) -> LabelFacts:
    """Gather what a label needs to know of a formula."""
    return LabelFacts(
        materials=materials,
        from_stock=frozenset(
            line.id for line in formula.lines() if line.ingredient not in shelf.ingredients
        ),
        prescribed=prescribed,
        ph=known_ph(formula, estimate),
    )


def labelled(
    parts: Composition, shelf: Shelf, scope: Scope, rules: Rules, facts: LabelFacts
) -> Labelled:
    """Return what belongs on the label of a formula.

    Notes
    -----
    A stock has no label; its list is given all the same, as what it brings into a formula.
    """
    materials, labelling = facts.materials, rules.labelling
    prescribed = merged_words(facts.prescribed)
    usual = usual_warnings(parts, shelf, scope, rules, Handled(materials, facts.from_stock))
    return Labelled(
        declarations=declarations(parts, shelf, scope, labelling, materials),
        warnings=(*prescribed, *without_doubles(usual, prescribed, rules)),
        micro_risk=micro_risk(parts, shelf, scope, labelling, materials, facts.ph),
        findings=check_allergens(materials, shelf, scope, labelling),
        materials=materials,
    )
