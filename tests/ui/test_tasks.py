from __future__ import annotations

import threading

import pytest

from workbench.errors import WorkbenchError
from workbench.ui.tasks import REST_MS, InlineTasks, ThreadTasks

WAIT_S = 10


@pytest.fixture
def tasks(qapp):
    made = ThreadTasks()
    yield made
    made.close()


def unwanted(error: WorkbenchError) -> None:
    raise AssertionError(str(error))


def locked() -> None:
    raise WorkbenchError("The studio is locked.", "Close the other window.")


def broken() -> None:
    raise ZeroDivisionError("a bug")


class Gate:
    """Work that holds the worker until it is let go."""

    def __init__(self) -> None:
        self.begun = threading.Event()
        self.free = threading.Event()

    def __call__(self) -> None:
        self.begun.set()
        assert self.free.wait(WAIT_S)

    def hold(self, tasks: ThreadTasks) -> None:
        tasks.run(self, lambda _answer: None, unwanted)
        assert self.begun.wait(WAIT_S)


def test_that_work_runs_beside_and_answers_on_the_main_thread(qtbot, tasks):
    seen = []
    tasks.run(
        threading.get_ident, lambda worker: seen.append((worker, threading.get_ident())), unwanted
    )
    qtbot.waitUntil(lambda: bool(seen))
    worker, answered = seen[0]
    assert worker != answered == threading.get_ident()


def test_that_answers_come_in_the_order_of_the_questions(tasks):
    answers = []
    for number in range(50):
        tasks.run(lambda n=number: n, answers.append, unwanted)
    tasks.flush()
    assert answers == list(range(50))


def test_that_an_error_of_the_world_outside_goes_to_failed(qtbot, tasks):
    failures = []
    tasks.run(locked, lambda _answer: None, failures.append)
    qtbot.waitUntil(lambda: bool(failures))
    assert failures[0].what == "The studio is locked."


def test_that_a_bug_is_raised_again_on_the_main_thread(qtbot, tasks):
    with qtbot.captureExceptions() as caught:
        tasks.run(broken, lambda _answer: None, unwanted)
        qtbot.waitUntil(lambda: bool(caught))
    assert caught[0][0] is ZeroDivisionError


def test_that_the_worker_outlives_a_bug(qtbot, tasks):
    answers = []
    with qtbot.captureExceptions():
        tasks.run(broken, lambda _answer: None, unwanted)
        tasks.run(lambda: "next", answers.append, unwanted)
        qtbot.waitUntil(lambda: bool(answers))
    assert answers == ["next"]


def test_that_of_the_latest_only_the_last_that_waits_runs(tasks):
    gate, ran, answers = Gate(), [], []
    gate.hold(tasks)
    for number in range(20):
        tasks.latest("draft 1", lambda n=number: ran.append(n) or n, answers.append, unwanted)
    gate.free.set()
    tasks.flush()
    assert ran == answers == [19]


def test_that_the_latest_of_different_keys_all_run(tasks):
    gate, ran = Gate(), []
    gate.hold(tasks)
    for key, number in (("a", 1), ("b", 1), ("a", 2), ("b", 2)):
        tasks.latest(key, lambda k=key, n=number: ran.append((k, n)), lambda _a: None, unwanted)
    gate.free.set()
    tasks.flush()
    assert ran == [("a", 2), ("b", 2)]


def test_that_work_in_between_still_finds_what_came_before_it(tasks):
    gate, ran = Gate(), []
    gate.hold(tasks)
    tasks.latest("draft", lambda: ran.append("save 1"), lambda _a: None, unwanted)
    tasks.run(lambda: ran.append("make a version"), lambda _a: None, unwanted)
    tasks.latest("draft", lambda: ran.append("save 2"), lambda _a: None, unwanted)
    gate.free.set()
    tasks.flush()
    assert ran == ["save 1", "make a version", "save 2"]


def test_that_work_that_has_begun_is_not_replaced(tasks):
    gate, ran = Gate(), []
    tasks.latest("draft", lambda: gate() or ran.append(1), lambda _a: None, unwanted)
    assert gate.begun.wait(WAIT_S)
    tasks.latest("draft", lambda: ran.append(2), lambda _a: None, unwanted)
    gate.free.set()
    tasks.flush()
    assert ran == [1, 2]


def test_that_flush_waits_for_work_that_an_answer_asks_for(tasks):
    answers = []
    tasks.run(
        lambda: 1,
        lambda _answer: tasks.run(lambda: 2, answers.append, unwanted),
        unwanted,
    )
    tasks.flush()
    assert answers == [2]


def test_that_closing_waits_for_the_queue(qapp):
    tasks, gate, ran = ThreadTasks(), Gate(), []
    gate.hold(tasks)
    tasks.run(lambda: ran.append("last"), lambda _answer: None, unwanted)
    threading.Timer(0.05, gate.free.set).start()
    tasks.close()
    assert ran == ["last"]


def test_that_closing_ends_the_thread_even_when_an_answer_is_a_bug(qapp):
    tasks = ThreadTasks()
    tasks.run(broken, lambda _answer: None, unwanted)
    with pytest.raises(ZeroDivisionError):
        tasks.close()
    assert "tasks" not in [thread.name for thread in threading.enumerate()]


def test_that_closed_tasks_take_no_more(qapp):
    tasks = ThreadTasks()
    tasks.close()
    tasks.close()
    with pytest.raises(RuntimeError, match="closed"):
        tasks.run(lambda: 1, lambda _answer: None, unwanted)


def test_that_inline_tasks_answer_before_they_return():
    answers, failures = [], []
    tasks = InlineTasks()
    tasks.run(lambda: 1, answers.append, unwanted)
    tasks.latest("key", lambda: 2, answers.append, unwanted)
    tasks.run(locked, answers.append, failures.append)
    assert answers == [1, 2]
    assert len(failures) == 1
    with pytest.raises(ZeroDivisionError):
        tasks.run(broken, answers.append, unwanted)


def test_that_rested_work_waits_until_nothing_more_comes(qtbot, tasks):
    ran = []
    for number in range(3):
        tasks.rested("draft", lambda n=number: ran.append(n), lambda _a: None, unwanted)
    qtbot.wait(REST_MS // 3)
    assert ran == []
    qtbot.waitUntil(lambda: ran == [2], timeout=WAIT_S * 1000)


def test_that_rested_work_runs_now_and_then_while_more_comes(qtbot, tasks, monkeypatch):
    monkeypatch.setattr("workbench.ui.tasks.LONGEST_REST_MS", 60)
    ran = []
    for number in range(6):
        tasks.rested("draft", lambda n=number: ran.append(n), lambda _a: None, unwanted)
        qtbot.wait(30)
    assert ran  # though each came well before the rest of the one before it was over


def test_that_flush_waits_for_rested_work(tasks):
    ran = []
    tasks.rested("draft", lambda: ran.append("saved"), lambda _a: None, unwanted)
    tasks.flush()
    assert ran == ["saved"]


def test_that_closing_loses_no_rested_work(qapp):
    tasks, ran = ThreadTasks(), []
    tasks.rested("draft", lambda: ran.append("saved"), lambda _a: None, unwanted)
    tasks.close()
    assert ran == ["saved"]
    with pytest.raises(RuntimeError):
        tasks.rested("draft", lambda: None, lambda _a: None, unwanted)


def test_that_other_work_finds_what_rested_before_it(tasks):
    ran = []
    tasks.rested("draft", lambda: ran.append("saved"), lambda _a: None, unwanted)
    tasks.run(lambda: ran.append("version made"), lambda _a: None, unwanted)
    tasks.flush()
    assert ran == ["saved", "version made"]
