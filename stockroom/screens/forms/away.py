"""A piece goes to a van or a site, and comes in again; what is less then was used."""

from collections.abc import Mapping

from stockroom.codes.own import grouped, place_or_name
from stockroom.errors import Code, Refusal
from stockroom.lines import bench, text_goods, words
from stockroom.lines import card as lines
from stockroom.screens.form import Blank, Field, Misfilled, mending
from stockroom.screens.forms.measuring import BY_SIZE, given_as, one_of
from stockroom.screens.forms.on_card import OnCard
from stockroom.work.away import CameIn, ComeIn, GoOut, come_in, go_out
from stockroom.work.reasons import REASONS
from stockroom.work.reserved import reserved

_NAMES_THE_JOB = frozenset({Code.BAD_USAGE, Code.NO_JOB, Code.JOB_CLOSED, Code.OTHER_JOB})


def out_blank(on: OnCard) -> Blank:
    """Where does it go, and who has it?"""
    station, asking = on.station, on.station.asking()
    standing = on.card.judged.standing
    kept = reserved(standing.state, on.card.view.today)
    if standing.state.out_to is not None:
        raise Refusal(
            Code.ALREADY_THERE,
            f"{grouped(on.code)} is {words.where(standing, on.shop)}: it has to come in first.",
        )

    def write(said: Mapping[str, str]) -> str:
        with mending("to"):
            to = _named(said["to"])
        if on.is_stopped and not said["why"]:
            raise Misfilled("why", bench.stopped(on.card))
        with mending("job"):
            job = on.job_code(said["job"]) if said.get("job") else None
        request = GoOut(
            **asking,
            piece=on.code,
            to=to,
            taker=said["with"],
            despite=said.get("why") or None,
            job=job,
        )
        with mending("why" if job and kept else "job" if kept else "to"):
            return on.said(go_out(request, book=station.book, now=station.now()))

    to = on.place_field("to", "scan a van, or type its name or a site", on.went_to)
    why = Field(name="why", hint=f"why a {'reserved' if kept else 'stopped'} piece is taken")
    return Blank(
        title=f"{grouped(on.code)} goes out",
        fields=(
            to,
            Field(name="with", hint=station.operator),
            *([on.job_field()] if kept else ()),
            *([why] if kept or on.is_stopped else ()),
        ),
        write=write,
        beside=words.film(standing, on.shop.system),
        caution=lines.caution(on.card),
    )


def _named(to: str) -> str:
    """Where it goes: a place by its code, or any name."""
    if not to:
        raise Refusal(Code.BAD_USAGE, "Say where it goes: scan a place, or type a site.")
    return place_or_name(to)


def in_blank(on: OnCard) -> Blank:
    """What is left of it, and which job had the rest?"""
    asking, system = on.station.asking(), on.shop.system
    standing = on.card.judged.standing
    if standing.state.out_to is None:
        raise Refusal(
            Code.NOT_OUT, f"{grouped(on.code)} is not out: what left it here is a cut, or back."
        )
    hint = f"as it went, {words.left(standing, system)}; else what is left"
    hints = {
        "box": {"left": hint},
        "offcut": {"left": hint},
        "roll": {"left": hint, **BY_SIZE},
    }[on.form]

    def write(said: Mapping[str, str]) -> str:
        given = given_as(one_of(said, hints), on)
        with mending("job"):
            job, reason = _for_whom(said["job"], on)
        request = ComeIn(**asking, piece=on.code, job=job, reason=reason, **given)
        return " · ".join(text_goods.came_in(_came(request, on), on.shop))

    job = on.job or standing.job
    fields = [Field(name=name, hint=hint) for name, hint in hints.items()]
    besides = f"or {', '.join(REASONS)}"
    return Blank(
        title=f"{grouped(on.code)} comes in",
        fields=(*fields, on.job_field(job.code if job else "", besides=besides)),
        write=write,
        beside=f"{words.where(standing, on.shop)}\n{on.jobs_said()}".rstrip(),
        caution=lines.caution(on.card),
    )


def _for_whom(text: str, on: OnCard) -> tuple[str | None, str | None]:
    """The job that used it, or why it was used without one."""
    if not text:
        return None, None
    if text.casefold() in REASONS:
        return None, text.casefold()
    return on.job_code(text), None


def _came(request: ComeIn, on: OnCard) -> CameIn:
    station = on.station
    try:
        return come_in(request, book=station.book, now=station.now())
    except Refusal as refusal:
        if refusal.code not in _NAMES_THE_JOB:
            raise
        if request.job is None and request.reason is None:
            used = refusal.sentence.partition(":")[0]
            refusal = Refusal(refusal.code, f"{used}: say for which job, or why.")
        raise Misfilled("job", refusal) from refusal
