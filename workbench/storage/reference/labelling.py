"""Read the rules of labels, usual warnings and microbial risk."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from decimal import Decimal, InvalidOperation
from pathlib import Path
from types import MappingProxyType

from workbench.checks.label_rules import RISK_KEYS, MarketLabel, RiskRule, Solute, UsualWarning
from workbench.formula.formula import AREAS, EXPOSURES, FORMS, MARKETS, PRODUCT_TYPES, USERS
from workbench.storage.reference.cells import TableRow, table_rows

_FREE = {"free_below_percent": False, "free_up_to_percent": True}
_WORDS = ("heading", "fragrance_word", "aroma_word")
_RULES = frozenset(
    {
        *_FREE,
        *_WORDS,
        "nano_mark",
        "names",
        "fragrance_purposes",
        "aroma_areas",
        "allergen_lists",
        "offered_allergen_lists",
    }
)
_KINDS = ("usual", "bench")
_FACTS = ("", "phototoxic-over-maximum", "phototoxic-within-maximum", "dry-product-wet-use")
_DIRECTIONS = ("meets", "raises", "lowers")


def unique(rows: Iterable[TableRow], *columns: str) -> Iterator[TableRow]:
    """Yield rows, refusing one whose columns repeat those of an earlier row."""
    seen: dict[tuple[str, ...], int] = {}
    for row in rows:
        key = tuple(row.text(column) for column in columns)
        if key in seen:
            row.refuse(f"{' / '.join(key)} stands in line {seen[key]} already")
        seen[key] = row.line
        yield row


def day(row: TableRow, column: str) -> date | None:
    """Return the day of a cell, None where it is empty."""
    text = row.optional(column)
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        row.refuse(f"{column} is {text!r}, no day such as 2026-07-31")


def load_market_labels(folder: Path) -> Mapping[str, MarketLabel]:
    """Return how each market writes an ingredient list."""
    by_market: dict[str, dict[str, TableRow]] = {}
    last: TableRow | None = None
    for row in unique(table_rows(folder, "label_rules.csv"), "market", "rule"):
        market, rule = row.text("market"), row.text("rule")
        if market not in MARKETS:
            row.refuse(f"{market!r} is no market")
        if rule not in _RULES:
            row.refuse(f"{rule!r} is no rule of labels")
        by_market.setdefault(market, {})[rule] = last = row
    if last is not None:
        for market in MARKETS:
            if market not in by_market:
                last.refuse(f"nothing is said of {market}")
    return MappingProxyType({market: _market(rules) for market, rules in by_market.items()})


def load_usual_warnings(folder: Path) -> tuple[UsualWarning, ...]:
    """Return the warnings of good practice in the order of the table."""
    vocabulary = json.loads((folder / "vocab.json").read_text(encoding="utf-8"))
    rows = unique(table_rows(folder, "usual_warnings.csv"), "key")
    return tuple(_usual(row, vocabulary) for row in rows)


def load_risks(folder: Path) -> Mapping[str, RiskRule]:
    """Return the factors of microbial risk by key; every one has its row."""
    rows = {row.text("key"): row for row in unique(table_rows(folder, "micro_risk.csv"), "key")}
    for key, row in rows.items():
        if key not in RISK_KEYS:
            row.refuse(f"{key!r} is no factor the program knows")
    for key in RISK_KEYS:
        if rows and key not in rows:
            rows[list(rows)[-1]].refuse(f"the factor {key!r} is missing")
    return MappingProxyType({key: _risk(row) for key, row in rows.items()})


def load_solutes(folder: Path) -> Mapping[str, Solute]:
    """Return how substances lower the activity of water, by substance key."""
    rows = unique(table_rows(folder, "water_activity.csv"), "substance_key")
    return MappingProxyType({row.text("substance_key"): _solute(row) for row in rows})


def _market(rules: Mapping[str, TableRow]) -> MarketLabel:
    row = next(iter(rules.values()))
    free = [name for name in _FREE if name in rules]
    missing = sorted(_RULES - rules.keys() - _FREE.keys())
    if missing:
        row.refuse(f"{row.text('market')} lacks the rule {missing[0]!r}")
    if len(free) != 1:
        row.refuse(f"{row.text('market')} needs one of {' or '.join(_FREE)}")
    if rules["names"].text("value") not in ("inci", "inci_us"):
        rules["names"].refuse("names is neither inci nor inci_us")
    return MarketLabel(
        market=row.text("market"),
        heading=rules["heading"].text("value"),
        fragrance_word=rules["fragrance_word"].text("value"),
        aroma_word=rules["aroma_word"].text("value"),
        nano_mark=rules["nano_mark"].optional("value"),
        uses_us_names=rules["names"].text("value") == "inci_us",
        free_percent=rules[free[0]].number("value"),
        is_free_at_limit=_FREE[free[0]],
        fragrance_purposes=_set(rules["fragrance_purposes"], "value"),
        aroma_areas=_known(rules["aroma_areas"], "value", AREAS),
        allergen_lists=_set(rules["allergen_lists"], "value"),
        offered_lists=_set(rules["offered_allergen_lists"], "value"),
        sources=MappingProxyType(
            {name: (rule.text("source"), rule.text("confidence")) for name, rule in rules.items()}
        ),
    )


def _usual(row: TableRow, vocabulary: Mapping[str, Iterable[str]]) -> UsualWarning:
    for column, allowed in (("kind", _KINDS), ("fact", _FACTS)):
        if row.optional(column) not in allowed:
            row.refuse(f"{column} is {row.optional(column)!r}, none of {', '.join(allowed)}")
    return UsualWarning(
        key=row.text("key"),
        kind=row.text("kind"),
        substances=_set(row, "substances"),
        functions=_known(row, "functions", vocabulary["functions"]),
        tags=_known(row, "tags", vocabulary["tags"]),
        fact=row.optional("fact"),
        above_percent=_figure(row, "above_percent"),
        exposures=_known(row, "exposures", EXPOSURES),
        areas=_known(row, "areas", AREAS),
        users=_known(row, "users", USERS),
        product_forms=_known(row, "product_forms", FORMS),
        product_types=_known(row, "product_types", PRODUCT_TYPES),
        gives_way_to=row.optional("gives_way_to"),
        source=row.text("source"),
        confidence=row.text("confidence"),
    )


def _risk(row: TableRow) -> RiskRule:
    direction = row.text("direction")
    if direction not in _DIRECTIONS:
        row.refuse(f"direction is {direction!r}, none of {', '.join(_DIRECTIONS)}")
    value = _figure(row, "value")
    if (value is None) is bool(row.optional("unit")):
        row.refuse("a figure needs its unit, and a unit its figure")
    return RiskRule(
        key=row.text("key"),
        direction=direction,
        value=value,
        unit=row.optional("unit"),
        names=_set(row, "names"),
        source=row.text("source"),
        confidence=row.text("confidence"),
    )


def _solute(row: TableRow) -> Solute:
    low, high = _figure(row, "norrish_low"), _figure(row, "norrish_high")
    if low is None or high is None or high < low:
        row.refuse("norrish_low and norrish_high must be numbers that do not fall")
    least = _figure(row, "least_activity") or Decimal(0)
    if not 0 <= least < 1:
        row.refuse(f"least_activity is {least}, which is no water activity")
    row.text("source"), row.text("confidence")
    return Solute(
        counts_as=row.text("counts_as"),
        particles=int(row.number("particles")),
        norrish_low=float(low),
        norrish_high=float(high),
        least_activity=float(least),
    )


def _figure(row: TableRow, column: str) -> Decimal | None:
    text = row.optional(column)
    try:
        value = Decimal(text) if text else None
    except InvalidOperation:
        value = Decimal("NaN")
    if value is not None and not value.is_finite():
        row.refuse(f"{column} is {text!r}, no number")
    return value


def _set(row: TableRow, column: str) -> frozenset[str]:
    text = row.optional(column)
    return frozenset(text.split(";")) if text else frozenset()


def _known(row: TableRow, column: str, allowed: Iterable[str]) -> frozenset[str]:
    names = _set(row, column)
    strange = sorted(names - set(allowed))
    if strange:
        row.refuse(f"{column}: {strange[0]!r} is no word of it")
    return names
