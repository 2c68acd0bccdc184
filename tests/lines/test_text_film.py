"""What is said of prints, laminates, winding, trials and flaws."""

from stockroom.books.values import Shop
from stockroom.film.kinds import Ink
from stockroom.lines import cautions, text_film, words
from stockroom.lines.text_acts import act_words
from stockroom.units import MM, M, System
from stockroom.work import look
from stockroom.work.winding import Core
from tests.builders import Station

BY = "\N{MULTIPLICATION SIGN}"
CORE = Core(inside_nm=50 * MM, wall_nm=5 * MM)


def _said(station: Station, piece: str | None = None, shop: Shop | None = None) -> str:
    last = look.log(station.book, now=station.now)[0]
    return act_words(last, shop or Shop(), (), piece=piece)


def test_a_print_is_said_for_the_roll_and_for_itself(station: Station) -> None:
    """The roll lost a length and a leader; the print was born with a size."""
    roll, job = station.blank(), station.job()
    done = station.print(roll, 4 * M, job=job, leader_nm=500 * MM, warm_c=30.0)

    assert _said(station) == "print 4 m, leader 500 mm for J000 0019"
    assert _said(station, done.code) == f"printed, 1500 {BY} 4000 mm, of R000 002J, wound at 30 °C"
    us = Shop(system=System.US)
    assert _said(station, done.code, us).endswith("wound at 86 °F")
    station.print(roll, 4 * M)
    assert _said(station) == "print 4 m"


def test_a_laminate_is_said_for_each_of_its_films(station: Station) -> None:
    """Which lies over which."""
    film, over = station.blank(), station.clear()
    done = station.laminate(film, over, 4 * M)

    assert _said(station) == "laminate 4 m under R000 003H"
    assert _said(station, over) == "laid over R000 002J, 4 m"
    assert _said(station, done.code) == f"laminated, 1500 {BY} 4000 mm, of R000 002J and R000 003H"


def test_winding_trials_and_flaws(station: Station) -> None:
    """As short as they are."""
    roll = station.roll(made="2026-11-05")

    station.rewind(roll)
    assert _said(station) == "rewind"
    station.rewind(roll, core=CORE, face="out")
    assert _said(station) == "rewind, on a core of 50 mm inside, face out"
    station.rewind(roll, core=Core(in_tube=True))
    assert _said(station) == "rewind, in a tube"
    station.lay_flat(roll)
    assert _said(station) == "lay flat, 20 d wound before"
    station.try_adhesion(roll, passed=True)
    assert _said(station) == "adhesion trial passed"
    station.try_adhesion(roll, passed=False)
    assert _said(station) == "adhesion trial failed: held"
    station.flaw(roll, 1_250 * MM, "splice")
    assert _said(station) == "flaw at 1.25 m: splice"


def test_what_was_printed_asks_for_a_label_and_says_what_to_mind(station: Station) -> None:
    """The flaw in its length, the waste, the age of the film."""
    roll = station.blank(made="2024-10-01")
    station.flaw(roll, 1 * M)
    done = station.print(roll, 4 * M, artwork="shelter side", tile="2/4", leader_nm=500 * MM)
    standing = look.piece(station.book, done.code, now=station.now).judged.standing

    made, left, waste, flaw, warning = text_film.printed(done, standing, Shop())

    assert made == (
        "print 4 m, leader 500 mm: "
        f"C000 001H, 1500 {BY} 4000 mm, white cast, printed shelter side 2/4: it needs a label"
    )
    assert (left, waste) == ("R000 002J: 25.5 m left", "R000 002J: waste 0.75 m²")
    assert flaw == "R000 002J: flaw, splice at 1 m"
    assert warning.startswith("R000 002J: ▲ TEST: ")
    assert warning.endswith("adhesion trial")


def test_what_was_laminated_says_what_became_of_both_films(station: Station) -> None:
    """The print that went in, the rest of it, the laminate, and how long the ink still rests."""
    printed = station.print(station.blank(), 4 * M, ink=Ink.SOLVENT).code
    done = station.laminate(printed, station.clear(), 1 * M)
    standing = look.piece(station.book, done.code, now=station.now).judged.standing

    made, left, rest, warning, over = text_film.laminated(done, standing, Shop())

    assert made.endswith("white cast, printed, laminated: it needs a label")
    assert left == f"{words.code(printed)}: nothing left"
    assert (
        rest
        == f"{words.code(printed)}: its rest is {words.code(done.film.rest[0])}: it needs a label"
    )
    assert "◷ WAIT: rests 24 h after solvent ink" in warning
    assert over == "R000 003H: 29 m left"


def test_a_card_says_what_only_prints_and_laminates_have(station: Station) -> None:
    """Nothing for a plain roll; what is not known reads so."""
    blank = station.blank()
    code = station.laminate(station.print(blank, 4 * M).code, station.clear(), 4 * M).code
    station.flaw(code, 1 * M, "dent")
    station.rewind(code, face="in")

    def facts(of: str) -> list[tuple[str, str]]:
        standing = look.piece(station.book, of, now=station.now).judged.standing
        return text_film.facts(standing, Shop())

    assert facts(blank) == []
    assert facts(code) == [
        ("artwork", "?, latex ink"),
        ("laminate lot", "?"),
        ("wound with", "its face in"),
        ("flaws", "dent at 1 m"),
    ]


def test_a_fresh_print_is_ventilated_by_its_ink() -> None:
    """An unknown ink may be a solvent one."""
    said = {ink: cautions.printing(ink) is not None for ink in Ink}

    assert said == {
        Ink.SOLVENT: True,
        Ink.ECO_SOLVENT: True,
        Ink.LATEX: False,
        Ink.UV: False,
        Ink.UNKNOWN: True,
    }
