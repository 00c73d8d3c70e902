from __future__ import annotations

import csv
import os
import shutil
import tempfile
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from workbench import paths
from workbench.formula.formula import Formula, Line, Phase, Plan
from workbench.storage.opening import create_studio, open_studio
from workbench.storage.studio import Studio

REFERENCE = paths.resources() / "reference"
NOON = datetime(2026, 11, 3, 12, 0, tzinfo=UTC)
NOBODY = 65534


class FakeClock:
    """A clock that moves one second each time it is read."""

    def __init__(self) -> None:
        self.now = NOON

    def __call__(self) -> datetime:
        self.now += timedelta(seconds=1)
        return self.now


@pytest.fixture(scope="session")
def shipped_count() -> int:
    """How many ingredients the program ships: the rows of their table, counted as text."""
    with (REFERENCE / "ingredients.csv").open(encoding="utf-8", newline="") as file:
        return sum(1 for _ in csv.reader(file)) - 1


@pytest.fixture(scope="session")
def new_studio_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A studio as it is created, closed; copy it before use."""
    path = tmp_path_factory.mktemp("new") / "new.studio"
    create_studio(path, REFERENCE, clock=lambda: NOON).close()
    return path


@pytest.fixture
def studio_path(new_studio_file: Path, tmp_path: Path) -> Path:
    """A new studio of this test's own, closed."""
    return Path(shutil.copy(new_studio_file, tmp_path / "pebblewick.studio"))


@pytest.fixture
def studio(studio_path: Path) -> Iterator[Studio]:
    """A new studio of this test's own, open, its clock running by seconds from noon."""
    opened = open_studio(studio_path, reference_folder=REFERENCE, clock=FakeClock())
    yield opened
    opened.close()


@pytest.fixture
def make_formula() -> Callable[..., Formula]:
    """Make a formula of one phase from pairs of ingredient and percent, "rest" once."""

    def make(*lines: tuple[str, str], name: str = "Oat & quince gel", **changes) -> Formula:
        phase = Phase(
            id=1,
            name="Water phase",
            kind="water",
            lines=tuple(
                Line(id=place, ingredient=key, percent=None if text == "rest" else Decimal(text))
                for place, (key, text) in enumerate(lines, 1)
            ),
        )
        return Formula(name=name, phases=(phase,), **changes)

    return make


@pytest.fixture
def gel(make_formula: Callable[..., Formula]) -> Formula:
    """A gel with a plan and a target."""
    return make_formula(
        ("water", "rest"),
        ("glycerin", "4.00"),
        ("xanthan_gum", "0.35"),
        product_type="gel",
        target_ph=(Decimal("5.0"), Decimal("5.6")),
        plan=Plan(batch_mass=Decimal(500)),
    )


@pytest.fixture
def as_ordinary_user(tmp_path: Path) -> Callable[[], AbstractContextManager[None]]:
    """Run a block as somebody whom file modes bind, which they do not bind root."""

    @contextmanager
    def ordinary() -> Iterator[None]:
        if os.name == "nt":
            pytest.skip("file modes do not bind here")
        if os.geteuid() != 0:
            yield
            return
        for folder in (tmp_path, *tmp_path.parents):
            if folder.stat().st_uid == 0 and folder.is_relative_to(tempfile.gettempdir()):
                folder.chmod(folder.stat().st_mode | 0o055)
        os.setresuid(NOBODY, NOBODY, 0)  # the way back stays open in the saved id
        try:
            yield
        finally:
            os.setresuid(0, 0, 0)

    return ordinary
