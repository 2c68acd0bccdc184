"""The measurements of `scripts/bench`, each made once and small; how long they take is no matter."""

import tempfile
from collections.abc import Iterator
from contextlib import closing

import pytest

from scripts.speed.books import book_results
from scripts.speed.climate import climate_results
from scripts.speed.result import Growth, Memory, Result, machine, table
from scripts.speed.scale import Scale
from scripts.speed.surfaces import surface_results
from scripts.speed.synthetic import NOW, book_of
from stockroom.books.opening import open_book
from stockroom.work.look import piece, rack
from stockroom.work.safekeeping import verify

SMALL = Scale(
    pieces=30,
    acts=8,
    growth=(2, 20),
    scans=2,
    racks=1,
    starts=1,
    zones=3,
    readings=200,
    labels=3,
    rows=40,
)


@pytest.fixture(scope="module", autouse=True)
def _own_shelf(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """The books that are made stand in a folder of their own."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(tempfile, "tempdir", str(tmp_path_factory.mktemp("speed")))
        yield


def test_the_book_that_is_measured_is_a_sound_one() -> None:
    """Its chain is whole, its states are folded, and its pieces are told apart by their verdicts."""
    with closing(open_book(str(book_of(100, 20)))) as book:
        found = rack(book, now=NOW).pieces

        assert verify(book) == []
        assert len(found) == 100
        assert len({one.judgement.verdict for one in found}) > 2
        assert {len(piece(book, one.code, now=NOW).acts) for one in found[:5]} == {20}


def test_every_aim_is_measured() -> None:
    """With the sizes it was measured at, and something beside it wherever there is a library."""
    small = [*book_results(SMALL), *climate_results(SMALL), *surface_results(SMALL)]

    said = [(result.what, result.beside_s is not None, result.most) for result in small]

    assert said == [
        ("look up a piece by its code, and its 8 acts", True, 5),
        ("the rack: 30 pieces with verdicts", True, 10),
        ("growth of the rack, from 2 to 20 pieces", True, 1.1),
        ("append a cut, on the disk", True, 3),
        ("sum 600 readings for 3 energies and the air, cold", False, 300),
        ("settle what storage did to 30 pieces", False, 30),
        ("their exposure over these readings", False, 1),
        ("the same again in one report", False, 1),
        ("most memory for it", False, 1_500),
        ("the rack of them, with climates and curls", False, 15),
        ("nothing settled: where they stood through time", False, 2),
        ("nothing settled: their exposure, from stored sums", False, 2),
        ("write a late reading, and sum from there on again", False, 15),
        ("start the screens; import textual and sqlmodel", True, 1.6),
        ("3 labels; bare qrcode (level H) and reportlab", True, 1.5),
        ("open a list of 40 rows", False, 0.1),
    ]
    assert all(result.ours_s > 0 and result.beside_s != 0 for result in small)


def test_the_sizes_are_those_that_were_promised() -> None:
    """A million moves, 50,000 pieces, 10 million readings, 1,000 labels, a list of 100,000 rows."""
    usual = Scale()

    assert usual.pieces * usual.acts == 1_000_000
    assert (usual.pieces, usual.labels, usual.rows) == (50_000, 1_000, 100_000)
    assert usual.zones * usual.readings == 10_000_000
    assert usual.growth == (1_000, 100_000)


@pytest.mark.parametrize(
    ("result", "is_met"),
    [
        (Result("a", 3.0, 2.0, 1.5), True),
        (Result("a", 3.1, 2.0, 1.5), False),
        (Result("a", 0.1, None, 0.1), True),
        (Result("a", 0.2, None, 0.1), False),
        (Growth("a", 9.0, 1.0, 1.1, exponent=1.0), True),
        (Growth("a", 1.0, 9.0, 1.1, exponent=1.2), False),
    ],
)
def test_an_aim_is_met_by_the_ratio_or_the_time_or_the_exponent(
    result: Result,
    is_met: bool,  # noqa: FBT001
) -> None:
    """Whatever the aim is set for."""
    assert result.is_met is is_met


def test_the_table_can_be_copied_into_a_document() -> None:
    """Columns in line, with the size of the machine above it."""
    results = [
        Result("a long name", 0.00312, 0.001, 5),
        Result("b", 12.345, None, 0.1),
        Growth("c", 9.0, 1.0, 1.1, exponent=0.95),
        Memory("d", 512.4, None, 500),
    ]

    assert list(table(results)) == [
        "what            ours  beside  ratio        aim",
        "a long name  3.12 ms    1 ms   3.12        ≤ 5      ok",
        "b            12.35 s                   ≤ 0.1 s  missed",
        "c             9.00 s  1.00 s   0.95      ≤ 1.1      ok",
        "d            512 MiB                 ≤ 500 MiB  missed",
    ]
    assert " cores, " in machine()
