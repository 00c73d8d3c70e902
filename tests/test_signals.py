from __future__ import annotations

from PySide6.QtCore import QObject, Signal

EMISSIONS = 5_000


class Source(QObject):
    flagged = Signal(bool)
    pair = Signal(bool, object)


def test_that_thousands_of_signals_with_truth_values_arrive():
    # PySide6 6.12 on Python 3.11 drops a reference to True at each emission and aborts here.
    heard: list[bool] = []
    source = Source()
    source.flagged.connect(heard.append)
    source.pair.connect(lambda flag, _: heard.append(flag))
    for number in range(EMISSIONS):
        source.flagged.emit(number % 2 == 0)
        source.pair.emit(True, None)
    assert len(heard) == 2 * EMISSIONS
    assert sum(heard) == EMISSIONS // 2 + EMISSIONS
