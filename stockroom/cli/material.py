"""`stockroom material`: films and supplies as they are bought, and the maker's limits."""

from collections.abc import Mapping
from functools import partial
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stockroom.cli.desk import Desk, enters, maybe, name, note, reads, sets_up
from stockroom.cli.options import Core, Kind, Wall, Why, Width
from stockroom.cli.saying import Answer
from stockroom.errors import Code, Refusal
from stockroom.film.kinds import parse_kind
from stockroom.film.limits import CountedFrom
from stockroom.film.roll import parse_layer
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
Note = Annotated[str | None, typer.Option("--note", metavar="TEXT", help="A remark.")]


@app.command()
@enters
def add(
    desk: Desk,
    called: Name,
    kind: Kind,
    width: Width = None,
    thickness: Thickness = None,
    applied: Applied = None,
    core: Core = None,
    wall: Wall = None,
    layer: Layer = None,
    shelf: Shelf = None,
    counted_from: Counted = None,
    wound: Wound = None,
    energy: Energy = None,
    curl: Curl = None,
    bond: Bond = None,
    modulus: Modulus = None,
    cost_unit: Cost = None,
    remark: Note = None,
) -> Answer:
    """Enter a material; what the maker's sheet does not say stays unknown."""
    from stockroom.work.setup import AddMaterial, add_a_material

    request = AddMaterial(
        name=name(called),
        kind=parse_kind(kind),
        limits=_said(shelf=shelf, wound=wound),
        figures=_said(energy=energy, curl=curl, bond=bond, modulus=modulus),
        **_sizes(desk, width, thickness, applied, core, wall),
        **_rest(desk, layer, counted_from, cost_unit, remark),
        **desk.asked(),
    )
    return _shown(desk, add_a_material(request, book=desk.book, now=desk.now))


@app.command()
@sets_up
def change(
    desk: Desk,
    called: Name,
    width: Width = None,
    thickness: Thickness = None,
    applied: Applied = None,
    core: Core = None,
    wall: Wall = None,
    layer: Layer = None,
    shelf: Shelf = None,
    counted_from: Counted = None,
    wound: Wound = None,
    energy: Energy = None,
    curl: Curl = None,
    bond: Bond = None,
    modulus: Modulus = None,
    cost_unit: Cost = None,
    remark: Note = None,
    why: Why = "",
) -> Answer:
    """Change what was entered; pieces keep what they came with, a limit counts from now on.

    A limit or a figure of "none" takes it away.
    """
    from stockroom.work.setup import ChangeMaterial, change_a_material

    changes = _sizes(desk, width, thickness, applied, core, wall)
    changes |= _rest(desk, layer, counted_from, cost_unit, remark)
    limits = _none_is_nothing(_said(shelf=shelf, wound=wound))
    figures = _none_is_nothing(_said(energy=energy, curl=curl, bond=bond, modulus=modulus))
    if not (changes or limits or figures):
        raise Refusal(Code.BAD_USAGE, "Nothing to change was named: see `material change --help`.")
    request = ChangeMaterial(
        name=name(called),
        changes=changes,
        limits=limits,
        figures=figures,
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


def _said(**typed: str | None) -> Mapping[str, str]:
    return {name: text for name, text in typed.items() if text is not None}


def _none_is_nothing(typed: Mapping[str, str]) -> Mapping[str, str]:
    return {name: "" if text.strip().lower() == "none" else text for name, text in typed.items()}


def _sizes(
    desk: Desk,
    width: str | None,
    thickness: str | None,
    applied: str | None,
    core: str | None,
    wall: str | None,
) -> dict[str, Any]:
    """The sizes that were typed."""
    length = partial(parse_length, system=desk.shop.system)
    thick = partial(parse_thickness, system=desk.shop.system)
    sizes = {
        "width_nm": maybe(width, length),
        "thickness_nm": maybe(thickness, thick),
        "applied_nm": maybe(applied, thick),
        "core_inside_nm": maybe(core, length),
        "core_wall_nm": maybe(wall, length),
    }
    return {key: value for key, value in sizes.items() if value is not None}


def _rest(
    desk: Desk,
    layer: list[str] | None,
    counted_from: CountedFrom | None,
    cost_unit: str | None,
    remark: str | None,
) -> dict[str, Any]:
    """The other facts that were typed."""
    facts = {
        "layers": tuple(parse_layer(text, desk.shop.system) for text in layer or ()) or None,
        "counted_from": None if counted_from is None else counted_from.value,
        "cost_minor": maybe(cost_unit, partial(parse_money, currency=desk.shop.currency)),
        "note": maybe(remark, note),
    }
    return {key: value for key, value in facts.items() if value is not None}
