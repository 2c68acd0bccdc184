"""What is to be done with a piece, and why: the values that go in and come out.

Verdict                USE, USE FIRST, TEST, STOP; WAIT stands beside one of them
worst(verdicts)        the worst of several
Storage                what the rules read of one piece
  Print                when it was printed, and with what
  Mix                  when a bottle was mixed or opened, and how long it keeps
  Heat                 like how many days at 23 °C a stretch of storage was
  Air                  how long the air was hotter, drier or damper than it should be
  Curl                 what the outer and inner wraps curl to, beside the limit
  WarmUp               until when a cold piece stays wrapped
Reason                 what one rule found
Judgement              the verdict, the wait, the reasons
judge(…)               in stockroom.film.rules

What a report makes by the hundred thousand is a tuple, made with names.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from types import MappingProxyType
from typing import NamedTuple

from stockroom.film.dates import PartialDate
from stockroom.film.kinds import Ink, Kind
from stockroom.film.limits import Basis, CountedFrom, Figure, Limit


class Verdict(StrEnum):
    """What a rule says of a piece, from best to worst."""

    USE = "USE"
    WAIT = "WAIT"  # beside a verdict, with its time; never the verdict of a piece
    USE_FIRST = "USE FIRST"
    TEST = "TEST"
    STOP = "STOP"


_FROM_WORST = (Verdict.STOP, Verdict.TEST, Verdict.USE_FIRST)


def worst(verdicts: Collection[Verdict | None]) -> Verdict:
    """The worst of several verdicts; with none known, or a wait alone, it is USE."""
    for verdict in _FROM_WORST:
        if verdict in verdicts:
            return verdict
    return Verdict.USE


@dataclass(frozen=True, slots=True)
class Print:
    """When a piece was printed, and with what.

    One known by its day only began with that shop day and was done by its end, or by the time the
    piece was received, whichever came first.
    """

    began: date
    done_by: datetime
    ink: Ink = Ink.UNKNOWN


@dataclass(frozen=True, slots=True)
class Mix:
    """The day a bottle was mixed, decanted or opened, and how many days that keeps; None is unknown."""

    day: date
    keeps_days: int | None
    event: str = "mixed"


class Heat(NamedTuple):
    """A stretch of storage aged film like so many days at 23 °C; so much of it was measured, 0 to 1."""

    like_days: float
    coverage: float


class Air(NamedTuple):
    """How long the air around a piece was outside of what it should be, as far as it was measured."""

    hot_hours: float
    too_hot_hours: float
    dry_or_damp_hours: float
    coverage: float


FEWEST_TRIALS = 3
"""With fewer trials of curl the times of a film stay those assumed of its kind."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeFactor:
    """By how much the relaxation times of a material are longer than assumed, and how sure that is.

    `low` and `high` are the ends of its interval of 95 %, None where open; its own trials stand
    behind it only where `basis` is TRIAL, and with fewer, or with such as leave it open, the default.
    """

    factor: float = 1.0
    low: float | None = None
    high: float | None = None
    trials: int = 0
    basis: Basis = Basis.DEFAULT

    @property
    def is_own(self) -> bool:
        """Whether it is of the material's own trials."""
        return self.basis is Basis.TRIAL


@dataclass(frozen=True, slots=True, kw_only=True)
class Curl:
    """The circles the outermost and the innermost wrap curl to, None for flat; what is tighter than the limit."""

    outer_mm: float | None
    inner_mm: float | None
    tight_m: float  # of the inner part
    limit: Figure  # mm of the circle
    model: TimeFactor


@dataclass(frozen=True, slots=True)
class WarmUp:
    """A piece came in cold, and moisture would form on it until then."""

    ready: datetime
    from_c: float
    dew_point_c: float


_NOTHING_PASSED: Mapping[str, date] = MappingProxyType({})


class Storage(NamedTuple):
    """What the rules read of one piece."""

    kind: Kind
    counted_from: CountedFrom = CountedFrom.MADE
    made: PartialDate | None = None
    shipped: PartialDate | None = None
    received: PartialDate | None = None
    printed: Print | None = None
    mixed: Mix | None = None
    laminated: bool = False
    is_wound: bool = True
    in_tube: bool = False
    core_outside_mm: float | None = None
    wound_since: date | None = None  # of the present winding; None: since printed, else since made
    wound_days_before: int = 0  # days wound before the present winding
    held: str | None = None  # why
    shelf_limit: Limit | None = None  # the material's own
    wound_limit: Limit | None = None
    passed: Mapping[str, date] = _NOTHING_PASSED  # rule: extended until
    shelf_heat: Heat | None = None  # since the shelf age counts
    wound_heat: Heat | None = None  # while it was wound
    air: Air | None = None
    curl: Curl | None = None
    warm_up: WarmUp | None = None


class Reason(NamedTuple):
    """What one rule found.

    `verdict` is None when the rule cannot know. `due` is the last day before the rule asks for
    more than it does near the limit.
    """

    rule: str
    verdict: Verdict | None
    said: object  # a sentence, or what turns into one when it is read
    measured: int | None = None
    limit: int | None = None
    unit: str = ""  # days, hours or nothing
    basis: str = ""
    due: date | None = None

    @property
    def text(self) -> str:
        """Why, in one sentence."""
        return str(self.said)


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """What is to be done with a piece, and why."""

    verdict: Verdict
    wait_until: datetime | None
    reasons: tuple[Reason, ...]
    shelf_days: int | None
    shelf_is_at_least: bool
    wound_days: int | None
    due: date | None  # the first that falls due
