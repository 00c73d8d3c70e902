from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from workbench.storage.opening import create_studio


@pytest.fixture(autouse=True)
def _read_once(one_reading_of_the_tables: None) -> None:
    """Read the tables once for all commands of this process."""


@pytest.fixture(scope="session")
def new_studio_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A studio as it is created, closed; copy it before use."""
    path = tmp_path_factory.mktemp("new") / "new.studio"
    create_studio(path).close()
    return path


@pytest.fixture
def studio(new_studio_file: Path, tmp_path: Path) -> Path:
    """A new studio of this test's own, closed."""
    return Path(shutil.copy(new_studio_file, tmp_path / "pebblewick.studio"))
