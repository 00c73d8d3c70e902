"""The window: the places, the menus, the foot line."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction, QCloseEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QMainWindow,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from workbench.checks.assessment import Assessment
from workbench.ui.actions import Menus
from workbench.ui.machine import Machine
from workbench.ui.notices import NoticeBar
from workbench.ui.places.desk.desk import Desk
from workbench.ui.places.desk.files import Files
from workbench.ui.places.desk.make_page import MakePage
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Appearance, SchemeChoice, Theme

WIDTH, HEIGHT = 1280, 800
TEXT_STEP = 0.1
PAPER_KEYS = ("action-worksheet", "action-larger", "action-smaller")


class MainWindow(QMainWindow):
    """Hold the Desk and the worksheet page on one open studio."""

    machine_changed = Signal(object)
    """The settings of this machine, when the maker changes one."""
    studio_asked = Signal(object)
    """The path of another studio to open."""

    def __init__(self, work: DeskWork, appearance: Appearance, notices: NoticeBar) -> None:
        super().__init__()
        self.work = work
        self._appearance = appearance
        self._notices = notices
        self._words = work.words
        self._foot: dict[str, QLabel] = {}
        self.setObjectName("main_window")
        self.setWindowTitle(self._words.say("window-title", studio=work.studio.path.name))
        self.desk = Desk(work, appearance)
        self.make_page = MakePage(work, appearance.theme)
        self.files = Files(work, self)
        self.files.studio_asked.connect(self.studio_asked)
        self._stack = QStackedWidget()
        self._build()
        menus = Menus(self, work.words)
        menus.add_file(self.files, self.desk.ask_worksheet)
        menus.add_edit(work.session)
        menus.add_view(self)
        self._connect()
        self.resize(WIDTH, HEIGHT)
        self._open_first()

    @property
    def machine(self) -> Machine:
        """The settings of this machine as they are now."""
        scale = self._appearance.theme.scale
        return Machine(self._appearance.choice.value, round(scale, 2))

    def show_worksheet(self) -> None:
        """Show the page on which the worksheet is made."""
        if not self.work.key:
            return
        self._stack.setCurrentWidget(self.make_page)
        self._listen_to_desk_keys(enabled=False)
        self.make_page.begin()

    def show_desk(self) -> None:
        """Go back to the Desk."""
        self._stack.setCurrentWidget(self.desk)
        self._listen_to_desk_keys(enabled=True)
        self.desk.setFocus()

    def choose_scheme(self, choice: SchemeChoice) -> None:
        """Take light, dark, or what the system has."""
        self._appearance.choose(choice)
        self.machine_changed.emit(replace(self.machine, scheme=choice.value))

    def step_text_size(self, steps: int) -> None:
        """Make the text larger or smaller."""
        scale = min(max(self._appearance.theme.scale + steps * TEXT_STEP, 0.8), 2.0)
        self._appearance.set_scale(scale)
        self.machine_changed.emit(self.machine)

    def _listen_to_desk_keys(self, *, enabled: bool) -> None:
        # The paper has these keys too, for print and zoom; heard twice, Qt gives them to neither.
        for name in PAPER_KEYS:
            action = self.findChild(QAction, name)
            if action is not None:
                action.setEnabled(enabled)

    def _build(self) -> None:
        theme = self._appearance.theme
        column = QVBoxLayout()
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(self._head(theme))
        column.addWidget(_rule("ink-rule"))
        self._stack.addWidget(self.desk)
        self._stack.addWidget(self.make_page)
        column.addWidget(self._stack, 1)
        column.addWidget(self._notices)
        column.addWidget(_rule("rule"))
        column.addLayout(self._foot_line(theme))
        body = QWidget()
        body.setLayout(column)
        self.setCentralWidget(body)

    def _head(self, theme: Theme) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(theme.px(20), 0, theme.px(20), 0)
        row.setSpacing(theme.px(28))
        name = QLabel(self._words.say("app-name"))
        name.setProperty("role", "strong")
        place = QPushButton(self._words.say("place-desk"))
        place.setProperty("role", "place")
        place.setCheckable(True)
        place.setChecked(True)
        place.setAutoExclusive(True)
        place.clicked.connect(self.show_desk)
        row.addWidget(name)
        row.addWidget(place)
        row.addStretch(1)
        return row

    def _foot_line(self, theme: Theme) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(theme.px(20), theme.px(5), theme.px(20), theme.px(5))
        row.setSpacing(theme.px(24))
        for key in ("saved", "studio", "lines"):
            row.addWidget(self._small(key))
        row.addStretch(1)
        row.addWidget(self._small("rules"))
        is_read_only = self.work.studio.read_only
        self._foot["saved"].setText(
            self._words.say("status-read-only" if is_read_only else "status-saved")
        )
        self._foot["studio"].setText(self.work.studio.path.name)
        self._foot["rules"].setText(
            self._words.say("status-rules", set=self.work.rules.reference_set)
        )
        return row

    def _small(self, key: str) -> QLabel:
        label = QLabel()
        label.setObjectName(f"foot_{key}")
        label.setProperty("role", "small")
        self._foot[key] = label
        return label

    def _connect(self) -> None:
        self.work.assessed.connect(self._on_assessed)
        self.work.saved.connect(self._on_saved)
        self.work.session.changed.connect(self._on_edited)
        self.desk.worksheet_asked.connect(self.show_worksheet)
        self.make_page.closed.connect(self.show_desk)
        self._appearance.changed.connect(self._on_theme_changed)

    def _open_first(self) -> None:
        entries = self.work.studio.formulas.entries()
        if entries:
            latest = max(entries, key=lambda entry: entry.edited_at)
            self.work.open(latest.key)

    def _on_assessed(self, assessment: Assessment) -> None:
        self._foot["lines"].setText(
            self._words.say(
                "status-lines",
                lines=len(assessment.lines),
                names=len(assessment.composition.substances),
            )
        )

    def _on_edited(self) -> None:
        if self.work.session.stack.count():
            self._foot["saved"].setText(self._words.say("status-saving"))

    def _on_saved(self, _key: str) -> None:
        self._foot["saved"].setText(self._words.say("status-saved"))

    def _on_theme_changed(self, theme: Theme) -> None:
        self.make_page.set_theme(theme)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Store what waits, then let go of the studio."""
        self.work.tasks.close()
        self.work.studio.close()
        super().closeEvent(event)


def _rule(role: str) -> QFrame:
    line = QFrame()
    line.setFrameShape(QFrame.Shape.NoFrame)
    line.setProperty("role", role)
    line.setFixedHeight(1)
    return line
