"""What stands on the line of the Bench: a piece, what it is cut for, and what was typed."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from stockroom.books.values import Job
from stockroom.errors import Code, Refusal
from stockroom.film.verdict import Verdict
from stockroom.lines import bench as lines
from stockroom.lines.when import read_instant
from stockroom.screens.form import Misfilled, mending
from stockroom.screens.station import Asking
from stockroom.units.typed import parse_count
from stockroom.work.cut import Cut
from stockroom.work.cut_plan import CutPlan
from stockroom.work.look import Card
from stockroom.work.planned import PlannedCut
from stockroom.work.take import Take

WAITS = timedelta(minutes=10)
Request = Cut | Take | CutPlan
"""What a line comes to."""
TYPED = ("length", "waste", "offcut", "when", "despite")
"""The fields of the line that are typed; for goods the first is a number."""


@dataclass(frozen=True, slots=True)
class PlannedFor:
    """What was planned of a piece for a job, by its code."""

    job: str
    cut: PlannedCut


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchLine:
    """One line, filled in part; `request` is the id under which it will be written."""

    request: str
    card: Card | None = None
    job: Job | None = None
    reason: str | None = None
    length: str = ""
    waste: str = ""
    offcut: str = ""
    when: str = ""
    """When it was done, if that was not just now."""
    despite: str = ""
    planned: PlannedFor | None = None
    is_overrun: bool = False
    is_this_wanted: bool = False
    """Somebody was told of an older piece and takes this one all the same."""
    was_written: bool = False
    """What stands here was written; only a new length makes it another line."""
    waits_since: datetime | None = None

    @property
    def code(self) -> str | None:
        """The code of the piece."""
        return self.card.judged.code if self.card else None

    @property
    def can_finish(self) -> bool:
        """Whether the piece is a roll, whose core is bare one day, or a box, which is empty."""
        return self.card is not None and self.card.judged.standing.state.form in ("roll", "box")

    @property
    def as_planned(self) -> PlannedCut | None:
        """The planned cut of this piece for this job, which is meant where nothing is typed."""
        found = self.planned
        if (
            found is None
            or self.job is None
            or (found.job, found.cut.piece)
            != (
                self.job.code,
                self.code,
            )
        ):
            return None
        is_typed = self.length or self.waste or self.offcut or self.when
        return None if is_typed else found.cut

    @property
    def is_goods(self) -> bool:
        """Whether it is counted, not cut."""
        return self.card is not None and self.card.judged.standing.state.form == "box"

    @property
    def is_stopped(self) -> bool:
        """Whether the piece may be taken only with a reason."""
        card = self.card
        stops = card is not None and card.judged.judgement.verdict is Verdict.STOP
        return stops and not self.is_out

    @property
    def is_out(self) -> bool:
        """Whether the piece is in a van or on a site."""
        return self.card is not None and self.card.judged.standing.state.out_to is not None

    @property
    def is_for_something(self) -> bool:
        """Whether it is known what the piece is cut for."""
        return self.job is not None or self.reason is not None

    @property
    def needs(self) -> str:
        """The step it needs first; what is out has to come in, which is asked at the job."""
        if self.card is None:
            return "piece"
        return "length" if self.is_for_something and not self.is_out else "job"

    @property
    def is_worth_keeping(self) -> bool:
        """Whether something would be lost if it were cleared."""
        is_typed = any(getattr(self, name) for name in TYPED)
        return self.card is not None and (is_typed or not (self.was_written or self.is_out))

    def with_typed(self, typed: Mapping[str, str]) -> "BenchLine":
        """The line with what stands in its fields; another length is asked about again."""
        return replace(
            self,
            length=typed["length"],
            waste=typed["waste"],
            offcut=typed["offcut"],
            when=typed["when"],
            despite=typed["despite"],
            is_overrun=self.is_overrun and typed["length"] == self.length,
        )

    def is_over(self, now: datetime) -> bool:
        """Whether it has waited long enough."""
        return self.waits_since is not None and now - self.waits_since >= WAITS

    def with_piece(self, card: Card) -> "BenchLine":
        """The line with a piece, and with the job that a printed piece belongs to."""
        own = card.judged.standing.job
        return replace(self, card=card, job=own or self.job, reason=None if own else self.reason)

    def after(self, request: str, card: Card | None) -> "BenchLine":
        """The line once it is written: the same piece and job, and a length to come."""
        return BenchLine(
            request=request,
            card=card,
            job=self.job if card else None,
            reason=self.reason if card else None,
            is_this_wanted=self.is_this_wanted,
            was_written=True,
        )

    def seen_again(self, card: Card, request: str) -> "BenchLine":
        """The line after something was written beside it; a piece nobody may cut now leaves it."""
        if lines.refused_piece(card) or card.judged.standing.state.out_to is not None:
            return BenchLine(request=request, job=self.job, reason=self.reason)
        return replace(self, card=card)

    def wanted(self, asking: Asking, now: datetime) -> Request:
        """What is to be written, or a refusal that says which field to mend."""
        if self.card is None:
            raise _missing("piece", "There is no piece yet: scan one, or type its code after /.")
        if not self.is_for_something:
            raise _missing("job", "There is no job yet: scan one, or press its number.")
        code, job = self.card.judged.code, self.job.code if self.job else None
        if (cut := self.as_planned) and job:
            return CutPlan(**asking, job=job, cuts=(cut,), despite=self._despite(self.card))
        shop, balance = self.card.view.shop, self.card.judged.standing.state.balance
        with mending("when"):
            at = read_instant(self.when, shop, now) if self.when else None
        if self.is_goods:
            with mending("length"):
                number = parse_count(self.length)
            return Take(
                **asking,
                at=at,
                piece=code,
                number=number,
                job=job,
                reason=self.reason,
                despite=self._despite(self.card),
            )
        with mending("length"):
            length_nm = lines.length(self.length, shop.system, balance)
        with mending("waste"):
            waste_nm = lines.length(self.waste or "0", shop.system, zero=True)
        with mending("offcut"):
            offcuts = lines.sizes(self.offcut, shop.system)
        despite = self._despite(self.card)
        return Cut(
            **asking,
            at=at,
            piece=code,
            length_nm=length_nm,
            job=job,
            reason=self.reason,
            waste_nm=waste_nm,
            offcuts=offcuts,
            despite=despite,
            overrun=self.is_overrun,
        )

    def _despite(self, card: Card) -> str | None:
        """Why a stopped piece is taken, which has to be said."""
        if self.is_stopped and not self.despite:
            raise Misfilled("despite", lines.stopped(card))
        return self.despite or None


def _missing(field: str, sentence: str) -> Misfilled:
    return Misfilled(field, Refusal(Code.BAD_USAGE, sentence))


@dataclass(frozen=True, slots=True)
class Waiting:
    """The lines that were begun and left, the one that has waited longest first."""

    lines: tuple[BenchLine, ...] = ()

    def with_line(self, line: BenchLine, now: datetime) -> "Waiting":
        """With one more, if anything would be lost with it."""
        if not line.is_worth_keeping:
            return self
        others = tuple(one for one in self.lines if one.code != line.code)
        return Waiting((*others, replace(line, waits_since=now)))

    def of_piece(self, code: str) -> BenchLine | None:
        """The line of a piece, as it was left."""
        found = next((one for one in self.lines if one.code == code), None)
        return replace(found, waits_since=None) if found else None

    def without(self, code: str) -> "Waiting":
        """Without the line of a piece."""
        return Waiting(tuple(one for one in self.lines if one.code != code))

    def at(self, now: datetime) -> "Waiting":
        """Those that have not waited for too long."""
        return Waiting(tuple(one for one in self.lines if not one.is_over(now)))
