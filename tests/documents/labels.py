"""Formulas and contents that the tests of labels share."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from tests.builders import make_formula, make_ingredient, make_scope, make_shelf
from workbench import paths
from workbench.bench.label_wants import SALE_EU, LabelOrder
from workbench.checks.assess import assess
from workbench.documents.label_content import LabelContent, LabelMaking, label_content
from workbench.documents.worksheet_content import StudioBlock
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.storage.reference.label_sheets import load_label_tables
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words

MM = 72 / 25.4
SHIPPED = Shipped(paths.resources() / "reference")
WORDS = load_words(paths.resources() / "words")
TABLES = load_label_tables(paths.resources() / "reference")
STUDIO = StudioBlock("Pebblewick", "desk@pebblewick.example")
MAKING = LabelMaking(STUDIO, WORDS, TABLES)
MARKETS = ("EU", "UK", "US")


def toner() -> Formula:
    """Return a short formula with an essential oil."""
    return make_formula(
        ("water*", "0"),
        ("glycerin", "4"),
        ("panthenol_d", "1"),
        ("phenoxyethanol_ehg", "0.9"),
        ("eo_lavender", "0.02"),
        name="Reedling toner",
        product_type="toner",
    )


def thirty_names() -> tuple[Formula, Shelf]:
    """Return a formula whose list has thirty names of usual length, and its shelf."""
    keys = [f"botanical_number_{number:02}" for number in range(1, 30)]
    shelf = make_shelf(*(make_ingredient(key) for key in keys))
    return make_formula(("water*", "0"), *((key, "2") for key in keys), name="Thirty"), shelf


def order(**changes: Any) -> LabelOrder:
    """Return what a maker says for a label to be sold in the EU, changed as asked."""
    usual: dict[str, Any] = {
        "kind": SALE_EU,
        "function": "Face toner",
        "use": "Pat a little onto clean skin.",
        "who": "Pebblewick, 3 Tidewater Lane, Harrowmere",
        "net": Decimal(50),
        "net_unit": "ml",
        "batch": "PB-2611-01",
        "made_on": date(2026, 11, 20),
        "lasts_months": 18,
        "opened_months": 6,
    }
    return LabelOrder(**(usual | changes))


def content_of(
    formula: Formula | None = None, shelf: Shelf = SHIPPED.shelf, **changes: Any
) -> LabelContent:
    """Return the content of a label, judged for every market."""
    made = formula or toner()
    scope = make_scope(markets=MARKETS, product_type=made.product_type)
    assessment = assess(made, shelf, scope, SHIPPED.rules)
    return label_content(order(**changes), made, shelf, assessment, MAKING)
