from __future__ import annotations

import json
from dataclasses import replace
from itertools import product

import pytest

from workbench.paths import resources
from workbench.ui.theme import load_palette
from workbench.ui.theme.palette import tinted

SCHEMES = ("light", "dark")
GROUNDS = ("paper", "surface", "wash")
TEXTS = ("ink", "secondary", "accent", "stop", "caution_text", "note")
SHAPES = ("stop", "caution", "note", "accent", "secondary")
PHASES = ("water", "oil", "cool_down", "adjust", "other")

# Pairs besides text on a ground: text on a filled button and selected text, and figures that
# stand on a bar of the instruments.
OTHER_TEXT = [
    ("on_accent", "accent"),
    ("ink", "range_bar"),
    ("ink", "band"),
    ("secondary", "band"),
    ("accent", "band"),
    ("ink", "window_bar"),
    ("ink", "rule"),
]
# The tick of a line on its range, which is a shape.
OTHER_SHAPES = [("ink", "range_bar"), ("stop", "range_bar"), ("accent", "window_bar")]


def contrast(first: str, second: str) -> float:
    """WCAG 2.2, definitions of "contrast ratio" and "relative luminance" (threshold 0.04045)."""

    def luminance(colour: str) -> float:
        shares = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        linear = [s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    lighter, darker = sorted((luminance(first), luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


@pytest.mark.parametrize(
    ("first", "second", "ratio"),
    # Black on white is 21 by definition; #767676 is WebAIM's well-known least grey on white.
    [("#000000", "#FFFFFF", 21.0), ("#FFFFFF", "#FFFFFF", 1.0), ("#767676", "#FFFFFF", 4.54)],
)
def test_that_contrast_is_measured_as_wcag_defines_it(first, second, ratio):
    assert contrast(first, second) == pytest.approx(ratio, abs=0.005)


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize(("text", "ground"), [*product(TEXTS, GROUNDS), *OTHER_TEXT])
def test_that_text_stands_out_from_its_ground(scheme, text, ground):
    palette = load_palette(scheme, resources())
    assert contrast(getattr(palette, text), getattr(palette, ground)) >= 4.5


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize(
    ("shape", "ground"),
    [*product(SHAPES, GROUNDS), *product(PHASES, ("paper", "surface")), *OTHER_SHAPES],
)
def test_that_shapes_stand_out_from_their_ground(scheme, shape, ground):
    palette = load_palette(scheme, resources())
    assert contrast(getattr(palette, shape), getattr(palette, ground)) >= 3.0


def test_that_no_light_text_is_paler_than_the_secondary_text():
    palette = load_palette("light", resources())
    for name in TEXTS:
        ratio = contrast(getattr(palette, name), palette.paper)
        assert ratio >= contrast(palette.secondary, palette.paper)


def test_that_both_schemes_hold_the_same_names():
    text = (resources() / "styles" / "palette.json").read_text(encoding="utf-8")
    schemes = json.loads(text)
    assert set(schemes) == set(SCHEMES)
    assert list(schemes["light"]) == list(schemes["dark"])


@pytest.mark.parametrize("wrong", ["1E2A2E", "#1e2a2e", "#FFF", "ink"])
def test_that_only_full_hex_colours_are_taken(wrong):
    with pytest.raises(ValueError, match="ink"):
        replace(load_palette("light", resources()), ink=wrong)


def test_that_every_phase_kind_of_a_document_has_a_hue():
    palette = load_palette("light", resources())
    hues = [palette.phase(kind) for kind in ("water", "oil", "cool-down", "adjust", "other")]
    assert len(set(hues)) == len(hues)
    assert palette.phase("unheard of") == palette.other


def test_that_words_about_a_caution_are_darker_than_its_triangle():
    palette = load_palette("light", resources())
    assert palette.severity_text("caution") == palette.caution_text != palette.caution
    with pytest.raises(KeyError):
        palette.severity_text("amber")


def test_that_a_tint_lies_between_colour_and_ground():
    assert tinted("#000000", "#FFFFFF", 0.0) == "#FFFFFF"
    assert tinted("#000000", "#FFFFFF", 1.0) == "#000000"
    assert tinted("#102030", "#304050", 0.5) == "#203040"
