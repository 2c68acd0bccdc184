"""Sheets for where no computer is: what is in a van, cuts during a power cut; and the wall card."""

from collections.abc import Iterable
from datetime import datetime

from stockroom.books.catalog import name_key, places, shop
from stockroom.books.opening import Book
from stockroom.books.people import people
from stockroom.books.pieces import standings
from stockroom.books.values import Place, Shop, Standing
from stockroom.errors import Code, Refusal
from stockroom.labels.hand_sheet import Column, HandSheet, Row
from stockroom.labels.paper import Paper
from stockroom.labels.wall_card import wall_card as drawn
from stockroom.units.shown import show_length, show_size, show_width

_VAN_ROW_MM, _CUT_ROW_MM = 16.5, 10.5
_VAN_COLUMNS = (
    Column("piece", 42),
    Column("film", 60),
    Column("left by the books", 40),
    Column("taken", 27),
    Column("job", 42),
    Column("left by tape", 32),
    Column("who, day", 30),
)
_VAN_NOTES = (
    "Tape: the length that is left, or the tape laid round the roll; write which.",
    (
        "Later, for film that was out: stockroom in PIECE --length LEFT (or --round TAPE)"
        " --job JOB --by WHO --at DAY;"
    ),
    "for goods that were out: stockroom in PIECE --number LEFT --job JOB --by WHO --at DAY.",
    (
        "For what only stood there: stockroom cut PIECE TAKEN --job JOB --by WHO --at DAY;"
        " of goods: stockroom take PIECE N --job JOB --by WHO --at DAY"
    ),
)
_CUT_COLUMNS = (
    Column("piece", 38),
    Column("job, or why without one", 66),
    Column("length", 36),
    Column("waste", 30),
    Column("who", 34),
    Column("day and time", 40),
)
_CUT_NOTES = (
    "Write the code as it stands on the label, and the length with its unit.",
    "Later, oldest first: stockroom cut PIECE LENGTH --job JOB --waste WASTE --by WHO --at TIME",
    "Without a job: --for spoiled, sample, training or leader instead of --job.",
)


def wall_card(book: Book, *, now: datetime, paper: Paper) -> bytes:
    """The wall card as PDF, with the names of the people who have a digit."""
    with book.reading() as connection:
        shared = shop(connection, now)
        names = {one.key: one.name for one in people(connection) if one.key is not None}
    return drawn(names, shared.name, paper)


def power_cut_sheet(book: Book, *, now: datetime) -> HandSheet:
    """Empty lines for cuts, to print while there is power."""
    with book.reading() as connection:
        shared = shop(connection, now)
    return HandSheet(
        title="Cuts without the computer",
        subtitle=shared.name,
        columns=_CUT_COLUMNS,
        row_mm=_CUT_ROW_MM,
        notes=_CUT_NOTES,
    )


def van_sheet(book: Book, *, now: datetime, where: str | None = None) -> HandSheet:
    """The pieces in a place or away there, with room to write; without a place, all that are away."""
    with book.reading() as connection:
        shared = shop(connection, now)
        known = places(connection, now).values()
        on_hand = standings(connection, now)
    if where is None:
        title = "Away"
        found = [one for one in on_hand if one.state.out_to is not None]
    else:
        found = [one for one in on_hand if name_key(where) in _called(one)]
        title = _name(where, known, is_used=bool(found))
    local = shared.local(now)
    return HandSheet(
        title=title,
        subtitle=f"{shared.name} \N{MIDDLE DOT} as the books are on {local:%Y-%m-%d %H:%M}",
        columns=_VAN_COLUMNS,
        row_mm=_VAN_ROW_MM,
        rows=tuple(_row(one, shared) for one in found),
        notes=_VAN_NOTES,
    )


def _name(where: str, known: Iterable[Place], *, is_used: bool) -> str:
    """What a place is called; one that nobody knows and where nothing is away is refused."""
    key = name_key(where)
    for place in known:
        if key in (name_key(place.name), place.code.casefold()):
            return place.name
    if not is_used:
        raise Refusal(
            Code.NO_PLACE,
            f"No place is called “{where}”, and nothing is away there: see `place list`.",
        )
    return where


def _called(one: Standing) -> tuple[str, ...]:
    """What the place of a piece may be called: away, it is not where it usually stands."""
    if one.state.out_to is not None:
        return (name_key(one.state.out_to),)
    return (name_key(one.place.name), one.place.code.casefold()) if one.place else ()


def _row(one: Standing, shared: Shop) -> Row:
    state, system = one.state, shared.system
    if state.width_nm is None:
        film, left = "", f"{state.balance}"
    elif state.form == "offcut":
        film, left = "", show_size(state.width_nm, state.balance, system)
    else:
        film, left = show_width(state.width_nm, system), show_length(state.balance, system)
    away = ", ".join(filter(None, (state.out_to, state.out_by)))
    said = (film, f"lot {state.lot or '?'}", f"held: {state.held}" if state.held else "")
    below = " \N{MIDDLE DOT} ".join(filter(None, said))
    return Row(one.code, ((one.material.name, below), (left, away)))
