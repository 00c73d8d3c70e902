"""A whole document: the formula, and the stocks and ingredients its receiver may lack."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.formula.contents import stock_cycle
from workbench.formula.document_reading import Node, formula_in
from workbench.formula.document_values import DocumentFault, decimal_in
from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient, Part
from workbench.formula.shelf import Shelf, shelf_of
from workbench.formula.substance import UNLISTED, Substance

SUM_SLACK = Decimal("0.0001")


@dataclass(frozen=True, slots=True)
class Document:
    """Hold what a document brings: a formula, own ingredients, and stocks by key.

    `substances` are those named in its compositions that no table knows.
    """

    formula: Formula
    ingredients: Mapping[str, Ingredient]
    stocks: Mapping[str, Formula]
    substances: Mapping[str, Substance]

    def shelf(self, base: Shelf) -> Shelf:
        """Return a shelf on which this document's own things stand beside those of another."""
        return shelf_of(
            {**base.ingredients, **self.ingredients},
            {**base.stocks, **self.stocks},
            {**base.substances, **self.substances},
            dict(base.prices),
            base.balances,
        )


def read_document(
    data: Mapping[str, object], names: Mapping[str, str], substances: Mapping[str, Substance]
) -> Document:
    """Return what plain data of a whole document hold.

    Parameters
    ----------
    data : mapping
        Plain data that follow the schema.
    names : mapping of str to str
        Lower-case label names and the substance each belongs to.
    substances : mapping of str to Substance
        The substances the tables know.

    Raises
    ------
    DocumentFault
        At the first value that makes no sense, a key given twice, or a stock inside itself.
    """
    node = Node(data, ())
    unknown: dict[str, Substance] = {}
    ingredients: dict[str, Ingredient] = {}
    for child in node.children("ingredients"):
        item = _ingredient(child, names, substances, unknown)
        if item.key in ingredients:
            raise DocumentFault("key-twice", (*child.path, "key"), key=item.key)
        ingredients[item.key] = item
    stocks = _stocks(node, ingredients)
    return Document(formula_in(data), ingredients, stocks, unknown)


def _stocks(node: Node, ingredients: Mapping[str, Ingredient]) -> dict[str, Formula]:
    stocks: dict[str, Formula] = {}
    for child in node.children("stocks"):
        key = child.text("key")
        if key in stocks or key in ingredients:
            raise DocumentFault("key-twice", (*child.path, "key"), key=key)
        stocks[key] = replace(
            formula_in(child.data, child.path),
            product_type=child.choice("product_type", "stock"),
        )
    for index, key in enumerate(stocks):
        path = stock_cycle(key, stocks)
        if path:
            names = " - ".join(stocks[inner].name for inner in path)
            raise DocumentFault("stock-in-circle", ("stocks", index), names=names)
    return stocks


def _ingredient(
    node: Node,
    names: Mapping[str, str],
    substances: Mapping[str, Substance],
    unknown: dict[str, Substance],
) -> Ingredient:
    composition = node.child("composition")
    parts: list[Part] = []
    for name in composition.data:
        fraction = composition.within(name, Decimal(0), Decimal(1))
        key = name if name in substances else names.get(name.strip().lower(), "")
        if not key:
            key = name.strip()
            unknown[key] = Substance(key=key, inci=key, source="document", confidence=UNLISTED)
        water = substances[key].water_fraction if key in substances else Decimal(0)
        parts.append(Part(key, fraction, fraction * water))
    total = sum((part.fraction for part in parts), Decimal(0))
    if abs(total - 1) > SUM_SLACK:
        raise DocumentFault("composition-sum", composition.path, total=total)
    use, ph = _span(node, "use_percent", 100), _span(node, "ph", 14)
    return Ingredient(
        key=node.text("key"),
        name=node.name(),
        inci=node.text("inci") or " (and) ".join(composition.data),
        functions=_words(node, "functions"),
        solubility=node.text("solubility"),
        charge=node.text("charge"),
        use_min=use[0],
        use_max=use[1],
        ph_min=ph[0],
        ph_max=ph[1],
        max_process_temp_c=node.amount("max_process_temp_c"),
        density=node.amount("density"),
        water_percent=sum((part.water for part in parts), Decimal(0)) * 100,
        active_percent=_active(node),
        composition=tuple(parts),
        cautions=node.text("cautions"),
        tags=_words(node, "tags"),
        source="document",
        confidence="memory",
        is_own=True,
    )


def _active(node: Node) -> Decimal | None:
    if node.data.get("active_percent") is None:
        return None
    return decimal_in(
        node.data["active_percent"], (*node.path, "active_percent"), Decimal(0), Decimal(100)
    )


def _span(node: Node, name: str, high: int) -> tuple[Decimal | None, Decimal | None]:
    return node.span(name, Decimal(0), Decimal(high)) or (None, None)


def _words(node: Node, name: str) -> tuple[str, ...]:
    value = node.data.get(name, ())
    if isinstance(value, list | tuple):
        return tuple(str(item) for item in value)
    raise DocumentFault("not-a-list", (*node.path, name))
