"""The program's jobs without a window: one module for each command."""

from __future__ import annotations

import importlib
import io
import os
import sys
from collections.abc import Sequence

from workbench.cli.parser import build_parser
from workbench.errors import WorkbenchError

DONE = 0
BAD_INPUT = 2
INTERRUPTED = 130


def main(argv: Sequence[str]) -> int:
    """Run one command and return its exit code; bad input gives one sentence on stderr."""
    _never_fail_on_a_letter()
    asked = build_parser().parse_args(argv)
    try:
        # Only the command that was asked for is imported, so that --help is instant.
        code: int = importlib.import_module(f"workbench.cli.{asked.module}").run(asked)
        sys.stdout.flush()
    except WorkbenchError as error:
        sys.stderr.write(f"formulation-workbench: {' '.join(str(error).split())}\n")
        return BAD_INPUT
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        # The reader of the pipe has had enough; the flush at exit must not complain again.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    return code


def _never_fail_on_a_letter() -> None:
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
