from __future__ import annotations

import pytest

from tests.ui.desk.panels import make_parts


@pytest.fixture
def parts(qtbot, tmp_path):
    """A studio of a few formulas, and the work on its lotion, which is open."""
    made = make_parts(tmp_path)
    made.work.open(made.lotion)
    yield made
    made.work.studio.close()
