"""Sheets of labels in millimetres, heights of type, and dates on a label."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from workbench import paths
from workbench.bench.label_sheets import goes_around, net_rule, text_rule
from workbench.bench.label_wants import SALE_EU, SALE_US, LabelOrder, Material
from workbench.storage.reference.label_sheets import load_label_tables

TABLES = load_label_tables(paths.resources() / "reference")
D = Decimal


@pytest.mark.parametrize("sheet", TABLES.sheets, ids=lambda sheet: sheet.key)
def test_that_a_preset_has_the_same_edge_at_both_sides(sheet):
    # The right and lower edges that are left over, by addition from the table.
    left, top = sheet.corner(sheet.count - 1)
    assert abs(sheet.page_w - (left + sheet.cell_w) - sheet.left) <= D("0.15")
    assert abs(sheet.page_h - (top + sheet.cell_h) - sheet.top) <= D("0.15")


def test_that_sixty_five_labels_are_counted_along_the_rows():
    sheet = TABLES.sheet("38.1x21.2")
    assert sheet.count == 65
    assert sheet.corner(0) == (D("4.75"), D("10.7"))
    assert sheet.corner(1) == (D("45.35"), D("10.7"))
    assert sheet.corner(5) == (D("4.75"), D("31.9"))
    assert sheet.corner(64) == (D("167.15"), D("265.1"))


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"cell_w": D(60)}, "too-wide"),
        ({"rows": 20}, "too-high"),
        ({"columns": 0}, "not-positive"),
        ({"gap_x": D(-1)}, "not-positive"),
        ({"shape": "round"}, "not-round"),
    ],
)
def test_that_a_geometry_that_makes_no_sense_is_named(change, fault):
    sheet = replace(TABLES.sheet("38.1x21.2"), **change)
    assert fault in sheet.faults()


def test_that_the_net_content_of_the_eu_is_2_3_4_and_6_mm_high():
    # Dir. 76/211/EEC Annex I 3.1 (from memory): up to 50, 200, 1000 and over, in g or ml.
    found = [
        net_rule(TABLES.heights, SALE_EU, D(content), D(20)).least_mm
        for content in ("50", "51", "200", "201", "1000", "1001")
    ]
    assert found == [2, 3, 3, 4, 4, 6]


def test_that_the_net_content_of_the_us_goes_by_the_front_panel():
    # 21 CFR 701.13(i) (from memory): up to 5, 25 and 100 square inches: 1/16, 1/8, 3/16 inch.
    square_inch = D("6.4516")
    found = [
        net_rule(TABLES.heights, SALE_US, D(50), square_inch * panel).least_mm / D("25.4")
        for panel in (5, 25, 100, 101)
    ]
    assert found == [D("0.0625"), D("0.125"), D("0.1875"), D("0.25")]


def test_that_only_a_pack_known_to_be_small_may_have_lower_letters():
    # Reg. (EU) 1169/2011 Art. 13(2)-(3): 1.2 mm, and 0.9 mm under 80 cm2.
    found = [
        text_rule(TABLES.heights, SALE_EU, surface).least_mm for surface in (None, D(80), D(79))
    ]
    assert found == [D("1.2"), D("1.2"), D("0.9")]


@pytest.mark.parametrize(
    ("months", "expected"), [(18, (2028, 4)), (1, (2026, 11)), (30, (2029, 4)), (31, None)]
)
def test_that_a_best_before_month_never_ends_after_the_product(months, expected):
    # Made on 20 November 2026; Art. 19(1)(c): a date up to 30 months, none over.
    order = LabelOrder(made_on=date(2026, 11, 20), lasts_months=months)
    assert order.best_before == expected


def test_that_a_label_leaves_a_seam_around_the_bottle():
    # pi times 30 mm less 3 mm is 91.2 mm
    assert goes_around(D("91.2"), D(30))
    assert not goes_around(D("91.3"), D(30))


@pytest.mark.parametrize(
    ("stuff", "ink", "expected"),
    [
        ("film", "pigment", "water-and-oil"),
        ("film", "dye", "neither"),
        ("paper", "laser", "neither"),
        ("laminated-paper", "laser", "water-if-sealed"),
    ],
)
def test_that_material_and_print_decide_what_a_label_withstands(stuff, ink, expected):
    # Common practice: film outlasts paper, dye runs, laminate creeps at the cut edge.
    assert Material(stuff, ink).withstands == expected
