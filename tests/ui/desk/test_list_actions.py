"""What is done with a formula of the list, and how the list is sought through."""

from __future__ import annotations

import time
from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtTest import QAbstractItemModelTester
from PySide6.QtWidgets import QAbstractButton, QLabel, QLineEdit, QPlainTextEdit

from tests.ui.desk.panels import LOTION, theme
from workbench.ui.places.desk.entries import Order
from workbench.ui.places.desk.form_row import FormRow
from workbench.ui.places.desk.list_panel import FormulaList


@pytest.fixture
def panel(qtbot, parts):
    shown = FormulaList(parts.work, theme())
    qtbot.addWidget(shown)
    shown.resize(220, 600)
    shown.show()
    return shown


@pytest.fixture
def row(qtbot, parts):
    shown = FormRow(parts.work, theme())
    qtbot.addWidget(shown)
    shown.resize(900, 300)
    shown.show()
    return shown


def spoken(panel) -> list[str]:
    model = panel._model
    role = Qt.ItemDataRole.AccessibleTextRole
    return [model.index(place, 0).data(role) for place in range(model.rowCount())]


def stand_on(panel, name: str) -> None:
    place = next(place for place, said in enumerate(spoken(panel)) if said.startswith(name))
    panel._view.setCurrentIndex(panel._model.index(place, 0))


def do(panel, name: str) -> None:
    """Choose from the menu of the row the cursor stands on."""
    menu = panel.actions_of_list.menu_of(panel._view.current())
    next(action for action in menu.actions() if action.objectName() == f"row-{name}").trigger()


def do_open(panel, name: str) -> None:
    """Choose from the menu of the window, which is about the open formula."""
    next(one for one in panel.actions_of_list.all() if one.objectName() == f"list-{name}").trigger()


def names(parts, *, archived: bool = False) -> list[str]:
    return [entry.name for entry in parts.work.studio.formulas.entries(archived=archived)]


def test_that_the_model_of_the_list_keeps_the_rules_of_qt(parts, panel):
    tester = QAbstractItemModelTester(
        panel._model, QAbstractItemModelTester.FailureReportingMode.Fatal
    )
    panel._want(order=Order.EDITED)
    panel._find.setText("oat")
    panel.refresh()
    assert tester.model() is panel._model


def test_that_a_duplicate_is_open_and_like_its_model(parts, panel):
    parts.work.studio.formulas.set_tags(parts.lotion, ("winter",))
    panel.refresh()
    stand_on(panel, "Harbour Fog")
    do(panel, "duplicate")
    assert parts.work.formula == replace(LOTION, name="Copy of Harbour Fog lotion")
    assert parts.work.studio.formulas.entry(parts.work.key).tags == ("winter",)


def test_that_a_deletion_is_taken_back_with_its_key_and_the_formula_is_open_again(parts, panel):
    stand_on(panel, "Harbour Fog")
    do(panel, "delete")
    assert "Harbour Fog lotion" not in names(parts)
    assert parts.work.key == ""
    assert parts.notices.informed[-1] == "Harbour Fog lotion was deleted."
    parts.notices.undos[-1]()
    assert "Harbour Fog lotion" in names(parts)
    assert parts.work.key == parts.lotion
    assert parts.work.formula.name == "Harbour Fog lotion"


def test_that_what_may_not_be_deleted_is_told_in_words(parts, panel):
    stand_on(panel, "Oat Quilt")
    do(panel, "delete")
    stand_on(panel, "Xanthan")
    do(panel, "delete")
    assert len(parts.notices.told) == 2
    assert {"Oat Quilt gel", "Xanthan gum 1 %"} <= set(names(parts))


def test_that_delete_is_a_key_of_the_list_alone(panel):
    keyed = {action.objectName(): action for action in panel.actions_of_list.keyed()}
    assert keyed["list-delete"].shortcut().isEmpty()
    action = keyed["list-delete-row"]
    assert action.shortcut().toString() == "Del"
    assert action.shortcutContext() is Qt.ShortcutContext.WidgetShortcut


def test_that_the_archive_is_shown_at_the_foot_and_gives_back(qtbot, parts, panel):
    stand_on(panel, "Harbour Fog")
    do(panel, "archive")
    assert not any(said.startswith("Harbour Fog") for said in spoken(panel))
    toggle = panel.findChild(QAbstractButton, "formula_list_archived")
    assert toggle.text() == "Archived (1)"
    qtbot.mouseClick(toggle, Qt.MouseButton.LeftButton)
    assert toggle.text() == "Hide archived (1)"
    said = spoken(panel)
    assert said.index("Archived") == len(said) - 2
    stand_on(panel, "Harbour Fog")
    texts = [one.text() for one in panel.actions_of_list.menu_of(panel._view.current()).actions()]
    assert "Bring Harbour Fog lotion back from the archive" in texts
    do(panel, "archive")
    assert "Harbour Fog lotion" in names(parts)
    parts.notices.undos[-1]()
    assert "Harbour Fog lotion" not in names(parts)


def test_that_the_formulas_that_use_a_stock_are_named(parts, panel):
    stand_on(panel, "Xanthan")
    do(panel, "used")
    stand_on(panel, "Oat Quilt")
    do(panel, "used")
    assert parts.notices.informed == [
        "Xanthan gum 1 % is used in Oat Quilt gel.",
        "No formula uses Oat Quilt gel.",
    ]


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("quilt", ["Oat Quilt gel"]),
        ("GLYCERIN", ["Harbour Fog lotion"]),  # by an ingredient it uses
        ("xanthan", ["Harbour Fog lotion", "Oat Quilt gel", "Xanthan gum 1 %"]),
        ("winter", ["Harbour Fog lotion"]),  # by its tag
    ],
)
def test_that_a_formula_is_found_by_name_tag_or_ingredient(qtbot, parts, panel, typed, found):
    parts.work.studio.formulas.set_tags(parts.lotion, ("winter",))
    panel._find.setText(typed)
    qtbot.waitUntil(lambda: len(panel._formulas) > 0 and not panel._timer.isActive())
    shown = [said.partition(",")[0] for said in spoken(panel)]
    assert [name for name in shown if name not in ("Drafts", "Formulas", "Stocks")] == found


def test_that_nothing_found_is_said(qtbot, panel):
    panel._find.setText("zzz")
    label = panel.findChild(QLabel, "formula_list_empty")
    qtbot.waitUntil(label.isVisible)
    assert label.text().startswith("No formula fits")


def test_that_a_tag_and_an_order_are_chosen_and_said(parts, panel):
    parts.work.studio.formulas.set_tags(parts.lotion, ("winter",))
    panel._want(tag="winter", order=Order.EDITED)
    button = panel.findChild(QAbstractButton, "formula_list_order")
    assert button.text() == "Last edited first, tag winter"
    assert [said for said in spoken(panel) if "," in said] == [
        "Harbour Fog lotion, winter   draft, first version to come"
    ]


def test_that_notes_are_stored_as_they_are_typed_and_never_lost(qtbot, parts, row):
    row.open_editor("notes")
    text = row.findChild(QPlainTextEdit, "form_notes")
    qtbot.keyClicks(text, "Too thin at 35 degrees.")
    parts.work.open(parts.work.studio.formulas.find("Oat Quilt gel"))
    assert parts.work.studio.formulas.notes(parts.lotion) == "Too thin at 35 degrees."
    assert row.findChild(QAbstractButton, "form_field_notes").value == "none"
    parts.work.open(parts.lotion)
    assert row.findChild(QAbstractButton, "form_field_notes").value == "written"


def test_that_tags_are_typed_with_commas(qtbot, parts, row, panel):
    row.open_editor("notes")
    edit = row.findChild(QLineEdit, "form_tags")
    qtbot.keyClicks(edit, "winter,  dry   skin,")
    qtbot.keyClick(edit, Qt.Key.Key_Return)
    assert parts.work.studio.formulas.entry(parts.lotion).tags == ("winter", "dry skin")
    assert any("winter, dry skin" in said for said in spoken(panel))


@pytest.mark.speed
def test_that_a_list_of_5000_formulas_is_open_in_time(qtbot, parts):
    from workbench.storage.formulas import insert_formula

    file = parts.work.studio._file
    with file.writing() as connection:
        for number in range(5000):
            named = replace(LOTION, name=f"Lotion {number:04}")
            insert_formula(connection, f"lotion-{number}", named, file.clock())
    times = []
    for _ in range(6):
        begun = time.perf_counter()
        panel = FormulaList(parts.work, theme())
        qtbot.addWidget(panel)
        panel.resize(220, 600)
        panel.show()
        panel.grab()
        times.append(time.perf_counter() - begun)
        panel.close()
    assert panel._model.rowCount() > 5000
    assert min(times) <= 0.15, times


def test_that_the_menu_of_the_window_acts_on_the_open_formula(parts, panel):
    other = parts.work.studio.formulas.create("Gull balm", LOTION)
    panel.refresh()
    stand_on(panel, "Gull balm")  # looked at, not opened
    do_open(panel, "delete")
    assert "Gull balm" in names(parts)
    assert "Harbour Fog lotion" not in names(parts)
    assert parts.work.studio.formulas.entry(other) is not None


def test_that_the_menu_of_a_row_names_its_formula_and_acts_on_it(parts, panel):
    parts.work.studio.formulas.create("Gull & tern balm", LOTION)
    panel.refresh()
    stand_on(panel, "Gull")
    texts = [one.text() for one in panel.actions_of_list.menu_of(panel._view.current()).actions()]
    assert "Delete Gull && tern balm" in texts
    do(panel, "delete")
    assert parts.work.key == parts.lotion
    assert "Gull & tern balm" not in names(parts)


def test_that_empty_ground_has_no_menu(qtbot, panel):
    asked = []
    panel._view.menu_asked.disconnect(panel._show_menu_of)  # no menu is shown without a screen
    panel._view.menu_asked.connect(lambda row, _place: asked.append(row.name))
    view = panel._view
    for place in (
        QPoint(20, view.viewport().height() - 3),
        view.visualRect(index_of(panel)).center(),
    ):
        event = QContextMenuEvent(QContextMenuEvent.Reason.Mouse, place, view.mapToGlobal(place))
        view.contextMenuEvent(event)
    assert asked == ["Oat Quilt gel"]


def index_of(panel):
    return panel._model.index(panel._model.row_of("oat-quilt-gel"), 0)


def test_that_the_cursor_follows_the_open_formula(parts, panel):
    panel.make_new()
    assert panel._view.current().key == parts.work.key
    do_open(panel, "duplicate")
    assert panel._view.current().name == "Copy of New formula"
    parts.work.open(parts.lotion)
    assert panel._view.current().key == parts.lotion


def test_that_a_duplicate_has_the_notes_too(parts, panel):
    parts.work.studio.formulas.set_notes(parts.lotion, "Too thin.", "")
    do_open(panel, "duplicate")
    assert parts.work.key != parts.lotion
    assert parts.work.studio.formulas.notes(parts.work.key) == "Too thin."


def test_that_a_duplicate_has_the_last_edit(parts, panel):
    parts.work.edit("Pack", lambda formula: replace(formula, pack="jar"))
    do_open(panel, "duplicate")
    assert parts.work.formula.pack == "jar"


def test_that_a_deletion_and_an_archiving_are_steps_with_names(parts, panel):
    stack = panel.actions_of_list.steps.stack
    do_open(panel, "archive")
    assert stack.undoText() == "Archive Harbour Fog lotion"
    do_open(panel, "delete")
    assert stack.undoText() == "Delete Harbour Fog lotion"
    stack.undo()
    assert "Harbour Fog lotion" in names(parts, archived=True)
    stack.undo()
    assert "Harbour Fog lotion" in names(parts)
    stack.redo()
    stack.redo()
    assert "Harbour Fog lotion" not in names(parts, archived=True)
    stack.undo()
    assert "Harbour Fog lotion" in names(parts, archived=True)


def test_that_what_undo_took_back_is_not_offered_any_more_by_its_notice(parts, panel):
    do_open(panel, "delete")
    panel.actions_of_list.steps.stack.undo()
    assert parts.notices.withdrawn == [parts.notices.undos[-1]]
    before = names(parts)
    parts.notices.undos[-1]()  # pressed all the same, it does nothing more
    assert names(parts) == before
    assert parts.notices.told == []


def test_that_a_deletion_that_cannot_be_taken_back_now_can_be_later(parts, panel):
    do_open(panel, "delete")
    stack = panel.actions_of_list.steps.stack
    in_its_place = parts.work.studio.formulas.create("Harbour Fog lotion", LOTION)
    stack.undo()
    assert len(parts.notices.told) == 1
    stack.redo()  # deletes nothing: it was not brought back
    assert parts.work.studio.formulas.entry(in_its_place) is not None
    parts.work.studio.formulas.delete(in_its_place)
    stack.undo()
    assert parts.work.studio.formulas.entry(parts.lotion) is not None
