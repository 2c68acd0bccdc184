"""Labels as files: what a printer and a scanner get out of them."""

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image, ImageChops

from stockroom.errors import Code, Refusal
from stockroom.labels.files import pdf_bytes, png_bytes, save, save_on_sheets, sheets_of
from stockroom.labels.paper import A4, LETTER, Paper, read_grid
from stockroom.labels.picture import draw
from stockroom.labels.size import LabelSize
from stockroom.units import MM
from tests.labels.builders import CODE, USUAL, a_label
from tests.labels.seeing import black, pages, scanned

RESOLUTIONS = (203, 300)
OTHER = "R0001215"


@pytest.mark.parametrize("dpi", RESOLUTIONS)
def test_a_png_is_the_picture_and_knows_its_resolution(dpi: int) -> None:
    """A print of it without scaling is the label in its true size."""
    image = draw(a_label(), USUAL, dpi)

    with Image.open(BytesIO(png_bytes(image, dpi))) as read:
        assert read.mode == "1"
        assert read.tobytes() == image.tobytes()
        assert [round(value) for value in read.info["dpi"]] == [dpi, dpi]
        assert scanned(read) == [(CODE.encode(), "H", "1")]


@pytest.mark.parametrize("dpi", RESOLUTIONS)
def test_a_pdf_page_is_the_label_dot_for_dot(dpi: int) -> None:
    """A second program renders the page at the printer's resolution to the very same dots."""
    images = [draw(a_label(code=code), USUAL, dpi) for code in (CODE, OTHER)]

    rendered = pages(pdf_bytes(images, dpi), dpi)

    assert [page.size for page in rendered] == [image.size for image in images]
    for page, image in zip(rendered, images, strict=True):
        assert ImageChops.difference(page, image.convert("L")).getbbox() is None
    assert [scanned(page)[0][0].decode() for page in rendered] == [CODE, OTHER]


@pytest.mark.parametrize("name", ["label.png", "label.pdf", "LABEL.PDF"])
def test_a_reprint_is_the_same_bytes(name: str, tmp_path: Path) -> None:
    """The same label written twice is the same file, and it leaves nothing else behind."""
    once, again = tmp_path / name, tmp_path / f"again-{name}"

    save([a_label()], once, size=USUAL, dpi=203)
    save([a_label()], again, size=USUAL, dpi=203)

    assert once.read_bytes() == again.read_bytes()
    assert sorted(tmp_path.iterdir()) == sorted([once, again])


def test_several_labels_are_the_pages_of_one_pdf(tmp_path: Path) -> None:
    """In the order in which they were asked for, replacing what was there."""
    target = tmp_path / "labels.pdf"
    target.write_bytes(b"old")

    save([a_label(), a_label(code=OTHER), a_label()], target, size=USUAL, dpi=300)

    read = [scanned(page)[0][0].decode() for page in pages(target.read_bytes(), 300)]
    assert read == [CODE, OTHER, CODE]


@pytest.mark.parametrize(
    ("count", "name", "why"),
    [
        (2, "two.png", "holds one label, not 2"),
        (1, "label.gif", r"\.png or a \.pdf"),
        (1, "label", r"\.png or a \.pdf"),
        (0, "none.pdf", "no label to write"),
    ],
)
def test_a_file_that_cannot_hold_the_labels_is_refused(
    count: int, name: str, why: str, tmp_path: Path
) -> None:
    """One sentence with what to do instead, and no file."""
    with pytest.raises(Refusal, match=why) as refused:
        save([a_label()] * count, tmp_path / name, size=USUAL, dpi=203)

    assert refused.value.code == Code.BAD_LABEL
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["missing/label.png", "folder.pdf", "x" * 300 + ".png"])
def test_a_place_that_cannot_be_written_is_refused_and_left_as_it_was(
    name: str, tmp_path: Path
) -> None:
    """A missing folder, a folder of that name, a name too long: nothing is left half written."""
    (tmp_path / "folder.pdf").mkdir()

    with pytest.raises(Refusal, match=r"cannot be written: .*; choose another place") as refused:
        save([a_label()], tmp_path / name, size=USUAL, dpi=203)

    assert refused.value.code == Code.FILE_UNWRITABLE
    assert [path.name for path in tmp_path.iterdir()] == ["folder.pdf"]


def test_labels_of_one_run_may_have_long_and_hostile_names(tmp_path: Path) -> None:
    """A name from outside is never markup, and a full sheet of them is still read."""
    target = tmp_path / "labels.pdf"
    labels = [
        a_label(title=title) for title in ("[/]<b>", "\u202e\u05e4\u05dc\u05dd", "y" * 10_000, "")
    ]

    save(labels, target, size=USUAL, dpi=203)

    read = [scanned(page) for page in pages(target.read_bytes(), 203)]
    assert read == [[(CODE.encode(), "H", "1")]] * len(labels)


SMALL = LabelSize(50, 25)


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
@pytest.mark.parametrize(("start", "count"), [(1, 14), (5, 14), (14, 2)])
def test_on_a_sheet_every_label_lies_where_the_grid_says(
    paper: Paper, start: int, count: int
) -> None:
    """A second program finds each picture within a dot of its corner, and nothing elsewhere."""
    dpi = 300
    grid = read_grid("2x7", paper, margin_nm=(10 * MM, 12 * MM))
    image = draw(a_label(), SMALL, dpi)

    sheets = pages(pdf_bytes(sheets_of([image] * count, dpi, grid, SMALL, start), dpi), dpi)

    assert len(sheets) == -(-(start - 1 + count) // 14)
    for number in range(len(sheets) * 14):
        corner = grid.corner_nm(number % 14, SMALL)
        x, y = (round(nm * dpi / 25.4 / MM) for nm in corner)
        found = sheets[number // 14].crop((x - 2, y - 2, x + image.width + 2, y + image.height + 2))
        is_used = start - 1 <= number < start - 1 + count
        assert scanned(found) == ([(CODE.encode(), "H", "1")] if is_used else [])
        assert black(found) == (black(image) if is_used else 0)
    assert sum(black(sheet) for sheet in sheets) == count * black(image)


@pytest.mark.parametrize("dpi", RESOLUTIONS)
@pytest.mark.parametrize("position", [1, 12, 24])
def test_on_a_sheet_a_label_is_its_picture_dot_for_dot(position: int, dpi: int) -> None:
    """As on a page of its own, from the first label of the sheet to the last."""
    grid = read_grid("3x8", A4)
    image = draw(a_label(), USUAL, dpi)
    (sheet,) = pages(pdf_bytes(sheets_of([image], dpi, grid, USUAL, position), dpi), dpi)
    x, y = (round(nm * dpi / 25.4 / MM) for nm in grid.corner_nm(position - 1, USUAL))

    found = sheet.crop((x, y, x + image.width, y + image.height))

    assert ImageChops.difference(found, image.convert("L")).getbbox() is None


def test_sheets_are_the_same_bytes_again_and_the_count_is_said(tmp_path: Path) -> None:
    """Thirty labels from the twentieth position on are three sheets of 24."""
    once, again = tmp_path / "sheets.pdf", tmp_path / "again.pdf"
    labels, grid = [a_label()] * 30, read_grid("3x8", A4)

    sheets = [
        save_on_sheets(labels, path, size=USUAL, dpi=203, grid=grid, start=20)
        for path in (once, again)
    ]

    assert sheets == [3, 3]
    assert len(pages(once.read_bytes(), 72)) == 3
    assert once.read_bytes() == again.read_bytes()


@pytest.mark.parametrize(
    ("name", "size", "start", "count", "why"),
    [
        ("sheet.png", USUAL, 1, 1, r"to a \.pdf file, not to 'sheet\.png'"),
        ("sheet.pdf", LabelSize(100, 50), 1, 1, "does not fit on labels"),
        ("sheet.pdf", USUAL, 25, 1, "has the positions 1 to 24, not 25"),
        ("sheet.pdf", USUAL, 1, 0, "no label to write"),
    ],
)
def test_a_sheet_that_cannot_be_is_refused_without_a_file(
    name: str, size: LabelSize, start: int, count: int, why: str, tmp_path: Path
) -> None:
    """A start beyond the end, a label larger than its place, a picture file, and nothing at all."""
    grid = read_grid("3x8", A4)

    with pytest.raises(Refusal, match=why) as refused:
        save_on_sheets(
            [a_label()] * count, tmp_path / name, size=size, dpi=203, grid=grid, start=start
        )

    assert refused.value.code is Code.BAD_LABEL
    assert list(tmp_path.iterdir()) == []
