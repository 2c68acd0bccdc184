"""What a job used, against sums that the database makes by itself."""

from sqlalchemy import text

from stockroom.books.opening import Book
from stockroom.film.kinds import Kind
from stockroom.units import MM, M
from stockroom.work.job_use import JobUse, job_use
from stockroom.work.printing import Print, print_length
from tests.builders import Station, is_sound

# Written without the program: what was charged to a job, less what was taken back.
SUMS = """
SELECT COALESCE(SUM(move.used_mm2), 0), COALESCE(SUM(move.wasted_mm2), 0),
       COALESCE(SUM(move.kept_mm2), 0), COALESCE(SUM(move.cost_minor), 0)
FROM move
JOIN act ON act.id = move.act_id
JOIN job ON job.id = act.job_id
JOIN piece ON piece.id = move.piece_id
WHERE job.code = :job AND (:piece = '' OR piece.code = :piece)
  AND move.kind IN ('cut', 'take', 'back', 'severed', 'charge', 'print', 'laminate')
  AND act.reverses IS NULL
  AND NOT EXISTS (SELECT 1 FROM act AS undoing WHERE undoing.reverses = act.id)
"""


# Also without the program: the film that left what the job did not make itself, and what stands of
# what it made. All sizes are whole millimetres.
MADE = """
SELECT piece.id FROM piece
JOIN move AS first ON first.piece_id = piece.id AND first.seq = 1
JOIN act ON act.id = first.act_id
JOIN job ON job.id = act.job_id
WHERE job.code = :job AND piece.parent IS NOT NULL
"""
DRAWN = f"""
SELECT COALESCE(SUM((-move.delta / 1000000) * (piece.width_nm / 1000000)), 0)
FROM move
JOIN act ON act.id = move.act_id
JOIN job ON job.id = act.job_id
JOIN piece ON piece.id = move.piece_id
WHERE job.code = :job AND piece.id NOT IN ({MADE})
"""
STANDS = f"""
SELECT COALESCE(SUM((balance / 1000000) * (width_nm / 1000000)), 0)
FROM piece WHERE ended IS NULL AND id IN ({MADE})
"""


def _one(book: Book, query: str, job: str) -> int:
    with book.reading() as connection:
        return int(connection.execute(text(query), {"job": job}).scalar_one())


def _summed(book: Book, job: str, piece: str = "") -> tuple[int, ...]:
    with book.reading() as connection:
        row = connection.execute(text(SUMS), {"job": job, "piece": piece}).one()
    return tuple(int(one) for one in row)


def _used(found: JobUse) -> list[tuple[str, int, int, int, int]]:
    rows = [(one.standing.code, one.used) for one in found.pieces]
    return [
        (code, used.used_mm2, used.wasted_mm2, used.kept_mm2, used.cost_minor)
        for code, used in [*rows, ("", found.total)]
    ]


def test_a_job_is_what_sql_adds_up(station: Station) -> None:
    """Cuts with waste and offcuts, goods, what came back, a late charge, a print; and an undo."""
    job, other = station.job(), station.job("clinic")
    first, second = station.roll(), station.roll(length_nm=17 * M, cost_minor=31_337)
    box = station.box()
    station.material("white cast", Kind.PRINT_VINYL)
    cast = station.roll(material="white cast", cost_minor=48_000)
    station.cut(first, 4 * M, job=job, waste_nm=300 * MM, offcuts=((600 * MM, 1_100 * MM),))
    station.cut(second, 3_333_333_333, job=job)
    station.cut(second, M, job=other)
    station.cut(second, M)
    station.take(box, 7, job=job)
    station.back(box, job, amount=2)
    station.back(first, job, amount=500 * MM)
    station.back(second, job, size=(700 * MM, M))
    station.cut(first, 2 * M, job=job)
    station.undo(first)
    request = Print(**station.asked(piece=cast, length_nm=2 * M, leader_nm=MM * 400, job=job))
    print_length(request, book=station.book, now=station.now)
    station.wait(days=1)
    station.count(first, length_nm=20 * M)
    station.charge(first, M, job, at=station.now)

    found = job_use(station.book, job, now=station.now)

    assert [code for code, *_ in _used(found)] == [first, second, box, cast, ""]
    for code, *sums in _used(found):
        assert tuple(sums) == _summed(station.book, job, code)
    assert found.pieces[2].used.number == 5
    assert found.total.wasted_mm2 > 0
    assert found.total.kept_mm2 > 0
    assert is_sound(station.book)


def test_a_print_that_is_laminated_is_kept_once(station: Station) -> None:
    """Blank film became the print, and that the laminate; the clear film is used on it."""
    job, blank, clear = station.job(), station.blank(), station.clear()
    printed = station.print(blank, 4 * M, job=job).code
    station.laminate(printed, clear, 4 * M)

    found = job_use(station.book, job, now=station.now)

    assert _used(found) == [
        (blank, 0, 0, 0, 0),
        (printed, 0, 0, 6_000_000, 0),
        (clear, 6_000_000, 0, 0, 0),
        ("", 6_000_000, 0, 6_000_000, 0),
    ]
    assert _one(station.book, STANDS, job) == 6_000_000
    assert _one(station.book, DRAWN, job) == 12_000_000


def test_all_film_of_a_job_is_used_wasted_or_kept_and_in_one_place_only(station: Station) -> None:
    """Printed, laminated beside a rest, cut with offcuts, those cut again; severed, and undone."""
    job, blank, roll = station.job(), station.blank(), station.roll()
    clear = station.cut(station.clear(), 9 * M, offcuts=((1_500 * MM, 9 * M),)).offcuts[0].code
    printed = station.print(blank, 4 * M, leader_nm=400 * MM, job=job).code
    laminated = station.laminate(printed, clear, 4 * M, waste_nm=200 * MM).code
    parts = station.cut(laminated, M, job=job, offcuts=((500 * MM, 900 * MM),)).offcuts
    station.cut(parts[-1].code, 1_300 * MM, job=job, waste_nm=100 * MM)
    kept = station.cut(roll, 3 * M, job=job, offcuts=((600 * MM, 2_500 * MM),)).offcuts[0].code
    station.back(roll, job, size=(700 * MM, M))
    station.cut(kept, 500 * MM, job=job)
    station.cut(roll, 2 * M, job=job)
    station.undo(roll)

    total = job_use(station.book, job, now=station.now).total

    assert total.kept_mm2 == _one(station.book, STANDS, job) > 0
    areas = total.used_mm2 + total.wasted_mm2 + total.kept_mm2
    assert areas == _one(station.book, DRAWN, job) > 0
    assert is_sound(station.book)


def test_a_print_found_longer_than_the_books_said_leaves_nothing_kept(station: Station) -> None:
    """And never less than nothing."""
    job = station.job()
    printed = station.print(station.blank(), 4 * M, job=job).code
    station.count(printed, length_nm=5 * M)
    station.cut(printed, 5 * M, job=job)

    total = job_use(station.book, job, now=station.now).total

    assert (total.used_mm2, total.kept_mm2) == (7_500_000, 0)


def test_a_job_that_used_nothing_says_so(station: Station) -> None:
    """Not even what was cut and taken back."""
    job, roll = station.job(), station.roll()
    station.cut(roll, M, job=job)
    station.undo(roll)

    found = job_use(station.book, job, now=station.now)

    assert (found.pieces, found.total.used_mm2, found.total.cost_minor) == ((), 0, 0)
    assert _summed(station.book, job) == (0, 0, 0, 0)


def test_a_piece_without_a_price_is_not_in_the_cost(station: Station) -> None:
    """And is counted, so that the cost is not taken for all of it."""
    job = station.job()
    station.cut(station.roll(cost_minor=None), M, job=job)
    station.cut(station.roll(), M, job=job)

    found = job_use(station.book, job, now=station.now)

    assert (found.unpriced, found.total.cost_minor) == (1, 1_500)
