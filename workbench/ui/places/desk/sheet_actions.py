"""The actions of the sheet with their keys: one list for its menu, the menu bar and the keys."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

from workbench.ui.places.desk.columns import ALWAYS, KEYS
from workbench.ui.places.desk.rows import Kind, SheetRow
from workbench.words.catalogue import Words

LINES, CLIPBOARD, PHASES, COLUMNS = "lines", "clipboard", "phases", "columns"


@dataclass(frozen=True, slots=True)
class Spec:
    """Hold one action: its name, group and keys, and the kinds of row it acts on."""

    name: str
    group: str
    keys: str
    kinds: tuple[Kind, ...] = ()


_LINE, _ROWS = (Kind.LINE,), (Kind.LINE, Kind.HEAD)
SPECS = (
    Spec("edit", LINES, "F2", (Kind.LINE, Kind.HEAD, Kind.NEW)),
    Spec("below", LINES, "Ins", _LINE),
    Spec("note", LINES, "Shift+F2", _LINE),
    Spec("lock", LINES, "Ctrl+L", _LINE),
    Spec("rest", LINES, "Ctrl+R", _LINE),
    Spec("to-ph", LINES, "Ctrl+H", _LINE),
    Spec("short", LINES, "Ctrl+T", _LINE),
    Spec("scale", LINES, "Ctrl+Shift+T"),
    Spec("up", LINES, "Ctrl+Up", _LINE),
    Spec("down", LINES, "Ctrl+Down", _LINE),
    Spec("phase-before", LINES, "Alt+Up", _LINE),
    Spec("phase-after", LINES, "Alt+Down", _LINE),
    Spec("swap", LINES, "Ctrl+Shift+X", _LINE),
    Spec("stock", LINES, "Ctrl+Shift+K", _LINE),
    Spec("rebalance", LINES, "Ctrl+B"),
    Spec("delete", LINES, "Del", _ROWS),
    Spec("select-all", CLIPBOARD, "Ctrl+A"),
    Spec("cut", CLIPBOARD, "Ctrl+X", _LINE),
    Spec("copy", CLIPBOARD, "Ctrl+C", _LINE),
    Spec("copy-cell", CLIPBOARD, "Ctrl+Shift+C", _LINE),
    Spec("paste", CLIPBOARD, "Ctrl+V"),
    Spec("steps", PHASES, "Alt+Enter", _ROWS),
    Spec("phase-add", PHASES, "Ctrl+Shift+Enter"),
    Spec("phase-begin", PHASES, "Ctrl+Enter", _LINE),
    Spec("phase-up", PHASES, "Ctrl+Shift+Up", _ROWS),
    Spec("phase-down", PHASES, "Ctrl+Shift+Down", _ROWS),
    Spec("phase-remove", PHASES, "Ctrl+Shift+Del", _ROWS),
    Spec("column-left", COLUMNS, "Ctrl+Shift+Left"),
    Spec("column-right", COLUMNS, "Ctrl+Shift+Right"),
)


class SheetActions(QObject):
    """Hold every action of the sheet."""

    def __init__(
        self, view: QWidget, words: Words, acts: Mapping[str, Callable[[], object]]
    ) -> None:
        super().__init__(view)
        self._view = view
        self._words = words
        self._made = {spec.name: self._action(spec, acts[spec.name]) for spec in SPECS}
        self.columns: dict[str, QAction] = {}
        self._separators = {group: self._separator() for group in (CLIPBOARD, PHASES, COLUMNS)}

    def add_columns(self, choose: Callable[[str, bool], None]) -> None:
        """Add one checkable action for each column that can be hidden."""
        for key in KEYS:
            if key in ALWAYS:
                continue
            action = QAction(self._view)
            action.setObjectName(f"sheet_column_{key}")
            action.setCheckable(True)
            action.setProperty("group", COLUMNS)
            action.triggered.connect(lambda checked=False, key=key: choose(key, checked))
            self.columns[key] = action

    def all(self) -> list[QAction]:
        """Return the actions by group, groups parted by separators."""
        actions: list[QAction] = []
        for group in (LINES, CLIPBOARD, PHASES, COLUMNS):
            if actions:
                actions.append(self._separators[group])
            actions.extend(self._made[spec.name] for spec in SPECS if spec.group == group)
            actions.extend(self.columns.values() if group == COLUMNS else ())
        return actions

    def on_key(self, event: QKeyEvent) -> bool:
        """Do what a key stands for; tell whether it stands for anything."""
        pressed = QKeySequence(_plain(event))
        for action in self._made.values():
            if pressed in action.shortcuts() and action.isEnabled():
                action.trigger()
                return True
        return False

    def show_state(self, row: SheetRow | None) -> None:
        """Offer what can be done with the row the cursor stands in."""
        kind = row.kind if row else Kind.TOTAL
        for spec in SPECS:
            self._made[spec.name].setEnabled(not spec.kinds or kind in spec.kinds)

    def menu(self) -> QMenu:
        """Return the menu of a line or phase."""
        menu = QMenu(self._view)
        for group in (LINES, CLIPBOARD, PHASES):
            if not menu.isEmpty():
                menu.addSeparator()
            for spec in SPECS:
                if spec.group == group and self._made[spec.name].isEnabled():
                    menu.addAction(self._made[spec.name])
        menu.addSeparator()
        sub = menu.addMenu(self._words.say("sheet-menu-columns"))
        self._fill_columns(sub)
        return menu

    def columns_menu(self) -> QMenu:
        """Return the menu of the headings."""
        menu = QMenu(self._view)
        self._fill_columns(menu)
        return menu

    def _fill_columns(self, menu: QMenu) -> None:
        for action in self.columns.values():
            menu.addAction(action)
        menu.addSeparator()
        menu.addAction(self._made["column-left"])
        menu.addAction(self._made["column-right"])

    def _action(self, spec: Spec, act: Callable[[], object]) -> QAction:
        action = QAction(self._words.say(f"sheet-action-{spec.name}"), self._view)
        action.setObjectName(f"sheet_{spec.name.replace('-', '_')}")
        keys = [QKeySequence(spec.keys)]
        if "Enter" in spec.keys:  # the two Enters are the same to a hand
            keys.append(QKeySequence(spec.keys.replace("Enter", "Return")))
        action.setShortcuts(keys)
        # Only while the sheet itself is in focus: in an open cell the same keys move in the text.
        action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        action.setShortcutVisibleInContextMenu(True)
        action.setProperty("group", spec.group)
        action.triggered.connect(lambda _checked=False: act())
        self._view.addAction(action)
        return action

    def _separator(self) -> QAction:
        action = QAction(self._view)
        action.setSeparator(True)
        return action


def _plain(event: QKeyEvent) -> int:
    """Return the key with its modifiers; a key of the number block is the same as the other."""
    modifiers = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    return int(event.key()) | modifiers.value
