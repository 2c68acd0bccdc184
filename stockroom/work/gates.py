"""What is refused before anything is written, whoever asks."""

from datetime import datetime

from stockroom.books.pen import Pen
from stockroom.books.values import Job, Piece
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.units.shown import show_length
from stockroom.work.reserved import kept_for_others

FILM = ("roll", "offcut")
_ARTICLE = {"roll": "a roll", "offcut": "an offcut", "box": "a box"}


def open_job(pen: Pen) -> Job:
    """The request's job, which must be open."""
    job = pen.job
    if job is None:
        raise Refusal(Code.NO_JOB, "No job was named: give one with --job.")
    if job.is_closed:
        raise Refusal(
            Code.JOB_CLOSED,
            f"Job {grouped(job.code)} is closed: reopen it with `job reopen {job.code}`, "
            "or charge another.",
        )
    return job


def serves(piece: Piece, job: Job | None) -> Piece:
    """The piece itself, which must not be printed for another job."""
    if job is not None and piece.state.job_id not in (None, job.id):
        raise Refusal(
            Code.OTHER_JOB,
            f"{grouped(piece.code)} is printed for another job and serves that one only.",
        )
    return piece


def on_hand(piece: Piece) -> Piece:
    """The piece itself, which must not have come to its end."""
    if piece.state.ended is not None:
        raise Refusal(Code.ENDED, f"{grouped(piece.code)} is no more: {piece.state.ended}.")
    return piece


def not_held(piece: Piece) -> Piece:
    """The piece itself, which must not be held."""
    if piece.state.held is not None:
        raise Refusal(
            Code.HELD,
            f"{grouped(piece.code)} is held ({piece.state.held}): release it first.",
        )
    return piece


def here(pen: Pen, code: str, *forms: str) -> Piece:
    """A piece something is done to: on hand and not away, held or not; of any form unless said."""
    piece = pen.piece(code)
    return _not_away(pen, on_hand(of_form(piece, *forms) if forms else piece))


def free(pen: Pen, code: str, *forms: str) -> Piece:
    """A piece something may be taken from: here, and not held; of film unless said."""
    return not_held(here(pen, code, *(forms or FILM)))


def _not_away(pen: Pen, piece: Piece) -> Piece:
    state = piece.state
    if state.out_to is not None:
        since = ""
        if state.out_since is not None:
            left_at = pen.shop.local(datetime.fromisoformat(state.out_since))
            since = f" since {left_at:%Y-%m-%d %H:%M}"
        raise Refusal(
            Code.OUT,
            f"{grouped(piece.code)} is out with {state.out_to}{since}: "
            f"bring it in first, with `in {piece.code}`.",
        )
    return piece


def of_form(piece: Piece, *forms: str) -> Piece:
    """The piece itself, which must be of one of these forms."""
    if piece.state.form not in forms:
        raise Refusal(
            Code.WRONG_FORM,
            f"{grouped(piece.code)} is {_ARTICLE[piece.state.form]}: this is done to "
            f"{' or '.join(_ARTICLE[form] for form in forms)}.",
        )
    return piece


def unreserved(pen: Pen, piece: Piece, length_nm: int, job: str | None) -> Piece:
    """The piece itself, of which so much must not be kept for other jobs than this one."""
    kept = kept_for_others(piece.state, job, pen.shop.day_of(pen.now))
    if kept and length_nm > piece.state.balance - sum(one.along_nm for one in kept):
        first = kept[0]
        raise Refusal(
            Code.RESERVED,
            f"{show_length(first.along_nm, pen.shop.system)} of {grouped(piece.code)} is kept for "
            f"job {grouped(first.job)} until {first.until}: take another, "
            "or say why it is taken all the same (`--despite`).",
        )
    return piece


_LEAST_NM = 100_000


def more_than_nothing(*amounts: int, code: Code = Code.BAD_LENGTH) -> None:
    """Lengths of at least a tenth of a millimetre, or whatever the code names, of at least one."""
    least = _LEAST_NM if code is Code.BAD_LENGTH else 1
    if any(amount < least for amount in amounts):
        raise Refusal(code, "Nothing, or less than nothing, cannot be written: measure it again.")
