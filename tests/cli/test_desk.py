"""What all commands share: which book, who, when, and how they are found."""

import sqlite3
from pathlib import Path

import pytest

from stockroom.cli.app import app, main
from tests.cli.conftest import FILM, Shop

ADD = ("place", "add", "A1")


def test_words_that_are_not_understood_make_no_book(empty_shop: Shop) -> None:
    """Nothing is written, not even an empty book."""
    ran = empty_shop.run("cut", "R0001231", "0", "--for", "spoiled")

    assert ran.code == 2
    assert not empty_shop.book.exists()


def test_a_terminal_is_shown_each_verdict_in_its_colour(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The sign and the word stay; a pipe gets them plain."""
    monkeypatch.setenv("FORCE_COLOR", "1")
    monkeypatch.setattr("sys.stdout.isatty", lambda: True)

    ran = shop.run("rack")

    assert "\x1b[32m● USE\x1b[0m" in ran.out


def test_a_writing_command_makes_a_missing_book_and_says_so(empty_shop: Shop) -> None:
    """Once, on stderr."""
    first = empty_shop.run(*ADD)
    second = empty_shop.run("place", "add", "A2")

    assert (first.code, first.err) == (0, f"A new book was made: {empty_shop.book}\n")
    assert (second.code, second.err) == (0, "")


@pytest.mark.parametrize(
    "words",
    ["today", "rack", "log", "verify", "book show", "material list", "place list", "job list"],
)
def test_a_reading_command_refuses_a_missing_book_and_makes_none(
    empty_shop: Shop, words: str
) -> None:
    """A slip in a name is not a new, empty shop."""
    ran = empty_shop.run(*words.split())

    assert (ran.code, ran.out, ran.err.count("\n")) == (5, "", 1)
    assert not empty_shop.book.exists()


def test_the_usual_book_is_made_with_its_folder(
    empty_shop: Shop, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """A new user types one command and has a book."""
    assert main(ADD) == 0

    assert str(tmp_path / "home") in capsys.readouterr().err
    assert list((tmp_path / "home").rglob("book.db"))


def test_the_book_may_be_named_before_or_after_the_command_or_in_the_environment(
    empty_shop: Shop, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """What is nearest to the command wins."""
    before, after, around = (str(tmp_path / name) for name in ("before", "after", "around"))
    monkeypatch.setenv("STOCKROOM_BOOK", around)

    for arguments in (ADD, ("--book", before, *ADD), ("--book", before, *ADD, "--book", after)):
        assert main(arguments) == 0

    assert all(Path(one).exists() for one in (before, after, around))


def test_who_did_it_is_written_down(shop: Shop) -> None:
    """As typed, else as the station says; a name is harmless text."""
    shop.lines("put", "{roll}", "A1", "--by", "Tomas\x1b R.")
    shop.lines("put", "{roll}", "A1", "--by", "\u202e")

    names = [one["operator"] for one in shop.values("log", "--piece", "{roll}")["acts"]]
    assert names == ["Ida M.", "Tomas R.", "Ida M.", "Ida M."]


def test_a_wrong_setting_is_one_line(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """The station's own settings are read before anything else."""
    monkeypatch.setenv("STOCKROOM_DPI", "many")

    ran = shop.run("rack")

    assert (ran.code, ran.out, ran.err.count("\n")) == (2, "", 1)


def test_an_instant_without_an_offset_is_on_the_clock_of_the_shop(shop: Shop) -> None:
    """Lisbon is one hour ahead of UTC in summer, and the book's zone decides."""
    shop.lines("book", "set", "time-zone", "Europe/Lisbon")

    def at(text: str) -> str:
        shop.lines("receive", FILM, "--length", "1m", "--at", text)
        written: str = shop.values("log")["acts"][0]["at"]
        return written

    assert at("2026-07-01T12:00") == "2026-07-01T12:00:00+01:00"
    assert at("2026-07-01 12:00") == "2026-07-01T12:00:00+01:00"
    assert at("2026-07-01T12:00Z") == "2026-07-01T13:00:00+01:00"
    assert at("2026-07-01T12:00+02:00") == "2026-07-01T11:00:00+01:00"
    assert at("2026-07-01") == "2026-07-01T05:00:00+01:00"
    assert at("2026-11-01") == "2026-11-01T05:00:00+00:00"


def test_a_day_alone_fits_in_behind_what_was_done_on_it(shop: Shop) -> None:
    """Acts of a day that are written in the evening keep their order."""
    at = ("--at", "2026-11-20")

    shop.lines("cut", "{roll}", "1m", "--for", "sample", *at)

    assert shop.values("log")["acts"][0]["at"] == "2026-11-20T16:30:00+00:00"
    assert shop.run("cut", "{roll}", "1m", "--for", "sample", "--at", "2026-11-19").code == 3
    assert shop.run("cut", "{roll}", "1m", "--for", "sample", "--at", "2026-11-26").code == 3


def test_a_setting_is_in_force_from_the_instant_it_is_set_for(shop: Shop) -> None:
    """A report of an earlier day is judged by what was in force then."""
    shop.lines("material", "change", FILM, "--shelf", "6mo", "--at", "2026-11-20", "--why", "new")

    assert shop.values("piece", "{roll}", "--today", "2026-11-19")["verdict"] == "USE"
    assert shop.values("piece", "{roll}", "--today", "2026-11-21")["verdict"] == "TEST"


def test_a_report_of_a_day_gone_by_speaks_the_units_of_now(shop: Shop) -> None:
    """Limits are those of the day; units and clock are only how it is told."""
    shop.lines("book", "set", "units", "us")

    assert "left         50'" in shop.lines("piece", "{roll}", "--today", "2026-11-10")


def test_help_is_plain_text_without_a_book(
    capsys: pytest.CaptureFixture[str], empty_shop: Shop
) -> None:
    """Every command is listed, 80 columns wide."""
    assert main(["--help"]) == 0

    said = capsys.readouterr().out
    assert max(map(len, said.splitlines())) <= 80
    for name in ("receive", "cut", "undo", "today", "calc", "demo", "material"):
        assert f"  {name} " in said
    assert app.registered_commands
    assert main(["cut", "--help"]) == 0
    assert "--offcut ACROSSxALONG" in capsys.readouterr().out


def test_a_list_is_as_wide_as_the_terminal(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """The name gives way, what is counted does not."""
    shop.lines("material", "add", "x" * 100, "--kind", "window-film")
    monkeypatch.setenv("COLUMNS", "70")

    lines = shop.lines("material", "list")

    assert max(map(len, lines)) <= 70
    assert any("x…" in line and line.endswith("(default)") for line in lines)


def test_an_old_book_is_still_a_book(shop: Shop) -> None:
    """Nothing but reading happens when somebody looks."""
    before = shop.book.read_bytes()

    shop.lines("rack")

    assert shop.book.read_bytes() == before
    assert sqlite3.connect(shop.book).execute("PRAGMA integrity_check").fetchone() == ("ok",)
