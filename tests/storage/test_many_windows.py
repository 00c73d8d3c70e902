from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import threading
import time
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from workbench.errors import WorkbenchError
from workbench.storage.check import check_studio
from workbench.storage.opening import create_studio, open_studio

ROOT = Path(__file__).resolve().parents[2]

# Starts an editor at each line it is given, so that fifty need not each load the program anew.
# An editor edits without end and says the number of each edit once it is stored.
NURSERY = """
import os, sys
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from workbench.storage.opening import open_studio

def say(what, number):
    os.write(1, f"{what} {number}\\n".encode())  # whole lines, though two processes write them

def edit():
    studio = open_studio(Path(sys.argv[1]))
    while True:
        formula, counter = studio.formulas.draft("gel")
        percent = Decimal(counter + 1) / 10000
        formula = formula.with_line(replace(formula.line(2), percent=percent))
        counter = studio.formulas.save_draft("gel", formula, counter)
        say("stored", counter)

for _ in sys.stdin:
    editor = os.fork()
    if editor == 0:
        edit()
    say("started", editor)
    os.waitpid(editor, 0)
    say("ended", editor)
"""


def kill_between_edits(nursery: subprocess.Popen[str], wait_s: float) -> int:
    """Let an editor edit, kill it, and return the last edit it said was stored."""
    said = {"started": 0, "stored": 0}
    nursery.stdin.write("go\n")
    nursery.stdin.flush()
    while not (said["started"] and said["stored"]):
        what, number = nursery.stdout.readline().split()
        assert what != "ended", "the editor ended by itself"
        said[what] = int(number)
    time.sleep(wait_s)
    os.kill(said["started"], signal.SIGKILL)
    while "ended" not in said:
        what, number = nursery.stdout.readline().split()
        said[what] = int(number)
    return said["stored"]


def stored(path: Path) -> int:
    studio = open_studio(path)
    formula, counter = studio.formulas.draft("gel")
    assert formula.line(2).percent * 10000 == counter
    studio.close()
    return counter


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no fork and no kill -9 here")
def test_that_fifty_sudden_ends_lose_at_most_the_edit_in_progress(studio, gel):
    first = gel.with_line(replace(gel.line(2), percent=Decimal("0.0001")))
    studio.formulas.create("Gel", first)
    studio.close()
    waits = random.Random(20261103)
    command = [sys.executable, "-c", NURSERY, str(studio.path)]
    with subprocess.Popen(
        command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as nursery:
        for _ in range(50):
            said = kill_between_edits(nursery, waits.uniform(0, 0.03))
            assert said <= stored(studio.path) <= said + 1
        nursery.stdin.close()
    assert check_studio(studio.path).is_whole


def test_that_two_windows_may_edit_two_formulas_of_one_studio(studio_path, gel):
    one, other = open_studio(studio_path), open_studio(studio_path)
    keys = [one.formulas.create("One", gel), other.formulas.create("Two", gel)]
    for counter in range(1, 20):
        assert one.formulas.save_draft(keys[0], gel, counter) == counter + 1
        assert other.formulas.save_draft(keys[1], gel, counter) == counter + 1
    assert one.formulas.draft(keys[1])[1] == 20
    one.close()
    other.close()
    assert check_studio(studio_path).is_whole


def test_that_of_two_windows_on_one_formula_the_later_is_told(studio_path, gel):
    one, other = open_studio(studio_path), open_studio(studio_path)
    key = one.formulas.create("Gel", gel)
    _, counter = other.formulas.draft(key)
    one.formulas.save_draft(key, gel, counter)
    with pytest.raises(WorkbenchError, match="changed in another window"):
        other.formulas.save_draft(key, gel, counter)
    one.close()
    other.close()


def test_that_another_process_sees_and_is_seen(studio, gel, run_python):
    studio.formulas.create("Gel", gel)
    program = """
import sys
from pathlib import Path
from workbench.storage.opening import open_studio
studio = open_studio(Path(sys.argv[1]))
formula, counter = studio.formulas.draft("gel")
print(studio.formulas.save_draft("gel", formula, counter))
studio.close()
"""
    assert run_python("-c", program, str(studio.path)).stdout == "2\n"
    assert studio.formulas.draft("gel")[1] == 2
    with pytest.raises(WorkbenchError, match="changed in another window"):
        studio.formulas.save_draft("gel", gel, 1)


def test_that_the_main_thread_reads_while_a_worker_writes(studio, gel):
    key = studio.formulas.create("Gel", gel)
    stop = threading.Event()

    def write() -> None:
        counter = 1
        while not stop.is_set():
            counter = studio.formulas.save_draft(key, gel, counter)

    worker = threading.Thread(target=write)
    worker.start()
    try:
        counters = [1]
        while worker.is_alive() and counters[-1] < 50:
            counters.append(studio.formulas.draft(key)[1])
        assert len(studio.search("gly")) == 20
    finally:
        stop.set()
        worker.join()
    assert counters == sorted(counters)
    assert counters[-1] >= 50


def test_that_of_two_that_create_one_studio_one_is_refused(tmp_path):
    path = tmp_path / "mine.studio"
    results: list[str] = []

    def create() -> None:
        try:
            create_studio(path).close()
            results.append("made")
        except WorkbenchError as error:
            results.append(error.what)

    threads = [threading.Thread(target=create) for _ in range(2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(results) == [
        "There is already a file 'mine.studio', and it is not written over.",
        "made",
    ]
    assert check_studio(path).is_whole
    assert [file.name for file in tmp_path.iterdir()] == ["mine.studio"]
