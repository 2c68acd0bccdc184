"""Trials of the piece itself: what passes may be used for longer, what fails is held."""

from collections.abc import Mapping
from functools import partial

from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.film.verdict import Verdict
from stockroom.lines import cautions, curl_trial
from stockroom.screens.form import Blank, Field, Misfilled, mending
from stockroom.screens.forms.on_card import OnCard, is_yes
from stockroom.units.typed import parse_length
from stockroom.work.curl_trial import TryCurl, circle_of, limit_of, try_curl
from stockroom.work.trial import TryAdhesion, try_adhesion

_WENT = {"p": True, "pass": True, "passed": True, "f": False, "fail": False, "failed": False}
_NO_CHORD = "Give the chord between the ends of the strip, or its length up to half a circle."
_NEXT = {
    False: "next: how high the strip stands",
    True: "next: the chord, from end to end; 0 where the ends meet",
}
_CURL = "curl trial"


def trial_blank(on: OnCard) -> Blank:
    """The trial the verdict asks for; of adhesion, unless it asks for one of curl alone."""
    return curl_blank(on) if _asks_for_curl(on) else adhesion_blank(on)


def other_trial_blank(on: OnCard) -> Blank:
    """The trial the verdict does not ask for."""
    return adhesion_blank(on) if _asks_for_curl(on) else curl_blank(on)


def _asks_for_curl(on: OnCard) -> bool:
    """Whether a curl trial is all that is asked for; heat asks for the one of the limit it passed."""
    reasons = on.card.judged.judgement.reasons
    asking = [one.text for one in reasons if one.verdict is Verdict.TEST]
    return bool(asking) and all(_CURL in text for text in asking)


def adhesion_blank(on: OnCard) -> Blank:
    """Did it hold on scrap glass, and peel as it should?"""
    station, asking = on.station, on.station.asking()

    def write(said: Mapping[str, str]) -> str:
        with mending("went"):
            passed = _WENT.get(said["went"].casefold())
            if passed is None:
                raise Refusal(Code.BAD_USAGE, "Say how it went: pass or fail.")
            request = TryAdhesion(**asking, piece=on.code, passed=passed, note=said["note"])
            return on.said(try_adhesion(request, book=station.book, now=station.now()))

    return Blank(
        title=f"Adhesion trial of {grouped(on.code)}",
        fields=(
            Field(name="went", hint="pass, or fail, which holds the piece"),
            Field(name="note", hint="what was seen"),
        ),
        write=write,
        beside="A 300 mm square stood on scrap glass for 24 hours: look at it, then peel it.",
        caution=cautions.SCRAP_GLASS,
    )


def curl_blank(on: OnCard) -> Blank:
    """What does a strip of it curl to that stands free on its edge?"""
    station, asking = on.station, on.station.asking()

    def write(said: Mapping[str, str]) -> str:
        size = partial(_size, said, on)
        if not (said["chord"] or said["length"]):
            raise Misfilled("chord", Refusal(Code.BAD_USAGE, _NO_CHORD))
        request = TryCurl(
            **asking,
            piece=on.code,
            height_nm=size("height", needed=True) or 0,
            chord_nm=size("chord"),
            arc_nm=size("length"),
            at_diameter_nm=size("at"),
            other_way=is_yes(said["other way"]),
            note=said["note"],
        )
        done = try_curl(request, book=station.book, now=station.now())
        return " · ".join([on.said(done.act), *curl_trial.reaches(done, on.shop)])

    def foretells(said: Mapping[str, str]) -> str:
        standing, house = on.card.judged.standing, on.shop.house
        limit = limit_of(standing.material, house)
        if not (said["height"] and (said["chord"] or said["length"])):
            return _NEXT[bool(said["height"])]
        size = partial(_size, said, on)
        circle_nm = circle_of(size("height", needed=True) or 0, size("chord"), size("length"))
        way = is_yes(said["other way"])
        return curl_trial.foretold(circle_nm, limit, on.shop.system, other_way=way)

    return Blank(
        title=f"Curl trial of {grouped(on.code)}",
        steps=curl_trial.STEPS,
        foretells=foretells,
        fields=(
            Field(name="height", hint="how high it stands; closed: how wide it is"),
            Field(name="chord", hint="from end to end; 0 where the ends meet"),
            Field(name="length", hint="of the strip, to check the chord"),
            Field(name="at", hint="diameter on the roll, if not the outer end"),
            Field(name="other way", hint="yes, if it curls against the way it lay"),
            Field(name="note", hint="what was seen"),
        ),
        write=write,
        caution=cautions.BLADE,
    )


def _size(said: Mapping[str, str], on: OnCard, name: str, *, needed: bool = False) -> int | None:
    if not said[name] and not needed:
        return None
    with mending(name):
        return parse_length(said[name], on.shop.system, zero=True)
