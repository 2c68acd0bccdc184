"""The journal added up by the database itself, in SQL that was written without the program.

All sizes in these books are whole millimetres.
"""

from sqlalchemy import text

from stockroom.books.opening import Book

_STANDS = """
act.reverses IS NULL
AND NOT EXISTS (SELECT 1 FROM act AS undoing WHERE undoing.reverses = act.id)
"""

UNLIKE = {
    "balances that are not the sum of all their moves": """
        SELECT piece.code FROM piece JOIN move ON move.piece_id = piece.id
        GROUP BY piece.code, piece.balance HAVING SUM(move.delta) <> piece.balance
    """,
    "balances that are not the sum of the moves that stand": f"""
        SELECT piece.code FROM piece LEFT JOIN (
            SELECT move.piece_id, SUM(move.delta) AS total
            FROM move JOIN act ON act.id = move.act_id WHERE {_STANDS} GROUP BY move.piece_id
        ) AS kept ON kept.piece_id = piece.id
        WHERE COALESCE(kept.total, 0) <> piece.balance
    """,
    "moves whose balance is not what was reached": """
        SELECT id FROM (
            SELECT id, balance, SUM(delta) OVER (PARTITION BY piece_id ORDER BY seq) AS reached
            FROM move
        ) AS line WHERE reached <> balance
    """,
    "undone acts that left something behind": """
        SELECT act.reverses FROM act JOIN move ON move.act_id IN (act.id, act.reverses)
        WHERE act.reverses IS NOT NULL GROUP BY act.reverses
        HAVING SUM(delta) <> 0 OR SUM(used_mm2) <> 0 OR SUM(wasted_mm2) <> 0
            OR SUM(kept_mm2) <> 0 OR SUM(cost_minor) <> 0
    """,
    "film that left a piece and is neither used nor wasted nor kept": """
        SELECT move.id FROM move JOIN piece ON piece.id = move.piece_id
        WHERE move.kind IN ('cut', 'print', 'laminate', 'back')
          AND -(move.delta / 1000000) * (piece.width_nm / 1000000)
              <> move.used_mm2 + move.wasted_mm2 + move.kept_mm2
    """,
}
"""What no book holds, and a query that would find it."""

# What a job was charged and did not give back, piece by piece. Film laid over other film is used.
# What the job made of a piece and took up again is kept of that piece no more.
_USE = f"""
WITH stands AS (
    SELECT act.id FROM act JOIN job ON job.id = act.job_id WHERE job.code = :job AND {_STANDS}
),
charged AS (
    SELECT move.*, piece.code, piece.parent, piece.width_nm
    FROM move JOIN stands ON stands.id = move.act_id JOIN piece ON piece.id = move.piece_id
    WHERE move.kind IN ('cut', 'take', 'in', 'back', 'severed', 'charge', 'print', 'laminate')
),
made AS (
    SELECT move.piece_id FROM move JOIN stands ON stands.id = move.act_id WHERE move.seq = 1
),
laid AS (
    SELECT charged.id, (born.delta / 1000000) * (sheet.width_nm / 1000000) AS mm2
    FROM charged
    JOIN move AS born ON born.act_id = charged.act_id AND born.kind = 'laminated'
    JOIN piece AS sheet ON sheet.id = born.piece_id
    WHERE charged.kind = 'laminate' AND sheet.parent <> charged.code
),
part AS (
    SELECT code, used_mm2 + COALESCE(laid.mm2, 0) AS used, wasted_mm2 AS wasted,
           kept_mm2 - COALESCE(laid.mm2, 0) AS kept,
           CASE WHEN width_nm IS NULL THEN -delta ELSE 0 END AS number, cost_minor AS cost
    FROM charged LEFT JOIN laid ON laid.id = charged.id
    UNION ALL
    SELECT parent, 0, 0, -(used_mm2 + wasted_mm2 + kept_mm2), 0, 0
    FROM charged WHERE piece_id IN (SELECT piece_id FROM made)
)
SELECT code, SUM(used), SUM(wasted), CASE WHEN SUM(kept) < 0 THEN 0 ELSE SUM(kept) END,
       SUM(number), SUM(cost)
FROM part GROUP BY code
"""


def unlike(book: Book) -> list[tuple[str, list[object]]]:
    """Everything in a book that does not add up."""
    with book.reading() as connection:
        found = [
            (what, [row[0] for row in connection.execute(text(query))])
            for what, query in UNLIKE.items()
        ]
    return [(what, where) for what, where in found if where]


def use_of(book: Book, job: str) -> dict[str, tuple[int, ...]]:
    """What a job used of each piece: used, wasted and kept mm², a number of goods, and money."""
    with book.reading() as connection:
        rows = connection.execute(text(_USE), {"job": job}).all()
    return {code: tuple(int(one) for one in sums) for code, *sums in rows}
