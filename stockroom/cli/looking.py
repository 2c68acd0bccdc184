"""The reports: today, rack, piece, log; nothing is written."""

from typing import Annotated

import typer

from stockroom.cli.desk import Desk, maybe, name, reads, reports
from stockroom.cli.options import Code
from stockroom.cli.saying import Answer
from stockroom.codes.own import looks_like_code, read, read_job, read_piece
from stockroom.errors import Code as RefusalCode
from stockroom.errors import Refusal, clean_text
from stockroom.film.verdict import Verdict
from stockroom.lines.when import read_instant


@reports
def today(desk: Desk) -> Answer:
    """Show what needs a hand, and the open jobs of the next 7 days."""
    from stockroom.lines import answers, text_look
    from stockroom.work import today as room
    from stockroom.work.look import mass_left_kg

    seen = room.today(desk.book, now=desk.now, today=desk.today)
    shop = seen.view.shop
    return Answer(
        values={
            "shop": shop.name,
            "day": seen.view.today.isoformat(),
            "counts": {one.value: seen.counts.get(one, 0) for one in Verdict if one != "WAIT"},
            "waiting": seen.waiting,
            "pieces": [answers.piece(one, shop, mass_left_kg(one.standing)) for one in seen.pieces],
            "jobs": [answers.job(one) for one in seen.jobs],
            "short_jobs": {job: list(codes) for job, codes in seen.short.items()},
            "late_orders": [one.code for one in seen.late],
        },
        lines=text_look.today(seen, desk.width),
    )


@reports
def rack(
    desk: Desk,
    verdict: Annotated[
        str | None,
        typer.Option(metavar="VERDICT", help="use, use-first, test, stop or wait."),
    ] = None,
    material: Annotated[str, typer.Option(metavar="TEXT", help="Part of its name.")] = "",
    place: Annotated[str, typer.Option(metavar="TEXT", help="Part of its name or code.")] = "",
    find: Annotated[
        str, typer.Option(metavar="TEXT", help="In code, material, lot, place or job.")
    ] = "",
    out: Annotated[
        bool, typer.Option("--out", help="Only what is out, in a van or at a site.")
    ] = False,
) -> Answer:
    """List every piece on hand with its verdict."""
    from stockroom.lines import answers, text_look
    from stockroom.work import look

    wanted = look.Wanted(
        verdict=maybe(verdict, _verdict),
        material=name(material),
        place=_searched(place),
        find=_searched(find),
        is_out=out,
    )
    found = look.rack(desk.book, now=desk.now, today=desk.today, wanted=wanted)
    shop = found.view.shop
    return Answer(
        values={
            "day": found.view.today.isoformat(),
            "pieces": [
                answers.piece(one, shop, look.mass_left_kg(one.standing)) for one in found.pieces
            ],
        },
        lines=text_look.rack(found, desk.width),
    )


@reports
def piece(desk: Desk, code: Code) -> Answer:
    """Show everything about one piece, and why."""
    from stockroom.lines import answers, text_look
    from stockroom.lines.roll import past_values
    from stockroom.work import look
    from stockroom.work.past import past_of

    card = look.piece(desk.book, read_piece(code), now=desk.now, today=desk.today)
    shop = card.view.shop
    acts = [answers.act(one, shop) for one in card.acts]
    is_now = card.view.moment == desk.now
    past = past_of(desk.book, card.judged.code, now=desk.now) if is_now else None
    kept = None if past is None else past_values(past)
    return Answer(
        values=answers.piece(card.judged, shop, card.mass_kg) | {"kept": kept, "acts": acts},
        lines=text_look.piece(card, look.places(desk.book, now=desk.now), past),
    )


@reads
def log(
    desk: Desk,
    of: Annotated[
        str | None, typer.Option("--piece", metavar="CODE", help="Only what touched this piece.")
    ] = None,
    job: Annotated[
        str | None, typer.Option(metavar="JOB", help="Only what was done for this job.")
    ] = None,
    since: Annotated[
        str | None, typer.Option(metavar="TIME", help="Only from then on, like 2025-03-14.")
    ] = None,
) -> Answer:
    """List what was done, newest first."""
    from stockroom.lines import answers, text_look
    from stockroom.work import look

    acts = look.log(
        desk.book,
        now=desk.now,
        piece=maybe(of, read_piece),
        job=maybe(job, read_job),
        since=None if since is None else read_instant(since, desk.shop, desk.now),
    )
    return Answer(
        values={"acts": [answers.act(one, desk.shop) for one in acts]},
        lines=text_look.log(acts, desk.shop, look.places(desk.book, now=desk.now), desk.width),
    )


def _verdict(text: str) -> Verdict:
    wanted = " ".join(text.upper().replace("-", " ").replace("_", " ").split())
    try:
        return Verdict(wanted)
    except ValueError:
        raise Refusal(
            RefusalCode.BAD_NAME,
            f"'{clean_text(text, 40)}' is no verdict: choose use, use-first, test, stop or wait.",
        ) from None


def _searched(text: str) -> str:
    """What to look for; a code as the book writes it."""
    return read(text) if looks_like_code(text) else name(text)
