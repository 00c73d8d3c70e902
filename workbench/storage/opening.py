"""Opening and creating a studio: a verdict first, then the file."""

from __future__ import annotations

from contextlib import closing
from dataclasses import replace
from os import W_OK, access
from pathlib import Path

from sqlalchemy import insert

from workbench import paths
from workbench.errors import WorkbenchError
from workbench.storage.backup import copy_database
from workbench.storage.engine import connect, for_writing, studio_engine
from workbench.storage.failures import told
from workbench.storage.files_beside import (
    discard,
    discard_sidecars,
    free_name,
    publish,
    temporary,
)
from workbench.storage.filling import fill_reference
from workbench.storage.inspection import Look, Verdict, look
from workbench.storage.refreshing import refresh_studio
from workbench.storage.revisions import MIGRATIONS, Migrations
from workbench.storage.salvage import damage_report
from workbench.storage.schema import StudioRow
from workbench.storage.sentences import refusal, sentence
from workbench.storage.studio import Found, Studio
from workbench.storage.studio_file import Clock, StudioFile, utc_now


def open_studio(
    path: Path,
    *,
    read_only: bool = False,
    create: bool = False,
    reference_folder: Path | None = None,
    clock: Clock = utc_now,
    migrations: Migrations = MIGRATIONS,
) -> Studio:
    """Open a studio; an older one is backed up and brought up to date first.

    One that may not be written is opened for reading only, and the news says why.

    Raises
    ------
    WorkbenchError
        If there is none and `create` is not asked for, or it is newer than the program, another
        program's file, damaged, locked, or older and not to be written.
    """
    folder = reference_folder or paths.resources() / "reference"
    found = look(path, migrations)
    if found.verdict is Verdict.NEW and create and not read_only:
        return create_studio(path, folder, clock=clock, migrations=migrations)
    _refuse(path, found, migrations)
    why = "" if read_only else _why_read_only(path)
    read_only = read_only or bool(why)
    if found.verdict is Verdict.OLDER:
        if read_only:
            raise refusal("older-read-only", file=path.name)
        backup = _upgraded(path, found, migrations)
        news = sentence("storage-upgraded", file=path.name, backup=backup.name)
        state = Found(Verdict.OLDER, backup, news)
    else:
        state = Found(found.verdict, news=why)
    file = StudioFile(path, read_only=read_only, clock=clock)
    if not read_only:
        _use_log(path)
        state = _refreshed(file, folder, state)
    return Studio(file, folder, state)


def create_studio(
    path: Path,
    reference_folder: Path | None = None,
    *,
    clock: Clock = utc_now,
    migrations: Migrations = MIGRATIONS,
) -> Studio:
    """Create a studio by the migrations, fill in the shipped ingredients, and open it.

    Raises
    ------
    WorkbenchError
        If something is there already, or the folder cannot be written; nothing is left behind.
    """
    folder = reference_folder or paths.resources() / "reference"
    _require_free(path)
    _require_folder(path)
    made = temporary(path)
    try:
        _touch(made, path)
        _lay(made, folder, clock, migrations)
        _publish(made, path)
    finally:
        discard(made)
    _use_log(path)
    return Studio(StudioFile(path, clock=clock), folder, Found(Verdict.NEW))


def _refuse(path: Path, found: Look, migrations: Migrations) -> None:
    if found.verdict is Verdict.NEW:
        raise refusal("missing", file=path.name)
    if found.verdict is Verdict.FOREIGN:
        raise refusal("foreign", file=path.name)
    if found.verdict is Verdict.NEWER:
        raise refusal("newer", file=path.name, revision=found.revision)
    if found.verdict is Verdict.DAMAGED:
        raise damage_report(path, found, migrations)


def _why_read_only(path: Path) -> str:
    """Say why a studio can only be read, or nothing when it can be written."""
    if not access(path, W_OK):
        return sentence("storage-found-read-only", file=path.name)
    if not access(path.parent, W_OK):  # the log has to lie beside the file
        return sentence("storage-found-read-only-folder", file=path.name, folder=str(path.parent))
    return ""


def _require_free(path: Path) -> None:
    try:
        if path.exists():
            raise refusal("exists", file=path.name)
    except OSError as error:  # a name too long for the disk
        raise _not_written(path, error) from error


def _require_folder(path: Path) -> None:
    own = paths.default_studio().parent
    if own in path.parents:  # the program's own folder comes into being with its first studio
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise _not_written(path, error) from error
    if not path.parent.is_dir():
        raise refusal("no-folder", file=path.name, folder=str(path.parent))


def _upgraded(path: Path, found: Look, migrations: Migrations) -> Path:
    from workbench.storage.upgrading import upgrade_file

    backup = free_name(path.with_name(f"{path.name}.{found.revision}.bak"))
    copy_database(path, backup)
    upgrade_file(path, migrations)
    return backup


def _refreshed(file: StudioFile, folder: Path, state: Found) -> Found:
    done = refresh_studio(file, folder)
    if done is None:
        return state
    news = sentence(
        "storage-refreshed",
        before=done.before,
        after=done.after,
        changed=done.changed,
        added=done.added,
    )
    return replace(state, news=f"{state.news} {news}".strip())


def _touch(made: Path, path: Path) -> None:
    try:
        discard(made)
        made.touch(exist_ok=False)
    except OSError as error:
        raise _not_written(path, error) from error


def _publish(made: Path, path: Path) -> None:
    try:
        discard_sidecars(path)
        publish(made, path)
    except FileExistsError as error:
        raise refusal("exists", file=path.name) from error
    except OSError as error:
        raise _not_written(path, error) from error


def _lay(made: Path, folder: Path, clock: Clock, migrations: Migrations) -> None:
    from workbench.storage.upgrading import migrate

    engine = studio_engine(made)
    try:
        with told(made), for_writing(engine).connect() as connection, connection.begin():
            migrate(connection, migrations)
            reference_set = fill_reference(connection, folder)
            connection.execute(
                insert(StudioRow).values(made_at=clock(), reference_set=reference_set)
            )
    finally:
        engine.dispose()


def _use_log(path: Path) -> None:
    # With the log, one window reads while its worker writes; the setting stays with the file.
    with told(path), closing(connect(path)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")


def _not_written(path: Path, error: OSError) -> WorkbenchError:
    reason = error.strerror or "unknown"
    return refusal("write-failed", detail=str(error), file=path.name, reason=reason)
