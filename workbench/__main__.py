"""Start the program: a command when the first word is one, else the window."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from workbench import paths

COMMANDS = (
    "sample",
    "assess",
    "worksheet",
    "label",
    "card",
    "assessor",
    "import",
    "export",
    "check-studio",
    "backup",
)
_ANSWERED_WITHOUT_WINDOW = (*COMMANDS, "-h", "--help", "--version")
_STUDIO_ENDING = ".studio"


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command or open the window, and return the exit code."""
    # numpy reads this when it is loaded: on matrices this small threads only wait for each other.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    words = list(sys.argv[1:] if argv is None else argv)
    if words and words[0] in _ANSWERED_WITHOUT_WINDOW:
        from workbench import cli

        return cli.main(words)
    return _window(words)


def _window(words: list[str]) -> int:
    asked = _window_parser().parse_args(words)
    studio = Path(asked.studio) if asked.studio else None
    reason = _why_not(studio)
    if reason is not None:
        sys.stderr.write(f"formulation-workbench: {reason}\n")
        return 2
    if asked.sample:
        studio = paths.sample_studio()
        code = 0 if studio.exists() else _write_sample(studio.parent)
        if code != 0:
            return code
    from workbench.app import run

    return run(studio)


def _window_parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="formulation-workbench", allow_abbrev=False)
    chosen = parser.add_mutually_exclusive_group()
    chosen.add_argument("studio", nargs="?", metavar="STUDIO", help="the studio file to open")
    chosen.add_argument("--sample", action="store_true", help="open the sample studio")
    return parser


def _why_not(studio: Path | None) -> str | None:
    """Return the sentence that says why no window can be opened, or None."""
    if studio is not None and not studio.exists() and studio.suffix != _STUDIO_ENDING:
        known = ", ".join(COMMANDS)
        return (
            f"'{studio}' is neither a studio file nor a command; the commands are {known}, and a"
            f" new studio's name ends in {_STUDIO_ENDING}."
        )
    from workbench import display

    if not display.has_display(os.environ):
        return (
            "there is no display to open a window on; 'formulation-workbench assess FILE' and"
            " 'formulation-workbench worksheet FILE --out X.pdf' do their work without one."
        )
    missing = display.missing_library(os.environ)
    if missing is not None:
        return (
            f"the window needs a system library that is not installed ({missing}); README.md lists"
            " them, and 'formulation-workbench worksheet FILE --out X.pdf' works without."
        )
    return None


def _write_sample(folder: Path) -> int:
    from workbench import cli

    return cli.main(["sample", str(folder)])


if __name__ == "__main__":
    sys.exit(main())
