"""The rules a formula is checked against: one dated, indexed set."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from enum import Enum

from workbench.checks.compatibility_values import Compatibility
from workbench.checks.density_facts import DensityFacts
from workbench.checks.emulsion_facts import EmulsionFacts
from workbench.checks.label_rules import Labelling
from workbench.checks.ph_windows import PhSwap, ProductPh
from workbench.checks.preservation_facts import PreservationFacts
from workbench.chemistry.facts import ChemistryFacts
from workbench.formula.weighability import WeighingRules


class Authority(Enum):
    """Tell kinds of rules apart; only law in force can become a stop."""

    LAW = "law"
    FUTURE_LAW = "future"
    LAW_BY_CLAIM = "law-by-claim"
    ADVICE = "advice"
    LABELLING = "labelling"
    RAW_MATERIAL = "raw-material"
    INFORMATION = "information"


class Verdict(Enum):
    """Say what follows when no row of a substance matches a product."""

    BANNED = "banned"
    CHECK = "check"
    SILENT = "silent"


@dataclass(frozen=True, slots=True)
class Clause:
    """Hold one scope clause: allowed values by field, and values that exclude a product.

    An empty mapping matches everything. Fields: exposure, area, users, form, product_class,
    ingredient_role, claim. Role "not-preservative" stands for every role but preservative.
    """

    allowed: Mapping[str, frozenset[str]]
    excluded: Mapping[str, frozenset[str]]


@dataclass(frozen=True, slots=True)
class LimitRow:
    """Hold one row of limits.csv with its scope in closed fields and the substances it covers.

    Parameters
    ----------
    index : int
        0-based row of limits.csv, for tests and for showing where a figure comes from.
    substance : str
        Key of the entry (several keys may cover one substance).
    name : str
        Name the row is shown by.
    jurisdiction : str
        EU, UK, US-guidance or CIR.
    scope_text : str
        The scope in the words of the source.
    authority : Authority
        Kind of rule.
    maximum : Decimal or None
        Highest content [% w/w on `basis`]; None where the row is no content limit.
    is_strict : bool
        Whether the maximum itself already exceeds ("must be below").
    basis : str
        How content is expressed, in the words of the source.
    basis_kind : str
        content, prohibited, or "not a content limit".
    group, group_maximum
        Sum rule the row takes part in, if any [% w/w].
    main : Clause
        The scope proper; its specificity decides between rows.
    alternatives, doubt : tuple of Clause
        Further scopes that match on their own; scopes where the reading is unsettled.
    specificity : int
        As computed from the main fields.
    when_excluded, when_outside : Verdict
        What is said when the product is excluded, or not listed.
    ph_min, ph_max, ph_max_strict
        A requirement on the product's pH [-].
    effective_from : date or None
        First day a future row is law.
    factors : mapping of str to Decimal or None
        Content counted per percent of a covered substance [-]; None where the supplier must
        say. `possible` holds those whose coverage is unclear: these are never a stop.
    group_factors : mapping of str to Decimal or None
        The same over every member of the group [-].
    counts_as : str
        Substance the content is expressed as, where all covered ones share it; else empty.
    condition, warning, applies_when : str
        What else the source asks for, in its words.
    source, confidence, text_as_at : str
        On whose authority, how far confirmed, and the age of the text that was read.
    is_in_scope_of_tool : bool
        False for rows on hair dye, nails, oral care and the like.
    """

    index: int
    substance: str
    name: str
    jurisdiction: str
    scope_text: str
    authority: Authority
    maximum: Decimal | None
    is_strict: bool
    basis: str
    basis_kind: str
    group: str
    group_maximum: Decimal | None
    main: Clause
    alternatives: tuple[Clause, ...]
    doubt: tuple[Clause, ...]
    specificity: int
    when_excluded: Verdict
    when_outside: Verdict
    ph_min: Decimal | None
    ph_max: Decimal | None
    ph_max_strict: bool
    effective_from: date | None
    factors: Mapping[str, Decimal | None]
    group_factors: Mapping[str, Decimal | None]
    possible: frozenset[str]
    counts_as: str
    condition: str
    warning: str
    applies_when: str
    source: str
    confidence: str
    text_as_at: str
    is_in_scope_of_tool: bool

    @property
    def is_prohibition(self) -> bool:
        """Tell whether the row refuses any content at all."""
        return self.maximum is not None and self.maximum == 0


@dataclass(frozen=True, slots=True)
class Atom:
    """Hold one product with a single value in every field, which rows can be tested on."""

    exposure: str
    area: str
    users: str
    form: str
    product_class: str
    claims: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Judgement:
    """Hold what the rows of one jurisdiction say of one substance, in one role and product.

    Parameters
    ----------
    law : tuple of LimitRow
        Most specific matching rows of every key that are law on the day asked for.
    others : tuple of LimitRow
        The same of every other kind: future, advice, labelling, information.
    verdicts : tuple of (Verdict, LimitRow)
        For every key without a matching law row: banned or check, and the row that says so.
    possible : tuple of LimitRow
        Rows of law, future law included, that would win but may not mean this substance.
    by_claim : tuple of LimitRow
        Rows that would match if the product made the claim they speak of.
    """

    jurisdiction: str
    law: tuple[LimitRow, ...] = ()
    others: tuple[LimitRow, ...] = ()
    verdicts: tuple[tuple[Verdict, LimitRow], ...] = ()
    possible: tuple[LimitRow, ...] = ()
    by_claim: tuple[LimitRow, ...] = ()


Answers = dict[tuple[str, str], tuple[Judgement, ...]]
Asked = tuple[frozenset[str], tuple[Atom, ...], date]
Outcomes = dict[tuple[str, str], tuple[tuple[LimitRow, str], ...]]


@dataclass(frozen=True, slots=True)
class Rules:
    """Hold every rule of one reference set, indexed once.

    Parameters
    ----------
    reference_set : str
        Identity of the dated set.
    dated : date
        Day to which the state of the law is taken.
    limits_by_substance : mapping of str to tuple of LimitRow
        Rows that count a substance, by the substance's key.
    weighing : WeighingRules
        Figures of the weighing rules.
    figures : mapping of str to Decimal
        Other figures of the set by key, the dilution folds among them.
    preservation, emulsion, densities
        The tables those figures are computed from.
    labelling : Labelling
        What labels, usual warnings and the microbial pre-screen rest on.
    limits : tuple of LimitRow
        Every limit row in the order of its table.
    limits_of_products : tuple of LimitRow
        Those of them that count no substance but speak of a product.
    compatibility : Compatibility
        Rules of the trade; the maker's own are added with `with_own_rules`.
    product_ph, ph_swaps
        Usual pH of kinds of products, and swaps with the window of what comes in.
    chemistry : ChemistryFacts
        What substances bring into water, and what adjusts a pH.
    judged : dict
        Answers already worked out, by product and day, then by substance and role; no part of
        the value.
    outcomes : dict
        What became of rows for a product, by bodies of rules, products and day, then by
        substance and role; no part of the value.
    counted : dict
        Counts of rows already taken, by what was counted; no part of the value.
    """

    reference_set: str
    dated: date
    limits_by_substance: Mapping[str, tuple[LimitRow, ...]]
    weighing: WeighingRules
    figures: Mapping[str, Decimal] = field(default_factory=dict)
    accept_bands: Mapping[str, Decimal | None] = field(default_factory=dict)
    preservation: PreservationFacts = field(default_factory=PreservationFacts)
    emulsion: EmulsionFacts = field(default_factory=EmulsionFacts)
    densities: DensityFacts = field(default_factory=DensityFacts)
    labelling: Labelling = field(default_factory=Labelling)
    limits: tuple[LimitRow, ...] = ()
    limits_of_products: tuple[LimitRow, ...] = ()
    compatibility: Compatibility = field(default_factory=Compatibility)
    product_ph: tuple[ProductPh, ...] = ()
    ph_swaps: tuple[PhSwap, ...] = ()
    chemistry: ChemistryFacts = field(default_factory=ChemistryFacts)
    judged: dict[tuple[Atom, date], Answers] = field(
        default_factory=dict, compare=False, repr=False
    )
    outcomes: dict[Asked, Outcomes] = field(default_factory=dict, compare=False, repr=False)
    counted: dict[tuple[str, str], int] = field(default_factory=dict, compare=False, repr=False)
