from __future__ import annotations

import time
from dataclasses import dataclass, replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QAbstractItemModel, QModelIndex, QSortFilterProxyModel, Qt

from workbench.ui.models.value_table import (
    LOOK_ROLE,
    SORT_ROLE,
    VALUE_ROLE,
    Column,
    ValueTableModel,
)


@dataclass(frozen=True, slots=True)
class Row:
    key: int
    name: str = "Glycerin"
    percent: Decimal = Decimal("4.00")
    severity: str = ""
    is_rest: bool = False


def shout(row: Row) -> str:
    return f"{row.severity} on {row.name}" if row.severity else ""


COLUMNS = (
    Column[Row]("flag", "", lambda _row: "", look=lambda row: row.severity, accessible=shout),
    Column[Row]("name", "Ingredient", lambda row: row.name),
    Column[Row](
        "percent",
        "% w/w",
        lambda row: f"{row.percent:.2f}",
        sort=lambda row: row.percent,
        typed=lambda row: str(row.percent.normalize()),
        commit=lambda _row, _text: True,
        editable=lambda row: not row.is_rest,
        is_numeric=True,
    ),
)


def made(*rows: Row, columns: tuple[Column[Row], ...] = COLUMNS) -> ValueTableModel[Row]:
    model = ValueTableModel[Row](columns, lambda row: row.key)
    model.set_rows(rows)
    return model


class Mirror:
    """Follow a model by its signals alone, as a view does."""

    def __init__(self, model: QAbstractItemModel) -> None:
        self.model = model
        self.rows = [self.read(row) for row in range(model.rowCount())]
        self.changed: list[tuple[int, int, int, int]] = []
        self.steps: list[str] = []
        model.rowsInserted.connect(self.insert)
        model.rowsRemoved.connect(self.remove)
        model.rowsMoved.connect(self.move)
        model.dataChanged.connect(self.change)
        model.modelReset.connect(lambda: self.steps.append("reset"))
        model.layoutChanged.connect(lambda: self.steps.append("layout"))

    def read(self, row: int) -> list[object]:
        columns = range(self.model.columnCount())
        roles = (Qt.ItemDataRole.DisplayRole, LOOK_ROLE, SORT_ROLE)
        return [[self.model.index(row, c).data(role) for role in roles] for c in columns]

    def insert(self, _parent: QModelIndex, first: int, last: int) -> None:
        self.steps.append("insert")
        self.rows[first:first] = [self.read(row) for row in range(first, last + 1)]

    def remove(self, _parent: QModelIndex, first: int, last: int) -> None:
        self.steps.append("remove")
        del self.rows[first : last + 1]

    def move(self, _p: QModelIndex, first: int, last: int, _q: QModelIndex, before: int) -> None:
        self.steps.append("move")
        block = self.rows[first : last + 1]
        rest = self.rows[:first] + self.rows[last + 1 :]
        target = before - len(block) if before > first else before
        self.rows = rest[:target] + block + rest[target:]

    def change(self, first: QModelIndex, last: QModelIndex, _roles: list[int]) -> None:
        self.changed.append((first.row(), first.column(), last.row(), last.column()))
        for row in range(first.row(), last.row() + 1):
            for column in range(first.column(), last.column() + 1):
                self.rows[row][column] = self.read(row)[column]


ROWS = st.lists(
    st.builds(
        Row,
        key=st.integers(0, 9),
        name=st.sampled_from(["Water", "Glycerin"]),
        percent=st.sampled_from([Decimal(1), Decimal(2)]),
        severity=st.sampled_from(["", "stop"]),
    ),
    unique_by=lambda row: row.key,
    max_size=10,
)


@given(states=st.lists(ROWS, min_size=2, max_size=4))
def test_that_a_view_that_follows_the_signals_shows_the_rows(qapp, states):
    model = made(*states[0])
    mirror = Mirror(model)
    for rows in states[1:]:
        model.set_rows(rows)
        assert model.rows == tuple(rows)
        assert mirror.rows == [mirror.read(row) for row in range(len(rows))]
    assert not {"reset", "layout"} & set(mirror.steps)


@given(states=st.lists(ROWS, min_size=2, max_size=4))
def test_that_a_sorting_proxy_follows(qapp, states):
    model = made(*states[0])
    proxy = QSortFilterProxyModel()
    proxy.setSourceModel(model)
    proxy.setSortRole(SORT_ROLE)
    proxy.sort(1)
    for rows in states[1:]:
        model.set_rows(rows)
        shown = [proxy.index(row, 1).data() for row in range(proxy.rowCount())]
        assert shown == sorted(row.name for row in rows)


def test_that_qt_finds_no_fault_with_the_model(qtmodeltester):
    model = made(*(Row(key) for key in range(6)))
    qtmodeltester.check(model)
    model.set_rows([Row(key, name=f"Line {key}") for key in (5, 7, 0, 1, 8, 3)])
    model.set_rows([])
    model.set_rows([Row(1)])


def test_that_one_changed_figure_is_one_changed_cell(qapp):
    rows = [Row(key) for key in range(5)]
    model = made(*rows)
    mirror = Mirror(model)
    model.set_rows([*rows[:2], replace(rows[2], percent=Decimal(5)), *rows[3:]])
    assert mirror.changed == [(2, 2, 2, 2)]
    assert mirror.steps == []


def test_that_a_changed_column_is_one_signal(qapp):
    model = made(*(Row(key) for key in range(5)))
    mirror = Mirror(model)
    model.set_rows([Row(key, percent=Decimal(7)) for key in range(5)])
    assert mirror.changed == [(0, 2, 4, 2)]


def test_that_cells_that_show_the_same_are_not_told(qapp):
    model = made(Row(1, percent=Decimal("4.00")))
    mirror = Mirror(model)
    model.set_rows([Row(1, percent=Decimal("4.0"))])
    assert mirror.changed == []


def test_that_a_changed_shape_is_told_though_the_text_is_the_same(qapp):
    model = made(Row(1))
    mirror = Mirror(model)
    model.set_rows([Row(1, severity="stop")])
    assert mirror.changed == [(0, 0, 0, 0)]
    assert model.index(0, 0).data(LOOK_ROLE) == "stop"


def test_that_the_row_is_the_new_one_even_where_no_cell_changed(qapp):
    first = Column[Row]("name", "Ingredient", lambda row: row.name)
    model = made(Row(1), columns=(first,))
    model.set_rows([Row(1, severity="note")])
    assert model.index(0, 0).data(VALUE_ROLE).severity == "note"


@pytest.mark.parametrize(
    ("order", "steps"),
    [
        pytest.param([1, 2, 3, 4, 5, 0], ["move"], id="first-to-last"),
        pytest.param([5, 0, 1, 2, 3, 4], ["move"], id="last-to-first"),
        pytest.param([0, 3, 4, 1, 2, 5], ["move"], id="a-block"),
        pytest.param([0, 1, 2, 9, 3, 4, 5], ["insert"], id="a-new-line"),
        pytest.param([0, 1, 4, 5], ["remove"], id="a-run-taken-out"),
        pytest.param([0, 1, 2, 3, 4, 5], [], id="nothing"),
    ],
)
def test_that_the_fewest_steps_are_told(qapp, order, steps):
    model = made(*(Row(key) for key in range(6)))
    mirror = Mirror(model)
    model.set_rows([Row(key) for key in order])
    assert mirror.steps == steps


def test_that_a_kept_index_stays_with_its_row(qapp):
    from PySide6.QtCore import QPersistentModelIndex

    model = made(*(Row(key) for key in range(4)))
    kept = QPersistentModelIndex(model.index_of(3, "percent"))
    model.set_rows([Row(9), Row(3), Row(0), Row(1)])
    assert (kept.row(), kept.column()) == (1, 2)


def test_that_rows_with_one_id_are_refused(qapp):
    model = made(Row(1))
    with pytest.raises(ValueError, match="same id"):
        model.set_rows([Row(2), Row(2)])
    assert model.rows == (Row(1),)


def test_that_a_row_is_found_by_its_id(qapp):
    model = made(Row(7), Row(8))
    assert model.index_of(8, "name").row() == 1
    assert model.row_at(model.index_of(8, "name")) == Row(8)
    assert not model.index_of(9, "name").isValid()


def test_that_typed_text_goes_to_commit_and_the_rows_wait_for_the_news(qapp):
    taken = []
    column = Column[Row](
        "percent",
        "%",
        lambda row: str(row.percent),
        commit=lambda row, text: taken.append((row.key, text)) or text == "5",
    )
    model = made(Row(3), columns=(column,))
    assert model.setData(model.index(0, 0), "5")
    assert not model.setData(model.index(0, 0), "five")
    assert taken == [(3, "5"), (3, "five")]
    assert model.rows == (Row(3),)


def test_that_rows_may_be_set_while_a_cell_is_committed(qapp):
    def commit(row: Row, text: str) -> bool:
        model.set_rows([Row(9), replace(row, percent=Decimal(text))])
        return True

    column = Column[Row]("percent", "%", lambda row: str(row.percent), commit=commit)
    model = made(Row(3), columns=(column,))
    assert model.setData(model.index(0, 0), "5")
    assert [row.percent for row in model.rows] == [Decimal("4.00"), Decimal(5)]


def test_that_only_cells_that_can_be_edited_take_text(qapp):
    model = made(Row(1), Row(2, is_rest=True))
    can = [bool(model.flags(model.index(row, 2)) & Qt.ItemFlag.ItemIsEditable) for row in (0, 1)]
    assert can == [True, False]
    assert not model.setData(model.index(1, 2), "5")
    assert not model.setData(model.index(0, 1), "Water")
    assert not model.setData(model.index(0, 2), "5", Qt.ItemDataRole.CheckStateRole)


def test_that_the_editor_begins_with_what_was_typed(qapp):
    model = made(Row(1))
    assert model.index(0, 2).data(Qt.ItemDataRole.EditRole) == "4"
    assert model.index(0, 2).data() == "4.00"


def test_that_figures_stand_right_with_their_heading(qapp):
    model = made(Row(1))
    role = Qt.ItemDataRole.TextAlignmentRole
    assert model.index(0, 2).data(role) & Qt.AlignmentFlag.AlignRight
    assert model.headerData(2, Qt.Orientation.Horizontal, role) & Qt.AlignmentFlag.AlignRight
    assert model.index(0, 1).data(role) & Qt.AlignmentFlag.AlignLeft
    assert model.headerData(2, Qt.Orientation.Horizontal) == "% w/w"
    assert model.headerData(2, Qt.Orientation.Vertical) is None


def test_that_a_shape_without_text_is_read_out(qapp):
    model = made(Row(1, severity="stop"))
    assert model.index(0, 0).data(Qt.ItemDataRole.AccessibleTextRole) == "stop on Glycerin"
    assert model.index(0, 1).data(Qt.ItemDataRole.AccessibleTextRole) is None
    assert model.index(0, 1).data(Qt.ItemDataRole.ToolTipRole) is None


def test_that_rows_set_from_within_the_news_are_refused(qapp):
    model = made(Row(1))
    refused = []

    def meddle() -> None:
        try:
            model.set_rows([])
        except RuntimeError as error:
            refused.append(error)

    model.rowsInserted.connect(meddle)
    model.set_rows([Row(1), Row(2)])
    assert len(refused) == 1
    assert model.rows == (Row(1), Row(2))


@pytest.mark.speed
def test_that_one_changed_row_of_sixty_is_told_within_a_millisecond(qapp):
    columns = tuple(
        Column[Row](f"c{place}", "", lambda row: f"{row.percent:.2f}") for place in range(8)
    )
    rows = [Row(key) for key in range(60)]
    model = made(*rows, columns=columns)
    took = []
    for turn in range(200):
        rows = [*rows[:30], replace(rows[30], percent=Decimal(turn)), *rows[31:]]
        # Rows made anew, as an assessment makes them: equal, but not the same objects.
        fresh = [replace(row) for row in rows]
        began = time.perf_counter()
        model.set_rows(fresh)
        took.append(time.perf_counter() - began)
    assert min(took) <= 0.001
