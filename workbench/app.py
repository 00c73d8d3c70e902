"""Compose the window on a studio and run it."""

from __future__ import annotations

import gc
import sys
import traceback
from datetime import datetime
from pathlib import Path
from types import TracebackType

from PySide6.QtWidgets import QApplication, QMessageBox

from workbench import paths
from workbench.checks.compatibility import with_own_rules
from workbench.errors import WorkbenchError
from workbench.storage.opening import open_studio
from workbench.storage.reference.limits import load_rules
from workbench.storage.reference.shipped import Shipped
from workbench.storage.studio import Studio
from workbench.ui.machine import Machine, load_machine, save_machine
from workbench.ui.main_window import MainWindow
from workbench.ui.notices import NoticeBar
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.tasks import ThreadTasks
from workbench.ui.theme import Appearance, SchemeChoice
from workbench.words.catalogue import Words, load_words

BAD_INPUT = 2


def run(studio_path: Path | None) -> int:
    """Open the window on a studio, the maker's own by default; return the exit code."""
    application = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(application, QApplication)
    application.setApplicationName("Formulation Workbench")
    machine = load_machine(paths.machine_settings())
    appearance = Appearance(
        paths.resources(), SchemeChoice(machine.scheme), machine.text_size, application
    )
    appearance.apply()
    words = load_words(paths.resources() / "words")
    try:
        studio = _opened(studio_path or paths.default_studio())
    except WorkbenchError as error:
        return _told_before_window(error, application, words)
    windows = Windows(appearance, words, machine)
    windows.show(studio)
    settle()
    return application.exec()


class Windows:
    """Show one studio at a time; opening another closes the window of the one before."""

    def __init__(
        self, appearance: Appearance, words: Words, machine: Machine | None = None
    ) -> None:
        self._appearance = appearance
        self._words = words
        self._machine = machine or Machine()
        self.window: MainWindow | None = None

    def show(self, studio: Studio) -> None:
        """Show a studio in a window of its own, and let go of the one before."""
        before = self.window
        self._words.style = studio.settings.load().decimal_style
        window = compose(studio, self._appearance, self._words, self._machine)
        window.machine_changed.connect(self._on_machine_changed)
        window.studio_asked.connect(self.open)
        self.window = window
        window.show()
        if before is not None:
            before.close()
            before.deleteLater()

    def open(self, path: Path) -> None:
        """Open another studio; when that cannot be, say so where the maker is."""
        try:
            studio = open_studio(path)
        except WorkbenchError as error:
            if self.window is not None:
                self.window.work.notices.tell(error)
            return
        self.show(studio)

    def _on_machine_changed(self, machine: Machine) -> None:
        self._machine = machine
        save_machine(paths.machine_settings(), machine)


def compose(
    studio: Studio, appearance: Appearance, words: Words, machine: Machine | None = None
) -> MainWindow:
    """Put the window together on an open studio, as it was left on this machine."""
    notices = NoticeBar(words)
    own = studio.own_rules.read()
    for refused in own.refused:
        notices.tell(refused)
    work = DeskWork(
        studio,
        with_own_rules(load_rules(paths.resources() / "reference"), own.rules),
        words,
        ThreadTasks(),
        notices,
        datetime.now,
    )
    window = MainWindow(work, appearance, notices, machine)
    sys.excepthook = _Fault(notices, words)
    return window


def settle() -> None:
    """Keep the tables out of every later collection, once, when the program has started.

    They stay for as long as it runs; walked through each time, they would hold up a key press
    for tens of milliseconds.
    """
    gc.freeze()


def _opened(path: Path) -> Studio:
    path.parent.mkdir(parents=True, exist_ok=True)
    is_new = not path.exists()
    studio = open_studio(path, create=True)
    if is_new:
        shipped = Shipped(paths.resources() / "reference")
        studio.settings.set_balances(shipped.balances)
    return studio


def _told_before_window(error: WorkbenchError, application: QApplication, words: Words) -> int:
    sys.stderr.write(f"formulation-workbench: {error}\n")
    box = QMessageBox(QMessageBox.Icon.NoIcon, words.say("app-name"), error.what)
    box.setInformativeText(error.remedy)
    box.finished.connect(application.quit)
    box.open()
    application.exec()
    return BAD_INPUT


class _Fault:
    """Tell of a fault of the program; what was stored stays as it was."""

    def __init__(self, notices: NoticeBar, words: Words) -> None:
        self._notices = notices
        self._words = words

    def __call__(
        self, kind: type[BaseException], fault: BaseException, trace: TracebackType | None
    ) -> None:
        text = "".join(traceback.format_exception(kind, fault, trace))
        sys.stderr.write(text)
        if issubclass(kind, KeyboardInterrupt):
            QApplication.quit()
            return
        self._notices.tell(
            WorkbenchError(self._words.say("app-fault"), self._words.say("app-fault-remedy"), text)
        )
