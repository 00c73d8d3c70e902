"""Water held back for the adjuster."""

from __future__ import annotations

from decimal import Decimal

import pytest

from workbench.bench.hold_back import hold_back


def test_that_what_is_left_is_topped_up():
    # 825 g with 1.00 % held back are 8.25 g; 6.40 g were used.
    found = hold_back(Decimal(825), Decimal("1.00"), Decimal("6.40"))
    assert found.top_up_g == Decimal("1.85")
    assert found.scale == 1


def test_that_a_reserve_used_to_the_last_drop_leaves_nothing_to_do():
    found = hold_back(Decimal(500), Decimal(1), Decimal(5))
    assert (found.top_up_g, found.excess_g, found.scale) == (0, 0, 1)


def test_that_beyond_the_reserve_every_line_is_rescaled():
    # 1200 g with 1.5 % held back are 18 g; 24.6 g went in: 1200 / 1206.6.
    found = hold_back(Decimal(1200), Decimal("1.5"), Decimal("24.6"))
    assert found.top_up_g == 0
    assert found.excess_g == Decimal("6.6")
    assert float(found.scale) == pytest.approx(1200 / 1206.6)
