"""Sheets of paper, and the grid of labels on one.

Margins are at least as wide right as left, at the bottom as at the top, as on sheets of labels that
are sold; so a margin and a pitch say how large a label is. A picture stands in its middle.
"""

import re
from dataclasses import dataclass
from typing import Final

from stockroom.errors import Code, Refusal, clean_text
from stockroom.labels.size import LabelSize
from stockroom.units import INCH, MM

Lengths = tuple[int, int]


_WRITTEN: Final = re.compile(r"([1-9][0-9]?) ?[xX\u00d7*] ?([1-9][0-9]?)")


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper, upright."""

    name: str
    across_nm: int
    along_nm: int


A4: Final = Paper("a4", 210 * MM, 297 * MM)  # ISO 216
LETTER: Final = Paper("letter", 17 * INCH // 2, 11 * INCH)  # ASME Y14.1, size A
PAPERS: Final = {paper.name: paper for paper in (A4, LETTER)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """So many labels across and down a sheet: the margin left and top, and from label to label."""

    paper: Paper
    columns: int
    rows: int
    margin_nm: Lengths
    pitch_nm: Lengths

    def __post_init__(self) -> None:
        if min(self.label_nm) <= 0:
            raise Refusal(
                Code.BAD_LABEL,
                f"{self.columns}x{self.rows} labels with these margins and this pitch are not on a"
                f" sheet of {self.paper.name}: measure the sheet again.",
            )

    @property
    def label_nm(self) -> Lengths:
        """How large one label is: what the margins and the pitch leave of the sheet."""
        across, along = self.pitch_nm
        return (
            min(across, self.paper.across_nm - 2 * self.margin_nm[0] - (self.columns - 1) * across),
            min(along, self.paper.along_nm - 2 * self.margin_nm[1] - (self.rows - 1) * along),
        )

    @property
    def positions(self) -> int:
        """How many labels there are on a sheet."""
        return self.columns * self.rows

    def checked_start(self, start: int) -> int:
        """The position of the first label on a sheet used in part; one beyond its end is refused."""
        if not 1 <= start <= self.positions:
            raise Refusal(
                Code.BAD_LABEL,
                f"A sheet of {self.columns}x{self.rows} labels has the positions 1 to"
                f" {self.positions}, not {start}.",
            )
        return start

    def checked_size(self, size: LabelSize) -> LabelSize:
        """A size of which every label of the sheet holds one; a larger one is refused."""
        across, along = self.label_nm
        if size.across_mm * MM > across or size.along_mm * MM > along:
            raise Refusal(
                Code.BAD_LABEL,
                f"A picture of {size} mm does not fit on labels of {across / MM:.4g} x"
                f" {along / MM:.4g} mm: give a smaller --size or another grid.",
            )
        return size

    def corner_nm(self, position: int, size: LabelSize) -> Lengths:
        """How far from the left and the top a picture begins; row by row, from position 0."""
        row, column = divmod(position, self.columns)
        across, along = self.label_nm
        return (
            self.margin_nm[0] + column * self.pitch_nm[0] + (across - size.across_mm * MM) // 2,
            self.margin_nm[1] + row * self.pitch_nm[1] + (along - size.along_mm * MM) // 2,
        )


# Margin and pitch of sheets with gaps between the labels: common practice, no source, from memory.
_MM_100: Final = MM // 100
_INCH_32: Final = INCH // 32
_WITH_GAPS: Final[dict[tuple[str, int, int], tuple[Lengths, Lengths]]] = {
    ("a4", 2, 7): ((465 * _MM_100, 1_515 * _MM_100), (10_160 * _MM_100, 3_810 * _MM_100)),
    ("a4", 3, 7): ((725 * _MM_100, 1_515 * _MM_100), (6_600 * _MM_100, 3_810 * _MM_100)),
    ("letter", 2, 5): ((5 * _INCH_32, INCH // 2), (134 * _INCH_32, 2 * INCH)),
    ("letter", 3, 10): ((6 * _INCH_32, INCH // 2), (88 * _INCH_32, INCH)),
}


def read_paper(text: str) -> Paper:
    """The sheet of paper somebody named."""
    name = text.strip().casefold()
    if name not in PAPERS:
        raise Refusal(
            Code.BAD_LABEL, f"A sheet is one of {', '.join(PAPERS)}, not '{clean_text(text, 40)}'."
        )
    return PAPERS[name]


def read_grid(
    text: str, paper: Paper, *, margin_nm: Lengths | None = None, pitch_nm: Lengths | None = None
) -> Grid:
    """The grid somebody typed, like `3x8`: across x down.

    Without a margin and a pitch it is a usual one with gaps, or the labels share the whole sheet.
    """
    found = _WRITTEN.fullmatch(text.strip())
    if not found:
        raise Refusal(
            Code.BAD_LABEL,
            f"A grid is labels across x labels down, like 3x8, not '{clean_text(text, 40)}'.",
        )
    columns, rows = int(found[1]), int(found[2])
    usual = _WITH_GAPS.get((paper.name, columns, rows))
    if usual and margin_nm is None and pitch_nm is None:
        margin_nm, pitch_nm = usual
    margin = margin_nm or (0, 0)
    return Grid(
        paper=paper,
        columns=columns,
        rows=rows,
        margin_nm=margin,
        pitch_nm=pitch_nm
        or (
            (paper.across_nm - 2 * margin[0]) // columns,
            (paper.along_nm - 2 * margin[1]) // rows,
        ),
    )
