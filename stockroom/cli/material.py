"""`stockroom material`: films and supplies as they are bought, and the maker's limits."""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stockroom.cli.desk import Desk, enters, name, note, reads, sets_up
from stockroom.cli.offering import offers
from stockroom.cli.options import Core, Kind, Wall, Why, Width
from stockroom.cli.saying import Answer
from stockroom.errors import Code, Refusal
from stockroom.film.kinds import parse_finish, parse_kind
from stockroom.film.limits import CountedFrom
from stockroom.film.roll import parse_layer
from stockroom.plan.terms import TERMS
from stockroom.units.money import parse_money
from stockroom.units.typed import parse_length, parse_thickness

if TYPE_CHECKING:
    from stockroom.books.values import Material

app = typer.Typer(help="Films and supplies as they are bought.")

Name = Annotated[str, typer.Argument(metavar="NAME", help="As people in the shop call it.")]
Thickness = Annotated[
    str | None,
    typer.Option(
        metavar="THICKNESS", help="As wound: film, adhesive and liner, like 50um or 2mil."
    ),
]
Applied = Annotated[
    str | None, typer.Option(metavar="THICKNESS", help="As applied, without the liner.")
]
Layer = Annotated[
    list[str] | None,
    typer.Option(
        metavar="THICKNESS:DENSITY", help="One for each layer, like 50.8um:1390; gives the mass."
    ),
]
Shelf = Annotated[
    str | None, typer.Option(metavar="SPAN", help="The maker's shelf limit, like 24mo.")
]
Counted = Annotated[
    CountedFrom | None, typer.Option(help="From when the maker counts it; made if not given.")
]
Wound = Annotated[
    str | None, typer.Option(metavar="SPAN", help="How long it may stay wound, like 90d.")
]
Opened = Annotated[
    str | None,
    typer.Option("--after-opening", metavar="SPAN", help="How long a liquid keeps once open."),
]
Energy = Annotated[
    str | None,
    typer.Option(metavar="ENERGY", help="How heat ages it, like 60kJ/mol or Q10 2."),
]
Curl = Annotated[
    str | None, typer.Option(metavar="DIAMETER", help="The tightest circle it may curl to.")
]
Bond = Annotated[
    str | None, typer.Option(metavar="J/M2", help="What its adhesive holds, like 0.5.")
]
Modulus = Annotated[str | None, typer.Option(metavar="GPA", help="How stiff it is, like 4.5.")]
Cost = Annotated[
    str | None, typer.Option(metavar="AMOUNT", help="Price of one roll or box, like 480.")
]
Finish = Annotated[
    str | None,
    typer.Option(metavar="FINISH", help="clear, coloured, metallic or frosted: must lots match?"),
]
Supplier = Annotated[str | None, typer.Option(metavar="NAME", help="Who sells it.")]
Lead = Annotated[
    str | None, typer.Option(metavar="SPAN", help="From the order to the shelf, like 7d.")
]
Spread = Annotated[
    str | None,
    typer.Option("--lead-spread", metavar="SPAN", help="How much that varies, like 3d."),
]
Pack = Annotated[
    str | None, typer.Option(metavar="N", help="Rolls or boxes that are sold together.")
]
Least = Annotated[str | None, typer.Option(metavar="N", help="The fewest that are sold.")]
Expect = Annotated[
    str | None,
    typer.Option(
        metavar="NxLENGTH", help="What a month will draw while it is new: 8x3m, eight times 3 m."
    ),
]
Breaks = Annotated[
    str | None,
    typer.Option(
        "--price-breaks", metavar="N:AMOUNT", help="What one costs from so many on: 10:460 20:440."
    ),
]
Series = Annotated[
    str | None,
    typer.Option(metavar="NAME", help="What it is called in every width: one film in two widths."),
]
Note = Annotated[str | None, typer.Option("--note", metavar="TEXT", help="A remark.")]


SHEET = {
    "width": Width,
    "thickness": Thickness,
    "applied": Applied,
    "core": Core,
    "wall": Wall,
    "layer": Layer,
    "shelf": Shelf,
    "counted_from": Counted,
    "wound": Wound,
    "opened": Opened,
    "energy": Energy,
    "curl": Curl,
    "bond": Bond,
    "modulus": Modulus,
    "cost_unit": Cost,
    "finish": Finish,
    "supplier": Supplier,
    "lead": Lead,
    "spread": Spread,
    "pack": Pack,
    "least": Least,
    "expect": Expect,
    "breaks": Breaks,
    "series": Series,
    "remark": Note,
}
"""The options that say what the maker's sheet and the invoice do."""


@app.command()
@enters
@offers(SHEET)
def add(desk: Desk, called: Name, kind: Kind, typed: dict[str, Any]) -> Answer:
    """Enter a material; what the maker's sheet does not say stays unknown."""
    from stockroom.work.setup import AddMaterial, add_a_material

    request = AddMaterial(
        name=name(called),
        kind=parse_kind(kind),
        limits=_said(typed, _LIMITS),
        figures=_said(typed, _FIGURES),
        terms=_said(typed, TERMS),
        **_facts(desk, typed),
        **desk.asked(),
    )
    return _shown(desk, add_a_material(request, book=desk.book, now=desk.now))


@app.command()
@sets_up
@offers(SHEET)
def change(desk: Desk, called: Name, typed: dict[str, Any], why: Why = "") -> Answer:
    """Change what was entered; pieces keep what they came with, a limit counts from now on.

    A limit, a figure or what is said of buying it is taken away by "none".
    """
    from stockroom.work.setup import ChangeMaterial, change_a_material

    changes = _facts(desk, typed)
    limits = _none_is_nothing(_said(typed, _LIMITS))
    figures = _none_is_nothing(_said(typed, _FIGURES))
    terms = _none_is_nothing(_said(typed, TERMS))
    if not (changes or limits or figures or terms):
        raise Refusal(Code.BAD_USAGE, "Nothing to change was named: see `material change --help`.")
    request = ChangeMaterial(
        name=name(called),
        changes=changes,
        limits=limits,
        figures=figures,
        terms=terms,
        why=note(why),
        **desk.asked(),
    )
    return _shown(desk, change_a_material(request, book=desk.book, now=desk.now))


@app.command("list")
@reads
def list_(desk: Desk) -> Answer:
    """List every material."""
    from stockroom.lines import answers, text_setup
    from stockroom.work.look import materials

    known = materials(desk.book, now=desk.now)
    return Answer(
        values={"materials": [answers.material(one) for one in known]},
        lines=text_setup.materials(known, desk.shop, desk.width),
    )


@app.command()
@reads
def show(desk: Desk, called: Name) -> Answer:
    """Show everything entered for one material."""
    from stockroom.work.look import material

    return _shown(desk, material(desk.book, name(called), now=desk.now))


def _shown(desk: Desk, one: "Material") -> Answer:
    from stockroom.lines import answers, text_setup

    return Answer(values=answers.material(one), lines=text_setup.material(one, desk.shop))


_LIMITS, _FIGURES = ("shelf", "wound", "opened"), ("energy", "curl", "bond", "modulus")


def _said(typed: Mapping[str, Any], names: Sequence[str]) -> Mapping[str, str]:
    return {name: typed[name] for name in names if typed[name] is not None}


def _none_is_nothing(typed: Mapping[str, str]) -> Mapping[str, str]:
    return {name: "" if text.strip().lower() == "none" else text for name, text in typed.items()}


def _facts(desk: Desk, typed: Mapping[str, Any]) -> dict[str, Any]:
    """The sizes and the other facts that were typed, by the names the material has them under."""
    system = desk.shop.system
    length, thick = partial(parse_length, system=system), partial(parse_thickness, system=system)
    read: dict[str, tuple[str, Callable[[Any], object]]] = {
        "width": ("width_nm", length),
        "thickness": ("thickness_nm", thick),
        "applied": ("applied_nm", thick),
        "core": ("core_inside_nm", length),
        "wall": ("core_wall_nm", length),
        "layer": ("layers", lambda texts: tuple(parse_layer(text, system) for text in texts)),
        "counted_from": ("counted_from", lambda event: event.value),
        "finish": ("finish", lambda text: parse_finish(text).value),
        "cost_unit": ("cost_minor", partial(parse_money, currency=desk.shop.currency)),
        "remark": ("note", note),
    }
    return {
        field: understood(typed[option])
        for option, (field, understood) in read.items()
        if typed[option] not in (None, [])
    }
