"""How large a label is and how many printer dots that makes.

A label size is width x height in millimetres, as rolls of labels are sold: `62x29` is 62 mm across
the label roll and 29 mm along it. (A piece of film is said the same way: across x along its roll.)
"""

import re
from dataclasses import dataclass
from typing import Final

from stockroom.errors import Code, Refusal, clean_text

RESOLUTIONS: Final = (203, 300)
_SMALLEST: Final = (50, 25)
_WIDEST_MM: Final = 160
_HIGHEST_MM: Final = 240
_LYING: Final = 1.6
_STANDING: Final = 1.25
_NARROWEST_STANDING_MM: Final = 80
_WRITTEN: Final = re.compile(r"([1-9][0-9]{0,3}) ?[xX\u00d7*] ?([1-9][0-9]{0,3})(?: ?mm)?")
_MM_PER_INCH: Final = 25.4


@dataclass(frozen=True, slots=True)
class LabelSize:
    """A label somebody can read with one look, from 50x25 mm to 160 mm wide and 240 mm high.

    It lies, with the words beside the QR code, or stands, with the words below it.
    """

    across_mm: int
    along_mm: int

    def __post_init__(self) -> None:
        if self.across_mm < _SMALLEST[0] or self.along_mm < _SMALLEST[1]:
            raise Refusal(Code.BAD_LABEL, f"A {self} mm label is too small: use 50x25 or larger.")
        if self.across_mm > _WIDEST_MM or self.along_mm > _HIGHEST_MM:
            raise Refusal(
                Code.BAD_LABEL,
                f"A {self} mm label is too large: it is at most {_WIDEST_MM} mm wide"
                f" and {_HIGHEST_MM} mm high.",
            )
        if not (self.lies or self.stands):
            raise Refusal(
                Code.BAD_LABEL,
                f"A {self} mm label has no shape words fit on: it lies, at least {_LYING} times as"
                f" wide as high, like 62x29, or stands, from {_NARROWEST_STANDING_MM} mm wide and"
                f" at least {_STANDING} times as high, like 100x150.",
            )

    @property
    def lies(self) -> bool:
        """Whether there is room for words beside the QR code."""
        return self.across_mm >= _LYING * self.along_mm

    @property
    def stands(self) -> bool:
        """Whether there is room for words below the QR code."""
        is_wide = self.across_mm >= _NARROWEST_STANDING_MM
        return is_wide and self.along_mm >= _STANDING * self.across_mm

    def __str__(self) -> str:
        return f"{self.across_mm}x{self.along_mm}"

    def dots(self, dpi: int) -> tuple[int, int]:
        """Width and height in whole printer dots; refuses a resolution no layout was tried for."""
        if dpi not in RESOLUTIONS:
            raise Refusal(
                Code.BAD_LABEL, f"Labels are drawn at 203 or 300 dots per inch, not {dpi}."
            )
        return round(self.across_mm * dpi / _MM_PER_INCH), round(self.along_mm * dpi / _MM_PER_INCH)


USUAL: Final = LabelSize(62, 29)


def read_size(text: str) -> LabelSize:
    """The label size somebody typed, like `62x29`."""
    found = _WRITTEN.fullmatch(text.strip())
    if not found:
        raise Refusal(
            Code.BAD_LABEL,
            f"A label size is width x height in whole millimetres, like 62x29,"
            f" not '{clean_text(text, 40)}'.",
        )
    return LabelSize(int(found[1]), int(found[2]))
