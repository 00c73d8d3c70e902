"""What the page of an ingredient says of it, as lines ready to be shown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from workbench.formula.ingredient import Constituent, Ingredient, Part
from workbench.formula.ingredient_change import FactChange, changes
from workbench.formula.ingredient_fields import GROUPS, OWN, READ, SPANS, confidence_of
from workbench.formula.substance import Substance
from workbench.formula.supply import CERTIFICATE
from workbench.ui.places.shelf.fact_rows import NO_CONFIDENCE, ShownFact
from workbench.words.catalogue import Words
from workbench.words.ingredients import fact_text, fraction_text


@dataclass(frozen=True, slots=True)
class ShownGroup:
    """Hold the facts under one heading, and which are not known."""

    name: str
    facts: tuple[ShownFact, ...]
    unknown: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Count:
    """Hold how many facts are known, and how many are confirmed or the maker's own."""

    all: int
    confirmed: int
    own: int


class FactsShown:
    """Say what is known of one ingredient, and what differs from the one it was copied from."""

    def __init__(
        self,
        item: Ingredient,
        original: Ingredient | None,
        substances: Mapping[str, Substance],
        words: Words,
    ) -> None:
        """Take the ingredient as it counts, the one it was copied from, and the substances."""
        self._item = item
        self._original = original
        self._substances = substances
        self._words = words
        found = () if original is None else changes(original, item)
        self._changes = {(change.field, change.substance): change for change in found}

    @property
    def changes(self) -> tuple[FactChange, ...]:
        """What differs from the original."""
        return tuple(self._changes.values())

    def groups(self) -> tuple[ShownGroup, ...]:
        """Return the plain facts by heading."""
        return tuple(self._group(name, fields) for name, fields in GROUPS)

    def count(self) -> Count:
        """Return how far the facts of every list are confirmed."""
        facts = (fact for group in self.groups() for fact in group.facts)
        said = [
            fact.confidence
            for fact in (*facts, *self.composition(), *self.constituents())
            if fact.confidence != NO_CONFIDENCE
        ]
        confirmed = said.count(READ) + said.count(CERTIFICATE)
        return Count(len(said), confirmed, said.count(OWN))

    def composition(self) -> tuple[ShownFact, ...]:
        """Return what it is made of, the most of it first; what an original had too is kept."""
        parts = sorted(self._item.composition, key=lambda part: -part.fraction)
        field = "composition"
        confidence = confidence_of(self._item, field, self._original)
        rows = [self._part(part, confidence) for part in parts]
        return (*rows, *self._gone(field))

    def constituents(self) -> tuple[ShownFact, ...]:
        """Return what is known to be inside it, the most of it first."""
        inside = sorted(self._item.constituents, key=lambda part: -part.fraction)
        return (*(self._inside(part) for part in inside), *self._gone("constituents"))

    def label(self, substance: str) -> str:
        """Return the label name of a substance, or the text that is kept for it."""
        known = self._substances.get(substance)
        return known.inci if known and known.inci else substance

    def _group(self, name: str, fields: tuple[str, ...]) -> ShownGroup:
        facts: list[ShownFact] = []
        unknown: list[str] = []
        for field in fields:
            label = self._words.say(f"shelf-fact-{field}")
            value = fact_text(self._item, field, self._words)
            was = self._was(field)
            if value or was:
                shown = value or self._words.say("shelf-unknown")
                confidence = confidence_of(self._item, field, self._original)
                facts.append(ShownFact(label, shown, confidence, was))
            else:
                unknown.append(label)
        return ShownGroup(name, tuple(facts), tuple(unknown))

    def _was(self, field: str) -> str:
        names = SPANS.get(field, (field,))
        if self._original is None or not any((name, "") in self._changes for name in names):
            return ""
        return self._former(fact_text(self._original, field, self._words))

    def _former(self, text: str) -> str:
        if not text:
            return self._words.say("shelf-was-nothing")
        return self._words.say("shelf-was", value=text)

    def _part(self, part: Part, confidence: str) -> ShownFact:
        was = self._was_fraction("composition", part.substance)
        if self._original is not None:
            confidence = "own" if was else confidence_of(self._original, "composition")
        return ShownFact(
            self.label(part.substance), fraction_text(part.fraction, self._words), confidence, was
        )

    def _inside(self, inside: Constituent) -> ShownFact:
        confidence = inside.confidence
        if inside.source == CERTIFICATE:
            confidence = CERTIFICATE
        elif self._item.is_own and (self._original is None or self._is_changed(inside)):
            confidence = "own"
        was = self._was_fraction("constituents", inside.substance)
        text = fraction_text(inside.fraction, self._words)
        if inside.source and inside.source != CERTIFICATE:
            text = self._words.say("shelf-value-sourced", value=text, source=inside.source)
        shown = confidence if confidence in ("read", "own", CERTIFICATE) else "memory"
        return ShownFact(self.label(inside.substance), text, shown, was)

    def _is_changed(self, inside: Constituent) -> bool:
        return ("constituents", inside.substance) in self._changes

    def _was_fraction(self, field: str, substance: str) -> str:
        change = self._changes.get((field, substance))
        if change is None:
            return ""
        if not isinstance(change.before, Decimal):
            return self._words.say("shelf-was-absent")
        return self._former(fraction_text(change.before, self._words))

    def _gone(self, field: str) -> tuple[ShownFact, ...]:
        return tuple(
            ShownFact(
                self.label(change.substance),
                self._words.say("shelf-none-now"),
                NO_CONFIDENCE,
                self._was_fraction(field, change.substance),
            )
            for change in self._changes.values()
            if change.field == field and change.after is None
        )
