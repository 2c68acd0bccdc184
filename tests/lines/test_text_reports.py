"""The words of the reports before closing."""

from uuid import uuid4

from stockroom.books.pen import writing
from stockroom.books.values import ActDraft, Asked, MoveDraft
from stockroom.lines.text_reports import closing
from stockroom.work.closing import closing as before_we_close
from tests.builders import Station


def _away(station: Station, code: str, **facts: object) -> None:
    """A roll that went out, written as the journal would have it."""
    asked = Asked(request=uuid4().hex, operator="Ida M.")
    with writing(station.book, asked, now=station.now, pieces=[code]) as pen:
        move = MoveDraft(code=code, kind="out", sets=facts)
        pen.append(ActDraft(kind="out", at=station.now, moves=(move,)))


def test_a_roll_that_is_away_says_where_and_since_when(station: Station) -> None:
    """As far as anybody wrote it down."""
    _here, there, van = station.rolls(pieces=3, place=station.place())
    _away(station, van, out_to="van 2", out_since="2026-11-24T15:30:00+00:00")
    _away(station, there, out_to="site")

    lines = closing(before_we_close(station.book, now=station.now), 80)

    away = lines[lines.index("Away") + 1 :]
    assert [line.rsplit("  ", 1)[1] for line in away] == ["site", "van 2 since 2026-11-24 15:30"]
    assert max(map(len, lines)) <= 80
