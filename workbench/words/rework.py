"""Swaps, stocks and differences in words, with the names of the shelf."""

from __future__ import annotations

from decimal import Decimal

from workbench.formula.candidate_values import Reason
from workbench.formula.decisions import HEAD, Decision
from workbench.formula.difference import STEPS
from workbench.formula.edits import EditRefused
from workbench.formula.shelf import Shelf
from workbench.formula.swaps import Ratio
from workbench.words.catalogue import Words
from workbench.words.findings import named
from workbench.words.ingredients import function_name

_FACTOR_STEP = Decimal("0.001")
_CHOICES = {
    "why-same-solubility": "solubility",
    "differs-solubility": "solubility",
    "why-same-charge": "charge",
    "differs-charge": "charge",
    "differs-origin": "origin",
}
_SPANS = ("asked", "window")


def refusal_text(refused: EditRefused, shelf: Shelf, words: Words) -> str:
    """Return what stands in the way of an edit."""
    return words.say(refused.reason_id, **named(refused.values.items(), shelf))


def ratio_text(ratio: Ratio, words: Words) -> str:
    """Return by how much a material is replaced."""
    factor = ratio.factor.quantize(_FACTOR_STEP).normalize()
    is_one = "yes" if factor == 1 else "no"
    values: dict[str, str | Decimal] = {"factor": Decimal(f"{factor:f}"), "is-one": is_one}
    return words.say(f"ratio-{ratio.kind}", **values)


def reason_text(reason: Reason, shelf: Shelf, words: Words) -> str:
    """Return one reason for a candidate, or one way in which it differs."""
    choice = _CHOICES.get(reason.code)
    said: dict[str, str | int | Decimal | tuple[str, ...]] = {}
    for name, value in reason.values:
        if name == "function":
            said[name] = function_name(str(value), words)
        elif isinstance(value, tuple):
            said[name] = tuple(dict.fromkeys(function_name(one, words) for one in value))
        elif name == "substance":
            said[name] = shelf.inci(str(value))
        elif choice:
            said[name] = words.say(f"shelf-value-{choice}", value=str(value))
        else:
            said[name] = value
    return words.say(reason.code, **said, **_spans(reason, words))


def decision_text(decision: Decision, shelf: Shelf, words: Words) -> str:
    """Return one decision between two formulas."""
    is_name = decision.kind not in (HEAD, STEPS)
    about = shelf.name(decision.about) if is_name else decision.about
    return words.say(f"decision-{decision.kind}", about=about, lines=len(decision.lines))


def decisions_text(found: tuple[Decision, ...], shelf: Shelf, words: Words) -> str:
    """Return the hint about the decisions between two formulas, empty where there is none."""
    if not found:
        return ""
    if len(found) == 1:
        return words.say("decisions-one")
    texts = tuple(decision_text(each, shelf, words) for each in found)
    return words.say("decisions-several", count=len(found), decisions=texts)


def _spans(reason: Reason, words: Words) -> dict[str, str]:
    values = dict(reason.values)
    spans: dict[str, str] = {}
    for name in _SPANS:
        low, high = values.get(f"{name}_low"), values.get(f"{name}_high")
        if low is None or high is None:
            continue
        if low != "" and high != "":
            spans[name] = words.say("shelf-value-number-span", low=low, high=high)
        elif low != "":
            spans[name] = words.say("shelf-value-number-from", low=low)
        else:
            spans[name] = words.say("shelf-value-number-to", high=high)
    return spans
