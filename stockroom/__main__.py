"""The program: screens without arguments, commands with them."""

import gc
import os
import sys
from collections.abc import Sequence
from dataclasses import replace

from stockroom.errors import Exit, Refusal
from stockroom.settings import read_settings, settings_path

_INTERRUPTED = 130


def main() -> None:
    """Run what was asked for and end with its exit code."""
    for stream in (sys.stdout, sys.stderr):
        stream.reconfigure(errors="replace")  # type: ignore[union-attr]
    try:
        ended = run(sys.argv[1:])
    except KeyboardInterrupt:
        ended = _INTERRUPTED
    sys.exit(ended)


def run(arguments: Sequence[str]) -> int:
    """Open the screens, on the book that --book names alone; or run a command."""
    book = _book_alone(arguments)
    if book is None:
        from stockroom.cli.app import main as run_command

        return run_command(arguments)
    return _screens(book)


def _book_alone(arguments: Sequence[str]) -> str | None:
    """The book named and nothing else, the empty name for none; None for a command."""
    match list(arguments):
        case []:
            return ""
        case ["--book", book]:
            return book
        case [only] if only.startswith("--book="):
            return only.removeprefix("--book=")
        case _:
            return None


def _screens(book: str) -> int:
    gc.disable()  # nothing that is loaded is ever thrown away
    from stockroom.screens.app import run as run_screens

    gc.freeze()
    gc.enable()
    try:
        settings = read_settings(os.environ, settings_path())
        run_screens(replace(settings, book=book or settings.book))
    except Refusal as refusal:
        print(refusal.sentence, file=sys.stderr)  # noqa: T201
        return refusal.exit
    return Exit.DONE


if __name__ == "__main__":
    main()
