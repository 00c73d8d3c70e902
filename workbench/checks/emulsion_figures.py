"""What the oils want and the emulsifiers give; surfactant active matter; salts."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from decimal import Decimal

from workbench.checks.assessment import Figure
from workbench.checks.carried import Carried
from workbench.checks.rules import Rules
from workbench.chemistry.emulsion import mean_hlb, share_of_first
from workbench.formula.compare import falls_below
from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient
from workbench.formula.shelf import Shelf
from workbench.formula.totals import WHOLE

CHARGES = ("anionic", "amphoteric", "nonionic", "cationic")
_TENTH = Decimal("0.1")
_HUNDREDTH = Decimal("0.01")
_PAIR = 2
_STRUCTURE = ("thickener-gum", "thickener-polymer", "surfactant-", "emulsifier-", "co-emulsifier")
_KINDS = {f"surfactant-{charge}": charge for charge in CHARGES}
_SALTS = frozenset({"salt", "hydrate"})


def emulsion_figures(
    formula: Formula, inside: tuple[Carried, ...], shelf: Shelf, rules: Rules
) -> tuple[Figure, ...]:
    """Return the figures of emulsions and surfactants a formula gives cause for.

    Parameters
    ----------
    formula, inside, shelf : Formula, tuple of Carried, Shelf
        What is in it, through all stocks.
    rules : Rules
        With the spread of required HLB values and the usual bands of active matter.

    Notes
    -----
    HLB is meant for nonionic ethoxylates and polyol esters in oil-in-water emulsions; required
    values of oils differ by about 1 from one table to the next. It is a guide where to begin.
    """
    return (
        *_hlb_figures(inside, rules),
        *_surfactant_figures(formula, inside, rules),
        *_electrolyte_figures(inside, shelf, rules),
    )


def is_emulsified(item: Ingredient) -> bool:
    """Tell whether an ingredient counts as oil for the required HLB; emulsifiers do not."""
    if item.required_hlb is not None:
        return True
    helps = ("emulsifier-", "surfactant-", "preservative")
    return item.solubility == "oil" and item.hlb is None and not _has(item, *helps)


def _hlb_figures(inside: tuple[Carried, ...], rules: Rules) -> tuple[Figure, ...]:
    oils = [m for m in inside if is_emulsified(m.item)]
    makers = [
        m
        for m in inside
        if not is_emulsified(m.item)
        and (m.item.hlb is not None or _has(m.item, "emulsifier-oil-in-water"))
    ]
    counted = [m for m in oils if m.item.required_hlb is not None]
    if not counted or not makers:
        return ()
    required, low, high = (
        mean_hlb((m.percent, value(m.item)) for m in counted) for value in _ends(rules)
    )
    assert required is not None
    assert low is not None
    assert high is not None
    figure = Figure(
        "required-hlb",
        required.quantize(_TENTH),
        "hlb",
        (
            ("low", low.quantize(_TENTH)),
            ("high", high.quantize(_TENTH)),
            *_left_out(oils, counted),
        ),
    )
    return (figure, *_blend_figures(makers, required))


def _ends(rules: Rules) -> tuple[Callable[[Ingredient], Decimal], ...]:
    spread = rules.figures["required_hlb_spread"]
    printed = rules.emulsion.required

    def middle(item: Ingredient) -> Decimal:
        return item.required_hlb or Decimal(0)

    def low(item: Ingredient) -> Decimal:
        least = middle(item) - spread
        return min(least, printed[item.key][0]) if item.key in printed else least

    def high(item: Ingredient) -> Decimal:
        most = middle(item) + spread
        return max(most, printed[item.key][1]) if item.key in printed else most

    return middle, low, high


def _blend_figures(makers: list[Carried], required: Decimal) -> tuple[Figure, ...]:
    counted = [m for m in makers if m.item.hlb is not None]
    blend = mean_hlb((_active(m), m.item.hlb or Decimal(0)) for m in counted)
    if blend is None:
        return ()
    values = (
        ("wanted", required.quantize(_TENTH)),
        ("gap", (blend - required).quantize(_TENTH) + 0),
        *_left_out(makers, counted),
        *_meeting(counted, makers, required),
    )
    return (Figure("blend-hlb", blend.quantize(_TENTH), "hlb", values),)


def _meeting(
    counted: list[Carried], makers: list[Carried], required: Decimal
) -> tuple[tuple[str, str | Decimal], ...]:
    """Return how two emulsifiers would meet the oils: only ever from the two that are there."""
    nothing = (("meeting", "open"), ("first", ""), ("second", ""), ("share", Decimal(0)))
    if len(counted) != _PAIR or len(makers) != _PAIR:
        return nothing
    first, second = counted
    share = share_of_first(required, first.item.hlb or Decimal(0), second.item.hlb or Decimal(0))
    if share is None:
        return (("meeting", "none"), *nothing[1:])
    return (
        ("meeting", "two"),
        ("first", first.item.name),
        ("second", second.item.name),
        ("share", share.quantize(Decimal(1))),
    )


def _surfactant_figures(
    formula: Formula, inside: tuple[Carried, ...], rules: Rules
) -> tuple[Figure, ...]:
    held = dict.fromkeys(CHARGES, Decimal(0))
    for material in inside:
        kind = next((name for name in material.item.functions if name in _KINDS), "")
        if kind:
            held[_KINDS[kind]] += _active(material)
    active = sum(held.values(), Decimal(0))
    if not active:
        return ()
    band = rules.emulsion.bands.get(formula.product_type)
    values = (
        *((charge, held[charge].quantize(_HUNDREDTH).normalize()) for charge in CHARGES),
        *((f"has-{charge}", "yes" if held[charge] else "no") for charge in CHARGES),
        ("band", "yes" if band else "no"),
        ("low", band[0] if band else Decimal(0)),
        ("high", band[1] if band else Decimal(0)),
    )
    return (Figure("surfactant-active", active.quantize(_HUNDREDTH), "percent", values),)


def _electrolyte_figures(
    inside: tuple[Carried, ...], shelf: Shelf, rules: Rules
) -> tuple[Figure, ...]:
    """Return the salts as put in: what neutralising makes, and salt in surfactants, is not here."""
    load = sum((_salt(material, shelf) for material in inside), Decimal(0)).quantize(_HUNDREDTH)
    built = [m for m in inside if _has(m.item, *_STRUCTURE)]
    if not load or not built:
        return ()
    is_much = not falls_below(load, rules.figures["electrolyte_load_percent"])
    touchy = tuple(
        dict.fromkeys(m.item.name for m in built if is_much and m.item.is_electrolyte_sensitive)
    )
    values = (("touchy", "yes" if touchy else "no"), ("names", ", ".join(touchy)))
    return (Figure("electrolytes", load, "percent", values),)


def _salt(material: Carried, shelf: Shelf) -> Decimal:
    item = material.item
    if _has(item, *_STRUCTURE):
        return Decimal(0)
    return sum(
        (
            material.percent * (part.fraction - part.water)
            for part in item.composition
            if part.fraction > part.water
            and (
                _has(item, "electrolyte")
                or (
                    part.substance in shelf.substances
                    and shelf.substances[part.substance].kind in _SALTS
                )
            )
        ),
        Decimal(0),
    )


def _left_out(
    every: Iterable[Carried], counted: Iterable[Carried]
) -> tuple[tuple[str, str | Decimal], ...]:
    """Return how much of the mass counted in, and the names of what could not."""
    every, counted = tuple(every), tuple(counted)
    whole = sum((m.percent for m in every), Decimal(0))
    share = WHOLE * sum((m.percent for m in counted), Decimal(0)) / whole
    names = dict.fromkeys(m.item.name for m in every if m not in counted)
    return (
        ("counted", share.quantize(Decimal(1))),
        ("left-out", ", ".join(names)),
        ("is-whole", "no" if names else "yes"),
    )


def _active(material: Carried) -> Decimal:
    strength = material.item.active_percent
    return material.percent * (WHOLE if strength is None else strength) / WHOLE


def _has(item: Ingredient, *beginnings: str) -> bool:
    return any(name.startswith(beginnings) for name in item.functions)
