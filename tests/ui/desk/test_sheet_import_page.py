"""Old sheets in the window: from the file to the draft through the keys, and out again."""

from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QCheckBox, QComboBox, QPushButton, QWidget

from tests.ui.desk.panels import theme
from workbench.storage.sheet_files import read_sheets
from workbench.ui.places.desk.sheet_import_table import BECOMES, PERCENT
from workbench.ui.places.desk.sheet_import_ways import SheetImportWays

SHEET = """Harbour Fog balm
Phase,Ingredient,%,Cost
A,Water,q.s.,0
A,Glycerin,4,1
A,Xanthan gumm,0.3,2
B,Grandmother's secret,1-2,3
nice and light
"""
CTRL = Qt.KeyboardModifier.ControlModifier


class Ways:
    def __init__(self, qtbot, parts):
        self.bot, self.work, self.notices = qtbot, parts.work, parts.notices
        self.desk = QWidget()
        qtbot.addWidget(self.desk)
        self.ways = SheetImportWays(parts.work, theme(), self.desk, self._make)
        self.page = self.ways.page
        qtbot.addWidget(self.page)
        self.page.resize(1000, 700)
        self.page.show()

    def _make(self, formula):
        self.work.open(self.work.studio.formulas.create(formula.name, formula))
        return True

    @property
    def table(self):
        return self.page.table

    @property
    def make(self):
        return self.page.findChild(QPushButton, "sheet_import_make")

    def decide(self, row, column, text=None):
        """Open the choice of a row by Enter, type, and take the first of the list by Enter."""
        self.table.setCurrentIndex(self.table.model().index(row, column))
        self.bot.keyClick(self.table, Qt.Key.Key_Return)
        editor = self.table.indexWidget(self.table.currentIndex())
        if text is not None:
            editor.selectAll()
            self.bot.keyClicks(editor, text)
        self.bot.keyClick(editor, Qt.Key.Key_Return)

    def pick(self, row, column, wanted):
        """Open the choice of a row and walk down the list to a choice."""
        self.table.setCurrentIndex(self.table.model().index(row, column))
        self.bot.keyClick(self.table, Qt.Key.Key_Return)
        editor = self.table.indexWidget(self.table.currentIndex())
        names = [one.name for one in editor.choices]
        for _ in range(names.index(wanted)):
            self.bot.keyClick(editor, Qt.Key.Key_Down)
        self.bot.keyClick(editor, Qt.Key.Key_Return)


@pytest.fixture
def ways(qtbot, parts, tmp_path):
    made = Ways(qtbot, parts)
    path = tmp_path / "old balm.csv"
    path.write_text(SHEET)
    made.ways.bring_in(path)
    return made


def test_that_a_sheet_is_shown_with_what_each_row_becomes(ways):
    rows = ways.table.rows
    assert [row.row + 1 for row in rows] == [3, 4, 5, 6]
    assert rows[0].percent == "takes the rest"
    assert rows[2].is_name_open
    assert rows[3].is_name_open
    assert rows[3].is_amount_open


def test_that_every_cell_that_was_not_read_is_told_with_its_place_and_reason(ways):
    for said in ('D3 "0"', 'D6 "3"', 'A7 "nice and light"'):
        assert said in ways.page.report


def test_that_no_draft_is_made_while_a_row_is_open(ways):
    assert not ways.make.isEnabled()
    key = ways.work.key
    ways.bot.keyClick(ways.table, Qt.Key.Key_Return, CTRL)
    assert ways.work.key == key
    assert "Decide" in ways.page.open_text


def test_that_the_keys_decide_every_row_and_make_the_draft(ways):
    ways.pick(2, BECOMES, "Xanthan gum (standard)")
    ways.pick(3, BECOMES, "Keep as a line that is not on the shelf")
    ways.decide(3, PERCENT, "1.5")
    assert ways.page.open_text == ""
    ways.bot.keyClick(ways.table, Qt.Key.Key_Return, CTRL)
    formula = ways.work.formula
    assert formula.name == "Harbour Fog balm"
    assert [line.percent for line in formula.lines()] == [
        None,
        Decimal(4),
        Decimal("0.3"),
        Decimal("1.5"),
    ]
    assert [line.ingredient for line in formula.lines()][2:] == [
        "xanthan_gum",
        "Grandmother's secret",
    ]
    assert len(formula.phases) == 2


def test_that_the_notes_of_the_draft_keep_what_was_not_read(ways):
    for row in (2, 3):
        ways.pick(row, BECOMES, "Leave out")
    ways.page.make()
    notes = ways.work.studio.formulas.notes(ways.work.key)
    assert "old balm.csv" in notes
    assert "2026-11-25" in notes
    assert "nice and light" in notes
    assert "Grandmother's secret, 1-2 %" in notes


def test_that_a_choice_can_be_walked_to_with_the_arrows(ways):
    ways.pick(3, PERCENT, "1.50 %")
    assert ways.table.rows[3].percent == "1.50"
    assert not ways.table.rows[3].is_amount_open


def test_that_the_cursor_goes_on_to_what_is_open_next(ways):
    assert ways.table.currentIndex().row() == 2
    ways.decide(2, BECOMES)
    assert ways.table.currentIndex().row() == 3


def test_that_escape_leaves_the_sheet_and_stores_nothing(ways, qtbot):
    entries = len(ways.work.studio.formulas.entries())
    with qtbot.waitSignal(ways.ways.left, timeout=100):
        qtbot.keyClick(ways.table, Qt.Key.Key_Escape)
    assert len(ways.work.studio.formulas.entries()) == entries


def test_that_what_a_column_is_can_be_changed(ways):
    for name, kind in (
        ("form_sheet_import_column_2", "other"),
        ("form_sheet_import_column_3", "percent"),
    ):
        box = ways.page.findChild(QComboBox, name)
        box.setCurrentIndex(box.findData(kind))
        box.activated.emit(box.currentIndex())
    assert [row.percent for row in ways.table.rows][1:] == ["1.00", "2.00", "3.00"]


def test_that_a_doubt_about_the_whole_has_a_box_to_tick(qtbot, parts):
    made = Ways(qtbot, parts)
    made.ways.bring_in_text("Ingredient\tAmount\nWater\t60\nGlycerin\t7\n")
    boxes = [box for box in made.page.findChildren(QCheckBox) if not box.isHidden()]
    assert boxes
    for box in boxes:
        qtbot.keyClick(box, Qt.Key.Key_Space)
    assert made.page.open_text == ""
    made.page.make()
    assert made.work.formula.name == "Pasted formula"
    assert made.work.formula.plan.batch_mass is None or made.work.formula.plan.batch_mass > 0


def test_that_pasting_on_a_view_brings_the_text_in(qtbot, parts):
    made = Ways(qtbot, parts)
    view = QWidget()
    qtbot.addWidget(view)
    made.ways.listen_for_paste(view)
    QApplication.clipboard().setText("Ingredient\t%\nWater\t96\nGlycerin\t4\n")
    view.actions()[0].trigger()
    assert [row.name for row in made.table.rows] == ["Water", "Glycerin"]


def test_that_a_sheet_dropped_on_the_window_is_brought_in(qtbot, parts, tmp_path):
    made = Ways(qtbot, parts)
    path = tmp_path / "dropped.tsv"
    path.write_text("Ingredient\t%\nWater\t96\nGlycerin\t4\n")
    window = QWidget()
    qtbot.addWidget(window)
    made.ways.listen_for_drops(window)
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path))])
    copy, left, none = (
        Qt.DropAction.CopyAction,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    enter = QDragEnterEvent(QPoint(5, 5), copy, data, left, none)
    QApplication.sendEvent(window, enter)
    assert enter.isAccepted()
    QApplication.sendEvent(window, QDropEvent(QPointF(5, 5), copy, data, left, none))
    assert [row.name for row in made.table.rows] == ["Water", "Glycerin"]


def test_that_a_file_that_is_no_sheet_is_refused_in_a_sentence(qtbot, parts, tmp_path):
    made = Ways(qtbot, parts)
    path = tmp_path / "picture.csv"
    path.write_bytes(b"\x89PNG\r\n\x1a\n")
    made.ways.bring_in(path)
    assert "picture.csv" in str(made.notices.told[-1])
    assert made.page.state is None


@pytest.mark.parametrize("ending", [".csv", ".tsv", ".xlsx"])
def test_that_a_formula_goes_out_as_a_sheet_and_comes_back_the_same(qtbot, parts, tmp_path, ending):
    made = Ways(qtbot, parts)
    before = made.work.formula
    path = tmp_path / f"out{ending}"
    made.ways.export_to(path)
    assert read_sheets(path)
    made.ways.bring_in(path)
    assert made.page.open_text == ""
    made.page.make()
    assert [(line.ingredient, line.percent) for line in made.work.formula.lines()] == [
        (line.ingredient, line.percent) for line in before.lines()
    ]


def test_that_the_model_of_the_table_is_sound(ways, qtmodeltester):
    qtmodeltester.check(ways.table.model())


def test_that_each_row_reads_out_its_name_and_how_sure_it_is(ways):
    said = ways.table.model().index(0, BECOMES).data(Qt.ItemDataRole.AccessibleTextRole)
    assert said.startswith("Water, Becomes")


def test_that_everything_tab_reaches_has_a_name(ways):
    for widget in ways.page.findChildren(QWidget):
        is_reached = widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isVisible()
        if is_reached and not isinstance(widget, QPushButton | QCheckBox):
            assert widget.accessibleName(), widget.objectName()
