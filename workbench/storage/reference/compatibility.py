"""Read the rules of the trade: the shipped files, and one rule as a maker writes it."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import replace
from decimal import Decimal, InvalidOperation
from functools import cached_property
from pathlib import Path
from types import MappingProxyType

from workbench.checks.compatibility_index import compatibility_of, selectors_of
from workbench.checks.compatibility_language import RuleError, read_condition, read_selector
from workbench.checks.compatibility_values import (
    Clash,
    Compatibility,
    CompatibilityRule,
    Condition,
    Product,
)
from workbench.checks.ph_windows import PhSwap, ProductPh
from workbench.errors import WorkbenchError
from workbench.storage.json_places import place_at
from workbench.storage.reference.rows import Row, amount, read_rows
from workbench.storage.reference.rule_fields import (
    PRODUCT,
    SEVERITIES,
    Fields,
    addition_of,
    asked_of,
    example_of,
    leaves_of,
    read_fields,
    require_fields,
    require_in,
)

CLASHES_FILE = "clashes.json"
PRODUCT_PH_FILE = "product-ph.json"
RULES_FOLDER = "rules"
_OTHER_FILES = (CLASHES_FILE, PRODUCT_PH_FILE)
_FLAGS = frozenset({"heat-sensitive", "salt-sensitive"})
_EXAMPLE_FLAGS = frozenset({"heat-sensitive", "salt-sensitive"})


class RuleBook:
    """Hold the words rules may use, and read rules that use them."""

    def __init__(self, folder: Path) -> None:
        """Take the folder of the reference tables; the rules lie beside it."""
        self._reference = folder
        self.folder = folder.parent / RULES_FOLDER

    @cached_property
    def clashes(self) -> Mapping[str, Clash]:
        """What each code an ingredient lists clashes with."""
        rows = _rows_of(self.folder / CLASHES_FILE, "clashes")
        return MappingProxyType({row["code"]: _clash(row) for _, row in rows})

    @cached_property
    def rows(self) -> Mapping[str, Row]:
        """The rows of the shipped ingredients."""
        return {row["key"]: row for row in read_rows(self._reference, "ingredients.csv")}

    @cached_property
    def ingredients(self) -> frozenset[str]:
        """The keys of the shipped ingredients."""
        return frozenset(self.rows)

    @cached_property
    def swaps(self) -> tuple[PhSwap, ...]:
        """The swaps, each with the pH window of what comes in."""
        return tuple(
            PhSwap(
                from_key=row["from_key"],
                to_key=row["to_key"],
                factor=Decimal(row["factor"]),
                to_name=self.rows[row["to_key"]]["common_name"],
                low=amount(self.rows[row["to_key"]]["ph_min"]),
                high=amount(self.rows[row["to_key"]]["ph_max"]),
                note=row["note"],
                source=row["source"],
                confidence=row["confidence"],
            )
            for row in read_rows(self._reference, "swaps.csv")
        )

    def rule(
        self, fields: Fields, topic: str, own: frozenset[str] = frozenset()
    ) -> CompatibilityRule:
        """Return the rule a row states; `own` are keys of ingredients that are not shipped.

        Raises
        ------
        RuleError
            If the row is not a rule.
        """
        require_fields(fields)
        rule = CompatibilityRule(
            key=fields["key"],
            topic=topic,
            severity=SEVERITIES[fields["severity"]],
            text=fields["when"],
            when=read_condition(fields["when"], self.clashes),
            message=fields["message"],
            why=fields["why"],
            source=fields["source"],
            confidence=fields["confidence"],
            fires=example_of(fields["fires"]),
            quiet=example_of(fields["quiet"]),
            remedy=addition_of(fields.get("remedy")),
        )
        self._require_known(rule, self.ingredients | own)
        return rule

    def condition(self, text: str) -> Condition:
        """Return a condition that stands by itself."""
        condition = read_condition(text, self.clashes)
        self._require_words(condition, self.ingredients)
        return condition

    def _require_known(self, rule: CompatibilityRule, keys: frozenset[str]) -> None:
        self._require_words(rule.when, keys)
        named = {*rule.fires.percents, *rule.quiet.percents}
        if rule.remedy:
            named.add(rule.remedy.ingredient)
        require_in(named, keys)

    def _require_words(self, condition: Condition, keys: frozenset[str]) -> None:
        for selector in selectors_of(condition):
            for each in leaves_of(selector):
                require_in(each.values, self._words[each.field] if each.field != "key" else keys)
        for asked in asked_of(condition):
            if isinstance(asked, Product):
                require_in(asked.values, PRODUCT[asked.field])
            else:
                require_in(asked.microbes, self._words["spectrum"])

    @cached_property
    def _words(self) -> Mapping[str, frozenset[str]]:
        text = (self._reference / "vocab.json").read_text(encoding="utf-8")
        words = json.loads(text)
        return {
            "function": frozenset(words["functions"]),
            "tag": frozenset(words["tags"]),
            "charge": frozenset(words["ionic_charge"]),
            "dissolves": frozenset(words["solubility"]),
            "form": frozenset(form.replace(" ", "-") for form in words["forms"]),
            "lists": frozenset(words["incompatibility_codes"]),
            "spectrum": frozenset(words["spectrum"]),
            "is": _FLAGS,
        }


def load_compatibility(book: RuleBook) -> tuple[Compatibility, tuple[ProductPh, ...]]:
    """Return the shipped rules of the trade, and the pH each kind of product usually has.

    Raises
    ------
    WorkbenchError
        If a row is malformed or stands twice; its detail names file, line and reason.
    """
    windows = tuple(_product_windows(book))
    rules: list[CompatibilityRule] = []
    seen: dict[str, str] = {}
    for file in sorted(book.folder.glob("*.json")):
        if file.name not in _OTHER_FILES:
            for line, row in _rows_of(file, "rules"):
                rules.append(_shipped(book, row, file, line))
                _require_new(rules[-1], seen, f"{file.name}:{line}")
    return compatibility_of(rules, (window.when for window in windows)), windows


def _shipped(book: RuleBook, row: Fields, file: Path, line: int) -> CompatibilityRule:
    try:
        return book.rule(row, file.stem)
    except RuleError as error:
        raise unreadable(f"{file.name}:{line}: {error}") from error


def _require_new(rule: CompatibilityRule, seen: dict[str, str], place: str) -> None:
    for name in (f"key {rule.key}", f"when {rule.text}"):
        if name in seen:
            raise unreadable(f"{place}: {name!r} stands already at {seen[name]}")
        seen[name] = place


def _product_windows(book: RuleBook) -> Iterator[ProductPh]:
    file = book.folder / PRODUCT_PH_FILE
    for line, row in _rows_of(file, "windows"):
        try:
            yield ProductPh(
                key=row["key"],
                when=book.condition(row["when"]),
                low=Decimal(row["low"]),
                high=Decimal(row["high"]),
                source=row["source"],
                confidence=row["confidence"],
            )
        except (RuleError, KeyError, InvalidOperation) as error:
            raise unreadable(f"{file.name}:{line}: {error!r}") from error


def shipped_keys(book: RuleBook) -> frozenset[str]:
    """Return the keys the shipped rules have."""
    files = (file for file in book.folder.glob("*.json") if file.name not in _OTHER_FILES)
    return frozenset(str(row.get("key")) for file in files for _, row in _rows_of(file, "rules"))


def unreadable(detail: str) -> WorkbenchError:
    """Return the refusal of shipped rules that are not as they were shipped."""
    return WorkbenchError(
        "The rules of the trade cannot be read.", "Install the program again.", detail
    )


def _rows_of(file: Path, name: str) -> Iterator[tuple[int, Fields]]:
    """Yield the rows of a file with the line each begins at."""
    text = file.read_text(encoding="utf-8")
    try:
        rows = json.loads(text, parse_float=Decimal, parse_int=Decimal)[name]
    except (ValueError, KeyError, TypeError) as error:
        raise unreadable(f"{file.name}:{getattr(error, 'lineno', 1)}: {error}") from error
    decoder = json.JSONDecoder()
    place = text.index("[", text.index(f'"{name}"')) + 1
    for row in rows:
        start = text.index("{", place)
        _, place = decoder.raw_decode(text, start)
        yield place_at(text, start).line, row


def _clash(row: Fields) -> Clash:
    one = row.get("one", f"[lists {row['code']}]")
    least = Decimal(row["at_least"]) if "at_least" in row else None
    return Clash(row["code"], read_selector(one), read_selector(row["other"]), least)


def own_rule(book: RuleBook, text: str, own: frozenset[str]) -> CompatibilityRule:
    """Return the maker's rule a text states.

    Raises
    ------
    RuleError
        If the text is not a rule.
    """
    return replace(book.rule(read_fields(text), "own", own), is_own=True)
