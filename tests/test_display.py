from __future__ import annotations

import shutil
import socket
import subprocess
import sys

import pytest

from workbench.display import has_display, missing_library

LINUX_ONLY = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="asks a Linux system")


@pytest.mark.parametrize("platform", ["win32", "darwin"])
def test_that_windows_and_macos_always_have_a_display(platform):
    assert has_display({}, platform)


@pytest.mark.parametrize("name", ["offscreen", "minimal", "vnc:size=800x600", "linuxfb", "eglfs"])
def test_that_a_screenless_platform_needs_no_display(name):
    assert has_display({"QT_QPA_PLATFORM": name}, "linux")


@pytest.mark.parametrize(
    "environment",
    [
        {},
        {"DISPLAY": ""},
        {"DISPLAY": "nonsense"},
        {"DISPLAY": ":60999"},
        {"DISPLAY": "localhost:59000"},
        {"DISPLAY": "127.0.0.1:999999"},
        {"WAYLAND_DISPLAY": "wayland-none", "XDG_RUNTIME_DIR": "/nowhere"},
        {"QT_QPA_PLATFORM": "xcb"},
        {"QT_QPA_PLATFORM": "wayland"},
    ],
    ids=str,
)
@LINUX_ONLY
def test_that_a_display_nobody_answers_on_is_none(environment):
    assert not has_display(environment, "linux")


@LINUX_ONLY
def test_that_a_wayland_socket_that_answers_is_a_display(tmp_path):
    address = tmp_path / "wayland-7"
    with socket.socket(socket.AF_UNIX, socket.SOCK_STREAM) as server:
        server.bind(str(address))
        server.listen()
        environment = {"WAYLAND_DISPLAY": "wayland-7", "XDG_RUNTIME_DIR": str(tmp_path)}
        assert has_display(environment, "linux")
        assert has_display({"WAYLAND_DISPLAY": str(address)}, "linux")
        assert not has_display({**environment, "QT_QPA_PLATFORM": "xcb"}, "linux")


@pytest.fixture
def x_server():
    """Start an X server on a number it finds free, and return the number."""
    if shutil.which("Xvfb") is None:
        pytest.skip("Xvfb is not installed")
    with subprocess.Popen(
        ["Xvfb", "-displayfd", "1", "-nolisten", "tcp"],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    ) as server:
        assert server.stdout is not None
        yield server.stdout.readline().strip()
        server.terminate()


@LINUX_ONLY
@pytest.mark.display
def test_that_a_running_x_server_is_a_display(x_server):
    assert has_display({"DISPLAY": f":{x_server}"}, "linux")
    assert has_display({"DISPLAY": f"unix:{x_server}.0", "QT_QPA_PLATFORM": "xcb"}, "linux")
    assert not has_display({"DISPLAY": f":{x_server}", "QT_QPA_PLATFORM": "wayland"}, "linux")


def test_that_nothing_is_missing_where_the_tests_run():
    assert missing_library({"QT_QPA_PLATFORM": "offscreen"}) is None


@LINUX_ONLY
def test_that_a_plugin_that_cannot_be_loaded_is_found_before_it_aborts(run_python, tmp_path):
    plugins = tmp_path / "PySide6" / "Qt" / "plugins" / "platforms"
    plugins.mkdir(parents=True)
    (tmp_path / "PySide6" / "__init__.py").write_text("")
    (tmp_path / "PySide6" / "QtWidgets.py").write_text("")
    (plugins / "libqxcb.so").write_text("not a library")
    code = (
        f"import sys; sys.path.insert(0, {str(tmp_path)!r});"
        "from workbench.display import missing_library;"
        "print(missing_library({})); print(missing_library({'QT_QPA_PLATFORM': 'offscreen'}))"
    )
    first, second = run_python("-c", code).stdout.splitlines()
    assert "libqxcb.so" in first
    assert second == "None"
