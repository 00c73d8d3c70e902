from __future__ import annotations

import pytest

from tests.ui.shelf.shelf_parts import make_shelf


@pytest.fixture
def shelf(qtbot, tmp_path):
    """The Shelf of a studio, shown."""
    parts, place = make_shelf(tmp_path)
    qtbot.addWidget(place)
    place.resize(1280, 760)
    place.show()
    yield place
    parts.work.studio.close()


@pytest.fixture
def studio(shelf):
    """The studio the Shelf shows."""
    return shelf._work.studio
