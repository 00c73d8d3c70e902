"""The table of what a batch needs, and the same as text."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from functools import partial

from workbench.formula.shopping import Need, ShoppingList
from workbench.ui.models.value_table import Column
from workbench.words.catalogue import Words
from workbench.words.numbers import decimal_text

Named = Callable[[str], str]
MASS_PLACES, MONEY_PLACES = 2, 2


def shopping_columns(words: Words, name: Named) -> tuple[Column[Need], ...]:
    """Return the columns: what, how much, is it there, what to buy, at what cost."""
    return (
        Column(
            "ingredient",
            words.say("shelf-need-ingredient"),
            text=lambda need: name(need.ingredient),
            tip=lambda need: name(need.ingredient),
        ),
        Column(
            "mass",
            words.say("shelf-need-mass"),
            text=lambda need: mass_text(need.mass_g, words),
            sort=lambda need: need.mass_g,
            is_numeric=True,
        ),
        Column("packs", words.say("shelf-need-packs"), text=partial(packs_text, words=words)),
        Column(
            "cost",
            words.say("shelf-need-cost"),
            text=partial(cost_text, words=words),
            sort=lambda need: need.pack_cost or Decimal(0),
            is_numeric=True,
        ),
        Column(
            "through",
            words.say("shelf-need-through"),
            text=lambda need: ", ".join(name(stock) for stock in need.through),
            tip=lambda need: ", ".join(name(stock) for stock in need.through),
        ),
    )


def mass_text(mass_g: Decimal, words: Words) -> str:
    """Return a mass in grams; less than a hundredth is not shown as nothing."""
    step = Decimal(1).scaleb(-MASS_PLACES)
    if 0 < mass_g < step:
        return words.say("shelf-need-less", value=step)
    return words.say("shelf-need-grams", value=decimal_text(mass_g, words.style, MASS_PLACES))


def packs_text(need: Need, words: Words) -> str:
    """Return what to buy, in packs where one is entered, or that it is on hand."""
    if need.on_hand:
        return words.say("shelf-row-there")
    if need.packs is None or need.pack_g is None:
        return words.say("shelf-need-bare", mass=mass_text(need.mass_g, words))
    return words.say("shelf-need-buy", packs=need.packs, pack=need.pack_g)


def cost_text(need: Need, words: Words) -> str:
    """Return what the packs to buy cost, empty where nothing is bought or no price is known."""
    return "" if need.pack_cost is None else money_text(need.pack_cost, need.currency, words)


def money_text(value: Decimal, currency: str, words: Words) -> str:
    """Return an amount of money."""
    amount = decimal_text(value, words.style, MONEY_PLACES)
    return words.say("shelf-money", value=amount, currency=currency)


def summary_texts(shopping: ShoppingList, words: Words, name: Named) -> tuple[str, ...]:
    """Return what stands under the table: what is missing, its cost, and what is not known."""
    missing = [need for need in shopping.needs if not need.on_hand]
    said = [words.say("shelf-need-missing", count=len(missing), all=len(shopping.needs))]
    if shopping.to_buy:
        costs = tuple(money_text(value, currency, words) for currency, value in shopping.to_buy)
        said.append(words.say("shelf-need-to-buy", costs=costs))
        unpriced = [need for need in missing if need.packs is not None and need.pack_cost is None]
        if unpriced:
            names = tuple(name(need.ingredient) for need in unpriced)
            said.append(words.say("shelf-need-unpriced", names=names))
    if shopping.unresolved:
        names = tuple(name(key) for key in shopping.unresolved)
        said.append(words.say("shelf-need-unresolved", names=names))
    said.append(words.say("shelf-need-losses"))
    without = [need.ingredient for need in missing if need.packs is None]
    if without:
        said.append(
            words.say(
                "shelf-need-no-packs", names=tuple(map(name, without)), costed=_costed(shopping)
            )
        )
    return tuple(said)


def _costed(shopping: ShoppingList) -> str:
    return "yes" if shopping.to_buy else "no"


def shopping_text(shopping: ShoppingList, title: str, words: Words, name: Named) -> str:
    """Return the list as text, cells parted by tabs."""
    columns = shopping_columns(words, name)
    rows = ["\t".join(column.header for column in columns)]
    rows += ["\t".join(column.text(need) for column in columns) for need in shopping.needs]
    return "\n".join((title, "", *rows, "", *summary_texts(shopping, words, name))) + "\n"
