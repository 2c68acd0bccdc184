"""Writing: one request, one transaction, one act; asked again with the same id, the same answer."""

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import asdict, replace
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Select, insert, select, update

from stockroom.books.catalog import job_from, shop
from stockroom.books.chain import START, canonical, digest, link
from stockroom.books.fold import State, fold, gone, step
from stockroom.books.journal import ACT_CONTENT, act_by_id, act_by_request, acts
from stockroom.books.opening import Book
from stockroom.books.pieces import piece_from
from stockroom.books.tables import ActRow, CounterRow, JobRow, MoveRow, PieceRow, table_of
from stockroom.books.values import Act, ActDraft, Asked, Job, Move, MoveDraft, Piece, Shop
from stockroom.codes.own import Letter, build, next_usable
from stockroom.errors import Code, Refusal

UNDO = "undo"
_ACT = table_of(ActRow)
_COUNTER = table_of(CounterRow)
_JOB = table_of(JobRow)
_MOVE = table_of(MoveRow)
_PIECE = table_of(PieceRow)


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
    two stations wait for each other and never both for the other. Only then the request id is
    looked up: `pen.repeated` is the act it made before, or None.
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
        wanted = select(_JOB).where(_JOB.c.code == code).with_for_update(key_share=True)
        row = self.connection.execute(wanted).mappings().first()
        if row is None:
            raise Refusal(Code.NO_JOB, f"No job has the code {code}: see `job list`.")
        self._job = job_from(row)

    def lock_pieces(self, codes: Iterable[str]) -> None:
        """Lock pieces in the order of their ids."""
        wanted = set(codes)
        if wanted:
            statement = (
                select(_PIECE)
                .where(_PIECE.c.code.in_(wanted))
                .order_by(_PIECE.c.id)
                .with_for_update(key_share=True)
            )
            for row in self.connection.execute(statement).mappings():
                piece = piece_from(row)
                self._pieces[piece.code] = piece

    def lock_counters(self, letters: Iterable[Letter]) -> None:
        """Lock the counters new codes come from, in the order of their letters."""
        for letter in sorted(letters):
            self.connection.execute(_locked_counter(letter))

    def new_code(self, letter: Letter) -> str:
        """The next code of a letter, used up with this transaction."""
        last: int = self.connection.execute(_locked_counter(letter)).scalar_one()
        number = next_usable(letter, last)
        here = _COUNTER.c.letter == letter
        self.connection.execute(update(_COUNTER).where(here).values(last=number))
        return build(letter, number)

    def find(self) -> Act | None:
        """The act this request made before; the same id with other content is refused."""
        found = act_by_request(self.connection, self._asked.request)
        if found is None:
            return None
        act, request_hash = found
        if request_hash != self._request_hash():
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
        act_row = {
            "request": self._asked.request,
            "request_hash": self._request_hash(),
            "kind": draft.kind,
            "at": draft.at,
            "recorded_at": self.now,
            "operator": self._asked.operator,
            "job_id": draft.job.id if draft.job else None,
            "note": draft.note or self._asked.note,
            "reverses": draft.reverses,
        }
        act_id = self.connection.execute(
            insert(_ACT).values(act_row).returning(_ACT.c.id)
        ).scalar_one()
        content = {name: act_row[name] for name in ACT_CONTENT}
        content["job"] = draft.job.code if draft.job else None
        content["request_hash"] = act_row["request_hash"]
        for move in draft.moves:
            self._write(act_id, content, draft, move)
        return act_by_id(self.connection, act_id)

    def _write(
        self, act_id: int, content: dict[str, Any], draft: ActDraft, move: MoveDraft
    ) -> None:
        piece = self._pieces.get(move.code)
        state = self._state_after(piece, draft, move)
        written = Move(
            piece=move.code,
            seq=piece.seq + 1 if piece else 1,
            kind=move.kind,
            delta=move.delta,
            balance=state.balance,
            used_mm2=move.used_mm2,
            wasted_mm2=move.wasted_mm2,
            kept_mm2=move.kept_mm2,
            cost_minor=move.cost_minor,
            sets=dict(move.sets),
            facts=dict(move.facts),
        )
        head = link(piece.head if piece else START, content, asdict(written))
        row = asdict(state) | {
            "code": move.code,
            "seq": written.seq,
            "head": head,
            "last_at": max(draft.at, piece.last_at) if piece else draft.at,
            "last_kind": draft.kind,
        }
        piece_id = self._keep(piece, row)
        columns = asdict(written)
        del columns["piece"]
        columns |= {
            "act_id": act_id,
            "piece_id": piece_id,
            "sets": canonical(written.sets),
            "facts": canonical(written.facts),
            "hash": head,
        }
        self.connection.execute(insert(_MOVE).values(columns))
        self._pieces[move.code] = piece_from(row | {"id": piece_id})

    def _keep(self, piece: Piece | None, row: dict[str, Any]) -> int:
        if piece is None:
            made = insert(_PIECE).values(row).returning(_PIECE.c.id)
            return int(self.connection.execute(made).scalar_one())
        self.connection.execute(update(_PIECE).where(_PIECE.c.id == piece.id).values(row))
        return piece.id

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
        left = fold(standing) or gone(history[0].moves_of(piece.code)[0])
        # An act of several moves is taken back in as many: until the last, the balance is on its way.
        return replace(left, balance=piece.state.balance + move.delta)

    def _request_hash(self) -> str:
        content = asdict(self._asked)
        del content["request"]
        return digest({"asked": type(self._asked).__name__, **content})

    def _clock(self, moment: datetime) -> str:
        return self.shop.local(moment).strftime("%Y-%m-%d %H:%M")


def _locked_counter(letter: Letter) -> Select[Any]:
    return (
        select(_COUNTER.c.last)
        .where(_COUNTER.c.letter == letter.value)
        .with_for_update(key_share=True)
    )
