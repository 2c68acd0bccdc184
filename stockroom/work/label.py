"""Labels for pieces: only what no later act can change, so that a reprint is the same label."""

from collections.abc import Sequence
from datetime import datetime

from stockroom.books.catalog import materials, shop
from stockroom.books.journal import acts
from stockroom.books.opening import Book
from stockroom.books.pieces import standing
from stockroom.books.values import Material, Shop, Standing
from stockroom.film.dates import parse_partial_date
from stockroom.labels.picture import Label
from stockroom.units.shown import show_size, show_width


def labels(codes: Sequence[str], *, book: Book, now: datetime) -> tuple[Label, ...]:
    """The labels of these pieces, as they were on the day each came in."""
    found: list[Label] = []
    with book.reading() as connection:
        shared = shop(connection, now)
        for code in codes:
            one = standing(connection, code, now)
            born = acts(connection, piece=code)[-1].at
            material = materials(connection, born)[one.state.material_id]
            found.append(_label(one, material, shared))
    return tuple(found)


def _label(one: Standing, material: Material, shared: Shop) -> Label:
    state = one.state
    dates = [
        (name, value)
        for name, value in (
            ("made", state.made),
            ("received", state.received),
            ("printed", state.printed),
            ("shelf", _shelf_date(one, material)),
        )
        if value is not None
    ]
    return Label(
        code=one.code,
        title=material.name,
        width_text=_width(one, shared),
        lot=state.lot or "?",
        dates=tuple(dates),
    )


def _width(one: Standing, shared: Shop) -> str:
    state = one.state
    if state.width_nm is None:
        return f"{state.full} in the box"
    if state.form == "offcut":
        return show_size(state.width_nm, state.full, shared.system)
    return show_width(state.width_nm, shared.system)


def _shelf_date(one: Standing, material: Material) -> str | None:
    """The last day by the maker's sheet, where both the sheet and the date it counts from are known."""
    limit = material.limits.get("shelf")
    counted_from = getattr(one.state, material.counted_from)
    if limit is None or counted_from is None:
        return None
    return limit.span.after(parse_partial_date(counted_from).first).isoformat()
