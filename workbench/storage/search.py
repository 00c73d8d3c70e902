"""Search as the maker types: the name first, then its words, then the full text."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sqlalchemy import Connection, bindparam, select, text

from workbench.storage.folding import folded
from workbench.storage.json_text import to_text
from workbench.storage.on_hand import available
from workbench.storage.schema import FULL_TEXT, SearchEntryRow, SearchTailRow
from workbench.storage.search_index import CAS, INCI, INCI_WORD, NAME_WORD
from workbench.storage.studio_file import StudioFile

_PAST_EVERY_LETTER = "\U0010ffff"
_MOST_WORDS = 8
# So many rows of an index, in its order, are put in order of fit. At the size of the shipped
# tables that is all of them; in a huge studio two letters fit thousands, and any twenty will do.
_POOL = 120

# How well a hit fits, best first.
_EXACT_NAME, _EXACT_INCI, _NAME_START, _NAME_WORD, _INCI_START, _INCI_WORD, _CAS = range(7)


@dataclass(frozen=True, slots=True)
class Hit:
    """Hold one thing found: its key, its name, its INCI text, and whether it is a stock."""

    key: str
    name: str
    inci: str
    is_stock: bool


@dataclass(frozen=True, slots=True)
class _Match:
    hit: Hit
    kind: int
    matched: str

    def order(self, asked: str) -> tuple[int, bool, tuple[int, int], str, str]:
        """Order by kind, then whole words, then what is nearest to its end."""
        is_whole = self.matched == asked or self.matched.startswith(f"{asked} ")
        kind = self.kind
        if self.matched == asked and kind in _WHEN_EXACT:
            kind = _WHEN_EXACT[kind]
        nearest = (len(self.matched), len(self.hit.inci))
        return (kind, not is_whole, nearest, self.hit.name, self.hit.key)


_WHEN_EXACT = {_NAME_START: _EXACT_NAME, _INCI_START: _EXACT_INCI}


class Search:
    """Find ingredients and stocks by what is typed."""

    def __init__(self, file: StudioFile) -> None:
        """Take the file to search in."""
        self._file = file

    def __call__(self, typed: str, limit: int = 20, *, on_hand: bool = False) -> tuple[Hit, ...]:
        """Return what fits, best first, for text of any kind; on wish only what is on hand.

        The order is: the whole name, the whole INCI name, the start of the name, of a word in
        it, of the INCI name, of a word in that, of a CAS number; then, unranked, whatever
        holds all the words anywhere.
        """
        asked = folded(typed)
        if not asked or limit < 1:
            return ()
        hits: dict[str, Hit] = {}
        with self._file.reading() as connection:
            there = to_text(sorted(available(connection))) if on_hand else None
            for found in _tiers(connection, _Asked(asked, max(_POOL, limit), limit, there)):
                for hit in found:
                    hits.setdefault(hit.key, hit)
                if len(hits) >= limit:
                    break
        return tuple(hits.values())[:limit]


@dataclass(frozen=True, slots=True)
class _Asked:
    """Hold what was typed, folded; `there` are the keys to find among, as JSON, None for all."""

    text: str
    pool: int
    limit: int
    there: str | None

    @property
    def values(self) -> dict[str, str | int]:
        known = {} if self.there is None else {"there": self.there}
        past = self.text + _PAST_EVERY_LETTER
        return {"first": self.text, "past": past, "pool": self.pool, **known}


def _tiers(connection: Connection, asked: _Asked) -> Iterator[list[Hit]]:
    starts = _by_name(connection, asked) + _by_tail(connection, INCI, asked)
    if sum(match.kind == _NAME_START for match in starts) < asked.limit:
        starts += _by_tail(connection, NAME_WORD, asked)
    yield _sorted(starts, asked.text)
    yield _sorted(_by_tail(connection, INCI_WORD, asked), asked.text)
    if asked.text[0].isdigit():
        yield _sorted(_by_tail(connection, CAS, asked), asked.text)
    yield _by_text(connection, asked)


def _sorted(matches: list[_Match], asked: str) -> list[Hit]:
    return [match.hit for match in sorted(matches, key=lambda match: match.order(asked))]


def _by_name(connection: Connection, asked: _Asked) -> list[_Match]:
    query = _BY_NAME if asked.there is None else _BY_NAME_THERE
    return [
        _Match(Hit(key, name, inci, bool(is_stock)), _NAME_START, matched)
        for key, name, inci, is_stock, matched in connection.execute(query, asked.values)
    ]


def _by_tail(connection: Connection, place: int, asked: _Asked) -> list[_Match]:
    query = _BY_TAIL if asked.there is None else _BY_TAIL_THERE
    return [
        _Match(Hit(key, name, inci, bool(is_stock)), _KINDS[place], matched)
        for key, name, inci, is_stock, matched in connection.execute(
            query, {"place": place, **asked.values}
        )
    ]


def _by_text(connection: Connection, asked: _Asked) -> list[Hit]:
    # The folded text holds letters, digits and single spaces only, so nothing in it is syntax.
    words = " ".join(f'"{word}"*' for word in asked.text.split()[:_MOST_WORDS])
    values: dict[str, str | int] = {"words": words, "most": 2 * asked.limit}
    if asked.there is None:
        rows = connection.execute(_BY_TEXT, values)
    else:
        rows = connection.execute(_BY_TEXT_THERE, {**values, "there": asked.there})
    return [Hit(row.key, row.name, row.inci, bool(row.is_stock)) for row in rows]


_KINDS = {NAME_WORD: _NAME_WORD, INCI: _INCI_START, INCI_WORD: _INCI_WORD, CAS: _CAS}
_SHOWN = (
    SearchEntryRow.key,
    SearchEntryRow.name,
    SearchEntryRow.inci,
    SearchEntryRow.is_stock,
)
_BY_NAME = (
    select(*_SHOWN, SearchEntryRow.folded_name)
    .where(SearchEntryRow.folded_name >= bindparam("first"))
    .where(SearchEntryRow.folded_name < bindparam("past"))
    .order_by(SearchEntryRow.folded_name, SearchEntryRow.key)
    .limit(bindparam("pool"))
)
_BY_TAIL = (
    select(*_SHOWN, SearchTailRow.tail)
    .join(SearchTailRow, SearchTailRow.entry_id == SearchEntryRow.id)
    .where(SearchTailRow.kind == bindparam("place"))
    .where(SearchTailRow.tail >= bindparam("first"))
    .where(SearchTailRow.tail < bindparam("past"))
    .order_by(SearchTailRow.tail, SearchTailRow.entry_id)
    .limit(bindparam("pool"))
)
# Among the few that are on hand it is quicker to look at each than at all that begins so.
_THERE = (
    "FROM (SELECT value FROM json_each(:there)) AS there"
    " CROSS JOIN search_entries ON search_entries.key = there.value"
)
_BY_NAME_THERE = text(
    f"SELECT key, name, inci, is_stock, folded_name {_THERE}"
    " WHERE folded_name >= :first AND folded_name < :past"
    " ORDER BY folded_name, key LIMIT :pool"
)
_BY_TAIL_THERE = text(
    f"SELECT key, name, inci, is_stock, tail {_THERE}"
    " CROSS JOIN search_tails ON search_tails.entry_id = search_entries.id"
    " WHERE kind = :place AND tail >= :first AND tail < :past"
    " ORDER BY tail, entry_id LIMIT :pool"
)
_TEXT_QUERY = (
    f"SELECT key, name, inci, is_stock FROM {FULL_TEXT}"
    f" JOIN search_entries ON search_entries.id = {FULL_TEXT}.rowid"
    f" WHERE {FULL_TEXT} MATCH :words{{among}} LIMIT :most"
)
_BY_TEXT = text(_TEXT_QUERY.format(among=""))
_BY_TEXT_THERE = text(_TEXT_QUERY.format(among=" AND key IN (SELECT value FROM json_each(:there))"))
