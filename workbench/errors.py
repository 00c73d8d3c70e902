"""The one error that tells the maker about the world outside the program."""

from __future__ import annotations


class WorkbenchError(Exception):
    """Say in ready sentences what went wrong outside, and what the maker can do about it."""

    def __init__(self, what: str, remedy: str = "", detail: str = "") -> None:
        """Keep what happened, what helps, and a technical detail that is shown folded."""
        super().__init__(what, remedy, detail)
        self.what = what
        self.remedy = remedy
        self.detail = detail

    def __str__(self) -> str:
        return f"{self.what} {self.remedy}".rstrip()
