"""Reading plain data as a formula: every value checked, every fault with its place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import count

from workbench.formula.acceptance import Acceptance
from workbench.formula.document_values import DocumentFault, Path, decimal_in
from workbench.formula.formula import (
    AREAS,
    EXPOSURES,
    FORMS,
    MARKETS,
    PHASE_KINDS,
    PRODUCT_TYPES,
    USERS,
    Formula,
    Line,
    Phase,
    Plan,
    Step,
)
from workbench.units import Ambiguous, Unreadable, parse_mass, parse_volume

REST = "rest"
PERCENT_PLACES = 4
MOST = Decimal(10) ** 9
FIRST_PRINTABLE = " "
PAIR = 2
CHOICES = {
    "product_type": PRODUCT_TYPES,
    "exposure": EXPOSURES,
    "area": AREAS,
    "users": USERS,
    "form": FORMS,
}


@dataclass(frozen=True, slots=True)
class Node:
    """Hold a place in plain data and what stands there."""

    data: Mapping[str, object]
    path: Path

    def child(self, name: str) -> Node:
        """Return the object below, or an empty one."""
        value = self.data.get(name, {})
        if not isinstance(value, Mapping):
            raise DocumentFault("not-an-object", (*self.path, name))
        return Node(value, (*self.path, name))

    def children(self, name: str) -> tuple[Node, ...]:
        """Return the objects of a list below, or none."""
        value = self.data.get(name, ())
        if not isinstance(value, Sequence) or isinstance(value, str):
            raise DocumentFault("not-a-list", (*self.path, name))
        nodes = []
        for index, item in enumerate(value):
            if not isinstance(item, Mapping):
                raise DocumentFault("not-an-object", (*self.path, name, index))
            nodes.append(Node(item, (*self.path, name, index)))
        return tuple(nodes)

    def text(self, name: str, default: str = "") -> str:
        """Return a text, refusing control characters other than line breaks and tabs."""
        value = self.data.get(name, default)
        if not isinstance(value, str):
            raise DocumentFault("not-a-text", (*self.path, name))
        if any(letter < FIRST_PRINTABLE and letter not in "\n\t" for letter in value):
            raise DocumentFault("control-character", (*self.path, name))
        return value

    def name(self) -> str:
        """Return the name, which may not be blank."""
        value = self.text("name").strip()
        if not value:
            raise DocumentFault("blank", (*self.path, "name"))
        return value

    def flag(self, name: str) -> bool:
        """Return a yes or no."""
        return bool(self.data.get(name, False))

    def whole(self, name: str) -> int | None:
        """Return a whole number, or None."""
        value = self.data.get(name)
        return None if value is None else int(self.within(name, Decimal(0), MOST))

    def amount(self, name: str) -> Decimal | None:
        """Return a decimal from 0 up, or None."""
        return None if self.data.get(name) is None else self.within(name, Decimal(0), MOST)

    def within(self, name: str, low: Decimal, high: Decimal) -> Decimal:
        """Return a decimal between two bounds."""
        return decimal_in(self.data.get(name), (*self.path, name), low, high)

    def choice(self, name: str, default: str) -> str:
        """Return one of a closed list."""
        value = self.text(name, default)
        if value not in CHOICES[name]:
            raise DocumentFault(
                "not-a-choice", (*self.path, name), choices=", ".join(CHOICES[name])
            )
        return value

    def span(self, name: str, low: Decimal, high: Decimal) -> tuple[Decimal, Decimal] | None:
        """Return a pair of decimals, low first, or None."""
        value = self.data.get(name)
        if value is None:
            return None
        if not isinstance(value, Sequence) or isinstance(value, str) or len(value) != PAIR:
            raise DocumentFault("not-a-pair", (*self.path, name))
        first, second = (
            decimal_in(item, (*self.path, name, index), low, high)
            for index, item in enumerate(value)
        )
        if first > second:
            raise DocumentFault("pair-reversed", (*self.path, name), low=first, high=second)
        return first, second


def formula_in(data: Mapping[str, object], path: Path = ()) -> Formula:
    """Return the formula in plain data.

    Raises
    ------
    DocumentFault
        At the first value that makes no sense.
    """
    node = Node(data, path)
    plain = Formula(name="")
    phases = _phases(node)
    markets = tuple(str(item) for item in _list(node, "markets", plain.markets))
    if not markets or not set(markets) <= set(MARKETS):
        raise DocumentFault("not-a-choice", (*path, "markets"), choices=", ".join(MARKETS))
    return Formula(
        name=node.name(),
        phases=phases,
        product_type=node.choice("product_type", plain.product_type),
        exposure=node.choice("exposure", plain.exposure),
        area=node.choice("area", plain.area),
        users=node.choice("users", plain.users),
        form=node.choice("form", plain.form),
        pack=node.text("pack"),
        markets=markets,
        target_ph=node.span("target_ph", Decimal(0), Decimal(14)),
        plan=_plan(node),
        reference_set=node.text("reference_set"),
        accepted=tuple(_acceptance(child) for child in node.children("accepted")),
    )


def _acceptance(node: Node) -> Acceptance:
    return Acceptance(
        finding=node.text("finding"),
        about=tuple(str(item) for item in _list(node, "about", ())),
        value=node.text("value"),
        reason=node.text("reason"),
    )


def _list(node: Node, name: str, default: tuple[str, ...]) -> Sequence[object]:
    value = node.data.get(name, default)
    if not isinstance(value, Sequence) or isinstance(value, str):
        raise DocumentFault("not-a-list", (*node.path, name))
    return value


def _plan(node: Node) -> Plan:
    plan = node.child("plan")
    if "batch_mass" in plan.data and "batch_mass" in node.data:
        raise DocumentFault("batch-twice", (*node.path, "batch_mass"))
    hold_up = plan.data.get("hold_up_percent", "0")
    return Plan(
        batch_mass=_measure(
            plan if "batch_mass" in plan.data else node, "batch_mass", is_mass=True
        ),
        units=plan.whole("units"),
        fill=_measure(plan, "fill", is_mass=False),
        density=_above_nothing(plan, "density"),
        hold_up_percent=decimal_in(
            hold_up, (*plan.path, "hold_up_percent"), Decimal(0), Decimal(90)
        ),
        retains=plan.whole("retains") or 0,
        tests_g=plan.amount("tests_g") or Decimal(0),
    )


def _measure(node: Node, name: str, *, is_mass: bool) -> Decimal | None:
    if node.data.get(name) is None:
        return None
    read = (parse_mass if is_mass else parse_volume)(node.text(name))
    where = (*node.path, name)
    if isinstance(read, Ambiguous):
        raise DocumentFault("measure-ambiguous", where, text=node.text(name)[:40])
    if isinstance(read, Unreadable):
        code = "not-a-mass" if is_mass else "not-a-volume"
        raise DocumentFault(code, where, text=node.text(name)[:40])
    if read <= 0:
        raise DocumentFault("nothing", where, text=node.text(name)[:40])
    if read > MOST:
        raise DocumentFault("out-of-bounds", where, text=node.text(name)[:40], low=0, high=MOST)
    return read.normalize() + 0 if read != read.to_integral_value() else Decimal(int(read))


def _above_nothing(node: Node, name: str) -> Decimal | None:
    value = node.amount(name)
    if value is not None and value == 0:
        raise DocumentFault("nothing", (*node.path, name), text="0")
    return value


def _phases(node: Node) -> tuple[Phase, ...]:
    line_ids = count(1)
    phases = tuple(
        Phase(
            id=number,
            name=phase.name(),
            kind=_kind(phase),
            steps=tuple(_step(step) for step in phase.children("steps")),
            lines=tuple(_line(line, next(line_ids)) for line in phase.children("lines")),
        )
        for number, phase in enumerate(node.children("phases"), start=1)
    )
    rests = [
        (*node.path, "phases", phase.id - 1, "lines", index)
        for phase in phases
        for index, line in enumerate(phase.lines)
        if line.is_rest
    ]
    if len(rests) > 1:
        raise DocumentFault("two-rest-lines", rests[1])
    return phases


def _kind(node: Node) -> str:
    kind = node.text("kind", "other")
    if kind not in PHASE_KINDS:
        raise DocumentFault("not-a-choice", (*node.path, "kind"), choices=", ".join(PHASE_KINDS))
    return kind


def _step(node: Node) -> Step:
    def degrees(name: str) -> Decimal | None:
        if node.data.get(name) is None:
            return None
        return node.within(name, Decimal(-80), Decimal(300))

    return Step(
        text=node.text("text"),
        target_c=degrees("target_c"),
        hold_min=node.amount("hold_min"),
        speed=node.text("speed"),
        max_add_c=degrees("max_add_c"),
    )


def _line(node: Node, line_id: int) -> Line:
    ingredient = node.text("ingredient").strip()
    if not ingredient:
        raise DocumentFault("blank", (*node.path, "ingredient"))
    percent = None if node.data.get("percent") == REST else _percent(node)
    locked, to_ph = node.flag("locked"), node.flag("to_ph")
    if percent is None and (locked or to_ph):
        raise DocumentFault("rest-line-bound", node.path)
    return Line(
        id=line_id,
        ingredient=ingredient,
        percent=percent,
        locked=locked,
        note=node.text("note"),
        purpose=node.text("purpose"),
        to_ph=to_ph,
    )


def _percent(node: Node) -> Decimal:
    percent = node.within("percent", Decimal(0), Decimal(100))
    exponent = percent.as_tuple().exponent
    if isinstance(exponent, int) and -exponent > PERCENT_PLACES:
        raise DocumentFault("too-many-places", (*node.path, "percent"), text=str(percent))
    return percent
