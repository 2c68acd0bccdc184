"""Panels of a job by command: a list, one more, a bad line."""

from pathlib import Path

import pytest

from tests.cli.conftest import FILM, Shop

LIST = "What the clinic wants\n\nname;width;height;count;group;trim\nW1;900;2100;3;front;1/1/2/0\nD1;0.8 m;2 m;;;\n"


@pytest.fixture
def panels(tmp_path: Path) -> str:
    """A list with a title, a blank line, and lengths with and without units."""
    path = tmp_path / "panels.csv"
    path.write_text(LIST, "utf-8")
    return str(path)


def test_a_list_is_read_and_one_more_is_added(shop: Shop, panels: str) -> None:
    """The film is named once for all; the job shows what it covers."""
    shop.lines("job", "panels", "{clinic}", panels, "--material", FILM)
    lines = shop.lines("job", "panels", "{clinic}", "--panel", "X:300x400*2", "--material", FILM)
    values = shop.values("job", "show", "{clinic}")

    assert lines[1].split() == ["pane", "size", "trim", "film", "cut"]
    assert lines[2].endswith(f"1/1/2/0 mm  {FILM}  0 of 3  lot of front")
    assert values["stage"] == "asked"
    assert [(one["name"], one["count"], one["width_mm"]) for one in values["panels"]] == [
        ("W1", 3, 900),
        ("D1", 1, 800),
        ("X", 2, 300),
    ]
    assert values["panels"][0]["trims_mm"] == [1, 1, 2, 0]


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("--material", FILM), 2, "No panel was named"),
        (("--panel", "300x400", "--material", FILM), 2, "write NAME:SIZE"),
        (("--panel", "X:300x0", "--material", FILM), 2, "0"),
        (("--panel", "X:nanx300", "--material", FILM), 2, "nan"),
        (("--panel", "X:300x400"), 2, "Which film?"),
        (("--panel", "X:300x400", "--material", "gold"), 4, "No material is called"),
        (("nowhere.csv", "--material", FILM), 2, "cannot be read"),
    ],
)
def test_what_cannot_be_understood_is_said_and_nothing_is_written(
    shop: Shop, arguments: tuple[str, ...], code: int, said: str
) -> None:
    """One sentence, the code that says so, and the book as it was."""
    before = shop.dump()

    ran = shop.run("job", "panels", "{clinic}", *arguments)

    assert (ran.code, ran.out) == (code, "")
    assert said in ran.err
    assert ran.err.count("\n") == 1
    assert shop.dump() == before


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("W1,900,-3,1,,", "Line 2"),
        ("W1,900,2100,0,,", "is no count"),
        ("W1,900,2100,1,,1/2", "is no trim"),
    ],
)
def test_a_bad_line_is_named(shop: Shop, tmp_path: Path, line: str, said: str) -> None:
    """The first one, by its number."""
    path = tmp_path / "bad.csv"
    path.write_text(f"name,width,height,count,group,trim\n{line}\n", "utf-8")

    ran = shop.run("job", "panels", "{clinic}", str(path), "--material", FILM)

    assert ran.code == 2
    assert said in ran.err


def test_the_glass_of_a_job_is_one_of_a_glass_job(shop: Shop) -> None:
    """A vehicle has none; what nobody knows is refused."""
    assert shop.values("job", "add", "bus", "--glass", "sealed")["glass"] == "sealed"
    for arguments in (("--glass", "sealed", "--kind", "vehicle"), ("--glass", "blue")):
        assert shop.run("job", "add", "bus 2", *arguments).code == 2


def test_spoiled_and_installed(shop: Shop, panels: str) -> None:
    """What was not cut cannot be spoiled; what is up is said."""
    shop.lines("job", "panels", "{clinic}", panels, "--material", FILM)

    assert shop.run("job", "spoiled", "{clinic}", "W1").code == 2
    shop.lines("job", "install", "{clinic}", "--hours", "1.5")
    assert "work: 1.5 h, no rate is set: `stockroom book set labour`" in shop.lines(
        "job", "show", "{clinic}"
    )
    shop.lines("book", "set", "labour", "42", "--why", "agreed")
    values = shop.values("job", "show", "{clinic}")
    assert (values["stage"], values["work_minutes"], values["labour_minor"]) == (
        "installed",
        90,
        6_300,
    )
    assert shop.run("job", "install", "{bus}", "--hours", "-1").code == 2
