"""Writing: one request, one transaction, one act; asked again with the same id, the same answer."""

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import fields, replace
from datetime import UTC, datetime
from functools import cached_property
from typing import Any

from sqlalchemy import Connection, bindparam, insert, select, update

from stockroom.books.catalog import job_from, shop
from stockroom.books.chain import START, canonical, digest, link
from stockroom.books.fold import State, fold, step
from stockroom.books.journal import (
    act_by_request,
    acts,
    content_of,
    move_from,
)
from stockroom.books.opening import Book
from stockroom.books.pieces import PIECES, changes_of, piece_from, row_of
from stockroom.books.prepared import Prepared
from stockroom.books.tables import ActRow, CounterRow, JobRow, MoveRow, PieceRow, table_of
from stockroom.books.values import Act, ActDraft, Asked, Job, Move, MoveDraft, Piece, Shop
from stockroom.codes.own import Letter, build, numbers
from stockroom.errors import Code, Refusal

UNDO = "undo"
_ACT = table_of(ActRow)
_COUNTER = table_of(CounterRow)
_JOB = table_of(JobRow)
_MOVE = table_of(MoveRow)
_PIECE = table_of(PieceRow)

_LOCKED_JOB = Prepared(
    select(_JOB).where(_JOB.c.code == bindparam("code")).with_for_update(key_share=True)
)
_LOCKED_PIECE = Prepared(
    PIECES.where(_PIECE.c.code == bindparam("code")).with_for_update(key_share=True)
)
_LOCKED_PIECES = (
    PIECES.where(_PIECE.c.code.in_(bindparam("codes", expanding=True)))
    .order_by(_PIECE.c.id)
    .with_for_update(key_share=True)
)
_LOCKED_COUNTER = Prepared(
    select(_COUNTER.c.last)
    .where(_COUNTER.c.letter == bindparam("of"))
    .with_for_update(key_share=True)
)
_COUNTED = Prepared(update(_COUNTER).where(_COUNTER.c.letter == bindparam("of")))
_NEW_ACT = Prepared(insert(_ACT).returning(_ACT.c.id))
_NEW_MOVE = Prepared(insert(_MOVE).inline())
_NEW_PIECE = Prepared(insert(_PIECE).returning(_PIECE.c.id))
_CHANGED_PIECE = Prepared(update(_PIECE).where(_PIECE.c.id == bindparam("of")))


@contextmanager
def writing(
    book: Book,
    asked: Asked,
    *,
    now: datetime,
    pieces: Sequence[str] = (),
    job: str | None = None,
    letters: Sequence[Letter] = (),
) -> Iterator["Pen"]:
    """One write transaction for one request; what it will touch is locked before it is looked at.

    The rows are locked in one order everywhere (job, pieces by id, counters by letter), so that
    two stations wait for each other and never both for the other. What locks no piece names the
    letters of its new codes, so that the same request asked twice at once waits there. Only then the
    request id is looked up: `pen.repeated` is the act it made before, or None.
    """
    with book.transaction() as connection:
        pen = Pen(connection, asked, now)
        if job is not None:
            pen.lock_job(job)
        pen.lock_pieces(pieces)
        pen.lock_counters(letters)
        pen.repeated = pen.find()
        yield pen


class Pen:
    """What a script of `work` reads and writes with, inside one transaction."""

    def __init__(self, connection: Connection, asked: Asked, now: datetime) -> None:
        self.connection = connection
        self.now = now
        self.shop: Shop = shop(connection, now)
        self.repeated: Act | None = None
        self._asked = asked
        self._pieces: dict[str, Piece] = {}
        self._job: Job | None = None

    @property
    def job(self) -> Job | None:
        """The locked job of the request, if it names one."""
        return self._job

    def piece(self, code: str) -> Piece:
        """A locked piece; one that was never there is not found."""
        try:
            return self._pieces[code]
        except KeyError:
            raise Refusal(Code.NO_PIECE, f"No piece has the code {code}.") from None

    def lock_job(self, code: str) -> None:
        """Lock a job's row; one that was never there is not found."""
        row = _LOCKED_JOB.first(self.connection, {"code": code})
        if row is None:
            raise Refusal(Code.NO_JOB, f"No job has the code {code}: see `job list`.")
        self._job = job_from(row)

    def lock_pieces(self, codes: Iterable[str]) -> None:
        """Lock pieces in the order of their ids."""
        wanted = list(set(codes))
        if not wanted:
            return
        if len(wanted) == 1:  # as it mostly is; a list costs more than the look-up itself
            rows: Sequence[Any] = _LOCKED_PIECE.all(self.connection, {"code": wanted[0]})
        else:
            rows = self.connection.execute(_LOCKED_PIECES, {"codes": wanted}).all()
        for row in rows:
            piece = piece_from(row)
            self._pieces[piece.code] = piece

    def lock_counters(self, letters: Iterable[Letter]) -> None:
        """Lock the counters new codes come from, in the order of their letters."""
        for letter in sorted(letters):
            _LOCKED_COUNTER.all(self.connection, {"of": letter.value})

    def new_code(self, letter: Letter) -> str:
        """The next code of a letter, used up with this transaction."""
        return self.new_codes(letter, 1)[0]

    def new_codes(self, letter: Letter, count: int) -> list[str]:
        """The next so many codes of a letter, at least one."""
        of = {"of": letter.value}
        last: int = _LOCKED_COUNTER.value(self.connection, of)
        found = numbers(letter, last, count)
        _COUNTED.all(self.connection, of | {"last": found[-1]})
        return [build(letter, number) for number in found]

    def find(self) -> Act | None:
        """The act this request made before; the same id with other content is refused."""
        found = act_by_request(self.connection, self._asked.request)
        if found is None:
            return None
        act, request_hash = found
        if request_hash != self._request_hash:
            raise Refusal(
                Code.OTHER_CONTENT,
                f"The request {self._asked.request} was used for something else: "
                "ask with a new id.",
            )
        return act

    def when(self, *, pieces: Iterable[Piece] = (), late: bool = False) -> datetime:
        """The instant of the act: as asked, or now; never before a piece's last act.

        `late` lets an entry be written for an instant before the last act.
        """
        asked = self._asked.at
        touched = list(pieces)
        last = max((piece.last_at for piece in touched), default=None)
        if asked is None:
            return max(self.now, last) if last is not None else self.now
        if asked > self.now:
            raise Refusal(
                Code.FUTURE,
                f"{self._clock(asked)} is in the future: an act is written when it has happened.",
            )
        if last is not None and asked < last and not late:
            behind = next(piece for piece in touched if piece.last_at == last)
            raise Refusal(
                Code.TOO_EARLY,
                f"{self._clock(asked)} is before the last act of {behind.code} "
                f"({self._clock(last)}, {behind.last_kind}): give a later time, or `charge` "
                "what a count has already seen.",
            )
        return asked

    def history(self, piece: Piece) -> tuple[Act, ...]:
        """All acts that touched a piece, oldest first, reversed ones and undos among them."""
        return acts(self.connection, piece=piece.code)[::-1]

    def append(self, draft: ActDraft) -> Act:
        """Write an act with all its moves, and each piece's new state beside it."""
        content: dict[str, Any] = {
            "request": self._asked.request,
            "kind": draft.kind,
            "at": draft.at.astimezone(UTC),
            "recorded_at": self.now.astimezone(UTC),
            "operator": self._asked.operator,
            "note": draft.note or self._asked.note,
            "reverses": draft.reverses,
        }
        hashed = {"request_hash": self._request_hash}
        row = content | hashed | {"job_id": draft.job.id if draft.job else None}
        act_id: int = _NEW_ACT.value(self.connection, row)
        job = draft.job.code if draft.job else None
        linked = content | hashed | {"job": job}
        moves = tuple(self._write(act_id, linked, draft, move) for move in draft.moves)
        return Act(id=act_id, job=job, is_reversed=False, moves=moves, **content)

    def _write(
        self, act_id: int, content: dict[str, Any], draft: ActDraft, move: MoveDraft
    ) -> Move:
        piece = self._pieces.get(move.code)
        state = self._state_after(piece, draft, move)
        row: dict[str, Any] = {
            "piece": move.code,
            "seq": piece.seq + 1 if piece else 1,
            "kind": move.kind,
            "delta": move.delta,
            "balance": state.balance,
            "used_mm2": move.used_mm2,
            "wasted_mm2": move.wasted_mm2,
            "kept_mm2": move.kept_mm2,
            "cost_minor": move.cost_minor,
            "sets": canonical(move.sets),
            "facts": canonical(move.facts),
        }
        written = move_from(row)  # as it will be read when the same is asked again
        head = link(piece.head if piece else START, content, content_of(written))
        del row["piece"]
        after = Piece(
            id=piece.id if piece else 0,
            code=move.code,
            seq=written.seq,
            head=head,
            last_at=max(draft.at, piece.last_at) if piece else draft.at,
            last_kind=draft.kind,
            state=state,
        )
        after = self._kept(after, piece)
        row |= {"act_id": act_id, "piece_id": after.id, "hash": head}
        _NEW_MOVE.all(self.connection, row)
        self._pieces[move.code] = after
        return written

    def _kept(self, piece: Piece, before: Piece | None) -> Piece:
        """The piece with its row written, as far as it is other than before."""
        if before is None:
            made: int = _NEW_PIECE.value(self.connection, row_of(piece))
            return replace(piece, id=made)
        changed = changes_of(piece, before)
        _CHANGED_PIECE.all(self.connection, {**changed, "of": piece.id})
        return piece

    def _state_after(self, piece: Piece | None, draft: ActDraft, move: MoveDraft) -> State:
        if draft.reverses is None or piece is None:
            return step(piece.state if piece else None, move)
        history = self.history(piece)
        standing = [
            move
            for act in history
            if not act.is_reversed and act.kind != UNDO and act.id != draft.reverses
            for move in act.moves_of(piece.code)
        ]
        left = fold(history[0].moves_of(piece.code)[0], standing)
        # An act of several moves is taken back in as many: until the last, the balance is on its way.
        return left._replace(balance=piece.state.balance + move.delta)

    @cached_property
    def _request_hash(self) -> str:
        names = (one.name for one in fields(self._asked) if one.name != "request")
        content = {name: getattr(self._asked, name) for name in names}
        return digest({"asked": type(self._asked).__name__, **content})

    def _clock(self, moment: datetime) -> str:
        return self.shop.local(moment).strftime("%Y-%m-%d %H:%M")
