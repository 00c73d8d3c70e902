"""The picture of the studio: picked from a file, made small, kept in the studio."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, Qt, Signal
from PySide6.QtGui import QImage, QImageReader, QImageWriter
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from workbench.errors import WorkbenchError
from workbench.ui.notices import Notices
from workbench.words.catalogue import Words

WIDEST_PIXELS = 600


class LogoRow(QWidget):
    """Choose a picture, or take it out."""

    picked = Signal(object)
    """The picture as PNG; nothing takes it out."""

    def __init__(self, words: Words, notices: Notices) -> None:
        super().__init__()
        self._words = words
        self._notices = notices
        label = QLabel(words.say("studio-logo"))
        label.setProperty("role", "small")
        self.choose = QPushButton(words.say("studio-logo-choose"))
        self.choose.setObjectName("logo_choose")
        self.choose.clicked.connect(lambda *_checked: self._ask())
        self.remove = QPushButton(words.say("studio-logo-remove"))
        self.remove.setObjectName("logo_remove")
        self.remove.clicked.connect(lambda *_checked: self.picked.emit(b""))
        row = QHBoxLayout()
        row.addWidget(self.choose)
        row.addWidget(self.remove)
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addWidget(label)
        column.addLayout(row)

    def take(self, path: Path) -> None:
        """Take the picture of a file, or say why it cannot be."""
        reader = QImageReader(str(path))
        reader.setAutoTransform(True)
        picture = reader.read()
        if picture.isNull():
            self._notices.tell(
                WorkbenchError(
                    self._words.say("studio-logo-bad", file=path.name),
                    self._words.say("studio-logo-bad-remedy"),
                    reader.errorString(),
                )
            )
            return
        self.picked.emit(png_of(picture))

    def _ask(self) -> None:
        dialog = QFileDialog(
            self.window(),
            self._words.say("studio-logo-choose").rstrip("…"),
            "",
            self._words.say("studio-logo-files"),
        )
        dialog.fileSelected.connect(lambda name: self.take(Path(name)))
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()


def png_of(picture: QImage) -> bytes:
    """Return a picture as PNG, no larger than a paper needs."""
    if max(picture.width(), picture.height()) > WIDEST_PIXELS:
        picture = picture.scaled(
            WIDEST_PIXELS,
            WIDEST_PIXELS,
            Qt.AspectRatioMode.KeepAspectRatio,
            Qt.TransformationMode.SmoothTransformation,
        )
    held = QByteArray()
    buffer = QBuffer(held)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(buffer, QByteArray(b"png")).write(picture)
    return bytes(held.data())
