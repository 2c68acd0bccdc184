"""What to buy, as the Buying screen shows it."""

import pytest

from stockroom.books.opening import Book
from stockroom.lines import to_buy as lines
from stockroom.lines.plot import LABEL
from stockroom.units import M, System
from stockroom.work.buying import buying
from stockroom.work.stock_plot import StockPlot, stock_plot
from tests.builders import BLANK, FILM, Station


@pytest.fixture
def plot(book: Book) -> StockPlot:
    """Of long rolls of film some is drawn; of film to print on nothing is."""
    station = Station(book)
    job, roll = station.job(), station.rolls(length_nm=400 * M, pieces=3)[0]
    station.blank()
    for _ in range(3):
        station.cut(roll, 90 * M, job=job)
        station.wait(days=7)
    found = buying(book, now=station.now)
    return stock_plot(book, next(r for r in found.rows if r.material.name == FILM), found.view)


def test_what_will_be_below_its_point_first_stands_first(plot: StockPlot, book: Book) -> None:
    """What nobody draws stands last, and a supplier has only what is bought there."""
    station = Station(book)
    station.wait(days=22)
    found = buying(book, now=station.now)

    assert [row.material.name for row in lines.chosen(found, "")] == [FILM, BLANK]
    assert lines.chosen(found, "Film house") == ()
    assert lines.said(found, lines.chosen(found, ""), "") == "2 materials  ·  0 to order"


@pytest.mark.parametrize("system", System)
def test_lengths_beside_the_plot_have_room_and_lose_no_digit(
    plot: StockPlot, system: System
) -> None:
    """However long they are: of many feet the inches are left out."""
    stock, drawn = lines.panels(plot, system, 150)

    said = [one.label for one in stock.limits] + [*stock.written, *drawn.written]
    assert all(len(one) < LABEL for one in said)
    assert stock.written == ("-", {System.METRIC: "1200 m", System.US: "3937'"}[system])
    assert len(stock.levels) == len(drawn.levels) == 150


@pytest.mark.parametrize("width", [78, 118])
def test_today_stands_between_what_was_and_what_is_to_come(plot: StockPlot, width: int) -> None:
    """With months on both sides, none written over another."""
    said = lines.ticks(plot, width)

    assert len(said) == width
    at = said.index("╵today")
    assert abs(at - LABEL - (width - LABEL) // 2) <= 1
    assert said[:at].count("╵") >= 2
    assert said[at + 1 :].count("╵") >= 1
    assert all(len(one) in (5, 7) for one in said.replace("╵", "").split())


def test_the_sentence_says_what_grows_too_old(plot: StockPlot) -> None:
    """Beside what to order; the facts say how it is drawn and bought."""
    row = plot.planned
    drawn, bought = lines.facts(row, System.METRIC)

    assert drawn.startswith("drawn 373.6 m a month, 90 m at a time (new")
    assert bought.startswith("from ? · a roll is 400 m · keeps ")
    assert lines.sentence(row, System.METRIC).startswith(f"{FILM}: 930 m to draw on, ")
