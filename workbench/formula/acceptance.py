"""Cautions the maker has looked at and accepted, each with a reason."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Acceptance:
    """Hold that a finding was accepted, as it stood then.

    Parameters
    ----------
    finding : str
        Code of the finding.
    about : tuple of str
        Ingredients and substances it is about, by key, sorted.
    value : str
        The figure it showed, as text; a finding that shows another one is open again.
    reason : str
        Why, in the maker's words.
    """

    finding: str
    about: tuple[str, ...]
    value: str
    reason: str

    @property
    def subject(self) -> tuple[str, tuple[str, ...]]:
        """Return what the acceptance is about, whatever the figure."""
        return (self.finding, self.about)
