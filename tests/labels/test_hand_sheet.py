"""Sheets to fill by hand: what is printed, and the room that is left for a pen."""

import pytest
import zxingcpp
from PIL import Image

from stockroom.codes.own import Letter, build, numbers
from stockroom.labels.hand_sheet import Column, HandSheet, Row, hand_sheet
from stockroom.labels.paper import A4, LETTER, Paper
from tests.labels.seeing import black, pages, printed

CODES = [build(Letter.ROLL, number) for number in numbers(Letter.ROLL, 0, 12)]
COLUMNS = (Column("piece", 40), Column("film", 60), Column("taken", 30), Column("who", 30))
PAPERS = pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)


def a_sheet(codes: list[str], film: str = "silver mirror 20") -> HandSheet:
    """A sheet with a row for each code, and two columns to fill."""
    rows = tuple(Row(code, ((film, "1524 mm"),)) for code in codes)
    notes = ("what to type later",)
    return HandSheet(
        title="van 2", subtitle="Quay Street", columns=COLUMNS, row_mm=16.5, rows=rows, notes=notes
    )


@PAPERS
def test_every_piece_is_there_once_in_order_with_its_code(paper: Paper) -> None:
    """More pieces than a page holds go on with the next; each page has its heads and notes."""
    content = hand_sheet(a_sheet(CODES), paper)

    found = [[one.text for one in _top_down(page)] for page in pages(content, 200)]
    words = printed(content)

    assert [code for page in found for code in page] == CODES
    assert len(words) == 2
    for number, page in enumerate(words, 1):
        assert f"page {number} of 2" in page
        assert all(head.head in page for head in COLUMNS)
        assert "what to type later" in page
    assert "R000 002J" in words[0]
    assert "silver mirror 20" in words[0]


@PAPERS
def test_the_rest_of_a_page_is_room_for_what_nobody_foresaw(paper: Paper) -> None:
    """Also with no piece at all there is one page, ruled to its end."""
    empty, one = (pages(hand_sheet(a_sheet(codes), paper), 100) for codes in ([], CODES[:1]))

    assert len(empty) == len(one) == 1
    width, height = empty[0].size
    for part in (0.5, 0.7, 0.8):
        strip = (width // 2, int(part * height), width // 2 + 40, int(part * height) + 70)
        assert black(empty[0].point(_ink).crop(strip)) > 0


@PAPERS
def test_hostile_names_stay_in_their_column(paper: Paper) -> None:
    """A long name is cut with an ellipsis before the next column begins."""
    content = hand_sheet(a_sheet(CODES[:1], "w" * 10_000 + "\x1b[2J"), paper)
    (page,) = pages(content, 100)
    margin = 12 / 25.4 * 100
    width = page.width - 2 * margin
    begins = int(margin + width * 100 / 160)

    taken = page.point(_ink).crop((begins + 2, 150, begins + int(width * 25 / 160), 190))

    assert "…" in printed(content)[0]
    assert black(taken) == 0


def test_a_reprint_is_the_same_bytes() -> None:
    """What is printed depends on what is said and on nothing else."""
    assert hand_sheet(a_sheet(CODES), A4) == hand_sheet(a_sheet(list(CODES)), A4)


def _ink(grey: int) -> int:
    """Anything darker than light grey is ink."""
    return 0 if grey < 200 else 255


def _top_down(page: Image.Image) -> list[zxingcpp.Barcode]:
    found = zxingcpp.read_barcodes(page)
    return sorted(found, key=lambda one: one.position.top_left.y)
