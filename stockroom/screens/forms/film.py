"""What is found on film, and how it is wound: a flaw, another core."""

from collections.abc import Mapping
from functools import partial

from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.lines import bench as typed
from stockroom.screens.form import Blank, Field, mending
from stockroom.screens.forms.on_card import OnCard, is_yes
from stockroom.units.typed import parse_length
from stockroom.work.flaw import MarkFlaw, mark_flaw
from stockroom.work.winding import Core, Rewind, rewind


def flaw_blank(on: OnCard) -> Blank:
    """Where is it, and what?"""
    station, asking = on.station, on.station.asking()

    def write(said: Mapping[str, str]) -> str:
        with mending("at"):
            at_nm = typed.length(said["at"], on.shop.system, zero=True)
        with mending("what"):
            if not said["what"]:
                raise Refusal(Code.BAD_USAGE, "Say what it is: a splice, damage, dirt.")
        with mending("at"):
            request = MarkFlaw(**asking, piece=on.code, at_nm=at_nm, what=said["what"])
            return on.said(mark_flaw(request, book=station.book, now=station.now()))

    return Blank(
        title=f"A flaw in {grouped(on.code)}",
        fields=(
            Field(name="at", hint="how far from the outer end, 2.4m"),
            Field(name="what", hint="splice, damage, dirt, or what it is"),
        ),
        write=write,
    )


def rewind_blank(on: OnCard) -> Blank:
    """On what is it wound now?"""
    station, asking = on.station, on.station.asking()

    def write(said: Mapping[str, str]) -> str:
        size = partial(parse_length, system=on.shop.system)
        with mending("core"):
            inside_nm = size(said["core"]) if said["core"] else None
        with mending("wall"):
            wall_nm = size(said["wall"]) if said["wall"] else None
        core = Core(inside_nm=inside_nm, wall_nm=wall_nm, in_tube=is_yes(said["tube"]))
        request = Rewind(**asking, piece=on.code, core=core, face=said["face"].casefold() or None)
        return on.said(rewind(request, book=station.book, now=station.now()))

    return Blank(
        title=f"Wind {grouped(on.code)} anew",
        fields=(
            Field(name="core", hint="as before; else its inside, 76.2mm"),
            Field(name="wall", hint="of another core, 5mm"),
            Field(name="face", hint="in or out"),
            Field(name="tube", hint="yes, if it is in a tube and on no core"),
        ),
        write=write,
        beside="The days it was wound before still count.",
    )
