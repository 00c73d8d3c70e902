from __future__ import annotations

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter

from workbench.paths import resources
from workbench.ui.theme import Theme, load_palette
from workbench.ui.widgets.marks import paint_lock, paint_takes_rest
from workbench.ui.widgets.severity import SeverityMark, paint_severity

PALETTE = load_palette("light", resources())
SIDE = 100


def painted(paint) -> QImage:
    image = QImage(SIDE, SIDE, QImage.Format.Format_ARGB32)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    try:
        paint(painter, QRectF(0, 0, SIDE, SIDE))
    finally:
        painter.end()
    return image


def severity(name: str) -> QImage:
    return painted(lambda painter, rect: paint_severity(painter, rect, name, PALETTE))


def is_inked(image: QImage, x: int, y: int) -> bool:
    return image.pixelColor(x, y).alpha() > 127


def share(image: QImage) -> float:
    inked = sum(is_inked(image, x, y) for x in range(SIDE) for y in range(SIDE))
    return inked / SIDE**2


def test_that_a_stop_is_a_regular_octagon():
    image = severity("stop")
    # A regular octagon fills 2(sqrt 2 - 1) = 0.828 of its square.
    assert share(image) == pytest.approx(0.828, abs=0.01)
    assert not any(is_inked(image, x, y) for x in (5, 94) for y in (5, 94))
    assert all(is_inked(image, x, y) for x, y in ((50, 2), (50, 97), (2, 50), (97, 50)))


def test_that_a_caution_is_a_triangle_that_stands_on_its_side():
    image = severity("caution")
    assert is_inked(image, 50, 50)
    assert is_inked(image, 10, 90)
    assert is_inked(image, 90, 90)
    assert not is_inked(image, 10, 20)
    assert not is_inked(image, 90, 20)


def test_that_a_note_is_a_ring():
    image = severity("note")
    assert not is_inked(image, 50, 50)
    assert is_inked(image, 10, 50)
    assert is_inked(image, 50, 90)


def test_that_shapes_differ_without_their_colour():
    shapes = [severity(name).createAlphaMask() for name in ("stop", "caution", "note")]
    assert shapes[0] != shapes[1] != shapes[2] != shapes[0]


@pytest.mark.parametrize(
    ("name", "at", "colour"),
    [
        ("stop", (50, 50), PALETTE.stop),
        ("caution", (50, 60), PALETTE.caution),
        ("note", (10, 50), PALETTE.note),
    ],
)
def test_that_each_shape_has_its_colour(name, at, colour):
    assert severity(name).pixelColor(*at) == QColor(colour)


def test_that_an_unknown_severity_is_refused():
    with pytest.raises(ValueError, match="amber"):
        severity("amber")


def test_that_a_shape_stays_inside_and_in_the_middle_of_a_long_rectangle():
    image = painted(
        lambda painter, _rect: paint_severity(painter, QRectF(20, 40, 60, 20), "stop", PALETTE)
    )
    inked = [(x, y) for x in range(SIDE) for y in range(SIDE) if is_inked(image, x, y)]
    assert min(x for x, _y in inked) >= 39
    assert max(x for x, _y in inked) <= 60
    assert min(y for _x, y in inked) >= 40
    assert max(y for _x, y in inked) <= 60


@pytest.mark.parametrize("paint", [paint_lock, paint_takes_rest])
def test_that_a_mark_is_painted_in_its_colour_and_leaves_the_painter_as_it_was(paint):
    def with_pen(painter: QPainter, rect: QRectF) -> None:
        before = painter.pen(), painter.brush()
        paint(painter, rect, PALETTE.secondary)
        assert (painter.pen(), painter.brush()) == before

    image = painted(with_pen)
    assert 0.1 < share(image) < 0.6
    assert any(
        image.pixelColor(x, y) == QColor(PALETTE.secondary) for x in range(SIDE) for y in (60, 92)
    )


def test_that_a_shape_in_the_window_is_read_out_by_its_word(qtbot):
    mark = SeverityMark("stop", "Stop", Theme(PALETTE, "Lato"))
    qtbot.addWidget(mark)
    mark.show()
    assert mark.accessibleName() == "Stop"
    assert mark.grab().toImage().pixelColor(8, 8) == QColor(PALETTE.stop)
    mark.set_theme(Theme(load_palette("dark", resources()), "Lato", 2.0))
    assert mark.sizeHint().width() == 30
