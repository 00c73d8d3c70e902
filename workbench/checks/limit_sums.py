"""How much of what each row of law or advice limits a formula carries, on the row's own basis."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from workbench.checks.constituents import Inside
from workbench.checks.limit_matching import Fit, admits_role, fit, is_doubtful, role_of
from workbench.checks.rules import Atom, Authority, Judgement, LimitRow, Rules, Verdict
from workbench.formula.compare import SIGNIFICANT_FIGURES, exceeds, falls_below, significant
from workbench.formula.composition import Composition
from workbench.formula.totals import WHOLE


@dataclass(frozen=True, slots=True)
class Pot:
    """Hold one substance in one role: its lines and what each brings [% w/w]."""

    substance: str
    role: str
    percents: tuple[tuple[int, Decimal], ...]


@dataclass(frozen=True, slots=True)
class Held:
    """Hold a row against the content it limits.

    Parameters
    ----------
    row : LimitRow
        The row.
    limit : Decimal
        Its maximum, or that of its group [% w/w on the row's basis].
    group : str
        Name of the group when the sum is the group's, else empty.
    amounts : tuple of (int, str, Decimal)
        Line, substance and content on the row's basis [% w/w].
    has_unknown : bool
        Whether something covered has no factor, so that the sum is too small.
    """

    row: LimitRow
    limit: Decimal
    group: str
    amounts: tuple[tuple[int, str, Decimal], ...]
    has_unknown: bool = False

    @property
    def value(self) -> Decimal:
        """Return the content held against the limit [% w/w on the row's basis]."""
        return sum((amount for _, _, amount in self.amounts), Decimal(0))

    @property
    def is_over(self) -> bool:
        """Tell whether the content is over the limit by the one rule of comparison."""
        return over(self.value, self.limit, is_strict=self.row.is_strict)


@dataclass(frozen=True, slots=True)
class Spoken:
    """Hold a row that says something without a sum: a verdict, or a doubt about the row."""

    row: LimitRow
    verdict: Verdict
    reason: str
    pots: tuple[Pot, ...]


@dataclass(frozen=True, slots=True)
class Survey:
    """Hold all that the rows say of a formula in one product and jurisdiction.

    `asking_ph` are rows in force that put a demand on the pH; `warning` those that ask for
    words on the label.
    """

    law: tuple[Held, ...]
    possible: tuple[Held, ...]
    others: tuple[Held, ...]
    spoken: tuple[Spoken, ...]
    asking_ph: tuple[Spoken, ...] = ()
    warning: tuple[Spoken, ...] = ()


def over(value: Decimal, limit: Decimal, *, is_strict: bool) -> bool:
    """Tell whether content is over a limit; any content is over nil or, if strict, at it."""
    if limit == 0:
        return value > 0
    return not falls_below(value, limit) if is_strict else exceeds(value, limit)


def pots_of(
    composition: Composition, rules: Rules, inside: Iterable[Inside] = ()
) -> tuple[Pot, ...]:
    """Gather what a formula carries of substances that any row covers, by role."""
    pots: dict[tuple[str, str], list[tuple[int, Decimal]]] = {}
    for share in (*composition.shares, *(each.share for each in inside)):
        if share.percent > 0 and share.substance in rules.limits_by_substance:
            place = (share.substance, role_of(share.purpose))
            pots.setdefault(place, []).append((share.line, share.percent))
    return tuple(
        Pot(substance, role, tuple(percents)) for (substance, role), percents in pots.items()
    )


def survey(pots: tuple[Pot, ...], found: Iterable[tuple[Pot, Judgement]], atom: Atom) -> Survey:
    """Hold every row that wins for one product in one jurisdiction against the formula.

    Parameters
    ----------
    pots : tuple of Pot
        Everything a group of rows may add up.
    found : iterable of (Pot, Judgement)
        What the rows of the jurisdiction say of each.
    atom : Atom
        The product.
    """
    found = tuple(found)
    law = _gathered((row, pot) for pot, judgement in found for row in judgement.law)
    others = _gathered((row, pot) for pot, judgement in found for row in judgement.others)
    unsure = _gathered((row, pot) for pot, judgement in found for row in judgement.possible)
    return Survey(
        law=(*_own_sums(law), *_group_sums(law, pots)),
        possible=_own_sums(_joined(unsure, {**law, **others})),
        others=(*_own_sums(others), *_group_sums(others, pots)),
        spoken=(
            *_verdicts(found, atom),
            *_remarks(law, atom),
            *_asked_of_supplier(others),
            *_by_claim(found),
        ),
        asking_ph=tuple(_asking_ph(law, others)),
        warning=tuple(
            Spoken(row, Verdict.SILENT, "warning", carrying)
            for row, carrying in (*law.values(), *others.values())
            if row.warning and row.is_in_scope_of_tool and row.authority in _WARNING
        ),
    )


def allowance(held: Held, line: int, percent: Decimal) -> Decimal:
    """Return the most of a line that keeps a sum within its limit [% as supplied]."""
    own = sum((amount for where, _, amount in held.amounts if where == line), Decimal(0))
    others = held.value - own
    room = held.limit - others
    if held.limit == 0 or room <= 0:
        return Decimal(0)
    exact = room * percent / own
    unit = Decimal(1).scaleb(exact.adjusted() - SIGNIFICANT_FIGURES + 1)
    allowed = significant(exact)
    while allowed > 0 and over(
        others + own * allowed / percent, held.limit, is_strict=held.row.is_strict
    ):
        allowed -= unit
    return min(allowed, WHOLE)


Won = dict[int, tuple[LimitRow, tuple[Pot, ...]]]
_WARNING = (Authority.LAW, Authority.FUTURE_LAW, Authority.LABELLING)
_ADJUSTING = "ph-adjuster"


def _asking_ph(law: Won, others: Won) -> Iterator[Spoken]:
    for row, pots in (*law.values(), *others.values()):
        if row.ph_min is None and row.ph_max is None:
            continue
        # Advice is about acids that peel, not about a trace that sets the pH.
        meant = tuple(pot for pot in pots if row.index in law or pot.role != _ADJUSTING)
        if meant:
            yield Spoken(row, Verdict.CHECK, "ph", meant)


def _asked_of_supplier(others: Won) -> Iterator[Spoken]:
    for row, pots in others.values():
        if row.authority is Authority.RAW_MATERIAL:
            yield Spoken(row, Verdict.CHECK, "raw-material", pots)


def _by_claim(found: tuple[tuple[Pot, Judgement], ...]) -> Iterator[Spoken]:
    meant = _gathered((row, pot) for pot, judgement in found for row in judgement.by_claim)
    for row, carrying in meant.values():
        yield Spoken(row, Verdict.CHECK, "by-claim", carrying)


def _gathered(pairs: Iterable[tuple[LimitRow, Pot]]) -> Won:
    won: Won = {}
    for row, pot in pairs:
        pots = won[row.index][1] if row.index in won else ()
        won[row.index] = (row, (*pots, pot))
    return won


def _joined(unsure: Won, sure: Won) -> Won:
    return {
        index: (row, (*pots, *sure[index][1]) if index in sure else pots)
        for index, (row, pots) in unsure.items()
    }


def _own_sums(won: Won) -> tuple[Held, ...]:
    return tuple(
        _held(row, row.maximum, "", pots, row.factors)
        for row, pots in won.values()
        if row.maximum is not None
    )


def _group_sums(won: Won, pots: tuple[Pot, ...]) -> tuple[Held, ...]:
    # Entries of one group may carry different ceilings for different uses; each entry keeps its
    # own, and the sum is held against the highest of those that apply.
    ceilings: dict[str, tuple[Decimal, LimitRow]] = {}
    for row, _ in won.values():
        known = ceilings.get(row.group)
        if row.group_maximum is not None and (known is None or row.group_maximum > known[0]):
            ceilings[row.group] = (row.group_maximum, row)
    return tuple(
        _held(row, ceiling, group, _members(row, won, pots), row.group_factors)
        for group, (ceiling, row) in ceilings.items()
    )


def _members(row: LimitRow, won: Won, pots: tuple[Pot, ...]) -> tuple[Pot, ...]:
    by_other_use = {
        (pot.substance, pot.role)
        for other, winners in won.values()
        if other.group == row.group
        for pot in winners
    }
    return tuple(
        pot
        for pot in pots
        if pot.substance in row.group_factors
        and (admits_role(row, pot.role) or (pot.substance, pot.role) in by_other_use)
    )


def _held(
    row: LimitRow,
    limit: Decimal,
    group: str,
    pots: tuple[Pot, ...],
    factors: Mapping[str, Decimal | None],
) -> Held:
    amounts: list[tuple[int, str, Decimal]] = []
    has_unknown = False
    for pot in pots:
        factor = Decimal(1) if row.is_prohibition else factors[pot.substance]
        has_unknown = has_unknown or factor is None
        if factor is not None:
            amounts.extend((line, pot.substance, share * factor) for line, share in pot.percents)
    return Held(row, limit, group, tuple(amounts), has_unknown)


def _verdicts(found: tuple[tuple[Pot, Judgement], ...], atom: Atom) -> tuple[Spoken, ...]:
    spoken: dict[tuple[int, str], Spoken] = {}
    for pot, judgement in found:
        for verdict, row in judgement.verdicts:
            is_excluded = fit(row, atom, pot.role) is Fit.EXCLUDED
            reason = "excluded" if is_excluded else "not-listed"
            known = spoken.get((row.index, reason))
            pots = (*known.pots, pot) if known else (pot,)
            spoken[row.index, reason] = Spoken(row, verdict, reason, pots)
    return tuple(spoken.values())


def _remarks(law: Won, atom: Atom) -> tuple[Spoken, ...]:
    return tuple(
        Spoken(row, Verdict.CHECK, reason, pots)
        for row, pots in law.values()
        if (reason := _remark(row, pots, atom))
    )


def _remark(row: LimitRow, pots: tuple[Pot, ...], atom: Atom) -> str:
    if any(is_doubtful(row, atom, pot.role) for pot in pots):
        return "unsettled"
    if not row.is_in_scope_of_tool:
        return "outside-tool"
    is_limit = row.maximum is not None and not row.is_prohibition
    if is_limit and any(row.factors[pot.substance] is None for pot in pots):
        return "no-factor"
    return ""
