"""Where the shipped files are, and where the maker's own files go."""

from __future__ import annotations

from pathlib import Path

from platformdirs import user_config_path, user_data_path

_APP = "formulation-workbench"
_PACKAGE = Path(__file__).resolve().parent


def resources(package: Path = _PACKAGE) -> Path:
    """Return the folder of tables, words, fonts and icons."""
    return _shipped(package, "_resources", "resources")


def sample_db(package: Path = _PACKAGE) -> Path:
    """Return the folder that holds the sample studio as plain text."""
    return _shipped(package, "_sample", "sample_db")


def default_studio() -> Path:
    """Return the studio that opens when none is named."""
    return user_data_path(_APP, appauthor=False) / "my.studio"


def sample_studio() -> Path:
    """Return the maker's own copy of the sample studio, which --sample opens."""
    return user_data_path(_APP, appauthor=False) / "sample" / "pebblewick.studio"


def machine_settings() -> Path:
    """Return the file of this machine's settings: theme, language, window, last folder."""
    return user_config_path(_APP, appauthor=False) / "settings.json"


def _shipped(package: Path, inside: str, beside: str) -> Path:
    # A wheel carries the folder inside the package; a source tree has it next to the package.
    carried = package / inside
    return carried if carried.is_dir() else package.parent / beside
