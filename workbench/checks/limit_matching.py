"""Which rows of law and advice speak of a substance in a product, and what the others say."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from enum import IntEnum

from workbench.checks.rules import Atom, Authority, Clause, Judgement, LimitRow, Rules, Verdict
from workbench.formula.scope import Scope

PRESERVATIVE = "preservative"
NOT_PRESERVATIVE = "not-preservative"
_ROLES = {
    "preservative": PRESERVATIVE,
    "fragrance": "fragrance",
    "essential-oil": "fragrance",
    "ph-adjuster-acid": "ph-adjuster",
    "ph-adjuster-base": "ph-adjuster",
    "ph-adjuster": "ph-adjuster",
    "buffer": "ph-adjuster",
    "colourant": "colourant",
    "pearlescent": "colourant",
    "opacifier": "colourant",
    "uv-filter": "uv-filter",
}
_USERS = {"adult": ("adult",), "under-3": ("toddler-1-2", "infant-0")}
_MARKETS = {"EU": ("EU",), "UK": ("UK",), "US": ("US-guidance", "CIR")}
_FIELDS = ("exposure", "area", "users", "form", "product_class")
_NOTHING: frozenset[str] = frozenset()
_LAWS = (Authority.LAW, Authority.FUTURE_LAW, Authority.LAW_BY_CLAIM)
_WORST_FIRST = (Verdict.BANNED, Verdict.CHECK)


class Fit(IntEnum):
    """Say how a row meets a product, the strongest answer first."""

    MATCHES = 0
    EXCLUDED = 1
    OUTSIDE = 2
    GATED = 3


def role_of(purpose: str) -> str:
    """Return the role the law knows for what a line is there for."""
    return _ROLES.get(purpose, "other")


def jurisdictions_of(markets: Iterable[str]) -> tuple[str, ...]:
    """Return the bodies of rules that a product for these markets is held against."""
    return tuple(body for market in markets for body in _MARKETS.get(market, ()))


def atoms_of(scope: Scope) -> tuple[Atom, ...]:
    """Split a scope into products with a single value in every field.

    Notes
    -----
    The law cuts ages at 1 and 3 years, so a product for under-3s is two products.
    """
    product = "other" if scope.product_type == "stock" else scope.product_type
    return tuple(
        Atom(scope.exposure, scope.area, users, scope.form, product)
        for users in _USERS.get(scope.users, (scope.users,))
    )


def fit(row: LimitRow, atom: Atom, role: str) -> Fit:
    """Test a row on a product and role: the best answer over its scope and alternatives."""
    return min(
        _clause_fit(clause, atom, role, row.authority) for clause in (row.main, *row.alternatives)
    )


def is_doubtful(row: LimitRow, atom: Atom, role: str) -> bool:
    """Tell whether it is unsettled that a matching row means this product."""
    return any(
        _clause_fit(clause, atom, role, row.authority) is Fit.MATCHES for clause in row.doubt
    )


def is_law(row: LimitRow, on: date) -> bool:
    """Tell whether a row is law in force on a day; a row of law is never too early."""
    if row.authority is Authority.FUTURE_LAW:
        return row.effective_from is not None and row.effective_from <= on
    return row.authority in (Authority.LAW, Authority.LAW_BY_CLAIM)


def judge(rows: tuple[LimitRow, ...], substance: str, role: str, atom: Atom, on: date) -> Judgement:
    """Judge a substance by the rows of one jurisdiction that cover it.

    Notes
    -----
    Per key the most specific matching rows win; a key without one falls to its worst verdict.
    "Not listed" falls away when another key's row matched, "excluded" never does.
    """
    law: list[LimitRow] = []
    possible: list[LimitRow] = []
    others: list[LimitRow] = []
    missed: list[_Missed] = []
    for key_rows in _by_kind(rows, on):
        winners, misses = _contest(key_rows, atom, role)
        if substance in key_rows[0].possible:
            possible.extend(row for row in winners if row.authority in _LAWS)
        elif is_law(key_rows[0], on):
            law.extend(winners)
            missed.extend(misses)
        else:
            others.extend(winners)
    return Judgement(
        jurisdiction=rows[0].jurisdiction,
        law=tuple(law),
        others=tuple(others),
        verdicts=_verdicts(missed, any_matched=bool(law)),
        possible=tuple(possible),
        by_claim=tuple(row for row in rows if _is_claimable(row, atom, role)),
    )


def judged(substance: str, role: str, atom: Atom, on: date, rules: Rules) -> tuple[Judgement, ...]:
    """Return the judgements of every jurisdiction, worked out once per set of rules."""
    answers = rules.judged.setdefault((atom, on), {})
    known = answers.get((substance, role))
    if known is None:
        bodies: dict[str, list[LimitRow]] = {}
        for row in rules.limits_by_substance.get(substance, ()):
            bodies.setdefault(row.jurisdiction, []).append(row)
        known = tuple(judge(tuple(rows), substance, role, atom, on) for rows in bodies.values())
        answers[substance, role] = known
    return known


def admits_role(row: LimitRow, role: str) -> bool:
    """Tell whether any scope of a row admits a role."""
    return any(_role_admitted(clause.allowed, role) for clause in (row.main, *row.alternatives))


def _is_claimable(row: LimitRow, atom: Atom, role: str) -> bool:
    if row.authority is not Authority.LAW_BY_CLAIM:
        return False
    claiming = replace(atom, claims=row.main.allowed.get("claim", _NOTHING))
    return fit(row, claiming, role) is Fit.MATCHES


@dataclass(frozen=True, slots=True)
class _Missed:
    verdict: Verdict
    met: Fit
    row: LimitRow


def _by_kind(rows: tuple[LimitRow, ...], on: date) -> Iterable[list[LimitRow]]:
    kinds: dict[tuple[str, str], list[LimitRow]] = {}
    for row in rows:
        kind = "law" if is_law(row, on) else row.authority.value
        kinds.setdefault((row.substance, kind), []).append(row)
    return kinds.values()


def _contest(
    key_rows: list[LimitRow], atom: Atom, role: str
) -> tuple[list[LimitRow], list[_Missed]]:
    fits = [(fit(row, atom, role), row) for row in key_rows]
    matching = [row for met, row in fits if met is Fit.MATCHES]
    if matching:
        top = max(row.specificity for row in matching)
        return [row for row in matching if row.specificity == top], []
    verdicts = [_Missed(_verdict(row, met), met, row) for met, row in fits]
    return [], [missed for missed in verdicts if missed.verdict is not Verdict.SILENT]


def _verdict(row: LimitRow, met: Fit) -> Verdict:
    if met is Fit.EXCLUDED:
        return row.when_excluded
    return row.when_outside if met is Fit.OUTSIDE else Verdict.SILENT


def _verdicts(missed: list[_Missed], *, any_matched: bool) -> tuple[tuple[Verdict, LimitRow], ...]:
    standing = [miss for miss in missed if not (any_matched and miss.met is Fit.OUTSIDE)]
    worst: dict[str, _Missed] = {}
    for miss in sorted(standing, key=lambda miss: _WORST_FIRST.index(miss.verdict)):
        worst.setdefault(miss.row.substance, miss)
    return tuple((miss.verdict, miss.row) for miss in worst.values())


def _clause_fit(clause: Clause, atom: Atom, role: str, authority: Authority) -> Fit:
    allowed = clause.allowed
    if not _role_admitted(allowed, role):
        return Fit.GATED
    claims = allowed.get("claim")
    if claims is not None and not claims & atom.claims:
        return Fit.GATED if authority is Authority.LAW_BY_CLAIM else Fit.OUTSIDE
    if any(_value(atom, field) not in allowed[field] for field in allowed if field in _FIELDS):
        return Fit.OUTSIDE
    if clause.excluded.get("claim", _NOTHING) & atom.claims:
        return Fit.EXCLUDED
    if any(_value(atom, field) in clause.excluded[field] for field in clause.excluded):
        return Fit.EXCLUDED
    return Fit.MATCHES


def _role_admitted(allowed: Mapping[str, frozenset[str]], role: str) -> bool:
    roles = allowed.get("ingredient_role")
    if roles is None:
        return True
    return role in roles or (NOT_PRESERVATIVE in roles and role != PRESERVATIVE)


def _value(atom: Atom, field: str) -> str:
    return str(getattr(atom, field)) if field in _FIELDS else ""
