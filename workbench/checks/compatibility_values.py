"""Rules of the trade as values: what they look at, when they speak, and their two examples."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from types import MappingProxyType

from workbench.checks.finding import Severity
from workbench.formula.ingredient import Ingredient


@dataclass(frozen=True, slots=True, eq=False)
class Selector:
    """Hold a question an ingredient answers with yes or no.

    `field` is one of key, function, tag, charge, dissolves, form, lists, is; or all, any, not,
    whose `parts` are asked. Compared by identity, so that it can be looked up quickly.
    """

    field: str
    values: frozenset[str] = frozenset()
    parts: tuple[Selector, ...] = ()


@dataclass(frozen=True, slots=True)
class Has:
    """True when what matches is there, and at least at `least` [% w/w as supplied]."""

    selector: Selector
    least: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Lacks:
    """True when nothing matches."""

    selector: Selector


@dataclass(frozen=True, slots=True)
class Amount:
    """Compare the sum of what matches with a value [% w/w as supplied, or as active matter]."""

    selector: Selector
    is_active: bool
    sign: str
    value: Decimal


@dataclass(frozen=True, slots=True)
class Figure:
    """Compare a figure of the formula with a value.

    water [% w/w], alcohol-in-water [% w/w of both], phototoxic (sum of dose over limit) [-].
    """

    name: str
    sign: str
    value: Decimal


@dataclass(frozen=True, slots=True)
class Ph:
    """Compare the pH with a value."""

    sign: str
    value: Decimal


@dataclass(frozen=True, slots=True)
class PhUnknown:
    """True while no pH is known or wanted."""


@dataclass(frozen=True, slots=True)
class Some:
    """True when something that matches fails a test: over-dermal or too-hot."""

    test: str
    selector: Selector


@dataclass(frozen=True, slots=True)
class Clash:
    """True when an ingredient of `one` meets a different one of `other`, at least at `least`."""

    code: str
    one: Selector
    other: Selector
    least: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Product:
    """True when the product is one of these: exposure, area, users, form or product."""

    field: str
    values: frozenset[str]


@dataclass(frozen=True, slots=True)
class SpectrumLacks:
    """True when there are preservatives and none of them covers one of these microbes."""

    microbes: frozenset[str]


@dataclass(frozen=True, slots=True)
class Both:
    """True when every part is."""

    parts: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Either:
    """True when one part is."""

    parts: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Opposite:
    """True when the part is not."""

    part: Condition


Condition = (
    Has | Lacks | Amount | Figure | Ph | PhUnknown | Some | Clash | Product | SpectrumLacks
    | Both | Either | Opposite
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Addition:
    """Hold a remedy of a rule: an ingredient to add, and how much [% w/w]."""

    ingredient: str
    percent: Decimal


@dataclass(frozen=True, slots=True)
class Example:
    """Hold a small formula a rule is tried on: percents by ingredient; water takes the rest.

    `product` holds fields of the formula such as exposure or users; `ph` its target; `heat_c`
    the temperature everything is heated to.
    """

    percents: Mapping[str, Decimal]
    product: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    ph: tuple[Decimal, Decimal] | None = None
    heat_c: Decimal | None = None


@dataclass(frozen=True, slots=True)
class CompatibilityRule:
    """Hold one rule of the trade.

    Parameters
    ----------
    key, topic : str
        Stable key, and the file it stands in.
    severity : Severity
        Caution or note; a rule of the trade is never a stop.
    text : str
        When it speaks, as it is written.
    when : Condition
        The same, read.
    message, why : str
        What is said, and by which mechanism.
    source, confidence : str
        Where it comes from, and how far that was confirmed.
    fires, quiet : Example
        A formula it speaks on, and one it does not.
    remedy : Addition or None
        What to add, where that mends it.
    is_own : bool
        Whether it is the maker's.
    """

    key: str
    topic: str
    severity: Severity
    text: str
    when: Condition = field(compare=False)
    message: str
    why: str
    source: str
    confidence: str
    fires: Example
    quiet: Example
    remedy: Addition | None = None
    is_own: bool = False


Known = dict[int, tuple[Ingredient, frozenset[int]]]


@dataclass(frozen=True, slots=True)
class Compatibility:
    """Hold all rules, indexed once by what must be there for each to speak.

    Parameters
    ----------
    rules : tuple of CompatibilityRule
        In the order of their files.
    places : mapping of Selector to int
        Number of every selector.
    needs : tuple of frozenset of int, or None
        For each rule: selectors one of which must match something, or the rule is silent;
        None where it may speak of what is missing.
    known : dict
        Selectors each ingredient matches, worked out once; no part of the value.
    """

    rules: tuple[CompatibilityRule, ...] = ()
    places: Mapping[Selector, int] = field(
        default_factory=lambda: MappingProxyType({}), compare=False
    )
    needs: tuple[frozenset[int] | None, ...] = field(default=(), compare=False)
    known: Known = field(default_factory=dict, compare=False, repr=False)
