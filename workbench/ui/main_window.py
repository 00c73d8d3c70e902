"""The window: the places, the menus, the foot line."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

from PySide6.QtCore import QEvent, Signal
from PySide6.QtGui import QAction, QCloseEvent, QUndoGroup, QUndoStack
from PySide6.QtWidgets import QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from workbench.checks.assessment import Assessment
from workbench.errors import WorkbenchError
from workbench.ui.actions import Menus
from workbench.ui.frame import FootLine, PlaceBar, ruled
from workbench.ui.machine import Machine
from workbench.ui.notices import NoticeBar
from workbench.ui.places.desk.desk import Desk
from workbench.ui.places.desk.files import Files
from workbench.ui.places.desk.make_page import MakePage
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.offered import PLACES, Place, made_place
from workbench.ui.theme import Appearance, SchemeChoice, Theme
from workbench.ui.window_sheets import WindowSheets

WIDTH, HEIGHT = 1280, 800
LEAST_WIDTH, LEAST_HEIGHT = 640, 480
TEXT_STEP, SMALLEST, LARGEST = 0.1, 0.8, 2.0
PAPER_KEYS = (
    "action-worksheet",
    "action-larger",
    "action-smaller",
    "action-usual-size",
    "versions-keep",
)
DESK, SHELF, STUDIO = "desk", "shelf", "studio"


class MainWindow(QMainWindow):
    """Hold the places and the worksheet page on one open studio."""

    machine_changed = Signal(object)
    """The settings of this machine, when the maker changes one."""
    studio_asked = Signal(object)
    """The path of another studio to open."""

    def __init__(
        self,
        work: DeskWork,
        appearance: Appearance,
        notices: NoticeBar,
        machine: Machine | None = None,
    ) -> None:
        super().__init__()
        self.work = work
        self._machine = machine or Machine()
        self._appearance = appearance
        self._notices = notices
        self._words = work.words
        self._made: dict[str, QWidget] = {}
        self._is_closing = False
        self.setObjectName("main_window")
        self.setWindowTitle(self._words.say("window-title", studio=work.studio.path.name))
        self.desk = Desk(work, appearance)
        self.desk.sheet.set_columns(self._machine.sheet_columns)
        self.desk.sheet.columns_changed.connect(self._keep_columns)
        self._made[DESK] = self.desk
        self.make_page = MakePage(work, appearance.theme)
        self.files = Files(work, self, self._machine.folder)
        self.files.folder_used.connect(self._keep_folder)
        self.files.studio_asked.connect(self.studio_asked)
        self._steps = QUndoGroup(self)
        for stack in (work.session.stack, self.desk.list.actions_of_list.steps.stack):
            self._steps.addStack(stack)
        self._steps.setActiveStack(self.desk.undo_stack)
        self.desk.steps.changed.connect(self._follow_desk_steps)
        self._stack = QStackedWidget()
        self._build(appearance.theme)
        self._add_menus()
        self.sheets = WindowSheets(self, self, self.menus, work.studio.search, appearance)
        self._connect()
        self.setMinimumSize(LEAST_WIDTH, LEAST_HEIGHT)
        self.resize(WIDTH, HEIGHT)
        self._open_first()

    @property
    def machine(self) -> Machine:
        """The settings of this machine as they are now."""
        scale = round(self._appearance.theme.scale, 2)
        return replace(self._machine, scheme=self._appearance.choice.value, text_size=scale)

    @property
    def place(self) -> str:
        """The place the maker is in."""
        current = self._stack.currentWidget()
        return next((name for name, made in self._made.items() if made is current), DESK)

    def show_place(self, name: str) -> None:
        """Show a place, made when it is shown first, and put the focus into it."""
        place = next(place for place in PLACES if place.name == name)
        if name not in self._made:
            made = made_place(place, self.work, self._appearance)
            self._made[name] = made
            self._stack.addWidget(made)
            self._connect_place(made)
        self._stack.setCurrentWidget(self._made[name])
        self.bar.show_current(name)
        self._listen_to_desk_keys(enabled=True)
        self._on_assessed(self.work.assessment)
        self._undo_in(self._made[name])
        self._focus_place(self._made[name])

    def show_worksheet(self) -> None:
        """Show the page on which the worksheet is made."""
        if not self.work.key:
            return
        self._stack.setCurrentWidget(self.make_page)
        self.bar.show_current(DESK)
        self._listen_to_desk_keys(enabled=False)
        self.make_page.begin()

    def show_desk(self) -> None:
        """Go back to the Desk."""
        self.show_place(DESK)

    def begin_new(self) -> None:
        """Begin a formula on the Desk."""
        self.show_desk()
        self.desk.begin_new()

    def open_formula(self, key: str) -> None:
        """Open a formula on the Desk."""
        try:
            if key != self.work.key:
                self.work.open(key)
        except WorkbenchError as error:
            self.work.notices.tell(error)
            return
        self.show_desk()

    def show_ingredient(self, key: str) -> None:
        """Show an ingredient on the Shelf."""
        self.show_place(SHELF)
        self._made[SHELF].show_ingredient(key)  # type: ignore[attr-defined]

    def show_shopping(self) -> None:
        """Show on the Shelf what a batch of the open formula needs."""
        self.show_place(SHELF)
        self._made[SHELF].show_shopping(self.work.key)  # type: ignore[attr-defined]

    def show_setting(self, name: str) -> None:
        """Show a setting on the studio page."""
        self.show_place(STUDIO)
        self._made[STUDIO].show_setting(name)  # type: ignore[attr-defined]

    def choose_scheme(self, choice: SchemeChoice) -> None:
        """Take light, dark, or what the system has."""
        self._appearance.choose(choice)
        self.menus.tick_scheme(choice)
        self.machine_changed.emit(replace(self.machine, scheme=choice.value))

    def step_text_size(self, steps: int) -> None:
        """Make the text larger or smaller."""
        self._set_text_size(self._appearance.theme.scale + steps * TEXT_STEP)

    def reset_text_size(self) -> None:
        """Put the text back to the size it is designed in."""
        self._set_text_size(1.0)

    def _set_text_size(self, scale: float) -> None:
        held = min(max(round(scale, 2), SMALLEST), LARGEST)
        self._appearance.set_scale(held)
        self._notices.inform(self._words.say("text-size", percent=round(held * 100)))
        self.machine_changed.emit(self.machine)

    def _keep_columns(self, columns: tuple[str, ...]) -> None:
        self._machine = replace(self.machine, sheet_columns=columns)
        self.machine_changed.emit(self._machine)

    def _keep_folder(self, folder: str) -> None:
        self._machine = replace(self.machine, folder=folder)
        self.machine_changed.emit(self._machine)

    def _listen_to_desk_keys(self, *, enabled: bool) -> None:
        # The paper has these keys too, for print and zoom; heard twice, Qt gives them to neither.
        for name in PAPER_KEYS:
            action = self.findChild(QAction, name)
            if action is not None:
                action.setEnabled(enabled)

    def _build(self, theme: Theme) -> None:
        say = self._words.say
        self.bar = PlaceBar(say("app-name"), say("window-places"), theme)
        for place in PLACES:
            self.bar.add(
                place.name, say(f"place-{place.name}"), place.keys, is_apart=place.is_apart
            )
        self.bar.chosen.connect(self.show_place)
        self.bar.show_current(DESK)
        self.foot = FootLine(say("window-foot"), theme)
        self._stack.addWidget(self.desk)
        self._stack.addWidget(self.make_page)
        column = QVBoxLayout()
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.bar)
        column.addWidget(ruled("ink-rule"))
        column.addWidget(self._stack, 1)
        column.addWidget(ruled("rule"))
        column.addWidget(self.foot)
        body = QWidget()
        body.setLayout(column)
        self._notices.float_over(body, self.foot)
        self.setCentralWidget(body)
        for before, after in pairwise((*self.bar.buttons, self.desk.list.find_line)):
            QWidget.setTabOrder(before, after)
        is_read_only = self.work.studio.read_only
        self.foot.say("saved", say("status-read-only" if is_read_only else "status-saved"))
        self.foot.say("studio", self.work.studio.path.name)
        self.foot.say("rules", say("status-rules", set=self.work.rules.reference_set))

    def _add_menus(self) -> None:
        self.menus = Menus(self, self._words)
        self.menus.add_file(self.files, self.begin_new, self.desk.ask_worksheet)
        self.menus.add_edit(self._steps, self._find, self._find_formula)
        self.menus.add_formula(
            (*self.desk.versions.all(), *self.desk.list.actions_of_list.all()), self.show_shopping
        )
        self.menus.add_view(
            self, [(place.name, place.keys, self._shower(place)) for place in PLACES]
        )
        self.menus.tick_scheme(self._appearance.choice)
        self.menus.add_help(self._show_keys)

    def _shower(self, place: Place) -> Callable[[], None]:
        return lambda: self.show_place(place.name)

    def _show_keys(self) -> None:
        self.sheets.show_keys()

    def _connect(self) -> None:
        work = self.work
        work.assessed.connect(self._on_assessed)
        work.storing.connect(lambda _key: self._say_stored("status-saving"))
        work.saved.connect(lambda _key: self._say_stored("status-saved"))
        work.not_stored.connect(lambda _key: self._say_stored("status-not-stored"))
        self.desk.worksheet_asked.connect(self.show_worksheet)
        self.desk.import_asked.connect(self.files.import_formula)
        self.desk.sample_asked.connect(self.files.open_sample)
        self.desk.versions.desk_wanted.connect(self.show_desk)
        self.desk.old_sheets.desk_wanted.connect(self.show_desk)
        self.desk.old_sheets.document_dropped.connect(self.files.import_from)
        self.desk.old_sheets.listen_for_drops(self)
        self.files.sheet_chosen.connect(self.desk.old_sheets.bring_in)
        self.files.sheet_export_chosen.connect(self.desk.old_sheets.export_to)
        self.make_page.closed.connect(self.show_desk)
        self._appearance.changed.connect(self._on_theme_changed)

    def _connect_place(self, made: QWidget) -> None:
        stack = getattr(made, "undo_stack", None)
        if isinstance(stack, QUndoStack):
            self._steps.addStack(stack)
        draft_wanted = getattr(made, "draft_wanted", None)
        if draft_wanted is not None:
            draft_wanted.connect(self.open_formula)

    def _undo_in(self, made: QWidget) -> None:
        stack = getattr(made, "undo_stack", None)
        own = stack if isinstance(stack, QUndoStack) else self.work.session.stack
        self._steps.setActiveStack(own)

    def _follow_desk_steps(self) -> None:
        if self.place == DESK:
            self._undo_in(self.desk)

    def _focus_place(self, made: QWidget) -> None:
        focus = getattr(made, "focus_place", made.setFocus)
        focus()

    def _find(self) -> None:
        self.sheets.find()

    def _find_formula(self) -> None:
        self.show_desk()
        self.desk.show_list()

    def _open_first(self) -> None:
        if self.work.studio.found.news:
            self.work.notices.inform(self.work.studio.found.news)
        entries = self.work.studio.formulas.entries()
        if entries:
            latest = max(entries, key=lambda entry: entry.edited_at)
            self.work.open(latest.key)
            self.desk.focus_place()

    def _say_stored(self, message: str) -> None:
        if not self.work.studio.read_only:
            self.foot.say("saved", self._words.say(message))

    def _on_assessed(self, assessment: Assessment) -> None:
        # Elsewhere than on the Desk the open formula is not seen, so nothing is said of it.
        names = len(assessment.composition.substances)
        said = self._words.say("status-lines", lines=len(assessment.lines), names=names)
        self.foot.say("lines", said if self.work.key and self.place == DESK else "")

    def _on_theme_changed(self, theme: Theme) -> None:
        self.make_page.set_theme(theme)
        self.bar.set_theme(theme)
        self.foot.set_theme(theme)

    def changeEvent(self, event: QEvent) -> None:
        """Look, on coming back, at what another window stored meanwhile."""
        is_back = event.type() is QEvent.Type.ActivationChange and self.isActiveWindow()
        if is_back and not self._is_closing:
            self.desk.refresh()
        super().changeEvent(event)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Store what waits, then let go of the studio."""
        self._is_closing = True
        self.desk.form.close_editor()
        for made in self._made.values():
            getattr(made, "keep_typed", lambda: None)()
        self.work.tasks.close()
        self.work.studio.close()
        super().closeEvent(event)
