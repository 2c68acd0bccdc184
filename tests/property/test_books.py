"""Random work against a plain dictionary: the books always say what the dictionary says."""

from collections.abc import Callable
from dataclasses import astuple, dataclass, field, replace
from datetime import date
from fractions import Fraction
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from stockroom.books.values import Act
from stockroom.errors import Code, Refusal
from stockroom.units import MM
from stockroom.work.flaw import flaws_of
from stockroom.work.job_use import job_use
from stockroom.work.look import rack
from stockroom.work.safekeeping import verify
from tests.builders import FILM, PRICE, Station, dump
from tests.engines import new_book
from tests.property.sums import unlike, use_of
from tests.strategies import PARTS

WIDTH_MM = 1_500
LENGTHS_MM = st.integers(1, 12_000)
KEPT_MM = (300, 1_000)
"""The smaller and the larger side from which a rest is kept; the house default."""


@dataclass(frozen=True, slots=True)
class Thing:
    """One piece, as a person with a pencil would keep it: millimetres, or a number in a box.

    `flaws` are distances from the core end.
    """

    form: str
    left: int
    across: int = 0
    kind: str = FILM
    ended: bool = False
    held: bool = False
    place: str = ""
    counted: bool = False
    job: str | None = None
    printed: bool = False
    laminated: bool = False
    flat: bool = False
    flaws: tuple[int, ...] = ()

    @property
    def flaws_left(self) -> tuple[int, ...]:
        """How far from the outer end each flaw lies that was not cut off."""
        return tuple(sorted(self.left - one for one in self.flaws if one <= self.left))


def part_of(thing: Thing, across: int, along: int, **changes: Any) -> Thing:
    """What is cut out of a piece, and is like it."""
    fresh = replace(thing, form="offcut", left=along, across=across, flaws=(), counted=False)
    return replace(fresh, **{"ended": False, "held": False} | changes)


def rest_of(thing: Thing, along: int) -> Thing | None:
    """What stays of a sheet that is cut, where it is worth keeping."""
    if thing.form != "offcut" or not is_kept(thing.across, along):
        return None
    return part_of(thing, thing.across, along, flaws=thing.flaws)


def _is_here(thing: Thing) -> bool:
    return not thing.ended


@dataclass(slots=True)
class Deed:
    """One act: how its pieces were before it, None for those it made, and what a job drew."""

    number: int
    before: dict[str, Thing | None]
    job: str | None = None
    drawn: dict[str, int] = field(default_factory=dict[str, int])
    is_undone: bool = False


class Shop(RuleBasedStateMachine):
    """A shop that does anything in any order."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = TemporaryDirectory()
        self.book = new_book(self.where())
        self.station = Station(self.book)
        self.things: dict[str, Thing] = {}
        self.deeds: list[Deed] = []
        self.jobs: dict[str, bool] = {}  # whether each is open
        self.evenings: dict[date, dict[str, object]] = {}

    def where(self) -> Path | str:
        """Where its book is made."""
        return Path(self.folder.name) / "book.db"

    def teardown(self) -> None:
        """Look back at every evening, at all sums, and at the money, before the shop closes for good."""
        for day, seen in self.evenings.items():
            assert self._rack(day) == seen, day
        self._sums_agree()
        self._money_adds_up()
        self.book.close()
        self.folder.cleanup()

    @initialize()
    def opens(self) -> None:
        """Two places, two jobs, a roll and a box."""
        self.places = {name: self.station.place(name) for name in ("A1", "A2")}
        self.jobs = {self.station.job(name): True for name in ("library", "marina")}
        self.receive_rolls(length=12_000, pieces=1)
        self.receive_a_box(number=20)

    @rule(length=LENGTHS_MM, pieces=st.integers(1, 2))
    def receive_rolls(self, length: int, pieces: int) -> None:
        """A delivery is one act on all its rolls."""
        codes = self.station.rolls(pieces=pieces, length_nm=length * MM)
        self.made({code: Thing("roll", length, WIDTH_MM) for code in codes})

    @rule(number=st.integers(1, 50))
    def receive_a_box(self, number: int) -> None:
        """A box counts."""
        code = self.station.box(number)
        self.made({code: Thing("box", number, flat=True)})

    @rule(data=st.data(), length=PARTS, waste=PARTS, overrun=st.booleans())
    def cut(self, data: st.DataObject, length: Fraction, waste: Fraction, overrun: bool) -> None:  # noqa: FBT001
        """A length for a job or a reason, with waste and perhaps an offcut of half its width."""
        code, thing = self.any(data, "roll", "offcut")
        job = data.draw(st.none() | self.any_job())
        most_nm = self.station.state(code).full * 3 // 2
        reach = thing.left * 3 if overrun else (thing.left + 100) * Fraction(2, 3)
        length_mm = 1 + int(length * reach)
        waste_mm = int(length_mm * waste / 2)
        along = data.draw(st.integers(0, length_mm - waste_mm))
        offcuts = [(thing.across // 2, along)] if along and thing.across > 1 else []
        cut_out = sum(across * along for across, along in offcuts)
        expected = first(
            (thing.ended, Code.ENDED),
            (thing.held, Code.HELD),
            (job is not None and not self.jobs[job], Code.JOB_CLOSED),
            (not serves(thing, job), Code.OTHER_JOB),
            (length_mm > thing.left and not (overrun and thing.form == "roll"), Code.TOO_LONG),
            (length_mm > thing.left and length_mm * MM > most_nm, Code.TOO_LONG),
        )
        done = self.do(
            expected,
            lambda: self.station.cut(
                code,
                length_mm * MM,
                waste_nm=waste_mm * MM,
                offcuts=tuple((across * MM, along * MM) for across, along in offcuts),
                overrun=overrun,
                **({"job": job} if job else {}),
            ),
        )
        if done is None:
            return
        rest = max(0, thing.left - length_mm)
        parts = [part_of(thing, across, along) for across, along in offcuts]
        parts += [stays] if (stays := rest_of(thing, rest)) else []
        made = {new.code: part for new, part in zip(done.offcuts, parts, strict=True)}
        used = (length_mm - waste_mm) * thing.across - cut_out
        is_over = thing.form == "offcut"
        after = replace(thing, left=0 if is_over else rest, ended=is_over)
        self.did(done.act, {code: after, **made}, job, {code: used})

    @rule(data=st.data(), number=st.integers(1, 12))
    def take(self, data: st.DataObject, number: int) -> None:
        """Goods for a job."""
        code, thing = self.any(data, "box")
        job = data.draw(self.any_job())
        expected = first(
            (thing.ended, Code.ENDED),
            (thing.held, Code.HELD),
            (not self.jobs[job], Code.JOB_CLOSED),
            (number > thing.left, Code.TOO_MANY),
        )
        done = self.do(expected, lambda: self.station.take(code, number, job=job))
        if done is not None:
            self.did(
                done.act, {code: replace(thing, left=thing.left - number)}, job, {code: number}
            )

    @precondition(lambda self: self._has_drawn())
    @rule(data=st.data(), part=PARTS)
    def back(self, data: st.DataObject, part: Fraction) -> None:
        """What a job did not need, on the roll or in the box again."""
        job, code, thing = self._anything_drawn(data, "roll", "offcut", "box")
        drawn = self._drawn(code, job)
        across = thing.across or 1
        amount = 1 + int(part * drawn * Fraction(4, 3) / across)
        size = amount * across
        expected = first(
            (not self.jobs[job], Code.JOB_CLOSED),
            (thing.ended, Code.ENDED),
            (size > drawn, Code.NOT_DRAWN),
        )
        scale = 1 if thing.form == "box" else MM
        done = self.do(expected, lambda: self.station.back(code, job, amount=amount * scale))
        if done is not None:
            self.did(done.act, {code: replace(thing, left=thing.left + amount)}, job, {code: -size})

    @precondition(lambda self: self._has_drawn())
    @rule(data=st.data(), part=PARTS)
    def severed(self, data: st.DataObject, part: Fraction) -> None:
        """What a job did not need, as a sheet of its own."""
        job, code, thing = self._anything_drawn(data, "roll", "offcut")
        drawn = self._drawn(code, job)
        across = max(1, thing.across // 2)
        along = 1 + int(part * drawn * Fraction(4, 3) / across)
        expected = first(
            (not self.jobs[job], Code.JOB_CLOSED),
            (across * along > drawn, Code.NOT_DRAWN),
        )
        done = self.do(
            expected, lambda: self.station.back(code, job, size=(across * MM, along * MM))
        )
        if done is not None:
            sheet = part_of(thing, across, along)
            self.did(done.act, {code: thing, done.piece: sheet}, job, {code: -across * along})

    @rule(data=st.data(), found=st.integers(0, 12_000))
    def count(self, data: st.DataObject, found: int) -> None:
        """A tape or a finger finds more or less than the books."""
        code, thing = self.any(data, "roll", "offcut", "box")
        given = {"number": found} if thing.form == "box" else {"length_nm": found * MM}
        expected = Code.ENDED if thing.ended else None
        done = self.do(expected, lambda: self.station.count(code, replace=True, **given))
        if done is not None:
            self.did(done.act, {code: replace(thing, left=found, counted=True)})

    @precondition(lambda self: self._has_counted())
    @rule(data=st.data())
    def charge(self, data: st.DataObject) -> None:
        """A cut somebody forgot to write, of half of all there ever was."""
        code, thing = self.any(data, "roll", "offcut", liking=lambda thing: thing.counted)
        job = data.draw(self.any_job())
        full = self.station.state(code).full
        length = max(1, full // MM // 2)
        expected = first(
            (self.station.state(code).ended == "undone", Code.ENDED),
            (not self.jobs[job], Code.JOB_CLOSED),
            (not serves(thing, job), Code.OTHER_JOB),
            (not thing.counted, Code.NOT_COUNTED),
        )
        born = self.station.history(code)[-1].at
        done = self.do(expected, lambda: self.station.charge(code, length * MM, job, at=born))
        if done is not None:
            self.did(done.act, {code: thing}, job, {code: length * thing.across})

    @rule(data=st.data(), name=st.sampled_from(["A1", "A2"]))
    def put(self, data: st.DataObject, name: str) -> None:
        """A piece is put somewhere."""
        self._keep(data, lambda code: self.station.put(code, name), place=name)

    @rule(data=st.data())
    def hold(self, data: st.DataObject) -> None:
        """A piece is held."""
        self._keep(
            data, self.station.hold, (lambda thing: thing.held, Code.ALREADY_THERE), held=True
        )

    @rule(data=st.data())
    def release(self, data: st.DataObject) -> None:
        """A piece is released."""
        self._keep(
            data,
            self.station.release,
            (lambda thing: not thing.held, Code.NOT_HELD),
            liking=lambda thing: thing.held,
            held=False,
        )

    @rule(data=st.data(), is_bare=st.booleans())
    def end(self, data: st.DataObject, is_bare: bool) -> None:  # noqa: FBT001
        """A piece is thrown away, or a core is bare, which is a count too."""
        if is_bare:
            self._keep(
                data,
                lambda code: self.station.finish(code).act,
                (lambda thing: thing.form == "offcut" and thing.flat, Code.WRONG_FORM),
                left=0,
                ended=True,
                counted=True,
            )
        else:
            self._keep(data, self.station.discard, left=0, ended=True)

    @rule(data=st.data())
    def undo(self, data: st.DataObject) -> None:
        """The newest act of a piece is taken back, with all it did to others."""
        newest = self.deeds[-1].before
        code = data.draw(st.sampled_from([*list(newest) * 2 * len(self.things), *self.things]))
        last = self._last(code)
        expected: Code | None = Code.NOTHING_TO_UNDO
        if last is not None:
            expected = first(
                (any(self._last(other) is not last for other in last.before), Code.LATER_ACT),
                (last.job is not None and not self.jobs[last.job], Code.JOB_CLOSED),
            )
        done = self.do(expected, lambda: self.station.undo(code))
        if done is None or last is None:
            return
        assert done.undone == last.number
        last.is_undone = True
        for other, before in last.before.items():
            self.things[other] = before or replace(self.things[other], left=0, ended=True)

    @rule(data=st.data())
    def close_or_reopen(self, data: st.DataObject) -> None:
        """A job is closed, or opened again."""
        closed = [job for job, is_open in self.jobs.items() if not is_open]
        job = closed[0] if closed else data.draw(self.any_job())
        is_open = self.jobs[job]
        self.station.close(job, reopen=not is_open)
        self.jobs[job] = not is_open

    @rule(hours=st.integers(1, 30))
    def time_passes(self, hours: int) -> None:
        """Every evening that goes by is remembered."""
        before = self._today()
        self.station.wait(hours=hours)
        if self._today() != before:
            self.evenings[before] = self._said()

    @invariant()
    def the_books_are_sound(self) -> None:
        """Verify finds nothing, ever."""
        assert verify(self.book) == []

    @invariant()
    def the_rack_is_the_dictionary(self) -> None:
        """Each piece on hand, how much of it, whether held, where, whether flat, and its flaws."""
        assert self._rack() == self._said()

    def _today(self) -> date:
        return rack(self.book, now=self.station.now).view.today

    def _rack(self, day: date | None = None) -> dict[str, object]:
        """What the books say is on hand."""
        found: dict[str, object] = {}
        for one in rack(self.book, now=self.station.now, today=day).pieces:
            state = one.standing.state
            scale = 1 if state.form == "box" else MM
            place = one.standing.place.name if one.standing.place else ""
            flaws = tuple(flaw.at_nm // MM for flaw in flaws_of(state))
            is_held = state.held is not None
            found[one.code] = (state.balance / scale, is_held, place, not state.is_wound, flaws)
        return found

    def _said(self) -> dict[str, object]:
        """What the dictionary says is on hand."""
        return {
            code: (thing.left, thing.held, thing.place, thing.flat, thing.flaws_left)
            for code, thing in self.things.items()
            if not thing.ended
        }

    def any(
        self, data: st.DataObject, *forms: str, liking: Callable[[Thing], bool] = _is_here
    ) -> tuple[str, Thing]:
        """Any piece of these forms, ended ones too, but mostly one that is liked."""
        codes = sorted(code for code, thing in self.things.items() if thing.form in forms)
        liked = [code for code in codes if liking(self.things[code])]
        code = data.draw(st.sampled_from(liked * (1 + 3 * len(codes)) + codes))
        return code, self.things[code]

    def any_job(self) -> st.SearchStrategy[str]:
        return st.sampled_from(sorted(self.jobs))

    def _anything_drawn(self, data: st.DataObject, *forms: str) -> tuple[str, str, Thing]:
        """A job and a piece, mostly one it drew from."""
        codes = sorted(code for code, thing in self.things.items() if thing.form in forms)
        pairs = [(job, code) for job in sorted(self.jobs) for code in codes]
        drew = [(job, code) for job, code in pairs if self._drawn(code, job) > 0]
        job, code = data.draw(st.sampled_from(drew * 4 * len(pairs) + pairs))
        return job, code, self.things[code]

    def _has_drawn(self) -> bool:
        return any(deed.drawn for deed in self.deeds if deed.job)

    def _has_counted(self) -> bool:
        return any(thing.counted for thing in self.things.values())

    def do(self, expected: Code | None, do: Callable[[], Any]) -> Any:
        """What a script answers; None where it refuses, which is as expected or a failure."""
        before = dump(self.book) if expected else None
        try:
            done = do()
        except Refusal as refusal:
            assert refusal.code is expected, refusal.sentence  # noqa: PT017 - either way is right
            assert dump(self.book) == before
            return None
        assert expected is None
        return done

    def _keep(
        self,
        data: st.DataObject,
        do: Callable[[str], Act],
        unless: tuple[Callable[[Thing], bool], Code] | None = None,
        liking: Callable[[Thing], bool] | None = None,
        **changes: Any,
    ) -> None:
        """Something that only changes one piece."""
        code, thing = self.any(data, "roll", "offcut", "box", liking=liking or _is_here)
        is_refused = unless is not None and unless[0](thing)
        expected = first(
            (thing.ended, Code.ENDED), (is_refused, unless[1] if unless else Code.ENDED)
        )
        act = self.do(expected, lambda: do(code))
        if act is not None:
            self.did(act, {code: replace(thing, **changes)})

    def made(self, things: dict[str, Thing]) -> None:
        act = self.station.history(next(iter(things)))[0]
        self.did(act, things)

    def did(
        self,
        act: Act,
        after: dict[str, Thing],
        job: str | None = None,
        drawn: dict[str, int] | None = None,
    ) -> None:
        before = {code: self.things.get(code) for code in after}
        self.deeds.append(Deed(act.id, before, job, drawn or {}))
        self.things |= after

    def _last(self, code: str) -> Deed | None:
        standing = (deed for deed in self.deeds[::-1] if code in deed.before and not deed.is_undone)
        return next(standing, None)

    def _drawn(self, code: str, job: str) -> int:
        return sum(
            deed.drawn.get(code, 0) for deed in self.deeds if deed.job == job and not deed.is_undone
        )

    def _sums_agree(self) -> None:
        """What the database adds up by itself is what the program says of each job."""
        assert unlike(self.book) == []
        for job in self.jobs:
            found = job_use(self.book, job, now=self.station.now)
            assert {one.standing.code: astuple(one.used) for one in found.pieces} == use_of(
                self.book, job
            )
            total = zip(*use_of(self.book, job).values(), strict=True)
            assert list(astuple(found.total)) == ([sum(column) for column in total] or [0] * 5)

    def _money_adds_up(self) -> None:
        """All that was charged, and all that is left, is all that was paid."""
        held = dump(self.book)
        charged = sum(move["cost_minor"] for move in held["move"])
        left = sum(
            round(Fraction(piece["cost_minor"] * piece["balance"], piece["full"]))
            for piece in held["piece"]
        )
        bought = [
            piece
            for piece in held["piece"]
            if piece["parent"] is None and piece["ended"] != "undone"
        ]
        assert charged + left == sum(piece["cost_minor"] for piece in bought)
        assert {piece["cost_minor"] for piece in bought} <= {PRICE, 2_000}


def first(*refusals: tuple[bool, Code]) -> Code | None:
    """The first refusal that holds."""
    return next((code for holds, code in refusals if holds), None)


def serves(thing: Thing, job: str | None) -> bool:
    """Whether a piece may be used for a job: a print of another may not."""
    return job is None or thing.job in (None, job)


def is_kept(across: int, along: int) -> bool:
    """Whether a rest is worth a label."""
    return min(across, along) >= KEPT_MM[0] and max(across, along) >= KEPT_MM[1]


TestShop = Shop.TestCase
TestShop.settings = settings(
    max_examples=settings.default.max_examples // 6 if settings.default else 15,
    stateful_step_count=20,
    deadline=None,
)
