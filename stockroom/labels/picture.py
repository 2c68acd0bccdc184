"""A label as a picture in printer dots: one bit a dot, black is 0."""

from dataclasses import dataclass

from PIL import Image, ImageDraw

from stockroom.codes.own import grouped, is_code
from stockroom.errors import Code, Refusal, clean_text
from stockroom.labels.blank import blank_of
from stockroom.labels.groups import Pairs
from stockroom.labels.layout import Layout, Words, lay_out
from stockroom.labels.lettering import settable
from stockroom.labels.size import LabelSize
from stockroom.labels.standing import lay_out_standing
from stockroom.labels.symbol import symbol


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """What a label says: only what no later act can change.

    `detail` stands below the title: the width of a film, the site of a job. `facts` and `dates`
    are pairs like ("made", "2025-03-01"), in the order in which they are read; a small label may
    leave dates and `mass` out. `warning` is set whole or not at all.
    """

    code: str
    title: str
    detail: str = ""
    facts: Pairs = ()
    dates: Pairs = ()
    mass: str = ""
    caution: str = ""
    warning: str = ""

    def __post_init__(self) -> None:
        if not is_code(self.code):
            raise Refusal(
                Code.MISREAD, f"{clean_text(self.code, 40)} is not a code, so no label carries it."
            )


def draw(label: Label, size: LabelSize, dpi: int) -> Image.Image:
    """The label as it is printed, dot for dot; the same label is always the same picture."""
    layout = layout_of(label, size, dpi)
    image = Image.new("1", size.dots(dpi), 1)
    pen = ImageDraw.Draw(image)
    for mark, baseline in layout.marks:
        x = mark.x - mark.face.ink(mark.text).left
        pen.text((x, baseline), mark.text, font=mark.face.font, fill=0, anchor="ls")
    for spot in layout.spots:
        image.paste(symbol(label.code, spot.module), (spot.x, spot.y))
    return image


def layout_of(label: Label, size: LabelSize, dpi: int) -> Layout:
    """Where everything on the label goes."""
    words = _words_of(label)
    if size.stands:
        return lay_out_standing(words, size, dpi)
    return lay_out(words, blank_of(size, dpi))


def _words_of(label: Label) -> Words:
    """What is set on the label: cleaned, and `?` where nothing is known."""
    return Words(
        code=grouped(label.code),
        title=settable(label.title) or "?",
        detail=settable(label.detail),
        facts=_known(label.facts),
        dates=_known(label.dates),
        mass=settable(label.mass),
        caution=settable(label.caution),
        warning=settable(label.warning),
    )


def _known(pairs: Pairs) -> Pairs:
    return tuple((settable(name), settable(value) or "?") for name, value in pairs)
