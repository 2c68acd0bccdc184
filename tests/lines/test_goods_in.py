"""What is typed for goods that come in, and how it reads."""

import pytest

from stockroom.errors import Refusal
from stockroom.film.kinds import Kind
from stockroom.lines import goods_in as lines
from stockroom.lines.goods_in import Known
from stockroom.units import FOOT, INCH, MM, M
from stockroom.work import look
from stockroom.work.goods_line import Line, Typed, typed
from stockroom.work.setup import settings
from tests.builders import FILM, Station


@pytest.fixture
def known(station: Station) -> Known:
    """A shop that knows a film, a print medium, blades, and one place."""
    station.material()
    station.material("clear 80")
    station.material("white cast", Kind.PRINT_VINYL, width_nm=None)
    station.material("snap blades", Kind.BLADE)
    station.place("A1")
    return Known(
        shop=settings(station.book, now=station.now)[0],
        materials=look.materials(station.book, now=station.now),
        places=look.places(station.book, now=station.now),
        shows_money=True,
    )


def a_line(known: Known, **given: object) -> Typed:
    """A line as the book would have it."""
    return typed(Line(**given), {one.id: one for one in known.materials})  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("field", "text", "kept"),
    [
        ("material", "white", {"material": "white cast"}),
        ("material", "CLEAR 50", {"material": FILM}),
        ("pieces", "3", {"pieces": 3}),
        ("pieces", "", {"pieces": 1}),
        ("length", "25m", {"length_nm": 25 * M}),
        ("length", "100 ft", {"length_nm": 100 * FOOT}),
        ("width", "1370", {"width_nm": 1_370 * MM}),
        ("made", "2025-03", {"made": "2025-03"}),
        ("made", "", {"made": None}),
        ("price", "480", {"cost_minor": 48_000}),
        ("place", "a1", {"place": "a1"}),
        ("ink", "Latex", {"ink": "latex"}),
        ("owner", "", {"owner": "ours"}),
        ("owner", "Cl", {"owner": "client"}),
        ("owner", "sample", {"owner": "sample"}),
        ("damaged", "crushed core", {"damaged": "crushed core"}),
        ("damaged", "", {"damaged": None}),
    ],
)
def test_a_field_is_read_as_people_type_it(
    known: Known, field: str, text: str, kept: dict[str, object]
) -> None:
    """Nothing typed is not known, except that one piece is one piece."""
    assert lines.read(field, text, known) == kept


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("material", "clear", "Several are like “clear”: clear 50 · clear 80"),
        ("material", "gold", "No material is like “gold”"),
        ("length", "25", "two ways"),
        ("pieces", "0", "not a number of pieces"),
        ("made", "soon", "soon"),
        ("job", "shelter", "shelter"),
        ("owner", "s", "“s” is no owner: use ours, client, supplier, sample"),
    ],
)
def test_what_cannot_be_read_is_refused(known: Known, field: str, text: str, says: str) -> None:
    """In a sentence that says what to do."""
    with pytest.raises(Refusal, match=says):
        lines.read(field, text, known)


def test_only_fields_that_mean_something_are_there(known: Known) -> None:
    """Goods have no width, clear film no ink; what changed its kind forgets them."""
    fields = {
        name: lines.fields_of(lines.material_like(name, known.materials))
        for name in (FILM, "white cast", "snap blades")
    }

    assert "ink" in fields["white cast"]
    assert "ink" not in fields[FILM]
    assert {"number"} == set(fields["snap blades"]) - set(fields[FILM])
    blades = lines.material_like("blades", known.materials)
    before = Line(material="snap blades", length_nm=1, width_nm=2, ink="uv", pieces=2, lot="L")
    assert lines.trimmed(before, blades) == Line(material="snap blades", pieces=2, lot="L")


def test_what_is_asked_is_what_is_needed_and_what_would_be_missed(known: Known) -> None:
    """A width the material says is not asked for; the day its age counts from is."""
    assert lines.asked_of(a_line(known, material=FILM)) == (
        "material", "pieces", "length", "lot", "made", "place",
    )  # fmt: skip
    assert "width" in lines.asked_of(a_line(known, material="white cast"))


def test_a_usual_size_is_said_as_the_trade_says_it_and_is_exact(known: Known) -> None:
    """Widths in inches or millimetres, lengths in feet or yards."""
    said = [
        lines.presets_said(name, a_line(known, material=material))
        for material in (FILM, "white cast")
        for name in ("width", "length")
    ]

    assert said == [
        "a 36 in   b 48 in   c 60 in   d 72 in",
        "a 100 ft",
        "a 1370 mm   b 1520 mm",
        "a 10 yd   b 25 yd   c 50 yd",
    ]
    for words, size in (("72 in", 72 * INCH), ("10 yd", 30 * FOOT), ("1370 mm", 1_370 * MM)):
        assert lines.preset_words(size) == words
        assert lines.read("width", words, known) == {"width_nm": size}


def test_a_line_says_what_it_lacks_and_then_what_stays_unknown(known: Known) -> None:
    """The price only where money may be seen."""
    assert lines.cells(1, a_line(known, material=FILM), known)[2:] == ("?", "▲ length")
    whole = a_line(known, material=FILM, length_nm=25 * M, pieces=2, lot="L", made="2026")
    assert lines.cells(2, whole, known)[1:] == (
        f"2 \N{MULTIPLICATION SIGN} {FILM}", "25 m", "? place, price",
    )  # fmt: skip
    hidden = Known(shop=known.shop, materials=(), places=(), shows_money=False)
    assert lines.cells(2, whole, hidden)[3] == "? place"
    theirs = a_line(known, material=FILM, length_nm=25 * M, owner="client", damaged="wet")
    assert lines.cells(3, theirs, known)[1] == f"{FILM}, a client's, damaged"
    assert (lines.shown(theirs, known)["owner"], lines.shown(whole, known)["owner"]) == (
        "client",
        "",
    )


def test_what_the_material_says_stands_in_its_field_with_its_source(known: Known) -> None:
    """Nobody types it, and everybody sees where it comes from."""
    one = a_line(known, material=FILM, place=known.places[0].code, length_nm=25 * M)

    assert lines.given(one, known)["width"] == "1500 mm, of the material"
    assert lines.given(one, known)["received"] == "today"
    assert (lines.shown(one, known)["place"], lines.shown(one, known)["length"]) == ("A1", "25 m")
