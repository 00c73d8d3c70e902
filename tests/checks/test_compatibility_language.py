"""The language in which rules say when they speak."""

from __future__ import annotations

from decimal import Decimal

import pytest

from workbench.checks.compatibility_language import RuleError, read_condition, read_selector
from workbench.checks.compatibility_values import (
    Amount,
    Both,
    Clash,
    Either,
    Figure,
    Has,
    Opposite,
    Ph,
    PhUnknown,
    Product,
    Some,
    SpectrumLacks,
)

IRON = Clash("iron", read_selector("[lists iron]"), read_selector("[tag iron-source]"))
CLASHES = {"iron": IRON}


def read(text: str):
    return read_condition(text, CLASHES)


def test_that_and_binds_closer_than_or():
    found = read("ph < 4 or ph > 8 and water > 5")
    assert isinstance(found, Either)
    assert isinstance(found.parts[1], Both)


def test_that_brackets_group():
    found = read("(ph < 4 or ph > 8) and not water > 5")
    assert isinstance(found, Both)
    assert isinstance(found.parts[0], Either)
    assert isinstance(found.parts[1], Opposite)


def test_that_every_term_is_read():
    assert isinstance(read("has [key honey]"), Has)
    assert read("has [key honey] >= 2.5").least == Decimal("2.5")
    assert isinstance(read("total [tag soap] <= 1"), Amount)
    assert read("active [tag soap] > 1").is_active
    assert read("alcohol-in-water > 20") == Figure("alcohol-in-water", ">", Decimal(20))
    assert read("ph >= 5") == Ph(">=", Decimal(5))
    assert read("ph unknown") == PhUnknown()
    assert read("clash iron") is IRON
    assert read("area face, eye") == Product("area", frozenset({"face", "eye"}))
    assert read("spectrum-lacks mould, yeast") == SpectrumLacks(frozenset({"mould", "yeast"}))
    assert isinstance(read("too-hot [is heat-sensitive]"), Some)


def test_that_a_selector_joins_and_turns_round():
    found = read_selector("[charge anionic and (tag soap or not function clay, powder)]")
    assert found.field == "all"
    one, other = found.parts
    assert one.values == frozenset({"anionic"})
    assert [part.field for part in other.parts] == ["tag", "not"]
    assert other.parts[1].parts[0].values == frozenset({"clay", "powder"})


@pytest.mark.parametrize(
    ("text", "code", "word"),
    [
        ("", "rule-ends-early", ""),
        ("has [tag soap", "rule-ends-early", ""),
        ("has tag soap]", "rule-not-understood", "tag"),
        ("has [colour red]", "rule-field-unknown", "colour"),
        ("water > much", "rule-number-missing", "much"),
        ("ph 5", "rule-sign-missing", "5"),
        ("clash dragon", "rule-clash-unknown", "dragon"),
        ("is it good", "rule-not-understood", "is"),
        ("ph < 5 water > 5", "rule-not-understood", "water"),
        ("ph < 5 and", "rule-ends-early", ""),
        ("ph < 5 ! water", "rule-not-understood", "!"),
        ("has [key , honey]", "rule-not-understood", ","),
    ],
)
def test_that_what_is_not_the_language_is_refused_at_its_word(text, code, word):
    with pytest.raises(RuleError) as refused:
        read(text)
    assert (refused.value.code, refused.value.word) == (code, word)
