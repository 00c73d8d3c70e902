"""The record of a wet-rub test: whether a label keeps its print in the bathroom."""

from __future__ import annotations

from workbench.bench.label_wants import Material
from workbench.documents.sheet import Sheet, Upright
from workbench.documents.tables import Section, Sections, Table
from workbench.words.catalogue import Words

STEPS = ("set", "rub", "soak", "oil")


def rub_sections(material: Material | None, words: Words) -> tuple[Section, ...]:
    """Return what is tested and what to write down, with advice on the material where known."""
    say = words.say
    advice = (
        (say("label-rub-advice", withstands=material.withstands), say("label-rub-source"))
        if material
        else ()
    )
    made_of = tuple(say(f"label-rub-{name}") for name in ("material", "ink", "finish", "day"))
    heads = tuple(say(f"label-rub-{name}") for name in ("step", "result", "photo"))
    steps = tuple((say(f"label-rub-{step}"), "", "") for step in STEPS)
    return (
        Section(
            say("label-rub-title"),
            Table(made_of, (30, 25, 25, 20), (("",) * len(made_of),), is_blank=True),
            advice,
        ),
        Section(say("label-rub-steps"), Table(heads, (56, 22, 22), steps, is_blank=True)),
    )


def rub_pdf(material: Material | None, paper: Upright, words: Words) -> bytes:
    """Return the record as a page to fill in."""
    sections = rub_sections(material, words)
    sheet = Sheet(paper, sections[0].heading)
    for section in sections:
        Sections(sheet).draw(section)
    return sheet.done()
