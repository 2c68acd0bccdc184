"""The words for one value at a time: a verdict, an age, what is left, a place, a day.

marked(verdict)       ▲ TEST; the sign never stands alone
verdict(judgement…)   ◐ USE FIRST  ◷ WAIT until 2026-11-26 09:12
age(days, today)      97 d, from 121 days on 25 mo
shelf_age(judged…)    25 mo; at least 25 mo; 25 mo assumed
film(standing…)       white cast, 1370 mm, printed, for J000 046K
left(standing…)       6.4 m; 300 x 1200 mm; 12 pcs
core(inside, wall)    76.2 mm inside, wall 5 mm; 3 in inside, wall 0.1875 in
place, known          what is unknown reads ?
stands, where         B2, OUT van 2; at B2, zone South, OUT to van 2 since 2026-11-24 16:00, Ida M.
code, day, moment     R000 1231; 2026-11-25; 2026-11-25 09:12 on the shop's clock
"""

from collections.abc import Iterator, Mapping
from datetime import date, datetime, timedelta
from types import MappingProxyType

from stockroom.books.fold import State
from stockroom.books.values import Place, Shop, Standing
from stockroom.codes.own import grouped
from stockroom.film.dates import parse_partial_date, whole_months
from stockroom.film.verdict import Judgement, Reason, Verdict
from stockroom.units import INCH, System
from stockroom.units.shown import show_length, show_size, show_width
from stockroom.work.judging import Judged
from stockroom.work.kit import missing_of

UNKNOWN = "?"

MARKS: Mapping[Verdict, str] = MappingProxyType(
    {
        Verdict.USE: "●",
        Verdict.USE_FIRST: "◐",
        Verdict.TEST: "▲",
        Verdict.STOP: "✕",
        Verdict.WAIT: "◷",
    }
)

WHOSE: Mapping[str, str] = MappingProxyType(
    {"client": "a client's", "supplier": "the supplier's", "sample": "a sample"}
)
"""How a piece that is not ours is called."""

_LAST_DAY_SAID_AS_DAYS = 120


def known(value: object) -> str:
    """The value as text, or the sign for what is unknown."""
    return UNKNOWN if value in (None, "") else str(value)


def marked(verdict: Verdict | None) -> str:
    """A verdict with its sign; what a rule cannot know is the sign for unknown."""
    return UNKNOWN if verdict is None else f"{MARKS[verdict]} {verdict.value}"


def verdict(judgement: Judgement, shop: Shop) -> str:
    """The verdict of a piece, and beside it until when to wait."""
    words = marked(judgement.verdict)
    if judgement.wait_until is None:
        return words
    return f"{words}  {marked(Verdict.WAIT)} until {moment(judgement.wait_until, shop)}"


def reason(found: Reason) -> str:
    """What one rule found, with its own sign."""
    sign = UNKNOWN if found.verdict is None else MARKS[found.verdict]
    return f"{sign} {found.text}"


def age(days: int | None, today: date) -> str:
    """An age in days up to 120, then in whole calendar months."""
    if days is None:
        return UNKNOWN
    if days <= _LAST_DAY_SAID_AS_DAYS:
        return f"{days} d"
    return f"{whole_months(today - timedelta(days=days), today)} mo"


def shelf_age(judged: Judged, today: date) -> str:
    """The age of adhesive and film, and how sure it is."""
    words = age(judged.judgement.shelf_days, today)
    if judged.judgement.shelf_is_at_least:
        return f"at least {words}"
    return f"{words} assumed" if is_age_assumed(judged.standing) else words


def is_age_assumed(standing: Standing) -> bool:
    """Whether the day from which the maker counts the age is not known for sure."""
    counted_from = getattr(standing.state, standing.material.counted_from)
    return counted_from is None or not parse_partial_date(counted_from).is_exact


def left(standing: Standing, system: System) -> str:
    """What is left: a length of a roll, the size of an offcut, the number in a box."""
    state = standing.state
    if state.width_nm is None:
        return count(state.balance)
    if state.form == "offcut":
        return show_size(state.width_nm, state.balance, system)
    return show_length(state.balance, system)


def count(number: int) -> str:
    """A number of counted goods."""
    return "1 pc" if number == 1 else f"{number} pcs"


def counted(number: int, noun: str) -> str:
    """A number and its noun: 1 piece, 2 pieces."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def numbered(parts: Mapping[str, int]) -> str:
    """Parts and how many of each: squeegee, 2 blade."""
    return ", ".join(name if number == 1 else f"{number} {name}" for name, number in parts.items())


def width(width_nm: int | None, system: System) -> str:
    """The width of film; counted goods have none."""
    return UNKNOWN if width_nm is None else show_width(width_nm, system)


def core(inside_nm: int | None, wall_nm: int | None, system: System) -> str:
    """A core by its inside diameter and its wall, finer than a tape shows it."""
    if inside_nm is None and wall_nm is None:
        return UNKNOWN
    return f"{_bore(inside_nm, system)} inside, wall {_bore(wall_nm, system)}"


def _bore(length_nm: int | None, system: System) -> str:
    if length_nm is None or system is System.METRIC:
        return width(length_nm, system)
    return f"{length_nm / INCH:.4g} in"


def film(standing: Standing, system: System) -> str:
    """What a piece is: its material, and what its name does not say."""
    said = particulars(standing, system)
    return f"{standing.material.name}, {said}" if said else standing.material.name


def particulars(standing: Standing, system: System) -> str:
    """What the name of its material does not say of a piece: width, print, job, whose, what lacks."""
    state = standing.state
    parts = []
    if state.form == "roll":
        said = width(state.width_nm, system)
        parts += [] if said.split()[0] in standing.material.name.split() else [said]
    if state.printed is not None:
        parts.append(" ".join(filter(None, ("printed", state.artwork, state.tile))))
    if state.is_laminated:
        parts.append("laminated")
    if standing.job is not None:
        parts.append(f"for {code(standing.job.code)}")
    return ", ".join((*parts, *_to_mind(state)))


def _to_mind(state: State) -> Iterator[str]:
    """Whose it is, what is in a bottle, what a kit lacks, what a count left open."""
    if state.contents is not None:
        yield state.contents
    if state.owner in WHOSE:
        yield WHOSE[state.owner]
    if missing := missing_of(state):
        yield f"incomplete: {numbered(missing)}"
    if state.recount is not None:
        yield "to be counted again"


def place(place: Place | None) -> str:
    """A place by its own name."""
    return UNKNOWN if place is None else known(place.name)


def stands(standing: Standing) -> str:
    """Where a piece is, in one or two words: its place, or who has it out."""
    out = standing.state.out_to
    return place(standing.place) if out is None else f"OUT {out}"


def where(standing: Standing, shop: Shop) -> str:
    """Where a piece is: its place and zone, or who has it out and since when."""
    state, stood = standing.state, standing.place
    if state.out_to is None:
        zone = f", zone {stood.zone}" if stood is not None and stood.zone else ""
        return f"at {place(stood)}{zone}"
    since = state.out_since and moment(datetime.fromisoformat(state.out_since), shop)
    return f"OUT to {state.out_to} since {known(since)}, {known(state.out_by)}"


def code(text: str) -> str:
    """A code as it is printed for people, in groups of four."""
    return grouped(text)


def day(when: date) -> str:
    """A day as ISO 8601 writes it."""
    return when.isoformat()


def moment(when: datetime, shop: Shop) -> str:
    """An instant on the shop's clock, to the minute."""
    return shop.local(when).strftime("%Y-%m-%d %H:%M")
