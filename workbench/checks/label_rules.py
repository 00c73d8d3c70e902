"""The rules of labels and of microbial risk, as rows of the reference set."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class MarketLabel:
    """Hold how one market writes an ingredient list.

    Parameters
    ----------
    market : str
        EU, UK or US.
    heading, fragrance_word, aroma_word, nano_mark : str
        Words of the market; an empty mark where it has none.
    uses_us_names : bool
        Whether the US name of a substance is taken where it has one.
    free_percent : Decimal
        Content at which names may stand in any order [% w/w].
    is_free_at_limit : bool
        Whether a name exactly at `free_percent` is free too.
    fragrance_purposes : frozenset of str
        Purposes of what is named by the fragrance word.
    aroma_areas : frozenset of str
        Areas where the aroma word stands instead.
    allergen_lists : frozenset of str
        Allergen lists that bind here.
    offered_lists : frozenset of str
        Allergen lists that do not bind but may be followed.
    sources : mapping of str to (str, str)
        Source and confidence by rule.
    """

    market: str
    heading: str
    fragrance_word: str
    aroma_word: str
    nano_mark: str
    uses_us_names: bool
    free_percent: Decimal
    is_free_at_limit: bool
    fragrance_purposes: frozenset[str]
    aroma_areas: frozenset[str]
    allergen_lists: frozenset[str]
    offered_lists: frozenset[str]
    sources: Mapping[str, tuple[str, str]] = field(default_factory=lambda: MappingProxyType({}))


@dataclass(frozen=True, slots=True)
class AllergenRule:
    """Hold one fragrance allergen of the labelling lists.

    `listed` names its list; `substances` are the keys it covers; thresholds [% w/w] by
    exposure; `placing` and `making_available` are the days a later list binds new products and
    all stock, None for the first list. `is_doubtful` where sources disagree that it is a name.
    """

    label: str
    listed: str
    substances: tuple[str, ...]
    leave_on: Decimal
    rinse_off: Decimal
    placing: date | None = None
    making_available: date | None = None
    is_doubtful: bool = False
    source: str = ""
    confidence: str = "memory"


@dataclass(frozen=True, slots=True)
class UsualWarning:
    """Hold one warning that good practice puts beside the law's, and what calls for it.

    Parameters
    ----------
    key, kind : str
        Message id, and "usual" for the label or "bench" for the maker.
    substances, functions, tags : frozenset of str
        What calls for it: any of these in a line; all empty where the product alone does.
    fact : str
        "phototoxic-over-maximum", "phototoxic-within-maximum" or "dry-product-wet-use".
    above_percent : Decimal or None
        Content it must exceed, substances as such, else lines as supplied [% w/w].
    exposures, areas, users, product_forms, product_types : frozenset of str
        Products it is for; empty for all.
    gives_way_to : str
        Words that, in what a market prescribes for the same substances, say this already; empty
        where nothing does.
    source, confidence : str
        On whose word.
    """

    key: str
    kind: str
    substances: frozenset[str] = frozenset()
    functions: frozenset[str] = frozenset()
    tags: frozenset[str] = frozenset()
    fact: str = ""
    above_percent: Decimal | None = None
    exposures: frozenset[str] = frozenset()
    areas: frozenset[str] = frozenset()
    users: frozenset[str] = frozenset()
    product_forms: frozenset[str] = frozenset()
    product_types: frozenset[str] = frozenset()
    gives_way_to: str = ""
    source: str = ""
    confidence: str = "memory"

    @property
    def is_of_product(self) -> bool:
        """Tell whether the product alone calls for it, whatever is in it."""
        return not (self.substances or self.functions or self.tags or self.fact)


RISK_KEYS = (
    "ph-low",
    "ph-high",
    "alcohol-high",
    "water-activity-low",
    "aluminium-chlorohydrate",
    "no-water",
    "water",
    "natural-water",
    "nutrients",
    "ph-open",
    "pack-open",
    "users-tender",
    "area-tender",
    "wet-use",
    "wet-hands",
    "alcohol-some",
    "glycols",
    "water-activity-some",
    "chelator",
    "preservative",
    "pack-closed",
)
"""The factors of microbial risk, in the order they are shown; each has one row."""


@dataclass(frozen=True, slots=True)
class RiskRule:
    """Hold one factor of microbial risk.

    `direction` is "meets" (a low-risk criterion), "raises" or "lowers"; `value` the figure it
    is held against, in `unit`; `names` the substances, functions, tags, packs, people or
    products it speaks of.
    """

    key: str
    direction: str
    value: Decimal | None
    unit: str
    names: frozenset[str]
    source: str
    confidence: str


@dataclass(frozen=True, slots=True)
class Solute:
    """Hold how a substance lowers the activity of water it is dissolved in.

    Parameters
    ----------
    counts_as : str
        Substance whose molar mass is taken.
    particles : int
        Particles one unit gives in water [-].
    norrish_low, norrish_high : float
        Span of the constant K in a_w = X_w exp(-K X_s^2) [-], X mole fractions.
    least_activity : float
        Water activity of its saturated solution [-], 0 where it mixes in any share.
    """

    counts_as: str
    particles: int
    norrish_low: float
    norrish_high: float
    least_activity: float


@dataclass(frozen=True, slots=True)
class Labelling:
    """Hold everything the label and the microbial pre-screen rest on.

    `allergens_by_substance` gives the allergen rules that cover a substance.
    """

    markets: Mapping[str, MarketLabel] = field(default_factory=lambda: MappingProxyType({}))
    allergens: tuple[AllergenRule, ...] = ()
    allergens_by_substance: Mapping[str, tuple[AllergenRule, ...]] = field(
        default_factory=lambda: MappingProxyType({})
    )
    warnings: tuple[UsualWarning, ...] = ()
    risks: Mapping[str, RiskRule] = field(default_factory=lambda: MappingProxyType({}))
    solutes: Mapping[str, Solute] = field(default_factory=lambda: MappingProxyType({}))
