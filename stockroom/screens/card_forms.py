"""What is written from a piece's card: the forms, and what becomes of what was typed in them."""

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Any, TypeAlias

from stockroom.books.values import Act, Place
from stockroom.codes.own import Letter, grouped, looks_like_code, read_job, read_place
from stockroom.errors import Code, Refusal
from stockroom.labels.files import save
from stockroom.lines import bench as typed
from stockroom.lines import card as lines
from stockroom.lines import text_done
from stockroom.screens.form import Blank, Field, mending
from stockroom.screens.station import Station
from stockroom.units.shown import show_size
from stockroom.units.typed import parse_count, parse_length, parse_mass
from stockroom.work.back import Back, back
from stockroom.work.count import Count, count
from stockroom.work.keep import Hold, Put, Release, hold, put, release
from stockroom.work.label import labels
from stockroom.work.look import Card
from stockroom.work.undo import Undo, undo


@dataclass(frozen=True, slots=True, kw_only=True)
class OnCard:
    """What lies open: a piece's card at a station, and the places there are."""

    station: Station
    card: Card
    places: Sequence[Place]

    @property
    def code(self) -> str:
        """The code of the piece."""
        return self.card.judged.code

    def said(self, act: Act) -> str:
        """What an act on the piece did."""
        return " ".join(text_done.act(act, self.code, self.card.view.shop, self.places))


BlankFor: TypeAlias = Callable[[OnCard], Blank]


def put_blank(on: OnCard, given: str = "") -> Blank:
    """Where does the piece stand?"""
    station, asking = on.station, on.station.asking()
    known = ", ".join(place.name for place in on.places[:12])

    def write(said: Mapping[str, str]) -> str:
        named = said["place"]
        place = read_place(named) if looks_like_code(named) else named
        request = Put(**asking, piece=on.code, place=place)
        act = put(request, book=station.book, now=station.now())
        return on.said(act)

    field = Field(
        name="place",
        hint=known or "a place, or scan its label",
        value=given and grouped(given),
        takes=Letter.PLACE,
    )
    return Blank(
        title=f"Put {grouped(on.code)}",
        fields=(field,),
        write=write,
        caution=lines.caution(on.card),
    )


def hold_blank(on: OnCard) -> Blank:
    """Why is the piece held, or released?"""
    station, asking = on.station, on.station.asking()
    is_held = on.card.judged.standing.state.held is not None

    def write(said: Mapping[str, str]) -> str:
        if not said["why"]:
            raise Refusal(Code.BAD_USAGE, "A reason is needed: say why.")
        book, now = station.book, station.now()
        if is_held:
            act = release(Release(**asking, piece=on.code, why=said["why"]), book=book, now=now)
        else:
            act = hold(Hold(**asking, piece=on.code, why=said["why"]), book=book, now=now)
        return on.said(act)

    return Blank(
        title=f"{'Release' if is_held else 'Hold'} {grouped(on.code)}",
        fields=(Field(name="why", hint="what was seen, by whom"),),
        write=write,
    )


def back_blank(on: OnCard) -> Blank:
    """What comes back, and from which job?"""
    station, asking = on.station, on.station.asking()
    is_box = on.card.judged.standing.state.width_nm is None
    drawn_by = next((act.job for act in on.card.acts if act.job and not act.is_reversed), None)

    def write(said: Mapping[str, str]) -> str:
        with mending("job"):
            job = read_job(said["job"])
        with mending("amount"):
            amount, size = _coming_back(said["amount"], on.card, is_box=is_box)
        request = Back(**asking, piece=on.code, job=job, amount=amount, size=size)
        found = back(request, book=station.book, now=station.now())
        shop = on.card.view.shop
        shown = show_size(*size, shop.system) if size else ""
        return " · ".join(text_done.came_back(found, shop, shown))

    hint = "a number" if is_box else "0.4m, or 300x1000 of a part cut off already"
    return Blank(
        title=f"Back on {grouped(on.code)}",
        fields=(
            Field(name="amount", hint=hint),
            Field(
                name="job",
                hint="scan or type its code",
                value=grouped(drawn_by) if drawn_by else "",
                takes=Letter.JOB,
            ),
        ),
        write=write,
    )


def _coming_back(
    text: str, card: Card, *, is_box: bool
) -> tuple[int | None, tuple[int, int] | None]:
    system = card.view.shop.system
    if is_box:
        return parse_count(text), None
    if "x" in text.casefold() or "\N{MULTIPLICATION SIGN}" in text:
        return None, typed.size(text, system)
    return typed.length(text, system), None


_MEASURES = {
    "length": "12.4m",
    "outside": "diameter, 96mm",
    "round": "tape round it, 302mm",
    "mass": "4.1 kg, core and all",
}


def count_blank(on: OnCard) -> Blank:
    """What was measured? One line is enough."""
    station, asking = on.station, on.station.asking()
    form = on.card.judged.standing.state.form
    hints = {"number": "how many are in the box"} if form == "box" else dict(_MEASURES)
    if form == "offcut":
        hints = {"length": "along the roll, 1.2m"}

    def write(said: Mapping[str, str]) -> str:
        given = {name: text for name, text in said.items() if text}
        if len(given) != 1:
            raise Refusal(Code.BAD_USAGE, "Fill in one line: one measurement is one count.")
        request = Count(**asking, piece=on.code, **_measured(*given.popitem(), on.card))
        found = count(request, book=station.book, now=station.now())
        return " · ".join(text_done.counted(found, on.card.view.shop))

    return Blank(
        title=f"Count {grouped(on.code)}",
        fields=tuple(Field(name=name, hint=hint) for name, hint in hints.items()),
        write=write,
        caution=lines.caution(on.card),
    )


def _measured(name: str, text: str, card: Card) -> dict[str, Any]:
    system = card.view.shop.system
    with mending(name):
        match name:
            case "number":
                return {"number": parse_count(text)}
            case "length":
                return {"length_nm": typed.length(text, system)}
            case "mass":
                return {"mass_mg": parse_mass(text, system)}
            case _:
                return {f"{name}_nm": parse_length(text, system)}


def write_label(station: Station, code: str) -> str:
    """Write the piece's label to the station's folder, and say where."""
    path = station.labels / f"{code}.pdf"
    with suppress(OSError):  # a folder that cannot be made is found out when the file is written
        station.labels.mkdir(parents=True, exist_ok=True)
    found = labels([code], book=station.book, now=station.now())
    save(found, path, size=station.label_size, dpi=station.dpi)
    return f"label of {grouped(code)} is in {path}"


def undo_last(station: Station, code: str, last: Act) -> str:
    """Reverse the act that was seen to be the last."""
    request = Undo(**station.asking(), piece=code, act=last.id)
    undone = undo(request, book=station.book, now=station.now())
    return f"undone: {last.kind} of {grouped(undone.piece)}"
