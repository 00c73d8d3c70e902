"""A hand at the keys of the sheet."""

from __future__ import annotations

from PySide6.QtCore import Qt

from tests.ui.desk.panels import theme
from workbench.ui.places.desk.rows import NEW_ID, line_id
from workbench.ui.places.desk.sheet import SheetView

SHIFT, CTRL, ALT, NONE = (
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.NoModifier,
)


class Hand:
    """Press keys on the sheet, and in the editor while one is open."""

    def __init__(self, qtbot, parts):
        self.parts = parts
        self.work = parts.work
        self.bot = qtbot
        self.sheet = SheetView(parts.work, theme())
        qtbot.addWidget(self.sheet)
        self.sheet.resize(900, 500)
        self.sheet.show()

    @property
    def editor(self):
        return self.sheet._delegate.editor

    def at(self, line, key="percent"):
        self.sheet.setCurrentIndex(self.sheet._model.index_of(line_id(line), key))

    def head(self, phase, key="ingredient"):
        self.sheet.setCurrentIndex(self.sheet._model.index_of(("phase", phase), key))

    @property
    def order(self):
        return [[line.id for line in phase.lines] for phase in self.work.formula.phases]

    def undo(self):
        self.work.session.stack.undo()

    def new(self):
        self.sheet.setCurrentIndex(self.sheet._model.index_of(NEW_ID, "ingredient"))

    def press(self, key, modifiers=NONE):
        self.bot.keyClick(self.editor or self.sheet, key, modifiers)

    def type(self, text):
        for letter in text:
            self.bot.keyClicks(self.editor or self.sheet, letter)

    def enter(self, text):
        self.type(text)
        self.press(Qt.Key.Key_Return)

    def percent(self, line):
        return self.work.formula.line(line).percent
