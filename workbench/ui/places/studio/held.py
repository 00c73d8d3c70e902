"""The settings of the work as one value: changed step by step, stored at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from PySide6.QtCore import QObject, Signal

from workbench.checks.compatibility import with_own_rules
from workbench.errors import WorkbenchError
from workbench.formula.weighability import Balance
from workbench.storage.settings import StudioSettings
from workbench.ui.notices import Offer
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.session import Session

ONCE = "a step of its own"


@dataclass(frozen=True, slots=True)
class Held:
    """Hold everything the studio page edits."""

    settings: StudioSettings
    balances: tuple[Balance, ...] = ()
    logo: bytes = b""
    rules: tuple[tuple[str, str], ...] = ()
    """The maker's own rules, key and text as it is written, by key."""


class HeldSettings(QObject):
    """Keep the settings; every change is one step that can be undone, and is stored at once."""

    changed = Signal()

    def __init__(self, work: DeskWork, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._is_loading = False
        self.session: Session[Held] = Session(Held(StudioSettings()), self)
        self.session.changed.connect(self._on_changed)
        self.load()

    @property
    def value(self) -> Held:
        """The settings as they are now."""
        return self.session.value

    def load(self) -> None:
        """Read what is stored, and forget the steps before."""
        settings, written = self._work.studio.settings, self._work.studio.own_rules.written
        try:
            rules = tuple((rule.key, rule.text) for rule in written())
            held = Held(settings.load(), settings.balances(), settings.logo(), rules)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return
        self._is_loading = True
        try:
            self.session.load(held)
        finally:
            self._is_loading = False

    def change(self, name: str, /, **changes: object) -> None:
        """Change one of the settings; typing on in the same one is the same step."""
        self._edit(name, lambda held: replace(held, settings=replace(held.settings, **changes)))  # type: ignore[arg-type]

    def change_balances(self, balances: tuple[Balance, ...], *, merge_key: str = "") -> None:
        """Put other balances in place of the former."""
        self._edit("balances", lambda held: replace(held, balances=balances), merge_key)

    def change_logo(self, picture: bytes) -> None:
        """Put another picture in place of the former."""
        self._edit("logo", lambda held: replace(held, logo=picture), ONCE)

    def change_rules(self, rules: Mapping[str, str]) -> None:
        """Put other rules of the maker's own in place of the former, each time as one step."""
        after = tuple(sorted(rules.items()))
        self._edit("rules", lambda held: replace(held, rules=after), ONCE)

    def _edit(self, name: str, change: Callable[[Held], Held], merge_key: str = "") -> None:
        if self._work.studio.read_only:
            self._work.notices.inform(self._work.words.say("edit-read-only"))
            self.changed.emit()  # what was typed goes back
            return
        text = self._work.words.say("studio-undo", setting=self._work.words.say(f"studio-{name}"))
        key = None if merge_key == ONCE else merge_key or name
        self.session.edit(text, change, merge_key=key)

    def _on_changed(self, before: Held, after: Held) -> None:
        self.changed.emit()
        if not self._is_loading:
            self._store(before, after)

    def _store(self, before: Held, after: Held) -> None:
        settings, words = self._work.studio.settings, self._work.words

        def store() -> None:
            if before.settings != after.settings:
                settings.save(after.settings, before=before.settings)
            if before.balances != after.balances:
                settings.set_balances(after.balances)
            if before.logo != after.logo:
                settings.set_logo(after.logo)
            if before.rules != after.rules:
                self._work.studio.own_rules.put(dict(before.rules), dict(after.rules))

        def stored(_none: None) -> None:
            words.style = after.settings.decimal_style
            self._renew(is_other_rules=before.rules != after.rules)

        def failed(error: WorkbenchError) -> None:
            self._work.notices.tell(error, Offer(words.say("studio-load"), self.load))

        self._work.tasks.run(store, stored, failed)

    def _renew(self, *, is_other_rules: bool) -> None:
        if not is_other_rules:
            self._work.renew()
            return
        own = self._work.studio.own_rules.read().rules
        self._work.take_rules(with_own_rules(self._work.rules, own))
