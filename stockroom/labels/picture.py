"""A label as a picture in printer dots: one bit a dot, black is 0."""

from dataclasses import dataclass

from PIL import Image, ImageDraw

from stockroom.codes.own import grouped, is_code
from stockroom.errors import Code, Refusal, clean_text
from stockroom.labels.layout import Words, lay_out
from stockroom.labels.lettering import settable
from stockroom.labels.sheet import sheet_of
from stockroom.labels.size import LabelSize
from stockroom.labels.symbol import symbol


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """What a label says of a piece: only what no later act can change.

    `dates` are pairs like ("made", "2025-03-01"), in the order in which they are read.
    """

    code: str
    title: str
    width_text: str
    lot: str = "?"
    dates: tuple[tuple[str, str], ...] = ()
    caution: str = ""

    def __post_init__(self) -> None:
        if not is_code(self.code):
            raise Refusal(
                Code.MISREAD, f"{clean_text(self.code, 40)} is not a code, so no label carries it."
            )


def draw(label: Label, size: LabelSize, dpi: int) -> Image.Image:
    """The label as it is printed, dot for dot; the same label is always the same picture."""
    sheet = sheet_of(size, dpi)
    layout = lay_out(words_of(label), sheet)
    image = Image.new("1", (sheet.width, sheet.height), 1)
    pen = ImageDraw.Draw(image)
    for mark, baseline in layout.marks:
        x = mark.x - mark.face.ink(mark.text).left
        pen.text((x, baseline), mark.text, font=mark.face.font, fill=0, anchor="ls")
    image.paste(symbol(label.code, sheet.module), (0, layout.symbol_y))
    return image


def words_of(label: Label) -> Words:
    """What is set on the label: cleaned, and `?` where nothing is known."""
    return Words(
        code=grouped(label.code),
        title=settable(label.title) or "?",
        width=settable(label.width_text),
        lot=settable(label.lot) or "?",
        dates=tuple((settable(name), settable(value)) for name, value in label.dates),
        caution=settable(label.caution),
    )
