"""Whose paper it is: name, contact and logo of the studio a command was given."""

from __future__ import annotations

from pathlib import Path

from workbench.documents.worksheet_content import StudioBlock
from workbench.storage.opening import open_studio


def asked_studio_block(studio: Path | None) -> StudioBlock:
    """Return the block of a studio, empty without one."""
    if studio is None:
        return StudioBlock("", "")
    with open_studio(studio, read_only=True) as opened:
        settings, logo = opened.settings.load(), opened.settings.logo()
    return StudioBlock(settings.name, settings.contact, logo)
