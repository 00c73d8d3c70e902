from __future__ import annotations

import sys

import pytest

NO_DISPLAY = {"QT_QPA_PLATFORM": "", "DISPLAY": "", "WAYLAND_DISPLAY": ""}
LINUX_ONLY = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="asks a Linux system")


def lines(text: str) -> list[str]:
    return text.strip().splitlines()


@LINUX_ONLY
@pytest.mark.parametrize("words", [[], ["--sample"], ["new.studio"]], ids=str)
def test_that_without_a_display_one_sentence_names_the_commands_that_need_none(run_python, words):
    ended = run_python("-m", "workbench", *words, environment=NO_DISPLAY)
    assert ended.returncode == 2
    assert ended.stdout == ""
    assert len(lines(ended.stderr)) == 1
    assert "formulation-workbench assess FILE" in ended.stderr
    assert "formulation-workbench worksheet FILE --out X.pdf" in ended.stderr


@LINUX_ONLY
def test_that_without_a_display_the_window_library_is_never_loaded(run_python):
    code = (
        "import sys; from workbench.__main__ import main; main([]);"
        "print(sorted(name for name in sys.modules if 'PySide6' in name or 'shiboken' in name))"
    )
    assert run_python("-c", code, environment=NO_DISPLAY).stdout.strip() == "[]"


def test_that_a_missing_system_library_is_said_in_one_sentence(run_python, tmp_path):
    broken = tmp_path / "PySide6"
    broken.mkdir()
    message = "libEGL.so.1: cannot open shared object file: No such file or directory"
    (broken / "__init__.py").write_text("")
    (broken / "QtWidgets.py").write_text(f"raise ImportError({message!r})\n")
    code = (
        f"import sys; sys.path.insert(0, {str(tmp_path)!r});"
        "from workbench.__main__ import main; sys.exit(main([]))"
    )
    ended = run_python("-c", code, environment={"QT_QPA_PLATFORM": "offscreen"})
    assert ended.returncode == 2
    assert len(lines(ended.stderr)) == 1
    assert "libEGL.so.1" in ended.stderr
    assert "worksheet FILE --out X.pdf" in ended.stderr


def test_that_a_mistyped_command_is_not_taken_for_a_new_studio(run_python):
    ended = run_python("-m", "workbench", "asess")
    assert ended.returncode == 2
    assert len(lines(ended.stderr)) == 1
    assert "asess" in ended.stderr
    assert "check-studio" in ended.stderr


@pytest.mark.parametrize(
    "words", [["a.studio", "b.studio"], ["a.studio", "--sample"], ["--sampel"]]
)
def test_that_words_nobody_knows_are_refused(run_python, words):
    ended = run_python("-m", "workbench", *words)
    assert ended.returncode == 2
    assert "Traceback" not in ended.stderr


def test_that_help_tells_of_the_window_and_of_every_command(run_python):
    from workbench.__main__ import COMMANDS

    ended = run_python("-m", "workbench", "--help")
    assert ended.returncode == 0
    for word in (*COMMANDS, "STUDIO", "--sample"):
        assert word in ended.stdout


def test_that_help_loads_neither_window_nor_storage_nor_paper(run_python):
    code = (
        "import sys; from workbench.__main__ import main\n"
        "try: main(['--help'])\n"
        "except SystemExit: pass\n"
        "heavy = {'PySide6', 'sqlalchemy', 'alembic', 'reportlab', 'pint', 'numpy', 'jsonschema'}\n"
        "print(sorted(heavy & set(sys.modules)), file=sys.stderr)"
    )
    assert run_python("-c", code).stderr.strip() == "[]"
