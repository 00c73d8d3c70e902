"""Before and after of a change in words and figures, as the text of one page."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator
from html import escape

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QRectF, Qt
from PySide6.QtGui import QImage, QPainter

from workbench.checks.assessment import Assessment, Figure
from workbench.checks.finding import Finding
from workbench.checks.swap_effect import FigureChange, SwapEffect
from workbench.formula.absent import Absent
from workbench.formula.difference import LineDifference
from workbench.formula.shelf import Shelf
from workbench.ui.places.desk.before_after import BeforeAfter, Cells
from workbench.ui.places.desk.figures_panel import PLACES, figure_text
from workbench.ui.theme import Theme
from workbench.ui.widgets.severity import SIDE, paint_severity
from workbench.words.catalogue import Words
from workbench.words.findings import named

_SHARP = 3  # pixels painted for each pixel shown, so that a shape is smooth on any screen
_NAME_LISTS = ("ingredients",)


class EffectText(BeforeAfter):
    """Write what a change does, with the names of the shelf that knows both sides."""

    def __init__(self, effect: SwapEffect, shelf: Shelf, words: Words, theme: Theme) -> None:
        """Take what differs, and how it is written."""
        super().__init__(words, theme)
        self._effect = effect
        self._shelf = shelf

    def lines(self) -> str:
        """Return the lines that differ, the total and the cost."""
        say, effect = self.words.say, self._effect
        rows = [self._line(line) for line in effect.difference.lines]
        before, after = effect.before.totals.percent, effect.after.totals.percent
        rows.append(
            Cells(
                say("effect-total"),
                self.percent(before),
                self.percent(after),
                "" if before == after else self.gain(after - before),
            )
        )
        rows.extend(self._cost())
        return self.table(say("effect-lines"), rows)

    def findings(self) -> str:
        """Return what is new, gone, reads otherwise and stays, each with shape and word."""
        effect, say = self._effect, self.words.say
        rows = [("new", found) for found in effect.new]
        rows += [("gone", found) for found in effect.gone]
        rows += [("moved", each.after) for each in effect.unchanged if each.reads_otherwise]
        rows += [("unchanged", each.after) for each in effect.unchanged if not each.reads_otherwise]
        heading = self.heading(say("effect-findings"))
        if not rows:
            return heading + self.quiet(say("effect-findings-none"))
        shapes = {found.severity.word: self._shape(found.severity.word) for _, found in rows}
        body = "".join(self._finding(state, found, shapes) for state, found in rows)
        return f'{heading}<table width="100%" cellspacing="0">{body}</table>'

    def figures(self) -> str:
        """Return the figures that differ."""
        say, effect = self.words.say, self._effect
        rows: list[Cells] = []
        for change in effect.figures:
            shown = change.after or change.before
            if shown is not None and not change.key.startswith("cost"):
                name = say(f"figure-{shown.key}", **dict(shown.values))
                before, after = self._figure(change.before), self._figure(change.after)
                if before != after:
                    rows.append(Cells(name, before, after, self._figure_by(change)))
        if not rows:
            return self.heading(say("effect-figures")) + self.quiet(say("effect-figures-none"))
        return self.table(say("effect-figures"), rows)

    def declaration(self) -> str:
        """Return the ingredient lists that differ, before and after."""
        say, effect = self.words.say, self._effect
        if not effect.declarations:
            heading = self.heading(say("effect-declarations"))
            return heading + self.quiet(say("effect-declaration-none"))
        parts: list[str] = []
        for change in effect.declarations:
            marked = {*change.added, *change.removed, *change.moved}
            parts.append(self.heading(say("effect-declaration", market=change.market)))
            for side, names in (("before", change.before), ("after", change.after)):
                listed = ", ".join(_marked(name, marked) for name in names)
                parts.append(f"<p><i>{escape(say(f'effect-{side}'))}:</i> {listed}</p>")
        return "".join(parts)

    def _line(self, line: LineDifference) -> Cells:
        before, after = line.before, line.after
        shown = after or before
        name = self._shelf.name(shown.ingredient) if shown is not None else ""
        is_other = before is not None and after is not None and "swapped" in line.kinds
        was = self._shelf.name(before.ingredient) if is_other and before is not None else ""
        return Cells(
            name,
            "" if line.percent is None else self.percent(line.percent),
            "" if line.to_percent is None else self.percent(line.to_percent),
            self.gain(line.by) if line.by else "",
            was,
        )

    def _cost(self) -> Iterator[Cells]:
        before, after = _costs(self._effect.before), _costs(self._effect.after)
        for key in dict.fromkeys((*after, *before)):
            was, now = before.get(key), after.get(key)
            shown = now or was
            if shown is not None:
                name = self.words.say(f"figure-{key}", **dict(shown.values))
                by = FigureChange(key, was, now).by
                gain = self.signed(by, self.words.number(abs(by), 2)) if by else ""
                yield Cells(name, self._figure(was), self._figure(now), gain)

    def _finding(self, state: str, found: Finding, shapes: dict[str, str]) -> str:
        say = self.words.say
        values = named(found.values, self._shelf)
        for name in _NAME_LISTS:
            value = values.get(name)
            if isinstance(value, tuple):
                values[name] = tuple(self._shelf.name(key) for key in value)
        severity = found.severity.word
        title = escape(say(found.code, **values))
        if state == "gone":
            title = f'<span style="color:{self.theme.palette.secondary}">{title}</span>'
        word = escape(say(f"effect-{state}"))
        is_strong = state in ("new", "gone")
        word = f"<b>{word}</b>" if is_strong else self.grey(word)
        return (
            f"<tr>{self.cell(shapes[severity])}"
            f"{self.cell(self.grey(escape(say(f'severity-{severity}'))))}"
            f"{self.cell(word)}{self.cell(title, is_wide=True)}</tr>"
        )

    def _figure_by(self, change: FigureChange) -> str:
        by = change.by
        if not by or change.after is None:
            return ""
        return self.signed(by, self.words.number(abs(by), PLACES.get(change.after.unit)))

    def _figure(self, figure: Figure | None) -> str:
        return "" if figure is None else figure_text(figure, self.words)

    def _shape(self, severity: str) -> str:
        side = self.theme.px(SIDE)
        return f'<img src="{severity_image(severity, self.theme)}" width="{side}" height="{side}">'


def severity_image(severity: str, theme: Theme) -> str:
    """Return the shape of a severity as an image that a text can hold."""
    side = theme.px(SIDE) * _SHARP
    image = QImage(side, side, QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    paint_severity(
        painter,
        QRectF(_SHARP, _SHARP, side - 2 * _SHARP, side - 2 * _SHARP),
        severity,
        theme.palette,
    )
    painter.end()
    held = QByteArray()
    buffer = QBuffer(held)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")  # type: ignore[call-overload]
    return f"data:image/png;base64,{b64encode(held.data()).decode()}"


def _marked(name: str, marked: set[str]) -> str:
    return f"<b><u>{escape(name)}</u></b>" if name in marked else escape(name)


def _costs(assessment: Assessment) -> dict[str, Figure]:
    """Return the cost figures by key; one that is not known is told below the figures."""
    found = (figure for figure in assessment.figures if figure.key.startswith("cost"))
    return {figure.key: figure for figure in found if not isinstance(figure.value, Absent)}
