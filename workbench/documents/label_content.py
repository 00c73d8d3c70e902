"""What a label says: plain text, before any size or paper."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import ROUND_DOWN, Decimal

from workbench.bench.label_wants import (
    GIFT,
    GRAM,
    OWN,
    SALE_US,
    LabelOrder,
    LabelTables,
)
from workbench.checks.assessment import Assessment
from workbench.checks.label_values import Declaration, LabelWarning, WarningKind
from workbench.documents.fonts import missing_signs, printable
from workbench.documents.label_fields import MissingField, missing_fields
from workbench.documents.type_height import contrast
from workbench.documents.worksheet_content import StudioBlock
from workbench.formula.absent import Absent
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.words.catalogue import Words
from workbench.words.labels import LabelWords

GRAMS_PER_OUNCE, ML_PER_FLUID_OUNCE = Decimal("28.349523125"), Decimal("29.5735295625")
LEAST_CONTRAST = 4.5
SMALL_CONTENT = 5
SHORT_LIST = 5


@dataclass(frozen=True, slots=True)
class LabelContent:
    """Hold everything a label says, and what is missing or to be known about it.

    `names` are the ingredient list in its order and `shown` what is printed of it, all but for
    own use; `cautions` the warnings, the law's own words unchanged; `batch` the number, or that
    nothing was made yet; `opened` the text of the open-jar symbol and `opened_text` the same in
    words; `pointer` leads to a leaflet; `missing` what the kind of label asks for and the maker
    has not said.
    """

    studio: StudioBlock
    order: LabelOrder
    name: str
    function: str
    heading: str
    names: tuple[str, ...]
    shown: tuple[str, ...]
    cautions: tuple[str, ...]
    use: tuple[str, ...]
    who: tuple[str, ...]
    net: str
    batch: str
    dates: tuple[str, ...]
    opened: str
    opened_text: str
    pointer: str
    extra: tuple[str, ...]
    missing: tuple[MissingField, ...]
    notes: tuple[str, ...]
    contrast: float

    @property
    def list_text(self) -> str:
        """Return the whole ingredient list."""
        return ", ".join(self.names)


@dataclass(frozen=True, slots=True)
class LabelMaking:
    """Hold with what labels are made: for which studio, in which words, by which tables."""

    studio: StudioBlock
    words: Words
    tables: LabelTables


def label_content(
    order: LabelOrder,
    formula: Formula,
    shelf: Shelf,
    assessment: Assessment,
    made: LabelMaking,
) -> LabelContent:
    """Say everything a label prints.

    Notes
    -----
    For the label of a batch give the formula as made and its assessment, and an order that
    says so; the list is then that of the batch.
    """
    writer = _Writer(order, formula, shelf, assessment, made)
    declaration = writer.declaration
    content = LabelContent(
        studio=made.studio,
        order=order,
        name=printable(formula.name),
        function=printable(order.function),
        heading=declaration.heading if declaration else made.words.say("label-ingredients"),
        names=tuple(map(printable, declaration.names)) if declaration else (),
        shown=writer.shown(),
        cautions=tuple(map(printable, writer.cautions())),
        use=tuple(writer.use()),
        who=tuple(writer.who()),
        net=writer.net(),
        batch=writer.batch(),
        dates=tuple(writer.dates()),
        opened=writer.opened(),
        opened_text=writer.opened_text(),
        pointer=made.words.say("label-see-leaflet"),
        extra=tuple(writer.extra()),
        missing=(),
        notes=tuple(writer.notes()),
        contrast=contrast(order.ink, order.ground),
    )
    return writer.with_missing(content)


class _Writer:
    def __init__(
        self,
        order: LabelOrder,
        formula: Formula,
        shelf: Shelf,
        assessment: Assessment,
        made: LabelMaking,
    ) -> None:
        self._order, self._formula = order, formula
        self._assessment, self._made = assessment, made
        self._say = made.words.say
        self._words = LabelWords(made.words, formula, shelf)
        self.declaration = self._declaration()

    def _declaration(self) -> Declaration | None:
        label = self._assessment.label
        found = label.declaration(self._order.market)
        if found is None and self._order.kind in (OWN, GIFT):
            # No law names the list of what is not sold: any market's will do.
            found = next(iter(label.declarations), None)
        return found

    def shown(self) -> tuple[str, ...]:
        names = tuple(map(printable, self.declaration.names)) if self.declaration else ()
        if self._order.kind != OWN or len(names) <= SHORT_LIST + 1:
            return names
        more = self._say("label-more", count=str(len(names) - SHORT_LIST))
        return (*names[:SHORT_LIST], more)

    def warnings(self) -> Iterator[LabelWarning]:
        for warning in self._assessment.label.warnings:
            is_here = not warning.markets or self._order.market in warning.markets
            is_bench = warning.kind is WarningKind.BENCH
            is_own = self._order.kind == OWN and warning.kind is not WarningKind.PRESCRIBED
            is_out = warning.kind is WarningKind.USUAL and warning.key in self._order.left_out
            if is_here and not (is_bench or is_own or is_out):
                yield warning

    def cautions(self) -> Iterator[str]:
        texts = [self._words.warning(warning) for warning in self.warnings()]
        if self._order.kind == GIFT:
            texts.append(self._say("label-gift-care"))
        yield from dict.fromkeys(texts)

    def use(self) -> Iterator[str]:
        for name, text in (("use", self._order.use), ("storage", self._order.storage)):
            if text:
                yield f"{self._say(f'label-{name}')} {printable(text)}"

    def who(self) -> Iterator[str]:
        studio = self._made.studio
        own = (studio.name, studio.contact) if self._order.kind != OWN else ()
        said = self._order.who or ", ".join(part for part in own if part)
        if said:
            yield printable(said)
        if self._order.origin:
            yield self._say("label-origin", place=printable(self._order.origin))

    def net(self) -> str:
        order = self._order
        if order.net is None or self._made.tables.wanted(order.kind, "net").need == "none":
            return ""
        if order.kind != SALE_US:
            return self._say("label-net", amount=order.net, unit=order.net_unit)
        per = GRAMS_PER_OUNCE if order.net_unit == GRAM else ML_PER_FLUID_OUNCE
        # Rounded down: a label never promises more than is inside.
        ounces = (order.net / per).quantize(Decimal("0.01"), ROUND_DOWN)
        return self._say("label-net-us", ounces=ounces, amount=order.net, unit=order.net_unit)

    def batch(self) -> str:
        order = self._order
        if order.batch:
            return self._say("label-batch", kind=order.kind, batch=printable(order.batch))
        return "" if order.is_as_made else self._say("label-not-made")

    def dates(self) -> Iterator[str]:
        order = self._order
        if order.made_on is not None:
            yield self._say("label-made", day=order.made_on.isoformat())
        if order.best_before is not None:
            year, month = order.best_before
            yield self._say("label-best-before", kind=order.kind, month=f"{month:02}/{year}")

    def _opened_months(self) -> int | None:
        # What is sold carries the open-jar months in place of a date, not beside it.
        is_dated_sale = self._order.kind not in (OWN, GIFT) and self._order.is_dated
        return None if is_dated_sale else self._order.opened_months

    def opened(self) -> str:
        months = self._opened_months()
        return "" if months is None else self._say("label-open-jar", months=str(months))

    def opened_text(self) -> str:
        months = self._opened_months()
        return "" if months is None else self._say("label-open-jar-text", months=str(months))

    def extra(self) -> Iterator[str]:
        order = self._order
        for name, text in (("ph", order.ph), ("trial", order.trial)):
            if text and self._made.tables.wanted(order.kind, name).need != "none":
                yield self._say(f"label-{name}", **{name: printable(text)})

    def notes(self) -> Iterator[str]:
        order, say = self._order, self._say
        if not order.is_as_made:
            yield say("label-note-designed")
        if self.declaration:
            yield from self._words.notes(self.declaration)
        for warning in self.warnings():
            if warning.condition:
                text = self._words.warning(warning)
                yield say("label-note-condition", text=text, condition=warning.condition)
        if order.net is not None and order.net < SMALL_CONTENT:
            yield say("label-note-net-small")
        ratio = contrast(order.ink, order.ground)
        if ratio < LEAST_CONTRAST:
            yield say("label-note-contrast", ratio=Decimal(f"{ratio:.1f}"))
        if order.kind not in (OWN, GIFT):
            yield say("label-note-assessor")

    def with_missing(self, content: LabelContent) -> LabelContent:
        has_ph = not isinstance(self._assessment.ph, Absent)
        unknown = (
            self._words.lines(self.declaration.unknown)
            if self.declaration and self.declaration.unknown
            else ()
        )
        there = {
            "name": content.name,
            "function": content.function,
            "batch": self._order.batch,
            "made": self._order.made_on,
            "ingredients": content.names and not unknown,
            "net": content.net or (self._order.net is not None and self._order.net < SMALL_CONTENT),
            "use": self._order.use,
            "who": content.who,
            "ph": self._order.ph or not has_ph,
        }
        found = missing_fields(self._order, there, unknown, self._made.tables, self._made.words)
        signs = tuple(
            MissingField(
                "glyph",
                self._say("label-missing-glyph", sign=sign, text=text[:60]),
                self._say("label-missing-glyph-remedy"),
            )
            for text in texts_of(content)
            for sign in missing_signs(text)[:1]
        )
        return replace(content, missing=(*found, *signs))


def texts_of(content: LabelContent) -> Iterator[str]:
    """Yield every text that is printed."""
    yield from (content.name, content.function, content.heading, *content.names)
    yield from (*content.cautions, *content.use, *content.who, content.net, content.batch)
    yield from (*content.dates, content.opened, *content.extra)
