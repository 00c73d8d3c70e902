"""Whether a window can be shown here, found out before the window library is started.

A window program started without a display, or without a system library it needs, ends the whole
process with an abort that cannot be caught. So everything that can be known is looked at first.
"""

from __future__ import annotations

import ctypes
import importlib
import importlib.util
import re
import socket
import sys
from collections.abc import Mapping
from pathlib import Path

_WITHOUT_SCREEN = {"offscreen", "minimal", "minimalegl", "vnc", "eglfs", "linuxfb", "vkkhrdisplay"}
_DISPLAY = re.compile(r"(?P<host>[^:]*):(?P<number>[0-9]+)(\.[0-9]+)?")
_X_SOCKETS = Path("/tmp/.X11-unix")  # fixed by the X11 protocol
_FIRST_X_PORT = 6000
_CONNECT_S = 2.0


def has_display(environment: Mapping[str, str], platform: str = sys.platform) -> bool:
    """Tell whether a window would find a screen to be shown on."""
    if not platform.startswith("linux"):
        return True
    wanted = {name.split(":")[0] for name in environment.get("QT_QPA_PLATFORM", "").split(";")}
    if wanted & _WITHOUT_SCREEN:
        return True
    wayland = _wayland_answers(environment) and "xcb" not in wanted
    x11 = _x11_answers(environment.get("DISPLAY", "")) and "wayland" not in wanted
    return wayland or x11


def missing_library(environment: Mapping[str, str], platform: str = sys.platform) -> str | None:
    """Return what the system's loader says is missing for a window, or None."""
    try:
        importlib.import_module("PySide6.QtWidgets")
        if platform.startswith("linux"):
            for plugin in _platform_plugins(environment):
                ctypes.CDLL(str(plugin))
    except (ImportError, OSError) as error:
        return str(error)
    return None


def _platform_plugins(environment: Mapping[str, str]) -> list[Path]:
    # The plugin for X11 is loaded late, and aborts when one of its own libraries is missing.
    named = environment.get("QT_QPA_PLATFORM", "")
    if (named or "xcb") != "xcb" or environment.get("WAYLAND_DISPLAY"):
        return []
    found = importlib.util.find_spec("PySide6")
    if found is None or found.origin is None:
        return []
    plugin = Path(found.origin).parent / "Qt" / "plugins" / "platforms" / "libqxcb.so"
    return [plugin] if plugin.exists() else []


def _wayland_answers(environment: Mapping[str, str]) -> bool:
    name = environment.get("WAYLAND_DISPLAY", "")
    if not name:
        return False
    # An absolute name stands for itself; joining keeps it.
    return _unix_answers(str(Path(environment.get("XDG_RUNTIME_DIR", "/run")) / name))


def _x11_answers(display: str) -> bool:
    match = _DISPLAY.fullmatch(display)
    if match is None:
        return False
    host, number = match["host"], int(match["number"])
    if host in {"", "unix"}:
        name = str(_X_SOCKETS / f"X{number}")
        return _unix_answers(name) or _unix_answers("\0" + name)
    return _tcp_answers(host, _FIRST_X_PORT + number)


def _unix_answers(address: str) -> bool:
    with socket.socket(socket.AF_UNIX, socket.SOCK_STREAM) as link:
        link.settimeout(_CONNECT_S)
        try:
            link.connect(address)
        except OSError:
            return False
    return True


def _tcp_answers(host: str, port: int) -> bool:
    try:
        with socket.create_connection((host, port), timeout=_CONNECT_S):
            return True
    except (OSError, OverflowError):
        return False
