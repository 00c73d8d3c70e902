"""The whole window on a small studio, and the keys as somebody presses them."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from tests.builders import make_formula
from workbench import paths
from workbench.app import compose
from workbench.storage.opening import create_studio, open_studio
from workbench.ui.main_window import MainWindow
from workbench.ui.theme import Appearance, SchemeChoice
from workbench.words.catalogue import Words, load_words

CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


@cache
def _appearance() -> Appearance:
    appearance = Appearance(paths.resources(), SchemeChoice.LIGHT)
    appearance.apply()
    return appearance


@cache
def _words() -> Words:
    return load_words(paths.resources() / "words")


@cache
def _studio_bytes(*names: str) -> bytes:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "made.studio"
        with create_studio(path) as studio:
            for name in names:
                formula = make_formula(("water*", "0"), ("glycerin", "4.00"))
                studio.formulas.create(name, formula)
        return path.read_bytes()


def small_studio(path: Path, *names: str) -> Path:
    """Write a studio with formulas of these names; made once, then copied."""
    path.write_bytes(_studio_bytes(*names))
    return path


def make_window(path: Path, *, read_only: bool = False) -> MainWindow:
    """Return the window on a studio, shown and ready for keys."""
    # Windows of tests before are gone for good only now; each would be dressed anew as well.
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    appearance = _appearance()
    studio = open_studio(path, read_only=read_only)
    words = _words()
    words.style = studio.settings.load().decimal_style
    window = compose(studio, appearance, words)
    window.show()
    window.activateWindow()
    settle(window)
    return window


def settle(window: MainWindow) -> None:
    """Let everything be stored, answered and painted."""
    for _ in range(3):
        window.work.tasks.flush()
        QApplication.processEvents()


@dataclass
class Hand:
    """Press keys where the focus is, and count them; a letter, a digit or a chord is one."""

    window: MainWindow
    steps: list[str] = field(default_factory=list)

    def press(self, *keys: Qt.Key, ctrl: bool = False, shift: bool = False) -> None:
        modifiers = Qt.KeyboardModifier.NoModifier
        if ctrl:
            modifiers |= CTRL
        if shift:
            modifiers |= SHIFT
        for key in keys:
            name = key.name.removeprefix("Key_")
            self.steps.append(f"Ctrl+{name}" if ctrl else name)
            QTest.keyClick(self._target(), key, modifiers)
            settle(self.window)

    def type(self, text: str) -> None:
        for letter in text:
            self.steps.append(letter)
            QTest.keyClicks(self._target(), letter)
            settle(self.window)

    def _target(self) -> QWidget:
        return QApplication.focusWidget() or self.window
