"""Documents that are wrong in one way each, and what the sentence about each has to name."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from typing import Any

GOOD: dict[str, Any] = {
    "format": "formulation-workbench/formula",
    "format_version": 1,
    "name": "Oat gel",
    "product_type": "gel",
    "markets": ["EU"],
    "target_ph": ["5.0", "5.6"],
    "plan": {"batch_mass": "500 g"},
    "phases": [
        {
            "name": "Water phase",
            "kind": "water",
            "steps": [{"text": "Heat and hold", "target_c": "75", "hold_min": "20"}],
            "lines": [
                {"ingredient": "water", "percent": "rest"},
                {"ingredient": "glycerin", "percent": "4.00"},
                {"ingredient": "own_gum", "percent": "1.00"},
                {"ingredient": "gum_stock", "percent": "10.00"},
            ],
        }
    ],
    "ingredients": [
        {"key": "own_gum", "name": "Gum", "composition": {"Aqua": "0.9", "Xanthan Gum": "0.1"}}
    ],
    "stocks": [
        {
            "key": "gum_stock",
            "name": "Gum stock",
            "phases": [
                {
                    "name": "Stock",
                    "lines": [
                        {"ingredient": "water", "percent": "rest"},
                        {"ingredient": "xanthan_gum", "percent": "1.00"},
                    ],
                }
            ],
        }
    ],
}

Place = tuple[str | int, ...]
LINE: Place = ("phases", 0, "lines", 1)


def text_of(data: object) -> bytes:
    """Return data as the bytes of a document."""
    return json.dumps(data, ensure_ascii=False).encode("utf-8")


def put(place: Place, value: object) -> bytes:
    """Return the good document with another value in one place."""
    return changed(place, lambda owner, name: owner.__setitem__(name, value))


def without(place: Place) -> bytes:
    """Return the good document without one place."""
    return changed(place, lambda owner, name: owner.__delitem__(name))


def changed(place: Place, change: Callable[[Any, Any], None]) -> bytes:
    """Return the good document after a change to what holds a place."""
    data = copy.deepcopy(GOOD)
    owner: Any = data
    for step in place[:-1]:
        owner = owner[step]
    change(owner, place[-1])
    return text_of(data)


def raw(place: Place, literal: str) -> bytes:
    """Return the good document with a literal that JSON text may not hold, in one place."""
    return put(place, "@@").replace(b'"@@"', literal.encode())


def twice(place: Place) -> bytes:
    """Return the good document with the first object of a list given twice."""
    return changed(place, lambda owner, name: owner[name].append(copy.deepcopy(owner[name][0])))


def _stock_in_stock() -> bytes:
    data = copy.deepcopy(GOOD)
    stock = data["stocks"][0]
    other = {**copy.deepcopy(stock), "key": "other_stock", "name": "Other stock"}
    stock["phases"][0]["lines"][1]["ingredient"] = "other_stock"
    other["phases"][0]["lines"][1]["ingredient"] = "gum_stock"
    data["stocks"].append(other)
    return text_of(data)


PERCENT = (*LINE, "percent")
# What the sentence names: the place as a maker counts, and the value or the rule.
MALFORMED: dict[str, tuple[bytes, tuple[str, ...]]] = {
    "empty file": (b"", ("empty",)),
    "only blanks": (b" \n\t", ("empty",)),
    "ten megabytes": (b" " * 10_000_000, ("5",)),
    "binary": (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", ()),
    "utf-16": ("{}".encode("utf-16"), ("UTF-8",)),
    "latin-1": (b'{"name": "Cr\xe8me"}', ("UTF-8", "line 1")),
    "not json": (b'{"format": \n oops}', ("line 2",)),
    "cut off": (text_of(GOOD)[:200], ("line 1",)),
    "a list": (b"[]", ()),
    "deep nesting": (b"[" * 100_000, ("brackets",)),
    "deep object": (b'{"name":' + b"[" * 60 + b"]" * 60 + b"}", ("brackets",)),
    "duplicate name": (b'{"name": "a",\n "name": "b"}', ("'name'", "line 2")),
    "not a number": (raw(PERCENT, "NaN"), ("NaN",)),
    "infinity": (raw(PERCENT, "-Infinity"), ("Infinity",)),
    "forty-one digits": (raw(PERCENT, "1" * 41), ("41",)),
    "half a character": (put(("name",), "@@").replace(b"@@", b"ab\\ud800"), ("ab",)),
    "no format": (without(("format",)), ("format",)),
    "foreign format": (put(("format",), "other/recipe"), ("formulation-workbench/formula",)),
    "newer version": (put(("format_version",), 2), ("format 2",)),
    "version as text": (put(("format_version",), "1"), ("format_version",)),
    "version nought": (put(("format_version",), 0), ("format_version",)),
    "no phases": (without(("phases",)), ("phases",)),
    "no name": (without(("name",)), ("name",)),
    "empty phases": (put(("phases",), []), ("phases", "1")),
    "phases as text": (put(("phases",), "water"), ("phases", "list")),
    "phase without lines": (without(("phases", 0, "lines")), ("phase 1", "lines")),
    "blank name": (put(("name",), "  "), ("name", "blank")),
    "name too long": (put(("name",), "x" * 201), ("name", "200")),
    "control character": (put(("name",), "Oat\u0007 gel"), ("name", "control")),
    "unknown field": (put(("colour",), "blue"), ("'colour'",)),
    "terminal commands": (put(("col\u001b[2Jour",), "blue"), ("col[2Jour",)),
    "terminal commands in a number": (put(PERCENT, "\u001b[2J"), ("line 2, percent",)),
    "unknown field of a line": (put((*LINE, "grams"), "4"), ("line 2", "'grams'")),
    "line without percent": (without(PERCENT), ("phase 1, line 2", "percent")),
    "line without ingredient": (without((*LINE, "ingredient")), ("line 2", "ingredient")),
    "blank ingredient": (put((*LINE, "ingredient"), " "), ("line 2, ingredient", "blank")),
    "percent of letters": (put(PERCENT, "abc"), ("phase 1, line 2, percent", "'abc'")),
    "percent as a list": (put(PERCENT, ["4"]), ("phase 1, line 2, percent", "number")),
    "percent as yes": (put(PERCENT, True), ("phase 1, line 2, percent", "number")),
    "percent null": (put(PERCENT, None), ("phase 1, line 2, percent", "number")),
    "percent with a comma": (put(PERCENT, "4,0"), ("line 2, percent", "4,0", "4.5")),
    "percent NaN in text": (put(PERCENT, "NaN"), ("line 2, percent", "'NaN'")),
    "percent 1e400": (raw(PERCENT, "1e400"), ("line 2, percent", "100")),
    "percent 1e400 in text": (put(PERCENT, "1e400"), ("line 2, percent", "100")),
    "percent of a tiny power": (put(PERCENT, "1e-400"), ("line 2, percent", "decimals")),
    "percent of a vast power": (put(PERCENT, "1e-999999999"), ("line 2, percent", "decimals")),
    "percent of a vast number": (raw(PERCENT, "1e-99999999999"), ("line 2, percent",)),
    "percent with a bar": (put(PERCENT, "4_0"), ("line 2, percent", "'4_0'")),
    "percent that never ends": (put(PERCENT, "9" * 31), ("line 2, percent", "30 characters")),
    "negative percent": (put(PERCENT, "-4.00"), ("line 2, percent", "-4.00")),
    "percent over 100": (put(PERCENT, "100.5"), ("line 2, percent", "100.5", "100")),
    "five decimals": (put(PERCENT, "4.00001"), ("line 2, percent", "four decimals")),
    "two rest lines": (put(PERCENT, "rest"), ("line 2", "rest")),
    "locked rest line": (put(("phases", 0, "lines", 0, "locked"), True), ("line 1", "rest")),
    "locked as text": (put((*LINE, "locked"), "yes"), ("line 2, locked",)),
    "target reversed": (
        put(("target_ph",), ["5.6", "5.0"]),
        ("target_ph", "5.6", "lower goes first"),
    ),
    "target of one": (put(("target_ph",), ["5.6"]), ("target_ph", "2")),
    "target beyond 14": (put(("target_ph",), ["5", "15"]), ("target_ph", "15", "14")),
    "ambiguous mass": (put(("plan", "batch_mass"), "1,234 g"), ("batch_mass", "1,234 g")),
    "volume for a mass": (put(("plan", "batch_mass"), "500 ml"), ("batch_mass", "500 ml")),
    "mass for a volume": (put(("plan", "fill"), "50 g"), ("plan, fill", "50 g")),
    "mass of nothing": (put(("plan", "batch_mass"), "0 g"), ("batch_mass", "0 g")),
    "negative mass": (put(("plan", "batch_mass"), "-5 g"), ("batch_mass", "-5 g")),
    "mass as a number": (put(("plan", "batch_mass"), 500), ("batch_mass", "text")),
    "mass twice": (put(("batch_mass",), "500 g"), ("batch_mass", "twice")),
    "half a unit": (put(("plan", "units"), 1.5), ("plan, units", "whole number")),
    "no units": (put(("plan", "units"), 0), ("plan, units", "1")),
    "all held up": (put(("plan", "hold_up_percent"), "100"), ("hold_up_percent", "100")),
    "strange product": (put(("product_type",), "soup"), ("product_type", "lotion")),
    "strange market": (put(("markets",), ["MARS"]), ("market", "EU, UK, US")),
    "no market": (put(("markets",), []), ("markets", "1")),
    "market twice": (put(("markets",), ["EU", "EU"]), ("markets", "twice")),
    "strange kind": (put(("phases", 0, "kind"), "gas"), ("phase 1, kind", "water")),
    "step without text": (without(("phases", 0, "steps", 0, "text")), ("step 1", "text")),
    "heat of letters": (
        put(("phases", 0, "steps", 0, "target_c"), "hot"),
        ("phase 1, step 1, target_c", "'hot'"),
    ),
    "units beyond counting": (put(("plan", "units"), 100_001), ("plan, units", "100,000")),
    "many unknown fields": (text_of(GOOD | {f"x{n}": 1 for n in range(9)}), ("'x2' …",)),
    "too many phases": (put(("phases",), GOOD["phases"] * 51), ("phases", "50 entries")),
    "colder than can be": (
        put(("phases", 0, "steps", 0, "target_c"), "-300"),
        ("phase 1, step 1, target_c", "-300"),
    ),
    "composition short": (
        put(("ingredients", 0, "composition", "Aqua"), "0.8"),
        ("ingredient 1, composition", "0.9"),
    ),
    "empty composition": (put(("ingredients", 0, "composition"), {}), ("composition",)),
    "negative part": (
        put(("ingredients", 0, "composition", "Aqua"), "-0.1"),
        ("ingredient 1, composition, Aqua", "-0.1"),
    ),
    "ingredient key twice": (twice(("ingredients",)), ("ingredient 2", "'own_gum'")),
    "ingredient without key": (without(("ingredients", 0, "key")), ("ingredient 1", "key")),
    "use range reversed": (
        put(("ingredients", 0, "use_percent"), ["2", "1"]),
        ("ingredient 1, use_percent",),
    ),
    "stock key twice": (twice(("stocks",)), ("stock 2", "'gum_stock'")),
    "stock of itself": (
        put(("stocks", 0, "phases", 0, "lines", 1, "ingredient"), "gum_stock"),
        ("stock 1", "Gum stock"),
    ),
    "stocks in a circle": (_stock_in_stock(), ("stock 1", "Gum stock", "Other stock")),
    "stock with two rest lines": (
        put(("stocks", 0, "phases", 0, "lines", 1, "percent"), "rest"),
        ("stock 1, phase 1, line 2", "rest"),
    ),
}
