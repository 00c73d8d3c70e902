"""Read the tables of limits, their scopes and the substances they cover."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from pathlib import Path
from types import MappingProxyType

from workbench.checks.rules import Authority, Clause, LimitRow, Rules, Verdict
from workbench.errors import WorkbenchError
from workbench.formula.weighability import WeighingRules
from workbench.storage.reference.bands import load_bands
from workbench.storage.reference.chemistry import load_chemistry
from workbench.storage.reference.compatibility import RuleBook, load_compatibility
from workbench.storage.reference.emulsion import load_densities, load_emulsion
from workbench.storage.reference.label_tables import load_labelling
from workbench.storage.reference.preservation import load_preservation
from workbench.storage.reference.rows import Row, amount, read_rows
from workbench.storage.reference.tables import load_reference_set

FIELDS = ("exposure", "area", "users", "form", "product_class", "ingredient_role", "claim")
EXCLUDED = ("exposure", "area", "users", "form", "product_class", "claim")
WEIGHTS = {"product_class": 16, "users": 8, "form": 4, "area": 2, "exposure": 1}
_GROUP = "group:"

Key = tuple[str, str, str]


def load_limits(folder: Path) -> Mapping[str, tuple[LimitRow, ...]]:
    """Return the rows of the limit tables by each substance they count."""
    return _by_substance(read_limit_rows(folder))


def _by_substance(limits: tuple[LimitRow, ...]) -> Mapping[str, tuple[LimitRow, ...]]:
    by_substance: dict[str, list[LimitRow]] = {}
    for row in limits:
        for substance in row.factors:
            by_substance.setdefault(substance, []).append(row)
    return MappingProxyType({key: tuple(rows) for key, rows in by_substance.items()})


def load_rules(folder: Path) -> Rules:
    """Return the whole reference set a formula is checked against."""
    figures = {
        row["key"]: Decimal(row["value"])
        for table in ("weighing.csv", "figures.csv")
        for row in read_rows(folder, table)
    }
    dated_set = load_reference_set(folder)
    limits = read_limit_rows(folder)
    book = RuleBook(folder)
    compatibility, product_ph = load_compatibility(book)
    return Rules(
        reference_set=dated_set.id,
        dated=dated_set.date,
        limits_by_substance=_by_substance(limits),
        limits=limits,
        limits_of_products=tuple(row for row in limits if not row.factors),
        labelling=load_labelling(folder),
        weighing=WeighingRules(
            allowed_error_percent=figures["allowed_error_percent"],
            strict_tolerance_percent=figures["strict_tolerance_percent"],
            strict_factor=figures["strict_factor"],
            least_deviation_divisions=figures["least_deviation_divisions"],
        ),
        figures=MappingProxyType(figures),
        accept_bands=load_bands(folder),
        chemistry=load_chemistry(folder),
        preservation=load_preservation(folder),
        emulsion=load_emulsion(folder),
        densities=load_densities(folder),
        compatibility=compatibility,
        product_ph=product_ph,
        ph_swaps=book.swaps,
    )


def read_limit_rows(folder: Path) -> tuple[LimitRow, ...]:
    """Return every row of the limit tables in their order."""
    covered: dict[Key, list[Row]] = {}
    for row in read_rows(folder, "limit_substances.csv"):
        covered.setdefault(_key(row), []).append(row)
    pairs = zip(read_rows(folder, "limits.csv"), read_rows(folder, "limit_scopes.csv"), strict=True)
    return tuple(
        _limit_row(index, text, scope, covered.get(_key(text), []))
        for index, (text, scope) in enumerate(pairs)
    )


def _limit_row(index: int, text: Row, scope: Row, covered: list[Row]) -> LimitRow:
    if _key(text) != _key(scope):
        raise WorkbenchError(
            "The tables of limits do not belong together.",
            "Install the program again.",
            f"limits.csv and limit_scopes.csv differ at row {index}: {_key(text)}",
        )
    own = [row for row in covered if row["role"] == "own"]
    counts_as = {row["counts_as"] for row in own}
    basis_kinds = {row["basis_kind"] for row in own}
    return LimitRow(
        index=index,
        substance=text["substance_key"],
        name=text["display_name"],
        jurisdiction=text["jurisdiction"],
        scope_text=text["product_scope"],
        authority=Authority(text["status"]),
        maximum=amount(text["max_percent"]),
        is_strict="must be below" in text["basis"],
        basis=text["basis"],
        basis_kind=basis_kinds.pop() if len(basis_kinds) == 1 else "",
        group=text["group_key"],
        group_maximum=amount(text["group_max_percent"]),
        main=_main(scope),
        alternatives=_clauses(scope["alternatives"]),
        doubt=_clauses(scope["doubt"]),
        specificity=sum(weight for field, weight in WEIGHTS.items() if scope[field]),
        when_excluded=_verdict(scope["when_excluded"]),
        when_outside=_verdict(scope["when_outside"]),
        ph_min=amount(scope["ph_min"]),
        ph_max=amount(scope["ph_max"]),
        ph_max_strict=scope["ph_max_strict"] == "y",
        effective_from=_day(text["effective_from"]),
        factors=_factors(own),
        group_factors=_factors([row for row in covered if row["role"].startswith(_GROUP)]),
        possible=frozenset(row["covers"] for row in own if row["coverage"] == "possible"),
        counts_as=counts_as.pop() if len(counts_as) == 1 else "",
        condition=text["condition"],
        warning=text["required_warning"],
        applies_when=text["applies_when"],
        source=text["source"],
        confidence=text["confidence"],
        text_as_at=text["text_as_at"],
        is_in_scope_of_tool=scope["in_scope_of_tool"] == "y",
    )


def _key(row: Row) -> Key:
    return row["substance_key"], row["jurisdiction"], row["product_scope"]


def _main(scope: Row) -> Clause:
    return Clause(
        allowed={field: _values(scope[field]) for field in FIELDS if scope[field]},
        excluded={
            field: _values(scope[f"excluded_{field}"])
            for field in EXCLUDED
            if scope[f"excluded_{field}"]
        },
    )


def _clauses(text: str) -> tuple[Clause, ...]:
    return tuple(_clause(part) for part in text.split("|") if part)


def _clause(text: str) -> Clause:
    allowed: dict[str, frozenset[str]] = {}
    excluded: dict[str, frozenset[str]] = {}
    for condition in text.split("&"):
        field, _, values = condition.partition("=")
        name = field.removeprefix("excluded_")
        if name not in FIELDS or not values:
            raise WorkbenchError(
                "A table of limits cannot be read.",
                "Install the program again.",
                f"limit_scopes.csv: {condition!r} is no scope",
            )
        (allowed if name == field else excluded)[name] = _values(values)
    return Clause(allowed=allowed, excluded=excluded)


def _values(text: str) -> frozenset[str]:
    return frozenset(text.split(";"))


def _factors(rows: list[Row]) -> Mapping[str, Decimal | None]:
    return MappingProxyType({row["covers"]: amount(row["factor"]) for row in rows})


def _day(text: str) -> date | None:
    return date.fromisoformat(text) if text else None


def _verdict(text: str) -> Verdict:
    return Verdict(text) if text else Verdict.SILENT
