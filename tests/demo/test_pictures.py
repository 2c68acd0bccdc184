"""README's pictures: drawn from the shop, the same each time, and naming nobody else's machine."""

import re
from collections.abc import Callable
from datetime import date
from html import unescape
from pathlib import Path
from xml.etree import ElementTree

import pytest
from textual import constants

from scripts.drawing import FRIDAY_PRINT, NEW_GREY, PICTURES, TODAY, WARD, drawn
from stockroom.books.opening import open_book
from stockroom.codes.own import grouped
from tests.demo.shops import copied

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "demo" / "pictures"
NAMESPACE = "http://www.w3.org/2000/svg"


def words(picture: str) -> str:
    """What stands in a picture, without its shapes."""
    return unescape(re.sub(r"<style>.*?</style>|<[^>]*>", "", picture, flags=re.DOTALL)).replace(
        "\N{NO-BREAK SPACE}", " "
    )


def test_readme_shows_every_picture_there_is() -> None:
    """None is missing, and none is left over."""
    shown = re.findall(
        r"\]\(demo/pictures/([\w-]+)\.svg\)", (ROOT / "README.md").read_text("utf-8")
    )

    assert sorted(shown) == sorted(PICTURES)
    assert sorted(path.stem for path in FOLDER.iterdir()) == sorted(PICTURES)


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_is_whole_and_asks_nobody_for_anything(name: str) -> None:
    """No font, no style and no picture comes from elsewhere."""
    picture = (FOLDER / f"{name}.svg").read_text("utf-8")

    assert ElementTree.fromstring(picture).tag == f"{{{NAMESPACE}}}svg"  # noqa: S314 - our own file
    assert re.findall(r"\w+://[^\s\"']+", picture) == [NAMESPACE]
    assert "url(" not in re.sub(r"url\(#[\w-]+\)", "", picture)


def test_the_pictures_show_the_shop_as_it_is_generated_now() -> None:
    """Where the story changed, its codes did, and the pictures are to be drawn anew."""
    shown = {name: words((FOLDER / f"{name}.svg").read_text("utf-8")) for name in PICTURES}

    assert all(grouped(FRIDAY_PRINT) in shown[name] for name in ("today", "card", "rack"))
    assert all(grouped(code) in shown["bench"] for code in (NEW_GREY, WARD))


async def test_the_bench_is_drawn_alike_and_asks_for_the_older_roll(
    shop_of: Callable[[date], Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The second of README's moments, on the screen; looking writes nothing."""
    monkeypatch.setattr(constants, "TEXTUAL_ANIMATIONS", "none")
    monkeypatch.delenv("NO_COLOR", raising=False)
    book = open_book(str(copied(shop_of(TODAY), tmp_path)))

    first, second = [await drawn(book, PICTURES["bench"]) for _ in range(2)]
    book.close()

    assert first == second
    assert "older sound roll R000 004F at A2" in words(first)
