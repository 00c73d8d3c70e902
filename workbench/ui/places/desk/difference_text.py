"""What differs between two formulas, as the parts of a page: lines, head, figures, findings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from difflib import SequenceMatcher
from html import escape

from workbench.checks.assessment import Assessment
from workbench.checks.finding import Finding
from workbench.checks.ph_values import PhEstimate
from workbench.checks.swap_effect import DeclarationChange, FigureChange, SwapEffect, effect_between
from workbench.formula.difference import (
    ADDED,
    LOCK,
    MOVED,
    NOTE,
    PURPOSE,
    REMOVED,
    REST,
    SWAPPED,
    TO_PH,
    HeadDifference,
    LineDifference,
    PhaseDifference,
)
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.ui.places.desk.figures_panel import figure_text
from workbench.ui.places.desk.form_words import batch_text, market_text, ph_text
from workbench.words.catalogue import Words
from workbench.words.findings import title
from workbench.words.numbers import decimal_text, percent_text
from workbench.words.ph import ph_text as ph_number

_MINUS, _NONE = "\u2212", Decimal(0)


@dataclass(frozen=True, slots=True)
class Side:
    """Hold one of two formulas: what it is called, the formula, its shelf, its assessment."""

    name: str
    formula: Formula
    shelf: Shelf
    assessment: Assessment


def difference_page(before: Side, after: Side, words: Words) -> str:
    """Return all that differs, as the text of a page."""
    effect = effect_between((before.formula, before.assessment), (after.formula, after.assessment))
    return "".join(_Writer(before, after, effect, words).page())


def first_page(only: Side, words: Words) -> str:
    """Return the lines of a formula that has nothing before it."""
    nothing = Formula(name=only.formula.name)
    effect = effect_between((nothing, only.assessment), (only.formula, only.assessment))
    before = Side(words.say("versions-absent"), nothing, only.shelf, only.assessment)
    return "".join(_Writer(before, only, effect, words).first())


class _Writer:
    """Write the parts of the page, both sides under one heading."""

    def __init__(self, before: Side, after: Side, effect: SwapEffect, words: Words) -> None:
        self._before = before
        self._after = after
        self._effect = effect
        self._say = words.say
        self._words = words

    def page(self) -> Iterator[str]:
        say, effect = self._say, self._effect
        between = say("versions-between", before=self._before.name, after=self._after.name)
        yield _paragraph(between, "title")
        if effect.difference.is_empty:
            yield _paragraph(say("versions-no-difference"))
        else:
            yield from self._lines()
            yield from self._other()
        yield from self._figures()
        yield from self._declarations()
        yield from self._findings()
        yield _paragraph(say("versions-facts-note"), "small")

    def first(self) -> Iterator[str]:
        yield _paragraph(self._say("versions-nothing-before", name=self._after.name), "title")
        heads = (self._say("versions-lines"), self._after.name)
        rows = [
            (self._name(each), self._percent(each, is_after=True))
            for each in self._effect.difference.lines
        ]
        yield _table(heads, rows, notes=[""] * len(rows))

    # The formula itself.

    def _lines(self) -> Iterator[str]:
        found = self._effect.difference
        yield _paragraph(self._say("versions-lines"), "head")
        if not found.lines:
            yield _paragraph(self._say("versions-lines-none"))
        else:
            rows = [
                (
                    self._name(each),
                    self._percent(each, is_after=False),
                    self._percent(each, is_after=True),
                    self._by(each.by),
                )
                for each in found.lines
            ]
            yield _table(self._heads(), rows, [self._kinds(each) for each in found.lines])
        if found.same:
            yield _paragraph(self._say("versions-lines-same", count=found.same), "small")

    def _other(self) -> Iterator[str]:
        found = self._effect.difference
        if found.head:
            yield _paragraph(self._say("versions-head"), "head")
            heads = (*self._heads()[:3], "")
            rows = [
                (
                    self._say(f"versions-head-{each.field}"),
                    self._head_text(each, self._before),
                    self._head_text(each, self._after),
                    "",
                )
                for each in found.head
            ]
            yield _table(heads, rows, [""] * len(rows))
        if found.phases:
            yield _paragraph(self._say("versions-phases"), "head")
            yield _list(text for each in found.phases for text in self._phase(each))

    def _name(self, each: LineDifference) -> str:
        line, side = (each.after, self._after) if each.after else (each.before, self._before)
        return side.shelf.name(line.ingredient) if line is not None else ""

    def _percent(self, each: LineDifference, *, is_after: bool) -> str:
        line = each.after if is_after else each.before
        percent = each.to_percent if is_after else each.percent
        if line is None or percent is None:
            return self._say("versions-absent")
        text = percent_text(percent, self._words.style)
        return self._say("versions-takes-rest", percent=text) if line.is_rest else text

    def _by(self, by: Decimal) -> str:
        if by == 0:
            return ""
        return ("+" if by > 0 else _MINUS) + percent_text(abs(by), self._words.style)

    def _kinds(self, each: LineDifference) -> str:
        line, old = each.after, each.before
        said: list[str] = []
        for kind in each.kinds:
            if kind in (ADDED, REMOVED):
                said.append(self._say(f"versions-line-{kind}"))
            elif kind == SWAPPED and old is not None:
                other = self._before.shelf.name(old.ingredient)
                said.append(self._say("versions-line-swapped", other=other))
            elif kind == MOVED:
                said.append(self._moved(each))
            elif kind in (REST, LOCK, TO_PH) and line is not None:
                is_on = {REST: line.is_rest, LOCK: line.locked, TO_PH: line.to_ph}[kind]
                said.append(self._say(f"versions-line-{kind}-{'on' if is_on else 'off'}"))
            elif kind in (NOTE, PURPOSE):
                said.append(self._say(f"versions-line-{kind}"))
        return ", ".join(said)

    def _moved(self, each: LineDifference) -> str:
        if each.phase == each.to_phase or not (each.phase and each.to_phase):
            return self._say("versions-line-moved")
        return self._say("versions-line-moved-phase", **{"from": each.phase, "to": each.to_phase})

    def _phase(self, each: PhaseDifference) -> Iterator[str]:
        old, new = each.before, each.after
        name = new.name if new is not None else old.name if old is not None else ""
        for kind in each.kinds:
            before = "" if old is None else old.name
            yield self._say(f"versions-phase-{kind}", **{"name": name, "from": before})

    def _head_text(self, each: HeadDifference, side: Side) -> str:
        formula, words, shelf = side.formula, self._words, side.shelf
        shown = {"markets": market_text, "target_ph": ph_text, "plan": batch_text}.get(each.field)
        if shown is not None:
            return shown(formula, shelf, words)
        value = str(getattr(formula, each.field))
        named = {"product_type": "type"}.get(each.field, each.field)
        if words.has(f"form-{named}") and each.field not in ("name", "pack"):
            return words.say(f"form-{named}", **{named: value})
        return value

    # What follows from it.

    def _figures(self) -> Iterator[str]:
        changes = self._effect.figures
        ph = self._ph_row()
        if not changes and ph is None:
            return
        yield _paragraph(self._say("versions-figures"), "head")
        rows = [ph] if ph is not None else []
        yield _table(
            self._heads(),
            [*rows, *(self._figure(each) for each in changes)],
            [""] * (len(changes) + len(rows)),
        )

    def _figure(self, each: FigureChange) -> tuple[str, ...]:
        shown = each.after or each.before
        label = "" if shown is None else self._say(f"figure-{shown.key}", **dict(shown.values))
        by = "" if each.by is None or each.by == _NONE else self._figure_by(each.by)
        sides = (
            self._say("versions-absent") if one is None else figure_text(one, self._words)
            for one in (each.before, each.after)
        )
        return (label, *sides, by)

    def _figure_by(self, by: Decimal) -> str:
        text = decimal_text(abs(by), self._words.style, 2)
        return ("+" if by > 0 else _MINUS) + text if text.strip("0.,") else ""

    def _ph_row(self) -> tuple[str, ...] | None:
        old, new = self._before.assessment.ph, self._after.assessment.ph
        texts = tuple(
            self._ph(one) if isinstance(one, PhEstimate) else self._say(one.reason_id)
            for one in (old, new)
        )
        if texts[0] == texts[1]:
            return None
        by = self._effect.ph_by
        said = "" if by is None else ph_number(abs(by), self._words)
        change = said and ("+" if by is not None and by > 0 else _MINUS) + said
        return (self._say("versions-ph"), *texts, change if said.strip("0.,") else "")

    def _ph(self, estimate: PhEstimate) -> str:
        low, middle, high = (
            ph_number(value, self._words)
            for value in (estimate.low, estimate.estimate, estimate.high)
        )
        return self._say("versions-ph-interval", estimate=middle, low=low, high=high)

    def _declarations(self) -> Iterator[str]:
        for each in self._effect.declarations:
            yield _paragraph(self._say("versions-declaration", market=each.market), "head")
            sides = (self._before.name, self._after.name)
            texts = (", ".join(each.before), ", ".join(each.after))
            yield _table(sides, [texts], [""], is_text=True)
            yield _list(
                self._say(f"versions-list-{kind}", names=names)
                for kind, names in (
                    ("added", each.added),
                    ("removed", each.removed),
                    ("moved", _displaced(each)),
                )
                if names
            )

    def _findings(self) -> Iterator[str]:
        effect = self._effect
        otherwise = [each.after for each in effect.unchanged if each.reads_otherwise]
        yield _paragraph(self._say("versions-findings"), "head")
        if not (effect.gone or effect.new or otherwise):
            yield _paragraph(self._say("versions-findings-none"))
        for message, found, side in (
            ("gone", effect.gone, self._before),
            ("new", effect.new, self._after),
            ("changed", otherwise, self._after),
        ):
            if found:
                yield _paragraph(self._say(f"versions-findings-{message}"), "strong")
                yield _list(self._finding(one, side) for one in found)
        count = len(effect.unchanged) - len(otherwise)
        yield _paragraph(self._say("versions-findings-unchanged", count=count), "small")

    def _finding(self, found: Finding, side: Side) -> str:
        severity = self._say(f"severity-{found.severity.word}")
        return f"{severity}: {title(found, side.shelf, self._words)}"

    def _heads(self) -> tuple[str, str, str, str]:
        what, change = self._say("versions-column-what"), self._say("versions-column-change")
        return (what, self._before.name, self._after.name, change)


def _table(
    heads: Iterable[str],
    rows: Iterable[tuple[str, ...]],
    notes: Iterable[str],
    *,
    is_text: bool = False,
) -> str:
    """Return a ruled table; a note stands under the first cell of its row."""
    heads = tuple(heads)
    widths = [round(100 / len(heads))] * len(heads) if is_text else _widths(len(heads))
    align = ["left" if is_text or place == 0 else "right" for place in range(len(heads))]
    top = "".join(
        f'<td class="top" width="{width}%" align="{side}">{escape(text)}</td>'
        for text, width, side in zip(heads, widths, align, strict=True)
    )
    body = []
    for row, note in zip(rows, notes, strict=True):
        small = f'<br><span class="small">{escape(note)}</span>' if note else ""
        cells = "".join(
            f'<td align="{align[place]}">{escape(text)}{small if place == 0 else ""}</td>'
            for place, text in enumerate(row)
        )
        body.append(f"<tr>{cells}</tr>")
    return f'<table width="100%" cellspacing="0"><tr>{top}</tr>{"".join(body)}</table>'


def _widths(count: int) -> list[int]:
    return {2: [70, 30], 4: [40, 22, 22, 16]}[count]


def _paragraph(text: str, role: str = "") -> str:
    kind = f' class="{role}"' if role else ""
    return f"<p{kind}>{escape(text)}</p>"


def _list(texts: Iterable[str]) -> str:
    return "".join(_paragraph(text) for text in texts)


def _displaced(change: DeclarationChange) -> tuple[str, ...]:
    """Return the fewest names whose move explains the other order of a list."""
    old = [name for name in change.before if name in change.after]
    new = [name for name in change.after if name in change.before]
    blocks = SequenceMatcher(None, old, new, autojunk=False).get_matching_blocks()
    stayed = {place for _, first, size in blocks for place in range(first, first + size)}
    return tuple(name for place, name in enumerate(new) if place not in stayed)
