from __future__ import annotations

import csv
import re
from collections import defaultdict
from functools import cache
from pathlib import Path

import pytest

REFERENCE = Path(__file__).resolve().parents[2] / "resources" / "reference"


@cache
def rows(table: str) -> tuple[dict[str, str], ...]:
    with (REFERENCE / table).open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))


def numbers(table: str, column: str) -> list[str]:
    return [number for row in rows(table) for number in row[column].split(";") if number]


def is_cas(number: str) -> bool:
    """Apply the rule CAS publishes: digits from the right, times 1, 2, 3 …, modulo 10."""
    found = re.fullmatch(r"([1-9]\d{1,6})-(\d\d)-(\d)", number)
    if not found:
        return False
    digits = reversed(found[1] + found[2])
    return sum(n * int(digit) for n, digit in enumerate(digits, 1)) % 10 == int(found[3])


def is_ec(number: str) -> bool:
    """Apply the rule of the EC inventory: six digits times 1 to 6, modulo 11."""
    found = re.fullmatch(r"(\d{3})-(\d{3})-(\d)", number)
    if not found:
        return False
    return sum(n * int(digit) for n, digit in enumerate(found[1] + found[2], 1)) % 11 == int(
        found[3]
    )


# Water, as CAS and the EC inventory print it, and the same with one digit off or two swapped.
@pytest.mark.parametrize(
    ("number", "right"),
    [
        ("7732-18-5", True),
        ("7732-18-4", False),
        ("7723-18-5", False),
        ("7732185", False),
        ("7732-18-5 ", False),
    ],
)
def test_that_the_cas_rule_tells_a_slip(number, right):
    assert is_cas(number) is right


@pytest.mark.parametrize(
    ("number", "right"), [("231-791-2", True), ("231-791-3", False), ("231-719-2", False)]
)
def test_that_the_ec_rule_tells_a_slip(number, right):
    assert is_ec(number) is right


@pytest.mark.parametrize(
    ("table", "count"),
    [
        ("substances.csv", 889),
        ("ingredients.csv", 578),
        ("limits.csv", 769),
        ("allergens.csv", 174),
        ("acids_bases.csv", 64),
        ("salts.csv", 55),
    ],
)
def test_that_every_cas_number_has_its_check_digit(table, count):
    found = numbers(table, "cas")
    assert len(found) == count
    assert [number for number in found if not is_cas(number)] == []


def test_that_every_ec_number_has_its_check_digit():
    found = numbers("ingredients.csv", "ec_number")
    assert len(found) == 414
    assert [number for number in found if not is_ec(number)] == []


def test_that_the_numbers_of_an_ingredient_belong_to_what_it_holds():
    of_substance = {row["key"]: set(row["cas"].split(";")) for row in rows("substances.csv")}
    held: defaultdict[str, set[str]] = defaultdict(set)
    for row in rows("composition_long.csv"):
        held[row["ingredient_key"]] |= of_substance[row["substance_key"]]
    # The reaction mass of two isothiazolinones has a number of its own; the hydrates also
    # carry the number of the dry salt.
    known = {"mci_mi": {"55965-84-9"}}
    for hydrate, dry in (
        ("sodium_citrate", "trisodium_citrate"),
        ("magnesium_sulfate", "magnesium_sulfate"),
        ("disodium_edta", "disodium_edta"),
    ):
        known[hydrate] = of_substance[dry]
    strangers = {
        row["key"]: more
        for row in rows("ingredients.csv")
        if (
            more := set(row["cas"].split(";"))
            - {""}
            - held[row["key"]]
            - known.get(row["key"], set())
        )
    }
    assert strangers == {}
