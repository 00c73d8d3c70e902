from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QLabel, QPlainTextEdit, QPushButton, QVBoxLayout, QWidget

from tests.fakes import FakeNotices
from workbench.errors import WorkbenchError
from workbench.paths import resources
from workbench.ui.notices import NoticeBar, Notices
from workbench.words.catalogue import load_words

LOCKED = WorkbenchError("The studio is locked.", "Close the other window.", "database is locked")
GONE = WorkbenchError("The printer is gone.", "Choose another.")


@pytest.fixture
def bar_for(qtbot):
    """Make a bar at the foot of a window, that shows news for so many milliseconds."""
    windows = []

    def make(shown_ms: int) -> NoticeBar:
        window = QWidget()
        column = QVBoxLayout(window)
        column.addWidget(QPlainTextEdit(), 1)
        bar = NoticeBar(load_words(resources() / "words"), shown_ms=shown_ms)
        column.addWidget(bar)
        window.resize(600, 400)
        window.show()
        qtbot.addWidget(window)
        windows.append(window)
        return bar

    return make


@pytest.fixture
def bar(bar_for) -> NoticeBar:
    return bar_for(60_000)


def button(bar: NoticeBar, name: str) -> QPushButton:
    found = bar.findChild(QPushButton, name)
    assert found is not None
    return found


def test_that_the_bar_and_its_double_can_stand_for_each_other(bar):
    for notices in (bar, FakeNotices()):
        shown: Notices = notices
        shown.tell(LOCKED)
        shown.inform("Saved")


def test_that_the_bar_is_hidden_until_there_is_something_to_tell(bar):
    assert bar.isHidden()
    bar.inform("Removed glycerin")
    assert not bar.isHidden()
    assert bar.text == "Removed glycerin"


def test_that_an_error_shows_what_happened_and_what_helps(bar):
    bar.tell(LOCKED)
    assert bar.text == "The studio is locked."
    remedy = bar.findChild(QLabel, "notice_remedy")
    assert remedy.text() == "Close the other window."
    assert remedy.isVisible()


def test_that_detail_is_folded_until_asked_for(bar, qtbot):
    bar.tell(LOCKED)
    detail = bar.findChild(QLabel, "notice_detail")
    assert not detail.isVisible()
    qtbot.mouseClick(button(bar, "notice_details"), Qt.MouseButton.LeftButton)
    assert detail.isVisible()
    assert detail.text() == "database is locked"
    qtbot.mouseClick(button(bar, "notice_details"), Qt.MouseButton.LeftButton)
    assert not detail.isVisible()


def test_that_without_detail_or_undo_there_is_no_button_for_it(bar):
    bar.tell(GONE)
    assert not button(bar, "notice_details").isVisible()
    assert not button(bar, "notice_undo").isVisible()


def test_that_undo_is_done_once_and_puts_the_notice_away(bar, qtbot):
    undone = []
    bar.inform("Removed glycerin", lambda: undone.append("glycerin"))
    qtbot.mouseClick(button(bar, "notice_undo"), Qt.MouseButton.LeftButton)
    assert undone == ["glycerin"]
    assert bar.isHidden()


def test_that_what_undo_tells_stays_on_the_bar(bar, qtbot):
    bar.inform("Removed glycerin", lambda: bar.inform("Glycerin is back"))
    qtbot.mouseClick(button(bar, "notice_undo"), Qt.MouseButton.LeftButton)
    assert bar.text == "Glycerin is back"


def test_that_news_hides_after_a_while(qtbot, bar_for):
    bar = bar_for(10)
    bar.inform("Saved")
    qtbot.waitUntil(bar.isHidden)


def test_that_an_error_stays_until_it_is_put_away(qtbot, bar_for):
    bar = bar_for(0)
    bar.tell(LOCKED)
    bar.inform("Saved")
    with pytest.raises(qtbot.TimeoutError):
        qtbot.waitUntil(bar.isHidden, timeout=50)
    assert bar.text == LOCKED.what


def test_that_news_waits_behind_an_error_and_only_the_newest(bar):
    bar.tell(LOCKED)
    bar.inform("Saved")
    bar.inform("Printed")
    bar.dismiss()
    assert bar.text == "Printed"
    bar.dismiss()
    assert bar.isHidden()


def test_that_errors_wait_for_each_other_and_none_is_told_twice(bar):
    bar.tell(LOCKED)
    bar.tell(GONE)
    bar.tell(GONE)
    bar.tell(LOCKED)
    bar.dismiss()
    assert bar.text == GONE.what
    bar.dismiss()
    assert bar.isHidden()


def test_that_text_from_outside_is_never_read_as_markup(bar):
    bar.inform("<b>draft</b>.formula.json")
    assert bar.findChild(QLabel, "notice_text").textFormat() == Qt.TextFormat.PlainText


def test_that_a_notice_is_there_for_a_screen_reader(bar):
    bar.tell(LOCKED)
    told = QAccessible.queryAccessibleInterface(bar)
    assert told.text(QAccessible.Text.Name) == "Notice"
    assert "Close the other window." in told.text(QAccessible.Text.Description)


def test_that_news_waits_while_its_button_has_the_focus(qtbot, bar_for):
    bar = bar_for(50)
    bar.window().activateWindow()
    qtbot.waitUntil(bar.window().isActiveWindow)
    bar.inform("Removed glycerin", lambda: None)
    button(bar, "notice_undo").setFocus()
    assert button(bar, "notice_undo").hasFocus()
    with pytest.raises(qtbot.TimeoutError):
        qtbot.waitUntil(bar.isHidden, timeout=150)
    bar.window().findChild(QPlainTextEdit).setFocus()
    qtbot.waitUntil(bar.isHidden)


def test_that_a_deletion_is_kept_a_minute_and_comes_back_after_other_news(qtbot, bar):
    bar.inform("Dew was deleted.", lambda: None, is_kept=True)
    assert bar._timer.interval() == 6 * bar._shown_ms
    bar.inform("Text at 120 %")
    assert bar.text == "Text at 120 %"
    bar.dismiss()
    assert bar.text == "Dew was deleted."
    bar.dismiss()
    assert bar.text == ""


def test_that_a_way_back_that_was_gone_is_not_offered(qtbot, bar):
    def undo() -> None:
        raise AssertionError

    bar.inform("Dew was deleted.", undo, is_kept=True)
    bar.inform("Saved")
    bar.withdraw(undo)
    bar.dismiss()
    assert bar.text == ""
