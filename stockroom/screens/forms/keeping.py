"""Where a piece stands, whether anybody may take it, and whether it goes back to its supplier."""

from collections.abc import Mapping

from stockroom.codes.own import grouped, place_or_name
from stockroom.errors import Code, Refusal
from stockroom.lines import card as lines
from stockroom.screens.form import Blank, Field, mending
from stockroom.screens.forms.on_card import OnCard
from stockroom.work.keep import Hold, Put, Release, hold, put, release
from stockroom.work.sendback import SendBack, send_back


def put_blank(on: OnCard, given: str = "") -> Blank:
    """Where does the piece stand?"""
    station, asking = on.station, on.station.asking()

    def write(said: Mapping[str, str]) -> str:
        named = said["place"]
        if not named:
            raise Refusal(Code.BAD_USAGE, "Say where it stands: scan a place, or type its name.")
        place = place_or_name(named)
        request = Put(**asking, piece=on.code, place=place)
        return on.said(put(request, book=station.book, now=station.now()))

    return Blank(
        title=f"Put {grouped(on.code)}",
        fields=(on.place_field("place", value=given),),
        write=write,
        caution=lines.caution(on.card),
    )


def hold_blank(on: OnCard) -> Blank:
    """Why is the piece held, or released?"""
    station, asking = on.station, on.station.asking()
    is_held = on.card.judged.standing.state.held is not None

    def write(said: Mapping[str, str]) -> str:
        why, book, now = _why(said), station.book, station.now()
        if is_held:
            act = release(Release(**asking, piece=on.code, why=why), book=book, now=now)
        else:
            act = hold(Hold(**asking, piece=on.code, why=why), book=book, now=now)
        return on.said(act)

    return Blank(
        title=f"{'Release' if is_held else 'Hold'} {grouped(on.code)}",
        fields=(Field(name="why", hint="what was seen, by whom"),),
        write=write,
    )


def send_back_blank(on: OnCard) -> Blank:
    """Why does it go back to its supplier, and under which number?"""
    station, asking = on.station, on.station.asking()

    def write(said: Mapping[str, str]) -> str:
        with mending("why"):
            why = _why(said)
        with mending("claim"):
            if not said["claim"]:
                raise Refusal(Code.BAD_USAGE, "Say under which number the supplier knows it.")
            request = SendBack(**asking, piece=on.code, why=why, claim=said["claim"])
            return on.said(send_back(request, book=station.book, now=station.now()))

    return Blank(
        title=f"{grouped(on.code)} goes back to its supplier",
        fields=(
            Field(name="why", hint="what is wrong with it"),
            Field(name="claim", hint="the number the supplier knows it by"),
        ),
        write=write,
        beside="It is no stock from then on; its credit is awaited.",
        caution=lines.caution(on.card),
    )


def _why(said: Mapping[str, str]) -> str:
    if not said["why"]:
        raise Refusal(Code.BAD_USAGE, "A reason is needed: say why.")
    return said["why"]
