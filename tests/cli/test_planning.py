"""A job planned, kept and cut by commands: from a list of panels to offcuts with labels."""

from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import FILM, Shop
from tests.labels.seeing import pages, printed, scanned
from tests.plan.checking import Laid, comes_apart, overlaps, sticks_out

PANELS = ("--panel", "W1:700x1100*2", "--panel", "W2:600x900", "--material", FILM)


@pytest.fixture
def planned(shop: Shop) -> Shop:
    """The clinic wants three panes."""
    shop.lines("job", "panels", "{clinic}", *PANELS)
    return shop


def laid(film: dict[str, Any]) -> list[Laid]:
    return [
        (one["name"], one["across_mm"], one["along_mm"], one["width_mm"], one["length_mm"])
        for one in film["placements"]
    ]


def test_a_plan_can_be_checked_by_a_stranger(planned: Shop) -> None:
    """No overlap, inside the film, cuts from edge to edge, all panels there."""
    values = planned.values("plan", "{clinic}", "--effort", "50")

    (material,) = values["materials"]
    (film,) = material["films"]
    assert (values["is_short"], material["missing"]) == (False, {})
    assert overlaps(laid(film)) == []
    assert sticks_out(laid(film), film["width_mm"], film["length_mm"]) == []
    assert comes_apart(laid(film))
    assert sorted(name for name, *_ in laid(film)) == ["W1", "W1", "W2"]
    assert planned.values("plan", "{clinic}", "--effort", "50") == values


def test_people_read_why_and_how(planned: Shop) -> None:
    """The film, its age, the drawing, the cuts."""
    lines = planned.lines("plan", "{clinic}", "--effort", "50")

    assert lines[0].endswith("clinic partition: planned for 2026-11-27, film sound on that day")
    assert lines[2].startswith(f"{FILM}: 3 of 3 panels covered, ")
    assert any("W1" in line and "│" in line for line in lines)
    assert any(line.split()[:2] == ["cut", "way"] for line in lines)


def test_reserve_cut_and_undo(planned: Shop) -> None:
    """What is only shown is not written; what is written is written once."""
    kept = planned.values("reserve", "{clinic}")
    before = planned.dump()
    shown = planned.values("cut-plan", "{clinic}")

    assert kept["films"] == shown["films"]
    assert (shown["is_written"], planned.dump()) == (False, before)
    assert planned.run("cut", kept["films"][0]["code"], "14m", "--job", "{bus}").code == 3

    lines = planned.lines("cut-plan", "{clinic}", "--confirm", "--request", "once")
    assert " cut " in lines[0]
    assert planned.lines("cut-plan", "{clinic}", "--confirm", "--request", "once") == lines
    assert planned.values("job", "show", "{clinic}")["stage"] == "cut"
    planned.lines("undo", kept["films"][0]["code"])
    assert planned.values("job", "show", "{clinic}")["stage"] == "planned"
    planned.lines("unreserve", "{clinic}")
    assert planned.run("unreserve", "{clinic}").code == 3
    assert planned.values("reserve", "{clinic}", "--until", "2027-01-31")["until"] == "2027-01-31"


def test_what_cannot_be_planned_is_said(shop: Shop) -> None:
    """No panels; a piece that is not in the plan; a misread code."""
    assert "has no panels" in shop.run("plan", "{clinic}").err
    shop.lines("job", "panels", "{clinic}", *PANELS)
    assert shop.run("cut-plan", "{clinic}", "--piece", "{held}").code == 2
    assert shop.run("plan", "J0000018").code == 2


def test_the_sheet_of_a_job_goes_along(planned: Shop, tmp_path: Path) -> None:
    """First the panels under the job's code, then each reserved roll under its own."""
    path = tmp_path / "sheet.pdf"
    bare = planned.lines("job", "sheet", "{clinic}", "-o", str(path))
    assert bare[0].endswith("no film is reserved, so no cuts are on it")
    film = planned.values("reserve", "{clinic}")["films"][0]["code"]

    said = planned.values("job", "sheet", "{clinic}", "-o", str(path))

    assert said["films"] == [film]
    content = path.read_bytes()
    seen = [[code.decode() for code, _, _ in scanned(page)] for page in pages(content, 150)]
    assert seen == [[planned.codes["clinic"]], [film]]
    panels, cuts = printed(content)
    assert "never cut film on the pane" in panels
    assert "1 across at" in cuts
    assert planned.run("job", "sheet", "{clinic}", "-o", str(tmp_path / "sheet.txt")).code == 2
