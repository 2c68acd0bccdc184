"""A piece's card in words."""

from stockroom.books.pen import writing
from stockroom.books.values import ActDraft, Asked, MoveDraft
from stockroom.film.roll import Layer
from stockroom.lines import bench, rack
from stockroom.lines import card as lines
from stockroom.units import MM, M
from stockroom.work.look import Card, piece
from tests.builders import Station


def the_card(station: Station, code: str) -> Card:
    return piece(station.book, code, now=station.now)


def test_the_title_names_the_piece_its_film_and_its_lot(station: Station) -> None:
    """An unknown lot is unknown."""
    code = station.roll(lot="L-7")

    assert lines.title(the_card(station, code)) == "R000 002J  clear 50, 1500 mm · lot L-7"
    assert lines.title(the_card(station, station.box())).endswith("snap blades · lot ?")


def test_a_piece_that_has_ended_says_so_instead_of_a_verdict(station: Station) -> None:
    """What is no more needs no hand."""
    code = station.roll()
    assert lines.verdict(the_card(station, code)) == "● USE"

    station.finish(code)
    assert lines.verdict(the_card(station, code)) == "no more: finished"


def test_the_bar_is_full_when_nothing_was_cut_and_never_empty_before_the_end(
    station: Station,
) -> None:
    """The last centimetre still shows."""
    code = station.roll(place=station.place("B2", "South"))
    assert lines.left(the_card(station, code)) == ("30 m", "█" * 24, "at B2, zone South")

    station.cut(code, 29 * M)
    amount, bar, _ = lines.left(the_card(station, code))
    assert (amount, bar) == ("1 m of 30 m", "█" + "·" * 23)

    station.cut(code, 1 * M)
    assert lines.left(the_card(station, code))[1] == "·" * 24


def test_boxes_and_offcuts_say_what_they_hold(station: Station) -> None:
    """A number of so many; a size."""
    box = station.box(12)
    station.take(box, 2)

    assert lines.left(the_card(station, box))[0] == "10 pcs of 12 pcs"
    assert lines.left(the_card(station, station.offcut()))[0].endswith("2000 mm")


def test_each_rule_has_a_bar_up_to_its_limit_and_past_it(station: Station) -> None:
    """A rule without a limit has none; of a curl the smaller circle is the longer bar."""

    def bars(made: str) -> list[str]:
        return [one.bar for one in lines.why(the_card(station, station.roll(made=made)))]

    assert bars("2025-11-25") == ["", "██████······│", "", "██████████··│"]
    assert bars("2024-11-25")[:3] == ["", "████████████│", ""]
    assert bars("2024-10-25")[:3] == ["", "████████████│█", ""]
    assert bars("2016-11-25")[:3] == ["", "████████████│████", ""]


def test_each_rule_stands_with_its_sign_and_its_sentence(station: Station) -> None:
    """What cannot be known is a question mark."""
    why = lines.why(the_card(station, station.box()))

    assert [(one.rule, one.text) for one in why] == [
        ("● held", "nothing held"),
        ("? shelf", "no limit entered"),
    ]


def test_the_facts_name_every_date_that_is_known_and_what_is_not(station: Station) -> None:
    """And what the piece is made like."""
    station.material("layered", layers=(Layer(50.0, 1390.0),))
    code = station.roll(material="layered", made=None, received="2026-10", shipped="2026-09-01")
    dates, made_like = lines.facts(the_card(station, code))

    assert dates == "made ? · received 2026-10 · shipped 2026-09-01"
    assert made_like == (
        "age at least 85 d · as wound 75 µm · core 76.2 mm inside · 3.1 kg of film"
    )
    offcut = station.offcut()
    assert "cut from R000" in lines.facts(the_card(station, offcut))[1]


def test_a_narrow_light_roll_needs_no_caution_and_a_wide_one_does(station: Station) -> None:
    """It defers to local rules and the maker's sheet."""
    narrow = station.roll(material=station.material("narrow", width_nm=500 * MM))

    assert lines.caution(the_card(station, narrow)) == ""
    assert "the maker's sheet come first" in lines.caution(the_card(station, station.roll()))


def test_an_act_says_when_what_how_much_was_left_and_by_whom(station: Station) -> None:
    """The same words ask whether it is to be undone."""
    code = station.roll()
    station.cut(code, 1 * M)
    card = the_card(station, code)

    assert lines.act_cells(card.acts[0], card, ()) == (
        "2026-11-25 09:00",
        "cut 1 m for sample",
        "29 m",
        "Ida M.",
    )
    assert lines.undo_question(card.acts[0], card, ()) == (
        "undo what Ida M. did 2026-11-25 09:00: cut 1 m for sample?"
    )


def test_a_piece_that_is_out_says_where_since_when_and_who_took_it(station: Station) -> None:
    """Wherever a place would be named; its flaws are among its facts."""
    code = station.roll(place=station.place("B2", "South"))
    station.flaw(code, 2 * M, "splice")
    sets = {"out_to": "van 2", "out_since": station.now.isoformat(), "out_by": "Tom R."}
    asked = Asked(**station.asked())
    with writing(station.book, asked, now=station.now, pieces=[code]) as pen:
        move = MoveDraft(code=code, kind="out", sets=sets)
        pen.append(ActDraft(kind="out", at=station.now, moves=(move,)))
    card = the_card(station, code)

    assert lines.left(card)[2] == "OUT to van 2 since 2026-11-25 09:00, Tom R."
    assert rack.cells(card.judged, card.view)[5] == "OUT van 2"
    assert bench.piece(card).endswith("OUT van 2")
    assert "flaws" in lines.facts(card)[2]
