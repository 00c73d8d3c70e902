from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics

from tests.ui.desk.panels import theme
from workbench.ui.theme import Role
from workbench.ui.widgets.ph_ladder import Kind, Ladder, PhLadder, Rung, _in_two

RUNGS = (
    Rung(Kind.TARGET, "target", 5.0, 5.6, "Target: pH 5 to 5.6."),
    Rung(Kind.WINDOW, "benzoate", 3.0, 5.0, "Preservative benzoate: pH 3 to 5."),
    Rung(Kind.WINDOW, "gum", 3.0, None, "Thickener gum: from pH 3."),
    Rung(Kind.ESTIMATE, "estimate", 5.1, 5.5, "Estimated 5.1 to 5.5.", mark=5.3),
)


@pytest.fixture
def ladder(qtbot):
    shown = PhLadder("pH ladder", theme())
    qtbot.addWidget(shown)
    shown.resize(320, 232)
    shown.show()
    qtbot.waitExposed(shown)
    shown.show_ladder(Ladder(RUNGS, (5.0, 5.0)))
    return shown


def colour_at(shown, ph: float, place: int) -> str:
    spot = shown._column(place).center()
    return shown.grab().toImage().pixelColor(round(spot.x()), round(shown._y(ph))).name()


def test_that_everything_painted_is_also_said(ladder):
    for rung in RUNGS:
        assert rung.sentence in ladder.accessibleDescription()


def test_that_left_and_right_read_one_window_after_the_other(ladder, qtbot):
    said: list[str] = []
    ladder.chosen.connect(said.append)
    ladder.setFocus()
    for _ in range(5):
        qtbot.keyClick(ladder, Qt.Key.Key_Right)
    assert said[-1] == RUNGS[-1].sentence
    qtbot.keyClick(ladder, Qt.Key.Key_Left)
    assert said[-1] == RUNGS[-2].sentence


def test_that_a_window_is_painted_where_it_lies(ladder):
    window = theme().palette.window_bar.lower()
    assert colour_at(ladder, 4.0, 1) == window
    assert colour_at(ladder, 5.5, 1) != window
    assert colour_at(ladder, 6.5, 2) == window  # open upwards: goes on to the end of the axis


def test_that_a_wider_window_widens_the_axis(ladder):
    ladder.show_ladder(Ladder((Rung(Kind.WINDOW, "soap", 9.0, 11.0, "Soap."),)))
    low, high = ladder._ends
    assert low < 9
    assert high > 11


def test_that_the_ladder_takes_the_scale_of_the_theme(ladder):
    before = ladder.sizeHint().height()
    ladder.set_theme(theme("dark", 2.0))
    assert ladder.sizeHint().height() == 2 * before


def test_that_an_empty_ladder_paints_without_windows(ladder):
    ladder.show_ladder(Ladder())
    assert not ladder.grab().isNull()
    assert ladder.accessibleDescription() == ""


def test_that_the_sentence_of_the_window_under_the_pointer_is_told(ladder):
    place = round(ladder._column(1).center().x())
    assert ladder.sentence_at(place) == RUNGS[1].sentence
    assert ladder.sentence_at(0) == ""


def test_that_a_long_name_stands_upright_in_two_lines_and_whole(ladder):
    name = "Sodium hydroxide pellets"
    ladder.show_ladder(Ladder(tuple(Rung(Kind.WINDOW, name, 3.0, 5.0, name) for _ in range(7))))
    metrics = QFontMetrics(theme().font(Role.SMALL))
    lines = _in_two(name, metrics, ladder._label_room())
    room = ladder._label_room() - theme().px(4)
    assert all(metrics.horizontalAdvance(line) <= room for line in lines)
    assert " ".join(lines) == name
