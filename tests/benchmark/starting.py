"""From the command to a painted, usable window, as a process of its own."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

from tests.benchmark.timing import Spread, spread

ROUNDS = 7
CHILD = """
import sys, time
begun = time.perf_counter()
from pathlib import Path
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from workbench import paths
from workbench.app import compose
from workbench.storage.opening import open_studio
from workbench.ui.theme import Appearance
from workbench.words.catalogue import load_words
application = QApplication([])
appearance = Appearance(paths.resources())
appearance.apply()
window = compose(
    open_studio(Path(sys.argv[1])), appearance, load_words(paths.resources() / "words")
)
window.show()
window.repaint()
painted = time.perf_counter() - begun
def usable():
    print(painted, time.perf_counter() - begun, flush=True)
    window.close()
    application.quit()
QTimer.singleShot(0, usable)
application.exec()
"""


def start_times(studio: Path) -> dict[str, Spread]:
    """Start the program several times and return when it was painted and when usable."""
    painted: list[float] = []
    usable: list[float] = []
    process: list[float] = []
    for _ in range(ROUNDS):
        begun = time.perf_counter()
        ran = subprocess.run(
            [sys.executable, "-c", CHILD, str(studio)],
            capture_output=True,
            text=True,
            check=True,
            timeout=60,
        )
        process.append(time.perf_counter() - begun)
        first, second = (float(word) for word in ran.stdout.split())
        painted.append(first)
        usable.append(second)
    return {
        "start: window painted": spread(painted),
        "start: window usable": spread(usable),
        "start: whole process, opened and closed": spread(process),
    }
