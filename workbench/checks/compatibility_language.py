"""Read the small language in which a rule says when it speaks."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from decimal import Decimal

from workbench.checks.compatibility_values import (
    Amount,
    Both,
    Clash,
    Condition,
    Either,
    Figure,
    Has,
    Lacks,
    Opposite,
    Ph,
    PhUnknown,
    Product,
    Selector,
    Some,
    SpectrumLacks,
)

FIELDS = frozenset({"key", "function", "tag", "charge", "dissolves", "form", "lists", "is"})
FIGURES = frozenset({"water", "alcohol-in-water", "phototoxic"})
TESTS = frozenset({"over-dermal", "too-hot"})
PRODUCT = frozenset({"exposure", "area", "users", "form", "product"})
SIGNS = frozenset({"<", "<=", ">", ">="})
_TOKEN = re.compile(r"\s*(<=|>=|[<>\[\](),]|\d+(?:\.\d+)?(?![\w-])|[A-Za-z0-9_][\w-]*)")


class RuleError(ValueError):
    """Say what in the text of a rule cannot be read, as a code and the word it stands at."""

    def __init__(self, code: str, word: str) -> None:
        """Take the code of the fault and the word it was met at."""
        super().__init__(f"{code}: {word}" if word else code)
        self.code = code
        self.word = word


def read_condition(text: str, clashes: Mapping[str, Clash]) -> Condition:
    """Return the condition a text states.

    Raises
    ------
    RuleError
        If the text is not in the language, or names a clash that is not defined.
    """
    reader = _Reader(text, clashes)
    condition = reader.condition()
    reader.require_end()
    return condition


def read_selector(text: str) -> Selector:
    """Return the selector a text in square brackets states.

    Raises
    ------
    RuleError
        If the text is not in the language.
    """
    reader = _Reader(text, {})
    selector = reader.selector()
    reader.require_end()
    return selector


class _Reader:
    def __init__(self, text: str, clashes: Mapping[str, Clash]) -> None:
        self._words = _words_of(text)
        self._at = 0
        self._clashes = clashes
        self._readers: dict[str, Callable[[], Condition]] = {
            "has": self._has,
            "lacks": lambda: Lacks(self.selector()),
            "total": lambda: self._amount(is_active=False),
            "active": lambda: self._amount(is_active=True),
            "ph": self._ph,
            "clash": self._clash,
            "spectrum-lacks": lambda: SpectrumLacks(self._values()),
        }

    def condition(self) -> Condition:
        parts = [self._both()]
        while self._take("or"):
            parts.append(self._both())
        return parts[0] if len(parts) == 1 else Either(tuple(parts))

    def selector(self) -> Selector:
        self._require("[")
        selector = self._any_of()
        self._require("]")
        return selector

    def require_end(self) -> None:
        if self._at < len(self._words):
            raise RuleError("rule-not-understood", self._words[self._at])

    def _both(self) -> Condition:
        parts = [self._term()]
        while self._take("and"):
            parts.append(self._term())
        return parts[0] if len(parts) == 1 else Both(tuple(parts))

    def _term(self) -> Condition:
        if self._take("not"):
            return Opposite(self._term())
        if self._take("("):
            inner = self.condition()
            self._require(")")
            return inner
        word = self._next()
        if word in self._readers:
            return self._readers[word]()
        if word in TESTS:
            return Some(word, self.selector())
        if word in FIGURES:
            return Figure(word, self._sign(), self._number())
        if word in PRODUCT:
            return Product(word, self._values())
        raise RuleError("rule-not-understood", word)

    def _has(self) -> Condition:
        selector = self.selector()
        return Has(selector, self._number() if self._take(">=") else None)

    def _amount(self, *, is_active: bool) -> Condition:
        return Amount(self.selector(), is_active, self._sign(), self._number())

    def _ph(self) -> Condition:
        return PhUnknown() if self._take("unknown") else Ph(self._sign(), self._number())

    def _clash(self) -> Condition:
        code = self._next()
        if code not in self._clashes:
            raise RuleError("rule-clash-unknown", code)
        return self._clashes[code]

    def _any_of(self) -> Selector:
        parts = [self._all_of()]
        while self._take("or"):
            parts.append(self._all_of())
        return parts[0] if len(parts) == 1 else Selector("any", parts=tuple(parts))

    def _all_of(self) -> Selector:
        parts = [self._one()]
        while self._take("and"):
            parts.append(self._one())
        return parts[0] if len(parts) == 1 else Selector("all", parts=tuple(parts))

    def _one(self) -> Selector:
        if self._take("not"):
            return Selector("not", parts=(self._one(),))
        if self._take("("):
            inner = self._any_of()
            self._require(")")
            return inner
        word = self._next()
        if word == "anything":
            return Selector("all")
        if word not in FIELDS:
            raise RuleError("rule-field-unknown", word)
        return Selector(word, self._values())

    def _values(self) -> frozenset[str]:
        values = [self._value()]
        while self._take(","):
            values.append(self._value())
        return frozenset(values)

    def _value(self) -> str:
        word = self._next()
        if not re.match(r"\w", word):
            raise RuleError("rule-not-understood", word)
        return word

    def _sign(self) -> str:
        word = self._next()
        if word not in SIGNS:
            raise RuleError("rule-sign-missing", word)
        return word

    def _number(self) -> Decimal:
        word = self._next()
        if not re.fullmatch(r"\d+(\.\d+)?", word):
            raise RuleError("rule-number-missing", word)
        return Decimal(word)

    def _next(self) -> str:
        if self._at == len(self._words):
            raise RuleError("rule-ends-early", "")
        self._at += 1
        return self._words[self._at - 1]

    def _take(self, word: str) -> bool:
        if self._at < len(self._words) and self._words[self._at] == word:
            self._at += 1
            return True
        return False

    def _require(self, word: str) -> None:
        found = self._next()
        if found != word:
            raise RuleError("rule-not-understood", found)


def _words_of(text: str) -> tuple[str, ...]:
    words: list[str] = []
    place, text = 0, text.strip()
    while place < len(text):
        found = _TOKEN.match(text, place)
        if found is None:
            raise RuleError("rule-not-understood", text[place:].lstrip()[:1])
        words.append(found.group(1))
        place = found.end()
    return tuple(words)
