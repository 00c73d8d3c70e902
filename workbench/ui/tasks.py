"""Work beside the window: one worker, answers in order, on the main thread."""

from __future__ import annotations

import threading
import time
from collections import deque
from collections.abc import Callable, Hashable
from dataclasses import dataclass
from typing import Protocol, TypeVar

from PySide6.QtCore import QObject, Qt, QTimer, Signal

from workbench.errors import WorkbenchError

T = TypeVar("T")

Failed = Callable[[WorkbenchError], None]

REST_MS, LONGEST_REST_MS = 150, 1500
"""How long nothing more must come until rested work runs, and how long it waits at most."""


class Tasks(Protocol):
    """Run work that touches no widget, and hand its answer to the main thread.

    Anything but a WorkbenchError that work raises is a bug, and raised again on the main thread.
    """

    def run(self, work: Callable[[], T], done: Callable[[T], None], failed: Failed) -> None:
        """Run the work after all work before it; then call done, or failed, with the answer."""

    def latest(
        self, key: Hashable, work: Callable[[], T], done: Callable[[T], None], failed: Failed
    ) -> None:
        """Run the work in the place of work of the same key that has not begun.

        The replaced work never runs and is never answered; the last one always runs. Work given
        by `run` in between may count on what came before it, so then nothing is replaced.
        """

    def rested(
        self, key: Hashable, work: Callable[[], T], done: Callable[[T], None], failed: Failed
    ) -> None:
        """Run the work as latest does, but only once no more of its key came for a moment.

        Work given in any other way runs after it, and flush and close wait for it.
        """

    def flush(self) -> None:
        """Wait until everything has run and been answered."""

    def close(self) -> None:
        """Wait as flush does, and take no more."""


@dataclass(frozen=True, slots=True)
class _Job:
    """Hold work and its answer as one closure, so that their types meet in one place."""

    attempt: Callable[[], Callable[[], None]]
    key: Hashable | None = None


def _job(
    work: Callable[[], T], done: Callable[[T], None], failed: Failed, key: Hashable | None = None
) -> _Job:
    def attempt() -> Callable[[], None]:
        try:
            answer = work()
        except WorkbenchError as error:
            known = error
            return lambda: failed(known)
        except Exception as error:
            bug = error  # raised again on the main thread
            return lambda: _raise(bug)
        return lambda: done(answer)

    return _Job(attempt, key)


def _raise(error: Exception) -> None:
    raise error


class InlineTasks:
    """Run everything at once, where it is asked for."""

    def run(self, work: Callable[[], T], done: Callable[[T], None], failed: Failed) -> None:
        """Run the work and answer before returning."""
        _job(work, done, failed).attempt()()

    def latest(
        self, key: Hashable, work: Callable[[], T], done: Callable[[T], None], failed: Failed
    ) -> None:
        """Run the work and answer before returning; nothing waits, so nothing is replaced."""
        _job(work, done, failed, key).attempt()()

    def rested(
        self, key: Hashable, work: Callable[[], T], done: Callable[[T], None], failed: Failed
    ) -> None:
        """Run the work and answer before returning."""
        _job(work, done, failed, key).attempt()()

    def flush(self) -> None:
        """Return: nothing waits."""

    def close(self) -> None:
        """Return: nothing waits."""


class ThreadTasks(QObject):
    """Run work on one thread of its own. Made, asked and closed on the main thread."""

    _answered = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._waiting: deque[_Job] = deque()
        self._answers: deque[Callable[[], None]] = deque()
        self._resting: dict[Hashable, _Job] = {}
        self._rest_began = 0.0
        self._rest = QTimer(self, singleShot=True)
        self._rest.timeout.connect(self._end_rest)
        self._is_working = False
        self._is_closed = False
        self._news = threading.Condition()
        self._answered.connect(self._on_answered, Qt.ConnectionType.QueuedConnection)
        # A daemon, so that a crash before close() ends the program instead of hanging it.
        self._thread = threading.Thread(target=self._work_through, name="tasks", daemon=True)
        self._thread.start()

    def run(self, work: Callable[[], T], done: Callable[[T], None], failed: Failed) -> None:
        """Queue the work."""
        self._end_rest()
        self._queue(_job(work, done, failed))

    def latest(
        self, key: Hashable, work: Callable[[], T], done: Callable[[T], None], failed: Failed
    ) -> None:
        """Queue the work in the place of what it makes needless."""
        self._end_rest()
        self._queue(_job(work, done, failed, key))

    def rested(
        self, key: Hashable, work: Callable[[], T], done: Callable[[T], None], failed: Failed
    ) -> None:
        """Queue the work when the keys rest, and while they do not, now and then."""
        if self._is_closed:
            raise RuntimeError("the tasks are closed")
        now = time.monotonic()
        if not self._resting:
            self._rest_began = now
        self._resting[key] = _job(work, done, failed, key)
        left = round(LONGEST_REST_MS - (now - self._rest_began) * 1000)
        self._rest.start(max(min(REST_MS, left), 0))

    def _end_rest(self) -> None:
        self._rest.stop()
        jobs, self._resting = tuple(self._resting.values()), {}
        for job in jobs:
            self._queue(job)

    def flush(self) -> None:
        """Wait until the queue is empty, and answer everything before returning."""
        while not self._is_idle():
            self._end_rest()
            with self._news:
                self._news.wait_for(lambda: not self._waiting and not self._is_working)
            while self._answers:
                self._on_answered()

    def close(self) -> None:
        """Wait for the queue and end the thread; safe to call twice."""
        try:
            self.flush()
        finally:
            with self._news:
                self._is_closed = True
                self._news.notify_all()
            self._thread.join()

    def _is_idle(self) -> bool:
        with self._news:
            return not (self._resting or self._waiting or self._is_working or self._answers)

    def _queue(self, job: _Job) -> None:
        with self._news:
            if self._is_closed:
                raise RuntimeError("the tasks are closed")
            needless = self._needless(job.key)
            if needless is not None:
                self._waiting.remove(needless)
            self._waiting.append(job)
            self._news.notify_all()

    def _needless(self, key: Hashable | None) -> _Job | None:
        for job in reversed(self._waiting):
            if job.key is None:
                return None
            if job.key == key:
                return job
        return None

    def _work_through(self) -> None:
        while True:
            with self._news:
                self._news.wait_for(lambda: self._waiting or self._is_closed)
                if not self._waiting:
                    return
                job = self._waiting.popleft()
                self._is_working = True
            answer = job.attempt()
            with self._news:
                self._answers.append(answer)
                self._is_working = False
                self._answered.emit()
                self._news.notify_all()

    def _on_answered(self) -> None:
        # One signal per answer; flush may have been quicker than the signal.
        if self._answers:
            self._answers.popleft()()
