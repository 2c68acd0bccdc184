"""Labels as a person asks for them: one a page, on sheets, two a roll."""

import re
from pathlib import Path

import pypdfium2
import pytest
import zxingcpp
from PIL import Image

from tests.cli.conftest import Shop


def codes_in(path: Path) -> list[list[str]]:
    """What a scanner reads on each page, from the top left."""
    with pypdfium2.PdfDocument(path) as document:
        images = [page.render(scale=150 / 72).to_pil() for page in document]
    found = [zxingcpp.read_barcodes(image) for image in images]
    return [[one.text for one in sorted(page, key=_place)] for page in found]


def _place(one: zxingcpp.Barcode) -> tuple[int, int]:
    corner = one.position.top_left
    return round(corner.y / 30), corner.x


def test_pieces_places_and_jobs_have_labels(shop: Shop, tmp_path: Path) -> None:
    """One a page, in the order asked for."""
    named = ("roll", "place", "clinic", "box")
    target = tmp_path / "labels.pdf"

    shop.lines("label", *(shop.codes[name] for name in named), "-o", str(target))

    assert codes_in(target) == [[shop.codes[name]] for name in named]


def test_a_roll_gets_two_labels_and_the_rest_one(shop: Shop, tmp_path: Path) -> None:
    """One for the core, one for the end of the box."""
    roll, box = shop.codes["roll"], shop.codes["box"]
    target = tmp_path / "labels.pdf"

    values = shop.values("label", "--twice", roll, box, "-o", str(target))

    assert values["codes"] == [roll, roll, box]
    assert codes_in(target) == [[roll], [roll], [box]]


def test_a_large_label_carries_its_code_three_times(shop: Shop, tmp_path: Path) -> None:
    """On 100x150 whatever is torn off, one is left."""
    target = tmp_path / "label.png"

    shop.lines("label", "{roll}", "-o", str(target), "--size", "100x150")

    assert len(codes_in_picture(target)) == 3


def codes_in_picture(path: Path) -> list[str]:
    """What a scanner reads on a picture."""
    with Image.open(path) as image:
        return [one.text for one in zxingcpp.read_barcodes(image.convert("L"))]


def test_labels_go_on_sheets_from_the_first_free_place(shop: Shop, tmp_path: Path) -> None:
    """The sheet is filled up, then the next is begun; what is printed says how."""
    roll, box = shop.codes["roll"], shop.codes["box"]
    target = tmp_path / "sheets.pdf"
    asked = ("label", roll, box, roll, "-o", str(target), "--sheet", "A4", "--start", "23")

    said = shop.lines(*asked)
    values = shop.values(*asked)

    assert said == [
        f"{target}: 3 labels, 2 sheets of a4, 3x8, from label 23; print it at its own size"
    ]
    on = [values[name] for name in ("sheet", "grid", "start", "sheets", "dpi")]
    assert on == ["a4", "3x8", 23, 2, 300]
    assert codes_in(target) == [[roll, box], [roll]]


def test_margins_and_pitch_of_a_sheet_are_typed_as_lengths(shop: Shop, tmp_path: Path) -> None:
    """In the book's units, or with their own."""
    target = tmp_path / "sheets.pdf"
    grid = ("--sheet", "letter", "--grid", "2x7", "--size", "60x30", "--margin", "0.5inx20mm")

    shop.lines("label", "{roll}", "-o", str(target), *grid, "--pitch", "96x34")

    assert codes_in(target) == [[shop.codes["roll"]]]


SHEET = ("--sheet", "a4")


@pytest.mark.parametrize(
    ("words", "why"),
    [
        ((*SHEET, "--start", "25"), "has the positions 1 to 24, not 25"),
        ((*SHEET, "--start", "0"), "has the positions 1 to 24, not 0"),
        ((*SHEET, "--start", "-3"), "start"),
        ((*SHEET, "--size", "100x50"), "does not fit on labels of"),
        ((*SHEET, "--grid", "24"), "like 3x8"),
        ((*SHEET, "--margin", "120x10"), "measure the sheet again"),
        ((*SHEET, "--pitch", "nan"), "nan"),
        (("--sheet", "a5"), "one of a4, letter"),
        (("--start", "5"), "--start is for sheets of labels: add --sheet a4"),
        (("--grid", "3x8"), "--grid is for sheets of labels"),
        (("--size", "100x100"), "no shape words fit on"),
        (("--dpi", "600"), "203 or 300"),
    ],
)
def test_what_cannot_be_printed_is_one_line_and_no_file(
    shop: Shop, tmp_path: Path, words: tuple[str, ...], why: str
) -> None:
    """Each is not understood, and nothing is written."""
    target = tmp_path / "labels.pdf"

    ran = shop.run("label", "{roll}", "-o", str(target), *words)

    assert (ran.code, ran.out) == (2, "")
    assert why in ran.err
    assert len(ran.err.splitlines()) == 1
    assert not target.exists()


def test_a_code_of_the_wall_card_is_sent_to_its_command(shop: Shop, tmp_path: Path) -> None:
    """The card is one page for all."""
    ran = shop.run("label", "K000001T", "-o", str(tmp_path / "label.pdf"))

    assert ran.code == 2
    assert "print that with `wall-card`" in ran.err


def test_the_wall_card_is_written_for_both_papers(shop: Shop, tmp_path: Path) -> None:
    """27 codes on one page."""
    for paper in ("a4", "letter"):
        target = tmp_path / f"{paper}.pdf"

        values = shop.values("wall-card", "-o", str(target), "--paper", paper)

        assert values == {"file": str(target), "paper": paper}
        assert [len(page) for page in codes_in(target)] == [27]


def test_a_van_sheet_has_the_codes_of_what_is_there(shop: Shop, tmp_path: Path) -> None:
    """As a script reads it, as a scanner reads it, and in words."""
    target = tmp_path / "van.pdf"
    asked = ("van-sheet", "--place", "a1", "-o", str(target))

    values = shop.values(*asked)

    assert values["codes"] == [shop.codes["roll"], shop.codes["held"]]
    assert codes_in(target) == [values["codes"]]
    assert shop.lines(*asked) == [f"{target}: A1, 2 pieces"]
    assert shop.lines("van-sheet", "-o", str(target)) == [f"{target}: Away, empty lines"]


def test_what_the_sheets_say_to_type_later_works_as_it_stands(shop: Shop, tmp_path: Path) -> None:
    """Each command of the notes, with what somebody wrote by hand in the place of its capitals."""
    before = ("--at", "2026-11-20T16:40")
    shop.lines("out", "{roll}", "--to", "van 2", *before)
    shop.lines("out", "{box}", "--to", "van 2", *before)
    written = {"WHO": "Ole", "JOB": "{clinic}", "LEFT": "12m", "TAPE": "470mm", "TAKEN": "1m"}
    written |= {
        "N": "3",
        "DAY": "2026-11-21",
        "LENGTH": "1m",
        "WASTE": "10cm",
        "TIME": "2026-11-22",
    }
    done: list[str] = []
    for sheet in ("van-sheet", "power-cut-sheet"):
        target = tmp_path / f"{sheet}.pdf"
        shop.lines(sheet, "-o", str(target))
        with pypdfium2.PdfDocument(target) as document:
            said = document[0].get_textpage().get_text_range().replace("\r\n", " ")
        for command in re.findall(r"stockroom ([a-z]+ [^;.]+?)(?= of goods|[;.]| Without|$)", said):
            words = re.sub(r" \(or --round TAPE\)", "", command).split()
            piece = "{box}" if "--number" in words or words[0] == "take" else "{roll}"
            left = {"LEFT": "60"} if "--number" in words else {}
            shop.lines(*(({"PIECE": piece} | written | left).get(word, word) for word in words))
            done.append(words[0])

    assert done == ["in", "in", "cut", "take", "cut"]
    assert shop.values("piece", "{roll}")["left_mm"] == 10_000
    assert shop.values("piece", "{box}")["left_count"] == 57


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("van-sheet", "--place", "nowhere"), 4),
        (("van-sheet", "--paper", "a3"), 2),
        (("power-cut-sheet", "--paper", "\x1b[2J"), 2),
        (("wall-card", "--paper", ""), 2),
    ],
)
def test_a_page_that_cannot_be_is_refused_without_a_file(
    shop: Shop, tmp_path: Path, words: tuple[str, ...], code: int
) -> None:
    """One line on stderr, without control characters."""
    target = tmp_path / "page.pdf"

    ran = shop.run(*words, "-o", str(target))

    assert (ran.code, ran.out, target.exists()) == (code, "", False)
    assert "\x1b" not in ran.err
    assert shop.run(words[0], "-o", str(tmp_path / "page.png")).code == 2


def test_a_power_cut_sheet_is_one_page_of_lines(shop: Shop, tmp_path: Path) -> None:
    """The same page each time."""
    once, again = tmp_path / "once.pdf", tmp_path / "again.pdf"

    for target in (once, again):
        shop.lines("power-cut-sheet", "-o", str(target))

    assert codes_in(once) == [[]]
    assert once.read_bytes() == again.read_bytes()
