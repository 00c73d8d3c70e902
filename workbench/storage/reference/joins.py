"""How much of each reference table joins to the others, and what does not.

Run as a module it prints the report; it ends with 1 when a name leads nowhere.
"""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from workbench import paths
from workbench.storage.reference.rows import Row, items, read_rows

Reading = Callable[[str], tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Join:
    """Say how a table joins.

    `joined` rows have every reference resolved; `exceptions` are named in exceptions.csv with
    their reason; `loose` are the rows' references that lead nowhere, as column and text.
    """

    table: str
    rows: int
    joined: int
    exceptions: tuple[str, ...]
    loose: tuple[str, ...]


def join_report(folder: Path) -> tuple[Join, ...]:
    """Return how each table of a folder joins to the others, in the order of the links."""
    tables = {name: read_rows(folder, name) for name in _table_names()}
    excepted = frozenset(
        (row["table"], row["column"], row["value"]) for row in tables["exceptions.csv"]
    )
    found = {
        end: frozenset(_cells(row, end.columns) for row in tables[end.table])
        for link in _LINKS
        for end in link.ends
    }
    names = dict.fromkeys(link.table for link in _LINKS)
    return tuple(_join(name, tables[name], found, excepted) for name in names)


@dataclass(frozen=True, slots=True)
class _End:
    """Name the columns a reference is looked for in."""

    table: str
    columns: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Link:
    """Hold one reference: columns of a table that must be found in one of some ends.

    A column that begins with `=` stands for that text itself. `only` keeps the rows whose
    column holds the value. `read` takes the names out of the last column's cell.
    """

    table: str
    columns: tuple[str, ...]
    ends: tuple[_End, ...]
    read: Reading = lambda cell: (cell,)
    only: tuple[str, str] | None = None


Found = Mapping[_End, frozenset[tuple[str, ...]]]


def _lower(cell: str) -> tuple[str, ...]:
    return (cell.lower(),)


def _filled(cell: str) -> tuple[str, ...]:
    return (cell,) if cell else ()


def _json_keys(cell: str) -> tuple[str, ...]:
    return tuple(json.loads(cell)) if cell else ()


def _acid(cell: str) -> tuple[str, ...]:
    # Ions that never change with pH carry their charge in their name: na+, zn2+, x-.
    return () if re.search(r"[+-]$", cell) else (cell,)


def _acids(cell: str) -> tuple[str, ...]:
    return tuple(name for ion in _json_keys(cell) for name in _acid(ion))


_LIMIT = ("substance_key", "jurisdiction", "product_scope")

_SUBSTANCES = (_End("substances.csv", ("key",)),)
_INGREDIENTS = (_End("ingredients.csv", ("key",)),)
_ACIDS = (_End("acids_bases.csv", ("key",)),)
_ALL_ACIDS = (*_ACIDS, _End("acids_bases_proposed.csv", ("key",)))
_ALLERGENS = (_End("allergens.csv", ("label_name",)),)
_LIMITS = (_End("limits.csv", _LIMIT),)
_SALTS = (_End("salts.csv", ("key",)),)

_LINKS = (
    _Link("ingredients.csv", ("key",), (_End("composition_long.csv", ("ingredient_key",)),)),
    _Link("ingredients.csv", ("key",), (_End("composition_dry.csv", ("ingredient_key",)),)),
    _Link("ingredients.csv", ("allergens",), _ALLERGENS, _json_keys),
    _Link("composition_long.csv", ("ingredient_key",), _INGREDIENTS),
    _Link("composition_long.csv", ("substance_key",), _SUBSTANCES),
    _Link("composition_dry.csv", ("ingredient_key",), _INGREDIENTS),
    _Link("composition_dry.csv", ("substance_key",), _SUBSTANCES),
    _Link("constituents_long.csv", ("ingredient_key",), _INGREDIENTS),
    _Link("constituents_long.csv", ("substance_key",), _SUBSTANCES),
    _Link("constituents_long.csv", ("allergen_label",), _ALLERGENS, _filled),
    _Link("substances.csv", ("parent",), _SUBSTANCES, _filled),
    _Link("substances.csv", ("members",), _SUBSTANCES, items),
    _Link("substances.csv", ("counts_as",), _SUBSTANCES, _json_keys),
    _Link("substances.csv", ("ions",), _ACIDS, _acids),
    _Link("substances.csv", ("ions_proposed",), _ALL_ACIDS, _acids),
    _Link("names.csv", ("substance_key",), _SUBSTANCES),
    _Link("limits.csv", _LIMIT, (_End("limit_scopes.csv", _LIMIT),)),
    _Link("limits.csv", _LIMIT, (_End("limit_substances.csv", _LIMIT),)),
    _Link("limit_scopes.csv", _LIMIT, _LIMITS),
    _Link("limit_substances.csv", _LIMIT, _LIMITS),
    _Link("limit_substances.csv", ("covers",), _SUBSTANCES),
    _Link("limit_substances.csv", ("counts_as",), _SUBSTANCES),
    _Link("allergens.csv", ("label_name",), (_End("allergen_links.csv", ("allergen_label",)),)),
    _Link("allergen_links.csv", ("allergen_label",), _ALLERGENS),
    _Link("allergen_links.csv", ("substance_key",), _SUBSTANCES),
    _Link("acids_bases.csv", ("name",), (_End("names.csv", ("name",)),), _lower),
    _Link("acid_links.csv", ("substance_key",), _SUBSTANCES),
    _Link("acid_links.csv", ("acids_bases_key",), _ACIDS, _filled),
    _Link("acid_links.csv", ("species",), _ALL_ACIDS, _acid, only=("model", "proposed")),
    _Link("salts.csv", ("key",), (_End("salt_forms.csv", ("salt_key",)),)),
    _Link("salt_forms.csv", ("salt_key",), _SALTS),
    _Link("salt_forms.csv", ("substance_key",), _SUBSTANCES),
    _Link("reference_names.csv", ("target_key",), _SUBSTANCES, only=("target_kind", "substance")),
    _Link("reference_names.csv", ("target_key",), _INGREDIENTS, only=("target_kind", "ingredient")),
    _Link("reference_names.csv", ("target_key",), _SALTS, only=("target_kind", "salt form")),
    _Link(
        "density.csv",
        ("=density.csv", "substance"),
        (_End("reference_names.csv", ("table", "name")),),
    ),
    _Link("swaps.csv", ("from_key",), _INGREDIENTS),
    _Link("swaps.csv", ("to_key",), _INGREDIENTS),
    _Link("usual_warnings.csv", ("substances",), _SUBSTANCES, items),
    _Link("water_activity.csv", ("substance_key",), _SUBSTANCES),
    _Link("water_activity.csv", ("counts_as",), _SUBSTANCES),
    _Link("preservative_forms.csv", ("substance_key",), _SUBSTANCES),
    _Link("preservative_forms.csv", ("active_key",), _SUBSTANCES),
    _Link("preservative_forms.csv", ("acid_key",), _ACIDS, _filled),
    _Link("preservative_levels.csv", ("substance_key",), _SUBSTANCES),
    _Link("partition.csv", ("substance_key",), _SUBSTANCES),
    _Link("oil_classes.csv", ("ingredient_key",), _INGREDIENTS),
    _Link("binding.csv", ("substance_key",), _SUBSTANCES),
    _Link("binding.csv", ("surfactant_key",), _SUBSTANCES),
    _Link("solubility.csv", ("substance_key",), _SUBSTANCES),
    _Link("required_hlb.csv", ("ingredient_key",), _INGREDIENTS),
)


def _table_names() -> set[str]:
    ends = {end.table for link in _LINKS for end in link.ends}
    return ends | {link.table for link in _LINKS} | {"exceptions.csv"}


def _cells(row: Row, columns: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(name[1:] if name.startswith("=") else row[name] for name in columns)


def _join(
    table: str, rows: list[Row], found: Found, excepted: frozenset[tuple[str, str, str]]
) -> Join:
    links = tuple(link for link in _LINKS if link.table == table)
    columns = {column for of, column, _ in excepted if of == table}
    joined = 0
    exceptions: dict[str, None] = {}
    loose: list[str] = []
    for row in rows:
        named = [row[name] for name in columns if (table, name, row[name]) in excepted]
        if named:
            exceptions.update(dict.fromkeys(named))
            continue
        nowhere = [name for link in links for name in _leads_nowhere(row, link, found)]
        loose.extend(nowhere)
        joined += not nowhere
    return Join(table, len(rows), joined, tuple(exceptions), tuple(loose))


def _leads_nowhere(row: Row, link: _Link, found: Found) -> Iterator[str]:
    if link.only and row[link.only[0]] != link.only[1]:
        return
    *first, last = _cells(row, link.columns)
    for name in link.read(last):
        if not any((*first, name) in found[end] for end in link.ends):
            yield f"{link.columns[-1]}: {' / '.join((*first, name))}"


def main() -> int:
    """Print how the shipped tables join."""
    report = join_report(paths.resources() / "reference")
    lines = [f"{'table':26}{'rows':>6}{'joined':>8}  exceptions"]
    for join in report:
        excepted = "; ".join(join.exceptions) or "-"
        lines.append(f"{join.table:26}{join.rows:>6}{join.joined:>8}  {excepted}")
        lines.extend(f"    leads nowhere: {end}" for end in join.loose)
    sys.stdout.write("\n".join(lines) + "\n")
    return 1 if any(join.loose for join in report) else 0


if __name__ == "__main__":
    raise SystemExit(main())
