from __future__ import annotations

import subprocess
import sys

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QLabel, QPushButton, QWidget

from tests.fakes import FakeNotices
from tests.ui.papers import A4, LANDSCAPE, paper
from workbench.paths import resources
from workbench.ui.preview import Fit, PaperPreview
from workbench.ui.tasks import InlineTasks, ThreadTasks
from workbench.ui.theme import Theme, load_fonts, load_palette
from workbench.ui.widgets.page_stack import PageStack
from workbench.words.catalogue import load_words

THREE = paper(A4, A4, LANDSCAPE)


@pytest.fixture
def notices() -> FakeNotices:
    return FakeNotices()


@pytest.fixture
def preview_with(qtbot, notices):
    made = []

    def make(tasks) -> PaperPreview:
        theme = Theme(load_palette("light", resources()), load_fonts(resources()))
        preview = PaperPreview(tasks, notices, load_words(resources() / "words"), theme)
        made.append(preview)
        qtbot.addWidget(preview)
        preview.resize(900, 700)
        preview.show()
        return preview

    return make


@pytest.fixture
def preview(preview_with) -> PaperPreview:
    made = preview_with(InlineTasks())
    made.show_pdf(THREE, "Worksheet", "harbour-fog-lotion.pdf")
    return made


def stack(preview: PaperPreview) -> PageStack:
    return preview.findChild(PageStack)


def text(preview: PaperPreview, name: str) -> str:
    return preview.findChild(QLabel, name).text()


def click(qtbot, preview: PaperPreview, name: str) -> None:
    qtbot.mouseClick(preview.findChild(QPushButton, name), Qt.MouseButton.LeftButton)


def test_that_the_first_page_is_shown_as_wide_as_the_view(preview):
    assert text(preview, "preview_page") == "Page 1 of 3"
    widest = stack(preview).page_rect(2)
    viewport = stack(preview).parentWidget()
    assert viewport.width() - 2 * stack(preview).gap == pytest.approx(widest.width(), abs=1)


def test_that_what_is_on_the_page_is_on_the_screen(preview):
    rect = stack(preview).page_rect(0)
    image = stack(preview).grab().toImage()
    per_mm = rect.width() / 210

    def colour_at(x_mm: float, y_mm: float) -> str:
        return image.pixelColor(
            round(rect.left() + x_mm * per_mm), round(rect.top() + y_mm * per_mm)
        ).name()

    assert colour_at(70, 70) == "#000000"
    assert [colour_at(*at) for at in ((15, 70), (125, 70), (70, 15), (70, 125))] == ["#ffffff"] * 4


def test_that_only_pages_in_view_are_drawn(preview):
    scale = stack(preview).scale * preview.devicePixelRatioF()
    assert [stack(preview).has_picture(page, scale) for page in range(3)] == [True, False, False]


def test_that_fit_page_shows_a_whole_page(qtbot, preview):
    click(qtbot, preview, "preview_fit_page")
    viewport = stack(preview).parentWidget()
    assert stack(preview).page_rect(0).height() <= viewport.height()
    assert stack(preview).page_rect(2).width() <= viewport.width()


def test_that_page_keys_turn_pages(qtbot, preview):
    preview.set_fit(Fit.PAGE)
    with qtbot.waitSignal(preview.page_changed) as told:
        qtbot.keyClick(preview.focusProxy(), Qt.Key.Key_PageDown)
    assert told.args == [1]
    assert text(preview, "preview_page") == "Page 2 of 3"
    qtbot.keyClick(preview.focusProxy(), Qt.Key.Key_PageUp)
    assert preview.page == 0
    qtbot.keyClick(preview.focusProxy(), Qt.Key.Key_End)
    assert preview.page == 2
    qtbot.keyClick(preview.focusProxy(), Qt.Key.Key_Home)
    assert preview.page == 0


def test_that_page_down_shows_all_of_a_page_taller_than_the_view(preview):
    preview.zoom_by(1 / preview.zoom)
    seen = [preview.page]
    for _turn in range(12):
        preview.turn(1)
        seen.append(preview.page)
    assert seen[1] == 0
    assert sorted(set(seen)) == [0, 1, 2]
    assert seen == sorted(seen)


def test_that_pages_zoom_in_and_out_in_steps_within_bounds(qtbot, preview):
    before = preview.zoom
    click(qtbot, preview, "preview_zoom_in")
    assert preview.zoom == pytest.approx(before * 1.25)
    click(qtbot, preview, "preview_zoom_out")
    assert preview.zoom == pytest.approx(before)
    for _turn in range(30):
        preview.zoom_by(1.25)
    assert text(preview, "preview_zoom") == "400 %"
    for _turn in range(30):
        preview.zoom_by(0.8)
    assert text(preview, "preview_zoom") == "20 %"


def test_that_zooming_keeps_the_place_in_the_middle(preview):
    preview.zoom_by(1 / preview.zoom)
    preview.go_to(1)
    preview.turn(1)
    page = preview.page
    preview.zoom_by(1.5)
    assert preview.page == page


def test_that_a_free_zoom_stays_when_the_window_grows(preview):
    preview.zoom_by(0.5)
    zoom = preview.zoom
    preview.resize(1200, 900)
    assert preview.zoom == pytest.approx(zoom)


def test_that_fit_width_follows_the_window(qtbot, preview):
    before = preview.zoom
    preview.resize(1200, 900)
    qtbot.waitUntil(lambda: preview.zoom > before)


def test_that_escape_closes(qtbot, preview):
    with qtbot.waitSignal(preview.closed, timeout=1000):
        qtbot.keyClick(preview.focusProxy(), Qt.Key.Key_Escape)


def test_that_the_close_button_closes(qtbot, preview):
    with qtbot.waitSignal(preview.closed, timeout=1000):
        click(qtbot, preview, "preview_close")


def test_that_another_paper_takes_the_place_of_the_first(preview):
    preview.go_to(2)
    preview.show_pdf(paper(A4), "Card", "card.pdf")
    assert text(preview, "preview_page") == "Page 1 of 1"
    assert "sheet 1" in stack(preview).accessibleDescription()


def test_that_pages_are_drawn_beside_the_window(qtbot, preview_with):
    tasks = ThreadTasks()
    preview = preview_with(tasks)
    preview.show_pdf(THREE, "Worksheet", "worksheet.pdf")
    scale = preview.devicePixelRatioF()
    qtbot.waitUntil(lambda: stack(preview).has_picture(0, stack(preview).scale * scale))
    preview.hide()
    tasks.close()


def test_that_an_answer_for_the_paper_before_is_dropped(qtbot, preview_with):
    tasks = ThreadTasks()
    preview = preview_with(tasks)
    preview.show_pdf(THREE, "Worksheet", "worksheet.pdf")
    preview.show_pdf(paper(A4), "Card", "card.pdf")
    tasks.flush()
    assert text(preview, "preview_page") == "Page 1 of 1"
    preview.hide()
    tasks.close()


def test_that_the_words_on_the_page_are_there_for_a_screen_reader(preview):
    assert stack(preview).accessibleName() == "Pages of Worksheet"
    assert "Harbour Fog lotion, sheet 1" in stack(preview).accessibleDescription()


def test_that_every_button_has_a_name(preview):
    names = [button.text() for button in preview.findChildren(QPushButton)]
    assert names == [
        "Zoom out", "Zoom in", "Fit width", "Fit page", "Export…", "Print…", "Close",
    ]  # fmt: skip


def test_that_an_export_is_the_paper_byte_for_byte(preview, notices, tmp_path):
    file = tmp_path / "harbour-fog-lotion.pdf"
    preview.export_to(file)
    assert file.read_bytes() == THREE
    assert notices.informed == [f"Exported to '{file}'."]
    assert [path.name for path in tmp_path.iterdir()] == [file.name]


def test_that_an_export_that_fails_is_told_and_leaves_nothing(preview, notices, tmp_path):
    preview.export_to(tmp_path / "no folder" / "paper.pdf")
    assert "could not be written" in notices.told[0].what
    assert notices.told[0].remedy
    assert list(tmp_path.iterdir()) == []


def test_that_a_failed_export_leaves_the_file_that_was_there(preview, notices, tmp_path):
    folder = tmp_path / "paper.pdf"
    folder.mkdir()
    preview.export_to(folder)
    assert len(notices.told) == 1
    assert [path.name for path in tmp_path.iterdir()] == ["paper.pdf"]


def test_that_export_asks_without_blocking_and_proposes_a_name(qtbot, preview, tmp_path):
    preview.export()
    dialog = preview.findChild(QFileDialog)
    assert dialog.isVisible()
    assert dialog.acceptMode() == QFileDialog.AcceptMode.AcceptSave
    assert dialog.selectedFiles()[0].endswith("harbour-fog-lotion.pdf")
    dialog.fileSelected.emit(str(tmp_path / "chosen.pdf"))
    assert (tmp_path / "chosen.pdf").read_bytes() == THREE
    dialog.close()


def test_that_the_preview_waits_to_load_what_draws_pages():
    # A module of its own process: here everything is loaded already.
    code = (
        "import sys, workbench.ui.preview\n"
        "late = {'pypdfium2', 'reportlab', 'PySide6.QtPrintSupport', 'sqlalchemy', 'pint'}\n"
        "print(sorted(late & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    assert done.stdout.strip() == "[]"


def test_that_a_preview_that_is_not_shown_draws_nothing(qtbot, notices):
    theme = Theme(load_palette("dark", resources()), load_fonts(resources()))
    host = QWidget()
    qtbot.addWidget(host)
    words = load_words(resources() / "words")
    preview = PaperPreview(InlineTasks(), notices, words, theme, host)
    preview.show_pdf(THREE, "Worksheet", "worksheet.pdf")
    assert not any(stack(preview).text(page) for page in range(3))
