"""Labels for pieces, places and jobs: only what no later act can change.

A piece's label says what the piece was when it came in, so that a reprint is the same label.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta

from stockroom.books.catalog import jobs, materials, places, shop
from stockroom.books.fold import State, step
from stockroom.books.journal import acts
from stockroom.books.opening import Book
from stockroom.books.pieces import standing
from stockroom.books.values import Job, Material, Place, Shop, Standing
from stockroom.codes.own import Letter, grouped, letter_of
from stockroom.errors import Code, Refusal
from stockroom.film.dates import parse_partial_date
from stockroom.film.kinds import Kind
from stockroom.film.lifting import takes_two
from stockroom.labels.picture import Label
from stockroom.units import KG, MM
from stockroom.units.shown import show_mass, show_size, show_width
from stockroom.work.look import lifted_kg


def labels(codes: Sequence[str], *, book: Book, now: datetime) -> tuple[Label, ...]:
    """The labels of these pieces, places and jobs, in the order asked for."""
    found: list[Label] = []
    with book.reading() as connection:
        shared = shop(connection, now)
        named: dict[str, Place | Job] = {
            **{place.code: place for place in places(connection, now).values()},
            **{job.code: job for job in jobs(connection).values()},
        }
        for code in codes:
            if letter_of(code) in (Letter.PLACE, Letter.JOB, Letter.CARD):
                found.append(_name_label(code, named))
                continue
            one = standing(connection, code, now)
            born = acts(connection, piece=code)[-1]
            state = _and_begun(step(None, born.moves_of(code)[0]), one.state)
            material = materials(connection, born.at)[state.material_id]
            as_born = replace(one, piece=replace(one.piece, state=state), material=material)
            found.append(_piece_label(as_born, shared))
    return tuple(found)


def _and_begun(born: State, now: State) -> State:
    """What a piece was when it came in, and that it is opened or in use since: that happens once."""
    if now.begun is None:
        return born
    return born._replace(begun=now.begun, keeps_days=now.keeps_days)


def _name_label(code: str, named: dict[str, Place | Job]) -> Label:
    match named.get(code), letter_of(code):
        case Place() as place, _:
            return Label(code=code, title=place.name)
        case Job() as job, _:
            return Label(code=code, title=job.name, detail=job.site)
        case _, Letter.JOB:
            raise Refusal(Code.NO_JOB, f"No job has the code {code}: see `job list`.")
        case _, Letter.PLACE:
            raise Refusal(Code.NO_PLACE, f"No place has the code {code}: see `place list`.")
        case _:
            raise Refusal(
                Code.BAD_LABEL, f"{grouped(code)} is on the wall card: print that with `wall-card`."
            )


def _piece_label(one: Standing, shared: Shop) -> Label:
    state = one.state
    if state.mixed is not None:
        return _bottle_label(one, state.mixed)
    if state.begun is not None:
        return _begun_label(one, state.begun)
    lot = state.lot or "?"
    if state.is_laminated:
        lot = f"{lot} + {state.laminate_lot or '?'}"
    return Label(
        code=one.code,
        title=one.material.name,
        detail=_size(state, shared),
        facts=(("lot", lot),),
        dates=tuple(_dates(state, one.material)),
        mass=_full_mass(one, shared),
        caution=_caution(one),
    )


def _bottle_label(one: Standing, mixed: str) -> Label:
    return Label(
        code=one.code,
        title=one.state.contents or one.material.name,
        facts=(("mixed", mixed), ("use by", _use_by(one, mixed))),
        warning=one.state.hazard or "",
    )


def _begun_label(one: Standing, begun: str) -> Label:
    """Of a bottle that was opened, with its last day; of a tool in use."""
    is_open = one.material.kind is Kind.LIQUID
    facts = (
        (("opened", begun), ("use by", _use_by(one, begun))) if is_open else (("in use", begun),)
    )
    return Label(code=one.code, title=one.material.name, facts=facts, caution=_caution(one))


def _use_by(one: Standing, since: str) -> str:
    keeps = one.state.keeps_days
    return "?" if keeps is None else str(date.fromisoformat(since) + timedelta(days=keeps))


def _size(state: State, shared: Shop) -> str:
    if state.width_nm is None:
        return f"{state.full} in the box"
    if state.form == "offcut":
        return show_size(state.width_nm, state.full, shared.system)
    return show_width(state.width_nm, shared.system)


def _dates(state: State, material: Material) -> Iterator[tuple[str, str]]:
    """The rows that a small label may leave out; the two ends of a film's life go last."""
    artwork = " ".join(filter(None, (state.artwork, state.tile)))
    rows = (
        ("made", state.made),
        ("received", state.received),
        ("printed", state.printed),
        ("artwork", artwork),
        ("shelf", _shelf_date(state, material)),
    )
    return ((name, value) for name, value in rows if value)


def _shelf_date(state: State, material: Material) -> str | None:
    """The last day by the maker's sheet, where both the sheet and the date it counts from are known."""
    limit = material.limits.get("shelf")
    counted_from = getattr(state, material.counted_from)
    if limit is None or counted_from is None:
        return None
    return limit.span.after(parse_partial_date(counted_from).first).isoformat()


def _full_mass(one: Standing, shared: Shop) -> str:
    """What the full roll weighs, where its layers are known."""
    full_kg = lifted_kg(one)
    if full_kg is None or one.state.form != "roll":
        return ""
    return f"{show_mass(round(full_kg * KG), shared.system)} full"


def _caution(one: Standing) -> str:
    """How many people lift it, if not one; of an offcut only the weight counts."""
    width_nm = one.state.width_nm if one.state.form == "roll" else None
    is_for_two = takes_two(lifted_kg(one), None if width_nm is None else width_nm / MM)
    return "two people" if is_for_two else ""
