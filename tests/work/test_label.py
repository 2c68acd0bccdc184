"""A label holds only what no later act can change."""

from datetime import timedelta

import pytest

from stockroom.books.catalog import material_named
from stockroom.books.pen import writing
from stockroom.books.values import ActDraft, Asked, MoveDraft
from stockroom.codes.card import Order, code_of
from stockroom.codes.own import Letter
from stockroom.errors import Code
from stockroom.film.kinds import Kind
from stockroom.film.roll import Layer
from stockroom.labels.picture import Label
from stockroom.units import MM, M
from stockroom.work.label import labels
from stockroom.work.setup import ChangeMaterial, change_a_material
from tests.builders import FILM, ON_ONE_ENGINE, Station, refused


def test_a_roll_says_what_it_is_and_how_old(station: Station) -> None:
    """Width, lot, the dates that are known, and the maker's shelf date."""
    station.material(limits={"shelf": "24mo"})
    roll = station.roll(material=FILM, lot="L-204", made="2026-06-01", printed="2026-11", ink="uv")

    label = labels([roll], book=station.book, now=station.now)[0]

    assert (label.code, label.title, label.facts) == (roll, FILM, (("lot", "L-204"),))
    assert "1500" in label.detail
    assert dict(label.dates) == {
        "made": "2026-06-01",
        "received": "2026-11-25",
        "printed": "2026-11",
        "shelf": "2028-06-01",
    }


def test_an_unknown_lot_and_an_unknown_limit_are_said_or_left_out(station: Station) -> None:
    """A question mark for what somebody should find out, nothing for what nobody promised."""
    roll = station.roll(made=None)

    label = labels([roll], book=station.book, now=station.now)[0]

    assert label.facts == (("lot", "?"),)
    assert [name for name, _ in label.dates] == ["received"]


def test_a_reprint_is_the_same_label(station: Station) -> None:
    """Whatever was done to the piece and its material since."""
    station.material(limits={"shelf": "24mo"})
    place = station.place()
    roll = station.roll(material=FILM, lot="L-204")
    sheet = station.cut(roll, 2 * M, offcuts=((700 * MM, M),)).offcuts[0].code
    box = station.box(120)
    codes = (roll, sheet, box)
    before = labels(codes, book=station.book, now=station.now)

    station.wait(days=1)
    change = ChangeMaterial(**station.asked(name=FILM, limits={"shelf": "6mo"}, why="new sheet"))
    change_a_material(change, book=station.book, now=station.now)
    station.put(roll, place)
    station.cut(roll, 3 * M)
    station.count(sheet, length_nm=900 * MM)
    station.take(box, 7)
    station.hold(box)

    assert labels(codes, book=station.book, now=station.now + timedelta(days=9)) == before


# 1.5 m of a film of 50 um at 1390 kg/m3 and 25 um at 1000: 0.14175 kg a metre, worked by hand; its
# core, 76.2 mm inside, 5 mm of wall, 1.5 m of paper tube at 700 kg/m3: 1.3393 kg.
LAYERS = (Layer(50, 1390), Layer(25, 1000))


@pytest.mark.parametrize(
    ("width_nm", "length_nm", "mass", "caution"),
    [
        (1_500 * MM, 30 * M, "5.6 kg full", "two people"),
        (1_200 * MM, 30 * M, "4.5 kg full", ""),
        (1_200 * MM, 123 * M, "15 kg full", "two people"),
    ],
)
@ON_ONE_ENGINE
def test_a_roll_says_what_it_weighs_full_and_who_lifts_it(
    station: Station, width_nm: int, length_nm: int, mass: str, caution: str
) -> None:
    """Two people from 15 kg or above 1.2 m: common practice, no source."""
    station.material(layers=LAYERS)
    roll = station.roll(material=FILM, width_nm=width_nm, length_nm=length_nm)
    station.cut(roll, 2 * M)

    label = labels([roll], book=station.book, now=station.now)[0]

    assert (label.mass, label.caution) == (mass, caution)


def test_a_wide_roll_of_unknown_mass_is_for_two_and_a_narrow_one_says_nothing(
    station: Station,
) -> None:
    """What is not known is not invented; an offcut says only when it takes two."""
    wide, narrow = station.roll(), station.roll(width_nm=900 * MM)
    sheet = station.cut(wide, 2 * M, offcuts=((700 * MM, M),)).offcuts[0].code
    codes = (wide, narrow, sheet, station.box(5))

    found = labels(codes, book=station.book, now=station.now)

    assert [label.caution for label in found] == ["two people", "", "", ""]
    assert {label.mass for label in found} == {""}


def test_places_and_jobs_have_labels_of_their_own(station: Station) -> None:
    """Name and site, but nothing that a later act could change."""
    place, job = station.place("bay A1"), station.job("clinic", site="Mill Lane 4")

    found = labels((job, place), book=station.book, now=station.now)

    assert found == (
        Label(code=job, title="clinic", detail="Mill Lane 4"),
        Label(code=place, title="bay A1"),
    )


def born(station: Station, letter: Letter, material: str, **sets: object) -> str:
    """A piece that came into the book with these facts."""
    with writing(station.book, Asked(**station.asked()), now=station.now, letters=[letter]) as pen:
        made_of = material_named(pen.connection, material, station.now).id
        code = pen.new_code(letter)
        facts = {"material_id": made_of, "received": "2026-11-24", **sets}
        move = MoveDraft(code=code, kind="receive", delta=1_000, sets=facts)
        pen.append(ActDraft(kind="receive", at=station.now, moves=(move,)))
    return code


BOTTLE = {
    "form": "box",
    "contents": "soap 1:40",
    "hazard": "slippery floors",
    "mixed": "2026-11-24",
    "keeps_days": 7,
}


@pytest.mark.parametrize(
    ("given", "facts"),
    [
        ({}, (("mixed", "2026-11-24"), ("use by", "2026-12-01"))),
        ({"keeps_days": None}, (("mixed", "2026-11-24"), ("use by", "?"))),
    ],
)
@ON_ONE_ENGINE
def test_a_mixed_bottle_says_what_is_in_it_and_how_long(
    station: Station, given: dict[str, object], facts: tuple[tuple[str, str], ...]
) -> None:
    """Contents, what to mind, the day it was mixed and the last day to use it."""
    station.material("soap", Kind.LIQUID)
    code = born(station, Letter.BOX, "soap", **BOTTLE | given)

    label = labels([code], book=station.book, now=station.now)[0]

    assert label == Label(code=code, title="soap 1:40", facts=facts, warning="slippery floors")


@ON_ONE_ENGINE
def test_a_laminated_print_says_both_lots_and_its_artwork(station: Station) -> None:
    """A tile is told from its neighbour; an unknown second lot is a question mark."""
    station.material()
    print_of = {"artwork": "tram", "tile": "2/4", "is_laminated": True, "lot": "L-1"}
    code = born(station, Letter.OFFCUT, FILM, form="offcut", width_nm=700 * MM, **print_of)

    label = labels([code], book=station.book, now=station.now)[0]

    assert label.facts == (("lot", "L-1 + ?"),)
    assert ("artwork", "tram 2/4") in label.dates


def test_the_codes_of_the_wall_card_have_no_labels(station: Station) -> None:
    """The card is one page, printed by a command of its own."""
    with refused(station.book, Code.BAD_LABEL, "print that with `wall-card`"):
        labels([code_of(Order.OK)], book=station.book, now=station.now)


@pytest.mark.parametrize(
    ("code", "why"),
    [("R0009994", Code.NO_PIECE), ("J000122S", Code.NO_JOB), ("P000124X", Code.NO_PLACE)],
)
@pytest.mark.parametrize("place", [0, 1])
def test_a_code_nobody_has_gets_no_label(
    station: Station, place: int, code: str, why: Code
) -> None:
    """Nor do the others that were asked for with it."""
    codes = [station.roll()]
    codes.insert(place, code)

    with refused(station.book, why):
        labels(codes, book=station.book, now=station.now)
