"""What leaves the books: frozen values, and the drafts of acts that go in."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from typing import NamedTuple
from zoneinfo import ZoneInfo

from stockroom.books.fold import State
from stockroom.film.kinds import Kind
from stockroom.film.limits import Figure, House, Limit
from stockroom.film.roll import Layer
from stockroom.units import System

Facts = Mapping[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """What the whole shop shares, as in force at one instant."""

    name: str = "Stockroom"
    system: System = System.METRIC
    currency: str = "EUR"
    zone: str = "UTC"
    day_start_hour: int = 5
    labour_minor: int | None = None
    """What an hour of work costs; None where nobody said."""
    house: House = field(default_factory=House)

    def day_of(self, moment: datetime) -> date:
        """The shop day an instant belongs to: a cut at 01:30 belongs to last night's job."""
        return (self.local(moment) - timedelta(hours=self.day_start_hour)).date()

    def begin_of(self, day: date) -> datetime:
        """The first instant of a shop day."""
        return datetime.combine(day, time(self.day_start_hour), ZoneInfo(self.zone))

    def end_of(self, day: date) -> datetime:
        """The last instant of a shop day, to the microsecond."""
        next_day = self.begin_of(day + timedelta(days=1))
        return next_day.astimezone(UTC) - timedelta(microseconds=1)  # clocks jump in local time

    def local(self, moment: datetime) -> datetime:
        """The instant on the shop's clock."""
        return moment.astimezone(ZoneInfo(self.zone))


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """A film or supply as bought, with the limits in force."""

    id: int
    name: str
    kind: Kind
    width_nm: int | None
    thickness_nm: int | None
    applied_nm: int | None
    core_inside_nm: int | None
    core_wall_nm: int | None
    layers: tuple[Layer, ...]
    counted_from: str
    cost_minor: int | None
    note: str
    finish: str | None
    limits: Mapping[str, Limit]
    facts: Mapping[str, Figure]
    """Figures by the names of `film.figures`, each in its unit."""
    terms: Mapping[str, str] = field(default_factory=dict[str, str])
    """How it is bought, by the names of `plan.terms`."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where a piece can stand, and the zone whose climate it shares."""

    id: int
    code: str
    name: str
    zone: str


class Reading(NamedTuple):
    """What a sensor said at a second of UTC: degrees Celsius, and per cent of humidity if it knows."""

    at_s: int
    temperature_c: float
    rh_pct: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """Work for a site that film can be charged to."""

    id: int
    code: str
    name: str
    site: str
    on_day: str | None
    kind: str
    note: str
    is_closed: bool
    glass: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One physical piece: its folded state and the head of its journal."""

    id: int
    code: str
    seq: int
    head: str
    last_at: datetime
    last_kind: str
    state: State


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A piece with what it is made of, where it stands and the job it serves."""

    piece: Piece
    material: Material
    place: Place | None
    job: Job | None

    @property
    def code(self) -> str:
        """The piece's own code."""
        return self.piece.code

    @property
    def state(self) -> State:
        """The piece's folded state."""
        return self.piece.state


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """One line of the journal, as it was written."""

    piece: str
    seq: int
    kind: str
    delta: int
    balance: int
    used_mm2: int
    wasted_mm2: int
    kept_mm2: int
    cost_minor: int
    sets: Facts
    facts: Facts


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """One act as it was written, with all its moves."""

    id: int
    request: str
    kind: str
    at: datetime
    recorded_at: datetime
    operator: str
    job: str | None
    note: str
    reverses: int | None
    is_reversed: bool
    moves: tuple[Move, ...]

    def moves_of(self, code: str) -> tuple[Move, ...]:
        """The moves this act made on one piece, in order."""
        return tuple(move for move in self.moves if move.piece == code)


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveDraft:
    """What an act is about to do to one piece: an existing one, or a new code."""

    code: str
    kind: str
    delta: int = 0
    used_mm2: int = 0
    wasted_mm2: int = 0
    kept_mm2: int = 0
    cost_minor: int = 0
    sets: Facts = field(default_factory=dict[str, object])
    facts: Facts = field(default_factory=dict[str, object])


@dataclass(frozen=True, slots=True, kw_only=True)
class ActDraft:
    """An act about to be appended."""

    kind: str
    at: datetime
    moves: tuple[MoveDraft, ...]
    job: Job | None = None
    note: str = ""
    reverses: int | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong with a book: with which piece, if with one, and what."""

    piece: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What every request to write carries: who asks, under which id, and when it happened."""

    request: str
    operator: str
    at: datetime | None = None
    note: str = ""
