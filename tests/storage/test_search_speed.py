from __future__ import annotations

import shutil
import time

import pytest

from workbench.storage.opening import create_studio, open_studio
from workbench.storage.search_benchmark import (
    INGREDIENTS,
    fill_with_invented,
    invented_ingredients,
    time_search,
)


def test_that_invented_ingredients_are_the_same_each_time():
    assert list(invented_ingredients(50)) == list(invented_ingredients(50))
    assert len({item.key for item in invented_ingredients(50)}) == 50


@pytest.mark.speed
def test_that_a_keystroke_at_fifty_thousand_ingredients_takes_no_more_than_10_ms(
    new_studio_file, tmp_path
):
    path = shutil.copy(new_studio_file, tmp_path / "large.studio")
    fill_with_invented(path)
    times = time_search(path)
    studio = open_studio(path)
    assert len(studio.ingredients.names()) == INGREDIENTS + 405
    studio.close()
    assert times.p95_ms <= 10, times


@pytest.mark.speed
def test_that_a_new_studio_is_filled_within_2_s(tmp_path):
    start = time.perf_counter()
    create_studio(tmp_path / "new.studio").close()
    assert time.perf_counter() - start <= 2
