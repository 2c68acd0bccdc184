"""The wall card: every sign is there, large, and read by a scanner."""

import pytest
import zxingcpp

from stockroom.codes.card import SIGNS, code_of
from stockroom.labels.paper import A4, LETTER, Paper
from stockroom.labels.wall_card import wall_card
from tests.labels.seeing import pages, printed

NAMES = {1: "Ida M.", 2: "Wilhelmina of the long and winding name", 7: "\x1b[/] \u05e9"}
PAPERS = pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
LEAST_MM, QUIET_MODULES = 20, 4


@PAPERS
def test_a_scanner_reads_every_sign_on_the_one_page(paper: Paper) -> None:
    """At 100 dots an inch, which is coarser than any camera at arm's length."""
    (page,) = pages(wall_card(NAMES, "Quay Street", paper), 100)

    found = zxingcpp.read_barcodes(page)

    assert sorted(one.text for one in found) == sorted(code_of(sign) for sign in SIGNS)
    assert {one.ec_level for one in found} == {"H"}


@PAPERS
def test_the_codes_are_large_and_keep_their_quiet_zone(paper: Paper) -> None:
    """At least 20 mm a side, four white modules around (ISO/IEC 18004), all on the page."""
    dpi = 200
    (page,) = pages(wall_card(NAMES, "Quay Street", paper), dpi)

    for one in zxingcpp.read_barcodes(page):
        corner = one.position
        left, top, right = corner.top_left.x, corner.top_left.y, corner.top_right.x
        bottom = corner.bottom_left.y
        free = QUIET_MODULES * (right - left) / 21 - 2
        around = page.crop((left - free, top - free, right + free, bottom + free))
        within = page.crop((left - 2, top - 2, right + 3, bottom + 3))
        assert (right - left) * 25.4 / dpi >= LEAST_MM
        assert (bottom - top) * 25.4 / dpi >= LEAST_MM
        assert around.histogram()[0] == within.histogram()[0]


@PAPERS
def test_every_sign_has_its_word(paper: Paper) -> None:
    """People are their digit and their name; without a name, the digit alone."""
    words = printed(wall_card(NAMES, "Quay Street", paper))[0]

    for word in ("Quay Street", "OK", "undo", "finished", "spoiled", "out", "in", "back", "point"):
        assert word in words
    assert "1  Ida M." in words or "1 Ida M." in words
    assert "Wilhelmin" in words
    assert "winding" not in words
    assert "\x1b" not in words


def test_a_reprint_is_the_same_bytes_and_other_names_are_not() -> None:
    """A card can be compared with the one that hangs."""
    once = wall_card(NAMES, "Quay Street", A4)

    assert once == wall_card(dict(NAMES), "Quay Street", A4)
    assert once != wall_card({}, "Quay Street", A4)
