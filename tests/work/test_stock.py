"""Stock by material: only what is ours, to the square millimetre and to the cent."""

from fractions import Fraction
from uuid import uuid4

from sqlalchemy import text

from stockroom.books.pen import writing
from stockroom.books.values import ActDraft, Asked, MoveDraft
from stockroom.film.kinds import Kind
from stockroom.film.verdict import Verdict
from stockroom.units import MM, M
from stockroom.work.stock import stock
from tests.builders import BLADES, FILM, PRICE, Station


def _sets(station: Station, code: str, **facts: object) -> None:
    """A fact of a piece, written as the journal would have it."""
    asked = Asked(request=uuid4().hex, operator="Ida M.")
    with writing(station.book, asked, now=station.now, pieces=[code]) as pen:
        move = MoveDraft(code=code, kind="hold", sets=facts)
        pen.append(ActDraft(kind="hold", at=station.now, moves=(move,)))


def test_stock_adds_up_what_is_left(station: Station) -> None:
    """Area, number, value; an offcut keeps its share, what has ended has none."""
    roll, gone = station.rolls(pieces=2)
    station.cut(roll, 10 * M, offcuts=((600 * MM, 2 * M),))
    station.discard(gone)
    station.box(40)
    station.material("white cast", Kind.PRINT_VINYL)
    printed = station.roll(material="white cast", length_nm=2 * M, printed="2026-11-20")

    found = stock(station.book, now=station.now)

    film, blades, cast = found.rows
    assert [row.material.name for row in found.rows] == [FILM, BLADES, "white cast"]
    assert (film.pieces, film.area_mm2) == (2, 30_000_000 + 1_200_000)
    assert (film.value_minor, film.unpriced) == (PRICE * 2 // 3 + 1_200, 0)
    assert (blades.pieces, blades.number, blades.area_mm2, blades.value_minor) == (1, 40, 0, 2_000)
    assert (cast.area_mm2, cast.printed_mm2) == (3_000_000, 3_000_000)
    assert found.value_minor == sum(row.value_minor for row in found.rows)
    assert station.state(printed).job_id is None


def test_stock_is_what_the_pieces_say_when_sql_adds_them_up(station: Station) -> None:
    """Written independently: a sum over the rows of the pieces themselves."""
    for number in range(1, 6):
        roll = station.roll(cost_minor=PRICE + number)
        station.cut(roll, number * 1_234_567_891, offcuts=((700 * MM + number, M),))
    station.roll(cost_minor=None)

    (row,) = stock(station.book, now=station.now).rows

    with station.book.reading() as connection:
        pieces = connection.execute(
            text(
                'SELECT width_nm, balance, "full" AS whole, cost_minor FROM piece '
                "WHERE ended IS NULL AND owner = 'ours'"
            )
        ).all()
    areas = [round(Fraction(one.width_nm * one.balance, MM * MM)) for one in pieces]
    values = [
        round(Fraction(one.cost_minor * one.balance, one.whole))
        for one in pieces
        if one.cost_minor is not None
    ]
    assert row.pieces == len(pieces) == 11
    assert row.area_mm2 == sum(areas)
    assert (row.value_minor, row.unpriced) == (sum(values), 1)


def test_only_what_is_ours_counts_wherever_it_is(station: Station) -> None:
    """A client's roll is not stock; our own in a van is."""
    ours, theirs, sample = station.rolls(pieces=3)
    _sets(station, theirs, owner="client")
    _sets(station, sample, owner="sample")
    _sets(station, ours, out_to="van 2")

    (row,) = stock(station.book, now=station.now).rows

    assert (row.pieces, row.value_minor) == (1, PRICE)


def test_stock_is_counted_by_verdict_and_by_day(station: Station) -> None:
    """What is held is stock and stops; of a day to come, what age makes of it."""
    held, _other = station.rolls(pieces=2)
    station.hold(held)
    station.box()

    def of(name: str, day: int) -> dict[Verdict, int]:
        today = station.now.date().replace(year=day)
        (row,) = stock(station.book, now=station.now, today=today, material=name).rows
        return dict(row.verdicts)

    assert of(FILM.upper(), 2026) == {Verdict.STOP: 1, Verdict.USE: 1}
    assert of(FILM, 2028) == {Verdict.STOP: 1, Verdict.TEST: 1}
    assert stock(station.book, now=station.now, material="no such film").rows == ()
