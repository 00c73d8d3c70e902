"""A formula as plain data, the form in which it is stored, shared and read back."""

from __future__ import annotations

from collections.abc import Mapping

from workbench.formula.acceptance import Acceptance
from workbench.formula.document_reading import formula_in
from workbench.formula.facts import Plain
from workbench.formula.formula import Formula, Line, Phase, Plan, Step
from workbench.formula.ingredient import Ingredient
from workbench.formula.shelf import Shelf

FORMAT = "formulation-workbench/formula"
FORMAT_VERSION = 1
REST = "rest"


def formula_data(formula: Formula) -> dict[str, Plain]:
    """Return a formula as plain data; what is as by default stays out, ids always do."""
    data: dict[str, Plain] = {"name": formula.name}
    plain = Formula(name="")
    for name in ("product_type", "exposure", "area", "users", "form", "pack", "reference_set"):
        if getattr(formula, name) != getattr(plain, name) or name in ("product_type", "exposure"):
            data[name] = getattr(formula, name)
    data["markets"] = list(formula.markets)
    if formula.target_ph is not None:
        data["target_ph"] = [str(value) for value in formula.target_ph]
    plan = _plan_data(formula.plan)
    if plan:
        data["plan"] = plan
    data["phases"] = [_phase_data(phase) for phase in formula.phases]
    if formula.accepted:
        data["accepted"] = [_acceptance_data(one) for one in formula.accepted]
    return data


def document_data(formula: Formula, shelf: Shelf) -> dict[str, Plain]:
    """Return a self-contained document: the formula with every stock and own ingredient it uses."""
    data: dict[str, Plain] = {"format": FORMAT, "format_version": FORMAT_VERSION}
    data |= formula_data(formula)
    stocks, ingredients = _reached(formula, shelf)
    if ingredients:
        data["ingredients"] = [_ingredient_data(item) for item in ingredients]
    if stocks:
        data["stocks"] = [_stock_data(key, stock) for key, stock in stocks.items()]
    return data


def _plan_data(plan: Plan) -> dict[str, Plain]:
    data: dict[str, Plain] = {}
    if plan.batch_mass is not None:
        data["batch_mass"] = f"{plan.batch_mass} g"
    if plan.units is not None:
        data["units"] = plan.units
    if plan.fill is not None:
        data["fill"] = f"{plan.fill} ml"
    if plan.density is not None:
        data["density"] = str(plan.density)
    if plan.hold_up_percent:
        data["hold_up_percent"] = str(plan.hold_up_percent)
    if plan.retains:
        data["retains"] = plan.retains
    if plan.tests_g:
        data["tests_g"] = str(plan.tests_g)
    return data


def _phase_data(phase: Phase) -> dict[str, Plain]:
    data: dict[str, Plain] = {"name": phase.name, "kind": phase.kind}
    if phase.steps:
        data["steps"] = [_step_data(step) for step in phase.steps]
    data["lines"] = [_line_data(line) for line in phase.lines]
    return data


def _step_data(step: Step) -> dict[str, Plain]:
    data: dict[str, Plain] = {"text": step.text}
    for name in ("target_c", "hold_min", "max_add_c"):
        value = getattr(step, name)
        if value is not None:
            data[name] = str(value)
    if step.speed:
        data["speed"] = step.speed
    return data


def _line_data(line: Line) -> dict[str, Plain]:
    data: dict[str, Plain] = {
        "ingredient": line.ingredient,
        "percent": REST if line.percent is None else str(line.percent),
    }
    if line.locked:
        data["locked"] = True
    if line.note:
        data["note"] = line.note
    if line.purpose:
        data["purpose"] = line.purpose
    if line.to_ph:
        data["to_ph"] = True
    return data


def _acceptance_data(one: Acceptance) -> dict[str, Plain]:
    data: dict[str, Plain] = {"finding": one.finding, "about": list(one.about)}
    if one.value:
        data["value"] = one.value
    data["reason"] = one.reason
    return data


def _stock_data(key: str, stock: Formula) -> dict[str, Plain]:
    inner = formula_data(stock)
    kept = ("name", "product_type", "exposure", "phases")
    return {"key": key, **{name: inner[name] for name in kept if name in inner}}


def _ingredient_data(item: Ingredient) -> dict[str, Plain]:
    data: dict[str, Plain] = {"key": item.key, "name": item.name}
    texts = ("inci", "solubility", "charge", "cautions")
    data |= {name: getattr(item, name) for name in texts if getattr(item, name)}
    lists = ("functions", "tags")
    data |= {name: list(getattr(item, name)) for name in lists if getattr(item, name)}
    for name, low, high in (
        ("use_percent", item.use_min, item.use_max),
        ("ph", item.ph_min, item.ph_max),
    ):
        if low is not None and high is not None:
            data[name] = [str(low), str(high)]
    for name in ("density", "max_process_temp_c", "active_percent"):
        value = getattr(item, name)
        if value is not None:
            data[name] = str(value)
    data["composition"] = {part.substance: str(part.fraction) for part in item.composition}
    return data


def _reached(formula: Formula, shelf: Shelf) -> tuple[dict[str, Formula], tuple[Ingredient, ...]]:
    stocks: dict[str, Formula] = {}
    own: dict[str, Ingredient] = {}
    to_open = [formula]
    while to_open:
        for line in to_open.pop().lines():
            key = line.ingredient
            if key in shelf.stocks and key not in stocks:
                stocks[key] = shelf.stocks[key]
                to_open.append(shelf.stocks[key])
            elif key in shelf.ingredients and shelf.ingredients[key].is_own:
                own[key] = shelf.ingredients[key]
    return stocks, tuple(own.values())


def formula_from_data(data: Mapping[str, object]) -> Formula:
    """Return the formula that `formula_data` described; ids are counted anew from 1.

    Raises
    ------
    DocumentFault
        If a value makes no sense, naming where it stands.
    """
    return formula_in(data)
