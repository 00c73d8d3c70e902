"""Every row of law and advice held against a formula, once for all that ask."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from workbench.checks.carried import Carried
from workbench.checks.constituents import Inside, insides
from workbench.checks.limit_matching import atoms_of, judged, jurisdictions_of
from workbench.checks.limit_sums import Pot, Survey, pots_of, survey
from workbench.checks.rules import Atom, Judgement, Rules
from workbench.formula.composition import Composition
from workbench.formula.scope import Scope


@dataclass(frozen=True, slots=True)
class Surveyed:
    """Hold what the rows of every market say of a formula.

    Parameters
    ----------
    inside : tuple of Inside
        What is inside essential oils and blends.
    sure : tuple of (str, Survey)
        By jurisdiction and by product the scope means: what was weighed in and what a
        certificate lists.
    whole : tuple of (str, Survey)
        The same with typical contents counted too; `sure` itself where none count.
    """

    inside: tuple[Inside, ...] = ()
    sure: tuple[tuple[str, Survey], ...] = ()
    whole: tuple[tuple[str, Survey], ...] = ()


def surveyed(
    composition: Composition, items: Iterable[Carried], scope: Scope, rules: Rules
) -> Surveyed:
    """Return what the rows of every market in the scope say of a formula.

    Parameters
    ----------
    composition : Composition
        The formula as substances.
    items : iterable of Carried
        Its ingredients through all stocks, for what is inside them.
    scope, rules : Scope, Rules
        The product and the day to judge by, and the rows.
    """
    inside = insides(items)
    certified = tuple(each for each in inside if each.is_certified)
    sure = pots_of(composition, rules, certified)
    whole = pots_of(composition, rules, inside) if len(inside) > len(certified) else sure
    surely = _surveys(sure, scope, rules)
    return Surveyed(inside, surely, surely if whole == sure else _surveys(whole, scope, rules))


def _surveys(pots: tuple[Pot, ...], scope: Scope, rules: Rules) -> tuple[tuple[str, Survey], ...]:
    products = [(atom, _by_body(pots, atom, scope, rules)) for atom in atoms_of(scope)]
    return tuple(
        (jurisdiction, survey(pots, found.get(jurisdiction, ()), atom))
        for jurisdiction in jurisdictions_of(scope.markets)
        for atom, found in products
    )


def _by_body(
    pots: tuple[Pot, ...], atom: Atom, scope: Scope, rules: Rules
) -> dict[str, list[tuple[Pot, Judgement]]]:
    found: dict[str, list[tuple[Pot, Judgement]]] = {}
    for pot in pots:
        for judgement in judged(pot.substance, pot.role, atom, scope.on, rules):
            found.setdefault(judgement.jurisdiction, []).append((pot, judgement))
    return found
