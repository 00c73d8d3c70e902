"""Sources where there is one line for them."""

from __future__ import annotations

import re

_CLAUSE_ENDS = re.compile(r"(?:[.:,](?= )| (?=\())")
_ONE_LINE = 44


def short_source(source: str) -> str:
    """Return how a source begins, ended where a clause ends, so that it takes one line.

    >>> short_source("Common practice, to be confirmed by a challenge test. Half of the inocula")
    'Common practice'
    """
    first = source.partition(" | ")[0].partition("; ")[0]
    if len(first) <= _ONE_LINE:
        return first
    ends = [part.start() for part in _CLAUSE_ENDS.finditer(first)]
    fitting = [end for end in ends if end <= _ONE_LINE]
    return first[: max(fitting)] if fitting else first[: min(ends)] if ends else first
