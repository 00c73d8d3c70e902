"""What the kinds of label ask for, and what the maker says for one label."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from workbench.bench.label_sheets import HeightRule, LabelSheet

OWN, GIFT, SALE_EU, SALE_UK, SALE_US = "own", "gift", "sale-eu", "sale-uk", "sale-us"
KINDS = (OWN, GIFT, SALE_EU, SALE_UK, SALE_US)
REQUIRED, OPTIONAL, NONE = "required", "optional", "none"
LONGEST_DATED_MONTHS = 30
DECEMBER = 12
GRAM, MILLILITRE = "g", "ml"
WHOLE_LABEL, FRONT_AND_BACK, LEAFLET = "one", "pair", "leaflet"


@dataclass(frozen=True, slots=True)
class Want:
    """Hold whether a kind of label asks for a field, and on whose word."""

    kind: str
    field: str
    need: str
    source: str = ""
    confidence: str = "memory"


@dataclass(frozen=True, slots=True)
class LabelTables:
    """Hold everything labels are laid out by."""

    sheets: tuple[LabelSheet, ...] = ()
    heights: tuple[HeightRule, ...] = ()
    wants: tuple[Want, ...] = ()

    def sheet(self, key: str) -> LabelSheet | None:
        """Return the sheet of a size, None where there is none."""
        return next((sheet for sheet in self.sheets if sheet.key == key), None)

    def wanted(self, kind: str, field: str) -> Want:
        """Return what a kind of label asks of a field."""
        for want in self.wants:
            if (want.kind, want.field) == (kind, field):
                return want
        return Want(kind, field, NONE)


@dataclass(frozen=True, slots=True)
class LabelOrder:
    """Hold what the maker says for the label of one formula or batch.

    Parameters
    ----------
    kind : str
        own, gift, sale-eu, sale-uk or sale-us.
    function, use, storage, who, origin, trial : str
        Texts of the maker; empty where not said.
    net : Decimal or None
        Nominal content in `net_unit`, g or ml.
    batch : str
        Batch number; empty as long as nothing was made.
    made_on : date or None
        Day of making.
    lasts_months, opened_months : int or None
        How long it keeps unopened, and once opened.
    ph : str
        The pH that was read, with its adjuster.
    placed : str
        "one" label, a "pair" of front and back, or the list on a "leaflet".
    is_as_made : bool
        Whether the ingredient list is that of the batch as it was made.
    surface_cm2 : Decimal or None
        Largest surface of the pack [cm2].
    bottle_mm : Decimal or None
        Diameter of the bottle the label goes around [mm].
    left_out : frozenset of str
        Keys of usual warnings the maker leaves out; the law's own words always stand.
    ink, ground : str
        Colours of print and label, as "#000000".
    """

    kind: str = OWN
    function: str = ""
    use: str = ""
    storage: str = ""
    who: str = ""
    origin: str = ""
    trial: str = ""
    net: Decimal | None = None
    net_unit: str = GRAM
    batch: str = ""
    made_on: date | None = None
    lasts_months: int | None = None
    opened_months: int | None = None
    ph: str = ""
    placed: str = WHOLE_LABEL
    is_as_made: bool = False
    surface_cm2: Decimal | None = None
    bottle_mm: Decimal | None = None
    left_out: frozenset[str] = frozenset()
    ink: str = "#000000"
    ground: str = "#FFFFFF"

    @property
    def market(self) -> str:
        """Return the market whose list the label carries."""
        return {SALE_UK: "UK", SALE_US: "US"}.get(self.kind, "EU")

    @property
    def is_dated(self) -> bool:
        """Tell whether a best-before date is printed: it keeps for 30 months or less."""
        return self.lasts_months is not None and self.lasts_months <= LONGEST_DATED_MONTHS

    @property
    def best_before(self) -> tuple[int, int] | None:
        """Return year and month to the end of which it keeps, None where it has no such date."""
        if self.made_on is None or self.lasts_months is None or not self.is_dated:
            return None
        # It keeps to the same day some months later; the last whole month is the one before.
        months = self.made_on.year * DECEMBER + self.made_on.month - 2 + self.lasts_months
        return months // DECEMBER, months % DECEMBER + 1


@dataclass(frozen=True, slots=True)
class Material:
    """Hold what a label is made of and how it is printed, for the record of a wet-rub test.

    `stuff` is "film", "laminated-paper", "coated-paper" or "paper"; `ink` "pigment", "dye",
    "laser" or "thermal".
    """

    stuff: str
    ink: str

    @property
    def withstands(self) -> str:
        """Return "water-and-oil", "water-if-sealed" or "neither", by common practice."""
        if self.ink == "dye" or self.stuff == "paper":
            return "neither"
        return "water-and-oil" if self.stuff == "film" else "water-if-sealed"
