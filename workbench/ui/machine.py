"""Settings of the machine: how the window looks here, in one JSON file."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, fields
from pathlib import Path

SCHEMES = ("system", "light", "dark")
SMALLEST, LARGEST = 0.8, 2.5


@dataclass(frozen=True, slots=True)
class Machine:
    """Hold the choices of this machine: colour scheme, text size (1 as designed), last folder.

    `sheet_columns` are the columns of the sheet in their order, nothing for the usual ones.
    """

    scheme: str = "system"
    text_size: float = 1.0
    folder: str = ""
    sheet_columns: tuple[str, ...] = ()


def load_machine(file: Path) -> Machine:
    """Return the settings; what is missing or makes no sense is as by default."""
    stored = _stored(file)
    plain = Machine()
    scheme, size, folder, chosen = (stored.get(field.name) for field in fields(Machine))
    return Machine(
        scheme=scheme if isinstance(scheme, str) and scheme in SCHEMES else plain.scheme,
        text_size=min(max(float(size), SMALLEST), LARGEST)
        if isinstance(size, int | float)
        else plain.text_size,
        folder=folder if isinstance(folder, str) else plain.folder,
        sheet_columns=tuple(key for key in chosen if isinstance(key, str))
        if isinstance(chosen, list)
        else plain.sheet_columns,
    )


def save_machine(file: Path, machine: Machine) -> None:
    """Store the settings, keeping keys this program does not know; a full disk loses only them."""
    data = _stored(file) | asdict(machine)
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        made = file.with_suffix(".new")
        made.write_text(json.dumps(data, indent=2) + "\n", encoding="utf-8")
        made.replace(file)
    except OSError:
        return  # the look of a window is not worth an error at the desk


def _stored(file: Path) -> dict[str, object]:
    try:
        data = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return data if isinstance(data, dict) else {}
