"""A tour of every screen: `python -m tests.tour OUT_DIR [part of a screen's name ...]`.

Each screen is shown in light and dark, at 100 % and 200 %, at 1280x800 and 1024x700, and stored
as a picture. A screen is one line in SCREENS: a name, and what brings the window there.
"""

from __future__ import annotations

import os
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication

from workbench import paths
from workbench.app import compose
from workbench.formula.edits import with_percent
from workbench.formula.formula import Formula
from workbench.storage.opening import create_studio, open_studio
from workbench.storage.sample import build_sample
from workbench.ui.main_window import MainWindow
from workbench.ui.places.studio.rules_page import RulesPage
from workbench.ui.theme import Appearance, SchemeChoice
from workbench.words.catalogue import load_words

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
OPENED = "Harbour Fog lotion"
LONG_NAME = "Harbour Fog overnight hand and forearm lotion for gardeners, third trial with less wax"


@dataclass(frozen=True, slots=True)
class Screen:
    """A name, what brings the window there, and on which studio."""

    name: str
    show: Callable[[MainWindow], object]
    studio: str = "sample"


@dataclass(frozen=True, slots=True)
class Look:
    """How a screen is looked at."""

    scheme: str
    scale: float
    width: int
    height: int

    @property
    def name(self) -> str:
        return f"{self.width}x{self.height}-{self.scheme}-{round(self.scale * 100)}"


LOOKS = tuple(
    Look(scheme, scale, width, height)
    for width, height, scale in ((1280, 800, 1.0), (1024, 700, 1.0), (1280, 800, 2.0))
    for scheme in ("light", "dark")
)


def _type(window: MainWindow, key: str) -> None:
    window.begin_new()
    new = window.desk.new
    for row in range(new.list.count()):
        new.list.setCurrentRow(row)
        if new._key() == key:
            return


def _find(window: MainWindow, typed: str) -> None:
    window.sheets.find()
    window.sheets._finder.line.setText(typed)


def _rename(window: MainWindow, name: str) -> None:
    window.work.edit("Rename", lambda formula: replace(formula, name=name))


def _over(window: MainWindow) -> None:
    line = next(line for line in window.work.formula.lines() if not line.is_rest)
    window.work.edit("Set", lambda formula: with_percent(formula, line.id, Decimal(99)))


def _delete(window: MainWindow) -> None:
    actions = window.desk.list.actions_of_list
    row = next(row for row in window.desk.list.formulas if row.version is None and not row.used_in)
    actions.delete(row)


def _stale(window: MainWindow) -> None:
    work = window.work
    with open_studio(work.studio.path) as other:
        formula, counter = other.formulas.draft(work.key)
        other.formulas.save_draft(work.key, replace(formula, pack="jar"), counter)
    _rename(window, "Changed here as well")


def _glycerin(window: MainWindow, percent: str) -> None:
    lines = window.work.formula.lines()
    line = next(line for line in lines if line.ingredient == "glycerin")
    window.work.edit("Set", lambda formula: with_percent(formula, line.id, Decimal(percent)))


def _versions(window: MainWindow) -> None:
    work = window.work
    for reason, percent in (("first trial", "4"), ("more glycerin, was too dry", "6")):
        _glycerin(window, percent)
        work.tasks.flush()
        work.studio.versions.make_version(work.key, reason, NOON, work.shelf)
    _glycerin(window, "5.5")
    work.edit("Pack", lambda formula: replace(formula, pack="pump bottle"))
    window.desk.versions._show()


def _keep(window: MainWindow) -> None:
    _versions(window)
    window.show_desk()
    window.desk._on_left()
    window.desk.versions.ask_to_keep()


OLD_SHEET = """Formula,Gannet Point balm
Phase,Ingredient,INCI,Grams,Cost,Notes
A,Shea butter,,120,2.40,refined
A,Jojoba,Simmondsia Chinensis Seed Oil,80.5,1.10,
A,Cetyl alcohol,,"12-15",0.20,
B,Vitamin E,,2,,
B,Grandmother's rose water,,a splash,,
,Total,,214.5,,
Made in March, filled hot
"""


def _old_sheet(window: MainWindow) -> None:
    window.desk.old_sheets.bring_in_text(OLD_SHEET)


def _archive(window: MainWindow) -> None:
    listed = window.desk.list
    window.work.studio.formulas.set_tags(listed.formulas[0].key, ("winter", "gardeners"))
    window.work.studio.formulas.archive(listed.formulas[-1].key)
    listed._want(is_archive_shown=True)


def _line(window: MainWindow, ingredient: str) -> int:
    lines = (line for line in window.work.formula.lines() if line.ingredient == ingredient)
    found = next(lines, None)
    line = found.id if found is not None else next(window.work.formula.lines()).id
    window.desk.sheet.focus_line(line)
    return line


def _swap_over(window: MainWindow) -> None:
    shelf = window.work.shelf
    preservative = next(
        line.ingredient
        for line in window.work.formula.lines()
        if shelf.purpose(line.ingredient) == "preservative"
    )
    window.desk.rework.swap(_line(window, preservative))
    parts = window.desk.rework.page._parts.edit
    parts.setText("4")
    parts.textEdited.emit("4")


def _rebalance(window: MainWindow, way: str) -> None:
    window.desk.rework.rebalance(_line(window, "glycerin"))
    ways = window.desk.rework.panel.list
    for row in range(ways.count()):
        if way in ways.item(row).text():
            ways.setCurrentRow(row)


def _stock_note(window: MainWindow) -> None:
    stock = next(row for row in window.desk.list.formulas if row.used_in)
    window.work.open(stock.key)
    line = next(line for line in window.work.formula.lines() if not line.is_rest)
    window.work.edit("Set", lambda formula: with_percent(formula, line.id, Decimal(3)))


def _rules(window: MainWindow) -> RulesPage:
    window.show_place("studio")
    place = window._stack.currentWidget()
    place.show_rules()
    return place.rules


SCREENS = (
    Screen("desk", lambda window: window.show_desk()),
    Screen("desk-first", lambda window: window.show_desk(), "empty"),
    Screen("desk-none-open", lambda window: window.work.close()),
    Screen("desk-long-name", lambda window: _rename(window, LONG_NAME)),
    Screen("desk-stop", _over),
    Screen("desk-product", lambda window: window.desk.form.open_editor("product")),
    Screen("desk-batch", lambda window: window.desk.form.open_editor("batch")),
    Screen("desk-notes", lambda window: window.desk.form.open_editor("notes")),
    Screen("swap", lambda window: window.desk.rework.swap(_line(window, "glycerin"))),
    Screen("swap-over-limit", _swap_over),
    Screen("stock", lambda window: window.desk.rework.stock(_line(window, "xanthan_gum"))),
    Screen("rebalance", lambda window: _rebalance(window, "Active matter")),
    Screen("rebalance-refused", lambda window: _rebalance(window, "Within")),
    Screen("stock-note", _stock_note),
    Screen("list-archive-and-tags", _archive),
    Screen("list-nothing-fits", lambda window: window.desk.list._want(typed="zzz")),
    Screen("list-deleted", _delete),
    Screen("list-second-window", _stale),
    Screen("versions", _versions),
    Screen("sheet-import", _old_sheet),
    Screen("sheet-import-nothing", lambda window: window.desk.old_sheets.bring_in_text("a,b\nc")),
    Screen("versions-keep", _keep),
    Screen("read-only", lambda window: window.show_desk(), "read-only"),
    Screen("read-only-studio", lambda window: window.show_place("studio"), "read-only"),
    Screen("new-blank", lambda window: window.begin_new()),
    Screen("new-lotion", lambda window: _type(window, "lotion")),
    Screen("new-shampoo", lambda window: _type(window, "shampoo")),
    Screen("shelf", lambda window: window.show_place("shelf")),
    Screen("shelf-ingredient", lambda window: window.show_ingredient("glycerin")),
    Screen("studio", lambda window: window.show_place("studio")),
    Screen("studio-balances", lambda window: window.show_setting("balances")),
    Screen("studio-rules", lambda window: _rules(window).choose("carbomer-without-base")),
    Screen("studio-rules-own", lambda window: _rules(window).copy("carbomer-without-base")),
    Screen("find-nothing-typed", lambda window: window.sheets.find()),
    Screen("find", lambda window: _find(window, "gly")),
    Screen("find-nothing", lambda window: _find(window, "zzzz")),
    Screen("keys", lambda window: window.sheets.show_keys()),
    Screen("worksheet", lambda window: window.show_worksheet()),
)


class Tour:
    """Show screens on copies of small studios, and store pictures of them."""

    def __init__(self, out: Path, folder: Path) -> None:
        """Make the studios the screens are shown on."""
        self._out = out
        self._folder = folder
        out.mkdir(parents=True, exist_ok=True)
        self._words = load_words(paths.resources() / "words")
        self._appearance = Appearance(paths.resources(), SchemeChoice.LIGHT)
        self._appearance.apply()
        self._sample = build_sample(paths.sample_db(), folder / "sample", lambda: NOON)
        self._empty = folder / "my.studio"
        create_studio(self._empty, clock=lambda: NOON).close()

    def shoot(self, screen: Screen, look: Look) -> Path:
        """Show a screen in a window of its own and store its picture."""
        with self._window(screen, look) as window:
            screen.show(window)
            settle(window)
            picture = self._out / f"{screen.name}-{look.name}.png"
            assert window.grab().save(str(picture))
        return picture

    @contextmanager
    def _window(self, screen: Screen, look: Look) -> Iterator[MainWindow]:
        appearance = self._appearance
        appearance.choose(SchemeChoice(look.scheme))
        appearance.set_scale(look.scale)
        path = self._copy(screen.studio)
        studio = open_studio(path, read_only=screen.studio == "read-only")
        self._words.style = studio.settings.load().decimal_style
        window = compose(studio, appearance, self._words)
        for row in window.desk.list.formulas:
            if row.name == OPENED:
                window.work.open(row.key)
        window.resize(look.width, look.height)
        window.show()
        settle(window)
        try:
            yield window
        finally:
            window.close()
            window.deleteLater()
            QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
            QApplication.processEvents()

    def _copy(self, name: str) -> Path:
        source = self._empty if name == "empty" else self._sample
        path = self._folder / "shown" / source.name
        path.parent.mkdir(exist_ok=True)
        for old in path.parent.glob(f"{source.name}*"):
            old.unlink()
        path.write_bytes(source.read_bytes())
        return path


def settle(window: MainWindow) -> None:
    """Let everything be stored, answered and painted."""
    for _ in range(3):
        window.work.tasks.flush()
        QApplication.processEvents()


def drafts(window: MainWindow) -> tuple[Formula, ...]:
    """Return the drafts of the studio a window shows."""
    formulas = window.work.studio.formulas
    return tuple(formulas.draft(entry.key)[0] for entry in formulas.entries())


def main(words: list[str]) -> int:
    """Store the pictures of every screen, or of those whose names hold one of the words."""
    if not words:
        sys.stderr.write("python -m tests.tour OUT_DIR [part of a screen's name ...]\n")
        return 2
    application = QApplication.instance() or QApplication(sys.argv[:1])
    assert application is not None
    wanted = [
        screen
        for screen in SCREENS
        if not words[1:] or any(word in screen.name for word in words[1:])
    ]
    with tempfile.TemporaryDirectory() as folder:
        tour = Tour(Path(words[0]), Path(folder))
        for screen in wanted:
            for look in LOOKS:
                sys.stdout.write(f"{tour.shoot(screen, look)}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
