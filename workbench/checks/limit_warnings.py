"""The words that rows of law or guidance want on the label."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from workbench.checks.label_values import LabelWarning, WarningKind
from workbench.checks.limit_matching import is_law, jurisdictions_of
from workbench.checks.limit_remarks import parts_of
from workbench.checks.limit_sums import Spoken
from workbench.checks.limit_survey import Surveyed
from workbench.checks.rules import Authority
from workbench.formula.scope import Scope

_TEXT = re.compile(
    r"^(PRESCRIBED|RECOMMENDED)(?: \(([^)]*)\))?: *(.*?)(?: \(([^()]*)\))?$", re.DOTALL
)
_KINDS = {"PRESCRIBED": WarningKind.PRESCRIBED, "RECOMMENDED": WarningKind.RECOMMENDED}


def required_warnings(seen: Surveyed, scope: Scope) -> tuple[LabelWarning, ...]:
    """Return the warnings that matching rows ask for, in their own words.

    Notes
    -----
    Words that law prescribes may not be changed. What a row says of when they are needed stands
    in `condition`. Words of a law that is not in force yet are left out. What only typical
    contents of an oil would call for is left out too; a certificate's contents count.
    """
    found: dict[tuple[str, str, str], LabelWarning] = {}
    markets = {body: market for market in scope.markets for body in jurisdictions_of((market,))}
    for jurisdiction, survey in seen.sure:
        for warning in _warnings(survey.warning, markets[jurisdiction], scope):
            place = (warning.key, warning.text, warning.condition)
            found[place] = _joined(found[place], warning) if place in found else warning
    return tuple(found.values())


def _warnings(asked: tuple[Spoken, ...], market: str, scope: Scope) -> Iterator[LabelWarning]:
    for spoken in asked:
        row = spoken.row
        if row.authority is Authority.FUTURE_LAW and not is_law(row, scope.on):
            continue
        read = _TEXT.match(row.warning)
        if read is None:
            continue
        kind, remark, words, condition = read.groups()
        places = parts_of(spoken)
        for text in words.split("; "):
            yield LabelWarning(
                key=row.substance,
                kind=_KINDS[kind],
                text=text,
                condition=condition or remark or "",
                markets=(market,),
                lines=tuple(sorted({line for line, _ in places})),
                substances=tuple(sorted({substance for _, substance in places})),
                source=row.source,
                confidence=row.confidence,
            )


def _joined(one: LabelWarning, other: LabelWarning) -> LabelWarning:
    return replace(
        one,
        markets=tuple(dict.fromkeys((*one.markets, *other.markets))),
        lines=tuple(sorted({*one.lines, *other.lines})),
        substances=tuple(sorted({*one.substances, *other.substances})),
    )
