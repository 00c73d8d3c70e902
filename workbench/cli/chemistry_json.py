"""pH, adjusters and preservatives as plain data: chemistry as numbers, percents as text."""

from __future__ import annotations

from decimal import Decimal

from workbench.checks.assessment import Assessment
from workbench.checks.ph_values import AdjusterDose, PhEstimate
from workbench.checks.preservative_values import PreservativeShare, Range
from workbench.formula.absent import Absent
from workbench.formula.compare import significant
from workbench.formula.shelf import Shelf

Chemistry = dict[str, str | float | bool | None]

_PLACES = 4


def chemistry_data(
    assessment: Assessment, shelf: Shelf
) -> dict[str, Chemistry | list[Chemistry] | None]:
    """Return what goes on in the water; what could not be computed is null."""
    ph, doses = assessment.ph, assessment.adjusters
    return {
        "ph": None if isinstance(ph, Absent) else _ph(ph),
        "adjusters": None if isinstance(doses, Absent) else [_dose(dose) for dose in doses],
        "preservatives": [_share(share, shelf) for share in assessment.preservatives],
    }


def _ph(estimate: PhEstimate) -> Chemistry:
    return {
        "low": _rounded(estimate.low),
        "estimate": _rounded(estimate.estimate),
        "high": _rounded(estimate.high),
        "ionic_strength": _rounded(estimate.ionic_strength),
        "confidence": estimate.confidence,
        "before_adjusting": estimate.before_adjusting,
    }


def _dose(dose: AdjusterDose) -> Chemistry:
    return {
        "ingredient": dose.ingredient,
        "mass_g": _maybe(dose.estimate),
        "low_g": _maybe(dose.low),
        "high_g": _maybe(dose.high),
        "per_g": _rounded(dose.per_g),
        "to_ph": _rounded(dose.to_ph),
        "fits": dose.fits,
    }


def _share(share: PreservativeShare, shelf: Shelf) -> Chemistry:
    return {
        "inci": shelf.inci(share.substance),
        "percent": _text(share.percent),
        "as_acid_percent": None if share.as_acid_percent is None else _text(share.as_acid_percent),
        "undissociated_percent": _middle(share.undissociated_percent),
        "undissociated_low": _end(share.undissociated_percent, is_high=False),
        "undissociated_high": _end(share.undissociated_percent, is_high=True),
        "water_phase_percent": _middle(share.water_phase_percent),
        "water_phase_low": _end(share.water_phase_percent, is_high=False),
        "water_phase_high": _end(share.water_phase_percent, is_high=True),
        "not_modelled": None if share.not_modelled is None else share.not_modelled.value,
    }


def _middle(span: Range | None) -> float | None:
    return None if span is None else _rounded(span.estimate)


def _end(span: Range | None, *, is_high: bool) -> float | None:
    if span is None:
        return None
    return _rounded(span.high if is_high else span.low)


def _maybe(value: float | None) -> float | None:
    return None if value is None else _rounded(value)


def _rounded(value: float) -> float:
    return round(value, _PLACES)


def _text(value: Decimal) -> str:
    return format(significant(value).normalize() + 0, "f")
