from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from tests.ui.desk.panels import theme
from workbench.ui.widgets.curve import Curve, CurvePlot, Point, Wording

CURVE = Curve(
    (Point(0, 5.9, 6.0, 6.1), Point(10, 3.9, 4.0, 4.1), Point(20, 2.9, 3.0, 3.1)), (4.5, 5.5)
)


@pytest.fixture
def plot(qtbot):
    wording = Wording(str, str, lambda point: f"{point.x:g}: {point.middle:g}")
    shown = CurvePlot("Titration", theme(), wording)
    qtbot.addWidget(shown)
    shown.resize(320, 190)
    shown.show()
    shown.show_curve(CURVE, 5)
    return shown


def test_that_a_curve_is_read_between_its_points():
    assert CURVE.at(5) == Point(5, 4.9, 5.0, 5.1)
    assert CURVE.at(-1).middle == 6.0
    assert CURVE.at(99).middle == 3.0


def test_that_the_cursor_begins_where_it_is_asked(plot):
    assert plot.reading == "5: 5"
    assert plot.accessibleDescription() == "5: 5"


def test_that_the_keys_move_the_cursor_along_the_curve(plot, qtbot):
    said: list[str] = []
    plot.moved.connect(said.append)
    qtbot.keyClick(plot, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert said == ["7: 4.6"]
    qtbot.keyClick(plot, Qt.Key.Key_Left)
    assert said[-1] == "6.8: 4.64"


def test_that_the_cursor_stays_on_the_curve(plot, qtbot):
    for _ in range(12):
        qtbot.keyClick(plot, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert plot.reading == "20: 3"


def test_that_the_pointer_reads_the_curve(plot, qtbot):
    area = plot._area()
    qtbot.mouseMove(plot, area.center().toPoint())
    assert plot.reading.startswith(("10", "9.9"))


def test_that_the_least_ph_is_at_the_top_as_on_the_ladder(plot):
    assert plot._at(0, 3.0).y() < plot._at(0, 6.0).y()
    assert plot._at(0, 3.0).y() >= plot._area().top()
