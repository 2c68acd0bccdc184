"""Three looks, each with one accent and the colours of the verdicts.

Every colour that carries words reaches the contrast of WCAG 2.2 against its background: 4.5 to 1,
in the high-contrast look 7 to 1. No meaning rests on colour alone.
"""

from collections.abc import Mapping

from textual.theme import Theme

DEFAULT_THEME = "dark"


def _theme(name: str, *, dark: bool, colours: Mapping[str, str]) -> Theme:
    """A theme whose every part follows from eleven named colours."""
    accent, paper, ink, quiet = (colours[part] for part in ("accent", "paper", "ink", "quiet"))
    return Theme(
        name=name,
        dark=dark,
        primary=accent,
        accent=accent,
        background=paper,
        surface=colours["raised"],
        panel=colours["raised"],
        foreground=ink,
        success=colours["use"],
        warning=colours["first"],
        error=colours["stop"],
        variables={
            "quiet": quiet,
            "rule": colours["rule"],
            "verdict-use": colours["use"],
            "verdict-first": colours["first"],
            "verdict-test": colours["test"],
            "verdict-stop": colours["stop"],
            "verdict-wait": colours["wait"],
            "footer-background": paper,
            "footer-foreground": quiet,
            "footer-description-foreground": quiet,
            "footer-key-foreground": accent,
            "block-cursor-background": colours["raised"],
            "block-cursor-foreground": ink,
            "input-cursor-background": accent,
            "input-cursor-foreground": paper,
            "border": accent,
            "border-blurred": colours["rule"],
            "scrollbar": colours["rule"],
            "scrollbar-hover": quiet,
            "scrollbar-active": accent,
            "scrollbar-background": paper,
            "scrollbar-background-hover": paper,
            "scrollbar-background-active": paper,
            "scrollbar-corner-color": paper,
        },
    )


THEMES = (
    _theme(
        "light",
        dark=False,
        colours={
            "paper": "#fbfaf6",
            "raised": "#e9e7df",
            "ink": "#1f211d",
            "quiet": "#5f6159",
            "rule": "#c9c6bb",
            "accent": "#0a5c66",
            "use": "#22602a",
            "first": "#7a4e00",
            "test": "#943a00",
            "stop": "#a3141f",
            "wait": "#3d4f9c",
        },
    ),
    _theme(
        "dark",
        dark=True,
        colours={
            "paper": "#14171a",
            "raised": "#262c31",
            "ink": "#dcded8",
            "quiet": "#9aa19f",
            "rule": "#3b4348",
            "accent": "#6fc7ca",
            "use": "#8fcf8b",
            "first": "#e6c765",
            "test": "#f2a261",
            "stop": "#ff8a86",
            "wait": "#a6b8ff",
        },
    ),
    _theme(
        "high-contrast",
        dark=True,
        colours={
            "paper": "#000000",
            "raised": "#2b2b2b",
            "ink": "#ffffff",
            "quiet": "#d6d6d6",
            "rule": "#8c8c8c",
            "accent": "#6ff2ff",
            "use": "#7dff7d",
            "first": "#ffe14d",
            "test": "#ffb25e",
            "stop": "#ff9d9d",
            "wait": "#b4c6ff",
        },
    ),
)
