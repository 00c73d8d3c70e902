"""What is told of a sheet that is brought in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from workbench.formula.old_sheet import Amount, SheetFormula, SheetRow, UnreadCell, place_text
from workbench.formula.old_sheet_names import NameMatch
from workbench.words.catalogue import Words
from workbench.words.numbers import percent_text

_LONGEST = 60


def report_lines(
    words: Words, read: SheetFormula, matches: Mapping[int, NameMatch]
) -> Iterator[str]:
    """Yield the report of one formula: its lines, what to know of it, and what was not read."""
    yield words.say("sheet-report-read", name=read.title, count=len(read.rows))
    for row in read.rows:
        yield f"  {row_text(words, row, matches.get(row.row))}"
    for remark in read.remarks:
        yield words.say(remark.code, **dict(remark.values))
    if read.unread:
        yield words.say("sheet-report-unread", count=len(read.unread))
        for cell in read.unread:
            yield f"  {unread_text(words, cell)}"
    else:
        yield words.say("sheet-report-all-read")


def row_text(words: Words, row: SheetRow, match: NameMatch | None) -> str:
    """Return what one row became, with what is doubtful about it."""
    percent = (
        words.say("sheet-rest") if row.percent is None else percent_text(row.percent, words.style)
    )
    parts = [
        words.say("sheet-report-row", row=str(row.row + 1), name=_cut(row.name), percent=percent)
    ]
    if row.doubt is not None:
        parts.append(words.say(row.doubt.reason_id, text=_cut(row.amount)))
        choices = tuple(amount_text(words, one) for one in row.doubt.choices)
        if choices:
            parts.append(words.say("sheet-report-choices", choices=_either(words, choices)))
    if match is not None:
        parts.append(match_text(words, match))
    return " ".join(parts)


def match_text(words: Words, match: NameMatch) -> str:
    """Return which ingredient a name was taken for, and how sure that is."""
    names = tuple(one.name for one in match.candidates)
    if match.is_sure and match.best is not None:
        return words.say(f"sheet-name-{match.sureness.value}", name=match.best.name)
    if names:
        return words.say("sheet-name-doubtful", names=_either(words, names))
    return words.say("sheet-name-none")


def amount_text(words: Words, amount: Amount) -> str:
    """Return an amount as a choice: percent, grams, or the rest."""
    if amount.percent is not None:
        return f"{percent_text(amount.percent, words.style)} %"
    if amount.mass_g is not None:
        return f"{words.number(amount.mass_g)} g"
    return words.say("sheet-rest")


def unread_text(words: Words, cell: UnreadCell) -> str:
    """Return one cell that was not read, with the reason."""
    reason = words.say(cell.reason_id)
    return words.say(
        "sheet-report-cell", cell=place_text(cell.at), text=_cut(cell.text), reason=reason
    )


def _either(words: Words, texts: tuple[str, ...]) -> str:
    if len(texts) == 1:
        return texts[0]
    return words.say("sheet-either", first=", ".join(texts[:-1]), last=texts[-1])


def _cut(text: str) -> str:
    shown = "".join(letter for letter in text if letter.isprintable())
    return shown if len(shown) <= _LONGEST else shown[: _LONGEST - 1] + "\u2026"
