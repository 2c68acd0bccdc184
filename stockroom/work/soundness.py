"""May film be taken from a piece today, and what is to be said when it is."""

from datetime import datetime

from stockroom.books.climates import Climates
from stockroom.books.pen import Pen
from stockroom.books.values import Material, Piece, Standing
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.film.rules import judge
from stockroom.film.verdict import Judgement, Verdict
from stockroom.work.judging import view
from stockroom.work.storage import Stored


def judgement_of(pen: Pen, piece: Piece, material: Material, at: datetime) -> Judgement:
    """The verdict of a piece at the instant of an act."""
    seen = view(pen.shop, now=at, today=None)
    standing = Standing(piece=piece, material=material, place=None, job=None)
    climates = Climates(pen.connection, pen.shop, at, few=True)
    storage = Stored(climates, seen).storage_of(standing)
    return judge(storage, today=seen.today, moment=seen.moment, house=pen.shop.house)


def refuse_stopped(piece: Piece, judgement: Judgement, despite: str | None) -> None:
    """Refuse film that is stopped by its age, unless somebody says why it is taken all the same."""
    if judgement.verdict is Verdict.STOP and not despite:
        why = next(reason for reason in judgement.reasons if reason.verdict is Verdict.STOP)
        raise Refusal(
            Code.STOPPED,
            f"{grouped(piece.code)} is stopped: {why.text}; "
            "take another, or say why it is taken all the same (`--despite`).",
        )


def warning_of(judgement: Judgement) -> str:
    """What is to be minded when film is taken all the same; nothing for film to use."""
    if judgement.verdict is Verdict.USE:
        return ""
    worst = next(one for one in judgement.reasons if one.verdict is judgement.verdict)
    return worst.text
