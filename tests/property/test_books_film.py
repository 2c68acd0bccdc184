"""Random work again, by people who print, laminate, wind, try and mark film as well."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import initialize, rule

from stockroom.books.fold import State
from stockroom.errors import Code
from stockroom.film.assumed import POLYESTER
from stockroom.film.memory import memory
from stockroom.units import MM, M
from stockroom.work.making import Taken
from stockroom.work.winding import Core
from stockroom.work.windings import kept, stages_of
from tests.builders import BLANK, CLEAR
from tests.property.test_books import WIDTH_MM, Shop, Thing, first, part_of, rest_of, serves
from tests.strategies import PARTS

SMALL = Core(inside_nm=50 * MM, wall_nm=5 * MM)
HEIGHTS = (0, 5, 60)  # of strips with a chord of 200 mm; the last one is closed, and too tight


class FilmShop(Shop):
    """A shop that prints."""

    def teardown(self) -> None:
        """Look at how each piece was wound, too."""
        for code, thing in self.things.items():
            if thing.form != "box":
                _hangs_together(self.station.state(code))
        super().teardown()

    @initialize()
    def receives_media(self) -> None:
        """Film to print on and film to lay over it, wider or narrower; each with a flaw."""
        for length in (12_000, 6_000):
            code = self.station.blank(length_nm=length * MM)
            self.made({code: Thing("roll", length, WIDTH_MM, BLANK)})
            self._flawed(code, 400)
        for across in (WIDTH_MM - 100, WIDTH_MM, WIDTH_MM + 100):
            code = self.station.clear(length_nm=9_000 * MM, width_nm=across * MM)
            self.made({code: Thing("roll", 9_000, across, CLEAR)})
            self._flawed(code, 300)

    @rule(data=st.data(), part=PARTS, leader=st.integers(0, 300), waste=PARTS)
    def prints(self, data: st.DataObject, part: Fraction, leader: int, waste: Fraction) -> None:
        """A length of blank film, for a job or for nothing yet."""
        code, thing = self.any(data, "roll", "offcut", liking=_is_blank)
        job = data.draw(st.none() | self.any_job())
        length = 1 + int(part * (thing.left + 100) * Fraction(2, 3))
        spoiled = int(length * waste / 2)
        expected = first(
            (thing.ended, Code.ENDED),
            (thing.held, Code.HELD),
            (job is not None and not self.jobs[job], Code.JOB_CLOSED),
            (not serves(thing, job), Code.OTHER_JOB),
            (thing.kind != BLANK, Code.WRONG_KIND),
            (thing.printed or thing.laminated, Code.ALREADY_THERE),
            (length + leader > thing.left, Code.TOO_LONG),
        )
        done = self.do(
            expected,
            lambda: self.station.print(
                code, length * MM, leader_nm=leader * MM, waste_nm=spoiled * MM, job=job
            ),
        )
        if done is None:
            return
        kept = length - spoiled
        born = part_of(
            thing,
            thing.across,
            kept,
            printed=True,
            job=job,
            flat=False,
            flaws=_turned(thing, kept, skipped=leader),
        )
        after = self._parent(done.taken, thing, length + leader)
        self.did(done.act, {**after, done.code: born}, job)

    @rule(data=st.data(), part=PARTS, waste=PARTS)
    def laminates(self, data: st.DataObject, part: Fraction, waste: Fraction) -> None:
        """Clear film over a print or other film, which are no more, or shorter."""
        code, film = self.any(data, "roll", "offcut", liking=_is_bare)
        other, over = self.any(data, "roll", liking=lambda thing: thing.kind == CLEAR)
        job = data.draw(st.none() | self.any_job())
        pays = job or film.job
        length = data.draw(
            st.sampled_from([1 + int(part * min(film.left, over.left)), max(1, film.left)])
        )
        spoiled = int(length * waste / 2)
        expected = first(
            (code == other, Code.BAD_USAGE),
            (film.ended, Code.ENDED),
            (film.held, Code.HELD),
            (over.ended, Code.ENDED),
            (over.held, Code.HELD),
            (pays is not None and not self.jobs[pays], Code.JOB_CLOSED),
            (not serves(film, pays), Code.OTHER_JOB),
            (over.kind != CLEAR, Code.WRONG_KIND),
            (film.laminated, Code.ALREADY_THERE),
            (over.across < film.across, Code.TOO_NARROW),
            (length > min(film.left, over.left), Code.TOO_LONG),
        )
        done = self.do(
            expected,
            lambda: self.station.laminate(code, other, length * MM, waste_nm=spoiled * MM, job=job),
        )
        if done is None:
            return
        kept = length - spoiled
        born = part_of(
            film,
            film.across,
            kept,
            laminated=True,
            job=pays if film.printed else None,
            flat=False,
            flaws=(*_turned(film, kept), *_turned(over, kept)),
        )
        parents = self._parent(done.film, film, length) | self._parent(done.over, over, length)
        self.did(done.act, {**parents, done.code: born}, pays)

    @rule(data=st.data(), on_core=st.booleans())
    def rewinds(self, data: st.DataObject, on_core: bool) -> None:  # noqa: FBT001
        """On a new core, what was outside lies inside."""
        code, thing = self.any(data, "roll", "offcut")
        given = {"core": SMALL} if on_core else {}
        act = self.do(
            Code.ENDED if thing.ended else None, lambda: self.station.rewind(code, **given)
        )
        if act is not None:
            is_turned = on_core and not thing.flat
            flaws = _turned(thing, thing.left) if is_turned else thing.flaws
            self.did(act, {code: replace(thing, flat=False, flaws=flaws)})

    @rule(data=st.data())
    def lays_flat(self, data: st.DataObject) -> None:
        """A piece lies flat."""
        code, thing = self.any(data, "roll", "offcut")
        expected = first((thing.ended, Code.ENDED), (thing.flat, Code.ALREADY_THERE))
        act = self.do(expected, lambda: self.station.lay_flat(code))
        if act is not None:
            self.did(act, {code: replace(thing, flat=True)})

    @rule(data=st.data(), passed=st.booleans())
    def tries(self, data: st.DataObject, passed: bool) -> None:  # noqa: FBT001
        """What fails is held."""
        code, thing = self.any(data, "roll", "offcut")
        act = self.do(
            Code.ENDED if thing.ended else None,
            lambda: self.station.try_adhesion(code, passed=passed),
        )
        if act is not None:
            self.did(act, {code: replace(thing, held=thing.held or not passed)})

    @rule(data=st.data(), height=st.sampled_from(HEIGHTS))
    def tries_a_strip(self, data: st.DataObject, height: int) -> None:
        """What curls too tight is held."""
        code, thing = self.any(data, "roll", "offcut")
        chord = 0 if height == max(HEIGHTS) else 200
        done = self.do(
            Code.ENDED if thing.ended else None,
            lambda: self.station.try_curl(code, height * MM, chord_nm=chord * MM),
        )
        if done is not None:
            assert done.passed == (chord > 0)
            self.did(done.act, {code: replace(thing, held=thing.held or not done.passed)})

    @rule(data=st.data(), part=PARTS)
    def marks_a_flaw(self, data: st.DataObject, part: Fraction) -> None:
        """Somewhere along the film, or behind its end."""
        code, thing = self.any(data, "roll", "offcut")
        at = int(part * (thing.left + 100))
        expected = first((thing.ended, Code.ENDED), (at > thing.left, Code.TOO_LONG))
        act = self.do(expected, lambda: self.station.flaw(code, at * MM))
        if act is not None:
            self.did(act, {code: replace(thing, flaws=(*thing.flaws, thing.left - at))})

    def _flawed(self, code: str, at: int) -> None:
        thing = self.things[code]
        act = self.station.flaw(code, at * MM)
        self.did(act, {code: replace(thing, flaws=(*thing.flaws, thing.left - at))})

    def _parent(self, taken: Taken, thing: Thing, length: int) -> dict[str, Thing]:
        """A piece film was taken from, and what stays of a sheet."""
        left = thing.left - length
        is_over = thing.form == "offcut"
        after = {taken.piece: replace(thing, left=0 if is_over else left, ended=is_over)}
        stays = rest_of(thing, left)
        assert len(taken.rest) == (stays is not None)
        return after if stays is None else after | {taken.rest[0]: stays}


def _is_blank(thing: Thing) -> bool:
    return thing.kind == BLANK and not (thing.ended or thing.printed or thing.laminated)


def _is_bare(thing: Thing) -> bool:
    return not (thing.ended or thing.laminated) and thing.kind != CLEAR


def _hangs_together(state: State) -> None:
    """One stage begins where the one before it ended, and the last one holds all that is left."""
    history = kept(state)
    for one, after in pairwise(history):
        assert one.until == after.since
        assert 0 <= one.inner_nm <= one.left_nm
    assert history[-1].until is None
    stages = stages_of(state, lambda _since, _until: 1.0)
    if stages is not None:
        extent = memory(stages, POLYESTER).extent
        assert round((extent.to_m - extent.from_m) * M) == state.balance


def _turned(thing: Thing, length: int, *, skipped: int = 0) -> tuple[int, ...]:
    """The flaws of a length that is wound anew, from what was its outer end."""
    return tuple(at - skipped for at in thing.flaws_left if 0 <= at - skipped <= length)


TestFilmShop = FilmShop.TestCase
TestFilmShop.settings = settings(
    max_examples=settings.default.max_examples // 6 if settings.default else 15,
    stateful_step_count=25,
    deadline=None,
)
