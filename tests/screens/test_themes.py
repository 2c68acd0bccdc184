"""Every look can be read.

The formula of contrast is that of WCAG 2.2 (W3C): relative luminance, success criteria 1.4.3 and
1.4.6; its own worked values 21 (black on white) and 4.54 (#767676 on white) are checked first.
The worked values are from memory.
"""

import pytest
from textual.color import Color
from textual.theme import Theme

from stockroom.screens.themes import THEMES

CARRYING_WORDS = (
    "quiet",
    "verdict-use",
    "verdict-first",
    "verdict-test",
    "verdict-stop",
    "verdict-wait",
)


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour."""

    def linear(part: int) -> float:
        share = part / 255
        return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(part) for part in Color.parse(colour).rgb)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """The contrast of two colours, from 1 to 21."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


@pytest.mark.parametrize(("colour", "ratio"), [("#000000", 21.0), ("#767676", 4.54)])
def test_the_formula_gives_the_known_values(colour: str, ratio: float) -> None:
    """The measure itself is right."""
    assert contrast(colour, "#ffffff") == pytest.approx(ratio, abs=0.005)


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_words_stand_out_from_the_paper_and_from_the_cursor(theme: Theme) -> None:
    """Verdicts, quiet words and the accent can be read on both grounds, in high contrast twice so."""
    least = 7.0 if theme.name == "high-contrast" else 4.5
    words = [theme.variables[name] for name in CARRYING_WORDS]
    words += [theme.primary, str(theme.foreground)]

    for ground in (theme.background, theme.surface):
        assert min(contrast(word, str(ground)) for word in words) >= least


def test_there_are_three_looks_of_our_own() -> None:
    """Light, dark and high contrast."""
    assert [theme.name for theme in THEMES] == ["light", "dark", "high-contrast"]
