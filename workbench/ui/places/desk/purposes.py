"""What a line can be there for, found as the maker types."""

from __future__ import annotations

from workbench.ui.editors.name_editor import Choice
from workbench.words.catalogue import Words

OWN = ""
"""Stands for the ingredient's own purpose."""
PURPOSES = (
    "water",
    "solvent",
    "humectant",
    "electrolyte",
    "emollient-oil",
    "emollient-ester",
    "butter",
    "wax",
    "occlusive",
    "silicone",
    "silicone-alternative",
    "emulsifier-oil-in-water",
    "emulsifier-water-in-oil",
    "co-emulsifier",
    "solubiliser",
    "surfactant-anionic",
    "surfactant-nonionic",
    "surfactant-amphoteric",
    "surfactant-cationic",
    "foam-booster",
    "conditioning",
    "thickener-gum",
    "thickener-polymer",
    "thickener-fatty",
    "thickener-mineral",
    "stabiliser",
    "film-former",
    "preservative",
    "preservative-booster",
    "chelator",
    "antioxidant",
    "ph-adjuster-acid",
    "ph-adjuster-base",
    "buffer",
    "active",
    "vitamin",
    "protein",
    "amino-acid",
    "skin-protectant",
    "cooling-agent",
    "astringent",
    "exfoliant-aha",
    "exfoliant-bha",
    "exfoliant-pha",
    "exfoliant-enzyme",
    "exfoliant-physical",
    "botanical-extract",
    "hydrosol",
    "clay",
    "colourant",
    "pearlescent",
    "opacifier",
    "powder",
    "absorbent",
    "uv-filter",
    "fragrance",
    "essential-oil",
    "sweetener-taste",
)


def purposes_like(typed: str, words: Words, most: int) -> tuple[Choice, ...]:
    """Return the purposes a typed text can mean, those that begin with it first."""
    asked = typed.strip().casefold()
    own = Choice(OWN, words.say("sheet-purpose-own"), "")
    named = [Choice(one, words.say(f"function-{one}"), _beside(one)) for one in PURPOSES]
    starting = [one for one in named if one.name.casefold().startswith(asked)]
    holding = [
        one for one in named if asked in f"{one.name} {one.key}".casefold() and one not in starting
    ]
    return (*starting, *holding, own)[:most] if asked else (own, *named)[:most]


def _beside(purpose: str) -> str:
    """Return the longer key of purposes that share a word, so that they can be told apart."""
    return purpose.replace("-", " ")
