"""Colours as data: one palette per scheme, read from the resources."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from pathlib import Path

Scheme = Literal["light", "dark"]

_HEX = re.compile(r"#[0-9A-F]{6}")


@dataclass(frozen=True, slots=True)
class Palette:
    """Hold the colours of one scheme as `#RRGGBB`.

    Grounds are paper, surface and wash. Ink, secondary, accent, stop, caution_text and note
    may be text on any of them; caution is for the triangle only. The last five are the hues of
    the phases in the mass column.
    """

    paper: str
    surface: str
    wash: str
    ink: str
    secondary: str
    rule: str
    accent: str
    on_accent: str
    stop: str
    caution: str
    caution_text: str
    note: str
    range_bar: str
    range_line: str
    band: str
    window_bar: str
    water: str
    oil: str
    cool_down: str
    adjust: str
    other: str

    def __post_init__(self) -> None:
        """Refuse what is not a colour."""
        for name, colour in self.colours().items():
            if not _HEX.fullmatch(colour):
                raise ValueError(f"{name}: {colour!r} is not a colour like #1E2A2E")

    def colours(self) -> dict[str, str]:
        """Return every colour by its name."""
        return {field.name: getattr(self, field.name) for field in fields(self)}

    def phase(self, kind: str) -> str:
        """Return the hue of a phase kind; an unknown kind is drawn as other."""
        return self.colours().get(kind.replace("-", "_"), self.other)

    def severity_text(self, severity: str) -> str:
        """Return the colour in which words about a finding of this severity are set."""
        return {"stop": self.stop, "caution": self.caution_text, "note": self.note}[severity]


def load_palette(scheme: Scheme, resources: Path) -> Palette:
    """Read the palette of a scheme from the resources folder."""
    text = (resources / "styles" / "palette.json").read_text(encoding="utf-8")
    return Palette(**json.loads(text)[scheme])


def tinted(colour: str, ground: str, share: float) -> str:
    """Return the colour laid over the ground with the given share (0 ground, 1 colour)."""
    pairs = zip(_channels(colour), _channels(ground), strict=True)
    mixed = (round(top * share + under * (1 - share)) for top, under in pairs)
    return "#" + "".join(f"{value:02X}" for value in mixed)


def _channels(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)
