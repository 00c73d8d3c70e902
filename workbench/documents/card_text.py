"""A card as Markdown, which holds the whole document too, and as plain text."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping

from workbench.documents.card_content import CardContent, CardPhase, CardRow
from workbench.documents.fonts import printable
from workbench.formula.facts import Plain
from workbench.words.catalogue import Words

FENCE = "```"
_MARKS = "\\`*_{}[]|<>&~$"
# Signs that make a heading, a list or a rule where a line begins with them.
_LEADING, _AFTER_NUMBER = "#+-=", (". ", ") ", ".", ")")
WIDTH = 78
NAME_WIDTH = 46


def card_markdown(content: CardContent, document: Mapping[str, Plain], words: Words) -> str:
    """Return a card as Markdown; its last block is the document itself."""
    lines = [f"# {_escaped(content.product)}", ""]
    lines += [f"**{words.say(label)}:** {_escaped(value)}  " for label, value in _head(content)]
    lines.append("")
    for phase in content.phases:
        lines += _markdown_phase(phase, words)
    total = words.say("card-total")
    grams = f", {content.total_grams} g" if content.total_grams else ""
    lines += [f"**{total}: {content.total} %{grams}**", ""]
    for heading, texts in _blocks(content, words):
        lines += [f"## {words.say(heading)}", ""]
        lines += [f"- {_escaped(text)}" for text in texts]
        lines.append("")
    lines += [_escaped(content.usual), "", words.say("card-document"), ""]
    # Escapes keep every sign of the maker's text inside the block, whatever it is.
    data = json.dumps(document, ensure_ascii=True, indent=2)
    lines += [f"{FENCE}json", data, FENCE, ""]
    return "\n".join(lines)


def document_of(markdown: str) -> dict[str, object] | None:
    """Return the document a Markdown card holds, None where it holds none."""
    lines = markdown.splitlines()
    try:
        start = len(lines) - 1 - lines[::-1].index(f"{FENCE}json")
        end = lines.index(FENCE, start + 1)
        data = json.loads("\n".join(lines[start + 1 : end]))
    except ValueError:
        return None
    return data if isinstance(data, dict) else None


def card_text(content: CardContent, words: Words) -> str:
    """Return a card as plain text in columns, 78 signs wide at most where words allow it."""
    lines = [printable(content.product), "=" * min(len(printable(content.product)), WIDTH), ""]
    lines += [f"{words.say(label)}: {printable(value)}" for label, value in _head(content)]
    lines.append("")
    for phase in content.phases:
        lines += _text_phase(phase, words)
    lines += [_columns(words.say("card-total"), f"{content.total} %", _g(content.total_grams)), ""]
    for heading, texts in _blocks(content, words):
        lines.append(words.say(heading))
        lines += [line for text in texts for line in _hanging("- ", text)]
        lines.append("")
    lines += _hanging("", content.usual)
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _head(content: CardContent) -> Iterator[tuple[str, str]]:
    studio = ", ".join(part for part in (content.studio.name, content.studio.contact) if part)
    for label, value in (
        ("card-version", content.version),
        ("card-kind", content.kind),
        ("card-ph", content.ph),
        ("card-batch", content.batch),
        ("card-from", studio),
    ):
        if value:
            yield label, value


def _blocks(content: CardContent, words: Words) -> Iterator[tuple[str, tuple[str, ...]]]:
    complete = (
        (words.say("card-complete-no"), *content.gaps)
        if content.gaps
        else (words.say("card-complete-yes"),)
    )
    for heading, texts in (
        ("card-equipment", content.equipment),
        ("card-cautions", content.cautions),
        ("card-look", content.look),
        ("card-notes", (content.notes,) if content.notes else ()),
        ("card-complete", complete),
    ):
        if texts:
            yield heading, texts


def _markdown_phase(phase: CardPhase, words: Words) -> Iterator[str]:
    yield f"## {phase.letter} {_escaped(phase.name)}".rstrip()
    yield ""
    has_grams = any(row.grams for row in phase.rows)
    heads = [words.say("card-material"), "INCI", "%"] + (["g"] if has_grams else [])
    yield f"| {' | '.join(heads)} |"
    yield f"| --- | --- | ---: |{' ---: |' if has_grams else ''}"
    for row in phase.rows:
        name = _escaped(row.name) + (f" ({_escaped(row.note)})" if row.note else "")
        cells = [name, _escaped(row.inci), row.percent] + ([row.grams] if has_grams else [])
        yield f"| {' | '.join(cells)} |"
    yield ""
    for number, step in enumerate(phase.steps, start=1):
        yield f"{number}. {_escaped(step)}"
    if phase.steps:
        yield ""


def _text_phase(phase: CardPhase, words: Words) -> Iterator[str]:
    yield printable(words.say("card-phase", letter=phase.letter, name=phase.name))
    for row in phase.rows:
        yield from _text_row(row)
    for number, step in enumerate(phase.steps, start=1):
        yield from _hanging(f"  {number}. ", step)
    yield ""


def _text_row(row: CardRow) -> Iterator[str]:
    name, *more = _wrapped(row.name, NAME_WIDTH - 2)
    yield _columns(f"  {name}", f"{row.percent} %", _g(row.grams))
    yield from (f"  {line}" for line in more)
    for text in (row.inci, row.note):
        if printable(text) and printable(text) != printable(row.name):
            yield from _hanging("    ", text)


def _g(grams: str) -> str:
    return f"{grams} g" if grams else ""


def _columns(name: str, percent: str, grams: str) -> str:
    return f"{name:<{NAME_WIDTH}}{percent:>14}{grams:>16}"


def _hanging(lead: str, text: str) -> Iterator[str]:
    for number, line in enumerate(_wrapped(text, WIDTH - len(lead))):
        yield (lead if number == 0 else " " * len(lead)) + line


def _wrapped(text: str, room: int) -> list[str]:
    lines = [""]
    for word in printable(text).split(" "):
        if lines[-1] and len(lines[-1]) + 1 + len(word) > room:
            lines.append(word)
        else:
            lines[-1] = f"{lines[-1]} {word}".strip()
    return lines


def _escaped(text: str) -> str:
    clean = printable(text)
    escaped = "".join(f"\\{sign}" if sign in _MARKS else sign for sign in clean)
    digits = len(escaped) - len(escaped.lstrip("0123456789"))
    starts_list = digits > 0 and escaped[digits : digits + 2] in _AFTER_NUMBER
    if starts_list or (not digits and escaped[:1] in tuple(_LEADING)):
        return f"{escaped[:digits]}\\{escaped[digits:]}"
    return escaped
