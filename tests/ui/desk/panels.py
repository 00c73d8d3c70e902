"""A studio of one lotion, a balm and a stock, and the work on it, for the tests of the panels."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.fakes import FakeNotices
from workbench.checks.rules import Rules
from workbench.formula.formula import Formula, Line, Phase, Plan
from workbench.paths import resources
from workbench.storage.opening import create_studio, open_studio
from workbench.storage.reference.limits import load_rules
from workbench.storage.studio import Studio
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.tasks import InlineTasks
from workbench.ui.theme import Theme, load_fonts, load_palette
from workbench.words.catalogue import load_words
from workbench.words.numbers import NumberStyle

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


@dataclass
class RunningClock:
    """A clock that moves one second each time it is read."""

    now: datetime = NOON

    def __call__(self) -> datetime:
        self.now += timedelta(seconds=1)
        return self.now


@dataclass
class Parts:
    work: DeskWork
    notices: FakeNotices
    clock: RunningClock
    lotion: str


@cache
def rules() -> Rules:
    return load_rules(resources() / "reference")


def theme(scheme: str = "light", scale: float = 1.0) -> Theme:
    return Theme(load_palette(scheme, resources()), load_fonts(resources()), scale)


def formula_of(*lines: tuple[str, str], **changes) -> Formula:
    phase = Phase(
        id=1,
        name="Water phase",
        kind="water",
        lines=tuple(
            Line(id=place, ingredient=key, percent=None if text == "rest" else Decimal(text))
            for place, (key, text) in enumerate(lines, 1)
        ),
    )
    return Formula(**{"name": "", "phases": (phase,), **changes})


LOTION = formula_of(
    ("water", "rest"),
    ("glycerin", "4"),
    ("xanthan_gum", "0.2"),
    ("benzyl_alcohol_dha", "1"),
    product_type="lotion",
    area="hand",
    markets=("EU", "UK"),
    target_ph=(Decimal("5.0"), Decimal("5.4")),
    plan=Plan(batch_mass=Decimal(1000)),
)


@cache
def _filled() -> tuple[bytes, str, datetime]:
    """Fill a studio once; every test gets a copy, at the moment its clock had come to."""
    clock = RunningClock()
    with TemporaryDirectory() as folder:
        path = Path(folder) / "made.studio"
        with create_studio(path, resources() / "reference", clock=clock) as studio:
            lotion = studio.formulas.create("Harbour Fog lotion", LOTION)
            fill(studio, clock)
        return path.read_bytes(), lotion, clock.now


def make_parts(folder: Path, style: NumberStyle = NumberStyle.POINT) -> Parts:
    """Make a studio and the work on it; nothing is open yet."""
    content, lotion, now = _filled()
    path = folder / "pebblewick.studio"
    path.write_bytes(content)
    clock = RunningClock(now)
    studio = open_studio(path, reference_folder=resources() / "reference", clock=clock)
    notices = FakeNotices()
    words = load_words(resources() / "words", style=style)
    work = DeskWork(studio, rules(), words, InlineTasks(), notices, clock)
    return Parts(work, notices, clock, lotion)


def fill(studio: Studio, clock: RunningClock) -> None:
    stock = formula_of(("water", "rest"), ("xanthan_gum", "1"), product_type="stock")
    gum = studio.formulas.create("Xanthan gum 1 %", stock)
    gel = studio.formulas.create("Oat Quilt gel", formula_of(("water", "rest"), (gum, "20")))
    draft, _counter = studio.formulas.draft(gel)
    studio.versions.make_version(gel, "first", clock(), studio.shelf_for(draft))
