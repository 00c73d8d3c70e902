"""How far the tables of use, trade, pH and preservation were used on a formula."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from workbench.checks.checked_values import (
    APPLIED,
    COVERS_NOTHING,
    NONE_WRITTEN,
    NOT_APPLICABLE,
    Looked,
)
from workbench.checks.finding import Finding
from workbench.checks.opened import Opened
from workbench.checks.ph import ChemistrySituation
from workbench.checks.ph_values import AdjusterDose
from workbench.checks.ph_windows import PRODUCT, TARGET, PhWindows
from workbench.checks.preservative_values import PreservativeShare
from workbench.checks.rules import Rules
from workbench.formula.absent import Absent


@dataclass(frozen=True, slots=True)
class Answers:
    """Hold what the checks of a formula gave, apart from limits and label."""

    findings: tuple[Finding, ...]
    windows: PhWindows
    situation: ChemistrySituation | Absent
    adjusters: tuple[AdjusterDose, ...] | Absent
    preservatives: tuple[PreservativeShare, ...]


def tables_used(known: Opened, rules: Rules, given: Answers) -> tuple[Looked, ...]:
    """Return how many rows each table holds for a formula, and how many of them spoke.

    Notes
    -----
    A row that was looked at and had nothing to say counts as a row, not as used.
    """
    return (
        *_of_use(known, rules, given),
        *_of_ph(known, rules, given),
        *_of_preservation(known, rules, given),
        *_of_chemistry(rules, given),
    )


def _of_use(known: Opened, rules: Rules, given: Answers) -> Iterator[Looked]:
    state = _state(known)
    levels = sum(
        each.item.use_max is not None or each.item.use_min is not None for each in known.items
    )
    yield Looked("use-levels", state, levels, _spoken(given, "use-"))
    spoken = [found for found in given.findings if found.code == "compatibility"]
    own = sum(rule.is_own for rule in rules.compatibility.rules)
    by_own = sum(found.values_of("whose") == "own" for found in spoken)
    shipped = len(rules.compatibility.rules) - own
    book = state if shipped else COVERS_NOTHING
    yield Looked("compatibility", book, shipped, len(spoken) - by_own)
    yield Looked("own-rules", state if own else NONE_WRITTEN, own, by_own)


def _of_ph(known: Opened, rules: Rules, given: Answers) -> Iterator[Looked]:
    windows = [row for row in given.windows.rows if row.kind != TARGET]
    state = _state(known) if windows else NOT_APPLICABLE
    yield Looked("ph-windows", state, len(windows), _spoken(given, "ph-"))
    usual = sum(row.kind == PRODUCT for row in windows)
    yield Looked("ph-usual", APPLIED if usual else NOT_APPLICABLE, len(rules.product_ph), usual)


def _of_preservation(known: Opened, rules: Rules, given: Answers) -> Iterator[Looked]:
    shares = given.preservatives
    computed = sum(share.not_modelled is None for share in shares)
    yield Looked(
        "preservation",
        APPLIED if shares else NOT_APPLICABLE,
        len(rules.preservation.forms),
        computed,
    )
    held = sum(share.wanted is not None for share in shares)
    state = _state(known) if held else NOT_APPLICABLE
    yield Looked("preservative-levels", state, len(rules.preservation.wanted), held)


def _of_chemistry(rules: Rules, given: Answers) -> Iterator[Looked]:
    facts = rules.chemistry
    portions = (
        () if isinstance(given.situation, Absent) else given.situation.situation.mixture.portions
    )
    state = NOT_APPLICABLE if isinstance(given.situation, Absent) else APPLIED
    yield Looked("acids-bases", state, len(facts.gifts), len(portions))
    doses = () if isinstance(given.adjusters, Absent) else given.adjusters
    yield Looked(
        "adjusters", APPLIED if doses else NOT_APPLICABLE, len(facts.adjusters), len(doses)
    )


def _state(known: Opened) -> str:
    return APPLIED if known.is_product else NOT_APPLICABLE


def _spoken(given: Answers, start: str) -> int:
    return sum(found.code.startswith(start) for found in given.findings)
