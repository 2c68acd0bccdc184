"""The log in words."""

from datetime import timedelta

from stockroom.lines import log as lines
from stockroom.lines.log import LogWanted
from stockroom.units import MM, M
from stockroom.units.shown import show_size
from stockroom.work.look import log
from stockroom.work.setup import settings
from tests.builders import Station


def test_an_act_names_its_piece_what_was_done_and_who_did_it(station: Station) -> None:
    """The number of the act comes last, for it is the first to go where there is no room."""
    code, job = station.roll(), station.job()
    act = station.cut(code, 3_200 * MM, job=job).act
    shop = settings(station.book, now=station.now)[0]

    assert lines.cells(act, shop, ()) == (
        "2026-11-25 09:00",
        "R000 002J",
        "cut 3.2 m for J000 0019",
        "Ida M.",
        str(act.id),
    )
    assert lines.detail(act, shop) == f"act {act.id} · job J000 0019"


def test_every_piece_an_act_touched_has_its_own_line(station: Station) -> None:
    """What was cut, and what was kept of it."""
    size = (1_200 * MM, 2 * M)
    done = station.cut(station.roll(), 2 * M, offcuts=(size,))
    shop = settings(station.book, now=station.now)[0]

    assert list(lines.touched(done.act, shop, ()).values()) == [
        ("R000 002J", "cut 2 m for sample", "-2 m", "28 m"),
        ("C000 001H", f"kept, {show_size(*size)}, of R000 002J", "+2 m", "2 m"),
    ]
    assert "2 pieces: R000 002J, C000 001H" in lines.detail(done.act, shop)


def test_an_act_written_down_later_says_when(station: Station) -> None:
    """What was remembered is not what was seen."""
    code, at = station.roll(), station.now
    station.wait(hours=3)
    act = station.cut(code, 1 * M, at=at + timedelta(hours=1)).act
    shop = settings(station.book, now=station.now)[0]

    assert lines.detail(act, shop).endswith("written down 2026-11-25 12:00")


def test_a_day_of_the_log_is_a_shop_day(station: Station) -> None:
    """A cut at 01:30 belongs to last night's job."""
    code = station.roll()
    station.wait(hours=16, minutes=30)
    act = station.cut(code, 1 * M).act
    shop = settings(station.book, now=station.now)[0]
    wanted = LogWanted(piece=code, operator="Ida M.", day=shop.day_of(act.at))

    assert lines.said(wanted) == "R000 002J  ·  by Ida M.  ·  Wed 2026-11-25"
    assert len(log(station.book, now=station.now, **wanted.sought(shop))) == 2
    station.wait(days=1)
    station.cut(code, 1 * M)
    assert len(log(station.book, now=station.now, **wanted.sought(shop))) == 2


def test_what_cannot_be_undone_says_why(station: Station) -> None:
    """What is undone, what is an undo, and what touched no piece."""
    code = station.roll()
    station.job()
    station.cut(code, 1 * M)
    station.undo(code)
    undo, cut, opened, received = log(station.book, now=station.now)

    said = [refusal.sentence for act in (undo, cut, opened) if (refusal := lines.refused_undo(act))]
    assert [sentence.split(" ", 2)[2].split(":")[0] for sentence in said] == [
        "is an undo",
        "is undone already.",
        "touched no piece",
    ]
    assert lines.refused_undo(received) is None
