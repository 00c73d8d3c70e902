"""What is done to ingredients: copying, editing, mixing, deleting, typing a certificate."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QObject, Signal

from workbench.errors import WorkbenchError
from workbench.formula.ingredient import Ingredient
from workbench.formula.ingredient_fields import copied
from workbench.formula.substance_names import SubstanceNames
from workbench.paths import resources
from workbench.storage.keys import key_from
from workbench.storage.reference.shipped import Shipped
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.blend_editor import BlendEditor
from workbench.ui.places.shelf.certificate_editor import CertificateEditor
from workbench.ui.places.shelf.editor_page import EditorPage
from workbench.ui.places.shelf.ingredient_editor import Edited, IngredientEditor
from workbench.ui.places.shelf.ingredient_form import Vocabulary, vocabulary_of
from workbench.ui.theme import Theme

if TYPE_CHECKING:
    from PySide6.QtWidgets import QStackedWidget

_E = TypeVar("_E", bound=EditorPage)


class Changing(QObject):
    """Open the editors on the pages of the Shelf; each is made when it is first needed."""

    stored = Signal(str)
    """The key of an ingredient that was stored."""
    deleted = Signal(str)
    """The key of an ingredient that is gone."""
    left = Signal()
    """The maker goes back without storing."""

    def __init__(self, work: DeskWork, theme: Theme, pages: QStackedWidget) -> None:
        super().__init__(pages)
        self._work = work
        self._theme = theme
        self._pages = pages
        self._made: list[EditorPage] = []

    @property
    def is_open(self) -> bool:
        """Whether an editor is on the pages now."""
        return self._pages.currentWidget() in self._made

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        for editor in self._made:
            editor.set_theme(theme)

    def make_new(self) -> None:
        """Begin an ingredient from nothing."""
        if self._may():
            self._show(self.editor)
            self.editor.begin(Edited(Ingredient("", "", "", is_own=True)))

    def copy(self, key: str) -> None:
        """Begin an ingredient as a copy of another."""
        item = self._item(key)
        if item is None or not self._may():
            return
        words = self._work.words
        name = words.say("shelf-copy-name", name=item.name)
        taken = self._work.studio.ingredients.taken_keys()
        self._show(self.editor)
        self.editor.begin(Edited(copied(item, key_from(name, taken), name), 0, item))

    def edit(self, key: str) -> None:
        """Change an ingredient of the maker's own."""
        if not self._may():
            return
        ingredients = self._work.studio.ingredients
        try:
            item, counter = ingredients.entry(key)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return
        original = ingredients.get([item.based_on]).get(item.based_on)
        self._show(self.editor)
        self.editor.begin(Edited(item, counter, original))

    def change(self, key: str) -> None:
        """Edit what is the maker's own, copy what is not."""
        item = self._item(key)
        if item is not None:
            (self.edit if item.is_own else self.copy)(key)

    def blend(self) -> None:
        """Begin a blend."""
        if self._may():
            editor = self.blend_editor
            self._show(editor)
            editor.begin()

    def certificate(self, key: str) -> None:
        """Type the allergens of a certificate."""
        item = self._item(key)
        if item is not None and self._may():
            self._show(self.certificate_editor)
            self.certificate_editor.begin(item, self._work.studio.supplies.get(key))

    def delete(self, key: str) -> None:
        """Delete an own ingredient that no draft uses; a notice offers the way back."""
        item = self._item(key)
        if item is None or not self._may():
            return
        ingredients = self._work.studio.ingredients
        supply = self._work.studio.supplies.get(key)
        if self._work.studio.attachments.of(key):
            self._work.notices.inform(self._work.words.say("shelf-delete-files", name=item.name))
            return
        try:
            ingredients.delete_own(key)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return

        def put_back() -> None:
            ingredients.add_own(item)
            if supply.counter:
                self._work.studio.supplies.save(replace(supply, counter=0))
            self.stored.emit(key)

        said = self._work.words.say("shelf-deleted", name=item.name)
        self._work.notices.inform(said, put_back)
        self.deleted.emit(key)

    @cached_property
    def editor(self) -> IngredientEditor:
        """The editor of own ingredients."""
        return self._kept(IngredientEditor(self._work, self._theme, self._names, self._vocabulary))

    @cached_property
    def certificate_editor(self) -> CertificateEditor:
        """The editor of the list of a certificate."""
        return self._kept(CertificateEditor(self._work, self._theme, self._names))

    @property
    def blend_editor(self) -> BlendEditor:
        """An editor of blends; it knows the shelf as it is when it is made."""
        for old in [editor for editor in self._made if isinstance(editor, BlendEditor)]:
            self._made.remove(old)
            self._pages.removeWidget(old)
            old.deleteLater()
        return self._kept(BlendEditor(self._work, self._theme, self._vocabulary))

    def _kept(self, editor: _E) -> _E:
        editor.stored.connect(self._on_stored)
        editor.left.connect(self.left)
        self._made.append(editor)
        self._pages.addWidget(editor)
        return editor

    def _on_stored(self, key: str) -> None:
        item = self._item(key)
        if item is not None:
            self._work.notices.inform(self._work.words.say("shelf-stored", name=item.name))
        self.stored.emit(key)

    def _show(self, editor: EditorPage) -> None:
        self._pages.setCurrentWidget(editor)

    def _may(self) -> bool:
        if self._work.studio.read_only:
            self._work.notices.inform(self._work.words.say("shelf-read-only"))
            return False
        return True

    def _item(self, key: str) -> Ingredient | None:
        try:
            return self._work.studio.ingredients.get([key]).get(key)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return None

    @cached_property
    def _shipped(self) -> Shipped:
        return Shipped(resources() / "reference")

    @cached_property
    def _names(self) -> SubstanceNames:
        return SubstanceNames(self._work.studio.substances, self._shipped.names)

    @cached_property
    def _vocabulary(self) -> Vocabulary:
        return vocabulary_of(self._shipped.ingredients)
