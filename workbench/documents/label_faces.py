"""The faces of a label: which text goes where, at a given size of type."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial

from reportlab.lib.units import mm

from workbench.bench.label_sheets import LabelSheet
from workbench.bench.label_wants import FRONT_AND_BACK, LEAFLET
from workbench.documents.fonts import BOLD, REGULAR, registered, width
from workbench.documents.label_content import LabelContent
from workbench.documents.label_face import Face, Shape, Sizes
from workbench.documents.label_flow import (
    CENTRE,
    LEAD,
    LEFT,
    RIGHT,
    RISE,
    Box,
    Disc,
    Flowed,
    Para,
    Run,
    flow,
    para,
)

QUIET_MM = 2.0
NAME, WHAT, TIGHT_NAME = 1.45, 1.0, 1.1
WIDE_ENOUGH_MM = 60
FRONT_SHARES = (0.34, 0.42)
GUTTER = 2.4 * mm
JAR = 2.6
TRIES, MOST_PANELS = 40, 8
LOGO_LEAST, LOGO_MOST = 5 * mm, 11 * mm


Foot = tuple[tuple[Run, ...], tuple[Shape, ...], float]
Draw = Callable[[Sizes], tuple[Face, ...] | None]


class Faces:
    """Set the text of a label on its cell, in each way that may suit it."""

    def __init__(self, content: LabelContent, sheet: LabelSheet) -> None:
        """Take what is said and the cell it is said on."""
        registered()
        self._content, self._sheet = content, sheet
        self._wide, self._high = float(sheet.cell_w) * mm, float(sheet.cell_h) * mm
        self._quiet = QUIET_MM * mm

    def arrangements(self) -> Iterator[Draw]:
        """Yield the ways to set this label; the caller keeps the one with the largest type."""
        pair = self._content.order.placed == FRONT_AND_BACK
        if self._sheet.is_round:
            yield self._round_pair if pair else self._round
        elif pair:
            yield self._pair
        else:
            # At the same size of type the first way is taken.
            if float(self._sheet.cell_w) >= WIDE_ENOUGH_MM:
                for share in FRONT_SHARES:
                    yield partial(self._beside, share)
            yield self._one

    def _head(self, side: str = "left") -> tuple[Para, ...]:
        content = self._content
        paras = [para(content.name, BOLD, scale=NAME, side=side)]
        if content.function:
            paras.append(para(content.function, scale=WHAT, before=0.05, side=side))
        return tuple(paras)

    def _list(self, side: str = "left") -> tuple[Para, ...]:
        content = self._content
        if not content.shown:
            return ()
        *names, last = content.shown
        pieces = [(f"{content.heading}:", BOLD)]
        pieces += [(f"{name},", REGULAR) for name in names]
        pieces.append((f"{last}.", REGULAR))
        return (Para(tuple(pieces), side=side, before=0.4),)

    def _care(self, side: str = "left") -> tuple[Para, ...]:
        content = self._content
        return tuple(
            para(text, side=side, before=0.3) for text in (*content.cautions, *content.use)
        )

    def _who(self, side: str = "left") -> tuple[Para, ...]:
        return tuple(para(text, side=side, before=0.3) for text in self._content.who)

    def _made(self, side: str = "left") -> tuple[Para, ...]:
        return tuple(
            para(text, side=side, before=0.5 if number == 0 else 0)
            for number, text in enumerate(self._made_texts())
        )

    def _made_texts(self) -> tuple[str, ...]:
        content = self._content
        texts = (content.batch, *content.dates, *content.extra)
        return tuple(text for text in texts if text)

    def last_resort(self) -> Iterator[Draw]:
        """Yield how to set a label that holds its text in no other way."""
        if not self._sheet.is_round and self._content.order.placed != FRONT_AND_BACK:
            # Batch and dates stay whole where there is room for it.
            yield partial(self._tight, keeps=True)
            yield partial(self._tight, keeps=False)

    def _body(self, side: str = "left") -> tuple[Para, ...]:
        if self._content.order.placed == LEAFLET:
            return (para(self._content.pointer, side=side, before=0.3), *self._who(side))
        return (*self._list(side), *self._care(side), *self._who(side))

    def _box(self, left: float, right: float) -> Box:
        return Box(left, self._quiet, right - left, self._high - self._quiet)

    def _one(self, sizes: Sizes) -> tuple[Face, ...] | None:
        box = self._box(self._quiet, self._wide - self._quiet)
        foot = self._foot(box, sizes, self._made(RIGHT))
        return self._column(box, sizes, (*self._head(), *self._body()), foot)

    def _tight(self, sizes: Sizes, *, keeps: bool) -> tuple[Face, ...] | None:
        """Set what a small label has to hold run together, without lines of their own."""
        content = self._content
        box = self._box(self._quiet, self._wide - self._quiet)
        name = [(word, BOLD) for word in content.name.split()]
        name += [(word, REGULAR) for word in content.function.split()]
        pieces = tuple(piece for each in self._body() for piece in each.pieces)
        *made, last = self._made_texts() or ("",)
        texts = [*(f"{text} ·" for text in made), last]
        if not keeps:
            texts = " ".join(texts).split()
        whole = tuple((text, REGULAR) for text in texts)
        paras = (Para(tuple(name), scale=TIGHT_NAME), Para(pieces, before=0.1))
        foot = self._foot(box, sizes, (Para(whole, side=RIGHT),))
        return self._column(box, sizes, paras, foot)

    def _column(
        self, box: Box, sizes: Sizes, paras: tuple[Para, ...], foot: Foot | None
    ) -> tuple[Face, ...] | None:
        """Set paragraphs down a box above the foot at its lower edge."""
        if foot is None:
            return None
        runs, shapes, top = foot
        above = Box(box.left, box.top, box.wide, top)
        text = flow(paras, above, sizes.base, box.top)
        return None if text is None else (Face((*text.runs, *runs), shapes),)

    def _foot(self, box: Box, sizes: Sizes, paras: tuple[Para, ...]) -> Foot | None:
        """Set net content, open jar, batch and dates along the lower edge of a box."""
        content, base = self._content, sizes.base
        net_size = max(base, sizes.net)
        net_wide = width(content.net, BOLD, net_size) if content.net else 0
        jar = JAR * base if content.opened else 0
        left = net_wide + (base * 0.6 if net_wide and jar else 0) + jar
        gap = base * 0.8 if left else 0
        room = box.wide - left - gap
        beside = Box(box.left + left + gap, 0, room, self._high)
        if not left:
            paras = tuple(replace(each, side=LEFT) for each in paras)
        made = flow(paras, beside, base, 0) if room > 4 * base else None
        if made is None:
            return None
        high = max(made.end, net_size * LEAD if content.net else 0, jar)
        if not high:
            return (), (), box.bottom
        top = box.bottom - high
        runs = [Run(r.x, r.y + top + high - made.end, r.text, r.font, r.size) for r in made.runs]
        if content.net:
            y = box.bottom - net_size * (LEAD - RISE)
            runs.append(Run(box.left, y, content.net, BOLD, net_size))
        line = top - base * 0.35
        shapes = [Shape("rule", box.left, line, box.wide, 0)]
        if content.opened:
            x = box.left + left - jar
            shapes.append(Shape("jar", x, box.bottom - jar, jar, jar, content.opened, base))
        return tuple(runs), tuple(shapes), line - base * 0.25

    def _beside(self, share: float, sizes: Sizes) -> tuple[Face, ...] | None:
        """Set the front at the left and the list at the right of one label."""
        inner = self._wide - 2 * self._quiet - GUTTER
        middle = self._quiet + inner * share
        left = self._box(self._quiet, middle)
        right = self._box(middle + GUTTER, self._wide - self._quiet)
        front = self._front(left, sizes)
        text = flow(self._body(), right, sizes.base, right.top)
        if front is None or text is None:
            return None
        x = middle + GUTTER / 2
        rule = Shape("rule", x, self._quiet, 0, self._high - 2 * self._quiet)
        return (Face((*front.runs, *text.runs), (*front.shapes, rule)),)

    def _front(self, box: Box, sizes: Sizes) -> Face | None:
        """Set name, logo, batch, open jar and net content down a narrow box."""
        content, base = self._content, sizes.base
        head = flow(self._head(), box, base, box.top)
        made = flow(self._made(), box, base, box.top)
        if head is None or made is None:
            return None
        net_size = max(base, sizes.net) if content.net else 0
        if content.net and width(content.net, BOLD, net_size) > box.wide:
            return None
        jar = JAR * base if content.opened else 0
        last = max(net_size * LEAD, jar)
        made_top = box.bottom - last - (0.4 * base if last else 0) - (made.end - box.top)
        room = made_top - head.end - base
        if room < 0:
            return None
        runs = [*head.runs, *_moved(made, made_top - box.top)]
        shapes: list[Shape] = []
        if content.net:
            y = box.bottom - net_size * (LEAD - RISE)
            runs.append(Run(box.left, y, content.net, BOLD, net_size))
        if content.opened:
            right = box.left + box.wide - jar
            if content.net and right < box.left + width(content.net, BOLD, net_size) + base / 2:
                return None
            shapes.append(Shape("jar", right, box.bottom - jar, jar, jar, content.opened, base))
        if content.studio.logo and room >= LOGO_LEAST:
            high = min(room - base * 0.5, LOGO_MOST)
            shapes.append(Shape("logo", box.left, head.end + base * 0.5, box.wide, high))
        return Face(tuple(runs), tuple(shapes))

    def _pair(self, sizes: Sizes) -> tuple[Face, ...] | None:
        """Set the front on one label, the list and the precautions on the next."""
        box = self._box(self._quiet, self._wide - self._quiet)
        foot = self._foot(box, sizes, self._made(RIGHT))
        front = self._column(box, sizes, (*self._head(), *self._who()), foot)
        back = flow((*self._list(), *self._care()), box, sizes.base, box.top)
        if front is None or back is None:
            return None
        return (*front, Face(back.runs))

    def panels(self, sizes: Sizes) -> int:
        """Return of how many panels of this size a fold-out would have to be; 0 where none will."""
        inner = (self._square() if self._sheet.is_round else self._high) - 2 * self._quiet
        wide = (self._square() if self._sheet.is_round else self._wide) - 2 * self._quiet
        tall = Box(0, 0, wide, inner * MOST_PANELS)
        net = (Para(((self._content.net, BOLD),), least=sizes.net),) if self._content.net else ()
        paras = (*self._head(), *self._body(), *self._made(), *net)
        text = flow(paras, tall, sizes.base, 0)
        return 0 if text is None else math.ceil(text.end / inner)

    def _square(self) -> float:
        # The side of the square that stands in the circle.
        return self._wide / math.sqrt(2)

    def _round(self, sizes: Sizes) -> tuple[Face, ...] | None:
        face = self._disc((*self._head(CENTRE), *self._body(CENTRE)), sizes, with_foot=True)
        return None if face is None else (face,)

    def _round_pair(self, sizes: Sizes) -> tuple[Face, ...] | None:
        front = self._disc((*self._head(CENTRE), *self._who(CENTRE)), sizes, with_foot=True)
        back = self._disc((*self._list(CENTRE), *self._care(CENTRE)), sizes, with_foot=False)
        return None if front is None or back is None else (front, back)

    def _disc(self, paras: tuple[Para, ...], sizes: Sizes, *, with_foot: bool) -> Face | None:
        """Set paragraphs inside a circle, as near its middle as they can stand."""
        content = self._content
        radius = self._wide / 2 - self._quiet
        disc = Disc(self._wide / 2, radius, self._quiet, self._high - self._quiet)
        if with_foot:
            paras = (*paras, *self._made(CENTRE))
            if content.opened_text:
                paras = (*paras, para(content.opened_text, side=CENTRE, before=0.1))
            if content.net:
                net = Para(((content.net, BOLD),), least=sizes.net, before=0.3, side=CENTRE)
                paras = (*paras, net)
        best: Flowed | None = None
        off = radius
        for step in range(TRIES):
            start = disc.top + step * radius / TRIES
            text = flow(paras, disc, sizes.base, start)
            if text is None:
                break
            first = text.runs[0].y if text.runs else start
            lean = abs((first - disc.top) - (disc.bottom - text.end))
            if lean < off:
                best, off = text, lean
        return None if best is None else Face(best.runs)


def _moved(text: Flowed, down: float) -> Iterator[Run]:
    for run in text.runs:
        yield Run(run.x, run.y + down, run.text, run.font, run.size)
