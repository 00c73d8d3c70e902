from __future__ import annotations

import os

# Qt reads this when its first application object is made, so it comes before every other import.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
# numpy reads this when it is loaded: on matrices this small, more threads only wait for each other.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import inspect
import subprocess
import sys
import time
from collections.abc import Callable, Generator, Iterator
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

ROOT = Path(__file__).resolve().parents[1]
GOLDEN = ROOT / "tests" / "golden"
BREATH_S = 3

# Two test processes on a small machine make a time limit for each example a coin toss.
settings.register_profile(
    "steady", deadline=None, suppress_health_check=[HealthCheck.too_slow], database=None
)
settings.load_profile("steady")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-golden",
        action="store_true",
        help="write the texts the tests produce into tests/golden instead of comparing",
    )


@pytest.hookimpl(wrapper=True)
def pytest_pyfunc_call(pyfuncitem: pytest.Function) -> Generator[None, object, object]:
    """Measure a time once more when it was over its limit: the machine may have been busy."""
    try:
        return (yield)
    except AssertionError:
        if pyfuncitem.get_closest_marker("speed") is None:
            raise
    time.sleep(BREATH_S)
    names = inspect.signature(pyfuncitem.obj).parameters
    pyfuncitem.obj(**{name: pyfuncitem.funcargs[name] for name in names})
    return True


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    """Compare a text with the file of that name in tests/golden."""

    def compare(name: str, text: str) -> None:
        file = GOLDEN / name
        if request.config.getoption("--update-golden"):
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, encoding="utf-8", newline="\n")
            return
        assert file.exists(), f"{file} is not there yet: run once with --update-golden and read it"
        assert text == file.read_text(encoding="utf-8"), f"differs from {file}"

    return compare


@pytest.fixture(scope="session")
def one_reading_of_the_tables() -> Iterator[None]:
    """Let the commands run in this process share what is read from the tables of the program."""
    from workbench.cli import asked_formula, import_formula
    from workbench.storage.reference.shipped import Shipped

    shipped = cache(Shipped)
    with pytest.MonkeyPatch.context() as patch:
        for command in (asked_formula, import_formula):
            patch.setattr(command, "Shipped", shipped)
        yield


@pytest.fixture
def run_python() -> Callable[..., subprocess.CompletedProcess[str]]:
    """Run this Python in the source tree, as a program of its own."""

    def run(
        *words: str, environment: dict[str, str] | None = None
    ) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, *words],
            cwd=ROOT,
            env={**os.environ, **(environment or {})},
            capture_output=True,
            text=True,
            encoding="utf-8",
            timeout=60,
            check=False,
        )

    return run
