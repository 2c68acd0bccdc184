"""A shop whose book was made by typing commands, one copy for each test."""

import json
import shutil
import sqlite3
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

from stockroom.cli.app import main
from tests.conftest import NOW

FILM, BLADES = "urethane clear 200", "snap blades 9 mm"
EARLY = "2026-11-02T08:00"


@dataclass(frozen=True, slots=True)
class Ran:
    """How a command ended, and what it printed where."""

    code: int
    out: str
    err: str


@dataclass(frozen=True, slots=True)
class Shop:
    """A book, a keyboard, and the codes of what is in it."""

    book: Path
    capture: pytest.CaptureFixture[str]
    codes: dict[str, str] = field(default_factory=dict[str, str])

    def run(self, *arguments: str) -> Ran:
        """Type a command; a word like {roll} stands for a code."""
        self.capture.readouterr()
        code = main(["--book", str(self.book), *(one.format(**self.codes) for one in arguments)])
        said = self.capture.readouterr()
        return Ran(code, said.out, said.err)

    def lines(self, *arguments: str) -> list[str]:
        """What a command that works prints for people."""
        ran = self.run(*arguments)
        assert ran.code == 0, ran.err
        return ran.out.splitlines()

    def values(self, *arguments: str) -> dict[str, Any]:
        """What a command that works prints for a script, and nothing beside it."""
        ran = self.run(*arguments, "--json")
        assert (ran.code, ran.err) == (0, "")
        values: dict[str, Any] = json.loads(ran.out)
        return values

    def dump(self) -> list[str]:
        """Everything the book holds, row by row."""
        connection = sqlite3.connect(self.book)
        try:
            return list(connection.iterdump())
        finally:
            connection.close()


@pytest.fixture
def _noon(monkeypatch: pytest.MonkeyPatch) -> None:
    """Commands are typed at one known moment, by a person of no special name."""
    monkeypatch.setattr("stockroom.cli.desk.clock", lambda: NOW)
    monkeypatch.setenv("STOCKROOM_OPERATOR", "Ida M.")
    monkeypatch.setenv("COLUMNS", "80")


@pytest.fixture
def empty_shop(_noon: None, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Shop:
    """A shop whose book is not made yet."""
    return Shop(tmp_path / "book.db", capsys)


@pytest.fixture
def shop(
    empty_shop: Shop, tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest
) -> Shop:
    """A shop with one roll, its twin held, one thrown away, a box of blades and two jobs."""
    return set_up_once(empty_shop, _set_up, tmp_path_factory, request)


def set_up_once(
    shop: Shop,
    set_up: Callable[[Shop], None],
    folders: pytest.TempPathFactory,
    request: pytest.FixtureRequest,
) -> Shop:
    """The shop after commands that are typed in the first test only; the others get a copy."""
    kept = request.session.stash.setdefault(_KEPT, {})
    if set_up.__name__ not in kept:
        set_up(shop)
        copy = folders.mktemp("shop") / "book.db"
        shutil.copy(shop.book, copy)
        kept[set_up.__name__] = copy, dict(shop.codes)
    copy, codes = kept[set_up.__name__]
    shutil.copy(copy, shop.book)
    shop.codes.update(codes)
    return shop


_KEPT = pytest.StashKey[dict[str, tuple[Path, dict[str, str]]]]()


def _set_up(shop: Shop) -> None:
    codes = shop.codes
    shop.run("book", "set", "name", "Quay Street", "--why", "what people call it")
    shop.lines(
        *("material", "add", FILM, "--kind", "protective-film", "--width", "1524mm"),
        *("--thickness", "250um", "--applied", "200um", "--core", "76.2mm", "--wall", "5mm"),
        *("--layer", "200um:1200", "--layer", "50um:1390", "--shelf", "24mo"),
        *("--cost-unit", "480"),
    )
    shop.lines("material", "add", BLADES, "--kind", "blade")
    codes["place"] = shop.values("place", "add", "A1", "--zone", "North")["code"]
    for name, on in (("clinic partition", "2026-11-27"), ("bus depot", "2026-11-03")):
        early = ("--on", on, "--at", EARLY)
        codes[name.split()[0]] = shop.values("job", "add", name, *early)["code"]
    shop.lines("job", "close", "{bus}")
    received = shop.values(
        *("receive", FILM, "--lot", "L-22", "--length", "15.24m", "--rolls", "3"),
        *("--made", "2026-03-09", "--place", "A1", "--at", EARLY),
    )
    codes["roll"], codes["held"], codes["gone"] = (one["code"] for one in received["pieces"])
    box = shop.values("receive", BLADES, "--count", "100", "--cost", "20", "--at", EARLY)
    codes["box"] = box["pieces"][0]["code"]
    shop.lines("hold", "{held}", "--why", "edge dented", "--at", "2026-11-03T09:00")
    shop.lines("discard", "{gone}", "--why", "water", "--at", "2026-11-03T09:00")
    shop.lines("put", "{roll}", "A1", "--at", "2026-11-20T16:30")
