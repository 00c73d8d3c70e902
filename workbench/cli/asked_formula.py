"""The formula a command was asked about: from a document, with the shelf it needs."""

from __future__ import annotations

import sys
from dataclasses import dataclass, replace
from datetime import date, datetime
from pathlib import Path

from workbench import paths
from workbench.checks.assess import assess
from workbench.checks.assessment import Assessment
from workbench.checks.compatibility import with_own_rules
from workbench.checks.rules import Rules
from workbench.errors import WorkbenchError
from workbench.formula.formula import MARKETS, Formula
from workbench.formula.scope import Scope, scope_of
from workbench.formula.shelf import Shelf, shelf_of
from workbench.storage.formula_document import load_document
from workbench.storage.opening import open_studio
from workbench.storage.reference.shipped import Shipped
from workbench.storage.studio import Studio
from workbench.words.catalogue import Words, load_words


@dataclass(frozen=True, slots=True)
class Asked:
    """Hold a formula, its shelf, the rules, and the words to speak in."""

    formula: Formula
    shelf: Shelf
    rules: Rules
    words: Words

    def scope(
        self, markets: tuple[str, ...] = (), on: date | None = None, exposure: str | None = None
    ) -> Scope:
        """Return the scope to judge by: the formula's own, or what the command overrides."""
        scope = scope_of(self.formula, on or datetime.now().astimezone().date())
        return replace(scope, markets=markets or scope.markets, exposure=exposure or scope.exposure)

    def assessed(self, scope: Scope) -> Assessment:
        """Assess the formula."""
        return assess(self.formula, self.shelf, scope, self.rules)


def asked_formula(file: Path, studio: Path | None) -> Asked:
    """Read a document; with a studio its ingredients, prices, balances and rules are known too.

    A rule of the studio that cannot be used is told on stderr and left out.
    """
    shipped = Shipped(paths.resources() / "reference")
    document = load_document(file, shipped)
    shelf, rules = shipped.shelf, shipped.rules
    if studio is not None:
        with open_studio(studio, read_only=True) as opened:
            own = opened.shelf_for(document.formula)
            rules = _with_own_rules(rules, opened)
        shelf = shelf_of(
            {**shelf.ingredients, **own.ingredients},
            dict(own.stocks),
            own.substances,
            dict(own.prices),
            own.balances or shelf.balances,
        )
    words = load_words(paths.resources() / "words")
    return Asked(document.formula, document.shelf(shelf), rules, words)


def _with_own_rules(rules: Rules, studio: Studio) -> Rules:
    own = studio.own_rules.read()
    for refused in own.refused:
        sys.stderr.write(f"formulation-workbench: {' '.join(str(refused).split())}\n")
    return with_own_rules(rules, own.rules)


def asked_markets(asked: list[list[str]] | None) -> tuple[str, ...]:
    """Return the markets of a command, each once; one that is not of the closed list is refused."""
    markets = tuple(dict.fromkeys(market for group in asked or () for market in group))
    unknown = [market for market in markets if market not in MARKETS]
    if unknown:
        raise WorkbenchError(
            f"'{unknown[0]}' is not a market the rules cover.", f"Choose from {', '.join(MARKETS)}."
        )
    return markets
