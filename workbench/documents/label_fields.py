"""Which fields a kind of label asks for and the maker has not said."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from workbench.bench.label_wants import REQUIRED, LabelOrder, LabelTables
from workbench.words.catalogue import Words

# Which warnings are called for is what the checks tell; that there are none is no gap.
_NEVER_MISSING = ("warnings",)


@dataclass(frozen=True, slots=True)
class MissingField:
    """Hold one thing a label lacks: its field, why that matters, and what to do."""

    field: str
    why: str
    remedy: str

    @property
    def text(self) -> str:
        """Return both sentences."""
        return f"{self.why} {self.remedy}"


def missing_fields(
    order: LabelOrder,
    there: Mapping[str, object],
    unknown: tuple[str, ...],
    tables: LabelTables,
    words: Words,
) -> tuple[MissingField, ...]:
    """Return what a kind of label asks for and is not there.

    Parameters
    ----------
    there : mapping
        By field, something true where it is there.
    unknown : tuple of str
        Names of lines whose contents are not known.
    """
    return tuple(_missing(order, there, unknown, tables, words))


def _missing(
    order: LabelOrder,
    there: Mapping[str, object],
    unknown: tuple[str, ...],
    tables: LabelTables,
    words: Words,
) -> Iterator[MissingField]:
    for want in tables.wants:
        if (want.kind, want.need) != (order.kind, REQUIRED) or want.field in _NEVER_MISSING:
            continue
        if want.field == "durability":
            message = _durability(order)
        elif there.get(want.field):
            continue
        elif want.field == "ingredients" and unknown:
            message = "label-missing-ingredients-unknown"
        else:
            message = f"label-missing-{want.field}"
        if message:
            named = words.say(f"label-field-{want.field}")
            yield MissingField(
                want.field,
                words.say("label-missing", field=named, source=want.source),
                words.say(message, kind=order.kind, lines=unknown or ("",)),
            )


def _durability(order: LabelOrder) -> str:
    if order.lasts_months is None:
        return "label-missing-durability"
    if order.is_dated:
        return "" if order.made_on else "label-missing-durability-made"
    return "" if order.opened_months else "label-missing-durability-opened"
