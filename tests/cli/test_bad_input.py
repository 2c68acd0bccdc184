"""What cannot be done is said in one plain line, with its exit code, and the book stays as it was."""

from pathlib import Path

import pytest

from stockroom.codes.own import Letter, build, numbers
from tests.cli.conftest import FILM, Shop

CUT = ("cut", "{roll}")
JOB = ("--job", "{clinic}")
RECEIVE = ("receive", FILM)
CALC_MEMORY = ("calc", "memory", "--core", "76mm", "--thickness", "50um", "--wound", "180d")
NOBODYS_ROLL = build(Letter.ROLL, numbers(Letter.ROLL, 5_000, 1)[0])
NOBODYS_JOB = build(Letter.JOB, numbers(Letter.JOB, 5_000, 1)[0])
LONG = "9" * 10_000
HOSTILE = "[/] \x1b[2J\u202e\n<script>" + "x" * 10_000
WARMUP = (
    *("calc", "warmup", "--from", "2C", "--air", "22C", "--rh", "50"),
    *("--outside", "150mm", "--width", "1524mm"),
)
IMPORT = ("climate", "import", "--zone", "North")
LIFT = (
    *("calc", "lift", "--mass", "12kg", "--horizontal", "25cm", "--vertical", "55cm"),
    *("--travel", "95cm"),
)

BAD = [
    # lengths
    ((*CUT, "16m", *JOB), 3),
    ((*CUT, "0", *JOB), 2),
    ((*CUT, "0m", *JOB), 2),
    ((*CUT, "-3m", *JOB), 2),
    (("cut", "-3m", "{roll}", *JOB), 2),
    (("cut", "--job", "{clinic}", "--json", "{roll}", "-3m"), 2),
    ((*CUT, "-.5m", *JOB), 2),
    ((*CUT, "−3m", *JOB), 2),  # noqa: RUF001
    ((*CUT, "nan", *JOB), 2),
    ((*CUT, "inf", *JOB), 2),
    ((*CUT, "-inf", *JOB), 2),
    ((*CUT, "1e3", *JOB), 2),
    ((*CUT, "101km", *JOB), 2),
    ((*CUT, LONG, *JOB), 2),
    ((*CUT, "", *JOB), 2),
    ((*CUT, "3,200m", *JOB), 2),
    ((*CUT, HOSTILE, *JOB), 2),
    ((*CUT, "3m", *JOB, "--waste", "-1m"), 2),
    ((*CUT, "3m", *JOB, "--waste", "4m"), 3),
    ((*CUT, "3m", *JOB, "--offcut", "2000x1000"), 3),
    ((*CUT, "3m", *JOB, "--offcut", "0x1000"), 2),
    ((*CUT, "3m", *JOB, "--offcut", "600"), 2),
    # codes
    (("cut", "R000001X", "3m", *JOB), 2),
    (("cut", "R00000", "3m", *JOB), 2),
    (("cut", "", "3m", *JOB), 2),
    (("cut", HOSTILE, "3m", *JOB), 2),
    (("cut", "{clinic}", "3m", *JOB), 2),
    (("cut", "R000999G", "3m", *JOB), 2),
    (("cut", NOBODYS_ROLL, "3m", *JOB), 4),
    ((*CUT, "3m", "--job", NOBODYS_JOB), 4),
    ((*CUT, "3m", "--job", "{roll}"), 2),
    ((*CUT, "3m", "--job", "clinic partition"), 2),
    (("piece", NOBODYS_ROLL), 4),
    (("log", "--piece", NOBODYS_ROLL), 4),
    (("job", "show", NOBODYS_JOB), 4),
    (("label", NOBODYS_ROLL, "-o", "label.png"), 4),
    # what the piece or the job forbids
    ((*CUT, "3m", "--job", "{bus}"), 3),
    (("cut", "{held}", "3m", *JOB), 3),
    (("cut", "{held}", "3m", *JOB, "--despite", "it must be"), 3),
    (("cut", "{gone}", "3m", *JOB), 3),
    (("cut", "{box}", "3m", *JOB), 3),
    (("take", "{roll}", "3", *JOB), 3),
    (("take", "{box}", "101", *JOB), 3),
    (("take", "{box}", "0", *JOB), 2),
    (("take", "{box}", "-3", *JOB), 2),
    (("take", "{box}", "1.5", *JOB), 2),
    (("back", "{roll}", "1m", *JOB), 3),
    (("back", "{roll}", *JOB), 2),
    (("back", "{roll}", "1m"), 2),
    (("back", "--from", "{roll}", *JOB), 2),
    (("back", "--from", "{roll}", "--size", "500x500", *JOB), 3),
    (("finished", "{gone}"), 3),
    (("count", "{roll}"), 2),
    (("count", "{roll}", "--length", "3m", "--outside", "130mm"), 2),
    (("count", "{roll}", "--outside", "20mm"), 2),
    (("count", "{roll}", "--mass", "-4kg"), 2),
    (("count", "{roll}", "--number", "3"), 3),
    (("hold", "{held}", "--why", "again"), 3),
    (("hold", "{roll}"), 2),
    (("hold", "{roll}", "--why", "\x1b\u202e"), 2),
    (("release", "{roll}", "--why", "fine"), 3),
    (("discard", "{gone}", "--why", "again"), 3),
    (("put", "{roll}", "B9"), 4),
    (("put", "{roll}", "P000002X"), 2),
    (("charge", "{roll}", "1m", *JOB), 2),
    (("charge", "{roll}", "1m", "--at", "2026-11-10"), 2),
    (("charge", "{roll}", "1m", *JOB, "--at", "2026-11-10"), 3),
    (("undo", "{roll}", "--act", "1"), 3),
    (("job", "close", "{bus}"), 3),
    (("job", "reopen", "{clinic}"), 3),
    ((*CUT, "3m"), 2),
    ((*CUT, "3m", *JOB, "--for", "sample"), 2),
    ((*CUT, "3m", "--for", "fun"), 2),
    # times
    ((*CUT, "3m", *JOB, "--at", "2027-01-01"), 3),
    ((*CUT, "3m", *JOB, "--at", "2026-11-25T09:01Z"), 3),
    ((*CUT, "3m", *JOB, "--at", "2026-11-19"), 3),
    ((*CUT, "3m", *JOB, "--at", "2026-11-20T16:29"), 3),
    ((*CUT, "3m", *JOB, "--at", "2026-02-29"), 2),
    ((*CUT, "3m", *JOB, "--at", "0001-01-01T00:00"), 2),
    ((*CUT, "3m", *JOB, "--at", "tomorrow"), 2),
    ((*CUT, "3m", *JOB, "--at", ""), 2),
    ((*CUT, "3m", *JOB, "--request", ""), 2),
    ((*CUT, "3m", *JOB, "--request", LONG), 2),
    (("today", "--today", "2026-11"), 2),
    (("rack", "--today", "soon"), 2),
    (("log", "--since", "soon"), 2),
    # what comes in
    (("receive", "nothing known", "--length", "3m"), 4),
    (RECEIVE, 2),
    ((*RECEIVE, "--count", "12"), 3),
    ((*RECEIVE, "--length", "3m", "--count", "12"), 2),
    ((*RECEIVE, "--length", "3m", "--rolls", "0"), 2),
    ((*RECEIVE, "--length", "3m", "--rolls", "100000"), 2),
    ((*RECEIVE, "--length", "3m", "--made", "2027"), 3),
    ((*RECEIVE, "--length", "3m", "--made", "2026-11", "--received", "2026-10-01"), 3),
    ((*RECEIVE, "--length", "3m", "--made", "9.3.26"), 2),
    ((*RECEIVE, "--length", "3m", "--place", "nowhere"), 4),
    ((*RECEIVE, "--length", "3m", "--cost", "-5"), 2),
    ((*RECEIVE, "--length", "3m", "--printed", "2026-11-20", "--ink", "blood"), 2),
    ((*RECEIVE, "--length", "3m", *JOB), 2),
    ((*RECEIVE, "--length", "3m", "--printed", "2026-11-20", "--job", "{bus}"), 3),
    # what is set up
    (("material", "add", FILM.upper(), "--kind", "window-film"), 3),
    (("material", "add", "foil", "--kind", "foil"), 2),
    (("material", "add", "foil"), 2),
    (("material", "add", "\x1b\u202e", "--kind", "tool"), 2),
    (("material", "add", "foil", "--kind", "window-film", "--layer", "50um"), 2),
    (("material", "add", "foil", "--kind", "window-film", "--shelf", "soon"), 2),
    (("material", "change", FILM), 2),
    (("material", "show", "foil"), 4),
    (("place", "add", "a1"), 3),
    (("place", "add", ""), 2),
    (("place", "zone", "a1"), 2),
    (("place", "zone", "a1", "attic", "--none"), 2),
    (("place", "zone", "a1", ""), 2),
    (("place", "zone", "a9", "attic"), 4),
    (("job", "add", "tower", "--on", "someday"), 2),
    (("job", "add", "tower", "--kind", "sculpture"), 2),
    (("book", "set", "near.dayz", "20"), 2),
    (("book", "set", "near.days", "-20"), 2),
    (("book", "set", "currency", "euro"), 2),
    (("book", "set", "time-zone", "Atlantis/Center"), 2),
    (("book", "set", "time-zone", "../../etc/passwd"), 2),
    # what sensors read
    (("climate", "import", "book.db"), 2),
    ((*IMPORT, "no.csv"), 2),
    ((*IMPORT, "."), 2),
    ((*IMPORT, LONG), 2),
    ((*IMPORT, "book.db"), 2),
    ((*IMPORT, "book.db", "--zone-time", "Atlantis/Centre"), 2),
    ((*IMPORT, "book.db", "--date-order", "ydm"), 2),
    ((*IMPORT, "book.db", "--scale", "k"), 2),
    ((*IMPORT, "book.db", "--dry"), 2),
    (("climate", "import", "book.db", "--zone", ""), 2),
    (("climate", "import", "book.db", "--zone", LONG), 2),
    (("climate", "listen", "--port", "0"), 2),
    (("climate", "listen", "--port", "many"), 2),
    (("climate", "listen", "--topic", "shop/climate"), 2),
    (("climate", "listen", "--topic", HOSTILE), 2),
    (("climate", "listen", "--host", ""), 2),
    (("climate", "listen", "--book", LONG), 5),
    # what is typed wrongly
    ((), 2),
    (("frobnicate",), 2),
    (("book",), 2),
    (("cut",), 2),
    ((*CUT, "3m", *JOB, "--colour", "red"), 2),
    ((*CUT, "3m", *JOB, "4m"), 2),
    ((*CUT, "3m", "--job"), 2),
    ((*CUT, "3m", *JOB, f"--{HOSTILE}"), 2),
    (("rack", "--verdict", "maybe"), 2),
    (("label", "{roll}", "-o", "label.gif"), 2),
    (("label", "{roll}", "{held}", "-o", "label.png"), 2),
    (("label", "{roll}", "-o", "label.png", "--size", "9x9"), 2),
    (("label", "{roll}", "-o", "label.png", "--dpi", "72"), 2),
    (("label", "{roll}", "-o", "no/such/folder/label.png"), 5),
    (("backup", "no/such/folder/copy.db"), 5),
    (("backup", LONG), 5),
    (("demo", "--into", LONG), 5),
    (("demo", "--into", "no/such/folder/demo.db"), 5),
    (("demo", "--into", "."), 5),
    (("demo", "--into", "demo.db", "--today", "2026-11"), 2),
    (("rack", "--book", ""), 2),
    (("rack", "--book", LONG), 5),
    (("put", "{roll}", "A1", "--book", LONG), 5),
    (("calc", "length", "--core", "76mm", "--thickness", "50um", "--outside", "-3m"), 2),
    (("calc", "mkt", "no/such/readings.csv"), 2),
    (("calc", "mkt", "."), 2),
    (("calc", "mkt", LONG), 2),
    (("calc", "age", HOSTILE), 2),
    (("calc", "dewpoint", "--air", "22C", "--rh", "-5"), 2),
    (("calc", "dewpoint", "--air", "-90C", "--rh", "50"), 2),
    ((*WARMUP, "--rh", "NaN"), 2),
    ((*WARMUP, "--outside", "0"), 2),
    ((*LIFT, "--angle", "-10"), 2),
    ((*LIFT, "--hours", "9h"), 2),
    ((*LIFT, "--grip", "firm"), 2),
    ((*CALC_MEMORY, "--prony", "0.5:10,0.4:100,0.3:1000"), 2),
    ((*CALC_MEMORY, "--prony", LONG), 2),
    ((*CALC_MEMORY, "--prony", HOSTILE), 2),
    ((*CALC_MEMORY, "--free", "-3d"), 2),
    ((*CALC_MEMORY, "--strip", "nan"), 2),
    (("calc", "curl", "--chord", "301mm", "--arc", "300mm", "--height", "19mm"), 2),
    (("calc", "curl", "--chord", "-3m", "--height", "19mm"), 2),
    (("calc", "curl", "--arc", "300mm", "--height", "140mm"), 2),
    (("calc", "curl", "--height", "19mm"), 2),
]


@pytest.mark.parametrize(("arguments", "code"), BAD, ids=lambda one: str(one)[:60])
def test_bad_input_is_one_line_and_changes_nothing(
    shop: Shop,
    arguments: tuple[str, ...],
    code: int,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """One plain line on stderr, nothing on stdout, no row more or less in the book."""
    monkeypatch.chdir(tmp_path)
    before = shop.dump()

    ran = shop.run(*arguments)

    assert (ran.code, ran.out) == (code, "")
    assert ran.err.endswith("\n")
    assert ran.err.count("\n") == 1
    assert ran.err.rstrip("\n").isprintable()
    assert 10 < len(ran.err) < 500
    assert shop.dump() == before
    assert not list(tmp_path.glob("label.*"))


@pytest.mark.parametrize("name", ["[b]PET[/b] 90 %", "[/] [@click=app.quit]x[/]", "\u202egnp.exe"])
def test_a_hostile_name_is_harmless_and_is_found_again(shop: Shop, name: str) -> None:
    """Names are text, never markup, and never an escape for the terminal."""
    dirty = f"{name}\n\x1b[31m"
    shop.lines("material", "add", dirty, "--kind", "window-film", "--width", "760")
    shop.lines("receive", dirty, "--length", "3m", "--lot", dirty)

    shown = shop.run("rack", "--find", dirty.strip())

    assert "\x1b" not in shown.out
    assert "\u202e" not in shown.out
    assert "1 piece" in shown.out


def test_a_name_of_ten_thousand_characters_is_refused(shop: Shop) -> None:
    """It is not cut short behind a person's back, and nothing is written."""
    before = shop.dump()

    refused = shop.run("material", "add", "x" * 10_000, "--kind", "tool")

    assert (refused.code, refused.out) == (2, "")
    assert refused.err == f"“{'x' * 20}…” is too long: write at most 120 characters.\n"
    assert shop.dump() == before
