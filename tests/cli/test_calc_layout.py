"""`calc layout`: a spreadsheet's list of panels in, places and cuts out; a stranger checks them."""

import json
from pathlib import Path
from typing import Any

import pytest

from stockroom.cli.app import main
from tests.plan.checking import Laid, comes_apart, overlaps, sizes, sticks_out

CLINIC = """Clinic, ground floor

name;width;height;count;turn
hall;680;430mm;4;

;530;1.625 m;3;no
front;30in;0.79m;2;yes
;;;;
"""
WANTED: list[Laid] = [
    *[("hall", 0, 0, 680, 430)] * 4,
    *[("line 6", 0, 0, 530, 1625)] * 3,
    *[("front", 0, 0, 762, 790)] * 2,
]


@pytest.fixture
def panels(tmp_path: Path) -> Path:
    """A list with a title, blank lines, a panel without a name and several units."""
    path = tmp_path / "panels.csv"
    path.write_text(CLINIC, encoding="utf-8")
    return path


def _values(capture: pytest.CaptureFixture[str], *arguments: str) -> dict[str, Any]:
    assert main(["calc", "layout", *arguments, "--effort", "300", "--json"]) == 0
    said = capture.readouterr()
    assert said.err == ""
    values: dict[str, Any] = json.loads(said.out)
    return values


def _laid(values: dict[str, Any]) -> list[Laid]:
    keys = ("name", "across_mm", "along_mm", "width_mm", "length_mm")
    return [tuple(one[key] for key in keys) for one in values["placements"]]


@pytest.mark.parametrize("more", [(), ("--turn",), ("--knife", "free"), ("--table", "1700mm")])
def test_a_stranger_can_check_a_layout(
    panels: Path, capsys: pytest.CaptureFixture[str], more: tuple[str, ...]
) -> None:
    """Nothing overlaps or sticks out, every panel is there, and a straight knife parts them."""
    values = _values(capsys, str(panels), "--width", "1524mm", *more)
    laid = _laid(values)

    assert overlaps(laid) == []
    assert sticks_out(laid, 1524, values["length_mm"]) == []
    assert sizes(laid, turns=True) == sizes(WANTED, turns=True)
    assert not any(one["turned"] for one in values["placements"] if one["name"] == "line 6")
    assert values["bound_mm"] <= values["length_mm"]
    if "free" not in more:
        assert comes_apart(laid)
        assert [one["number"] for one in values["cuts"]] == list(range(1, len(values["cuts"]) + 1))


def test_the_same_seed_gives_the_same_layout(
    panels: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Effort counts evaluations, so it repeats on any machine."""
    asked = (str(panels), "--width", "1524mm", "--seed", "7")
    assert _values(capsys, *asked) == _values(capsys, *asked)


def test_people_see_it_drawn_to_scale_with_its_cuts(
    panels: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Film as the long axis; every line fits a terminal."""
    assert main(["calc", "layout", str(panels), "--width", "1524mm", "--effort", "300"]) == 0
    lines = capsys.readouterr().out.splitlines()

    assert lines[0][0] == "┌"
    assert lines[0][-1] == "┐"
    assert any("hall" in line for line in lines[:12])
    assert any("of film 1524 mm wide" in line for line in lines)
    assert any(line.split()[:2] == ["1", "across"] for line in lines)
    assert max(len(line) for line in lines if "of film" not in line) <= 78


@pytest.mark.parametrize(
    ("content", "code", "says"),
    [
        (b"name,width,height\nwide,1600,400\n", 3, "'wide' fits the film in no way"),
        (b"name,width,height\n", 2, "no panels"),
        (b"hall,680,430\n", 2, "no heading"),
        (b"", 2, "no heading"),
        (b"name,width,height\nhall,nan,430\n", 2, "Line 2: "),
        (b"name,width,height\nhall,-3m,430\n", 2, "Line 2: "),
        (b"name,width,height,count\nhall,300,430,0\n", 2, "Line 2: '0' is no count"),
        (b"name,width,height,count\nhall,300,430,2001\n", 2, "no count"),
        (b"name,width,height,count\na,30,43,2000\nb,30,43,1\n", 2, "2001 panels"),
        (b"name,width,height,turn\nhall,300,430,perhaps\n", 2, "turn is yes or no"),
        (b"name,width,height\nhall\n", 2, "Line 2: "),
    ],
)
def test_a_bad_list_is_refused_in_one_sentence(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    content: bytes,
    code: int,
    says: str,
) -> None:
    """With the line where it is wrong."""
    path = tmp_path / "panels.csv"
    path.write_bytes(content)

    assert main(["calc", "layout", str(path), "--width", "1524mm"]) == code
    said = capsys.readouterr()
    assert said.out == ""
    assert says in said.err
    assert len(said.err.splitlines()) == 1


def test_a_list_that_is_not_there_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    """With its name."""
    assert main(["calc", "layout", "nowhere.csv", "--width", "1524mm"]) == 2
    assert "nowhere.csv" in capsys.readouterr().err
