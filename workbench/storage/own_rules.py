"""The maker's own rules of the trade: kept as they are written, read when they are used."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from sqlalchemy import Connection, delete, insert, select, update

from workbench.checks.compatibility_examples import WATER, example_fault
from workbench.checks.compatibility_language import RuleError
from workbench.checks.compatibility_values import CompatibilityRule
from workbench.errors import WorkbenchError
from workbench.storage.ingredients import read_ingredients
from workbench.storage.reference.compatibility import RuleBook, own_rule, shipped_keys
from workbench.storage.reference.rule_fields import read_fields
from workbench.storage.schema import IngredientRow, OwnRuleRow
from workbench.storage.sentences import refusal, sentence
from workbench.storage.studio_file import StudioFile


@dataclass(frozen=True, slots=True)
class OwnRule:
    """Hold one rule as it was written, and the counter its next change asks for."""

    key: str
    text: str
    counter: int


@dataclass(frozen=True, slots=True)
class OwnRules:
    """Hold the rules that can be used, and a refusal in words for each that cannot."""

    rules: tuple[CompatibilityRule, ...] = ()
    refused: tuple[WorkbenchError, ...] = ()


class OwnRuleBook:
    """Keep the maker's rules."""

    def __init__(self, file: StudioFile, book: Callable[[], RuleBook]) -> None:
        """Take the file they are in, and how to get the words a rule may use."""
        self._file = file
        self._book = book

    def written(self) -> tuple[OwnRule, ...]:
        """Return every rule as it was written, by key."""
        query = select(OwnRuleRow.key, OwnRuleRow.text, OwnRuleRow.counter)
        with self._file.reading() as connection:
            return tuple(OwnRule(*row) for row in connection.execute(query.order_by("key")))

    def read(self) -> OwnRules:
        """Return the rules to check with; one that cannot be used is told, and left out."""
        rules: list[CompatibilityRule] = []
        refused: list[WorkbenchError] = []
        with self._file.reading() as connection:
            rows = list(connection.execute(select(OwnRuleRow.key, OwnRuleRow.text)))
            keys = frozenset(connection.scalars(select(IngredientRow.key))) if rows else frozenset()
        for key, text in sorted(rows):
            try:
                rules.append(self._rule(key, text, keys))
            except WorkbenchError as error:
                refused.append(error)
        return OwnRules(tuple(rules), tuple(refused))

    def save(self, text: str, counter: int = 0) -> OwnRule:
        """Store a rule over the state of its counter, 0 for a new one, and return it.

        Raises
        ------
        WorkbenchError
            If it is no rule, does not hold on its own two examples, or bears the key of
            another; or if another window has stored it since.
        """
        key = _key_of(text)
        with self._file.writing() as connection:
            keys = frozenset(connection.scalars(select(IngredientRow.key)))
            rule = self._rule(key, text, keys)
            _require_examples(connection, rule)
            if not counter:
                if _is_stored(connection, key):
                    raise _refused(key, "rule-key-taken", key)
                connection.execute(insert(OwnRuleRow).values(key=key, text=text, counter=1))
                return OwnRule(key, text, 1)
            place = (OwnRuleRow.key == key) & (OwnRuleRow.counter == counter)
            values = {"text": text, "counter": counter + 1}
            if connection.execute(update(OwnRuleRow).where(place).values(values)).rowcount != 1:
                raise refusal("stale-rule", rule=key)
        return OwnRule(key, text, counter + 1)

    def tried(self, text: str) -> CompatibilityRule:
        """Return the rule a text states, tried on its own two examples and stored nowhere.

        Raises
        ------
        WorkbenchError
            If it is no rule, does not hold on its examples, or bears the key of a shipped one.
        """
        key = _key_of(text)
        with self._file.reading() as connection:
            rule = self._rule(key, text, frozenset(connection.scalars(select(IngredientRow.key))))
            _require_examples(connection, rule)
        return rule

    def put(self, before: Mapping[str, str], after: Mapping[str, str]) -> None:
        """Store the texts by key that differ; what was refused before may come back by undo.

        Raises
        ------
        WorkbenchError
            If one of them is stored otherwise than `before` says; then nothing is changed.
        """
        changed = [key for key in {**before, **after} if before.get(key) != after.get(key)]
        with self._file.writing() as connection:
            for key in changed:
                place = OwnRuleRow.key == key
                query = select(OwnRuleRow.text, OwnRuleRow.counter).where(place)
                row = connection.execute(query).first()
                if (row.text if row else None) != before.get(key):
                    raise refusal("stale-rule", rule=key)
                connection.execute(delete(OwnRuleRow).where(place))
                if key in after:
                    counter = row.counter + 1 if row else 1
                    values = {"key": key, "text": after[key], "counter": counter}
                    connection.execute(insert(OwnRuleRow).values(values))

    @property
    def language(self) -> str:
        """How a rule is written, as Markdown."""
        return (self._book().folder / "README.md").read_text(encoding="utf-8")

    def remove(self, key: str) -> None:
        """Forget a rule, whether it could be used or not."""
        with self._file.writing() as connection:
            connection.execute(delete(OwnRuleRow).where(OwnRuleRow.key == key))

    def _rule(self, key: str, text: str, keys: frozenset[str]) -> CompatibilityRule:
        book = self._book()
        try:
            rule = own_rule(book, text, keys)
        except RuleError as error:
            raise _refused(key, error.code, error.word) from error
        if rule.key in shipped_keys(book):
            raise _refused(key, "rule-key-taken", rule.key)
        return rule


def _key_of(text: str) -> str:
    try:
        key = read_fields(text).get("key")
    except RuleError as error:
        raise _refused("", error.code, error.word) from error
    if not isinstance(key, str) or not key.strip():
        raise _refused("", "rule-field-missing", "key")
    return key


def _is_stored(connection: Connection, key: str) -> bool:
    return connection.scalar(select(OwnRuleRow.key).where(OwnRuleRow.key == key)) is not None


def _require_examples(connection: Connection, rule: CompatibilityRule) -> None:
    named = {WATER, *rule.fires.percents, *rule.quiet.percents}
    fault = example_fault(rule, read_ingredients(connection, named))
    if fault:
        raise _refused(rule.key, fault, "")


def _refused(key: str, code: str, word: str) -> WorkbenchError:
    reason = sentence(code, word=word)
    return refusal("own-rule", detail=f"{code}: {word}", rule=key or "?", reason=reason)
