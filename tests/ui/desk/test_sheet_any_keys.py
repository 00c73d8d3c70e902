"""Any keys pressed on the sheet: what is shown is what the draft holds, and undo takes all back."""

from __future__ import annotations

import random

import pytest
from PySide6.QtCore import Qt

from tests.ui.desk.hand import ALT, CTRL, NONE, SHIFT, Hand
from tests.ui.desk.panels import make_parts
from workbench.ui.places.desk.rows import rows_of

KEY = Qt.Key
TYPED = ("5", "2.5", "gly", "niac", "x", "1,234", "12 g", "q.s.", "note")
KEYS = (
    *((key, NONE) for key in (KEY.Key_Down, KEY.Key_Up, KEY.Key_Left, KEY.Key_Right, KEY.Key_F2)),
    *((key, NONE) for key in (KEY.Key_Escape, KEY.Key_Return, KEY.Key_Tab, KEY.Key_Insert)),
    *((key, NONE) for key in (KEY.Key_Delete, KEY.Key_PageDown)),
    *((key, SHIFT) for key in (KEY.Key_Down, KEY.Key_Up, KEY.Key_Backtab, KEY.Key_F2)),
    *((key, CTRL) for key in (KEY.Key_Down, KEY.Key_Up, KEY.Key_L, KEY.Key_R, KEY.Key_H)),
    *((key, CTRL) for key in (KEY.Key_T, KEY.Key_Z, KEY.Key_Y, KEY.Key_Return, KEY.Key_Home)),
    *((key, CTRL) for key in (KEY.Key_End, KEY.Key_A, KEY.Key_X)),
    *((key, ALT) for key in (KEY.Key_Down, KEY.Key_Up, KEY.Key_Return)),
    *((key, CTRL | SHIFT) for key in (KEY.Key_Up, KEY.Key_Down, KEY.Key_Return, KEY.Key_T)),
    *((key, CTRL | SHIFT) for key in (KEY.Key_Delete, KEY.Key_Left, KEY.Key_Right)),
)


@pytest.mark.parametrize("seed", range(3))
def test_that_any_200_keys_undone_give_back_the_draft_exactly(qtbot, tmp_path, seed):
    chance = random.Random(seed)
    parts = make_parts(tmp_path)
    parts.work.open(parts.lotion)
    hand = Hand(qtbot, parts)
    work, first = parts.work, parts.work.formula
    hand.sheet.setFocus()
    for _ in range(200):
        panel = hand.sheet._panel
        over = hand.sheet.focusWidget() if panel is not None and panel.isVisible() else None
        target = hand.editor or over or hand.sheet
        if chance.random() < 0.25:
            qtbot.keyClicks(target, chance.choice(TYPED))
        else:
            qtbot.keyClick(target, *chance.choice(KEYS))
        wanted = rows_of(work.formula, work.assessment, work.shelf, work.words)
        assert hand.sheet.rows[:-1] == wanted[:-1]  # the last one says where a name would go
    while work.session.stack.canUndo():
        work.session.stack.undo()
    assert work.formula == first
    assert parts.notices.told == []
