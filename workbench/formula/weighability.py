"""Whether a balance can weigh a line, and which balance to use."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

WHOLE = Decimal(100)


@dataclass(frozen=True, slots=True)
class Balance:
    """Hold one balance: readability, capacity and own repeatability, all in grams.

    `repeatability` is the standard deviation of the maker's own ten weighings, None before.
    """

    name: str
    readability: Decimal
    capacity: Decimal
    repeatability: Decimal | None = None


@dataclass(frozen=True, slots=True)
class WeighingRules:
    """Hold the figures of both weighing rules; see resources/reference/weighing.csv.

    Parameters
    ----------
    allowed_error_percent : Decimal
        Error at which a line still counts as weighable [%].
    strict_tolerance_percent : Decimal
        Tolerance of the pharmacopoeia's rule [%].
    strict_factor : Decimal
        Its coverage factor [-].
    least_deviation_divisions : Decimal
        Smallest standard deviation it accepts, in scale divisions [-].
    """

    allowed_error_percent: Decimal
    strict_tolerance_percent: Decimal
    strict_factor: Decimal
    least_deviation_divisions: Decimal


@dataclass(frozen=True, slots=True)
class Weighability:
    """Hold how well one line can be weighed.

    `mass_g` is what is to be weighed; `error_percent` the relative error on the balance
    chosen [%]; `least_g` the least it weighs well by the default rule, `strict_least_g` by
    the pharmacopoeia's.
    """

    balance: Balance
    mass_g: Decimal
    error_percent: Decimal
    least_g: Decimal
    strict_least_g: Decimal

    @property
    def is_well_weighed(self) -> bool:
        """Tell whether the mass reaches the least that the default rule allows."""
        return self.mass_g >= self.least_g


def least_weighable(balance: Balance, rules: WeighingRules) -> Decimal:
    """Return the least mass [g] a balance weighs within the allowed error.

    Notes
    -----
    Default rule: error = d / w, so the least is d · 100 / allowed error (20 d at 5 %).
    Sensitivity over acceptable error as taught in compounding (6 mg / 5 % = 120 mg).
    The maker's own standard deviation takes the place of d once it is the larger.
    """
    return _division(balance) * WHOLE / rules.allowed_error_percent


def strict_least_weighable(balance: Balance, rules: WeighingRules) -> Decimal:
    """Return the least mass [g] by the pharmacopoeia's minimum-weight rule.

    Notes
    -----
    2 · max(s, 0.41 d) / tolerance, USP general chapter 41 (0.10 %): 820 d at best.
    """
    floor = rules.least_deviation_divisions * balance.readability
    deviation = max(balance.repeatability or Decimal(0), floor)
    return rules.strict_factor * deviation * WHOLE / rules.strict_tolerance_percent


def weighing_error(mass_g: Decimal, balance: Balance) -> Decimal:
    """Return the relative error [%] of weighing a mass [g]; 100 for nothing at all."""
    return WHOLE if mass_g <= 0 else _division(balance) * WHOLE / mass_g


def balance_for(mass_g: Decimal, balances: tuple[Balance, ...]) -> Balance | None:
    """Choose the finest balance that can carry a mass [g], else the largest one."""
    fitting = [balance for balance in balances if balance.capacity >= mass_g]
    if fitting:
        return min(fitting, key=lambda balance: balance.readability)
    return max(balances, key=lambda balance: balance.capacity, default=None)


def weighed(
    mass_g: Decimal, balances: tuple[Balance, ...], rules: WeighingRules
) -> Weighability | None:
    """Judge one mass [g] on the balance chosen for it; None without any balance."""
    balance = balance_for(mass_g, balances)
    if balance is None:
        return None
    return Weighability(
        balance=balance,
        mass_g=mass_g,
        error_percent=weighing_error(mass_g, balance),
        least_g=least_weighable(balance, rules),
        strict_least_g=strict_least_weighable(balance, rules),
    )


def smallest_batch(percent: Decimal, least_g: Decimal, step_g: Decimal) -> Decimal:
    """Return the smallest batch [g], in whole steps, whose line reaches the least mass [g]."""
    exact = least_g * WHOLE / percent
    return (exact / step_g).to_integral_value(ROUND_CEILING) * step_g


def dilution(mass_g: Decimal, least_g: Decimal, folds: tuple[int, ...]) -> int | None:
    """Return the smallest fold k of a 1/k dilution whose k · mass reaches the least mass [g]."""
    return next((fold for fold in sorted(folds) if fold * mass_g >= least_g), None)


def _division(balance: Balance) -> Decimal:
    return max(balance.readability, balance.repeatability or Decimal(0))
