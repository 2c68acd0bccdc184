"""The kinds of material a shop keeps, and what a kind decides.

Kind                   window-film … other
  .comes_in_rolls      a length on a core; else counted goods in a box
  .is_printed_on       blank print media: its wound days begin with the print
parse_kind(text)       Kind, or a refusal that names the nearest one
  .is_laid_over        clear film that protects a print
Finish                 what film looks like: decides whether lots must match, and may be turned
parse_finish(text)     Finish, or a refusal that names them all
Ink                    what a print was made with; decides how long it rests
parse_ink(text)        Ink, or a refusal that names them all
"""

from difflib import get_close_matches
from enum import StrEnum

from stockroom.errors import Code, Refusal, clean_text


class Kind(StrEnum):
    """What a material is, as the trade sorts it."""

    WINDOW_FILM = "window-film"
    PROTECTIVE_FILM = "protective-film"
    PRINT_VINYL = "print-vinyl"
    CALENDERED_VINYL = "calendered-vinyl"
    LAMINATE = "laminate"
    TRANSFER_TAPE = "transfer-tape"
    LIQUID = "liquid"
    BLADE = "blade"
    TOOL = "tool"
    OTHER = "other"

    @property
    def comes_in_rolls(self) -> bool:
        """Whether pieces of it are a length on a core; otherwise they are counted in a box."""
        return self not in _COUNTED

    @property
    def is_printed_on(self) -> bool:
        """Whether it is blank print media."""
        return self in _PRINTED_ON

    @property
    def is_laid_over(self) -> bool:
        """Whether it is laid over other film to protect it."""
        return self in _LAID_OVER


_COUNTED = frozenset({Kind.LIQUID, Kind.BLADE, Kind.TOOL, Kind.OTHER})
_PRINTED_ON = frozenset({Kind.PRINT_VINYL, Kind.CALENDERED_VINYL})
_LAID_OVER = frozenset({Kind.LAMINATE, Kind.PROTECTIVE_FILM})


class Finish(StrEnum):
    """What film looks like from the room."""

    CLEAR = "clear"
    COLOURED = "coloured"
    METALLIC = "metallic"
    FROSTED = "frosted"

    @property
    def shows_its_lot(self) -> bool:
        """Whether two lots beside one another are seen to differ: common practice, no source."""
        return self is not Finish.CLEAR

    @property
    def has_direction(self) -> bool:
        """Whether it looks different turned, by half a turn too: common practice, no source."""
        return self is Finish.METALLIC


class Ink(StrEnum):
    """What a print was made with."""

    SOLVENT = "solvent"
    ECO_SOLVENT = "eco-solvent"
    LATEX = "latex"
    UV = "uv"
    UNKNOWN = "unknown"


def parse_kind(text: str) -> Kind:
    """The kind a person named, or a refusal (BAD_NAME) that names the nearest one."""
    wanted = "-".join(text.strip().lower().replace("_", " ").split())
    try:
        return Kind(wanted)
    except ValueError:
        near = get_close_matches(wanted, list(Kind), n=1)
        hint = f"did you mean {near[0]}?" if near else "use one of " + ", ".join(Kind) + "."
        raise Refusal(Code.BAD_NAME, f"'{clean_text(text, 40)}' is no kind: {hint}") from None


def parse_ink(text: str) -> Ink:
    """The ink a person named, or a refusal (BAD_NAME) that names them all."""
    try:
        return Ink(text.strip().lower())
    except ValueError:
        shown = clean_text(text, 40)
        raise Refusal(Code.BAD_NAME, f"“{shown}” is no ink: use {', '.join(Ink)}.") from None


def parse_finish(text: str) -> Finish:
    """The finish a person named, or a refusal (BAD_NAME) that names them all."""
    try:
        return Finish(text.strip().lower())
    except ValueError:
        shown = clean_text(text, 40)
        raise Refusal(Code.BAD_NAME, f"“{shown}” is no finish: use {', '.join(Finish)}.") from None
