"""The units a book speaks, and what each is worth in the whole numbers of every sum.

    typed    what people type becomes whole numbers
    shown    whole numbers become what people expect to read
    money    both ways for money

Lengths are nanometres, areas square millimetres, masses milligrams, money minor units. Factors are
those of the international yard and pound (1959), exact by definition.
"""

from enum import StrEnum
from fractions import Fraction


class System(StrEnum):
    """Which units a book speaks."""

    METRIC = "metric"
    US = "us"


UM = 1_000
MM = 1_000_000
M = 1_000_000_000
MIL = 25_400
INCH = 25_400_000
FOOT = 304_800_000
GRAM = 1_000
KG = 1_000_000
OUNCE = Fraction("28349.523125")
POUND = Fraction("453592.37")
SQUARE_FOOT_MM2 = Fraction("92903.04")
