"""Goods and jobs of the invented shop: what comes in, what goes back to a supplier, kits, bottles."""

from typing import Any

from stockroom.demo.cells import length, makes, parts
from stockroom.demo.desk import Desk
from stockroom.demo.distances import date_before, day_of
from stockroom.demo.line import Line
from stockroom.units.money import parse_money
from stockroom.work.begin import Fail, OpenBottle, PutInUse, fail, open_bottle, put_in_use
from stockroom.work.bottle import Mix, mix
from stockroom.work.delivery import ReceiveAll, SetLine, receive_all, set_line
from stockroom.work.goods_line import Line as Goods
from stockroom.work.jobs import CloseJob, OpenJob, close_or_reopen, open_job
from stockroom.work.kit import ListParts, PartBack, TakePart, list_parts, part_back, take_part
from stockroom.work.receive import Receive, receive
from stockroom.work.sendback import Credit, SendBack, credit, send_back
from stockroom.work.setup import ChangeMaterial, change_a_material


def opens(desk: Desk, line: Line) -> None:
    """A job is opened."""
    request = OpenJob(
        **desk.asked(line),
        name=line["name"],
        site=line["site"],
        kind=line["kind"],
        on_day=day_of(line["on"], desk.today).isoformat(),
    )
    desk.name([line["job"]], [open_job(request, book=desk.book, now=line.at).code])


def closes(desk: Desk, line: Line) -> None:
    """A job is closed."""
    job = desk.codes[line["job"] or line["for"]]
    request = CloseJob(**desk.asking(line["by"]), job=job)
    close_or_reopen(request, book=desk.book, now=line.at)


def reopens(desk: Desk, line: Line) -> None:
    """A job is opened again."""
    request = CloseJob(**desk.asked(line), job=desk.codes[line["for"]], reopen=True)
    close_or_reopen(request, book=desk.book, now=line.at)


def comes_in(desk: Desk, line: Line) -> None:
    """Rolls or a box are received, or typed as a line of a delivery that is received later."""
    goods = _goods(desk, line)
    if "delivery" in line.more:
        typed = SetLine(**desk.asked(line), line=Goods(**goods), name=line.more["delivery"])
        set_line(typed, book=desk.book, now=line.at)
        return
    done = receive(Receive(**desk.asked(line), **goods), book=desk.book, now=line.at)
    desk.name(line["piece"].split(), done.codes)


def delivery_comes_in(desk: Desk, line: Line) -> None:
    """All lines of a delivery are received; the pieces are named in their order."""
    request = ReceiveAll(**desk.asked(line), name=line["for"])
    done = receive_all(request, book=desk.book, now=line.at)
    desk.name(line["piece"].split(), done.codes)


def goes_back(desk: Desk, line: Line) -> None:
    """A piece goes back to its supplier."""
    request = SendBack(
        **desk.asking(line["by"]), piece=desk.code(line), why=line["note"], claim=line.more["claim"]
    )
    send_back(request, book=desk.book, now=line.at)


def is_credited(desk: Desk, line: Line) -> None:
    """The supplier settles a claim."""
    money = parse_money(line["amount"], desk.currency)
    request = Credit(**desk.asked(line), piece=desk.code(line), credit_minor=money)
    credit(request, book=desk.book, now=line.at)


def becomes_kit(desk: Desk, line: Line) -> None:
    """The parts of a kit are listed."""
    request = ListParts(**desk.asked(line), piece=desk.code(line), parts=tuple(parts(line)))
    list_parts(request, book=desk.book, now=line.at)


def part_goes_out(desk: Desk, line: Line) -> None:
    """A part is taken out of a kit."""
    request = TakePart(**_part(desk, line))
    take_part(request, book=desk.book, now=line.at)


def part_comes_back(desk: Desk, line: Line) -> None:
    """A part is in its kit again."""
    request = PartBack(**_part(desk, line))
    part_back(request, book=desk.book, now=line.at)


def is_mixed(desk: Desk, line: Line) -> None:
    """Bottles are filled from one that is on the shelf."""
    names, _ = makes(line)
    request = Mix(
        **desk.asked(line),
        material=desk.standing(line).material.name,
        contents=line.more["contents"],
        hazard=line.more["hazard"],
        keeps=line.more["keeps"],
        bottles=len(names),
        source=desk.code(line),
        place=line.more["place"],
    )
    desk.name(names, mix(request, book=desk.book, now=line.at).codes)


def is_opened(desk: Desk, line: Line) -> None:
    """A bottle is opened; one of several is a piece of its own from then on."""
    request = OpenBottle(
        **desk.asked(line),
        piece=desk.code(line),
        keeps=line.more["keeps"],
        place=line.more["place"],
    )
    _name(desk, line, open_bottle(request, book=desk.book, now=line.at).piece)


def is_put_in_use(desk: Desk, line: Line) -> None:
    """A tool is put in use."""
    request = PutInUse(**desk.asked(line), piece=desk.code(line))
    _name(desk, line, put_in_use(request, book=desk.book, now=line.at).piece)


def fails(desk: Desk, line: Line) -> None:
    """A tool in use fails."""
    request = Fail(**desk.asked(line), piece=desk.code(line), why=line["note"])
    fail(request, book=desk.book, now=line.at)


def _name(desk: Desk, line: Line, code: str) -> None:
    names, _ = makes(line)
    desk.name(names, [code])


def gets_a_limit(desk: Desk, line: Line) -> None:
    """The maker names another limit for a material."""
    request = ChangeMaterial(
        **desk.asking(line["by"]), name=line["piece"], limits=line.more, why=line["note"]
    )
    change_a_material(request, book=desk.book, now=line.at)


def _goods(desk: Desk, line: Line) -> dict[str, Any]:
    more, amount = line.more, line["amount"]
    dates = {"made": line["made"], "received": line["received"]}
    dates |= {name: more.get(name, "") for name in ("shipped", "printed")}
    return {
        **{name: date_before(text, desk.today) if text else None for name, text in dates.items()},
        "material": line["material"],
        "length_nm": None if amount.isdecimal() else length(amount),
        "number": int(amount) if amount.isdecimal() else None,
        "pieces": int(line["pieces"] or 1),
        "lot": line["lot"] or None,
        "width_nm": length(more.get("width", "")),
        "core_inside_nm": length(more.get("core", "")),
        "cost_minor": parse_money(more["cost"], desk.currency) if "cost" in more else None,
        "ink": more.get("ink"),
        "place": line["place"] or None,
        "job": desk.codes[more["job"]] if "job" in more else None,
        "owner": more.get("owner", "ours"),
        "damaged": more.get("damaged"),
    }


def _part(desk: Desk, line: Line) -> dict[str, Any]:
    asked = desk.asked(line)
    return {**asked, "piece": desk.code(line), "part": line["for"], "number": int(line["amount"])}
