"""What only some readers of an assessment ask for, worked out when they do."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property

from workbench.checks.checked_values import Checked
from workbench.checks.labelled import Labelled


class Late:
    """Work out the label and the page of what was checked, each once, when it is first read.

    Both follow from what the assessment was made of alone, so that it makes no difference when.
    """

    def __init__(
        self, label: Callable[[], Labelled], checked: Callable[[Labelled], Checked]
    ) -> None:
        """Take how each is worked out."""
        self._label = label
        self._checked = checked

    @cached_property
    def label(self) -> Labelled:
        """Return what belongs on the label."""
        return self._label()

    @cached_property
    def checked(self) -> Checked:
        """Return what was checked, and what not."""
        return self._checked(self.label)
