"""What each setting does, in words: shown beside it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from workbench.formula.weighability import (
    Balance,
    WeighingRules,
    least_weighable,
    strict_least_weighable,
)
from workbench.storage.batches import initials_of
from workbench.storage.settings import StudioSettings
from workbench.words.catalogue import Words
from workbench.words.numbers import NumberStyle, decimal_text

_SHOWN_PRICE, _SHOWN_PERCENT, _SHOWN_MASS = Decimal("12.5"), Decimal("2.5"), Decimal("1234.5")


def currency_effect(settings: StudioSettings, words: Words) -> str:
    """Return a price as it is printed."""
    price = decimal_text(_SHOWN_PRICE, settings.decimal_style, 2)
    return words.say("studio-currency-effect", price=price, currency=settings.currency)


def markets_effect(settings: StudioSettings, words: Words) -> str:
    """Return what new formulas are checked against."""
    names = tuple(words.say("form-market-long", market=market) for market in settings.markets)
    return words.say("studio-markets-effect", markets=names)


def decimals_effect(style: NumberStyle, words: Words) -> str:
    """Return a percent and a mass as they are shown and printed."""
    percent = decimal_text(_SHOWN_PERCENT, style, 2)
    return words.say(
        "studio-decimals-effect", percent=percent, mass=decimal_text(_SHOWN_MASS, style, 1)
    )


def numbering_effect(settings: StudioSettings, name: str, today: date, words: Words) -> str:
    """Return the first number a batch of a formula would get this month."""
    number = (
        settings.numbering.replace("{initials}", initials_of(name))
        .replace("{yymm}", today.strftime("%y%m"))
        .replace("{count}", "01")
    )
    return words.say("studio-numbering-effect", number=number, name=name)


def balance_effect(balance: Balance, rules: WeighingRules | None, words: Words) -> str:
    """Return the least a balance weighs by both rules, or that no rule is on file."""
    if rules is None:
        return ""
    return words.say(
        "studio-balance-effect",
        least=least_weighable(balance, rules),
        error=rules.allowed_error_percent,
        strict=strict_least_weighable(balance, rules),
    )
