"""What the form row says of a formula."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from workbench.formula.formula import Formula, Plan
from workbench.formula.scale import needed_mass
from workbench.formula.shelf import Shelf
from workbench.words.catalogue import Words

_SHOWN_MASS = Decimal("0.1")


def product_text(formula: Formula, _shelf: Shelf, words: Words) -> str:
    """Return type, exposure, area, and users and form where they are not the usual ones."""
    said = [
        words.say("form-type", type=formula.product_type),
        words.say("form-exposure", exposure=formula.exposure),
        words.say("form-area", area=formula.area),
    ]
    if formula.users != "adult":
        said.append(words.say("form-users", users=formula.users))
    if formula.form != "usual":
        said.append(words.say("form-form", form=formula.form))
    return ", ".join(said)


def market_text(formula: Formula, _shelf: Shelf, words: Words) -> str:
    """Return the markets."""
    if not formula.markets:
        return words.say("form-not-set")
    names = (words.say("form-market-name", market=market) for market in formula.markets)
    return words.listed(tuple(names))


def ph_text(formula: Formula, _shelf: Shelf, words: Words) -> str:
    """Return the target window."""
    return window_text(formula, words) or words.say("form-not-set")


def window_text(formula: Formula, words: Words) -> str:
    """Return the target window as it is typed, or nothing."""
    if formula.target_ph is None:
        return ""
    low, high = (_one_place(value, words) for value in formula.target_ph)
    return f"{low} \u2013 {high}"


def batch_text(formula: Formula, _shelf: Shelf, words: Words) -> str:
    """Return how much is made and what it fills."""
    plan = formula.plan
    needed = needed_mass(plan)
    if plan.batch_mass is None and needed is None:
        return words.say("form-not-set")
    mass = plan.batch_mass if plan.batch_mass is not None else needed
    assert mass is not None
    said = mass_text(mass, words)
    if plan.units is None or plan.fill is None:
        return words.say("form-batch-mass", mass=said)
    is_short = needed is not None and mass < needed
    return words.say(
        "form-batch-packs",
        mass=said,
        units=plan.units,
        fill=plan.fill,
        enough="no" if is_short else "yes",
        needed="" if needed is None else mass_text(needed, words),
    )


def rest_text(formula: Formula, shelf: Shelf, words: Words) -> str:
    """Return the line that takes the rest."""
    rest = formula.rest_line
    return shelf.name(rest.ingredient) if rest else words.say("form-no-rest")


def mass_text(mass: Decimal, words: Words) -> str:
    """Return a mass [g] to a tenth of a gram, whole where it is whole."""
    return words.number(mass.quantize(_SHOWN_MASS))


def needed_text(plan: Plan, words: Words) -> str:
    """Return what the packs need, or what is still missing to say so."""
    needed = needed_mass(plan)
    if needed is not None:
        return words.say("form-needed", mass=mass_text(needed, words))
    if plan.units is None and plan.fill is None:
        return words.say("form-needed-nothing")
    missing = [
        words.say(f"form-plan-{name}")
        for name in ("units", "fill", "density")
        if getattr(plan, name) is None
    ]
    return words.say("form-needed-missing", missing=tuple(missing))


def _one_place(value: Decimal, words: Words) -> str:
    exponent = value.normalize().as_tuple().exponent
    return words.number(value, max(1, -exponent if isinstance(exponent, int) else 1))


FIELDS: tuple[tuple[str, Callable[[Formula, Shelf, Words], str]], ...] = (
    ("product", product_text),
    ("market", market_text),
    ("ph", ph_text),
    ("batch", batch_text),
    ("rest", rest_text),
)
