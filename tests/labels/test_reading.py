"""A simulated camera reads labels that are blurred, dirty, bleached, tilted or badly printed.

The model: the label in printer dots, damaged, turned, sampled at so many camera pixels a module,
blurred, with noise; then another program decodes it. The levels are those that this model gave for
the bare symbol (version 1, level H) when it was chosen; no paper and no camera were at hand.
"""

from collections.abc import Callable
from functools import lru_cache
from math import asin
from random import Random  # noqa: TID251 - seeded
from typing import TypeAlias

import pytest
import zxingcpp
from PIL import Image, ImageChops, ImageDraw, ImageFilter

from stockroom.labels.picture import draw
from stockroom.labels.size import LabelSize
from stockroom.labels.symbol import MODULES, QUIET
from tests.labels.builders import CODE, DATES, a_label
from tests.labels.seeing import Box, symbol_boxes

Harm: TypeAlias = Callable[[Image.Image, Box, Random], None]
Mixed: TypeAlias = Callable[[Image.Image, Image.Image], Image.Image]

SIZES = (LabelSize(50, 25), LabelSize(62, 29), LabelSize(100, 50), LabelSize(100, 150))
PRINTED = pytest.mark.parametrize(
    ("size", "dpi"), [(size, dpi) for size in SIZES for dpi in (203, 300)], ids=str
)
LABEL = a_label(dates=DATES, mass="16.4 kg full", caution="two people")
TRIALS = 20
SHARP, NORMAL, POOR = (0.4, 4), (0.8, 8), (1.2, 12)
"""The blur of a camera in its own pixels, and the standard deviation of its noise in greys."""
SIDE, FINDER = MODULES - 2 * QUIET, 8
MARGIN = 15
"""Percent that chance may take of a level in so few trials: three of them."""
PLANNED = 4.0
"""The camera pixels a module that label sizes are planned for."""


@PRINTED
@pytest.mark.parametrize(
    ("pixels", "camera", "level"),
    [
        (2.0, SHARP, 92),
        (2.5, SHARP, 100),
        (3.0, SHARP, 100),
        (3.0, NORMAL, 95),
        (PLANNED, NORMAL, 100),
        (PLANNED, POOR, 95),
        (5.0, POOR, 99),
    ],
)
def test_a_camera_reads_each_label_from_afar(
    size: LabelSize, dpi: int, pixels: float, camera: tuple[float, int], level: int
) -> None:
    """A sharp camera at 2.5 pixels a module, a poor one at 4."""
    assert share_read(size, dpi, pixels=pixels, camera=camera) >= level - MARGIN


@PRINTED
@pytest.mark.parametrize(("pixels", "level"), [(PLANNED, 98), (5.0, 100)])
def test_a_camera_reads_each_label_from_aside(
    size: LabelSize, dpi: int, pixels: float, level: int
) -> None:
    """Held 35 degrees askew, the label is narrower by the cosine."""
    assert share_read(size, dpi, pixels=pixels, tilt=0.82) >= level - MARGIN


@PRINTED
@pytest.mark.parametrize(("percent", "level"), [(4, 100), (6, 100), (8, 90)])
def test_a_camera_reads_each_label_through_dirt(
    size: LabelSize, dpi: int, percent: int, level: int
) -> None:
    """A solid patch, black or white, on so much of the symbol, off its finders.

    At 8 % the bare symbol was read in 98 of 100 trials; level Q, the next lower, in 49.
    """
    assert share_read(size, dpi, patch(percent)) >= level - MARGIN


@PRINTED
@pytest.mark.parametrize(("percent", "level"), [(1, 100), (2, 100)])
def test_a_camera_reads_each_label_through_scratches(
    size: LabelSize, dpi: int, percent: int, level: int
) -> None:
    """So many of the modules have turned into their opposite."""
    assert share_read(size, dpi, flips(percent)) >= level - MARGIN


@PRINTED
@pytest.mark.parametrize(("lines", "level"), [(1, 100), (4, 98)])
def test_a_camera_reads_each_label_of_a_worn_print_head(
    size: LabelSize, dpi: int, lines: int, level: int
) -> None:
    """Elements that no longer heat leave a white line, one dot wide, through the symbol."""
    assert share_read(size, dpi, dead(lines)) >= level - MARGIN


@PRINTED
@pytest.mark.parametrize(("dots", "level"), [(1, 100), (2, 92)])
@pytest.mark.parametrize("choose", [ImageChops.darker, ImageChops.lighter])
def test_a_camera_reads_each_label_that_was_printed_too_hot_or_too_cold(
    size: LabelSize, dpi: int, choose: Mixed, dots: int, level: int
) -> None:
    """Every stroke is a dot or two wider, or narrower."""
    assert share_read(size, dpi, gain(choose, dots)) >= level - MARGIN


@PRINTED
def test_a_camera_reads_each_label_that_has_faded(size: LabelSize, dpi: int) -> None:
    """With 30 % of its contrast left; thermal paper fades in a year, so it is reprinted before."""
    assert share_read(size, dpi, fade(0.3)) >= 100 - MARGIN


@PRINTED
def test_a_camera_reads_each_label_on_black_film(size: LabelSize, dpi: int) -> None:
    """Cut so close that half a module of white is left around the symbol."""
    assert share_read(size, dpi, cut_close(0.5)) >= 100 - MARGIN


@PRINTED
def test_a_camera_reads_each_label_round_a_thin_roll(size: LabelSize, dpi: int) -> None:
    """The symbol is 0.8 of the roll's diameter wide."""
    assert share_read(size, dpi, curve(0.8)) >= 100 - MARGIN


@pytest.mark.parametrize("dpi", [203, 300])
def test_a_label_that_lost_an_end_is_read_at_the_other(dpi: int) -> None:
    """On 100x150 the same code stands three times; any two may be torn off."""
    size = LabelSize(100, 150)
    boxes = symbol_boxes(LABEL, size, dpi)

    for kept in boxes:
        image = draw(LABEL, size, dpi).convert("L")
        for lost in boxes:
            if lost != kept:
                image.paste(0, lost)
        assert [one.bytes for one in zxingcpp.read_barcodes(image)] == [CODE.encode()]


def share_read(
    size: LabelSize,
    dpi: int,
    harm: Harm | None = None,
    *,
    pixels: float = PLANNED,
    camera: tuple[float, int] = NORMAL,
    tilt: float = 1.0,
) -> float:
    """How many of the trials are read, in percent; the same ones every time."""
    chance = Random(f"{size} {dpi} {pixels} {camera} {tilt}")  # noqa: S311 - no secret
    label, boxes = _drawn(size, dpi), symbol_boxes(LABEL, size, dpi)
    read = 0
    for _ in range(TRIALS):
        image, box = label.copy(), chance.choice(boxes)
        if harm is not None:
            harm(image, box, chance)
        seen = _seen(image, box, pixels, tilt, chance)
        found = zxingcpp.read_barcodes(_blurred(seen, camera, chance))
        read += CODE.encode() in [one.bytes for one in found]
    return 100 * read / TRIALS


@lru_cache(maxsize=8)
def _drawn(size: LabelSize, dpi: int) -> Image.Image:
    return draw(LABEL, size, dpi).convert("L")


def _seen(image: Image.Image, box: Box, pixels: float, tilt: float, chance: Random) -> Image.Image:
    """One QR code and what is around it, as many pixels a module as the camera has, turned."""
    module = (box[2] - box[0]) / MODULES
    around = module * QUIET
    view = (box[0] - around, box[1] - around, box[2] + around, box[3] + around)
    found = Image.new("L", (round(view[2] - view[0]), round(view[3] - view[1])), 255)
    found.paste(image, (-round(view[0]), -round(view[1])))
    fine = 2 * pixels / module
    sides = round(found.width * fine * tilt), round(found.height * fine)
    turned = found.resize(sides, Image.Resampling.BOX).rotate(
        chance.uniform(-180, 180), Image.Resampling.BICUBIC, expand=True, fillcolor=255
    )
    shift = chance.random(), chance.random()
    coarse = turned.width // 2 - 1, turned.height // 2 - 1
    part = (*shift, shift[0] + 2 * coarse[0], shift[1] + 2 * coarse[1])
    return turned.resize(coarse, Image.Resampling.BOX, part)


def _blurred(image: Image.Image, camera: tuple[float, int], chance: Random) -> Image.Image:
    """What the camera makes of it: unsharp, with noise of the same strength everywhere."""
    blur, deviation = camera
    spread = round(deviation * 12**0.5)
    noise = Image.frombytes("L", image.size, chance.randbytes(image.width * image.height))
    grain = noise.point([value * spread // 255 for value in range(256)])
    soft = image.filter(ImageFilter.GaussianBlur(blur)).point(
        [20 + value * 215 // 255 for value in range(256)]
    )
    return ImageChops.add(soft, grain, offset=-spread // 2)


def patch(percent: int) -> Harm:
    """A square of so much of the symbol is black or white; the finders are spared."""

    def harm(image: Image.Image, box: Box, chance: Random) -> None:
        module = (box[2] - box[0]) / MODULES
        side = (percent / 100) ** 0.5 * SIDE
        while True:
            x, y = (chance.uniform(0, SIDE - side) for _ in range(2))
            low, high = FINDER, SIDE - FINDER
            is_on_finder = (x < low and y < low) or (x + side > high and y < low)
            if not (is_on_finder or (x < low and y + side > high)):
                break
        left, top = box[0] + (QUIET + x) * module, box[1] + (QUIET + y) * module
        corners = (left, top, left + side * module, top + side * module)
        ImageDraw.Draw(image).rectangle(corners, fill=chance.choice((0, 255)))

    return harm


def flips(percent: int) -> Harm:
    """So many modules are turned into their opposite; the finders are spared."""

    def harm(image: Image.Image, box: Box, chance: Random) -> None:
        module = (box[2] - box[0]) // MODULES
        spared = {
            (row, column)
            for row in (*range(FINDER), *range(SIDE - FINDER, SIDE))
            for column in (*range(FINDER), *range(SIDE - FINDER, SIDE))
            if row < FINDER or column < FINDER
        }
        every = [divmod(number, SIDE) for number in range(SIDE * SIDE)]
        inside = [place for place in every if place not in spared]
        for row, column in chance.sample(inside, round(SIDE * SIDE * percent / 100)):
            x, y = box[0] + (QUIET + column) * module, box[1] + (QUIET + row) * module
            was = image.getpixel((x, y))
            image.paste(255 if was == 0 else 0, (x, y, x + module, y + module))

    return harm


def dead(lines: int) -> Harm:
    """So many lines along the print are white."""

    def harm(image: Image.Image, box: Box, chance: Random) -> None:
        for x in chance.sample(range(box[0], box[2]), lines):
            image.paste(255, (x, 0, x + 1, image.height))

    return harm


def gain(choose: Mixed, dots: int) -> Harm:
    """Every black stroke is so many dots wider both ways, or narrower."""

    def harm(image: Image.Image, box: Box, chance: Random) -> None:
        for moved in ((1, 0), (0, 1)) * dots:
            image.paste(choose(image, ImageChops.offset(image, *moved)))

    return harm


def fade(left: float) -> Harm:
    """Black has become grey."""

    def harm(image: Image.Image, box: Box, chance: Random) -> None:
        image.paste(image.point([round(255 - (255 - value) * left) for value in range(256)]))

    return harm


def cut_close(modules: float) -> Harm:
    """Everything is black but the symbol and so many modules around it."""

    def harm(image: Image.Image, box: Box, chance: Random) -> None:
        less = round((QUIET - modules) * (box[2] - box[0]) / MODULES)
        kept = (box[0] + less, box[1] + less, box[2] - less, box[3] - less)
        symbol = image.crop(kept)
        image.paste(0, (0, 0, *image.size))
        image.paste(symbol, kept)

    return harm


def curve(part: float) -> Harm:
    """The label lies round a roll; the symbol is such a part of its diameter wide."""

    def harm(image: Image.Image, box: Box, chance: Random) -> None:
        radius = SIDE * (box[2] - box[0]) / MODULES / (2 * part)
        middle = (box[0] + box[2]) // 2
        flat = image.copy()
        image.paste(chance.choice((0, 255)), (0, 0, *image.size))
        for x in range(1 - int(radius), int(radius)):
            from_x = middle + round(radius * asin(x / radius))
            image.paste(flat.crop((from_x, 0, from_x + 1, flat.height)), (middle + x, 0))

    return harm
