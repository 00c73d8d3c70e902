"""What is to be said about a layout: heights of type, refusals and their ways out."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from workbench.bench.label_sheets import PI, SEAM_MM, HeightRule, goes_around
from workbench.documents.label_content import LabelContent
from workbench.documents.label_layout import Choice, Layout, Refusal
from workbench.documents.label_sheets import size_text
from workbench.documents.type_height import heights
from workbench.errors import WorkbenchError
from workbench.words.catalogue import Words

TENTH = Decimal("0.1")


def measured_lines(content: LabelContent, layout: Layout, words: Words) -> tuple[str, ...]:
    """Say how high the type is, which height its rule measures and on whose word."""
    return tuple(_measured(content, layout, words))


def refusal_error(refusal: Refusal, words: Words) -> WorkbenchError:
    """Return a refusal as the error of a paper that cannot be made."""
    return WorkbenchError(refusal_text(refusal, words), choices_text(refusal, words))


def refusal_text(refusal: Refusal, words: Words) -> str:
    """Say that a text does not fit, and how small its type may be at least."""
    measures = refusal.rule.measures if refusal.rule else "x"
    least_mm = refusal.rule.least_mm if refusal.rule else Decimal("0.9")
    return words.say(
        "label-refused",
        size=size_text(refusal.sheet, words),
        least=_figure(refusal.least),
        measured=words.say("label-measures", measures=measures),
        mm=least_mm.quantize(Decimal("0.01")),
    )


def choices_text(refusal: Refusal, words: Words) -> str:
    """Say every way out in one sentence."""
    told = "; ".join(choice_text(choice, words) for choice in refusal.choices)
    return words.say("label-choices", choices=told)


def choice_text(choice: Choice, words: Words) -> str:
    """Say one way out."""
    rule = choice.rule
    return words.say(
        f"label-choice-{choice.code}",
        panels=choice.panels,
        sizes=", ".join(choice.sizes),
        area="" if rule is None or rule.panel_to is None else rule.panel_to.quantize(Decimal(1)),
        mm="" if rule is None else rule.least_mm.quantize(Decimal("0.01")),
    )


def _measured(content: LabelContent, layout: Layout, words: Words) -> Iterator[str]:
    parts = (
        ("label-type-text", layout.size, layout.rule),
        ("label-type-net", layout.net_size, layout.net_rule),
    )
    for message, size, rule in parts:
        if rule is not None:
            yield _against(message, size, rule, words)
    bottle = content.order.bottle_mm
    if bottle is not None and not goes_around(layout.sheet.cell_w, bottle):
        yield words.say("label-around", bottle=bottle, most=(PI * bottle - SEAM_MM).quantize(TENTH))
    found = layout.heights
    yield words.say(
        "label-type-all",
        x=_figure(found.x),
        capital=_figure(found.capital),
        figure=_figure(found.figure),
        ratio=Decimal(f"{content.contrast:.1f}"),
    )


def _against(message: str, size: float, rule: HeightRule, words: Words) -> str:
    return words.say(
        message,
        size=_figure(size),
        measured=words.say("label-measures", measures=rule.measures),
        actual=_figure(getattr(heights(size), rule.measures)),
        least=rule.least_mm.quantize(Decimal("0.01")),
        **{"measured-by": words.say("label-measured-by", measures=rule.measures)},
        law="y" if rule.is_law else "n",
        source=rule.source,
    )


def _figure(value: float) -> Decimal:
    return Decimal(f"{value:.2f}")
