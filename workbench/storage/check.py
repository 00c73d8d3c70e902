"""Whether a studio is whole: its pages, its references, and every draft and version in it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from sqlalchemy import Connection, func, select

from workbench.errors import WorkbenchError
from workbench.storage.backup import integrity
from workbench.storage.failures import told
from workbench.storage.ingredients import ingredient_of
from workbench.storage.inspection import Verdict, look
from workbench.storage.revisions import MIGRATIONS, Migrations
from workbench.storage.salvage import damage_report
from workbench.storage.schema import (
    AttachmentRow,
    Base,
    BatchRow,
    FormulaRow,
    IngredientRow,
    SupplyRow,
    VersionRow,
)
from workbench.storage.sentences import refusal, sentence
from workbench.storage.stored_formula import UNREADABLE, formula_of
from workbench.storage.studio_file import StudioFile
from workbench.storage.supplies import allergens_of
from workbench.storage.versions import version_formula


@dataclass(frozen=True, slots=True)
class CheckReport:
    """Hold what a check of a studio found; `problems` are ready sentences.

    `revision` is the step its tables stand at; the counts are of rows that are there.
    """

    revision: str
    is_older: bool
    formulas: int
    versions: int
    batches: int
    ingredients: int
    problems: tuple[str, ...]

    @property
    def is_whole(self) -> bool:
        """Tell whether nothing is wrong."""
        return not self.problems


def check_studio(path: Path, *, migrations: Migrations = MIGRATIONS) -> CheckReport:
    """Read a studio through and report; nothing is changed.

    Raises
    ------
    WorkbenchError
        If there is no file, it is another program's, newer than this one, or too damaged to
        be opened at all.
    """
    found = look(path, migrations)
    if found.verdict is Verdict.NEW:
        raise refusal("missing", file=path.name)
    if found.verdict is Verdict.FOREIGN:
        raise refusal("foreign", file=path.name)
    if found.verdict is Verdict.NEWER:
        raise refusal("newer", file=path.name, revision=found.revision)
    if found.verdict is Verdict.DAMAGED:
        raise damage_report(path, found, migrations)
    with told(path):
        wrong = integrity(path)
    if wrong:
        raise damage_report(path, found, migrations)
    if found.verdict is Verdict.OLDER:  # its tables are not those this program can read by name
        return CheckReport(found.revision, True, 0, 0, 0, 0, ())  # noqa: FBT003
    file = StudioFile(path, read_only=True)
    try:
        with file.reading() as connection:
            return _report(connection, found.revision)
    finally:
        file.close()


def _report(connection: Connection, revision: str) -> CheckReport:
    orphans = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
    problems = [
        sentence("storage-check-orphan", table=str(row[0]), parent=str(row[2]))
        for row in orphans[:20]
    ]
    problems += _unreadable_ingredients(connection)
    problems += _unreadable_certificates(connection)
    problems += _damaged_files(connection)
    problems += _unreadable_drafts(connection)
    problems += _unreadable_versions(connection)
    return CheckReport(
        revision=revision,
        is_older=False,
        formulas=_count(connection, FormulaRow),
        versions=_count(connection, VersionRow),
        batches=_count(connection, BatchRow),
        ingredients=_count(connection, IngredientRow),
        problems=tuple(problems),
    )


def _unreadable_ingredients(connection: Connection) -> list[str]:
    rows = connection.execute(select(IngredientRow.facts, IngredientRow.key))
    return [said for row in rows if (said := _refused(ingredient_of, row.facts, row.key))]


def _unreadable_certificates(connection: Connection) -> list[str]:
    rows = connection.execute(
        select(SupplyRow.allergens, SupplyRow.ingredient).where(SupplyRow.allergens.is_not(None))
    )
    return [said for row in rows if (said := _refused(allergens_of, row.allergens, row.ingredient))]


def _damaged_files(connection: Connection) -> list[str]:
    rows = connection.execute(
        select(AttachmentRow.file_name, AttachmentRow.digest, AttachmentRow.content)
    )
    return [
        sentence("storage-attachment-damaged", file=row.file_name)
        for row in rows
        if sha256(row.content).hexdigest() != row.digest
    ]


def _unreadable_drafts(connection: Connection) -> list[str]:
    rows = connection.execute(select(FormulaRow.draft, FormulaRow.name))
    return [said for row in rows if (said := _refused(formula_of, row.draft, row.name))]


def _unreadable_versions(connection: Connection) -> list[str]:
    rows = connection.execute(
        select(FormulaRow.name, VersionRow.number, VersionRow.document, VersionRow.facts).join(
            FormulaRow, FormulaRow.id == VersionRow.formula_id
        )
    )
    problems = []
    for row in rows:
        try:
            version_formula(row.document, row.facts, row.name)
        except (*UNREADABLE, WorkbenchError):
            problems.append(
                sentence("storage-unreadable-version", name=row.name, number=str(row.number))
            )
    return problems


def _refused(read: Callable[[str, str], object], text: str, name: str) -> str:
    try:
        read(text, name)
    except WorkbenchError as error:
        return error.what
    return ""


def _count(connection: Connection, table: type[Base]) -> int:
    return connection.scalar(select(func.count()).select_from(table)) or 0
