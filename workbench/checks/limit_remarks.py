"""What the rows say, gathered into one remark for each thing to say."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.checks.constituents import Inside
from workbench.checks.finding import Severity
from workbench.checks.limit_sums import Held, Spoken, Survey
from workbench.checks.rules import Authority, LimitRow, Verdict

Part = tuple[int, str]
TYPICAL = "limit-typical"
_REFUSING = ("limit-banned", TYPICAL)
_SPOKEN = {"raw-material": "limit-raw-material", "by-claim": "limit-by-claim"}


@dataclass(frozen=True, slots=True)
class Remark:
    """Hold a finding in the making.

    Parameters
    ----------
    row : LimitRow
        The row that speaks, of the first jurisdiction.
    jurisdictions : tuple of str
        All that say the same.
    parts : frozenset of (int, str)
        Lines and substances concerned.
    reason : str
        Why a row without a sum speaks, else empty.
    held : Held or None
        The sum that is over, if it is one.
    source, confidence : str
        Of all jurisdictions together.
    carriers : tuple of str
        Materials whose typical figures it rests on.
    """

    code: str
    severity: Severity
    row: LimitRow
    jurisdictions: tuple[str, ...]
    parts: frozenset[Part]
    reason: str = ""
    held: Held | None = None
    source: str = ""
    confidence: str = ""
    carriers: tuple[str, ...] = ()

    @property
    def limit(self) -> Decimal | None:
        """Return the figure it is about; nil where nothing is allowed, None where none is."""
        if self.held is not None:
            return self.held.limit
        return Decimal(0) if self.code in _REFUSING else None

    @property
    def is_group(self) -> bool:
        """Tell whether it is about the sum of a group."""
        return self.held is not None and bool(self.held.group)

    @property
    def subject(self) -> str:
        """Return the key of the entry or the name of the group."""
        return self.held.group if self.held and self.held.group else self.row.substance


def remarks_of(found: Survey, jurisdiction: str) -> Iterable[Remark]:
    """Yield what a survey has to say of one product in one jurisdiction."""
    for held in found.law:
        code = "limit-banned" if held.limit == 0 else "limit-over"
        yield from _of_held(held, code, Severity.STOP, jurisdiction)
    surely = {held.row.index for held in (*found.law, *found.others) if held.is_over}
    for held in found.possible:
        if held.row.index not in surely:
            yield from _of_held(held, "limit-over-possible", Severity.NOTE, jurisdiction)
    for held in found.others:
        if held.row.authority is Authority.FUTURE_LAW:
            yield from _of_held(held, "limit-future", Severity.NOTE, jurisdiction)
        else:
            yield from _of_held(held, "limit-over-advice", Severity.CAUTION, jurisdiction)
    for spoken in found.spoken:
        yield _of_spoken(spoken, jurisdiction)


def _of_held(held: Held, code: str, severity: Severity, jurisdiction: str) -> Iterable[Remark]:
    if held.is_over:
        yield Remark(
            code=code,
            severity=severity,
            row=held.row,
            jurisdictions=(jurisdiction,),
            parts=frozenset((line, substance) for line, substance, _ in held.amounts),
            held=held,
            source=held.row.source,
            confidence=held.row.confidence,
        )


def _of_spoken(spoken: Spoken, jurisdiction: str) -> Remark:
    is_banned = spoken.verdict is Verdict.BANNED
    return Remark(
        code="limit-banned" if is_banned else _SPOKEN.get(spoken.reason, "limit-check"),
        severity=Severity.STOP if is_banned else Severity.NOTE,
        row=spoken.row,
        jurisdictions=(jurisdiction,),
        parts=parts_of(spoken),
        reason=spoken.reason,
        source=spoken.row.source,
        confidence=spoken.row.confidence,
    )


def typical_remarks(
    sure: Survey, whole: Survey, jurisdiction: str, inside: Iterable[Inside]
) -> Iterable[Remark]:
    """Yield what is over only when typical contents of oils and blends are counted.

    Notes
    -----
    A typical figure is not that of the delivery, so it is never more than a caution.
    """
    carriers = {(each.line, each.substance): each.carrier for each in inside}
    known = {(held.row.index, held.group) for held in (*sure.law, *sure.others) if held.is_over}
    for held in (*whole.law, *whole.others):
        if held.is_over and (held.row.index, held.group) not in known:
            severity = Severity.CAUTION if held in whole.law else Severity.NOTE
            for remark in _of_held(held, TYPICAL, severity, jurisdiction):
                yield _resting_on(remark, carriers)
    refused = {spoken.row.index for spoken in sure.spoken if spoken.verdict is Verdict.BANNED}
    for spoken in whole.spoken:
        if spoken.verdict is Verdict.BANNED and spoken.row.index not in refused:
            remark = replace(
                _of_spoken(spoken, jurisdiction), code=TYPICAL, severity=Severity.CAUTION
            )
            yield _resting_on(remark, carriers)


def _resting_on(remark: Remark, carriers: Mapping[Part, str]) -> Remark:
    found = (carriers[part] for part in sorted(remark.parts) if part in carriers)
    return replace(remark, carriers=tuple(dict.fromkeys(found)), confidence="memory")


def parts_of(spoken: Spoken) -> frozenset[Part]:
    """Return the lines and substances a row speaks of."""
    return frozenset((line, pot.substance) for pot in spoken.pots for line, _ in pot.percents)


def settled(remarks: list[Remark]) -> list[Remark]:
    """Return one remark for each thing to say, over products, jurisdictions and entries."""
    return _without_contained(_merged(_strictest(remarks)))


def _strictest(remarks: list[Remark]) -> list[Remark]:
    # A product for several ages is judged once for each; the strictest answer speaks for all,
    # and where something is refused altogether its other limits add nothing.
    kept: dict[tuple[object, ...], Remark] = {}
    for remark in remarks:
        place = (remark.code, remark.subject, remark.jurisdictions, remark.reason, remark.parts)
        known = kept.get(place)
        if known is None or (remark.limit or Decimal(0)) < (known.limit or Decimal(0)):
            kept[place] = remark
    refused = {
        (remark.row.substance, remark.jurisdictions, remark.parts)
        for remark in kept.values()
        if remark.code == "limit-banned"
    }
    return [
        remark
        for remark in kept.values()
        if remark.code == "limit-banned"
        or (remark.row.substance, remark.jurisdictions, remark.parts) not in refused
    ]


def _merged(remarks: list[Remark]) -> list[Remark]:
    merged: dict[tuple[object, ...], Remark] = {}
    for remark in remarks:
        value = remark.held.value if remark.held else None
        place = (
            remark.code, remark.subject, remark.limit, value, remark.reason, remark.parts,
            remark.row.basis, remark.row.effective_from if remark.code == "limit-future" else None,
        )  # fmt: skip
        first = merged.get(place)
        merged[place] = _with_other(first, remark) if first else remark
    return list(merged.values())


def _with_other(first: Remark, other: Remark) -> Remark:
    sources = (first.source, other.source)
    # The second text often repeats the first and goes on from there.
    source = other.source if other.source.startswith(first.source) else " | ".join(sources)
    return replace(
        first,
        jurisdictions=(*first.jurisdictions, *other.jurisdictions),
        source=source,
        confidence="memory" if "memory" in (first.confidence, other.confidence) else "read",
    )


def _without_contained(remarks: list[Remark]) -> list[Remark]:
    return [
        remark
        for remark in remarks
        if not any(_contains(other, remark) for other in remarks if other is not remark)
    ]


def _contains(wide: Remark, narrow: Remark) -> bool:
    if wide.code != narrow.code or wide.limit != narrow.limit or wide.reason != narrow.reason:
        return False
    if not set(narrow.jurisdictions) <= set(wide.jurisdictions) or not narrow.parts <= wide.parts:
        return False
    if narrow.parts == wide.parts and set(narrow.jurisdictions) == set(wide.jurisdictions):
        return (wide.is_group, wide.row.index) < (narrow.is_group, narrow.row.index)
    return True
