"""What every module keeps to, beyond what the linter can hold."""

import re
from pathlib import Path

from tests.architecture.tree import HOUSE, called, kept_files, modules, named

LONGEST = 300
LONGEST_APP = 150
COMPUTING = ("units", "film", "codes", "plan")

# Written in pieces, or this file would find itself.
_FOLDERS = "|".join(("wo" + "rk", "fa" + "rm", "ro" + "ot"))
_WORDS = (
    "py" + "pi.org",
    "python" + "hosted",
    "npm" + "js",
    "deb." + "debian",
    "design" + ".md",
    "style" + ".md",
    "../" + "shared",
)
FORBIDDEN = re.compile(
    rf"(?<![\w.}}\-])/(?:{_FOLDERS})/|" + "|".join(re.escape(word) for word in _WORDS)
)


def test_every_module_can_be_read_whole() -> None:
    """A module that grows past its size is split by reason."""
    long = {named(path): count for path in modules() if (count := _lines(path)) > LONGEST}

    assert long == {}


def test_the_app_only_holds_modes_and_global_keys() -> None:
    """The app of the screens stays small, for every screen is tempted to put things there."""
    assert _lines(HOUSE / "screens" / "app.py") <= LONGEST_APP


def test_only_the_outermost_rooms_read_the_clock() -> None:
    """The present reaches everything below as an argument."""
    rooms = (*COMPUTING, "errors", "books", "labels", "feeds", "work", "lines")
    clock = re.compile(r"(^|\.)(now|today|utcnow|time\.time|time_ns|monotonic|localtime)$")

    assert [call for path in modules(*rooms) for call in called(path, clock)] == []


def test_what_computes_reads_and_writes_nothing() -> None:
    """What can be computed can be tested without a disk, a terminal or a network."""
    outside = re.compile(r"(^|\.)(open|print|input|getenv|(read|write)_(text|bytes))$")

    assert [call for path in modules(*COMPUTING) for call in called(path, outside)] == []


def test_nothing_kept_names_the_machine_it_was_written_on() -> None:
    """Paths of one machine and hosts of registries help nobody else."""
    found = [
        f"{named(path)}: {match.group()}"
        for path in kept_files()
        if (match := FORBIDDEN.search(path.read_text("utf-8", errors="ignore")))
    ]

    assert found == []


def _lines(path: Path) -> int:
    return len(path.read_text("utf-8").splitlines())
