"""Pages for a wall or a clipboard: what the books put on them."""

import pytest

from stockroom.books.pen import writing
from stockroom.books.values import ActDraft, Asked, MoveDraft
from stockroom.errors import Code
from stockroom.labels.drawing import width_mm
from stockroom.labels.paper import A4, LETTER
from stockroom.units import MM, M
from stockroom.work.people import AddPerson, add_a_person
from stockroom.work.sheets import power_cut_sheet, van_sheet, wall_card
from tests.builders import BLADES, FILM, ON_ONE_ENGINE, Station, refused
from tests.labels.seeing import printed


def away(station: Station, code: str, to: str) -> None:
    """The roll went away, as the journal would have it."""
    with writing(station.book, Asked(**station.asked()), now=station.now, pieces=[code]) as pen:
        sets = {"out_to": to, "out_since": station.now.isoformat(), "out_by": "Ole"}
        move = MoveDraft(code=code, kind="out", sets=sets)
        pen.append(ActDraft(kind="out", at=station.now, moves=(move,)))


def test_a_van_sheet_lists_what_stands_in_the_van(station: Station) -> None:
    """Each kind of piece with what the books have left of it, by code, and nothing from elsewhere."""
    van, station_place = station.place("Van 2"), station.place("A1")
    roll, other = station.rolls(pieces=2, lot="L-9")
    sheet = station.cut(roll, 2 * M, offcuts=((700 * MM, M),)).offcuts[0].code
    box = station.box(60)
    for code in (roll, sheet, box):
        station.put(code, van)
    station.put(other, station_place)
    station.hold(roll, why="edge dented")

    for named in ("van  2", van):
        found = van_sheet(station.book, now=station.now, where=named)
        rows = {row.code: row.cells for row in found.rows}
        assert found.title == "Van 2"
        assert list(rows) == [box, sheet, roll]
        assert rows[box] == ((BLADES, "lot ?"), ("60", ""))
        assert rows[sheet] == ((FILM, "lot L-9"), ("700 \N{MULTIPLICATION SIGN} 1000 mm", ""))
        assert rows[roll] == ((FILM, "1500 mm · lot L-9 · held: edge dented"), ("28 m", ""))


def test_a_piece_that_is_away_is_there_and_not_at_its_place(station: Station) -> None:
    """Without a place, everything that is away; a van that is no place of the book is known by it."""
    place = station.place("A1")
    roll, site, home = station.rolls(pieces=3, place=place)
    away(station, roll, "van 2")
    away(station, site, "Mill Lane")

    def codes(where: str | None) -> list[str]:
        found = van_sheet(station.book, now=station.now, where=where)
        return [row.code for row in found.rows]

    assert codes(None) == [roll, site]
    assert codes("VAN 2") == [roll]
    assert codes("a1") == [home]
    row = van_sheet(station.book, now=station.now, where="van 2").rows[0]
    assert row.cells[1] == ("30 m", "van 2, Ole")


def test_an_empty_place_is_an_empty_sheet_and_an_unknown_one_is_refused(station: Station) -> None:
    """Nothing in the van is a page of lines to fill; a van nobody knows is a slip of the pen."""
    place = station.place("van 2")

    assert van_sheet(station.book, now=station.now, where=place).rows == ()
    assert van_sheet(station.book, now=station.now).rows == ()
    with refused(station.book, Code.NO_PLACE, "No place is called “van 3”, and nothing is away"):
        van_sheet(station.book, now=station.now, where="van 3")


@ON_ONE_ENGINE
def test_what_to_type_later_is_on_both_sheets(station: Station) -> None:
    """The words are commands that the program has."""
    van = van_sheet(station.book, now=station.now)
    dark = power_cut_sheet(station.book, now=station.now)

    for word in ("stockroom in PIECE", "stockroom cut PIECE", "--round TAPE"):
        assert word in " ".join(van.notes)
    assert "stockroom cut PIECE LENGTH --job JOB --waste WASTE --by WHO" in " ".join(dark.notes)
    assert [column.head for column in dark.columns] == [
        *("piece", "job, or why without one", "length", "waste", "who", "day and time"),
    ]
    assert dark.rows == ()
    narrowest_mm = LETTER.along_nm / MM - 2 * 12
    for note in (*van.notes, *dark.notes):
        assert width_mm(note, 9) < narrowest_mm


@pytest.mark.parametrize("again", [False, True])
def test_the_wall_card_names_those_who_have_a_digit(station: Station, again: bool) -> None:  # noqa: FBT001 - a table
    """Somebody without a digit is not on it; nobody at all leaves the digits alone."""
    if again:
        for name, key in (("Ida M.", 3), ("Ole", None)):
            add_a_person(AddPerson(**station.asked(name=name, key=key)), book=station.book)

    words = printed(wall_card(station.book, now=station.now, paper=A4))[0]

    assert ("Ida M." in words) is again
    assert "Ole" not in words
    assert "OK" in words
