"""What can go wrong for a person, and text from outside made harmless.

    Refusal          one sentence somebody can act on
      code           stable, from Code; each belongs to one exit code
      exit           what a command ends with

A refusal means that nothing was written.
"""

import unicodedata
from enum import IntEnum, StrEnum


class Exit(IntEnum):
    """What a command ends with."""

    DONE = 0
    NOT_UNDERSTOOD = 2
    REFUSED = 3
    NOT_FOUND = 4
    NO_BOOK = 5


class Code(StrEnum):
    """Stable names of the refusals, grouped by exit code."""

    # not understood: 2
    BAD_LENGTH = "bad-length"
    BAD_MASS = "bad-mass"
    BAD_MONEY = "bad-money"
    BAD_NUMBER = "bad-number"
    BAD_DATE = "bad-date"
    BAD_SPAN = "bad-span"
    BAD_SETTING = "bad-setting"
    BAD_NAME = "bad-name"
    BAD_LAYER = "bad-layer"
    BAD_ROLL = "bad-roll"
    BAD_LABEL = "bad-label"
    BAD_CURL = "bad-curl"
    BAD_MEMORY = "bad-memory"
    BAD_FILE = "bad-file"
    BAD_USAGE = "bad-usage"
    MISREAD = "misread-code"
    # refused by a rule: 3
    TOO_LONG = "too-long"
    TOO_MANY = "too-many"
    HELD = "held"
    STOPPED = "stopped"
    ENDED = "ended"
    JOB_CLOSED = "job-closed"
    OTHER_JOB = "other-job"
    FUTURE = "future"
    TOO_EARLY = "too-early"
    WRONG_FORM = "wrong-form"
    WRONG_KIND = "wrong-kind"
    TOO_NARROW = "too-narrow"
    ALREADY_THERE = "already-there"
    OTHER_CONTENT = "other-content"
    LATER_ACT = "later-act"
    NOTHING_TO_UNDO = "nothing-to-undo"
    NOT_HELD = "not-held"
    OUT = "out"
    NOT_OUT = "not-out"
    NOT_MISSING = "not-missing"
    NOT_SCRAP = "not-scrap"
    SAME_COUNTER = "same-counter"
    COUNTS_DIFFER = "counts-differ"
    NOT_DRAWN = "not-drawn"
    NOT_COUNTED = "not-counted"
    RESERVED = "reserved"
    NOT_RESERVED = "not-reserved"
    PLAN_STALE = "plan-stale"
    UNKNOWN_SIZE = "unknown-size"
    NOT_COMING = "not-coming"
    ORDER_SENT = "order-sent"
    # not found: 4
    NO_PIECE = "no-such-piece"
    NO_MATERIAL = "no-such-material"
    NO_JOB = "no-such-job"
    NO_PLACE = "no-such-place"
    NO_ACT = "no-such-act"
    NO_PERSON = "no-such-person"
    NO_LOT = "no-such-lot"
    NO_PART = "no-such-part"
    NO_CLAIM = "no-such-claim"
    NO_DRAFT = "no-such-draft"
    NO_SENSOR = "no-such-sensor"
    NO_ZONE = "no-such-zone"
    NO_ORDER = "no-such-order"
    # the book: 5
    BOOK_MISSING = "book-missing"
    BOOK_DAMAGED = "book-damaged"
    BOOK_NEWER = "book-newer"
    BOOK_LOCKED = "book-locked"
    BOOK_READ_ONLY = "book-read-only"
    BOOK_FULL = "book-full"
    BOOK_UNREACHABLE = "book-unreachable"
    FILE_UNWRITABLE = "file-unwritable"
    VERIFY_FOUND = "verify-found"


_FIRST_OF_EACH_EXIT = (
    (Code.BAD_LENGTH, Exit.NOT_UNDERSTOOD),
    (Code.TOO_LONG, Exit.REFUSED),
    (Code.NO_PIECE, Exit.NOT_FOUND),
    (Code.BOOK_MISSING, Exit.NO_BOOK),
)


def exit_of(code: Code) -> Exit:
    """The exit code a refusal belongs to."""
    order = list(Code)
    place = order.index(code)
    return next(
        ends for first, ends in reversed(_FIRST_OF_EACH_EXIT) if place >= order.index(first)
    )


class Refusal(Exception):
    """The tool will not do this; nothing was written, and the sentence says what to do."""

    def __init__(self, code: Code, sentence: str) -> None:
        super().__init__(sentence)
        self.code = code
        self.sentence = sentence

    @property
    def exit(self) -> Exit:
        """What a command that was refused this way ends with."""
        return exit_of(self.code)


_DROPPED = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
_MOST_MARKS = 2
_ECHO = 40


def clean_text(text: str, limit: int = 120) -> str:
    """Text from outside, made harmless for a screen, a label and a log.

    NFC; tab and newline become a space; control, format, surrogate, private and unassigned
    characters are dropped; at most two combining marks follow a letter; runs of spaces become
    one; the result is cut to `limit` characters.
    """
    kept: list[str] = []
    marks = 0
    for character in unicodedata.normalize("NFC", text[: limit * 16]):
        if character in "\t\n\r\v\f\x85\u2028\u2029":
            kept.append(" ")
            marks = 0
            continue
        category = unicodedata.category(character)
        if category in _DROPPED:
            continue
        marks = marks + 1 if category.startswith("M") else 0
        if marks <= _MOST_MARKS:
            kept.append(character)
    return " ".join("".join(kept).split())[:limit].rstrip()


def echoed(text: str) -> str:
    """What was scanned or typed, as a refusal says it: harmless, and no longer than half a line."""
    clean = clean_text(text, _ECHO + 1)
    return clean if len(clean) <= _ECHO else f"{clean[:_ECHO]}…"
