"""How much of each preservative is active, and how much is left in the water."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from workbench.checks.carried import Carried
from workbench.checks.ph_values import PhEstimate
from workbench.checks.phases import Phases, phases_of
from workbench.checks.preservation_facts import PreservationFacts
from workbench.checks.preservative_values import Basis, PhBasis, PreservativeShare, Range, Reason
from workbench.checks.rules import Rules
from workbench.checks.water_share import in_water
from workbench.chemistry.preservation import ph_for_undissociated, undissociated_fraction
from workbench.formula.absent import Absent
from workbench.formula.composition import Composition, Share
from workbench.formula.formula import Formula
from workbench.formula.substance import Substance

PRESERVATIVE = "preservative"


@dataclass(frozen=True, slots=True)
class Acidity:
    """Hold the pH a share is computed at, the ionic strength [mol/kg] with it, and its basis."""

    ph: Range
    ionic_strength: Range
    basis: PhBasis


def preservative_shares(
    formula: Formula,
    composition: Composition,
    items: tuple[Carried, ...],
    substances: Mapping[str, Substance],
    rules: Rules,
    ph: PhEstimate | Absent,
) -> tuple[PreservativeShare, ...]:
    """Return what is known of every preservative, in the order of the lines that bring them.

    Parameters
    ----------
    formula, composition, items : Formula, Composition, tuple of Carried
        What was put in, the same as substances, and as ingredients through all stocks.
    substances : mapping of str to Substance
        What is known of them, molar masses among it.
    rules : Rules
        With the tables of preservation and of densities.
    ph : PhEstimate or Absent
        Where the pH lands; without it the window the maker wants stands in, and without that
        no share is given.

    Notes
    -----
    Salts are counted as acid by molar mass. A figure here says nothing of whether the product
    keeps: only a challenge test does.
    """
    facts = rules.preservation
    actives = _actives(composition, facts)
    if not actives:
        return _unlisted(composition, facts)
    acidity = acidity_of(formula, rules, ph)
    inside = phases_of(items, facts, rules.densities)
    gap = _gap(composition, inside)
    preserving = frozenset(each.line for each in items if each.purpose == PRESERVATIVE)
    return (
        *(
            _share(active, shares, substances, rules, acidity, (inside, gap, preserving))
            for active, shares in actives.items()
        ),
        *_unlisted(composition, facts),
    )


def acidity_of(formula: Formula, rules: Rules, ph: PhEstimate | Absent) -> Acidity | None:
    """Return the pH the shares rest on: estimated, else the window wanted, else None."""
    if isinstance(ph, PhEstimate):
        strength = Range(ph.ionic_strength, ph.ionic_strength, ph.ionic_strength)
        return Acidity(Range(ph.low, ph.estimate, ph.high), strength, PhBasis.ESTIMATE)
    if formula.target_ph is None:
        return None
    low, high = (float(value) for value in formula.target_ph)
    most = float(rules.figures.get("ionic_strength_unknown", Decimal(0)))
    return Acidity(Range(low, (low + high) / 2, high), Range(0.0, most / 2, most), PhBasis.TARGET)


def _actives(composition: Composition, facts: PreservationFacts) -> Mapping[str, tuple[Share, ...]]:
    found: dict[str, list[Share]] = {}
    for share in composition.shares:
        form = facts.forms.get(share.substance)
        if form is not None and share.percent > 0:
            found.setdefault(form.active, []).append(share)
    return {active: tuple(shares) for active, shares in found.items()}


def _gap(composition: Composition, inside: Phases) -> Reason | None:
    if composition.unknown:
        return Reason.UNKNOWN_LINES
    return None if composition.water > 0 and inside.water_g > 0 else Reason.NO_WATER


def _share(
    active: str,
    shares: tuple[Share, ...],
    substances: Mapping[str, Substance],
    rules: Rules,
    acidity: Acidity | None,
    place: tuple[Phases, Reason | None, frozenset[int]],
) -> PreservativeShare:
    facts = rules.preservation
    inside, gap, lines = place
    acid_key = facts.forms[shares[0].substance].acid
    amount = _as_active(active, shares, substances, facts)
    free = _free(acid_key, facts, None if gap is Reason.NO_WATER else acidity)
    wanted = facts.wanted.get(active)
    if amount is None:
        return _without(shares, Reason.NO_ACID_DATA)
    water = in_water(active, float(amount), free if acid_key else _WHOLE, inside, rules)
    reason = gap or (Reason.NO_PH if acid_key and free is None else water.missing)
    is_there = gap is None and water.percent is not None
    return PreservativeShare(
        substance=active,
        percent=sum((share.percent for share in shares), Decimal(0)),
        as_acid_percent=amount if acid_key else None,
        undissociated_percent=_scaled(free, float(amount)),
        undissociated_share=_scaled(free, 100.0),
        water_phase_percent=water.percent if is_there else None,
        wanted=wanted,
        ph_for_wanted=_ph_for_wanted(active, acid_key, float(amount), facts, acidity),
        not_modelled=reason,
        lines=_lines(shares),
        carriers=_carriers(shares),
        ph_basis=acidity.basis if acidity and free else None,
        is_capped=water.is_capped and is_there,
        solubility_percent=water.solubility,
        is_put_in=not lines.isdisjoint(share.line for share in shares),
    )


_WHOLE = Range(1.0, 1.0, 1.0)


def _as_active(
    active: str,
    shares: tuple[Share, ...],
    substances: Mapping[str, Substance],
    facts: PreservationFacts,
) -> Decimal | None:
    total = Decimal(0)
    for share in shares:
        if share.substance == active:
            total += share.percent
            continue
        salt, acid = substances.get(share.substance), substances.get(active)
        if salt is None or acid is None or not salt.molar_mass or not acid.molar_mass:
            return None
        moles = facts.forms[share.substance].moles
        total += share.percent * moles * acid.molar_mass / salt.molar_mass
    return total


def _free(acid_key: str, facts: PreservationFacts, acidity: Acidity | None) -> Range | None:
    acid = facts.acids.get(acid_key)
    if acid is None or acidity is None:
        return None
    ph, strength = acidity.ph, acidity.ionic_strength
    return Range(
        undissociated_fraction(ph.high, acid.pka - acid.spread, strength.high),
        undissociated_fraction(ph.estimate, acid.pka, strength.estimate),
        undissociated_fraction(ph.low, acid.pka + acid.spread, strength.low),
    )


def _ph_for_wanted(
    active: str,
    acid_key: str,
    amount: float,
    facts: PreservationFacts,
    acidity: Acidity | None,
) -> float | None:
    acid, wanted = facts.acids.get(acid_key), facts.wanted.get(active)
    if acid is None or wanted is None or wanted.basis is not Basis.UNDISSOCIATED:
        return None
    strength = acidity.ionic_strength.estimate if acidity else 0.0
    return ph_for_undissociated(amount, float(wanted.level), acid.pka, strength)


def _scaled(fraction: Range | None, by: float) -> Range | None:
    if fraction is None:
        return None
    return Range(fraction.low * by, fraction.estimate * by, fraction.high * by)


def _unlisted(composition: Composition, facts: PreservationFacts) -> tuple[PreservativeShare, ...]:
    """Return the preservatives no table knows: they are named, and nothing is computed."""
    by_line: dict[int, list[Share]] = {}
    for share in composition.shares:
        if share.purpose == PRESERVATIVE and share.percent > 0:
            by_line.setdefault(share.line, []).append(share)
    return tuple(
        _without((largest,), Reason.NO_ACID_DATA)
        for shares in by_line.values()
        if not any(share.substance in facts.forms for share in shares)
        for largest in (max(shares, key=lambda share: share.percent - share.water),)
    )


def _lines(shares: tuple[Share, ...]) -> tuple[int, ...]:
    return tuple(dict.fromkeys(share.line for share in shares))


def _carriers(shares: tuple[Share, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(share.substance for share in shares))


def _without(shares: tuple[Share, ...], reason: Reason) -> PreservativeShare:
    return PreservativeShare(
        substance=shares[0].substance,
        percent=sum((share.percent for share in shares), Decimal(0)),
        as_acid_percent=None,
        undissociated_percent=None,
        undissociated_share=None,
        water_phase_percent=None,
        wanted=None,
        ph_for_wanted=None,
        not_modelled=reason,
        lines=_lines(shares),
        carriers=_carriers(shares),
    )
